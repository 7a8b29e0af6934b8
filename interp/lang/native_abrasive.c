/* native_abrasive.c - trade/grit.h and trade/sheen.h for the rules. */
#include <lauxlib.h>
#include <string.h>

#include "lang/native.h"
#include "trade/grit.h"
#include "trade/sheen.h"

/* The words of the field `system`, in the order of GritSystem; NULL where the language has no word. */
static const char *const system_words[GRIT_SYSTEMS] = {
  [GRIT_P] = "FEPA P",     [GRIT_F] = "FEPA F",        [GRIT_JIS] = "JIS",       [GRIT_CAMI] = "CAMI",
  [GRIT_SIEVE] = "sieve",  [GRIT_DIAMOND] = "diamond", [GRIT_PAD] = "floor pad",
};

static int nothing(lua_State *L, const TradeError *error)
{
  lua_pushnil(L);
  lua_pushstring(L, error->message);
  return 2;
}

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
  if (!read_tool(L, 1, &grit, &bond, &error) || !grit_size(grit, &size, &error)) return nothing(L, &error);
  lua_pushnumber(L, size.size_um);
  return 1;
}

/* abrasive.step(last, next) -> verdict ("good", "long", "skipped", "repeat", "back"), ratio, family change | nil, why */
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
    return nothing(L, &error);
  lua_pushstring(L, verdicts[step.verdict]);
  lua_pushnumber(L, step.judged_by);
  lua_pushboolean(L, step.family_change);
  return 3;
}

enum { CHAIN = 64 };

/* abrasive.sheen({ tools coarse to fine, each { grit, system, bond, cleared } }, finish) -> low, high, ceiling GU | nil, why
 * finish: "bare", "burnished", "guarded" */
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
      return nothing(L, &error);
    lua_getfield(L, -1, "cleared");
    steps[i].cleared = lua_toboolean(L, -1);
    lua_pop(L, 2);
  }
  if (!sheen_expect(steps, count, finish, NULL, &expect, &error)) return nothing(L, &error);
  lua_pushnumber(L, expect.low_gu);
  lua_pushnumber(L, expect.high_gu);
  lua_pushnumber(L, expect.ceiling_gu);
  return 3;
}

static const luaL_Reg functions[] = {
  { "size", l_size },
  { "step", l_step },
  { "sheen", l_sheen },
  { NULL, NULL },
};

int native_abrasive(lua_State *L)
{
  luaL_newlib(L, functions);
  return 1;
}
