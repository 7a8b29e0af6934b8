/* test_water.c - water used and tank trips. */
#include "support.h"

#include "refused.h"
#include "trade/water.h"

static void water_is_feed_times_time_or_area_over_coverage(void **state)
{
  (void)state;
  double volume_l;
  assert_true(water_by_feed(2, 90, &volume_l, NULL));
  assert_near(volume_l, 180, 1e-12);
  assert_true(water_by_area(300, 4, 3, &volume_l, NULL));
  assert_near(volume_l, 400, 1e-12);
}

static void a_started_tank_is_a_whole_trip(void **state)
{
  (void)state;
  static const struct { double volume_l, tank_l; int trips; double last_l; } cases[] = {
    { 0, 50, 0, 0 }, { 1, 50, 1, 1 }, { 50, 50, 1, 50 }, { 50.1, 50, 2, 0.1 }, { 0.3, 0.1, 3, 0.1 }
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    TankTrips t;
    assert_true(water_trips(cases[i].volume_l, cases[i].tank_l, 12, &t, NULL));
    assert_int_equal(t.trips, cases[i].trips);
    assert_near(t.minutes, cases[i].trips * 12, 0);
    assert_near(t.last_load_l, cases[i].last_l, 1e-9);
  }
}

static void reuse_leaves_the_rest_to_bring(void **state)
{
  (void)state;
  double fresh_l;
  assert_true(water_fresh(1000, 0.8, &fresh_l, NULL));
  assert_near(fresh_l, 200, 1e-9);
}

static void every_band_of_use_is_found_by_id(void **state)
{
  (void)state;
  for (size_t i = 0; water_band_at(i); i++) {
    const WaterBand *found = NULL;
    assert_true(water_band(water_band_at(i)->id, &found, NULL));
    assert_ptr_equal(found, water_band_at(i));
    assert_true(found->low <= found->high);
  }
}

static void impossible_water_is_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  double volume_l = 7;
  TankTrips trips = { .trips = 7 };
  const WaterBand *band = NULL;
  assert_refused(water_by_feed(-1, 5, &volume_l, &error), TRADE_OUT_OF_RANGE, "feed_l_min");
  assert_refused(water_by_feed(1, NAN, &volume_l, &error), TRADE_NOT_FINITE, "running_min");
  assert_refused(water_by_area(10, 0, 5, &volume_l, &error), TRADE_OUT_OF_RANGE, "passes");
  assert_refused(water_by_area(10, 1, 0, &volume_l, &error), TRADE_OUT_OF_RANGE, "covers_m2_l");
  assert_refused(water_fresh(10, 1.1, &volume_l, &error), TRADE_OUT_OF_RANGE, "reusable");
  assert_refused(water_trips(10, 0, 5, &trips, &error), TRADE_OUT_OF_RANGE, "tank_l");
  assert_refused(water_trips(1e9, 1e-3, 5, &trips, &error), TRADE_OUT_OF_RANGE, "volume_l/tank_l");
  assert_refused(water_band("tears", &band, &error), TRADE_UNKNOWN, "id");
  assert_near(volume_l, 7, 0);
  assert_int_equal(trips.trips, 7);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(water_is_feed_times_time_or_area_over_coverage),
    cmocka_unit_test(a_started_tank_is_a_whole_trip),
    cmocka_unit_test(reuse_leaves_the_rest_to_bring),
    cmocka_unit_test(every_band_of_use_is_found_by_id),
    cmocka_unit_test(impossible_water_is_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
