/* native_chemistry.c - trade/chemistry.h and trade/slip.h for the rules. */
#include <lauxlib.h>
#include <math.h>

#include "lang/native.h"
#include "trade/chemistry.h"
#include "trade/slip.h"

static void set_number(lua_State *L, const char *key, double value)
{
  if (!isfinite(value)) return;
  lua_pushnumber(L, value);
  lua_setfield(L, -2, key);
}

static void set_flag(lua_State *L, const char *key, bool value)
{
  lua_pushboolean(L, value);
  lua_setfield(L, -2, key);
}

/* chemistry.find(name) -> { spread_low, spread_high (m2/L), dwell_low, dwell_high, dry_low, dry_high (min; 0, 0:
 * none stated), must_be_removed, must_be_neutralised, is_flammable, care } | nil, why */
static int l_find(lua_State *L)
{
  const Chemistry *row;
  TradeError error;
  if (!chemistry_find(luaL_checkstring(L, 1), &row, &error)) return native_refused(L, &error);
  lua_createtable(L, 0, 10);
  set_number(L, "spread_low", row->spread_low_m2_l);
  set_number(L, "spread_high", row->spread_high_m2_l);
  set_number(L, "dwell_low", row->dwell_low_min);
  set_number(L, "dwell_high", row->dwell_high_min);
  set_number(L, "dry_low", row->dry_low_min);
  set_number(L, "dry_high", row->dry_high_min);
  set_flag(L, "must_be_removed", row->must_be_removed);
  set_flag(L, "must_be_neutralised", row->must_be_neutralised);
  set_flag(L, "is_flammable", row->is_flammable);
  lua_pushstring(L, row->care);
  lua_setfield(L, -2, "care");
  return 1;
}

/* chemistry.opens_after(traffic) -> low, high in hours after the last guard coat | nil, why */
static int l_opens_after(lua_State *L)
{
  const ReturnToService *row;
  TradeError error;
  if (!chemistry_opens_after(luaL_checkstring(L, 1), &row, &error)) return native_refused(L, &error);
  lua_pushnumber(L, row->low_h);
  lua_pushnumber(L, row->high_h);
  return 2;
}

/* chemistry.slip(use) -> least DCOF, is it read wet, edition | nil, why */
static int l_slip(lua_State *L)
{
  const SlipCategory *row;
  TradeError error;
  if (!slip_category(luaL_checkstring(L, 1), &row, &error)) return native_refused(L, &error);
  lua_pushnumber(L, row->least_dcof);
  lua_pushboolean(L, row->is_wet);
  lua_pushstring(L, row->edition);
  return 3;
}

static const luaL_Reg functions[] = {
  { "find", l_find },
  { "opens_after", l_opens_after },
  { "slip", l_slip },
  { NULL, NULL },
};

int native_chemistry(lua_State *L)
{
  luaL_newlib(L, functions);
  return 1;
}
