/* carbon_monoxide.h - exhaust of propane burnishers and grinders indoors.
 *
 *     gas m3/h = emission g/h / 28.010 * molar volume / 1000         then room.h for the air of the room
 *
 * The verdict takes readings of a shift: their 8 h average against the OSHA, NIOSH and ACGIH rows of
 * trade/limits.h and the peak against the NIOSH ceiling. 50 ppm is an 8 h average, not a figure for one hour. A
 * calculation replaces no alarm: measure wherever an engine runs indoors. */
#ifndef TRADE_CARBON_MONOXIDE_H
#define TRADE_CARBON_MONOXIDE_H

#include "trade/exposure.h"
#include "trade/trade.h"

/* emission 0..1e6 g/h, temperature -30..60 degC. */
bool carbon_monoxide_flow(double emission_g_h, double temperature_c, double *gas_m3_h, TradeError *error);

typedef struct {
  double average_ppm, peak_ppm;
  bool over_osha, over_niosh, over_acgih; /* by the 8 h average */
  bool over_ceiling;                      /* by the peak */
} CarbonMonoxideVerdict;

/* Readings in ppm with the hours each stands for; peak is the highest ever read, at least every reading. */
bool carbon_monoxide_check(const Exposure *readings, int count, double peak_ppm, CarbonMonoxideVerdict *out,
                           TradeError *error);

extern const TradeFormula carbon_monoxide_formulas[];

#endif
