/* film.c - film thickness, wet life, re-wetting. */
#include "trade/film.h"

#include <math.h>

/* Real evaporation may be this much off the estimate, either way. */
static const double rate_uncertainty = 0.4;

static bool solids_are_valid(double volume_solids, TradeError *error)
{
  return trade_positive(error, "volume_solids", volume_solids)
         && trade_in_range(error, "volume_solids", volume_solids, 0, 1);
}

bool film_wet_thickness(double spread_m2_l, double *wet_um, TradeError *error)
{
  if (!trade_in_range(error, "spread_m2_l", spread_m2_l, 0.1, 1000)) return false;
  *wet_um = 1000 / spread_m2_l;
  return true;
}

bool film_dry_thickness(double wet_um, double volume_solids, double *dry_um, TradeError *error)
{
  if (!trade_in_range(error, "wet_um", wet_um, 1, 10000) || !solids_are_valid(volume_solids, error)) return false;
  *dry_um = wet_um * volume_solids;
  return true;
}

bool film_spread(double volume_solids, double dry_um, double *spread_m2_l, TradeError *error)
{
  if (!solids_are_valid(volume_solids, error) || !trade_in_range(error, "dry_um", dry_um, 0.1, 10000)) return false;
  *spread_m2_l = 1000 * volume_solids / dry_um;
  return true;
}

bool film_wet_life(double wet_um, double density_kg_m3, double volatile_share, double evaporation_kg_m2_h,
                   WetLife *out, TradeError *error)
{
  if (!trade_in_range(error, "wet_um", wet_um, 1, 10000)
      || !trade_in_range(error, "density_kg_m3", density_kg_m3, 600, 2500)
      || !trade_positive(error, "volatile_share", volatile_share)
      || !trade_in_range(error, "volatile_share", volatile_share, 0, 1)
      || !trade_in_range(error, "evaporation_kg_m2_h", evaporation_kg_m2_h, -10, 10))
    return false;
  if (evaporation_kg_m2_h <= 0)
    return trade_refuse(error, TRADE_NO_ANSWER, "evaporation_kg_m2_h", evaporation_kg_m2_h,
                        "the film does not dry: evaporation is %g kg/m2/h, condensation is to be expected",
                        evaporation_kg_m2_h);
  double volatile_kg_m2 = wet_um * 1e-6 * density_kg_m3 * volatile_share;
  double likely_h = volatile_kg_m2 / evaporation_kg_m2_h;
  *out = (WetLife){ likely_h / (1 + rate_uncertainty), likely_h, likely_h / (1 - rate_uncertainty) };
  return true;
}

static int rewets(double dwell_h, double life_h)
{
  return (int)fmax(ceil(dwell_h / life_h - 1e-9) - 1, 0);
}

bool film_rewets(double dwell_h, const WetLife *life, Rewets *out, TradeError *error)
{
  if (!trade_positive(error, "dwell_h", dwell_h) || !trade_in_range(error, "dwell_h", dwell_h, 0, 72)
      || !trade_in_range(error, "early_h", life->early_h, 1.0 / 60, INFINITY)
      || !trade_in_range(error, "likely_h", life->likely_h, life->early_h, INFINITY)
      || !trade_in_range(error, "late_h", life->late_h, life->likely_h, INFINITY))
    return false;
  *out = (Rewets){ rewets(dwell_h, life->late_h), rewets(dwell_h, life->likely_h), rewets(dwell_h, life->early_h) };
  return true;
}

const TradeFormula film_formulas[] = {
  { "film.wet_thickness", "wet um = 1000 / spread (m2/L)", { TRADE_COMPUTED, "1 L over 1 m2 is 1 mm" },
    "Thickness of the liquid film at a spread rate of 0.1 to 1000 m2/L." },
  { "film.dry_thickness", "dry um = wet um * volume solids", { TRADE_COMPUTED, "volume that stays" },
    "What a film leaves when its volatile part is gone." },
  { "film.spread", "spread m2/L = 1000 * volume solids / dry um (1604 * solids / mil in sqft/gal)",
    { TRADE_CONFIRMED, "trade press, worked case 25 % at 1.5 mil = 267 sqft/gal" },
    "The spread rate that leaves a wanted dry film." },
  { "film.wet_life",
    "life h = wet um 10^-6 * density * volatile share / evaporation (kg/m2/h), +/- 40 % on the rate",
    { TRADE_COMPUTED, "mass balance; uncertainty by a published symposium abstract" },
    "How long a film stays wet on a closed surface: early, likely, late. A condensing floor is refused." },
  { "film.rewets", "re-wets = ceil(dwell / life) - 1", { TRADE_COMPUTED, "counting" },
    "How often a film is wetted again to stay wet over its dwell." },
  { .id = NULL }
};
