/* moisture.c - emission, number of tests, probe depth. */
#include "trade/moisture.h"

#include <math.h>

#include "trade/customary.h"
#include "trade/limits.h"

static bool holds(const char *id, double value, bool *out, TradeError *error)
{
  const Limit *limit;
  return limit_find(id, &limit, error) && limit_holds(limit, value, out, error);
}

bool moisture_emission(double gain_g, double dome_m2, double hours, MoistureEmission *out, TradeError *error)
{
  const double day_h = 24, hour_s = 3600;
  MoistureEmission e;
  if (!trade_in_range(error, "gain_g", gain_g, 0, 1000) || !trade_in_range(error, "dome_m2", dome_m2, 0.001, 1)
      || !trade_positive(error, "hours", hours) || !trade_in_range(error, "hours", hours, 0, 1000)
      || !holds("f1869.exposure", hours, &e.in_time, error))
    return false;
  double g_m2_h = gain_g / dome_m2 / hours;
  e.mver = g_m2_h * day_h * 1000 * SQFT_M2 / (POUND_KG * 1000);
  e.ug_s_m2 = g_m2_h * 1e6 / hour_s;
  *out = e;
  return true;
}

bool moisture_tests(double area_m2, int *tests, TradeError *error)
{
  const double lot_m2 = 1000 * SQFT_M2;
  if (!trade_positive(error, "area_m2", area_m2)
      || !trade_in_range(error, "area_m2", area_m2, 0, 1e7))
    return false;
  *tests = 3 + (int)fmax(ceil(area_m2 / lot_m2 - 1 - 1e-9), 0);
  return true;
}

bool moisture_probe_depth(double slab_mm, int drying_sides, double *depth_mm, TradeError *error)
{
  if (!trade_in_range(error, "slab_mm", slab_mm, 10, 2000)
      || !trade_in_range(error, "drying_sides", drying_sides, 1, 2))
    return false;
  *depth_mm = slab_mm * (drying_sides == 1 ? 0.4 : 0.2);
  return true;
}

bool moisture_check(double mver, double rh, MoistureVerdict *out, TradeError *error)
{
  MoistureVerdict v;
  if (!trade_in_range(error, "mver", mver, 0, 1000) || !trade_in_range(error, "rh", rh, 0, 1)
      || !holds("mver.f710", mver, &v.emission_holds, error) || !holds("rh.f710", rh, &v.humidity_holds, error))
    return false;
  v.holds = v.emission_holds && v.humidity_holds;
  *out = v;
  return true;
}

const TradeFormula moisture_formulas[] = {
  { "moisture.emission", "MVER = 52.91 * gain g / (dome sqft * h); 1 lb/1000 sqft/24 h = 56.51 ug/(s m2)",
    { TRADE_FROM_MEMORY, "ASTM F1869; the constant by unit arithmetic" },
    "Moisture emission from the gain of a dish of calcium chloride; the dish is out 60 to 72 h." },
  { "moisture.tests", "tests = 3 + ceil((area - 1000 sqft) / 1000 sqft), 3 at least",
    { TRADE_CONFIRMED, "F1869 by kit instructions; F2170 from memory" },
      "Number of moisture tests an area asks for." },
  { "moisture.probe_depth", "depth = 0.4 * slab drying one side, 0.2 * slab drying two",
    { TRADE_FROM_MEMORY, "ASTM F2170" }, "Depth of an in-slab humidity probe." },
  { "moisture.check", "MVER <= 3 and in-slab rh <= 0.75",
    { TRADE_CONFIRMED, "ASTM F710 defaults, testing-laboratory paper" },
    "Both readings against the defaults for resilient floors, unless the finish maker says otherwise." },
  { .id = NULL }
};
