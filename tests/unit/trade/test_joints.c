/* test_joints.c - filler, joint grids, slab age. */
#include "support.h"

#include "refused.h"
#include "trade/customary.h"
#include "trade/joints.h"

static void filler_in_gallons_is_cubic_inches_over_231(void **state)
{
  (void)state;
  double volume_l;
  assert_true(joints_filler(500 * FOOT_M, 0.1875 * INCH_MM, 2 * INCH_MM, 0.1, &volume_l, NULL));
  assert_near(volume_l / GALLON_L, 500 * 12 * 0.1875 * 2 / 231 * 1.1, 1e-9);
}

static void a_grid_keeps_every_panel_within_the_spacing(void **state)
{
  (void)state;
  static const struct { double length_m, width_m, spacing_m; int along, across; double joint_m; } cases[] = {
    { 30, 20, 5, 3, 5, 3 * 30 + 5 * 20 }, { 31, 20, 5, 3, 6, 3 * 31 + 6 * 20 }, { 4, 4, 5, 0, 0, 0 },
    { 5, 5, 5, 0, 0, 0 },                 { 0.3 * 3, 1, 0.5, 1, 1, 1.9 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    JointGrid grid;
    assert_true(joints_grid(cases[i].length_m, cases[i].width_m, cases[i].spacing_m, &grid, NULL));
    assert_int_equal(grid.lines_along, cases[i].along);
    assert_int_equal(grid.lines_across, cases[i].across);
    assert_near(grid.length_m, cases[i].joint_m, 1e-9);
  }
}

static void a_slab_comes_of_age_at_ninety_days(void **state)
{
  (void)state;
  static const struct { double age_d; JointsAge age; } cases[] = {
    { 0, JOINTS_TOO_EARLY }, { 27.9, JOINTS_TOO_EARLY }, { 28, JOINTS_EARLY }, { 89, JOINTS_EARLY },
    { 90, JOINTS_OF_AGE },   { 9000, JOINTS_OF_AGE },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    JointsAge age;
    assert_true(joints_age(cases[i].age_d, &age, NULL));
    assert_int_equal(age, cases[i].age);
  }
}

static void impossible_joints_are_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  double volume_l = 7;
  JointGrid grid = { .length_m = 7 };
  JointsAge age = JOINTS_EARLY;
  assert_refused(joints_filler(-1, 5, 50, 0, &volume_l, &error), TRADE_OUT_OF_RANGE, "length_m");
  assert_refused(joints_filler(10, 0, 50, 0, &volume_l, &error), TRADE_OUT_OF_RANGE, "width_mm");
  assert_refused(joints_grid(10, 0, 5, &grid, &error), TRADE_OUT_OF_RANGE, "width_m");
  assert_refused(joints_grid(10, 10, NAN, &grid, &error), TRADE_NOT_FINITE, "spacing_m");
  assert_refused(joints_age(-1, &age, &error), TRADE_OUT_OF_RANGE, "age_d");
  assert_near(volume_l, 7, 0);
  assert_near(grid.length_m, 7, 0);
  assert_int_equal(age, JOINTS_EARLY);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(filler_in_gallons_is_cubic_inches_over_231),
    cmocka_unit_test(a_grid_keeps_every_panel_within_the_spacing),
    cmocka_unit_test(a_slab_comes_of_age_at_ninety_days),
    cmocka_unit_test(impossible_joints_are_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
