/* native_air.c - the air of the site for the rules: dew point, how long a film stays wet, vapour and exhaust.
 *
 * A climate is a table { air_c, humidity (0 to 1), surface_c, wind_km_h }, a room { volume_m3, fresh_air_m3_h,
 * mixing }. */
#include <lauxlib.h>

#include "lang/native.h"
#include "trade/carbon_monoxide.h"
#include "trade/climate.h"
#include "trade/film.h"
#include "trade/solvent.h"

/* air.margin(climate, required) -> degrees that the surface is above the dew point, dew point in degC, enough? */
static int l_margin(lua_State *L)
{
  SurfaceMargin margin;
  TradeError error;
  luaL_checktype(L, 1, LUA_TTABLE);
  if (!climate_surface_margin(native_field(L, 1, "air_c"), native_field(L, 1, "humidity"),
                              native_field(L, 1, "surface_c"), luaL_checknumber(L, 2), &margin, &error))
    return native_refused(L, &error);
  lua_pushnumber(L, margin.margin_k);
  lua_pushnumber(L, margin.dew_c);
  lua_pushboolean(L, margin.enough);
  return 3;
}

enum { WATER_KG_M3 = 1000 };

/* air.wet_life(climate, spread in m2/L, share of the film that evaporates) -> early, likely, late in hours | nil,
 * why: a film in air that does not dry it has no end */
static int l_wet_life(lua_State *L)
{
  Evaporation evaporation;
  double film_um;
  WetLife life;
  TradeError error;
  luaL_checktype(L, 1, LUA_TTABLE);
  if (!climate_evaporation(native_field(L, 1, "surface_c"), native_field(L, 1, "air_c"),
                           native_field(L, 1, "humidity"), native_field(L, 1, "wind_km_h"), &evaporation, &error) ||
      !film_wet_thickness(luaL_checknumber(L, 2), &film_um, &error) ||
      !film_wet_life(film_um, WATER_KG_M3, luaL_checknumber(L, 3), evaporation.rate, &life, &error))
    return native_refused(L, &error);
  lua_pushnumber(L, life.early_h);
  lua_pushnumber(L, life.likely_h);
  lua_pushnumber(L, life.late_h);
  return 3;
}

static Room read_room(lua_State *L, int index)
{
  luaL_checktype(L, index, LUA_TTABLE);
  return (Room){ native_field(L, index, "volume_m3"), native_field(L, index, "fresh_air_m3_h"),
                 native_field(L, index, "mixing") };
}

/* air.solvent(name, litres, degC, hours, room) -> highest ppm, average ppm, share of the lower explosive limit */
static int l_solvent(lua_State *L)
{
  const Solvent *solvent;
  SolventAir air;
  TradeError error;
  Room room = read_room(L, 5);
  if (!solvent_find(luaL_checkstring(L, 1), &solvent, &error) ||
      !solvent_in_room(solvent, luaL_checknumber(L, 2), luaL_checknumber(L, 3), luaL_checknumber(L, 4), &room, &air,
                       &error))
    return native_refused(L, &error);
  lua_pushnumber(L, air.air.end_ppm);
  lua_pushnumber(L, air.air.average_ppm);
  lua_pushnumber(L, air.lel_share);
  return 3;
}

/* air.exhaust(emission in g/h, degC, hours, room) -> highest ppm, average ppm of carbon monoxide */
static int l_exhaust(lua_State *L)
{
  double gas_m3_h;
  RoomAir air;
  TradeError error;
  Room room = read_room(L, 4);
  if (!carbon_monoxide_flow(luaL_checknumber(L, 1), luaL_checknumber(L, 2), &gas_m3_h, &error) ||
      !room_air(&room, gas_m3_h, luaL_checknumber(L, 3), 0, &air, &error))
    return native_refused(L, &error);
  lua_pushnumber(L, air.end_ppm);
  lua_pushnumber(L, air.average_ppm);
  return 2;
}

static const luaL_Reg functions[] = {
  { "margin", l_margin },
  { "wet_life", l_wet_life },
  { "solvent", l_solvent },
  { "exhaust", l_exhaust },
  { NULL, NULL },
};

int native_air(lua_State *L)
{
  luaL_newlib(L, functions);
  return 1;
}
