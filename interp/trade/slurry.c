/* slurry.c - mass balance of what comes off the floor, and its class as waste. */
#include "trade/slurry.h"

#include <limits.h>
#include <math.h>

#include "trade/limits.h"

bool slurry_solids(double area_m2, double depth_um, double density_kg_m3, Solids *out, TradeError *error)
{
  if (!trade_in_range(error, "area_m2", area_m2, 0, 1e7) || !trade_in_range(error, "depth_um", depth_um, 0, 20000)
      || !trade_in_range(error, "density_kg_m3", density_kg_m3, 1000, 4000))
    return false;
  double volume_l = area_m2 * depth_um * 1e-3;
  *out = (Solids){ volume_l, volume_l * density_kg_m3 * 1e-3 };
  return true;
}

static bool solids_are_valid(const Solids *solids, TradeError *error)
{
  return trade_in_range(error, "solids.volume_l", solids->volume_l, 0, 1e9)
         && trade_in_range(error, "solids.mass_kg", solids->mass_kg, 0, 1e10);
}

bool slurry_mix(const Solids *solids, double water_l, double water_lost, Slurry *out, TradeError *error)
{
  if (!solids_are_valid(solids, error) || !trade_in_range(error, "water_l", water_l, 0, 1e9)
      || !trade_in_range(error, "water_lost", water_lost, 0, 1))
    return false;
  double left_l = water_l * (1 - water_lost); /* 1 L of water is 1 kg */
  double volume_l = left_l + solids->volume_l, mass_kg = left_l + solids->mass_kg;
  if (volume_l <= 0 || mass_kg <= 0)
    return trade_refuse(error, TRADE_DEGENERATE, "water_l", water_l, "no solids and no water are left: no slurry");
  *out = (Slurry){ volume_l, mass_kg, solids->volume_l, left_l, solids->mass_kg / mass_kg, left_l / volume_l };
  return true;
}

bool slurry_settle(const Slurry *slurry, double sludge_solids, Settled *out, TradeError *error)
{
  if (!trade_in_range(error, "slurry.volume_l", slurry->volume_l, 0, 2e9)
      || !trade_in_range(error, "slurry.solids_l", slurry->solids_l, 0, slurry->volume_l)
      || !trade_in_range(error, "sludge_solids", sludge_solids, 0.05, 0.7))
    return false;
  double sludge_l = fmin(slurry->solids_l / sludge_solids, slurry->volume_l);
  *out = (Settled){ sludge_l, slurry->volume_l - sludge_l };
  return true;
}

/* Whole containers; a billionth over is rounding, not another drum. */
static int containers(double volume_l, double each_l)
{
  return (int)ceil(volume_l / each_l - 1e-9);
}

bool slurry_drums(double volume_l, double drum_l, double fill, int *drums, TradeError *error)
{
  if (!trade_in_range(error, "volume_l", volume_l, 0, 1e9) || !trade_in_range(error, "drum_l", drum_l, 1, 2000)
      || !trade_in_range(error, "fill", fill, 0.1, 1)
      || !trade_in_range(error, "drums", volume_l / (drum_l * fill), 0, INT_MAX - 1))
    return false;
  *drums = containers(volume_l, drum_l * fill);
  return true;
}

bool slurry_dust(const Solids *solids, double bag_l, DustBags *out, TradeError *error)
{
  const double bulks_least = 1.5, bulks_most = 2;
  if (!solids_are_valid(solids, error) || !trade_in_range(error, "bag_l", bag_l, 1, 1000)
      || !trade_in_range(error, "bags", solids->volume_l * bulks_most / bag_l, 0, INT_MAX - 1))
    return false;
  double low_l = solids->volume_l * bulks_least, high_l = solids->volume_l * bulks_most;
  *out = (DustBags){ low_l, high_l, containers(low_l, bag_l), containers(high_l, bag_l) };
  return true;
}

bool slurry_ph_class(double ph, double free_water_share, SlurryPhClass *out, TradeError *error)
{
  const double aqueous_from = 0.2;
  const Limit *not_corrosive;
  bool holds;
  if (!trade_in_range(error, "ph", ph, -2, 16) || !trade_in_range(error, "free_water_share", free_water_share, 0, 1)
      || !limit_find("waste.ph", &not_corrosive, error) || !limit_holds(not_corrosive, ph, &holds, error))
    return false;
  if (free_water_share < aqueous_from) *out = SLURRY_NOT_AQUEOUS;
  else if (holds) *out = SLURRY_NOT_CORROSIVE;
  else *out = ph <= not_corrosive->low ? SLURRY_CORROSIVE_ACID : SLURRY_CORROSIVE_ALKALINE;
  return true;
}

const char *slurry_ph_class_name(SlurryPhClass class)
{
  static const char *const names[] = {
    [SLURRY_NOT_CORROSIVE] = "not corrosive by pH",
    [SLURRY_CORROSIVE_ACID] = "corrosive, acid",
    [SLURRY_CORROSIVE_ALKALINE] = "corrosive, alkaline",
    [SLURRY_NOT_AQUEOUS] = "not aqueous",
  };
  return names[class];
}

const TradeFormula slurry_formulas[] = {
  { "slurry.solids", "V = area * depth; m = V * density", { TRADE_COMPUTED, "volume times density" },
    "Volume and mass of concrete cut off, from area, depth and density (normal weight 2300 to 2400 kg/m3)." },
  { "slurry.mix", "slurry = water * (1 - lost) + solids", { TRADE_COMPUTED, "mass balance" },
    "Volume, mass, solids share and free water of the slurry." },
  { "slurry.settle", "sludge = solids volume / solids share of sludge; clear = slurry - sludge",
    { TRADE_COMPUTED, "mass balance" }, "What settles and what can be drawn off clear." },
  { "slurry.drums", "drums = ceil(volume / (drum * fill))", { TRADE_COMPUTED, "rounding up" },
    "Drums to hold a volume; a 55 gal drum is 208.2 L." },
  { "slurry.dust", "loose volume = 1.5 to 2 * solid volume; bags = ceil(loose / bag)",
    { TRADE_COMMON_PRACTICE, "common practice for bulking" }, "Bags for dry dust." },
  { "slurry.ph_class", "D002 if pH <= 2 or pH >= 12.5, aqueous (20 % free water) only",
    { TRADE_CONFIRMED, "40 CFR 261.22(a)(1), federal regulation text; federal agency memorandum for 20 %" },
    "Class of waste by pH, inclusive limits. The steel corrosion test and state rules are not in it." },
  { .id = NULL }
};
