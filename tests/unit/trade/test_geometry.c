/* test_geometry.c - outlines and the lanes over them. */
#include <stdlib.h>
#include <string.h>

#include "support.h"
#include "trade/geometry.h"

#define RING(points) { (points), sizeof(points) / sizeof *(points) }

static const Point ell[] = { { 0, 0 }, { 20, 0 }, { 20, 8 }, { 8, 8 }, { 8, 20 }, { 0, 20 } };
static const Point hall[] = { { 0, 0 }, { 30, 0 }, { 30, 10 }, { 0, 10 } };
static const Point column[] = { { 10, 4 }, { 10, 6 }, { 12, 6 }, { 12, 4 } };
static const Point second_column[] = { { 20, 4 }, { 22, 4 }, { 22, 6 }, { 20, 6 } };
static const Point triangle[] = { { 0, 0 }, { 12, 0 }, { 0, 5 } };

static void area_and_walls_follow_from_the_corners(void **state)
{
  (void)state;
  const Ring columns[] = { RING(column), RING(second_column) };
  const struct { Outline outline; double area_m2, edge_m; } cases[] = {
    { { RING(hall), NULL, 0 }, 300, 80 },
    { { RING(ell), NULL, 0 }, 20 * 8 + 8 * 12, 80 },
    { { RING(triangle), NULL, 0 }, 30, 30 }, /* 5, 12, 13 */
    { { RING(hall), columns, 2 }, 292, 96 }, /* the columns are drawn in opposite senses */
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    FloorSize size;
    assert_true(geometry_size(&cases[i].outline, &size, NULL));
    assert_near(size.area_m2, cases[i].area_m2, 1e-12);
    assert_near(size.edge_m, cases[i].edge_m, 1e-12);
  }
}

static void a_broken_outline_is_refused_with_its_reason(void **state)
{
  (void)state;
  static const Point two[] = { { 0, 0 }, { 1, 0 } };
  static const Point bow_tie[] = { { 0, 0 }, { 2, 2 }, { 2, 0 }, { 0, 2 } };
  static const Point twice[] = { { 0, 0 }, { 0, 0 }, { 1, 0 }, { 0, 1 } };
  static const Point line[] = { { 0, 0 }, { 1, 0 }, { 2, 0 } };
  static const Point spike[] = { { 0, 0 }, { 4, 0 }, { 4, 4 }, { 6, 4 }, { 3, 4 }, { 0, 4 } };
  static const Point pinched[] = { { 0, 0 }, { 4, 0 }, { 4, 4 }, { 2, 0 }, { 0, 4 } };
  static const Point lost[] = { { 0, 0 }, { NAN, 0 }, { 0, 1 } };
  static const Point far[] = { { 0, 0 }, { 1.1e6, 0 }, { 0, 1 } };
  const struct { Ring ring; TradeStatus status; const char *says; } cases[] = {
    { RING(two), TRADE_OUT_OF_RANGE, "corners is 2" },
    { RING(bow_tie), TRADE_DEGENERATE, "cross or touch" },
    { RING(twice), TRADE_DEGENERATE, "corner 1 of outline is given twice" },
    { RING(line), TRADE_DEGENERATE, "cross or touch" },
    { RING(spike), TRADE_DEGENERATE, "cross or touch" },   /* runs back along its own wall */
    { RING(pinched), TRADE_DEGENERATE, "cross or touch" }, /* two bays that meet in a point */
    { RING(lost), TRADE_NOT_FINITE, "corner 2" },
    { RING(far), TRADE_OUT_OF_RANGE, "corner 2 of outline is over 1000 km away" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    TradeError error = { 0 };
    FloorSize size = { -1, -1 };
    Outline outline = { cases[i].ring, NULL, 0 };
    assert_false(geometry_size(&outline, &size, &error));
    assert_int_equal(error.status, cases[i].status);
    assert_non_null(strstr(error.message, cases[i].says));
    assert_true(size.area_m2 == -1 && size.edge_m == -1);
  }
}

static void walls_that_only_touch_are_refused_like_those_that_cross(void **state)
{
  (void)state;
  static const Point corner_on_wall[] = { { 5, 0 }, { 6, 1 }, { 4, 1 } };   /* its corner on our side */
  static const Point side_on_wall[] = { { 5, 0 }, { 7, 0 }, { 7, 2 }, { 5, 2 } };
  static const Point corner_in_corner[] = { { 0, 0 }, { 2, 1 }, { 1, 2 } };
  static const Point on_far_wall[] = { { 29, 5 }, { 28, 4 }, { 30, 5 } };
  static const Ring islands[] = { RING(corner_on_wall), RING(side_on_wall), RING(corner_in_corner),
                                  RING(on_far_wall) };
  for (size_t i = 0; i < COUNT_OF(islands); i++) {
    TradeError error = { 0 };
    Outline outline = { RING(hall), &islands[i], 1 };
    assert_false(geometry_check(&outline, &error));
    assert_non_null(strstr(error.message, "touches the outline"));
  }
  /* A wall's corner on an island's side, and an outline whose corner lies on another of its own sides. */
  static const Point notched[] = { { 0, 0 }, { 30, 0 }, { 30, 10 }, { 16, 10 }, { 15, 6 }, { 14, 10 }, { 0, 10 } };
  static const Point under_notch[] = { { 10, 6 }, { 10, 4 }, { 20, 4 }, { 20, 6 } };
  static const Point to_own_side[] = {
    { 0, 0 }, { 30, 0 }, { 30, 10 }, { 16, 10 }, { 15, 0 }, { 14, 10 }, { 0, 10 }
  };
  const Ring island = RING(under_notch);
  Outline outline = { RING(notched), &island, 1 };
  assert_false(geometry_check(&outline, NULL));
  outline = (Outline){ RING(to_own_side), NULL, 0 };
  assert_false(geometry_check(&outline, NULL));
}

static void islands_must_lie_inside_and_clear_of_each_other(void **state)
{
  (void)state;
  static const Point outside[] = { { 40, 4 }, { 42, 4 }, { 42, 6 } };
  static const Point on_wall[] = { { 0, 4 }, { 2, 4 }, { 2, 6 }, { 0, 6 } };
  static const Point round_it[] = { { -1, -1 }, { 31, -1 }, { 31, 11 }, { -1, 11 } };
  static const Point within_column[] = { { 10.5, 4.5 }, { 11, 4.5 }, { 11, 5 } };
  const struct { Ring islands[2]; size_t count; const char *says; } cases[] = {
    { { RING(outside) }, 1, "island 1 lies outside" },
    { { RING(round_it) }, 1, "island 1 lies outside" },
    { { RING(column), RING(on_wall) }, 2, "island 2 touches the outline" },
    { { RING(column), RING(within_column) }, 2, "islands 1 and 2 overlap" },
    { { RING(within_column), RING(column) }, 2, "islands 1 and 2 overlap" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    TradeError error = { 0 };
    Outline outline = { RING(hall), cases[i].islands, cases[i].count };
    assert_false(geometry_check(&outline, &error));
    assert_string_equal(error.argument, "islands");
    assert_non_null(strstr(error.message, cases[i].says));
  }
}

static void lanes_across_a_bay_round_up(void **state)
{
  (void)state;
  static const struct { double width_m, head_m, overlap_m; int lanes; } cases[] = {
    { 10, 1.0, 0.0, 10 },
    { 10.0001, 1.0, 0.0, 11 },
    { 0.1 * 3, 0.1, 0, 3 }, /* 0.30000000000000004: rounding adds no lane */
    { 9.1, 1.0, 0.1, 10 },  /* the last lane needs no overlap beyond it */
    { 0.5, 0.8, 0.05, 1 },  /* narrower than the head */
    { 0.03, 0.8, 0.05, 1 }, /* narrower than the overlap */
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    int lanes = -1;
    assert_true(geometry_lane_count(cases[i].width_m, cases[i].head_m, cases[i].overlap_m, &lanes, NULL));
    assert_int_equal(lanes, cases[i].lanes);
  }
}

static void a_head_that_gains_no_ground_is_refused(void **state)
{
  (void)state;
  static const struct { double head_m, overlap_m; const char *argument; } cases[] = {
    { 0, 0, "head_m" }, { -1, 0, "head_m" }, { NAN, 0, "head_m" }, { 0.8, 0.8, "overlap_m" },
    { 0.8, 1, "overlap_m" }, { 0.8, -0.1, "overlap_m" }, { 0.8, 0.8 - 1e-9, "lanes" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    TradeError error = { 0 };
    int lanes = -1;
    assert_false(geometry_lane_count(10, cases[i].head_m, cases[i].overlap_m, &lanes, &error));
    assert_string_equal(error.argument, cases[i].argument);
    assert_int_equal(lanes, -1);
  }
}

static void a_rectangle_is_driven_along_its_longer_side(void **state)
{
  (void)state;
  Point points[4];
  Outline outline = { geometry_rectangle(10, 30, points), NULL, 0 };
  LanePlan plan;
  assert_true(geometry_best_lanes(&outline, 1, 0.1, &plan, NULL));
  assert_near(plan.direction_rad, 3.14159265358979 / 2, 1e-12);
  assert_int_equal(plan.lanes, 11);
  assert_int_equal(plan.pieces, 11);
  assert_int_equal(plan.turns, 10);
  assert_near(plan.travel_m, 330, 1e-9);
  assert_near(plan.pitch_m, 0.9, 1e-12); /* (10 - 1) / 10 */
}

static void a_head_wider_than_the_floor_takes_one_piece(void **state)
{
  (void)state;
  Point points[4];
  Outline outline = { geometry_rectangle(12, 0.6, points), NULL, 0 };
  LanePlan plan;
  assert_true(geometry_best_lanes(&outline, 0.8, 0.05, &plan, NULL));
  assert_int_equal(plan.pieces, 1);
  assert_int_equal(plan.turns, 0);
  assert_near(plan.travel_m, 12, 1e-12);
}

static void of_directions_with_as_many_pieces_the_shorter_wins(void **state)
{
  (void)state;
  static const double sides_m[][2] = { { 10, 9.5 }, { 9.5, 10 } }; /* ten lanes either way: of 10 m or of 9.5 m */
  for (size_t i = 0; i < COUNT_OF(sides_m); i++) {
    Point points[4];
    Outline outline = { geometry_rectangle(sides_m[i][0], sides_m[i][1], points), NULL, 0 };
    LanePlan plan;
    assert_true(geometry_best_lanes(&outline, 1, 0, &plan, NULL));
    assert_int_equal(plan.pieces, 10);
    assert_near(plan.travel_m, 95, 1e-9);
  }
}

static void a_direction_is_given_back_within_half_a_turn(void **state)
{
  (void)state;
  static const struct { double asked, given; } cases[] = {
    { 0, 0 }, { 1, 1 }, { 4, 4 - 3.141592653589793 }, { -1, 3.141592653589793 - 1 }, { 3.141592653589793, 0 },
  };
  Outline outline = { RING(hall), NULL, 0 };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    LanePlan plan;
    assert_true(geometry_lanes(&outline, cases[i].asked, 1, 0, &plan, NULL));
    assert_near(plan.direction_rad, cases[i].given, 1e-12);
  }
}

static void one_lane_runs_down_the_middle(void **state)
{
  (void)state;
  static const Point sliver[] = { { 0, 0 }, { 12, 0 }, { 0, 0.6 } };
  Outline outline = { RING(sliver), NULL, 0 };
  LanePlan plan;
  assert_true(geometry_lanes(&outline, 0, 0.8, 0.05, &plan, NULL));
  assert_int_equal(plan.lanes, 1);
  assert_near(plan.travel_m, 6, 1e-9);
}

static void two_lanes_hug_both_walls(void **state)
{
  (void)state;
  static const Point wedge[] = { { 0, 0 }, { 10, 0 }, { 10, 1.5 }, { 0, 1.5 }, { -3, 0.5 } };
  Outline outline = { RING(wedge), NULL, 0 };
  LanePlan plan;
  assert_true(geometry_lanes(&outline, 0, 1, 0.2, &plan, NULL));
  assert_int_equal(plan.lanes, 2);
  assert_near(plan.pitch_m, 0.5, 1e-12);
  assert_near(plan.travel_m, 13 + 11.5, 1e-9); /* centre lines half a metre from each wall */
}

static void a_column_cuts_the_lanes_that_meet_it(void **state)
{
  (void)state;
  const Ring columns[] = { RING(column), RING(second_column) };
  Outline outline = { RING(hall), columns, 2 };
  LanePlan plan;
  assert_true(geometry_lanes(&outline, 0, 1, 0, &plan, NULL));
  /* Centre lines at 0.5 to 9.5: two of the ten, 4.5 and 5.5, run into both columns, 2 m each. */
  assert_int_equal(plan.lanes, 10);
  assert_int_equal(plan.pieces, 8 + 2 * 3);
  assert_near(plan.travel_m, 8 * 30 + 2 * (30 - 4), 1e-9);
}

static void a_concave_floor_is_cut_where_its_bays_part(void **state)
{
  (void)state;
  static const Point comb[] = { { 0, 0 }, { 9, 0 }, { 9, 9 }, { 6, 9 }, { 6, 3 }, { 3, 3 }, { 3, 9 }, { 0, 9 } };
  Outline outline = { RING(comb), NULL, 0 };
  LanePlan flat, upright, best;
  assert_true(geometry_lanes(&outline, 0, 1, 0, &flat, NULL));
  assert_int_equal(flat.pieces, 3 + 2 * 6);
  assert_true(geometry_lanes(&outline, 1.5707963267948966, 1, 0, &upright, NULL));
  assert_int_equal(upright.pieces, 9);
  assert_true(geometry_best_lanes(&outline, 1, 0, &best, NULL));
  assert_int_equal(best.pieces, 9);
  assert_near(best.travel_m, 3 * 9 + 3 * 3 + 3 * 9, 1e-9);
}

static void narrow_lanes_add_up_to_the_area_in_any_direction(void **state)
{
  (void)state;
  const Ring columns[] = { RING(column), RING(second_column) };
  const Outline outlines[] = { { RING(ell), NULL, 0 }, { RING(triangle), NULL, 0 }, { RING(hall), columns, 2 } };
  for (size_t i = 0; i < COUNT_OF(outlines); i++)
    for (double direction = 0; direction < 3.1; direction += 0.37) {
      FloorSize size;
      LanePlan plan;
      assert_true(geometry_size(&outlines[i], &size, NULL));
      assert_true(geometry_lanes(&outlines[i], direction, 0.01, 0, &plan, NULL));
      assert_near(plan.travel_m * plan.pitch_m / size.area_m2, 1, 2e-3);
    }
}

static double random_in(uint32_t *seed, double low, double high)
{
  *seed = *seed * 1664525u + 1013904223u;
  return low + (high - low) * (double)(*seed >> 8) / (1 << 24);
}

/* Corners at random distances round a centre: such a ring never crosses itself. */
static Ring star(uint32_t *seed, Point *points, size_t count, Point centre, double near_m, double far_m)
{
  for (size_t i = 0; i < count; i++) {
    double angle = 6.283185307179586 * (double)i / (double)count, radius_m = random_in(seed, near_m, far_m);
    points[i] = (Point){ centre.x_m + radius_m * cos(angle), centre.y_m + radius_m * sin(angle) };
  }
  return (Ring){ points, count };
}

static int in_order(const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

/* Where the line y crosses the ring turned by -direction. */
static size_t crossings(Ring ring, double direction, double y, double *at)
{
  size_t count = 0;
  for (size_t i = 0; i < ring.count; i++) {
    Point p = ring.points[i], q = ring.points[(i + 1) % ring.count];
    double py = p.y_m * cos(direction) - p.x_m * sin(direction),
           qy = q.y_m * cos(direction) - q.x_m * sin(direction);
    double px = p.x_m * cos(direction) + p.y_m * sin(direction),
           qx = q.x_m * cos(direction) + q.y_m * sin(direction);
    if ((py <= y) != (qy <= y)) at[count++] = px + (qx - px) * (y - py) / (qy - py);
  }
  return count;
}

/* The plain way: every centre line, its crossings sorted, every second gap is floor. */
static void lanes_agree_with_sorting_the_crossings_of_each_line(void **state)
{
  (void)state;
  uint32_t seed = 7;
  for (int round = 0; round < 200; round++) {
    Point wall[12], post[5];
    Ring outer = star(&seed, wall, 5 + (size_t)round % 8, (Point){ 3, -2 }, 4, 15);
    Ring island = star(&seed, post, 5, (Point){ 3, -2 }, 0.5, 2);
    Outline outline = { outer, &island, 1 };
    LanePlan plan;
    double direction = random_in(&seed, 0, 3.14), head_m = 0.8, low = INFINITY, travel_m = 0;
    assert_true(geometry_lanes(&outline, direction, head_m, 0.05, &plan, NULL));
    for (size_t i = 0; i < outer.count; i++)
      low = fmin(low, wall[i].y_m * cos(direction) - wall[i].x_m * sin(direction));
    int pieces = 0;
    for (int lane = 0; lane < plan.lanes; lane++) {
      double at[40], y = low + head_m / 2 + lane * plan.pitch_m;
      size_t count = crossings(outer, direction, y, at);
      count += crossings(island, direction, y, at + count);
      qsort(at, count, sizeof *at, in_order);
      for (size_t i = 0; i + 1 < count; i += 2, pieces++) travel_m += at[i + 1] - at[i];
    }
    assert_int_equal(plan.pieces, pieces);
    assert_near(plan.travel_m, travel_m, 1e-9 * travel_m);
  }
}

static void turning_the_drawing_turns_the_lanes_and_nothing_else(void **state)
{
  (void)state;
  Outline outline = { RING(ell), NULL, 0 };
  LanePlan plan;
  assert_true(geometry_best_lanes(&outline, 0.8, 0.05, &plan, NULL));
  for (double angle = 0.3; angle < 6.2; angle += 0.7) {
    Point points[6];
    for (size_t i = 0; i < 6; i++)
      points[i] = (Point){ ell[i].x_m * cos(angle) - ell[i].y_m * sin(angle) + 100,
                           ell[i].x_m * sin(angle) + ell[i].y_m * cos(angle) - 7 };
    Outline turned = { RING(points), NULL, 0 };
    LanePlan got;
    assert_true(geometry_best_lanes(&turned, 0.8, 0.05, &got, NULL));
    assert_int_equal(got.pieces, plan.pieces);
    assert_near(got.travel_m, plan.travel_m, 1e-6);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(area_and_walls_follow_from_the_corners),
    cmocka_unit_test(a_broken_outline_is_refused_with_its_reason),
    cmocka_unit_test(walls_that_only_touch_are_refused_like_those_that_cross),
    cmocka_unit_test(islands_must_lie_inside_and_clear_of_each_other),
    cmocka_unit_test(lanes_across_a_bay_round_up),
    cmocka_unit_test(a_head_that_gains_no_ground_is_refused),
    cmocka_unit_test(a_rectangle_is_driven_along_its_longer_side),
    cmocka_unit_test(a_head_wider_than_the_floor_takes_one_piece),
    cmocka_unit_test(of_directions_with_as_many_pieces_the_shorter_wins),
    cmocka_unit_test(a_direction_is_given_back_within_half_a_turn),
    cmocka_unit_test(one_lane_runs_down_the_middle),
    cmocka_unit_test(two_lanes_hug_both_walls),
    cmocka_unit_test(a_column_cuts_the_lanes_that_meet_it),
    cmocka_unit_test(a_concave_floor_is_cut_where_its_bays_part),
    cmocka_unit_test(narrow_lanes_add_up_to_the_area_in_any_direction),
    cmocka_unit_test(lanes_agree_with_sorting_the_crossings_of_each_line),
    cmocka_unit_test(turning_the_drawing_turns_the_lanes_and_nothing_else),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
