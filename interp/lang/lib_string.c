/* lib_string.c - texts: every function charges the bytes it touches and refuses results over SANDBOX_TEXT. */
#include "lang/sandbox.h"

#include <ctype.h>
#include <string.h>

#include "lang/lib_format.h"
#include "lang/lib_pattern.h"

/* string.len(s) */
static int l_len(lua_State *L)
{
  size_t length;
  luaL_checklstring(L, 1, &length);
  lua_pushinteger(L, (lua_Integer)length);
  return 1;
}

/* The end of a range: the offset behind its last byte. */
static size_t end_offset(lua_Integer position, size_t length)
{
  if (position > (lua_Integer)length) return length;
  if (position >= 0) return (size_t)position;
  return position < -(lua_Integer)length ? 0 : length + (size_t)position + 1;
}

/* string.sub(s, first [, last]) */
static int l_sub(lua_State *L)
{
  size_t length;
  const char *text = luaL_checklstring(L, 1, &length);
  size_t begin = lib_offset(luaL_checkinteger(L, 2), length), end = end_offset(luaL_optinteger(L, 3, -1), length);
  lib_charge_bytes(L, begin < end ? end - begin : 0);
  lua_pushlstring(L, text + begin, begin < end ? end - begin : 0);
  return 1;
}

static int map_bytes(lua_State *L, int (*map)(int))
{
  size_t length;
  const char *text = luaL_checklstring(L, 1, &length);
  luaL_Buffer out;
  lib_charge_bytes(L, length);
  char *bytes = luaL_buffinitsize(L, &out, length);
  for (size_t i = 0; i < length; i++) bytes[i] = (char)map((unsigned char)text[i]);
  luaL_pushresultsize(&out, length);
  return 1;
}

/* string.upper(s), string.lower(s): ASCII letters */
static int l_upper(lua_State *L) { return map_bytes(L, toupper); }
static int l_lower(lua_State *L) { return map_bytes(L, tolower); }

/* string.reverse(s) */
static int l_reverse(lua_State *L)
{
  size_t length;
  const char *text = luaL_checklstring(L, 1, &length);
  luaL_Buffer out;
  lib_charge_bytes(L, length);
  char *bytes = luaL_buffinitsize(L, &out, length);
  for (size_t i = 0; i < length; i++) bytes[i] = text[length - 1 - i];
  luaL_pushresultsize(&out, length);
  return 1;
}

/* Bytes of `count` copies with separators between; refused before anything is made. */
static size_t repeated_length(lua_State *L, size_t length, size_t separator, lua_Integer count)
{
  if (count > 2 * (lua_Integer)SANDBOX_TEXT) lib_check_length(L, SANDBOX_TEXT + 1); /* the product may overflow */
  size_t total = length * (size_t)count + separator * ((size_t)count - 1);
  lib_check_length(L, total);
  return total;
}

/* string.rep(s, count [, separator]) */
static int l_rep(lua_State *L)
{
  size_t length, separator_length;
  const char *text = luaL_checklstring(L, 1, &length), *separator = luaL_optlstring(L, 3, "", &separator_length);
  lua_Integer count = luaL_checkinteger(L, 2);
  if (count <= 0 || length + separator_length == 0) {
    lua_pushliteral(L, "");
    return 1;
  }
  size_t total = repeated_length(L, length, separator_length, count);
  luaL_Buffer out;
  lib_charge_bytes(L, total);
  host_charge(L, count);
  luaL_buffinitsize(L, &out, total);
  for (lua_Integer i = 0; i < count; i++) {
    if (i > 0) luaL_addlstring(&out, separator, separator_length);
    luaL_addlstring(&out, text, length);
  }
  luaL_pushresult(&out);
  return 1;
}

/* string.byte(s [, first [, last]]) */
static int l_byte(lua_State *L)
{
  size_t length;
  const char *text = luaL_checklstring(L, 1, &length);
  lua_Integer first = luaL_optinteger(L, 2, 1);
  size_t begin = lib_offset(first, length), end = end_offset(luaL_optinteger(L, 3, first), length);
  if (begin >= end) return 0;
  luaL_argcheck(L, end - begin <= SANDBOX_RESULTS, 3, "too many results");
  luaL_checkstack(L, (int)(end - begin), "too many results");
  host_charge(L, (int64_t)(end - begin));
  for (size_t i = begin; i < end; i++) lua_pushinteger(L, (unsigned char)text[i]);
  return (int)(end - begin);
}

/* string.char(...) */
static int l_char(lua_State *L)
{
  int count = lua_gettop(L);
  luaL_Buffer out;
  char *bytes = luaL_buffinitsize(L, &out, (size_t)count);
  for (int i = 1; i <= count; i++) {
    lua_Integer code = luaL_checkinteger(L, i);
    luaL_argcheck(L, code >= 0 && code <= 255, i, "value out of range");
    bytes[i - 1] = (char)code;
  }
  luaL_pushresultsize(&out, (size_t)count);
  return 1;
}

int lib_open_string(lua_State *L)
{
  static const luaL_Reg functions[] = {
    { "byte", l_byte },      { "char", l_char },         { "find", lib_find },   { "format", lib_format },
    { "gmatch", lib_gmatch }, { "gsub", lib_gsub },      { "len", l_len },       { "lower", l_lower },
    { "match", lib_match },  { "rep", l_rep },           { "reverse", l_reverse }, { "sub", l_sub },
    { "upper", l_upper },    { NULL, NULL }
  };
  luaL_newlib(L, functions);
  return 1;
}
