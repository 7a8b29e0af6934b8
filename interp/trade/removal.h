/* removal.h - how deep a pass cuts, and how many it takes to clear the scratch of the last abrasive.
 *
 *     depth = depth_ref x (P / P_ref) x (v / v_ref) x (t / t_ref) x slab        Preston 1927: rate = k P v
 *     depth_ref = share_ref x grain                                             grain in um
 *     scratch   = scratch share x grain
 *     passes    = ceil(scratch of the last / depth of a pass of the next)
 *
 * Preston's relation is confirmed (lapidary page, journal abstract). That removal and scratch grow with the grain
 * is a model; the reference shares and conditions of the families, the slab factors and the scratch share are
 * common practice, chosen so that usual chains come out at their usual passes on a medium slab. A shop that
 * measures its own removal replaces them (removal_calibrate). Not modelled: glazing, loading, worn tools. */
#ifndef TRADE_REMOVAL_H
#define TRADE_REMOVAL_H

#include "trade/grit.h"

/* What a point of the floor meets in one pass. */
typedef struct {
  double pressure_kpa; /* under the tools: 0.1 to 5000 */
  double speed_m_s;    /* of the tools over the floor: 0.01 to 100 */
  double contact_s;    /* tools on it: 0.0001 to 600 */
} RemovalCondition;

/* A known removal: `share` of the grain in one pass under `at`, on a medium slab. */
typedef struct {
  RemovalCondition at;
  double share;
  Basis basis;
} RemovalReference;

/* The family's default; refuses the scraper, which has no grain, as "bond". */
bool removal_reference(BondFamily bond, RemovalReference *out, TradeError *error);

/* The reference of a shop that measured depth_um in one pass of this grain under `at` on a slab of this factor. */
bool removal_calibrate(const RemovalCondition *at, double grain_um, double slab_factor, double depth_um,
                       RemovalReference *out, TradeError *error);

/* Weight on the tools over their whole area, 9.80665 m/s2. Both above 0. */
bool removal_pressure(double mass_on_tools_kg, double tool_area_m2, double *pressure_kpa, TradeError *error);

/* Mean time a point is under a tool in one pass: tool area / (pitch of the lanes x travel). It is head width /
 * travel, times the share of the head that is tool, times what lanes overlap. All above 0. */
bool removal_contact(double tool_area_m2, double pitch_m, double travel_m_min, double *contact_s,
                     TradeError *error);

/* How much faster than a medium slab this one is cut; mohs 1 to 10. Softer is above 1. Common practice. */
bool removal_slab_factor(double mohs, double *factor, TradeError *error);

/* Mean depth of one pass. 0.1 <= grain_um <= 5000; 0.05 <= slab_factor <= 20. */
bool removal_depth(const RemovalReference *reference, const RemovalCondition *at, double grain_um,
                   double slab_factor, double *depth_um, TradeError *error);

/* Scratch depth over grain size; common practice, no source. */
extern const double removal_scratch_share;

/* Depth of the scratches an abrasive leaves. 0 < share <= 1. */
bool removal_scratch(double grain_um, double share, double *scratch_um, TradeError *error);

/* Passes to cut that deep; 1 at least. depth_um above 0; depths of exposure classes go here too. Refuses more than
 * 10,000 as "passes". */
bool removal_passes(double cut_um, double depth_um, int *passes, TradeError *error);

/* From one abrasive to the next on a slab: the whole chain of the above, with every number that leads to the
 * passes. */
typedef struct {
  Grit last, next;
  BondFamily next_bond;
  double mohs;                       /* of the slab, 1 to 10 */
  const RemovalCondition *at;        /* NULL: the condition of the reference */
  const RemovalReference *reference; /* NULL: the default of next_bond */
} RemovalStep;

typedef struct {
  GritSize last, next;
  double scratch_um, slab_factor, depth_um;
  int passes;
} RemovalClearing;

/* Errors: those of grit_size, removal_reference, removal_slab_factor, removal_depth, removal_passes. */
bool removal_clear(const RemovalStep *step, RemovalClearing *out, TradeError *error);

extern const TradeFormula removal_formulas[];

#endif
