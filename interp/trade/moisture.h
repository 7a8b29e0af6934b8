/* moisture.h - moisture tests of a slab.
 *
 *     MVER = 52.91 * mass gain (g) / (dome area (sqft) * hours)     lb/1000 sqft/24 h, ASTM F1869 (from memory; the
 *            constant is 1000 * 24 / 453.592)                       1 lb/1000 sqft/24 h = 56.51 ug/(s m2)
 *     tests = 3 for the first 1000 sqft, 1 for each further 1000 begun
 *     probe depth = 40 % of the slab drying one side, 20 % drying two (ASTM F2170, from memory)
 *
 * Limits are rows of trade/limits.h (mver.*, rh.f710, ph.f710, f1869.*, f2170.*). A bare polished floor has no
 * limit in a standard; moisture still matters for dye, guard, joint filler and any coating (common practice). */
#ifndef TRADE_MOISTURE_H
#define TRADE_MOISTURE_H

#include "trade/trade.h"

typedef struct {
  double mver;       /* lb/1000 sqft/24 h */
  double ug_s_m2;
  bool in_time;      /* the dish was out 60 to 72 h, as F1869 asks */
} MoistureEmission;

/* gain 0..1000 g, dome 0.001..1 m2, hours above 0, at most 1000. */
bool moisture_emission(double gain_g, double dome_m2, double hours, MoistureEmission *out, TradeError *error);

/* Area above 0, at most 1e7 m2; for F1869 and F2170 alike. */
bool moisture_tests(double area_m2, int *tests, TradeError *error);

/* Slab 10..2000 mm, drying from 1 or 2 sides. */
bool moisture_probe_depth(double slab_mm, int drying_sides, double *depth_mm, TradeError *error);

typedef struct {
  bool emission_holds, humidity_holds;
  bool holds; /* both */
} MoistureVerdict;

/* ASTM F710 defaults: MVER at most 3, in-slab rh at most 0.75, unless the finish maker says otherwise. */
bool moisture_check(double mver, double rh, MoistureVerdict *out, TradeError *error);

extern const TradeFormula moisture_formulas[];

#endif
