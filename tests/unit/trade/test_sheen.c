/* test_sheen.c - bands of gloss, the monotone fit, and what a chain leads to expect. */
#include "support.h"
#include "trade/removal.h"
#include "trade/sheen.h"

static void bands_are_those_of_the_trade_at_their_own_grits(void **state)
{
  (void)state;
  static const struct { BondFamily bond; double grit, low_gu, high_gu; } cases[] = {
    { BOND_METAL, 30, 1, 5 },    { BOND_METAL, 80, 1, 5 },     { BOND_METAL, 150, 2, 8 },
    { BOND_RESIN, 100, 4, 10 },  { BOND_TRANSITIONAL, 100, 2, 8 },
    { BOND_RESIN, 200, 8, 18 },  { BOND_RESIN, 400, 18, 35 },  { BOND_RESIN, 800, 30, 50 },
    { BOND_RESIN, 1500, 42, 60 }, { BOND_RESIN, 3000, 50, 70 }, { BOND_FIBRE, 800, 30, 50 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    SheenBand band;
    assert_true(sheen_band(cases[i].bond, cases[i].grit, &band, NULL));
    assert_near(band.low_gu, cases[i].low_gu, 1e-9);
    assert_near(band.high_gu, cases[i].high_gu, 1e-9);
  }
}

static void bands_never_fall_as_the_grit_gets_finer(void **state)
{
  (void)state;
  SheenBand last = { 0, 0 };
  for (double grit = 50; grit <= 3000; grit++) {
    SheenBand band;
    assert_true(sheen_band(BOND_RESIN, grit, &band, NULL));
    assert_true(band.low_gu >= last.low_gu && band.high_gu >= last.high_gu && band.low_gu < band.high_gu);
    last = band;
  }
}

static void there_is_no_band_off_the_table(void **state)
{
  (void)state;
  static const struct { BondFamily bond; double grit; const char *argument; } cases[] = {
    { BOND_RESIN, 30, "grit" },  { BOND_RESIN, 3001, "grit" }, { BOND_FIBRE, 200, "grit" },
    { BOND_METAL, 400, "grit" }, { BOND_SCRAPER, 30, "bond" }, { BOND_RESIN, NAN, "grit" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    SheenBand band = { -1, -1 };
    TradeError error = { 0 };
    assert_false(sheen_band(cases[i].bond, cases[i].grit, &band, &error));
    assert_string_equal(error.argument, cases[i].argument);
    assert_near(band.low_gu, -1, 0);
  }
}

/* The fit at i is the greatest over a <= i of the least over b >= i of the mean of a..b: slow, and independent. */
static double min_max_fit(const double *y, const double *w, size_t count, size_t i)
{
  double greatest = -INFINITY;
  for (size_t a = 0; a <= i; a++) {
    double least = INFINITY;
    for (size_t b = i; b < count; b++) {
      double sum = 0, total = 0;
      for (size_t k = a; k <= b; k++) sum += w[k] * y[k], total += w[k];
      least = fmin(least, sum / total);
    }
    greatest = fmax(greatest, least);
  }
  return greatest;
}

static void the_monotone_fit_agrees_with_its_definition(void **state)
{
  (void)state;
  uint32_t seed = 1;
  for (int round = 0; round < 300; round++) {
    double y[12], w[12], fit[12];
    size_t count = 1 + (size_t)round % 12;
    for (size_t i = 0; i < count; i++) {
      seed = seed * 1664525u + 1013904223u;
      y[i] = (double)(seed >> 20);
      w[i] = 1 + (double)((seed >> 12) & 7);
    }
    assert_true(sheen_monotone(y, w, count, fit, NULL));
    for (size_t i = 0; i < count; i++) assert_near(fit[i], min_max_fit(y, w, count, i), 1e-9);
  }
}

static void a_series_that_never_falls_is_left_as_it_is(void **state)
{
  (void)state;
  const double y[] = { 3, 3, 8, 20, 41 };
  double fit[5];
  assert_true(sheen_monotone(y, NULL, 5, fit, NULL));
  for (size_t i = 0; i < 5; i++) assert_near(fit[i], y[i], 0);
}

static void the_fit_refuses_nothing_to_fit_and_weights_of_nothing(void **state)
{
  (void)state;
  const double y[] = { NAN, 1 }, w[] = { 0, 1 };
  double fit[2] = { -1, -1 };
  TradeError error = { 0 };
  assert_false(sheen_monotone(y, NULL, 0, fit, &error));
  assert_int_equal(error.status, TRADE_TOO_FEW);
  assert_false(sheen_monotone(y, NULL, 2, fit, &error));
  assert_string_equal(error.argument, "y");
  assert_false(sheen_monotone(w, w, 2, fit, &error));
  assert_string_equal(error.argument, "weights");
  assert_near(fit[0], -1, 0);
}

static void shop_readings_become_a_curve_that_never_falls(void **state)
{
  (void)state;
  static const SheenReading readings[] = {
    { 800, 44 }, { 200, 12 }, { 400, 30 }, { 400, 34 }, { 800, 28 }, { 800, 30 }, { 1500, 31 }, { 200, 14 },
  };
  SheenCurve curve;
  assert_true(sheen_calibrate(readings, 8, &curve, NULL));
  assert_int_equal(curve.count, 4);
  assert_near(curve.grit[0], 200, 0);
  assert_near(curve.gloss_gu[0], 13, 1e-12);
  assert_near(curve.gloss_gu[1], 32, 1e-12);
  /* 800 reads 34 on three, 1500 31 on one: pooled to (3 x 34 + 31) / 4. */
  assert_near(curve.gloss_gu[2], 33.25, 1e-12);
  assert_near(curve.gloss_gu[3], 33.25, 1e-12);
  /* Eight readings, four grits: squares 1 + 1, 4 + 4, 10.75^2 + 5.25^2 + 3.25^2, 2.25^2 over 4. */
  assert_near(curve.spread_gu, sqrt((2 + 8 + 115.5625 + 27.5625 + 10.5625 + 5.0625) / 4), 1e-12);
  double gloss_gu;
  assert_true(sheen_curve_at(&curve, sqrt(200.0 * 400), &gloss_gu, NULL)); /* halfway on logarithms */
  assert_near(gloss_gu, (13 + 32) / 2.0, 1e-12);
  static const struct {
    double grit, gloss_gu;
  } at[] = { { 200, 13 }, { 400, 32 }, { 800, 33.25 }, { 1500, 33.25 } };
  for (size_t i = 0; i < COUNT_OF(at); i++) {
    assert_true(sheen_curve_at(&curve, at[i].grit, &gloss_gu, NULL));
    assert_near(gloss_gu, at[i].gloss_gu, 1e-12);
  }
  assert_false(sheen_curve_at(&curve, 3000, &gloss_gu, NULL));
  assert_false(sheen_curve_at(&curve, 100, &gloss_gu, NULL));
}

static void a_single_grit_makes_a_curve_of_one_point(void **state)
{
  (void)state;
  static const SheenReading readings[] = { { 800, 40 }, { 800, 44 } };
  SheenCurve curve;
  double gloss_gu;
  assert_true(sheen_calibrate(readings, 2, &curve, NULL));
  assert_true(sheen_curve_at(&curve, 800, &gloss_gu, NULL));
  assert_near(gloss_gu, 42, 1e-12);
  assert_near(curve.spread_gu, sqrt(8), 1e-12);
}

static void impossible_readings_are_refused(void **state)
{
  (void)state;
  static const struct { SheenReading reading; const char *argument; } cases[] = {
    { { 0, 40 }, "grit" }, { { 800, -1 }, "gloss_gu" }, { { 800, 1001 }, "gloss_gu" }, { { NAN, 40 }, "grit" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    SheenCurve curve = { .count = 99 };
    TradeError error = { 0 };
    assert_false(sheen_calibrate(&cases[i].reading, 1, &curve, &error));
    assert_string_equal(error.argument, cases[i].argument);
    assert_int_equal(curve.count, 99);
  }
  SheenReading many[SHEEN_KNOTS_MAX + 1];
  for (size_t i = 0; i <= SHEEN_KNOTS_MAX; i++) many[i] = (SheenReading){ 100 + (double)i, 40 };
  SheenCurve curve;
  TradeError error = { 0 };
  assert_false(sheen_calibrate(many, SHEEN_KNOTS_MAX + 1, &curve, &error));
  assert_string_equal(error.argument, "grits");
}

static const SheenStep wet_chain[] = { { BOND_RESIN, 400, true }, { BOND_RESIN, 800, true },
                                       { BOND_RESIN, 1500, true }, { BOND_RESIN, 3000, true } };

/* Ten slow passes with each of 400, 800, 1500 and 3000, wet, then burnished dry with the last: floors so treated
 * have gone from under 10 to readings in the 70s (common practice). */
static void a_wet_chain_to_3000_burnished_dry_reaches_the_seventies(void **state)
{
  (void)state;
  const int passes = 10;
  SheenStep chain[4] = { wet_chain[0] }; /* 400 opens a trowelled floor: there is no scratch before it */
  for (size_t i = 1; i < 4; i++) {
    RemovalClearing c;
    RemovalStep step = { { GRIT_PAD, wet_chain[i - 1].grit }, { GRIT_PAD, wet_chain[i].grit }, BOND_RESIN, 4.5,
                         NULL, NULL };
    assert_true(removal_clear(&step, &c, NULL));
    chain[i] = (SheenStep){ BOND_RESIN, wet_chain[i].grit, passes >= c.passes };
  }
  SheenExpectation e;
  assert_true(sheen_expect(chain, 4, SHEEN_BURNISHED, NULL, &e, NULL));
  assert_near(e.low_gu, 55, 1e-9);  /* 50 and the 5 that burnishing gains at least */
  assert_near(e.high_gu, 90, 1e-9);
  assert_false(e.from_shop);
  assert_int_equal(e.basis.status, TRADE_COMMON_PRACTICE);
  assert_true(e.high_gu <= e.ceiling_gu);
}

static void a_step_that_did_not_clear_the_last_may_read_like_it(void **state)
{
  (void)state;
  SheenStep chain[4];
  for (size_t i = 0; i < 4; i++) chain[i] = wet_chain[i];
  chain[2].cleared = false; /* 1500 left the scratch of 800 standing */
  SheenExpectation e;
  assert_true(sheen_expect(chain, 3, SHEEN_BARE, NULL, &e, NULL));
  assert_near(e.low_gu, 30, 1e-9);
  assert_near(e.high_gu, 60, 1e-9);
  chain[3].cleared = false;
  assert_true(sheen_expect(chain, 4, SHEEN_BARE, NULL, &e, NULL));
  assert_near(e.low_gu, 30, 1e-9); /* still there */
  assert_near(e.high_gu, 70, 1e-9);
}

static void a_guard_may_not_promise_more_than_its_film_can_reflect(void **state)
{
  (void)state;
  SheenExpectation e;
  assert_true(sheen_expect(wet_chain, 4, SHEEN_GUARDED, NULL, &e, NULL));
  assert_true(e.at_ceiling); /* 70 and 20 is more than the 89 of a film of index 1.5 */
  assert_near(e.high_gu, 89.2, 0.1);
}

static void the_shops_own_curve_goes_before_the_trades_bands(void **state)
{
  (void)state;
  static const SheenReading readings[] = { { 1500, 50 }, { 1500, 52 }, { 3000, 60 }, { 3000, 64 } };
  SheenCurve curve;
  SheenExpectation e;
  assert_true(sheen_calibrate(readings, 4, &curve, NULL));
  assert_true(sheen_expect(wet_chain, 4, SHEEN_BARE, &curve, &e, NULL));
  assert_true(e.from_shop);
  assert_near(e.low_gu, 62 - 2 * curve.spread_gu, 1e-9);
  assert_near(e.high_gu, 62 + 2 * curve.spread_gu, 1e-9);
  assert_true(sheen_expect(wet_chain, 2, SHEEN_BARE, &curve, &e, NULL)); /* 800: the curve does not go there */
  assert_false(e.from_shop);
  TradeError error = { 0 };
  assert_false(sheen_expect(wet_chain, 0, SHEEN_BARE, &curve, &e, &error));
  assert_string_equal(error.argument, "steps");
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(bands_are_those_of_the_trade_at_their_own_grits),
    cmocka_unit_test(bands_never_fall_as_the_grit_gets_finer),
    cmocka_unit_test(there_is_no_band_off_the_table),
    cmocka_unit_test(the_monotone_fit_agrees_with_its_definition),
    cmocka_unit_test(a_series_that_never_falls_is_left_as_it_is),
    cmocka_unit_test(the_fit_refuses_nothing_to_fit_and_weights_of_nothing),
    cmocka_unit_test(shop_readings_become_a_curve_that_never_falls),
    cmocka_unit_test(a_single_grit_makes_a_curve_of_one_point),
    cmocka_unit_test(impossible_readings_are_refused),
    cmocka_unit_test(a_wet_chain_to_3000_burnished_dry_reaches_the_seventies),
    cmocka_unit_test(a_step_that_did_not_clear_the_last_may_read_like_it),
    cmocka_unit_test(a_guard_may_not_promise_more_than_its_film_can_reflect),
    cmocka_unit_test(the_shops_own_curve_goes_before_the_trades_bands),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
