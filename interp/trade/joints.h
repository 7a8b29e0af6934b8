/* joints.h - filling contraction joints: how much, how long, how old the slab must be.
 *
 *     volume L = length * width * depth * (1 + waste)      gal = ft * 12 * in * in / 231
 *     waste 5 to 15 % (common practice)
 *     joints of a bay: lines no farther apart than the spacing, both ways, edges not counted
 *
 * Fillers' makers ask for 28 days, ACI 302.1R-15 advises 90: filler put in early separates as the slab shrinks, and
 * that is no defect of the filler (association position statement). */
#ifndef TRADE_JOINTS_H
#define TRADE_JOINTS_H

#include "trade/trade.h"

/* length 0..1e6 m, width 0.5..100 mm, depth 1..500 mm, waste 0..1. */
bool joints_filler(double length_m, double width_mm, double depth_mm, double waste, double *volume_l,
                   TradeError *error);

typedef struct {
  int lines_along, lines_across; /* parallel to the length, to the width */
  double length_m;
} JointGrid;

/* A rectangular bay, both sides above 0, at most 10 km; spacing 0.5..50 m (contraction joints are usually 3 to 6 m,
 * 10 to 20 ft, apart: trade press). */
bool joints_grid(double length_m, double width_m, double spacing_m, JointGrid *out, TradeError *error);

typedef enum {
  JOINTS_TOO_EARLY, /* under the makers' 28 days */
  JOINTS_EARLY,     /* makers would, the 90 days advised are not over: expect separation */
  JOINTS_OF_AGE
} JointsAge;

/* Age 0..100000 days. */
bool joints_age(double age_d, JointsAge *out, TradeError *error);

extern const TradeFormula joints_formulas[];

#endif
