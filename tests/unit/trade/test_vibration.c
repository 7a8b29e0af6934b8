/* test_vibration.c - daily hand-arm vibration. */
#include "support.h"

#include "refused.h"
#include "trade/vibration.h"

static void tools_add_as_the_root_of_squares(void **state)
{
  (void)state;
  const Exposure both[] = { { 3, 8 }, { 4, 8 } };
  double a8;
  assert_true(vibration_daily(both, 2, &a8, NULL));
  assert_near(a8, 5, 1e-12);
}

static void a_hundred_points_are_the_action_value_and_four_hundred_the_limit(void **state)
{
  (void)state;
  static const struct { double a8, points; } cases[] = { { 2.5, 100 }, { 5, 400 } };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    double hours, points, a8;
    assert_true(vibration_hours_to(6.3, cases[i].a8, &hours, NULL));
    Exposure tool = { 6.3, hours };
    assert_true(vibration_daily(&tool, 1, &a8, NULL));
    assert_true(vibration_points(&tool, 1, &points, NULL));
    assert_near(a8, cases[i].a8, 1e-12);
    assert_near(points, cases[i].points, 1e-9);
  }
}

static void impossible_vibration_is_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  double x = 7;
  assert_refused(vibration_daily(&(Exposure){ -2, 1 }, 1, &x, &error), TRADE_OUT_OF_RANGE, "level");
  assert_refused(vibration_points(&(Exposure){ 101, 1 }, 1, &x, &error), TRADE_OUT_OF_RANGE, "level");
  assert_refused(vibration_hours_to(0, 2.5, &x, &error), TRADE_OUT_OF_RANGE, "a_m_s2");
  assert_refused(vibration_hours_to(5, NAN, &x, &error), TRADE_NOT_FINITE, "goal_a8_m_s2");
  assert_near(x, 7, 0);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(tools_add_as_the_root_of_squares),
    cmocka_unit_test(a_hundred_points_are_the_action_value_and_four_hundred_the_limit),
    cmocka_unit_test(impossible_vibration_is_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
