/* to_lineage.h - what stdlib/core/lineage.lua says of a value, as plain structs in an arena. */
#ifndef LANG_TO_LINEAGE_H
#define LANG_TO_LINEAGE_H

#include <lua.h>

#include "base/arena.h"
#include "model/lineage.h"

void to_lineage(lua_State *L, int list, Arena *arena, Lineage *lineage);            /* a list of { text, at } */
void to_lineage_unknown(lua_State *L, int table, Arena *arena, Lineage *lineage);   /* { part, within, names } */

#endif
