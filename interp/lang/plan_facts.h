/* plan_facts.h - the facts of a schedule as a Lua table, for the rules of scope "plan"
 * (stdlib/core/plan_facts.lua).
 *
 *     { persons = { { name, crew } },
 *       activities = { { id, kind, area, step, machine, along, along_min, start, finish, floor_m2, material_l, water_l,
 *         stretches = { { start, finish, unit, along_unit, people = { numbers } } } } } }      all counted from 1 */
#ifndef LANG_PLAN_FACTS_H
#define LANG_PLAN_FACTS_H

#include <lua.h>

#include "lang/script.h"

/* Pushes the table. */
void plan_facts_push(lua_State *L, const ScriptPerson *persons, int person_count, const ScriptActivity *activities,
                     int activity_count);

#endif
