/* native_supply.c - power for the rules: which machines a site's circuits carry, cords, generators, GFCI.
 *
 * A load or supply is a table { amps, volts, phases (1 or 3), continuous }. */
#include <lauxlib.h>

#include "lang/native.h"
#include "trade/circuits.h"
#include "trade/generator.h"
#include "trade/power.h"

static PowerPhases phases_of(lua_State *L, int table)
{
  return native_field(L, table, "phases") == 3 ? POWER_THREE_PHASE : POWER_SINGLE_PHASE;
}

static int count_of(lua_State *L, int index)
{
  luaL_checktype(L, index, LUA_TTABLE);
  int count = (int)lua_rawlen(L, index);
  return count <= CIRCUITS_MOST ? count : luaL_error(L, "more than %d loads or circuits", CIRCUITS_MOST);
}

static bool flag(lua_State *L, int index, const char *key)
{
  lua_getfield(L, index, key);
  bool value = lua_toboolean(L, -1);
  lua_pop(L, 1);
  return value;
}

static int read_loads(lua_State *L, int index, Machine loads[CIRCUITS_MOST])
{
  int count = count_of(L, index);
  for (int i = 0; i < count; i++) {
    lua_rawgeti(L, index, i + 1);
    int t = lua_gettop(L);
    loads[i] = (Machine){ native_field(L, t, "amps"), native_field(L, t, "volts"), phases_of(L, t),
                          flag(L, t, "continuous"), 1 };
    lua_pop(L, 1);
  }
  return count;
}

static int read_circuits(lua_State *L, int index, Circuit circuits[CIRCUITS_MOST])
{
  int count = count_of(L, index);
  for (int i = 0; i < count; i++) {
    lua_rawgeti(L, index, i + 1);
    int t = lua_gettop(L);
    circuits[i] = (Circuit){ native_field(L, t, "amps"), native_field(L, t, "volts"), phases_of(L, t) };
    lua_pop(L, 1);
  }
  return count;
}

/* supply.carry(loads, circuits) -> { number of the circuit, or 0: it must wait, for each load } | nil, why */
static int l_carry(lua_State *L)
{
  Machine loads[CIRCUITS_MOST];
  Circuit circuits[CIRCUITS_MOST];
  CircuitPlan plan;
  TradeError error;
  int load_count = read_loads(L, 1, loads), circuit_count = read_circuits(L, 2, circuits);
  if (!circuits_assign(loads, load_count, circuits, circuit_count, &plan, &error)) return native_refused(L, &error);
  lua_createtable(L, load_count, 0);
  for (int i = 0; i < load_count; i++) {
    lua_pushinteger(L, plan.circuit[i] + 1);
    lua_rawseti(L, -2, i + 1);
  }
  return 1;
}

/* supply.drop(load, AWG, metres one way) -> share of the voltage lost | nil, why */
static int l_drop(lua_State *L)
{
  const Conductor *conductor;
  VoltageDrop drop;
  TradeError error;
  luaL_checktype(L, 1, LUA_TTABLE);
  PowerLine line = { phases_of(L, 1), native_field(L, 1, "volts"), native_field(L, 1, "amps"), 0 };
  if (!power_conductor((int)luaL_checkinteger(L, 2), &conductor, &error)) return native_refused(L, &error);
  line.ohm_kft = conductor->stranded_ohm_kft;
  if (!power_drop(&line, luaL_checknumber(L, 3), &drop, &error)) return native_refused(L, &error);
  lua_pushnumber(L, drop.share);
  return 1;
}

/* supply.generator(loads with `drive`, metres of altitude) -> prime rating in kVA, low and high | nil, why */
static int l_generator(lua_State *L)
{
  GeneratorLoad loads[CIRCUITS_MOST];
  GeneratorSize size;
  TradeError error;
  int count = count_of(L, 1);
  for (int i = 0; i < count; i++) {
    lua_rawgeti(L, 1, i + 1);
    int t = lua_gettop(L);
    double kva;
    if (!power_apparent(phases_of(L, t), native_field(L, t, "volts"), native_field(L, t, "amps"), &kva, &error))
      return native_refused(L, &error);
    loads[i] = (GeneratorLoad){ kva, flag(L, t, "drive") };
    lua_pop(L, 1);
  }
  if (!generator_size(loads, count, luaL_checknumber(L, 2), &size, &error)) return native_refused(L, &error);
  lua_pushnumber(L, size.size_low_kva);
  lua_pushnumber(L, size.size_high_kva);
  return 2;
}

/* supply.gfci({ volts, amps, phases, permanent }) -> is it asked for by 29 CFR 1926.404(b)(1)? | nil, why */
static int l_gfci(lua_State *L)
{
  GfciVerdict verdict;
  TradeError error;
  luaL_checktype(L, 1, LUA_TTABLE);
  Receptacle receptacle = { .volts = native_field(L, 1, "volts"), .amps = native_field(L, 1, "amps"),
                            .phases = phases_of(L, 1), .is_permanent = flag(L, 1, "permanent") };
  if (!circuits_gfci(&receptacle, &verdict, &error)) return native_refused(L, &error);
  lua_pushboolean(L, verdict == GFCI_NEEDED);
  return 1;
}

static const luaL_Reg functions[] = {
  { "carry", l_carry },
  { "drop", l_drop },
  { "generator", l_generator },
  { "gfci", l_gfci },
  { NULL, NULL },
};

int native_supply(lua_State *L)
{
  luaL_newlib(L, functions);
  return 1;
}
