/* lib_table.c - lists: raw access for a script's own tables, whatever its metatables claim. */
#include "lang/sandbox.h"

#include <stdint.h>

/* A table of the language may keep its items elsewhere: it is read through its metatable, and never changed. */
static lua_Integer check_readable(lua_State *L, int table)
{
  luaL_checktype(L, table, LUA_TTABLE);
  return lib_is_of_language(L, table) ? luaL_len(L, table) : (lua_Integer)lua_rawlen(L, table);
}

static void push_item(lua_State *L, int table, lua_Integer i)
{
  if (lib_is_of_language(L, table)) lua_geti(L, table, i);
  else lua_rawgeti(L, table, i);
}

static lua_Integer check_writable(lua_State *L, int table)
{
  luaL_checktype(L, table, LUA_TTABLE);
  if (lib_is_of_language(L, table) && luaL_getmetafield(L, table, "__newindex") != LUA_TNIL)
    luaL_argerror(L, table, "this table belongs to the language and cannot be changed");
  return (lua_Integer)lua_rawlen(L, table);
}

static void move_item(lua_State *L, lua_Integer from, lua_Integer to)
{
  lua_rawgeti(L, 1, from);
  lua_rawseti(L, 1, to);
}

/* table.insert(list, [position,] value) */
static int l_insert(lua_State *L)
{
  lua_Integer n = check_writable(L, 1), position = n + 1;
  if (lua_gettop(L) == 3) {
    position = luaL_checkinteger(L, 2);
    luaL_argcheck(L, position >= 1 && position <= n + 1, 2, "position out of bounds");
  } else if (lua_gettop(L) != 2) return luaL_error(L, "wrong number of arguments to 'insert'");
  host_charge(L, n + 1 - position);
  for (lua_Integer i = n; i >= position; i--) move_item(L, i, i + 1);
  lua_rawseti(L, 1, position);
  return 0;
}

/* table.remove(list [, position]) -> the value that was there */
static int l_remove(lua_State *L)
{
  lua_Integer n = check_writable(L, 1), position = luaL_optinteger(L, 2, n);
  if (!lua_isnoneornil(L, 2))
    luaL_argcheck(L, (position >= 1 || n == 0) && position >= 0 && position <= n + 1, 2, "position out of bounds");
  lua_rawgeti(L, 1, position);
  if (position > n || position < 1) return 1;
  host_charge(L, n - position);
  for (lua_Integer i = position; i < n; i++) move_item(L, i + 1, i);
  lua_pushnil(L);
  lua_rawseti(L, 1, n);
  return 1;
}

/* Checks a range of items and charges for it. */
static lua_Integer check_range(lua_State *L, lua_Integer first, lua_Integer last, lua_Integer most)
{
  if (first > last) return 0;
  lua_Unsigned count = (lua_Unsigned)last - (lua_Unsigned)first;
  if (count >= (lua_Unsigned)most) luaL_error(L, "too many items: at most %I", (LUAI_UACINT)most);
  host_charge(L, (int64_t)count + 1);
  return (lua_Integer)count + 1;
}

/* table.concat(list [, separator [, first [, last]]]) */
static int l_concat(lua_State *L)
{
  lua_Integer n = check_readable(L, 1);
  size_t separator_length, length;
  const char *separator = luaL_optlstring(L, 2, "", &separator_length);
  lua_Integer first = luaL_optinteger(L, 3, 1), last = luaL_optinteger(L, 4, n);
  lua_Integer count = check_range(L, first, last, SANDBOX_TEXT);
  luaL_Buffer out;
  luaL_buffinit(L, &out);
  for (lua_Integer i = 0; i < count; i++) {
    push_item(L, 1, first + i);
    if (!lua_isstring(L, -1))
      luaL_error(L, "item %I of the list is a %s, which has no text", (LUAI_UACINT)(first + i),
                 luaL_typename(L, -1));
    lua_tolstring(L, -1, &length);
    lib_check_length(L, luaL_bufflen(&out) + length + separator_length);
    lib_charge_bytes(L, length + separator_length);
    luaL_addvalue(&out);
    if (i + 1 < count) luaL_addlstring(&out, separator, separator_length);
  }
  luaL_pushresult(&out);
  return 1;
}

/* table.pack(...) -> { n = count, ... } */
static int l_pack(lua_State *L)
{
  int count = lua_gettop(L);
  lua_createtable(L, count, 1);
  lua_insert(L, 1);
  for (int i = count; i >= 1; i--) lua_rawseti(L, 1, i);
  lua_pushinteger(L, count);
  lua_setfield(L, 1, "n");
  return 1;
}

/* table.unpack(list [, first [, last]]) */
static int l_unpack(lua_State *L)
{
  lua_Integer n = check_readable(L, 1);
  lua_Integer first = luaL_optinteger(L, 2, 1), last = luaL_optinteger(L, 3, n);
  lua_Integer count = check_range(L, first, last, SANDBOX_RESULTS);
  luaL_checkstack(L, (int)count, "too many results");
  for (lua_Integer i = 0; i < count; i++) push_item(L, 1, first + i);
  return (int)count;
}

static bool before_by_value(lua_State *L, int a, int b) { return lua_compare(L, a, b, LUA_OPLT); }

/* The order function is the second argument of table.sort. */
static bool before_by_function(lua_State *L, int a, int b)
{
  lua_pushvalue(L, 2);
  lua_pushvalue(L, a);
  lua_pushvalue(L, b);
  lua_call(L, 2, 1);
  bool answer = lua_toboolean(L, -1);
  lua_pop(L, 1);
  return answer;
}

/* table.sort(list [, before]): stable; a `before` that contradicts itself gives some order, never a hang */
static int l_sort(lua_State *L)
{
  lua_Integer n = check_writable(L, 1);
  bool by_function = !lua_isnoneornil(L, 2);
  if (by_function) luaL_checktype(L, 2, LUA_TFUNCTION);
  lua_settop(L, 2);
  lib_sort(L, 1, n, by_function ? before_by_function : before_by_value);
  return 0;
}

int lib_open_table(lua_State *L)
{
  static const luaL_Reg functions[] = {
    { "concat", l_concat }, { "insert", l_insert }, { "pack", l_pack }, { "remove", l_remove },
    { "sort", l_sort },     { "unpack", l_unpack }, { NULL, NULL }
  };
  luaL_newlib(L, functions);
  return 1;
}
