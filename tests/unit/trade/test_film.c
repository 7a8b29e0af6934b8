/* test_film.c - film thickness, wet life, re-wetting. */
#include "support.h"

#include "refused.h"
#include "trade/climate.h"
#include "trade/customary.h"
#include "trade/film.h"

static void a_litre_over_a_square_metre_is_a_millimetre(void **state)
{
  (void)state;
  double wet_um;
  assert_true(film_wet_thickness(1, &wet_um, NULL));
  assert_near(wet_um, 1000, 0);
  assert_true(film_wet_thickness(400 * SQFT_PER_GALLON_M2_L, &wet_um, NULL));
  assert_near(wet_um / MIL_UM, 1604.166667 / 400, 1e-6); /* 231 in3 over 400 sqft, in mils */
}

static void dry_film_and_spread_are_inverse(void **state)
{
  (void)state;
  double wet_um, dry_um, spread_m2_l;
  assert_true(film_wet_thickness(12, &wet_um, NULL));
  assert_true(film_dry_thickness(wet_um, 0.3, &dry_um, NULL));
  assert_true(film_spread(0.3, dry_um, &spread_m2_l, NULL));
  assert_near(spread_m2_l, 12, 1e-12);
}

static void the_wet_life_spans_the_uncertainty_of_the_rate(void **state)
{
  (void)state;
  WetLife life;
  assert_true(film_wet_life(100, 1000, 1, 0.5, &life, NULL)); /* 0.1 kg/m2 at 0.5 kg/m2/h */
  assert_near(life.likely_h, 0.2, 1e-12);
  assert_near(life.early_h, 0.2 / 1.4, 1e-12);
  assert_near(life.late_h, 0.2 / 0.6, 1e-12);
}

static void a_film_on_a_condensing_floor_has_no_wet_life(void **state)
{
  (void)state;
  TradeError error = { 0 };
  Evaporation e;
  WetLife life = { 7, 7, 7 };
  assert_true(climate_evaporation(10, 30, 0.9, 5, &e, NULL));
  assert_refused(film_wet_life(100, 1000, 1, e.rate, &life, &error), TRADE_NO_ANSWER, "evaporation_kg_m2_h");
  assert_refused(film_wet_life(100, 1000, 1, 0, &life, &error), TRADE_NO_ANSWER, "evaporation_kg_m2_h");
  assert_near(life.likely_h, 7, 0);
}

static void re_wets_are_what_the_dwell_has_left_after_the_first_coat(void **state)
{
  (void)state;
  static const struct { double dwell_h, life_h; int likely; } cases[] = {
    { 0.5, 1.0, 0 }, { 1.0, 1.0, 0 }, { 1.01, 1.0, 1 }, { 3.0, 1.0, 2 }, { 0.75, 0.25, 2 }
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    WetLife life = { cases[i].life_h / 1.4, cases[i].life_h, cases[i].life_h / 0.6 };
    Rewets r;
    assert_true(film_rewets(cases[i].dwell_h, &life, &r, NULL));
    assert_int_equal(r.likely, cases[i].likely);
    assert_true(r.fewest <= r.likely && r.likely <= r.most);
  }
}

static void bad_films_are_refused_by_name(void **state)
{
  (void)state;
  TradeError error = { 0 };
  double out = 7;
  WetLife life = { 0.01, 0.02, 0.03 };
  Rewets rewets = { 7, 7, 7 };
  assert_refused(film_wet_thickness(0, &out, &error), TRADE_OUT_OF_RANGE, "spread_m2_l");
  assert_refused(film_dry_thickness(100, 0, &out, &error), TRADE_OUT_OF_RANGE, "volume_solids");
  assert_refused(film_dry_thickness(100, 1.1, &out, &error), TRADE_OUT_OF_RANGE, "volume_solids");
  assert_refused(film_spread(0.25, NAN, &out, &error), TRADE_NOT_FINITE, "dry_um");
  assert_refused(film_rewets(1, &life, &rewets, &error), TRADE_OUT_OF_RANGE, "early_h"); /* under a minute */
  assert_near(out, 7, 0);
  assert_int_equal(rewets.likely, 7);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_litre_over_a_square_metre_is_a_millimetre),
    cmocka_unit_test(dry_film_and_spread_are_inverse),
    cmocka_unit_test(the_wet_life_spans_the_uncertainty_of_the_rate),
    cmocka_unit_test(a_film_on_a_condensing_floor_has_no_wet_life),
    cmocka_unit_test(re_wets_are_what_the_dwell_has_left_after_the_first_coat),
    cmocka_unit_test(bad_films_are_refused_by_name),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
