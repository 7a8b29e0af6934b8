/* wear.c - bands of tool life and the sets an area takes. */
#include "trade/wear.h"

#include <math.h>
#include <string.h>

#include "trade/customary.h"

#define SQFT(low, high) WEAR_BY_AREA, (low) * SQFT_M2, (high) * SQFT_M2
#define EDGE_FT(low, high) WEAR_BY_EDGE, (low) * FOOT_M, (high) * FOOT_M
#define PRACTICE { TRADE_COMMON_PRACTICE, "common practice, a sanity band" }

/* Rows of one bond stand together, coarse before fine. */
static const WearBand bands[] = {
  { "metal", 16, 30, SQFT(3000, 12000), 1, PRACTICE },
  { "metal", 40, 80, SQFT(6000, 20000), 1, PRACTICE },
  { "metal", 120, 150, SQFT(8000, 25000), 1, PRACTICE },
  { "transitional", 30, 200, SQFT(4000, 15000), 0, PRACTICE },
  { "resin", 50, 200, SQFT(3000, 10000), -1, PRACTICE },
  { "resin", 400, 400, SQFT(8000, 20000), -1, PRACTICE },
  { "resin", 800, 3000, SQFT(12000, 40000), -1, PRACTICE },
  { "edge", 0, 0, EDGE_FT(500, 3000), 0, PRACTICE },
  { "burnish", 0, 0, SQFT(15000, 60000), 0, PRACTICE },
};
enum { BANDS = sizeof bands / sizeof *bands };

const WearBand *wear_band_at(size_t index)
{
  return index < BANDS ? &bands[index] : NULL;
}

bool wear_band(const char *bond, double grit, const WearBand **out, TradeError *error)
{
  const WearBand *first = NULL, *last = NULL, *found = NULL;
  for (const WearBand *b = bands; b < bands + BANDS; b++) {
    if (strcmp(b->bond, bond) != 0) continue;
    if (!first) first = b;
    last = b;
    if (grit >= b->grit_low) found = b;
  }
  if (!first) return trade_refuse(error, TRADE_UNKNOWN, "bond", 0, "no band of tool life for bond `%s`", bond);
  if (first->grit_high > 0 && !trade_in_range(error, "grit", grit, first->grit_low, last->grit_high)) return false;
  *out = first->grit_high > 0 ? found : first;
  return true;
}

/* 0 at the low end of the band, 1 at the high end. */
static double place_in_band(const WearBand *band, double mohs, bool wet)
{
  const double soft = 3, hard = 7, wrong_water = 0.2;
  double hardness = fmin(fmax((mohs - soft) / (hard - soft), 0), 1);
  if (band->soft_slab_wears == 0) return 0.5;
  double place = band->soft_slab_wears > 0 ? hardness : 1 - hardness;
  bool suits = band->soft_slab_wears > 0 ? !wet : wet;
  return suits ? place : fmax(place - wrong_water, 0);
}

bool wear_life(const WearBand *band, double mohs, bool wet, WearLife *out, TradeError *error)
{
  if (!trade_in_range(error, "mohs", mohs, 1, 10)) return false;
  double likely = band->life_low + (band->life_high - band->life_low) * place_in_band(band, mohs, wet);
  *out = (WearLife){ band->life_low, likely, band->life_high };
  return true;
}

bool wear_sets(double work, double life, double already_worn, WearSets *out, TradeError *error)
{
  if (!trade_in_range(error, "work", work, 0, 1e8) || !trade_positive(error, "life", life)
      || !trade_in_range(error, "work/life", work / life, 0, 1e6)
      || !trade_in_range(error, "already_worn", already_worn, 0, 1))
    return false;
  double share = work / life, total = share + already_worn;
  int sets = (int)ceil(total - 1e-9);
  *out = (WearSets){ share, sets, sets ? fmin(total - (sets - 1), 1) : 0 };
  return true;
}

const TradeFormula wear_formulas[] = {
  { "wear.life", "life = low + (high - low) * place; place by Mohs 3 to 7, less 0.2 for metal wet or resin dry",
    { TRADE_COMMON_PRACTICE, "bands and directions: common practice; the line between is ours" },
    "Floor (m2) or edge (m) a set of tools lasts: low, likely, high." },
  { "wear.sets", "sets = ceil(worn already + work / life)", { TRADE_COMPUTED, "division and rounding up" },
    "Share of a set that work wears, and the whole sets to have at hand." },
  { .id = NULL }
};
