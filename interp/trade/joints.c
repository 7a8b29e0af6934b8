/* joints.c - filler volume, joint length of a bay, slab age. */
#include "trade/joints.h"

#include <math.h>

#include "trade/limits.h"

bool joints_filler(double length_m, double width_mm, double depth_mm, double waste, double *volume_l,
                   TradeError *error)
{
  if (!trade_in_range(error, "length_m", length_m, 0, 1e6) || !trade_in_range(error, "width_mm", width_mm, 0.5, 100)
      || !trade_in_range(error, "depth_mm", depth_mm, 1, 500) || !trade_in_range(error, "waste", waste, 0, 1))
    return false;
  *volume_l = length_m * width_mm * depth_mm * 1e-3 * (1 + waste);
  return true;
}

/* Lines that keep a side's panels within the spacing. */
static int lines_between(double side_m, double spacing_m)
{
  return (int)fmax(ceil(side_m / spacing_m - 1e-9) - 1, 0);
}

bool joints_grid(double length_m, double width_m, double spacing_m, JointGrid *out, TradeError *error)
{
  const double longest_m = 10000;
  if (!trade_positive(error, "length_m", length_m) || !trade_in_range(error, "length_m", length_m, 0, longest_m)
      || !trade_positive(error, "width_m", width_m) || !trade_in_range(error, "width_m", width_m, 0, longest_m)
      || !trade_in_range(error, "spacing_m", spacing_m, 0.5, 50))
    return false;
  int along = lines_between(width_m, spacing_m), across = lines_between(length_m, spacing_m);
  *out = (JointGrid){ along, across, along * length_m + across * width_m };
  return true;
}

bool joints_age(double age_d, JointsAge *out, TradeError *error)
{
  const Limit *maker, *advised;
  bool maker_holds, advised_holds;
  if (!trade_in_range(error, "age_d", age_d, 0, 100000) || !limit_find("age.joint.maker", &maker, error)
      || !limit_find("age.joint.aci", &advised, error) || !limit_holds(maker, age_d, &maker_holds, error)
      || !limit_holds(advised, age_d, &advised_holds, error))
    return false;
  *out = advised_holds ? JOINTS_OF_AGE : maker_holds ? JOINTS_EARLY : JOINTS_TOO_EARLY;
  return true;
}

const TradeFormula joints_formulas[] = {
  { "joints.filler", "L = m * mm * mm / 1000 * (1 + waste); gal = ft * 12 * in * in / 231",
    { TRADE_COMPUTED, "volume; waste of 5 to 15 % is common practice" }, "Filler for a length of joint." },
  { "joints.grid", "lines = ceil(side / spacing) - 1, both ways", { TRADE_COMPUTED, "counting" },
    "Length of contraction joints in a rectangular bay, edges not counted." },
  { "joints.age", "28 d by fillers' makers, 90 d advised",
    { TRADE_CONFIRMED, "association position statement quoting ACI 302.1R-15" },
    "Whether a slab is old enough for its joints to be filled." },
  { .id = NULL }
};
