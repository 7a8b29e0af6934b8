/* aggregate.h - how much aggregate a floor shows: the classes of the charts, and the cut that reaches them.
 *
 * Charts have editions. The letter C means medium aggregate in the chart before 2017 and coarse aggregate since;
 * cut depths belong to the older chart only. So classes are asked for by edition, and a depth of the current chart
 * has no answer. Both charts are confirmed (trade news and contractors' pages); depths are approximate. */
#ifndef TRADE_AGGREGATE_H
#define TRADE_AGGREGATE_H

#include "trade/trade.h"

typedef enum { CHART_CURRENT, CHART_BEFORE_2017 } ChartEdition;

/* Shares of the surface in percent; 0 where the chart does not speak of it. The older chart has no shares, the
 * current one no depths. */
typedef struct {
  ChartEdition edition;
  char letter;      /* 'A'; 0 for random exposure */
  const char *name; /* "fine aggregate" */
  double main_low, main_high, rest_low, rest_high;
  double cut_mm; /* approximate; 0 in the current chart */
  const char *cut_says; /* "1/16 in", as the chart has it */
  Basis basis;
} AggregateClass;

/* By letter or by name, in an edition; refuses unknown ones as "exposure". */
bool aggregate_find(ChartEdition edition, const char *name, const AggregateClass **out, TradeError *error);

/* The class of the current chart for a surface made up of these percentages, which must add up to 100 (within 0.5).
 * Refuses a make-up that fits none. */
bool aggregate_of_surface(double fines_pct, double fine_aggregate_pct, double coarse_aggregate_pct,
                         const AggregateClass **out, TradeError *error);

/* Approximate cut of a class in mm. The current chart gives none: refused as "edition". */
bool aggregate_cut_depth(const AggregateClass *exposure, double *cut_mm, TradeError *error);

extern const TradeFormula aggregate_formulas[];

#endif
