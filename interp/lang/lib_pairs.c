/* lib_pairs.c - the keys of a table in a defined order. */
#include "lang/sandbox.h"

#include <string.h>

/* The other keys, in this order of kinds; a kind that is not here has no order and is refused. */
typedef enum { KIND_NUMBER, KIND_TEXT, KIND_BOOLEAN, KIND_NONE } KeyKind;

static KeyKind kind_of(lua_State *L, int index)
{
  switch (lua_type(L, index)) {
  case LUA_TNUMBER: return KIND_NUMBER;
  case LUA_TSTRING: return KIND_TEXT;
  case LUA_TBOOLEAN: return KIND_BOOLEAN;
  default: return KIND_NONE;
  }
}

static bool text_before(lua_State *L, int a, int b)
{
  size_t a_length, b_length;
  const char *a_text = lua_tolstring(L, a, &a_length), *b_text = lua_tolstring(L, b, &b_length);
  int order = memcmp(a_text, b_text, a_length < b_length ? a_length : b_length);
  return order ? order < 0 : a_length < b_length;
}

static bool key_before(lua_State *L, int a, int b)
{
  KeyKind kind = kind_of(L, a), other = kind_of(L, b);
  if (kind != other) return kind < other;
  if (kind == KIND_TEXT) return text_before(L, a, b);
  if (kind == KIND_BOOLEAN) return !lua_toboolean(L, a) && lua_toboolean(L, b);
  return lua_compare(L, a, b, LUA_OPLT);
}

/* Is the key in 1..n? Those are walked without a list. */
static bool is_position(lua_State *L, int index, lua_Integer n)
{
  if (!lua_isinteger(L, index)) return false;
  lua_Integer key = lua_tointeger(L, index);
  return key >= 1 && key <= n;
}

static lua_Integer count_positions(lua_State *L, int table)
{
  lua_Integer n = 0;
  while (lua_rawgeti(L, table, n + 1) != LUA_TNIL) {
    lua_pop(L, 1);
    n++;
  }
  lua_pop(L, 1);
  return n;
}

/* Pushes a list of the keys outside 1..n, unsorted. Returns how many. */
static lua_Integer push_other_keys(lua_State *L, int table, lua_Integer n)
{
  lua_Integer count = 0;
  lua_createtable(L, 0, 0);
  int list = lua_gettop(L);
  for (lua_pushnil(L); lua_next(L, table);) {
    lua_pop(L, 1);
    if (is_position(L, -1, n)) continue;
    if (kind_of(L, -1) == KIND_NONE)
      luaL_error(L, "pairs: a %s is a key of the table, and such keys have no order", luaL_typename(L, -1));
    lua_pushvalue(L, -1);
    lua_rawseti(L, list, ++count);
  }
  return count;
}

/* Upvalues: the list of other keys, its length, n, whether values come through metamethods, and the step. */
enum { UP_LIST = 1, UP_COUNT, UP_POSITIONS, UP_THROUGH, UP_STEP, UPVALUES = UP_STEP };

static void push_key(lua_State *L, lua_Integer step, lua_Integer n)
{
  if (step <= n) lua_pushinteger(L, step);
  else lua_rawgeti(L, lua_upvalueindex(UP_LIST), step - n);
}

/* Gives the next key that still has a value. A script can call it with whatever it likes. */
static int l_pairs_step(lua_State *L)
{
  luaL_checktype(L, 1, LUA_TTABLE);
  lua_Integer step = lua_tointeger(L, lua_upvalueindex(UP_STEP));
  lua_Integer n = lua_tointeger(L, lua_upvalueindex(UP_POSITIONS));
  lua_Integer last = n + lua_tointeger(L, lua_upvalueindex(UP_COUNT));
  bool through = lua_toboolean(L, lua_upvalueindex(UP_THROUGH));
  while (++step <= last) {
    lua_settop(L, 1);
    push_key(L, step, n);
    lua_pushvalue(L, -1);
    int type = through ? lua_gettable(L, 1) : lua_rawget(L, 1);
    if (type != LUA_TNIL) break;
  }
  lua_pushinteger(L, step);
  lua_replace(L, lua_upvalueindex(UP_STEP));
  return step <= last ? 2 : 0;
}

int lib_push_pairs(lua_State *L, int keys_of, int values_of)
{
  bool through = keys_of != values_of;
  lua_pushvalue(L, keys_of);
  int table = lua_gettop(L);
  lua_Integer n = count_positions(L, table), count = push_other_keys(L, table, n);
  host_charge(L, n + 4 * count);
  lib_sort(L, table + 1, count, key_before);
  lua_pushinteger(L, count);
  lua_pushinteger(L, n);
  lua_pushboolean(L, through);
  lua_pushinteger(L, 0);
  lua_pushcclosure(L, l_pairs_step, UPVALUES);
  lua_pushvalue(L, values_of);
  lua_pushnil(L);
  return 3;
}
