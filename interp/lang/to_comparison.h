/* to_comparison.h - what stdlib/core/compare.lua found, as plain structs in an arena. */
#ifndef LANG_TO_COMPARISON_H
#define LANG_TO_COMPARISON_H

#include <lua.h>

#include "base/arena.h"
#include "model/comparison.h"

/* Of a table { was, now, changes, steps }. */
void to_comparison(lua_State *L, int table, Arena *arena, Comparison *comparison);

#endif
