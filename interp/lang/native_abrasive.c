/* native_abrasive.c - tools for the rules: grit, bond, removal, sheen, rates of work. */
#include <lauxlib.h>
#include <string.h>

#include "lang/native.h"
#include "trade/coverage.h"
#include "trade/grit.h"
#include "trade/removal.h"
#include "trade/sheen.h"

/* The words of the field `system`, in the order of GritSystem; NULL where the language has no word. */
static const char *const system_words[GRIT_SYSTEMS] = {
  [GRIT_P] = "FEPA P",     [GRIT_F] = "FEPA F",        [GRIT_JIS] = "JIS",       [GRIT_CAMI] = "CAMI",
  [GRIT_SIEVE] = "sieve",  [GRIT_DIAMOND] = "diamond", [GRIT_PAD] = "floor pad",
};

/* Reads { grit =, system =, bond = } at `index`. */
static bool read_tool(lua_State *L, int index, Grit *grit, BondFamily *bond, TradeError *error)
{
  luaL_checktype(L, index, LUA_TTABLE);
  lua_getfield(L, index, "grit");
  lua_getfield(L, index, "system");
  lua_getfield(L, index, "bond");
  const char *system = lua_tostring(L, -2), *family = lua_tostring(L, -1);
  *grit = (Grit){ GRIT_PAD, lua_tonumber(L, -3) };
  for (int i = 0; system && i < GRIT_SYSTEMS; i++)
    if (system_words[i] && strcmp(system_words[i], system) == 0) grit->system = (GritSystem)i;
  bool found = bond_find(family ? family : "", bond, error);
  lua_pop(L, 3);
  return found;
}

/* abrasive.size { grit =, system = , bond = } -> micrometres | nil, why */
static int l_size(lua_State *L)
{
  Grit grit;
  BondFamily bond;
  GritSize size;
  TradeError error;
  if (!read_tool(L, 1, &grit, &bond, &error) || !grit_size(grit, &size, &error)) return native_refused(L, &error);
  lua_pushnumber(L, size.size_um);
  return 1;
}

/* abrasive.step(last, next) -> verdict ("good", "long", "skipped", "repeat", "back"), ratio, family change | nil,
 * why */
static int l_step(lua_State *L)
{
  static const char *const verdicts[] = { [GRIT_STEP_GOOD] = "good", [GRIT_STEP_LONG] = "long",
                                          [GRIT_STEP_SKIPPED] = "skipped", [GRIT_STEP_REPEAT] = "repeat",
                                          [GRIT_STEP_BACK] = "back" };
  Grit last, next;
  BondFamily last_bond, next_bond;
  GritStep step;
  TradeError error;
  if (!read_tool(L, 1, &last, &last_bond, &error) || !read_tool(L, 2, &next, &next_bond, &error) ||
      !grit_step(last, last_bond, next, next_bond, &step, &error))
    return native_refused(L, &error);
  lua_pushstring(L, verdicts[step.verdict]);
  lua_pushnumber(L, step.judged_by);
  lua_pushboolean(L, step.family_change);
  return 3;
}

enum { CHAIN = 64 };

/* abrasive.sheen({ tools coarse to fine, each { grit, system, bond, cleared } }, finish) -> low, high, ceiling GU |
 * nil, why finish: "bare", "burnished", "guarded" */
static int l_sheen(lua_State *L)
{
  static const char *const finishes[] = { "bare", "burnished", "guarded", NULL };
  luaL_checktype(L, 1, LUA_TTABLE);
  SheenFinish finish = (SheenFinish)luaL_checkoption(L, 2, "bare", finishes);
  SheenStep steps[CHAIN];
  SheenExpectation expect;
  TradeError error;
  size_t count = lua_rawlen(L, 1);
  if (count > CHAIN) return luaL_error(L, "more than %d abrasive steps", CHAIN);
  for (size_t i = 0; i < count; i++) {
    Grit grit;
    lua_rawgeti(L, 1, (lua_Integer)i + 1);
    if (!read_tool(L, lua_gettop(L), &grit, &steps[i].bond, &error) || !grit_as_pad(grit, &steps[i].grit, &error))
      return native_refused(L, &error);
    lua_getfield(L, -1, "cleared");
    steps[i].cleared = lua_toboolean(L, -1);
    lua_pop(L, 2);
  }
  if (!sheen_expect(steps, count, finish, NULL, &expect, &error)) return native_refused(L, &error);
  lua_pushnumber(L, expect.low_gu);
  lua_pushnumber(L, expect.high_gu);
  lua_pushnumber(L, expect.ceiling_gu);
  return 3;
}

/* abrasive.passes(last, next, mohs) -> passes that take out the last tool's scratch, the scratch and a pass in
 * um */
static int l_passes(lua_State *L)
{
  BondFamily last_bond;
  RemovalStep step = { .mohs = luaL_checknumber(L, 3) };
  RemovalClearing clearing;
  TradeError error;
  if (!read_tool(L, 1, &step.last, &last_bond, &error) || !read_tool(L, 2, &step.next, &step.next_bond, &error) ||
      !removal_clear(&step, &clearing, &error))
    return native_refused(L, &error);
  lua_pushinteger(L, clearing.passes);
  lua_pushnumber(L, clearing.scratch_um);
  lua_pushnumber(L, clearing.depth_um);
  return 3;
}

/* abrasive.family(bond) -> { order =, grits = { coarse to fine } }: its place in a job, what is on offer */
static int l_family(lua_State *L)
{
  BondFamily bond;
  TradeError error;
  if (!bond_find(luaL_checkstring(L, 1), &bond, &error)) return native_refused(L, &error);
  const BondInfo *info = bond_info(bond);
  lua_createtable(L, 0, 2);
  lua_pushinteger(L, (lua_Integer)bond);
  lua_setfield(L, -2, "order");
  lua_createtable(L, (int)info->grit_count, 0);
  for (size_t i = 0; i < info->grit_count; i++) {
    lua_pushnumber(L, info->grits[i]);
    lua_rawseti(L, -2, (lua_Integer)i + 1);
  }
  lua_setfield(L, -2, "grits");
  return 1;
}

/* abrasive.matrix(mohs) -> slab word, bond words: "very hard", "soft to extra soft" */
static int l_matrix(lua_State *L)
{
  const BondChoice *choice;
  TradeError error;
  if (!bond_for_mohs(luaL_checknumber(L, 1), &choice, &error)) return native_refused(L, &error);
  lua_pushstring(L, choice->slab);
  lua_pushstring(L, choice->bond);
  return 2;
}

/* abrasive.walk(bond) -> usual walking speed, low and high in ft/min; nil where the trade has none */
static int l_walk(lua_State *L)
{
  BondFamily bond;
  TradeError error;
  if (!bond_find(luaL_checkstring(L, 1), &bond, &error)) return native_refused(L, &error);
  const CoverageSpeed *speed = coverage_usual_speed(bond);
  if (!speed) return 0;
  lua_pushnumber(L, speed->low_ft_min);
  lua_pushnumber(L, speed->high_ft_min);
  return 2;
}

/* abrasive.production(tool, wet, opening, head_m) -> usual low and high, sqft/h | nil */
static int l_production(lua_State *L)
{
  Grit grit;
  BondFamily bond;
  CoverageHead head;
  TradeError error;
  if (!read_tool(L, 1, &grit, &bond, &error) || !coverage_head_class(luaL_checknumber(L, 4), &head, &error))
    return native_refused(L, &error);
  const CoverageBand *band =
      coverage_band(coverage_step_class(bond, grit.number, lua_toboolean(L, 2), lua_toboolean(L, 3)), head);
  if (!band) return 0;
  lua_pushnumber(L, band->low_sqft_h);
  lua_pushnumber(L, band->high_sqft_h);
  return 2;
}

/* abrasive.other_work(what) -> usual low and high, unit | nil */
static int l_other_work(lua_State *L)
{
  const char *what = luaL_checkstring(L, 1);
  for (size_t i = 0; coverage_other(i); i++) {
    const CoverageOther *other = coverage_other(i);
    if (strcmp(other->work, what) != 0) continue;
    lua_pushnumber(L, other->low);
    lua_pushnumber(L, other->high);
    lua_pushstring(L, other->unit);
    return 3;
  }
  return 0;
}

static const luaL_Reg functions[] = {
  { "size", l_size },
  { "step", l_step },
  { "sheen", l_sheen },
  { "passes", l_passes },
  { "family", l_family },
  { "matrix", l_matrix },
  { "walk", l_walk },
  { "production", l_production },
  { "other_work", l_other_work },
  { NULL, NULL },
};

int native_abrasive(lua_State *L)
{
  luaL_newlib(L, functions);
  return 1;
}
