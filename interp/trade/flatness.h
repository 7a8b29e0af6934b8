/* flatness.h - floor flatness FF and levelness FL from a line of elevations.
 *
 *     q_i = h_i - 2 h_(i-1) + h_(i-2)     curvature over 24 in        FF = 4.57 / (3 Sq + |mean q|)
 *     z_i = h_i - h_(i-10)                10 ft difference            FL = 12.5 / (3 Sz + |mean z|)
 *
 * Elevations in inches, every 12 in along one straight line; S is the sample standard deviation. Form and constants
 * of ASTM E1155, inch-pound edition: from memory. Basis and scope of the method are confirmed (definitions of the
 * standard): random traffic only, and no line across a construction joint. */
#ifndef TRADE_FLATNESS_H
#define TRADE_FLATNESS_H

#include "trade/trade.h"

/* From the statistics of one sample. spread_in >= 0; refuses a sample that is perfectly flat or level (both 0). */
bool flatness_ff(double spread_in, double mean_in, double *ff, TradeError *error);
bool flatness_fl(double spread_in, double mean_in, double *fl, TradeError *error);

typedef struct {
  double ff, fl; /* fl is 0 where has_fl is false */
  size_t curvatures, differences;
  double q_spread_in, q_mean_in, z_spread_in, z_mean_in;
  bool has_fl; /* a line needs 12 points for two 10 ft differences */
} FlatnessLine;

/* 4 points or more. Errors: "heights_in". */
bool flatness_line(const double *heights_in, size_t count, FlatnessLine *out, TradeError *error);

typedef struct {
  double f;         /* FF or FL, above 0 */
  double readings;  /* curvatures or differences it rests on, above 0 */
} FlatnessSample;

/* F = sqrt(sum r / sum(r / F^2)). One sample or more. */
bool flatness_combine(const FlatnessSample *samples, size_t count, double *f, TradeError *error);

/* Readings the inch edition wants at least: 2 sqrt(A) up to 1,600 sq ft, A / 30 above (from memory), rounded up. */
bool flatness_least_readings(double area_sqft, int *readings, TradeError *error);

/* What is specified for floors. Local values 0 where none is stated. */
typedef struct {
  const char *name;
  double ff, fl, local_ff, local_fl;
  Basis basis;
} FlatnessLimit;
const FlatnessLimit *flatness_limit_at(size_t index); /* NULL past the last */

/* The worse of both numbers decides; equal is met. */
bool flatness_meets(const FlatnessLimit *limit, double ff, double fl);

/* Gap under a 10 ft straightedge that goes roughly with an FF. From memory. */
typedef struct {
  double ff, gap_in;
} FlatnessGap;
const FlatnessGap *flatness_gap_at(size_t index); /* NULL past the last */

extern const TradeFormula flatness_formulas[];

#endif
