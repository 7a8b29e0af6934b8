/* test_climate.c - dew point, surface margin, evaporation. */
#include "support.h"

#include "refused.h"
#include "trade/climate.h"

static void saturated_air_is_at_its_dew_point(void **state)
{
  (void)state;
  for (const MagnusForm *form = climate_magnus_forms; form->id; form++)
    for (double air_c = 0; air_c <= 50; air_c += 10) {
      double dew_c = NAN;
      assert_true(climate_dew_point_by(form, air_c, 1, &dew_c, NULL));
      assert_near(dew_c, air_c, 1e-9);
    }
}

static void the_dew_point_rises_with_humidity_and_stays_below_the_air(void **state)
{
  (void)state;
  double before_c = -100;
  for (int percent = 1; percent <= 99; percent++) {
    double dew_c = NAN;
    assert_true(climate_dew_point(22, percent / 100.0, &dew_c, NULL));
    assert_true(before_c < dew_c && dew_c < 22);
    before_c = dew_c;
  }
}

static void the_pressure_at_the_dew_point_is_the_vapour_pressure(void **state)
{
  (void)state;
  double dew_c, at_air_hpa, at_dew_hpa;
  assert_true(climate_dew_point(27, 0.43, &dew_c, NULL));
  assert_true(climate_saturation_pressure(27, &at_air_hpa, NULL));
  assert_true(climate_saturation_pressure(dew_c, &at_dew_hpa, NULL));
  assert_near(at_dew_hpa, 0.43 * at_air_hpa, 1e-9);
}

static void air_outside_the_formula_is_refused(void **state)
{
  (void)state;
  static const struct { double air_c, rh; TradeStatus status; const char *argument; } cases[] = {
    { 51, 0.5, TRADE_OUT_OF_RANGE, "air_c" }, { -41, 0.5, TRADE_OUT_OF_RANGE, "air_c" },
    { NAN, 0.5, TRADE_NOT_FINITE, "air_c" },  { 20, 0, TRADE_OUT_OF_RANGE, "rh" },
    { 20, 1.01, TRADE_OUT_OF_RANGE, "rh" },   { 20, 60, TRADE_OUT_OF_RANGE, "rh" }, /* a percentage by mistake */
    { 20, INFINITY, TRADE_NOT_FINITE, "rh" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    TradeError error = { 0 };
    double dew_c = 7;
    assert_refused(climate_dew_point(cases[i].air_c, cases[i].rh, &dew_c, &error), cases[i].status,
                   cases[i].argument);
    assert_near(dew_c, 7, 0);
  }
}

static void a_surface_exactly_at_the_margin_is_enough(void **state)
{
  (void)state;
  SurfaceMargin m;
  assert_true(climate_surface_margin(18, 1, 21, 3, &m, NULL));
  assert_true(m.enough);
  assert_near(m.margin_k, 3, 1e-9);
  assert_true(climate_surface_margin(18, 1, 20.99, 3, &m, NULL));
  assert_false(m.enough);
}

static void a_surface_below_the_dew_point_has_a_negative_margin(void **state)
{
  (void)state;
  SurfaceMargin m;
  assert_true(climate_surface_margin(30, 0.8, 20, 3, &m, NULL));
  assert_true(m.margin_k < -6 && !m.enough);
}

static void moist_air_over_a_cold_slab_condenses_and_is_not_clamped(void **state)
{
  (void)state;
  Evaporation e;
  assert_true(climate_evaporation(10, 30, 0.9, 5, &e, NULL));
  assert_int_equal(e.state, CLIMATE_CONDENSES);
  assert_true(e.rate < -0.1);
  assert_true(climate_evaporation_us(50, 86, 0.9, 3, &e, NULL));
  assert_int_equal(e.state, CLIMATE_CONDENSES);
}

static void wind_and_dry_air_dry_faster(void **state)
{
  (void)state;
  Evaporation calm, windy, humid;
  assert_true(climate_evaporation(20, 20, 0.5, 0, &calm, NULL));
  assert_true(climate_evaporation(20, 20, 0.5, 10, &windy, NULL));
  assert_true(climate_evaporation(20, 20, 0.8, 10, &humid, NULL));
  assert_true(calm.rate < windy.rate && humid.rate < windy.rate);
}

static void evaporation_refuses_frost_and_storm(void **state)
{
  (void)state;
  TradeError error = { 0 };
  Evaporation e = { .rate = 7 };
  assert_refused(climate_evaporation(-1, 20, 0.5, 5, &e, &error), TRADE_OUT_OF_RANGE, "surface_c");
  assert_refused(climate_evaporation(20, 61, 0.5, 5, &e, &error), TRADE_OUT_OF_RANGE, "air_c");
  assert_refused(climate_evaporation_rounded(20, 20, 0.5, -1, &e, &error), TRADE_OUT_OF_RANGE, "wind_km_h");
  assert_refused(climate_evaporation_us(20, 70, 0.5, 5, &e, &error), TRADE_OUT_OF_RANGE, "surface_f");
  assert_refused(climate_evaporation_us(70, 70, 0.5, NAN, &e, &error), TRADE_NOT_FINITE, "wind_mph");
  assert_near(e.rate, 7, 0);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(saturated_air_is_at_its_dew_point),
    cmocka_unit_test(the_dew_point_rises_with_humidity_and_stays_below_the_air),
    cmocka_unit_test(the_pressure_at_the_dew_point_is_the_vapour_pressure),
    cmocka_unit_test(air_outside_the_formula_is_refused),
    cmocka_unit_test(a_surface_exactly_at_the_margin_is_enough),
    cmocka_unit_test(a_surface_below_the_dew_point_has_a_negative_margin),
    cmocka_unit_test(moist_air_over_a_cold_slab_condenses_and_is_not_clamped),
    cmocka_unit_test(wind_and_dry_air_dry_faster),
    cmocka_unit_test(evaporation_refuses_frost_and_storm),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
