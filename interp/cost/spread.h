/* spread.h - the distribution that an estimate (low, likely, high) stands for.
 *
 *   pert        a beta distribution from low to high with alpha = 1 + 4 m, beta = 1 + 4 (1 - m), m = (likely - low) /
 *               (high - low): mean (low + 4 likely + high) / 6. Malcolm, Roseboom, Clark, Fazar 1959
 *   triangular  from low to high with its peak at likely: mean (low + likely + high) / 3
 *   lognormal   shifted, through low, likely and high as its P10, P50 and P90; mirrored where likely lies above the
 *               middle, normal where it lies in it; m is kept within 0.02 to 0.98. Cut off as far beyond low and high
 *               as these are from likely. Our own choice
 *
 * A sample is the quantile at a fraction, by cubic interpolation in a table that is finer towards both ends. */
#ifndef COST_SPREAD_H
#define COST_SPREAD_H

#include <stdbool.h>

#include "model/risk.h"

typedef struct {
  RiskShape shape;
  double low, likely, high; /* low <= likely <= high, low < high */
} Estimate;

/* 0 < fraction < 1. Relative error below 1e-9 of high - low. */
double spread_quantile(const Estimate *e, double fraction);

/* `alike` may be NULL, or one of the same shape and skew that shares its table; it must outlive the new one. */
typedef struct Spread Spread;
Spread *spread_new(const Estimate *e, const Spread *alike);
bool spread_alike(const Spread *s, const Estimate *e);
void spread_free(Spread *s); /* NULL is fine */

/* The same within 1e-6 of high - low. */
double spread_at(const Spread *s, double fraction);

#endif
