/* lib_meta.c - metatables for scripts: checked and copied when set, so that nothing is slipped in later. */
#include "lang/sandbox.h"

static const char *const events[] = {
  "__index", "__newindex", "__call", "__tostring", "__pairs", "__len",  "__eq",   "__lt",  "__le",  "__concat",
  "__unm",   "__add",      "__sub",  "__mul",      "__div",   "__mod",  "__pow",  "__idiv", "__band", "__bor",
  "__bxor",  "__shl",      "__shr",  "__bnot",     "__metatable"
};
enum { EVENTS = sizeof events / sizeof *events };

static const char *const refused[] = { "__gc", "__mode", "__close" };
enum { REFUSED = sizeof refused / sizeof *refused };

static const char original = 0; /* its address is the key under which a copy keeps the script's own table */

static int raw_field(lua_State *L, int table, const char *key)
{
  lua_pushstring(L, key);
  return lua_rawget(L, table);
}

static void check(lua_State *L, int meta)
{
  for (int i = 0; i < REFUSED; i++) {
    if (raw_field(L, meta, refused[i]) != LUA_TNIL)
      luaL_error(L, "setmetatable: `%s` is not available", refused[i]);
    lua_pop(L, 1);
  }
  int type = raw_field(L, meta, "__call");
  if (type != LUA_TNIL && type != LUA_TFUNCTION)
    luaL_error(L, "setmetatable: `__call` must be a function, not a %s", lua_typename(L, type));
  lua_pop(L, 1);
}

static void push_copy(lua_State *L, int meta)
{
  lua_createtable(L, 0, 4);
  for (int i = 0; i < EVENTS; i++) {
    if (raw_field(L, meta, events[i]) == LUA_TNIL) lua_pop(L, 1);
    else lua_setfield(L, -2, events[i]);
  }
  lua_pushvalue(L, meta);
  lua_rawsetp(L, -2, &original);
}

/* Has the script changed its table since it was copied? */
static bool is_current(lua_State *L, int copy, int meta)
{
  for (int i = 0; i < EVENTS; i++) {
    raw_field(L, copy, events[i]);
    raw_field(L, meta, events[i]);
    bool same = lua_rawequal(L, -1, -2);
    lua_pop(L, 2);
    if (!same) return false;
  }
  return true;
}

/* Pushes the checked copy of the metatable; the same one again as long as nothing changed. */
static void push_sealed(lua_State *L, int meta)
{
  lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_SEALED);
  int sealed = lua_gettop(L);
  lua_pushvalue(L, meta);
  if (lua_rawget(L, sealed) == LUA_TTABLE && is_current(L, sealed + 1, meta)) return;
  check(L, meta);
  push_copy(L, meta);
  lua_pushvalue(L, meta);
  lua_pushvalue(L, -2);
  lua_rawset(L, sealed);
}

bool lib_is_of_language(lua_State *L, int table)
{
  if (!lua_getmetatable(L, table)) return false;
  bool ours = lua_rawgetp(L, -1, &original) == LUA_TNIL;
  lua_pop(L, 2);
  return ours;
}

/* A table that has a metatable of the language, or one with __metatable, stays as it is. */
static void check_open(lua_State *L, int table)
{
  if (!lua_getmetatable(L, table)) return;
  bool ours = lua_rawgetp(L, -1, &original) == LUA_TNIL;
  if (ours || raw_field(L, lua_gettop(L) - 1, "__metatable") != LUA_TNIL)
    luaL_error(L, "setmetatable: this table's metatable cannot be changed");
  lua_settop(L, 2);
}

/* setmetatable(table, metatable or nil) -> table. What the metatable says later does not count. */
static int l_setmetatable(lua_State *L)
{
  luaL_checktype(L, 1, LUA_TTABLE);
  luaL_argcheck(L, lua_isnil(L, 2) || lua_istable(L, 2), 2, "a table or nil expected");
  lua_settop(L, 2);
  check_open(L, 1);
  host_charge(L, EVENTS);
  if (lua_isnil(L, 2)) lua_pushnil(L);
  else push_sealed(L, 2);
  lua_setmetatable(L, 1);
  lua_settop(L, 1);
  return 1;
}

/* getmetatable(value) -> the table a script set, false for one of the language, nil if there is none */
static int l_getmetatable(lua_State *L)
{
  luaL_checkany(L, 1);
  if (!lua_getmetatable(L, 1)) {
    lua_pushnil(L);
    return 1;
  }
  int meta = lua_gettop(L);
  if (lua_rawgetp(L, meta, &original) == LUA_TNIL) {
    lua_pushboolean(L, false);
    return 1;
  }
  if (raw_field(L, meta, "__metatable") == LUA_TNIL) lua_pop(L, 1);
  return 1;
}

/* ---- for the standard library: the raw ones */

static int l_raw_setmetatable(lua_State *L)
{
  luaL_checktype(L, 1, LUA_TTABLE);
  lua_settop(L, 2);
  lua_setmetatable(L, 1);
  return 1;
}

static int l_raw_getmetatable(lua_State *L)
{
  luaL_checkany(L, 1);
  return lua_getmetatable(L, 1);
}

/* scripted(value) -> is it a table whose metatable a script has set? */
static int l_scripted(lua_State *L)
{
  bool is = lua_type(L, 1) == LUA_TTABLE && lua_getmetatable(L, 1) && lua_rawgetp(L, -1, &original) != LUA_TNIL;
  lua_pushboolean(L, is);
  return 1;
}

static int l_rawget(lua_State *L)
{
  luaL_checktype(L, 1, LUA_TTABLE);
  lua_settop(L, 2);
  lua_rawget(L, 1);
  return 1;
}

static int l_rawset(lua_State *L)
{
  luaL_checktype(L, 1, LUA_TTABLE);
  lua_settop(L, 3);
  lua_rawset(L, 1);
  return 1;
}

static int l_rawequal(lua_State *L)
{
  lua_settop(L, 2);
  lua_pushboolean(L, lua_rawequal(L, 1, 2));
  return 1;
}

static int l_rawlen(lua_State *L)
{
  lua_pushinteger(L, (lua_Integer)lua_rawlen(L, 1));
  return 1;
}

static int l_next(lua_State *L)
{
  luaL_checktype(L, 1, LUA_TTABLE);
  lua_settop(L, 2);
  if (lua_next(L, 1)) return 2;
  lua_pushnil(L);
  return 1;
}

void lib_open_meta(lua_State *L, bool trusted)
{
  static const luaL_Reg checked[] = {
    { "setmetatable", l_setmetatable }, { "getmetatable", l_getmetatable }, { NULL, NULL }
  };
  static const luaL_Reg raw[] = {
    { "setmetatable", l_raw_setmetatable }, { "getmetatable", l_raw_getmetatable },
    { "rawget", l_rawget },   { "rawset", l_rawset }, { "rawequal", l_rawequal },
    { "rawlen", l_rawlen },   { "next", l_next },     { "scripted", l_scripted }, { NULL, NULL }
  };
  luaL_setfuncs(L, trusted ? raw : checked, 0);
}
