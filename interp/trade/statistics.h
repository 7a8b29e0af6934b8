/* statistics.h - the distributions that acceptance rests on.
 *
 * Relative error below 1e-10 over the stated ranges, checked against an independent library in tests/outside. Pure
 * mathematics: continued fraction of the incomplete beta function by Lentz's method, quantiles by safeguarded
 * Newton steps on the logarithm of the smaller tail. */
#ifndef TRADE_STATISTICS_H
#define TRADE_STATISTICS_H

#include "trade/trade.h"

/* Regularised incomplete beta function I_x(a, b). 0.1 <= a, b <= 10000; 0 <= x <= 1. */
bool statistics_beta(double a, double b, double x, double *out, TradeError *error);

/* P(T <= t) of Student's t. 1 <= freedom <= 10000, not necessarily whole; any finite t. */
bool statistics_t_below(double t, double freedom, double *probability, TradeError *error);

/* t with P(T <= t) = probability; 1e-12 <= probability <= 1 - 1e-12; freedom as above. */
bool statistics_t_quantile(double probability, double freedom, double *t, TradeError *error);

typedef struct {
  size_t count;
  double mean, spread; /* sample standard deviation; 0 for one value */
  double least, most;
} Summary;

/* One value or more, all finite. Errors: "values". */
bool statistics_summary(const double *values, size_t count, Summary *out, TradeError *error);

extern const TradeFormula statistics_formulas[];

#endif
