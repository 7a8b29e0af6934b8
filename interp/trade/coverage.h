/* coverage.h - from lanes and a machine to turns, travel and minutes; bands that tell a plausible rate.
 *
 *     rate = (head - overlap) x speed x 60 x duty / passes        m2/h, head in m, speed in m/min
 *
 * Time and rate are arithmetic; the bands are common practice, no source: they warn, they never refuse.
 * Errors name the input. */
#ifndef TRADE_COVERAGE_H
#define TRADE_COVERAGE_H

#include "trade/bond.h"
#include "trade/geometry.h"

/* Floor completed in an hour of open field, no turns counted: their loss belongs in duty. speed_m_min > 0;
 * 0 < duty <= 1; passes 1 to COVERAGE_PASSES_MAX. */
bool coverage_rate(double head_m, double overlap_m, double speed_m_min, double duty, int passes, double *rate_m2_h,
                   TradeError *error);

enum { COVERAGE_PASSES_MAX = 1000 };

/* One abrasive step on one area. Where there is none of something, leave its amount 0; its rate is not read. */
typedef struct {
  double speed_m_min; /* travel of the machine; above 0 */
  double turn_s;      /* at the end of each piece of lane; 0 to 3600 */
  double duty;        /* share of the machine's minutes not lost to cords, looks and rests; above 0 to 1 */
  int passes;         /* over the whole floor; 1 or more */
  bool crosswise;     /* half of the passes at right angles; an odd one goes along */
  int obstacles;      /* things to steer round that are no islands, each pass; 0 or more */
  double obstacle_s;  /* for each, each pass */
  double edge_m, edge_rate_m_h;   /* walls, done once a step with the edge tool */
  double hand_m2, hand_rate_m2_h; /* where the head cannot reach */
  double setup_min;               /* tools on, cords, water: once a step */
} CoverageStep;

/* The parts add up to total_min: machine_min = travel + turns + pauses + obstacles + set-up by the machine's
 * operator, hand_min = edges + hand areas, which a second person may do meanwhile. */
typedef struct {
  int passes_along, passes_across;
  int turns;       /* of all passes; a change of direction between passes is one more */
  double travel_m; /* of all passes */
  double travel_min, turn_min, pause_min, obstacle_min, setup_min, edge_min, hand_area_min;
  double machine_min, hand_min, total_min;
} CoverageTime;

/* `along` and `across` are one pass each (geometry_lanes); across may be NULL if all passes go along. Errors: the
 * fields above by name; "turns" (over a million in a pass) and "travel_m" of a plan; "across" if crosswise passes
 * have no plan. */
bool coverage_time(const CoverageStep *step, const LanePlan *along, const LanePlan *across, CoverageTime *out,
                   TradeError *error);

/* Sanity bands of production: one completed step, field area, one operator. */
typedef enum {
  COVERAGE_SCRAPE,
  COVERAGE_FIRST_METAL,
  COVERAGE_METAL,
  COVERAGE_TRANSITIONAL,
  COVERAGE_RESIN_COARSE, /* 50 to 200 */
  COVERAGE_RESIN_DRY,    /* 400 to 3000, dry */
  COVERAGE_RESIN_WET,    /* with slurry pick-up */
  COVERAGE_GROUT,        /* spread and cut, by a crew */
  COVERAGE_STEP_CLASSES
} CoverageStepClass;

typedef enum { COVERAGE_HEAD_SMALL, COVERAGE_HEAD_MEDIUM, COVERAGE_HEAD_LARGE, COVERAGE_HEAD_CLASSES } CoverageHead;

/* As the trade states them. Basis: the formula "coverage.band". */
typedef struct {
  double low_sqft_h, high_sqft_h;
} CoverageBand;

/* The class of an abrasive step by its tool. `opening` is the first metal on the floor; `wet` steps pick slurry up.
 */
CoverageStepClass coverage_step_class(BondFamily bond, double pad_grit, bool wet, bool opening);

/* Usual walking speed with a family of tools, ft/min; common practice. NULL where the trade has none. */
typedef struct {
  double low_ft_min, high_ft_min;
} CoverageSpeed;
const CoverageSpeed *coverage_usual_speed(BondFamily bond);

/* Work that is not a pass of the machine, in its own unit. The same basis. */
typedef struct {
  const char *work; /* "guard, microfibre" */
  double low, high;
  const char *unit; /* "sqft/h" or "ft/h" */
} CoverageOther;

typedef enum { COVERAGE_SLOW, COVERAGE_USUAL, COVERAGE_FAST } CoverageVerdict;

/* NULL where the trade has no figure (a grout coat with a small head). */
const CoverageBand *coverage_band(CoverageStepClass step, CoverageHead head);
const CoverageOther *coverage_other(size_t index); /* NULL past the last */

/* Small up to 0.61 m (24 in), large from 0.74 m (29 in): the trade names 20-22, 26-28 and 30-32 in and more, and
 * the borders are halfway. 0.38 m (15 in) to 2 m; smaller heads are hand tools and have no band. */
bool coverage_head_class(double head_m, CoverageHead *out, TradeError *error);

/* Slow below the band, fast above, both ends usual. rate_m2_h >= 0. */
bool coverage_judge(const CoverageBand *band, double rate_m2_h, CoverageVerdict *out, TradeError *error);

extern const TradeFormula coverage_formulas[];

#endif
