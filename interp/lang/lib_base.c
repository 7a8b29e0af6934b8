/* lib_base.c - the functions that are in no table: errors, values and their texts, iteration. */
#include "lang/sandbox.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

void lib_charge_bytes(lua_State *L, size_t bytes) { host_charge(L, 1 + (int64_t)(bytes / 16)); }

void lib_check_length(lua_State *L, size_t length)
{
  if (length > SANDBOX_TEXT) luaL_error(L, "a text may have at most %d bytes", SANDBOX_TEXT);
}

/* ---- errors */

/* error(message [, level]): level 2 blames the caller */
static int l_error(lua_State *L)
{
  host_of(L)->error_level = luaL_optinteger(L, 2, 1) == 2 ? 2 : 1;
  lua_settop(L, 1);
  return lua_error(L);
}

/* assert(value [, message]) -> all arguments */
static int l_assert(lua_State *L)
{
  luaL_checkany(L, 1);
  if (lua_toboolean(L, 1)) return lua_gettop(L);
  if (lua_isnone(L, 2)) return luaL_error(L, "assertion failed");
  lua_settop(L, 2);
  return lua_error(L);
}

enum { ERROR_STEPS = 20 }; /* what it takes to raise and catch one */

/* The value a script sees for an error it caught: Lua's own messages without their place. */
static void tidy_caught(lua_State *L, int index)
{
  if (lua_type(L, index) == LUA_TSTRING) lua_pushstring(L, error_strip(lua_tostring(L, index)));
  else if (error_is_quiet(L, index)) lua_pushliteral(L, "this was reported");
  else return;
  lua_replace(L, index);
}

/* pcall(f, ...) -> true and the results, or false and the error. A budget that ran out passes through. */
static int l_pcall(lua_State *L)
{
  luaL_checkany(L, 1);
  Host *host = host_of(L);
  int status = lua_pcall(L, lua_gettop(L) - 1, LUA_MULTRET, 0);
  host->error_level = 0;
  if (status == LUA_ERRMEM) budget_over_memory(host);
  host_charge(L, status == LUA_OK ? 1 : ERROR_STEPS);
  if (status != LUA_OK) tidy_caught(L, lua_gettop(L));
  lua_pushboolean(L, status == LUA_OK);
  lua_insert(L, 1);
  return lua_gettop(L);
}

/* ---- values */

/* type(value) */
static int l_type(lua_State *L)
{
  luaL_checkany(L, 1);
  lua_pushstring(L, luaL_typename(L, 1));
  return 1;
}

static void push_float(lua_State *L, lua_Number number)
{
  if (isnan(number)) lua_pushliteral(L, "nan"); /* C may print a sign */
  else {
    lua_pushnumber(L, number);
    lua_tostring(L, -1);
  }
}

/* The text that a metatable's __tostring gives, or its __name; false if it has neither. */
static bool push_by_metatable(lua_State *L, int index)
{
  if (luaL_getmetafield(L, index, "__tostring") != LUA_TNIL) {
    lua_pushvalue(L, index);
    lua_call(L, 1, 1);
    if (lua_type(L, -1) != LUA_TSTRING) luaL_error(L, "'__tostring' must return a string");
    return true;
  }
  int type = luaL_getmetafield(L, index, "__name");
  if (type == LUA_TSTRING) return true;
  if (type != LUA_TNIL) lua_pop(L, 1);
  return false;
}

const char *lib_tostring(lua_State *L, int index, size_t *length)
{
  index = lua_absindex(L, index);
  if (!push_by_metatable(L, index)) {
    switch (lua_type(L, index)) {
    case LUA_TSTRING: lua_pushvalue(L, index); break;
    case LUA_TBOOLEAN: lua_pushstring(L, lua_toboolean(L, index) ? "true" : "false"); break;
    case LUA_TNUMBER:
      if (lua_isinteger(L, index)) lua_pushfstring(L, "%I", (LUAI_UACINT)lua_tointeger(L, index));
      else push_float(L, lua_tonumber(L, index));
      break;
    default: lua_pushstring(L, luaL_typename(L, index));
    }
  }
  return lua_tolstring(L, -1, length);
}

/* tostring(value): a table without __tostring is just "table" */
static int l_tostring(lua_State *L)
{
  luaL_checkany(L, 1);
  lib_tostring(L, 1, NULL);
  return 1;
}

static int digit_value(char c)
{
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'z') return c - 'a' + 10;
  if (c >= 'A' && c <= 'Z') return c - 'A' + 10;
  return 36;
}

/* Reads an integer in the base; false if the text is something else. Wraps round like Lua's integers. */
static bool read_in_base(const char *text, size_t length, int base, lua_Integer *value)
{
  static const char blank[] = " \f\n\r\t\v";
  const char *end = text + length;
  while (text < end && strchr(blank, *text) && *text) text++;
  while (end > text && strchr(blank, end[-1]) && end[-1]) end--;
  bool negative = text < end && *text == '-';
  if (negative) text++;
  if (text == end) return false;
  lua_Unsigned sum = 0;
  for (; text < end; text++) {
    int digit = digit_value(*text);
    if (digit >= base) return false;
    sum = sum * (lua_Unsigned)base + (lua_Unsigned)digit;
  }
  *value = (lua_Integer)(negative ? 0 - sum : sum);
  return true;
}

static int to_number_in_base(lua_State *L)
{
  size_t length;
  lua_Integer base = luaL_checkinteger(L, 2), value;
  luaL_checktype(L, 1, LUA_TSTRING);
  luaL_argcheck(L, base >= 2 && base <= 36, 2, "base out of range");
  const char *text = lua_tolstring(L, 1, &length);
  lib_charge_bytes(L, length);
  if (read_in_base(text, length, (int)base, &value)) lua_pushinteger(L, value);
  else lua_pushnil(L);
  return 1;
}

enum { NUMBER_LONGEST = 1000 }; /* bytes; reading the digits of a number takes the square of their count */

static void push_read_number(lua_State *L)
{
  size_t length;
  const char *text = lua_tolstring(L, 1, &length);
  if (length > NUMBER_LONGEST || lua_stringtonumber(L, text) != length + 1) lua_pushnil(L);
}

/* tonumber(value [, base]) -> number, or nil if it is none */
static int l_tonumber(lua_State *L)
{
  if (!lua_isnoneornil(L, 2)) return to_number_in_base(L);
  luaL_checkany(L, 1);
  if (lua_type(L, 1) == LUA_TNUMBER) lua_pushvalue(L, 1);
  else if (lua_type(L, 1) == LUA_TSTRING) push_read_number(L);
  else lua_pushnil(L);
  return 1;
}

/* select(n, ...) -> the arguments from the n-th on; select("#", ...) -> how many there are */
static int l_select(lua_State *L)
{
  int count = lua_gettop(L) - 1;
  if (lua_type(L, 1) == LUA_TSTRING && strcmp(lua_tostring(L, 1), "#") == 0) {
    lua_pushinteger(L, count);
    return 1;
  }
  lua_Integer n = luaL_checkinteger(L, 1);
  if (n < 0) n = count + n + 1;
  luaL_argcheck(L, n >= 1, 1, "index out of range");
  return n > count ? 0 : count - (int)n + 1;
}

/* ---- iteration */

static int l_ipairs_step(lua_State *L)
{
  lua_Integer i = luaL_checkinteger(L, 2) + 1;
  lua_pushinteger(L, i);
  return lua_geti(L, 1, i) == LUA_TNIL ? 1 : 2;
}

/* ipairs(list) */
static int l_ipairs(lua_State *L)
{
  luaL_checkany(L, 1);
  lua_settop(L, 1);
  lua_pushcfunction(L, l_ipairs_step);
  lua_insert(L, 1);
  lua_pushinteger(L, 0);
  return 3;
}

/* pairs(table): 1, 2, 3 ... first, then other keys: numbers, texts by bytes, false, true */
static int l_pairs(lua_State *L)
{
  luaL_checkany(L, 1);
  if (luaL_getmetafield(L, 1, "__pairs") == LUA_TNIL) {
    luaL_checktype(L, 1, LUA_TTABLE);
    return lib_push_pairs(L, 1, 1);
  }
  lua_pushvalue(L, 1);
  lua_call(L, 1, 3);
  return 3;
}

void lib_open_base(lua_State *L, bool trusted)
{
  static const luaL_Reg functions[] = {
    { "assert", l_assert }, { "error", l_error },       { "ipairs", l_ipairs },
    { "pairs", l_pairs },   { "pcall", l_pcall },       { "select", l_select },
    { "type", l_type },     { "tonumber", l_tonumber }, { "tostring", l_tostring }, { NULL, NULL }
  };
  luaL_setfuncs(L, functions, 0);
  lua_pushcfunction(L, trusted ? module_require_library : module_require);
  lua_setfield(L, -2, "require");
  lib_open_meta(L, trusted);
}
