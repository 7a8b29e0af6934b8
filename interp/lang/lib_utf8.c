/* lib_utf8.c - texts as code points. */
#include "lang/sandbox.h"

#include "base/text.h"

/* utf8.len(s) -> code points, or nil and the position of the first byte that is not UTF-8 */
static int l_len(lua_State *L)
{
  size_t length, at = 0;
  lua_Integer count = 0;
  uint32_t code;
  const char *text = luaL_checklstring(L, 1, &length);
  lib_charge_bytes(L, length);
  while (at < length) {
    size_t bytes = text_decode(text + at, length - at, &code);
    if (bytes == 0) {
      lua_pushnil(L);
      lua_pushinteger(L, (lua_Integer)at + 1);
      return 2;
    }
    at += bytes;
    count++;
  }
  lua_pushinteger(L, count);
  return 1;
}

/* Writes one code point; returns its bytes. */
static size_t encode(uint32_t code, char *out)
{
  if (code < 0x80) return out[0] = (char)code, (size_t)1;
  size_t bytes = code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
  static const unsigned char lead[] = { 0, 0, 0xC0, 0xE0, 0xF0 };
  for (size_t i = bytes - 1; i > 0; i--, code >>= 6) out[i] = (char)(0x80 | (code & 0x3F));
  out[0] = (char)(lead[bytes] | code);
  return bytes;
}

/* utf8.char(...) */
static int l_char(lua_State *L)
{
  luaL_Buffer out;
  char bytes[4];
  int count = lua_gettop(L);
  luaL_buffinit(L, &out);
  for (int i = 1; i <= count; i++) {
    lua_Integer code = luaL_checkinteger(L, i);
    luaL_argcheck(L, code >= 0 && code <= 0x10FFFF && (code < 0xD800 || code > 0xDFFF), i, "not a code point");
    luaL_addlstring(&out, bytes, encode((uint32_t)code, bytes));
  }
  luaL_pushresult(&out);
  return 1;
}

/* utf8.codepoint(s [, position]) -> the code point that begins at that byte */
static int l_codepoint(lua_State *L)
{
  size_t length;
  uint32_t code;
  const char *text = luaL_checklstring(L, 1, &length);
  lua_Integer position = luaL_optinteger(L, 2, 1);
  luaL_argcheck(L, position >= 1 && position <= (lua_Integer)length, 2, "position out of bounds");
  size_t bytes = text_decode(text + position - 1, length - (size_t)position + 1, &code);
  if (bytes == 0) return luaL_error(L, "invalid UTF-8");
  lua_pushinteger(L, code);
  return 1;
}

static int l_codes_step(lua_State *L)
{
  size_t length;
  uint32_t code;
  const char *text = lua_tolstring(L, lua_upvalueindex(1), &length);
  size_t at = (size_t)lua_tointeger(L, lua_upvalueindex(2));
  if (at >= length) return 0;
  size_t bytes = text_decode(text + at, length - at, &code);
  if (bytes == 0) return luaL_error(L, "invalid UTF-8 at byte %I", (LUAI_UACINT)at + 1);
  lua_pushinteger(L, (lua_Integer)(at + bytes));
  lua_replace(L, lua_upvalueindex(2));
  lua_pushinteger(L, (lua_Integer)at + 1);
  lua_pushinteger(L, code);
  return 2;
}

/* utf8.codes(s): an iterator over positions and code points */
static int l_codes(lua_State *L)
{
  luaL_checkstring(L, 1);
  lua_settop(L, 1);
  lua_pushinteger(L, 0);
  lua_pushcclosure(L, l_codes_step, 2);
  return 1;
}

int lib_open_utf8(lua_State *L)
{
  static const luaL_Reg functions[] = {
    { "char", l_char }, { "codepoint", l_codepoint }, { "codes", l_codes }, { "len", l_len }, { NULL, NULL }
  };
  luaL_newlib(L, functions);
  return 1;
}
