/* lib_math.c - numbers; no infinity, no random. */
#include "lang/sandbox.h"

#include <math.h>

/* A float that is a whole number becomes an integer if it fits. */
static void push_whole(lua_State *L, lua_Number value)
{
  lua_Integer whole;
  if (lua_numbertointeger(value, &whole)) lua_pushinteger(L, whole);
  else lua_pushnumber(L, value);
}

static int round_with(lua_State *L, double (*round_it)(double))
{
  if (lua_isinteger(L, 1)) lua_settop(L, 1);
  else push_whole(L, round_it(luaL_checknumber(L, 1)));
  return 1;
}

static int to_floor(lua_State *L) { return round_with(L, floor); }
static int to_ceil(lua_State *L) { return round_with(L, ceil); }

static int apply(lua_State *L, double (*function)(double))
{
  lua_pushnumber(L, function(luaL_checknumber(L, 1)));
  return 1;
}

static int l_sqrt(lua_State *L) { return apply(L, sqrt); }
static int l_exp(lua_State *L) { return apply(L, exp); }

/* math.abs(x) */
static int l_abs(lua_State *L)
{
  if (!lua_isinteger(L, 1)) return apply(L, fabs);
  lua_Integer value = lua_tointeger(L, 1);
  lua_pushinteger(L, value < 0 ? (lua_Integer)(0 - (lua_Unsigned)value) : value);
  return 1;
}

/* math.log(x [, base]) */
static int l_log(lua_State *L)
{
  lua_Number x = luaL_checknumber(L, 1), base = luaL_optnumber(L, 2, 0);
  if (lua_isnoneornil(L, 2)) lua_pushnumber(L, log(x));
  else if (base == 2.0) lua_pushnumber(L, log2(x));
  else if (base == 10.0) lua_pushnumber(L, log10(x));
  else lua_pushnumber(L, log(x) / log(base));
  return 1;
}

/* The argument that comes first by `<`, or last when `largest`. */
static int choose(lua_State *L, bool largest)
{
  int best = 1, count = lua_gettop(L);
  luaL_argcheck(L, count >= 1, 1, "number expected");
  for (int i = 1; i <= count; i++) {
    luaL_checknumber(L, i);
    if (largest ? lua_compare(L, best, i, LUA_OPLT) : lua_compare(L, i, best, LUA_OPLT)) best = i;
  }
  lua_pushvalue(L, best);
  return 1;
}

static int l_max(lua_State *L) { return choose(L, true); }
static int l_min(lua_State *L) { return choose(L, false); }

/* math.fmod(a, b): the remainder that keeps the sign of a */
static int l_fmod(lua_State *L)
{
  if (!lua_isinteger(L, 1) || !lua_isinteger(L, 2)) {
    lua_pushnumber(L, fmod(luaL_checknumber(L, 1), luaL_checknumber(L, 2)));
    return 1;
  }
  lua_Integer a = lua_tointeger(L, 1), b = lua_tointeger(L, 2);
  luaL_argcheck(L, b != 0, 2, "zero");
  lua_pushinteger(L, b == -1 ? 0 : a % b); /* the smallest integer by -1 overflows */
  return 1;
}

/* math.modf(x) -> whole part, fraction */
static int l_modf(lua_State *L)
{
  double whole, x = luaL_checknumber(L, 1), fraction = modf(x, &whole);
  lua_pushnumber(L, whole);
  lua_pushnumber(L, fraction);
  return 2;
}

/* math.tointeger(x) -> integer, or nil if x is not one */
static int l_tointeger(lua_State *L)
{
  int whole;
  lua_Integer value = lua_type(L, 1) == LUA_TNUMBER ? lua_tointegerx(L, 1, &whole) : (whole = 0);
  if (whole) lua_pushinteger(L, value);
  else lua_pushnil(L);
  return 1;
}

/* math.type(x) -> "integer", "float" or nil */
static int l_type(lua_State *L)
{
  luaL_checkany(L, 1);
  if (lua_type(L, 1) != LUA_TNUMBER) lua_pushnil(L);
  else lua_pushstring(L, lua_isinteger(L, 1) ? "integer" : "float");
  return 1;
}

int lib_open_math(lua_State *L)
{
  static const luaL_Reg functions[] = {
    { "abs", l_abs },   { "ceil", to_ceil }, { "exp", l_exp }, { "floor", to_floor },       { "fmod", l_fmod },
    { "log", l_log },   { "max", l_max },    { "min", l_min }, { "modf", l_modf },          { "sqrt", l_sqrt },
    { "type", l_type }, { "tointeger", l_tointeger },          { NULL, NULL }
  };
  luaL_newlib(L, functions);
  lua_pushnumber(L, 3.14159265358979323846);
  lua_setfield(L, -2, "pi");
  lua_pushinteger(L, LUA_MAXINTEGER);
  lua_setfield(L, -2, "maxinteger");
  lua_pushinteger(L, LUA_MININTEGER);
  lua_setfield(L, -2, "mininteger");
  return 1;
}
