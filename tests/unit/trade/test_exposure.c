/* test_exposure.c - 8 h averages, and the verdict on carbon monoxide. */
#include "support.h"

#include "refused.h"
#include "trade/carbon_monoxide.h"
#include "trade/exposure.h"

static void idle_time_counts_as_zero_and_a_long_shift_is_still_divided_by_eight(void **state)
{
  (void)state;
  double average;
  assert_true(exposure_average(&(Exposure){ 80, 4 }, 1, &average, NULL));
  assert_near(average, 40, 1e-12);
  assert_true(exposure_average(&(Exposure){ 40, 10 }, 1, &average, NULL));
  assert_near(average, 50, 1e-12);
}

static void tasks_that_cannot_be_are_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  double average = 7;
  const Exposure too_long[] = { { 50, 20 }, { 50, 4.01 } }, negative = { -1, 2 }, nobody = { NAN, 2 };
  assert_refused(exposure_average(too_long, 2, &average, &error), TRADE_OUT_OF_RANGE, "hours together");
  assert_refused(exposure_average(&negative, 1, &average, &error), TRADE_OUT_OF_RANGE, "level");
  assert_refused(exposure_average(&nobody, 1, &average, &error), TRADE_NOT_FINITE, "level");
  assert_refused(exposure_average(&negative, 0, &average, &error), TRADE_OUT_OF_RANGE, "count");
  assert_near(average, 7, 0);
}

static void carbon_monoxide_averages_and_peaks_are_judged_apart(void **state)
{
  (void)state;
  static const struct { double ppm, hours, peak_ppm; bool osha, niosh, acgih, ceiling;
  } cases[] = {
    { 20, 8, 20, false, false, false, false },
    { 30, 8, 30, false, false, true, false },
    { 40, 8, 40, false, true, true, false },
    { 50, 8, 50, false, true, true, false },
    { 51, 8, 60, true, true, true, false },
    { 10, 8, 200, false, false, false, false },
    { 10, 8, 201, false, false, false, true },
    { 100, 1, 100, false, false, false, false }, /* an hour is no shift */
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    CarbonMonoxideVerdict v;
    Exposure reading = { cases[i].ppm, cases[i].hours };
    assert_true(carbon_monoxide_check(&reading, 1, cases[i].peak_ppm, &v, NULL));
    assert_int_equal(v.over_osha, cases[i].osha);
    assert_int_equal(v.over_niosh, cases[i].niosh);
    assert_int_equal(v.over_acgih, cases[i].acgih);
    assert_int_equal(v.over_ceiling, cases[i].ceiling);
  }
}

static void a_peak_below_a_reading_is_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  CarbonMonoxideVerdict v = { .peak_ppm = 7 };
  assert_refused(carbon_monoxide_check(&(Exposure){ 40, 2 }, 1, 30, &v, &error), TRADE_OUT_OF_RANGE, "peak_ppm");
  assert_near(v.peak_ppm, 7, 0);
}

static void a_mole_of_carbon_monoxide_an_hour_is_a_molar_volume_an_hour(void **state)
{
  (void)state;
  TradeError error = { 0 };
  double gas_m3_h;
  assert_true(carbon_monoxide_flow(28.010, 25, &gas_m3_h, NULL));
  assert_near(gas_m3_h, 0.024465, 1e-6);
  assert_refused(carbon_monoxide_flow(-1, 25, &gas_m3_h, &error), TRADE_OUT_OF_RANGE, "emission_g_h");
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(idle_time_counts_as_zero_and_a_long_shift_is_still_divided_by_eight),
    cmocka_unit_test(tasks_that_cannot_be_are_refused),
    cmocka_unit_test(carbon_monoxide_averages_and_peaks_are_judged_apart),
    cmocka_unit_test(a_peak_below_a_reading_is_refused),
    cmocka_unit_test(a_mole_of_carbon_monoxide_an_hour_is_a_molar_volume_an_hour),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
