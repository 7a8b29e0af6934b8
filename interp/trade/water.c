/* water.c - water by feed or by area, tank trips, reuse. */
#include "trade/water.h"

#include <math.h>
#include <string.h>

#include "trade/customary.h"

static const WaterBand bands[] = {
  { "feed", "water feed of a machine", 0.25 * GALLON_L, 1.0 * GALLON_L, "L/min",
    { TRADE_COMMON_PRACTICE, "common practice" } },
  { "step", "floor a litre covers in one wet step, with pick-up each pass", 50 * SQFT_PER_GALLON_M2_L,
    250 * SQFT_PER_GALLON_M2_L, "m2/L", { TRADE_COMMON_PRACTICE, "common practice" } },
  { "chain", "floor a litre covered over a wet chain of 200 to 1500", 57 * SQFT_PER_GALLON_M2_L,
    57 * SQFT_PER_GALLON_M2_L, "m2/L",
    { TRADE_CONFIRMED, "trade supplier's case: 125,000 sqft on about 2,200 gal" } },
  { "reusable", "share reusable after flocculation", 0.8, 0.8, "fraction",
    { TRADE_CONFIRMED, "trade supplier's case" } },
};

const WaterBand *water_band_at(size_t index)
{
  return index < sizeof bands / sizeof *bands ? &bands[index] : NULL;
}

bool water_band(const char *id, const WaterBand **out, TradeError *error)
{
  for (size_t i = 0; water_band_at(i); i++)
    if (strcmp(bands[i].id, id) == 0) {
      *out = &bands[i];
      return true;
    }
  return trade_refuse(error, TRADE_UNKNOWN, "id", 0, "no band of water use is called `%s`", id);
}

bool water_by_feed(double feed_l_min, double running_min, double *volume_l, TradeError *error)
{
  if (!trade_in_range(error, "feed_l_min", feed_l_min, 0, 100)
      || !trade_in_range(error, "running_min", running_min, 0, 100000))
    return false;
  *volume_l = feed_l_min * running_min;
  return true;
}

bool water_by_area(double area_m2, int passes, double covers_m2_l, double *volume_l, TradeError *error)
{
  if (!trade_in_range(error, "area_m2", area_m2, 0, 1e7) || !trade_in_range(error, "passes", passes, 1, 100)
      || !trade_in_range(error, "covers_m2_l", covers_m2_l, 0.01, 1000))
    return false;
  *volume_l = area_m2 * passes / covers_m2_l;
  return true;
}

bool water_trips(double volume_l, double tank_l, double minutes_each, TankTrips *out, TradeError *error)
{
  if (!trade_in_range(error, "volume_l", volume_l, 0, 1e9) || !trade_positive(error, "tank_l", tank_l)
      || !trade_in_range(error, "tank_l", tank_l, 0, 1e6)
      || !trade_in_range(error, "volume_l/tank_l", volume_l / tank_l, 0, 1e6)
      || !trade_in_range(error, "minutes_each", minutes_each, 0, 1440))
    return false;
  int trips = (int)ceil(volume_l / tank_l - 1e-9);
  double last_load_l = trips ? volume_l - (trips - 1) * tank_l : 0;
  *out = (TankTrips){ trips, trips * minutes_each, last_load_l };
  return true;
}

bool water_fresh(double volume_l, double reusable, double *fresh_l, TradeError *error)
{
  if (!trade_in_range(error, "volume_l", volume_l, 0, 1e9) || !trade_in_range(error, "reusable", reusable, 0, 1))
    return false;
  *fresh_l = volume_l * (1 - reusable);
  return true;
}

const TradeFormula water_formulas[] = {
  { "water.by_feed", "volume L = feed L/min * running min", { TRADE_COMPUTED, "flow times time" },
    "Water a machine feeds while it runs." },
  { "water.by_area", "volume L = area * passes / (m2 a litre)", { TRADE_COMPUTED, "area over coverage" },
    "Water by the floor a litre covers in one pass." },
  { "water.trips", "trips = ceil(volume / tank); minutes = trips * minutes each", { TRADE_COMPUTED, "rounding up" },
    "Trips to fill or empty a tank and the time they take." },
  { "water.fresh", "fresh L = volume * (1 - reusable)",
    { TRADE_COMPUTED, "share; 80 % after flocculation in a trade supplier's case" },
    "Water to bring when part of it is treated and used again." },
  { .id = NULL }
};
