/* carbon_monoxide.c - exhaust gas and the verdict on readings. */
#include "trade/carbon_monoxide.h"

#include <math.h>

#include "trade/limits.h"
#include "trade/room.h"

bool carbon_monoxide_flow(double emission_g_h, double temperature_c, double *gas_m3_h, TradeError *error)
{
  const double molar_g = 28.010;
  double litres_mol;
  if (!trade_in_range(error, "emission_g_h", emission_g_h, 0, 1e6)
      || !room_molar_volume(temperature_c, &litres_mol, error))
    return false;
  *gas_m3_h = emission_g_h / molar_g * litres_mol / 1000;
  return true;
}

static bool is_over(const char *id, double value, bool *over, TradeError *error)
{
  const Limit *limit;
  bool holds;
  if (!limit_find(id, &limit, error) || !limit_holds(limit, value, &holds, error)) return false;
  *over = !holds;
  return true;
}

bool carbon_monoxide_check(const Exposure *readings, int count, double peak_ppm, CarbonMonoxideVerdict *out,
                           TradeError *error)
{
  CarbonMonoxideVerdict v = { .peak_ppm = peak_ppm };
  double highest_ppm = 0;
  if (!exposure_average(readings, count, &v.average_ppm, error)) return false;
  for (int i = 0; i < count; i++) highest_ppm = fmax(highest_ppm, readings[i].level);
  if (!trade_in_range(error, "peak_ppm", peak_ppm, highest_ppm, 1e6)
      || !is_over("co.twa.osha", v.average_ppm, &v.over_osha, error)
      || !is_over("co.twa.niosh", v.average_ppm, &v.over_niosh, error)
      || !is_over("co.twa.acgih", v.average_ppm, &v.over_acgih, error)
      || !is_over("co.ceiling.niosh", peak_ppm, &v.over_ceiling, error))
    return false;
  *out = v;
  return true;
}

const TradeFormula carbon_monoxide_formulas[] = {
  { "carbon_monoxide.flow", "gas m3/h = g/h / 28.010 * molar volume", { TRADE_COMPUTED, "ideal gas" },
    "Volume flow of carbon monoxide from its mass flow in exhaust." },
  { "carbon_monoxide.check", "8 h average against 50, 35 and 25 ppm; peak against 200 ppm",
    { TRADE_CONFIRMED, "OSHA PEL, NIOSH criteria document, ACGIH by a public safety page" },
    "Verdict on a shift's readings. It replaces no alarm." },
  { .id = NULL }
};
