/* test_moisture.c - moisture emission, counts of tests, probe depth. */
#include "support.h"

#include "refused.h"
#include "trade/customary.h"
#include "trade/moisture.h"

static void both_units_of_emission_agree(void **state)
{
  (void)state;
  MoistureEmission e;
  assert_true(moisture_emission(3.3, 0.5 * SQFT_M2, 66, &e, NULL));
  assert_near(e.ug_s_m2 / e.mver, 56.51, 0.01);
}

static void a_dish_out_too_short_or_too_long_is_flagged(void **state)
{
  (void)state;
  static const struct { double hours; bool in_time; } cases[] = {
    { 59.9, false }, { 60, true }, { 72, true }, { 72.1, false }
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    MoistureEmission e;
    assert_true(moisture_emission(2, 0.05, cases[i].hours, &e, NULL));
    assert_int_equal(e.in_time, cases[i].in_time);
  }
}

static void tests_are_three_and_one_for_each_further_thousand_begun(void **state)
{
  (void)state;
  static const struct { double sqft; int tests; } cases[] = {
    { 1, 3 }, { 1000, 3 }, { 1000.5, 4 }, { 2000, 4 }, { 2001, 5 }, { 10000, 12 }
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    int tests = 0;
    assert_true(moisture_tests(cases[i].sqft * SQFT_M2, &tests, NULL));
    assert_int_equal(tests, cases[i].tests);
  }
}

static void a_probe_sits_shallower_where_both_sides_dry(void **state)
{
  (void)state;
  double depth_mm;
  assert_true(moisture_probe_depth(150, 1, &depth_mm, NULL));
  assert_near(depth_mm, 60, 1e-12);
  assert_true(moisture_probe_depth(150, 2, &depth_mm, NULL));
  assert_near(depth_mm, 30, 1e-12);
}

static void both_readings_must_hold(void **state)
{
  (void)state;
  static const struct { double mver, rh; bool holds; } cases[] = {
    { 3, 0.75, true }, { 3.1, 0.7, false }, { 2, 0.76, false }, { 4, 0.8, false }
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    MoistureVerdict v;
    assert_true(moisture_check(cases[i].mver, cases[i].rh, &v, NULL));
    assert_int_equal(v.holds, cases[i].holds);
    assert_int_equal(v.holds, v.emission_holds && v.humidity_holds);
  }
}

static void impossible_readings_are_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  MoistureEmission e = { .mver = 7 };
  MoistureVerdict v = { .holds = true };
  int tests = 7;
  double depth_mm = 7;
  assert_refused(moisture_emission(-1, 0.05, 66, &e, &error), TRADE_OUT_OF_RANGE, "gain_g");
  assert_refused(moisture_emission(1, 0.05, 0, &e, &error), TRADE_OUT_OF_RANGE, "hours");
  assert_refused(moisture_tests(NAN, &tests, &error), TRADE_NOT_FINITE, "area_m2");
  assert_refused(moisture_probe_depth(150, 3, &depth_mm, &error), TRADE_OUT_OF_RANGE, "drying_sides");
  assert_refused(moisture_check(3, 75, &v, &error), TRADE_OUT_OF_RANGE, "rh"); /* a percentage */
  assert_near(e.mver, 7, 0);
  assert_near(depth_mm, 7, 0);
  assert_int_equal(tests, 7);
  assert_true(v.holds);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(both_units_of_emission_agree),
    cmocka_unit_test(a_dish_out_too_short_or_too_long_is_flagged),
    cmocka_unit_test(tests_are_three_and_one_for_each_further_thousand_begun),
    cmocka_unit_test(a_probe_sits_shallower_where_both_sides_dry),
    cmocka_unit_test(both_readings_must_hold),
    cmocka_unit_test(impossible_readings_are_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
