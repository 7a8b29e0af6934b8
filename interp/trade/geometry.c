/* geometry.c - area, walls and lanes of a floor with islands. */
#include "trade/geometry.h"

#include <math.h>

static const double PI = 3.14159265358979323846;
static const double FARTHEST_M = 1e6; /* from the origin, so that no area leaves the doubles */

const TradeFormula geometry_formulas[] = {
  { "geometry.area",
    "area = |sum(x[i] y[i+1] - x[i+1] y[i])| / 2, outer ring less islands",
    { TRADE_COMPUTED, "shoelace formula of plane geometry" },
    "Floor area in m2 of an outline in metres. The sides may not cross or touch; islands lie inside and clear." },
  { "geometry.lanes",
    "lanes = ceil((span - overlap) / (head - overlap)); pieces: where walls cut their centre lines",
    { TRADE_COMPUTED, "plane geometry; fewest turns lie along a side of a convex floor" },
    "Parallel lanes over a floor, spread evenly between the outermost walls. Travel is the length of the "
    "centre lines inside the floor in m, turns are pieces less one. Candidate directions are those of the "
    "sides." },
  { 0 }
};

static Point corner(Ring ring, size_t i)
{
  return ring.points[i < ring.count ? i : i - ring.count];
}

/* Twice the signed area of the triangle a b c; above 0 if c lies to the left of a->b. */
static double turn_of(Point a, Point b, Point c)
{
  return (b.x_m - a.x_m) * (c.y_m - a.y_m) - (b.y_m - a.y_m) * (c.x_m - a.x_m);
}

static double ring_area(Ring ring)
{
  double twice = 0;
  for (size_t i = 0; i < ring.count; i++) twice += turn_of(ring.points[0], corner(ring, i), corner(ring, i + 1));
  return twice / 2;
}

static double side_length(Ring ring, size_t i)
{
  Point a = corner(ring, i), b = corner(ring, i + 1);
  return hypot(b.x_m - a.x_m, b.y_m - a.y_m);
}

static double ring_length(Ring ring)
{
  double length = 0;
  for (size_t i = 0; i < ring.count; i++) length += side_length(ring, i);
  return length;
}

static bool in_box(Point a, Point b, Point p)
{
  return p.x_m >= fmin(a.x_m, b.x_m) && p.x_m <= fmax(a.x_m, b.x_m) && p.y_m >= fmin(a.y_m, b.y_m) &&
         p.y_m <= fmax(a.y_m, b.y_m);
}

/* Do a-b and c-d cross, or does one begin on the other? Each corner of a ring begins a side, so that ends need no
 * look of their own. */
static bool segments_meet(Point a, Point b, Point c, Point d)
{
  double abc = turn_of(a, b, c), abd = turn_of(a, b, d), cda = turn_of(c, d, a), cdb = turn_of(c, d, b);
  if (abc * abd < 0 && cda * cdb < 0) return true;
  return (abc == 0 && in_box(a, b, c)) || (cda == 0 && in_box(c, d, a));
}

static bool rings_meet(Ring a, Ring b)
{
  for (size_t i = 0; i < a.count; i++)
    for (size_t j = 0; j < b.count; j++)
      if (segments_meet(corner(a, i), corner(a, i + 1), corner(b, j), corner(b, j + 1))) return true;
  return false;
}

/* Sides next to each other share a corner and may share no more; all others may not meet at all. */
static bool ring_meets_itself(Ring ring)
{
  for (size_t i = 0; i < ring.count; i++) {
    Point a = corner(ring, i), b = corner(ring, i + 1), c = corner(ring, i + 2);
    bool folds_back = turn_of(a, b, c) == 0 &&
                      (b.x_m - a.x_m) * (c.x_m - b.x_m) + (b.y_m - a.y_m) * (c.y_m - b.y_m) < 0;
    if (folds_back) return true;
    for (size_t j = i + 2; j < ring.count; j++) {
      bool neighbours = i == 0 && j == ring.count - 1;
      if (!neighbours && segments_meet(a, b, corner(ring, j), corner(ring, j + 1))) return true;
    }
  }
  return false;
}

static bool ring_contains(Ring ring, Point p)
{
  bool inside = false;
  for (size_t i = 0; i < ring.count; i++) {
    Point a = corner(ring, i), b = corner(ring, i + 1);
    if ((a.y_m > p.y_m) == (b.y_m > p.y_m)) continue;
    if (p.x_m < a.x_m + (b.x_m - a.x_m) * (p.y_m - a.y_m) / (b.y_m - a.y_m)) inside = !inside;
  }
  return inside;
}

static bool check_ring(Ring ring, const char *name, double which, TradeError *error)
{
  if (ring.count < 3)
    return trade_refuse(error, TRADE_DEGENERATE, name, which, "%s needs three corners or more", name);
  for (size_t i = 0; i < ring.count; i++)
    if (!isfinite(ring.points[i].x_m) || !isfinite(ring.points[i].y_m))
      return trade_refuse(error, TRADE_NOT_FINITE, name, which, "corner %zu of %s is not a finite number", i + 1,
                          name);
  for (size_t i = 0; i < ring.count; i++)
    if (fabs(ring.points[i].x_m) > FARTHEST_M || fabs(ring.points[i].y_m) > FARTHEST_M)
      return trade_refuse(error, TRADE_OUT_OF_RANGE, name, which, "corner %zu of %s is over 1000 km away", i + 1,
                          name);
  for (size_t i = 0; i < ring.count; i++)
    if (side_length(ring, i) == 0)
      return trade_refuse(error, TRADE_DEGENERATE, name, which, "corner %zu of %s is given twice", i + 1, name);
  if (ring_meets_itself(ring))
    return trade_refuse(error, TRADE_DEGENERATE, name, which, "the sides of %s cross or touch each other", name);
  if (ring_area(ring) == 0) return trade_refuse(error, TRADE_DEGENERATE, name, which, "%s has no area", name);
  return true;
}

static bool check_island(const Outline *outline, size_t which, TradeError *error)
{
  Ring island = outline->islands[which];
  double index = (double)which;
  if (!check_ring(island, "islands", index, error)) return false;
  if (rings_meet(island, outline->outer))
    return trade_refuse(error, TRADE_DEGENERATE, "islands", index,
                        "island %zu touches the outline: draw it as part of the outline", which + 1);
  if (!ring_contains(outline->outer, island.points[0]))
    return trade_refuse(error, TRADE_DEGENERATE, "islands", index, "island %zu lies outside the outline",
                        which + 1);
  for (size_t other = 0; other < which; other++) {
    Ring before = outline->islands[other];
    if (rings_meet(island, before) || ring_contains(before, island.points[0]) ||
        ring_contains(island, before.points[0]))
      return trade_refuse(error, TRADE_DEGENERATE, "islands", index,
                          "islands %zu and %zu overlap: draw them as one", other + 1, which + 1);
  }
  return true;
}

bool geometry_check(const Outline *outline, TradeError *error)
{
  size_t points = outline->outer.count;
  for (size_t i = 0; i < outline->island_count; i++) points += outline->islands[i].count;
  if (!trade_in_range(error, "corners", (double)points, 3, GEOMETRY_POINTS_MAX)) return false;
  if (!check_ring(outline->outer, "outline", 0, error)) return false;
  for (size_t i = 0; i < outline->island_count; i++)
    if (!check_island(outline, i, error)) return false;
  return true;
}

Ring geometry_rectangle(double length_m, double width_m, Point points[4])
{
  points[0] = (Point){ 0, 0 };
  points[1] = (Point){ length_m, 0 };
  points[2] = (Point){ length_m, width_m };
  points[3] = (Point){ 0, width_m };
  return (Ring){ points, 4 };
}

bool geometry_size(const Outline *outline, FloorSize *out, TradeError *error)
{
  if (!geometry_check(outline, error)) return false;
  FloorSize size = { fabs(ring_area(outline->outer)), ring_length(outline->outer) };
  for (size_t i = 0; i < outline->island_count; i++) {
    size.area_m2 -= fabs(ring_area(outline->islands[i]));
    size.edge_m += ring_length(outline->islands[i]);
  }
  *out = size;
  return true;
}

/* Turns the plane so that lanes lie along x. */
static Point turned(Point p, double cosine, double sine)
{
  return (Point){ p.x_m * cosine + p.y_m * sine, p.y_m * cosine - p.x_m * sine };
}

/* Where the centre lines of the lanes lie: y = first + k pitch. */
typedef struct {
  double cosine, sine, first_m, pitch_m;
  int lanes;
} Sweep;

/* Adds what one ring contributes. A centre line enters the floor over a side that runs one way and leaves it over a
 * side that runs the other, so the length inside is the sum of x with that sign, and pieces are half the crossings.
 * Sides own their lower end and not their upper one, so a corner on a centre line counts once. */
static void cross_ring(const Sweep *sweep, Ring ring, bool island, LanePlan *plan, int *crossings)
{
  double round = (ring_area(ring) > 0) != island ? 1 : -1;
  for (size_t i = 0; i < ring.count; i++) {
    Point a = turned(corner(ring, i), sweep->cosine, sweep->sine);
    Point b = turned(corner(ring, i + 1), sweep->cosine, sweep->sine);
    if (a.y_m == b.y_m) continue;
    double leaving = b.y_m > a.y_m ? round : -round;
    Point low = a.y_m < b.y_m ? a : b, high = a.y_m < b.y_m ? b : a;
    double step = sweep->pitch_m;
    int k = step > 0 ? (int)fmax(ceil((low.y_m - sweep->first_m) / step), 0) : sweep->first_m < low.y_m;
    for (; k < sweep->lanes; k++) {
      double y = sweep->first_m + k * step;
      if (y < low.y_m) continue;
      if (y >= high.y_m) break;
      plan->travel_m += leaving * (low.x_m + (high.x_m - low.x_m) * (y - low.y_m) / (high.y_m - low.y_m));
      ++*crossings;
    }
  }
}

bool geometry_check_head(double head_m, double overlap_m, TradeError *error)
{
  if (!trade_positive(error, "head_m", head_m)) return false;
  if (!trade_in_range(error, "overlap_m", overlap_m, 0, INFINITY)) return false;
  return overlap_m < head_m || trade_refuse(error, TRADE_OUT_OF_RANGE, "overlap_m", overlap_m,
                                            "overlap_m is %g, must be less than the head of %g", overlap_m, head_m);
}

bool geometry_lane_count(double width_m, double head_m, double overlap_m, int *lanes, TradeError *error)
{
  if (!trade_positive(error, "width_m", width_m) || !geometry_check_head(head_m, overlap_m, error)) return false;
  double exact = (width_m - overlap_m) / (head_m - overlap_m);
  double count = fmax(1, ceil(exact - 1e-9 * fmax(1, exact))); /* rounding may not add a lane */
  if (!trade_in_range(error, "lanes", count, 1, GEOMETRY_LANES_MAX)) return false;
  *lanes = (int)count;
  return true;
}

static bool lay_lanes(const Outline *outline, double direction_rad, double head_m, double overlap_m, LanePlan *out,
                      TradeError *error)
{
  Sweep sweep = { .cosine = cos(direction_rad), .sine = sin(direction_rad) };
  double low = INFINITY, high = -INFINITY;
  for (size_t i = 0; i < outline->outer.count; i++) {
    double y = turned(outline->outer.points[i], sweep.cosine, sweep.sine).y_m;
    low = fmin(low, y);
    high = fmax(high, y);
  }
  double span = high - low;
  if (!geometry_lane_count(span, head_m, overlap_m, &sweep.lanes, error)) return false;
  sweep.pitch_m = sweep.lanes > 1 ? (span - head_m) / (sweep.lanes - 1) : 0;
  sweep.first_m = low + (sweep.lanes > 1 ? head_m : span) / 2;

  LanePlan plan = { .direction_rad = direction_rad, .lanes = sweep.lanes, .pitch_m = sweep.pitch_m };
  int crossings = 0;
  cross_ring(&sweep, outline->outer, false, &plan, &crossings);
  for (size_t i = 0; i < outline->island_count; i++)
    cross_ring(&sweep, outline->islands[i], true, &plan, &crossings);
  plan.pieces = crossings / 2;
  plan.turns = plan.pieces > 0 ? plan.pieces - 1 : 0;
  *out = plan;
  return true;
}

static double half_turn(double radians)
{
  double direction = fmod(radians, PI);
  if (direction < 0) direction += PI;
  return direction < PI ? direction : 0;
}

bool geometry_lanes(const Outline *outline, double direction_rad, double head_m, double overlap_m, LanePlan *out,
                    TradeError *error)
{
  return geometry_check(outline, error) && trade_in_range(error, "direction_rad", direction_rad, -1e6, 1e6) &&
         lay_lanes(outline, half_turn(direction_rad), head_m, overlap_m, out, error);
}

/* Fewer pieces, or as many and clearly shorter: rounding must not decide between equal directions. */
static bool better(const LanePlan *a, const LanePlan *b)
{
  if (a->pieces != b->pieces) return a->pieces < b->pieces;
  return a->travel_m < b->travel_m * (1 - 1e-9);
}

static bool try_sides(const Outline *outline, Ring ring, double head_m, double overlap_m, LanePlan *best,
                      TradeError *error)
{
  for (size_t i = 0; i < ring.count; i++) {
    Point a = corner(ring, i), b = corner(ring, i + 1);
    LanePlan plan;
    double direction_rad = half_turn(atan2(b.y_m - a.y_m, b.x_m - a.x_m));
    if (!lay_lanes(outline, direction_rad, head_m, overlap_m, &plan, error)) return false;
    if (best->pieces == 0 || better(&plan, best)) *best = plan;
  }
  return true;
}

bool geometry_best_lanes(const Outline *outline, double head_m, double overlap_m, LanePlan *out, TradeError *error)
{
  if (!geometry_check(outline, error)) return false;
  LanePlan best = { 0 };
  if (!try_sides(outline, outline->outer, head_m, overlap_m, &best, error)) return false;
  for (size_t i = 0; i < outline->island_count; i++)
    if (!try_sides(outline, outline->islands[i], head_m, overlap_m, &best, error)) return false;
  *out = best;
  return true;
}
