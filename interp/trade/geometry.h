/* geometry.h - the outline of a floor and the lanes a machine drives over it.
 *
 * An outline is one outer ring and any number of islands (columns, pits, fixed plant). A ring is a list of corners
 * in metres, either way round, not closed by repeating the first. Corners are borrowed; nothing here allocates.
 * Every function checks the outline first: at least three corners, each within 1000 km of the origin, no corner
 * twice in a row, no side that crosses or touches another, some area; islands inside the outer ring, clear of it
 * and of each other. A column that touches a wall belongs to the outer ring. Errors name "outline" or "islands"
 * (value: which island, from 0).
 *
 * Area by the shoelace formula; lengths by Pythagoras: plane geometry, exact up to rounding. */
#ifndef TRADE_GEOMETRY_H
#define TRADE_GEOMETRY_H

#include "trade/trade.h"

enum { GEOMETRY_POINTS_MAX = 512, GEOMETRY_LANES_MAX = 100000 };

typedef struct {
  double x_m, y_m;
} Point;

typedef struct {
  const Point *points;
  size_t count;
} Ring;

typedef struct {
  Ring outer;
  const Ring *islands;
  size_t island_count;
} Outline;

/* Corners of a rectangle from the origin, x along its length, into points; the ring borrows them. */
Ring geometry_rectangle(double length_m, double width_m, Point points[4]);

bool geometry_check(const Outline *outline, TradeError *error);

typedef struct {
  double area_m2;  /* outer ring less islands */
  double edge_m;   /* all walls: outer ring and round the islands */
} FloorSize;

bool geometry_size(const Outline *outline, FloorSize *out, TradeError *error);

/* head_m > 0 and 0 <= overlap_m < head_m, or a refusal that names the one at fault. */
bool geometry_check_head(double head_m, double overlap_m, TradeError *error);

/* Lanes across a bay of width_m > 0: ceil((width - overlap) / (head - overlap)); one if the head spans it. Refuses
 * more than GEOMETRY_LANES_MAX as "lanes". */
bool geometry_lane_count(double width_m, double head_m, double overlap_m, int *lanes, TradeError *error);

/* One pass over the whole floor in parallel lanes. A lane that islands or bays cut falls into pieces. */
typedef struct {
  double direction_rad; /* of the lanes, from the x axis, 0 <= direction < pi */
  int lanes;            /* geometry_lane_count of the span across the lanes */
  int pieces;           /* what the machine drives in one go; lanes on a convex floor */
  int turns;            /* pieces - 1 */
  double travel_m;      /* centre lines of the lanes, from wall to wall */
  double pitch_m;       /* between centre lines: spread evenly, so never more than head - overlap */
} LanePlan;

/* Lanes in one direction. Errors: those of the outline, of the head and of the lane count. */
bool geometry_lanes(const Outline *outline, double direction_rad, double head_m, double overlap_m, LanePlan *out,
                    TradeError *error);

/* The best direction among those of the sides: fewest pieces, then least travel, then the side met first. For a
 * convex floor the fewest turns are always found along a side. */
bool geometry_best_lanes(const Outline *outline, double head_m, double overlap_m, LanePlan *out, TradeError *error);

extern const TradeFormula geometry_formulas[];

#endif
