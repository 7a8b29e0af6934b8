/* exposure.h - what one person met over a shift: levels and hours, and their 8 h average.
 *
 *     E = sum(C T) / 8            hours without a task count as zero (29 CFR 1910.1000(d))
 *
 * Used for respirable dust, carbon monoxide and vapour alike. The figures to compare with are rows of
 * trade/limits.h. */
#ifndef TRADE_EXPOSURE_H
#define TRADE_EXPOSURE_H

#include "trade/trade.h"

typedef struct {
  double level; /* in the unit of the limit: ug/m3, ppm, dBA, m/s2 */
  double hours;
} Exposure;

/* 1..1000 tasks of 0..24 h each, 24 h together; every level finite. */
bool exposure_hours(const Exposure *tasks, int count, double *hours, TradeError *error);
/* Levels 0 or more. */
bool exposure_average(const Exposure *tasks, int count, double *average_8h, TradeError *error);

extern const TradeFormula exposure_formulas[];

#endif
