/* water.h - water a wet step uses, and the trips its tanks cost.
 *
 *     volume L = feed (L/min) * running minutes            or area * passes / (m2 a litre)
 *     trips = ceil(volume / tank), each with its minutes of driving, filling or emptying
 *
 * One measured job: 57 sqft/gal over a wet chain of 200 to 1500, 80 % of it reusable (trade supplier's case). */
#ifndef TRADE_WATER_H
#define TRADE_WATER_H

#include "trade/trade.h"

/* What a step usually takes, to check a plan against. */
typedef struct {
  const char *id;   /* "feed" */
  const char *says;
  double low, high;
  const char *unit; /* "L/min", "m2/L" */
  Basis basis;
} WaterBand;

const WaterBand *water_band_at(size_t index); /* NULL past the last */
bool water_band(const char *id, const WaterBand **out, TradeError *error);

/* feed 0..100 L/min, running time 0..100000 min. */
bool water_by_feed(double feed_l_min, double running_min, double *volume_l, TradeError *error);
/* area 0..1e7 m2, passes 1..100, a litre covers 0.01..1000 m2 a pass. */
bool water_by_area(double area_m2, int passes, double covers_m2_l, double *volume_l, TradeError *error);

typedef struct {
  int trips;
  double minutes;
  double last_load_l; /* what the last trip carries; 0 without trips */
} TankTrips;

/* volume 0..1e9 L, tank above 0, at most 1e6 L, minutes a trip 0..1440; over a million trips is refused. Serves
 * filling a water tank and emptying a recovery tank alike. */
bool water_trips(double volume_l, double tank_l, double minutes_each, TankTrips *out, TradeError *error);

/* Fresh water to buy when `reusable` (0..1) of what is used comes back clean: volume * (1 - reusable). */
bool water_fresh(double volume_l, double reusable, double *fresh_l, TradeError *error);

extern const TradeFormula water_formulas[];

#endif
