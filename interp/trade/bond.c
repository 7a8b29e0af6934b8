/* bond.c - tables of bond families and of bonds for slabs. */
#include "trade/bond.h"

#include <assert.h>
#include <string.h>

const TradeFormula bond_formulas[] = {
  { "bond.for_mohs", "hard slab -> soft bond, soft slab -> hard bond, by bands of Mohs hardness",
    { TRADE_CONFIRMED, "four suppliers' guides agree on the rule; the bands of Mohs hardness are common practice" },
    "The hardness of bond that keeps diamond exposed on a paste of the given scratch hardness, 1 to 10. Too "
    "hard a bond glazes on a hard slab; too soft a bond wears away on a soft one." },
  { 0 }
};

static const double metal_grits[] = { 6, 16, 20, 30, 40, 60, 80, 120, 150 };
static const double transitional_grits[] = { 30, 50, 100, 120, 200 };
static const double resin_grits[] = { 50, 100, 200, 400, 800, 1500, 3000 };
static const double fibre_grits[] = { 400, 800, 1500, 3000, 8000 };

#define GRITS(list) (list), sizeof(list) / sizeof *(list)

static const BondInfo families[BOND_FAMILIES] = {
  { BOND_SCRAPER, "scraper", "takes off glue and thick coatings; leaves deep marks", NULL, 0, TRADE_RULE_OF_THUMB },
  { BOND_METAL, "metal", "opens, flattens and exposes", GRITS(metal_grits), TRADE_RULE_OF_THUMB },
  { BOND_TRANSITIONAL, "transitional", "takes out the metal scratch, ready for resin", GRITS(transitional_grits),
    TRADE_RULE_OF_THUMB },
  { BOND_RESIN, "resin", "hones and polishes", GRITS(resin_grits), TRADE_RULE_OF_THUMB },
  { BOND_FIBRE, "fibre", "maintains and burnishes", GRITS(fibre_grits), TRADE_RULE_OF_THUMB },
};

static const BondChoice choices[] = {
  { 0, 3, "very soft", "extra hard", TRADE_RULE_OF_THUMB },
  { 3, 4, "soft", "hard", TRADE_RULE_OF_THUMB },
  { 4, 5, "medium", "medium", TRADE_RULE_OF_THUMB },
  { 5, 6, "hard", "soft", TRADE_RULE_OF_THUMB },
  { 6, 7, "very hard", "soft to extra soft", TRADE_RULE_OF_THUMB },
  { 7, 10, "extremely hard", "extra soft, fewer segments", TRADE_RULE_OF_THUMB },
};

const BondInfo *bond_info(BondFamily family)
{
  assert(family < BOND_FAMILIES);
  return &families[family];
}

bool bond_find(const char *name, BondFamily *out, TradeError *error)
{
  for (size_t i = 0; i < BOND_FAMILIES; i++)
    if (strcmp(families[i].name, name) == 0) {
      *out = families[i].family;
      return true;
    }
  return trade_refuse(error, TRADE_UNKNOWN, "bond", 0,
                      "no bond is called `%.40s`; there are scraper, metal, transitional, resin, fibre", name);
}

bool bond_for_mohs(double mohs, const BondChoice **out, TradeError *error)
{
  if (!trade_in_range(error, "mohs", mohs, 1, 10)) return false;
  const BondChoice *choice = choices;
  while (mohs > choice->to_mohs) choice++;
  *out = choice;
  return true;
}
