#include "lang/plan_facts.h"

#include <lauxlib.h>

static void set_integer(lua_State *L, const char *key, lua_Integer value)
{
  lua_pushinteger(L, value);
  lua_setfield(L, -2, key);
}

static void set_number(lua_State *L, const char *key, double value)
{
  lua_pushnumber(L, value);
  lua_setfield(L, -2, key);
}

static void set_text(lua_State *L, const char *key, const char *text)
{
  lua_pushstring(L, text);
  lua_setfield(L, -2, key);
}

/* { start, finish, unit, along_unit, people = { numbers } }, units and persons counted from 1 as Lua does */
static void push_stretch(lua_State *L, const ScriptStretch *stretch)
{
  lua_createtable(L, 0, 5);
  set_integer(L, "start", stretch->start);
  set_integer(L, "finish", stretch->finish);
  set_integer(L, "unit", stretch->unit + 1);
  set_integer(L, "along_unit", stretch->along_unit + 1);
  lua_createtable(L, stretch->people_count, 0);
  for (int i = 0; i < stretch->people_count; i++) {
    lua_pushinteger(L, stretch->people[i] + 1);
    lua_rawseti(L, -2, i + 1);
  }
  lua_setfield(L, -2, "people");
}

static void push_activity(lua_State *L, const ScriptActivity *a)
{
  lua_createtable(L, 0, 13);
  set_text(L, "id", a->id);
  set_text(L, "kind", a->kind);
  set_integer(L, "area", a->area + 1);
  set_integer(L, "step", a->step + 1);
  set_integer(L, "machine", a->machine + 1);
  set_integer(L, "along", a->along_machine + 1);
  set_integer(L, "along_min", a->along_min);
  set_integer(L, "start", a->stretch_count ? a->stretches[0].start : 0);
  set_integer(L, "finish", a->stretch_count ? a->stretches[a->stretch_count - 1].finish : 0);
  set_number(L, "floor_m2", a->floor_m2);
  set_number(L, "material_l", a->material_l);
  set_number(L, "water_l", a->water_l);
  lua_createtable(L, a->stretch_count, 0);
  for (int i = 0; i < a->stretch_count; i++) {
    push_stretch(L, &a->stretches[i]);
    lua_rawseti(L, -2, i + 1);
  }
  lua_setfield(L, -2, "stretches");
}

static void push_person(lua_State *L, const ScriptPerson *person)
{
  lua_createtable(L, 0, 2);
  set_text(L, "name", person->name);
  set_integer(L, "crew", person->crew + 1);
}

void plan_facts_push(lua_State *L, const ScriptPerson *persons, int person_count, const ScriptActivity *activities,
                     int activity_count)
{
  luaL_checkstack(L, 10, "plan");
  lua_createtable(L, 0, 2);
  lua_createtable(L, person_count, 0);
  for (int i = 0; i < person_count; i++) {
    push_person(L, &persons[i]);
    lua_rawseti(L, -2, i + 1);
  }
  lua_setfield(L, -2, "persons");
  lua_createtable(L, activity_count, 0);
  for (int i = 0; i < activity_count; i++) {
    push_activity(L, &activities[i]);
    lua_rawseti(L, -2, i + 1);
  }
  lua_setfield(L, -2, "activities");
}
