/* native_exposure.c - what a person meets in a shift, for the rules: noise, hand-arm vibration, dust; limits.
 *
 * Tasks are a list of { level, hours }. */
#include <lauxlib.h>
#include <math.h>
#include <string.h>

#include "lang/native.h"
#include "trade/dust.h"
#include "trade/limits.h"
#include "trade/noise.h"
#include "trade/vibration.h"

enum { TASKS = 256 };

static int read_tasks(lua_State *L, int index, Exposure tasks[TASKS])
{
  luaL_checktype(L, index, LUA_TTABLE);
  int count = (int)lua_rawlen(L, index);
  if (count > TASKS) return luaL_error(L, "more than %d tasks in a shift", TASKS);
  for (int i = 0; i < count; i++) {
    lua_rawgeti(L, index, i + 1);
    int task = lua_gettop(L);
    tasks[i] = (Exposure){ native_field(L, task, "level"), native_field(L, task, "hours") };
    lua_pop(L, 1);
  }
  return count;
}

/* exposure.noise(criterion, tasks) -> dose in percent, 8 h level in dBA (nil without a dose), ever too loud? */
static int l_noise(lua_State *L)
{
  Exposure tasks[TASKS];
  const NoiseCriterion *criterion;
  NoiseDose dose;
  TradeError error;
  int count = read_tasks(L, 2, tasks);
  if (!noise_criterion(luaL_checkstring(L, 1), &criterion, &error) ||
      !noise_dose(criterion, tasks, count, &dose, &error))
    return native_refused(L, &error);
  lua_pushnumber(L, dose.dose_percent);
  if (isfinite(dose.average_dba)) lua_pushnumber(L, dose.average_dba);
  else lua_pushnil(L);
  lua_pushboolean(L, dose.over_highest);
  return 3;
}

/* exposure.vibration(tasks) -> A(8) in m/s2 */
static int l_vibration(lua_State *L)
{
  Exposure tasks[TASKS];
  double a8;
  TradeError error;
  int count = read_tasks(L, 1, tasks);
  if (!vibration_daily(tasks, count, &a8, &error)) return native_refused(L, &error);
  lua_pushnumber(L, a8);
  return 1;
}

static const struct {
  const char *word;
  unsigned controls;
} dust_words[] = {
  { "water feed", DUST_WATER_FEED },
  { "collector", DUST_COLLECTOR },
  { "filter 99", DUST_FILTER_99 },
  { "filter cleaning", DUST_FILTER_CLEANING },
  { "25 cfm an inch", DUST_AIRFLOW_25_CFM_IN },
  { "hepa between passes", DUST_HEPA_BETWEEN_PASSES },
};
enum { DUST_WORDS = sizeof dust_words / sizeof *dust_words };

static unsigned read_controls(lua_State *L, int index)
{
  unsigned controls = 0;
  luaL_checktype(L, index, LUA_TTABLE);
  for (lua_Integer i = 1; lua_rawgeti(L, index, i) == LUA_TSTRING; i++) {
    for (int w = 0; w < DUST_WORDS; w++)
      if (strcmp(lua_tostring(L, -1), dust_words[w].word) == 0) controls |= dust_words[w].controls;
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
  return controls;
}

/* exposure.dust({ equipment, method, indoors, hours, controls = { words } }) -> "followed" and the respirator's
 * protection factor (0: none) | "missing" and { words } | "no row" | nil, why */
static int l_dust(lua_State *L)
{
  luaL_checktype(L, 1, LUA_TTABLE);
  lua_settop(L, 1);
  lua_getfield(L, 1, "equipment");
  lua_getfield(L, 1, "method");
  lua_getfield(L, 1, "indoors");
  lua_getfield(L, 1, "controls");
  DustPlace place = lua_toboolean(L, 4) ? DUST_INDOORS : DUST_OUTDOORS;
  DustTask task = { luaL_checkstring(L, 2), luaL_checkstring(L, 3), place, native_field(L, 1, "hours"),
                    read_controls(L, 5) };
  DustVerdict verdict;
  TradeError error;
  if (!dust_check(&task, &verdict, &error)) return native_refused(L, &error);
  if (verdict.finding == DUST_NO_ROW) {
    lua_pushliteral(L, "no row");
    return 1;
  }
  if (verdict.finding == DUST_ROW_FOLLOWED) {
    lua_pushliteral(L, "followed");
    lua_pushinteger(L, verdict.respirator.apf);
    return 2;
  }
  lua_pushliteral(L, "missing");
  lua_newtable(L);
  lua_Integer count = 0;
  for (int w = 0; w < DUST_WORDS; w++)
    if (verdict.missing & dust_words[w].controls) {
      lua_pushstring(L, dust_words[w].word);
      lua_rawseti(L, -2, ++count);
    }
  return 2;
}

/* exposure.limit(id) -> { low, high (nil: open), says, edition } */
static int l_limit(lua_State *L)
{
  const Limit *limit;
  TradeError error;
  if (!limit_find(luaL_checkstring(L, 1), &limit, &error)) return luaL_error(L, "%s", error.message);
  lua_createtable(L, 0, 4);
  if (isfinite(limit->low)) lua_pushnumber(L, limit->low), lua_setfield(L, -2, "low");
  if (isfinite(limit->high)) lua_pushnumber(L, limit->high), lua_setfield(L, -2, "high");
  lua_pushstring(L, limit->says);
  lua_setfield(L, -2, "says");
  lua_pushstring(L, limit->edition);
  lua_setfield(L, -2, "edition");
  return 1;
}

static const luaL_Reg functions[] = {
  { "noise", l_noise },
  { "vibration", l_vibration },
  { "dust", l_dust },
  { "limit", l_limit },
  { NULL, NULL },
};

int native_exposure(lua_State *L)
{
  luaL_newlib(L, functions);
  return 1;
}
