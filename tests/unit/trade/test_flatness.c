/* test_flatness.c - F-numbers of profiles. */
#include "support.h"
#include "trade/flatness.h"

static void f_numbers_follow_from_the_statistics_of_a_sample(void **state)
{
  (void)state;
  double f;
  assert_true(flatness_ff(0.030, 0.002, &f, NULL));
  assert_near(f, 49.67, 0.005);
  assert_true(flatness_ff(0.030, -0.002, &f, NULL)); /* a dish is as bad as a hump */
  assert_near(f, 49.67, 0.005);
  assert_true(flatness_fl(0.150, 0.050, &f, NULL));
  assert_near(f, 25.0, 1e-9);
}

static void a_slope_spoils_level_and_not_flatness(void **state)
{
  (void)state;
  double even[24], sloped[24];
  for (int i = 0; i < 24; i++) {
    even[i] = i % 3 ? 0.03 : 0.0;
    sloped[i] = even[i] + 0.02 * i;
  }
  FlatnessLine a, b;
  assert_true(flatness_line(even, 24, &a, NULL));
  assert_true(flatness_line(sloped, 24, &b, NULL));
  assert_near(b.ff, a.ff, 1e-6);
  assert_near(b.z_mean_in - a.z_mean_in, 0.2, 1e-9); /* 0.02 in each foot */
  assert_near(b.z_spread_in, a.z_spread_in, 1e-9);
  assert_true(b.fl < a.fl);
}

static void finer_waves_of_the_same_height_are_less_flat(void **state)
{
  (void)state;
  double previous = 0;
  for (int period = 4; period <= 20; period += 4) {
    double h[61];
    FlatnessLine line;
    for (int i = 0; i <= 60; i++) h[i] = 0.05 * sin(6.283185307 * i / period);
    assert_true(flatness_line(h, 61, &line, NULL));
    assert_true(line.ff > previous);
    previous = line.ff;
  }
}

static void a_short_line_has_flatness_but_no_level(void **state)
{
  (void)state;
  static const double h[] = { 0, 0.05, 0.02, 0.07, 0.04, 0.10, 0.06, 0.03, 0.08, 0.05, 0.09, 0.12 };
  FlatnessLine line;
  assert_true(flatness_line(h, 11, &line, NULL));
  assert_false(line.has_fl);
  assert_near(line.fl, 0, 0);
  assert_true(flatness_line(h, 12, &line, NULL));
  assert_true(line.has_fl);
  assert_int_equal(line.curvatures, 10);
  assert_int_equal(line.differences, 2);
}

static void lines_that_say_nothing_are_refused(void **state)
{
  (void)state;
  static const double level[] = { 1, 1, 1, 1 }, ramp[] = { 0, 1, 2, 3, 4 }, lost[] = { NAN, 1, 0, 1 };
  static const struct { const double *h; size_t count; TradeStatus status; } cases[] = {
    { level, 4, TRADE_DEGENERATE }, { ramp, 5, TRADE_DEGENERATE }, { level, 3, TRADE_TOO_FEW },
    { lost, 4, TRADE_NOT_FINITE },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    FlatnessLine line = { .ff = -1 };
    TradeError error = { 0 };
    assert_false(flatness_line(cases[i].h, cases[i].count, &line, &error));
    assert_int_equal(error.status, cases[i].status);
    assert_near(line.ff, -1, 0);
  }
  double f;
  assert_false(flatness_ff(-0.01, 0, &f, NULL));
  assert_false(flatness_fl(0, 0, &f, NULL));
}

static void samples_combine_towards_the_worse_and_the_larger(void **state)
{
  (void)state;
  static const FlatnessSample same[] = { { 40, 100 }, { 40, 7 } }, mixed[] = { { 20, 100 }, { 60, 100 } };
  double f;
  assert_true(flatness_combine(same, 2, &f, NULL));
  assert_near(f, 40, 1e-12);
  assert_true(flatness_combine(mixed, 2, &f, NULL));
  assert_near(f, sqrt(200 / (100 / 400.0 + 100 / 3600.0)), 1e-12);
  assert_true(f < 30); /* nearer to the worse than the mean of 40 */
  TradeError error = { 0 };
  static const FlatnessSample bad[] = { { 0, 100 } };
  assert_false(flatness_combine(bad, 1, &f, &error));
  assert_string_equal(error.argument, "f");
  assert_false(flatness_combine(same, 0, &f, &error));
  assert_int_equal(error.status, TRADE_TOO_FEW);
}

static void the_least_readings_change_their_rule_at_1600_square_feet(void **state)
{
  (void)state;
  static const struct { double area_sqft; int readings; } cases[] = {
    { 64, 16 }, { 1600, 80 }, { 1601, 54 }, { 3000, 100 }, /* the inch edition's own jump */
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    int readings;
    assert_true(flatness_least_readings(cases[i].area_sqft, &readings, NULL));
    assert_int_equal(readings, cases[i].readings);
  }
}

static void a_floor_meets_a_limit_by_both_of_its_numbers(void **state)
{
  (void)state;
  const FlatnessLimit *limit = flatness_limit_at(0);
  assert_true(flatness_meets(limit, 50, 30));
  assert_false(flatness_meets(limit, 49.9, 60));
  assert_false(flatness_meets(limit, 90, 29.9));
  for (size_t i = 0; flatness_limit_at(i); i++) assert_non_null(flatness_limit_at(i)->basis.source);
  for (size_t i = 1; flatness_gap_at(i); i++)
    assert_true(flatness_gap_at(i)->gap_in < flatness_gap_at(i - 1)->gap_in);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(f_numbers_follow_from_the_statistics_of_a_sample),
    cmocka_unit_test(a_slope_spoils_level_and_not_flatness),
    cmocka_unit_test(finer_waves_of_the_same_height_are_less_flat),
    cmocka_unit_test(a_short_line_has_flatness_but_no_level),
    cmocka_unit_test(lines_that_say_nothing_are_refused),
    cmocka_unit_test(samples_combine_towards_the_worse_and_the_larger),
    cmocka_unit_test(the_least_readings_change_their_rule_at_1600_square_feet),
    cmocka_unit_test(a_floor_meets_a_limit_by_both_of_its_numbers),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
