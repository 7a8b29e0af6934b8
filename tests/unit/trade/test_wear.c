/* test_wear.c - tool life by hardness and water, sets worn. */
#include "support.h"

#include "refused.h"
#include "trade/customary.h"
#include "trade/wear.h"

static WearLife life_of(const char *bond, double grit, double mohs, bool wet)
{
  const WearBand *band;
  WearLife life;
  assert_true(wear_band(bond, grit, &band, NULL));
  assert_true(wear_life(band, mohs, wet, &life, NULL));
  assert_true(life.low <= life.likely && life.likely <= life.high);
  return life;
}

static void soft_slabs_eat_metal_and_hard_slabs_eat_resin(void **state)
{
  (void)state;
  assert_near(life_of("metal", 40, 3, false).likely, 6000 * SQFT_M2, 1e-9);
  assert_near(life_of("metal", 40, 7, false).likely, 20000 * SQFT_M2, 1e-9);
  assert_near(life_of("metal", 40, 5, false).likely, 13000 * SQFT_M2, 1e-9);
  assert_near(life_of("resin", 100, 3, true).likely, 10000 * SQFT_M2, 1e-9);
  assert_near(life_of("resin", 100, 7, true).likely, 3000 * SQFT_M2, 1e-9);
}

static void wet_metal_and_dry_resin_wear_faster_but_stay_in_their_band(void **state)
{
  (void)state;
  assert_near(life_of("metal", 40, 5, true).likely, (6000 + 0.3 * 14000) * SQFT_M2, 1e-9);
  assert_near(life_of("resin", 100, 5, false).likely, (3000 + 0.3 * 7000) * SQFT_M2, 1e-9);
  for (double mohs = 1; mohs <= 10; mohs += 0.5) {
    assert_true(life_of("metal", 80, mohs, true).likely <= life_of("metal", 80, mohs, false).likely);
    assert_true(life_of("resin", 800, mohs, false).likely <= life_of("resin", 800, mohs, true).likely);
  }
}

static void a_grit_between_two_bands_takes_the_coarser(void **state)
{
  (void)state;
  static const struct { const char *bond; double grit, high_sqft; } cases[] = {
    { "metal", 16, 12000 }, { "metal", 36, 12000 }, { "metal", 100, 20000 }, { "metal", 150, 25000 },
    { "resin", 300, 10000 }, { "resin", 400, 20000 }, { "resin", 3000, 40000 }, { "transitional", 100, 15000 },
    { "burnish", 0, 60000 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_near(life_of(cases[i].bond, cases[i].grit, 5, false).high / SQFT_M2, cases[i].high_sqft, 1e-6);
}

static void sets_are_whole_and_remember_what_was_worn(void **state)
{
  (void)state;
  static const struct { double work, life, before, share; int sets; double worn; } cases[] = {
    { 500, 1000, 0, 0.5, 1, 0.5 },   { 500, 1000, 0.6, 0.5, 2, 0.1 }, { 1000, 1000, 0, 1, 1, 1 },
    { 2500, 1000, 0, 2.5, 3, 0.5 },  { 0, 1000, 0, 0, 0, 0 },         { 0, 1000, 0.3, 0, 1, 0.3 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    WearSets s;
    assert_true(wear_sets(cases[i].work, cases[i].life, cases[i].before, &s, NULL));
    assert_near(s.share, cases[i].share, 1e-12);
    assert_int_equal(s.sets, cases[i].sets);
    assert_near(s.worn, cases[i].worn, 1e-9);
  }
}

static void tools_without_a_band_are_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  const WearBand *band = NULL;
  WearLife life = { 7, 7, 7 };
  WearSets sets = { .sets = 7 };
  assert_refused(wear_band("chewing gum", 40, &band, &error), TRADE_UNKNOWN, "bond");
  assert_refused(wear_band("metal", 6, &band, &error), TRADE_OUT_OF_RANGE, "grit");
  assert_refused(wear_band("resin", 8000, &band, &error), TRADE_OUT_OF_RANGE, "grit");
  assert_null(band);
  assert_refused(wear_life(wear_band_at(0), 0.5, false, &life, &error), TRADE_OUT_OF_RANGE, "mohs");
  assert_refused(wear_sets(10, 0, 0, &sets, &error), TRADE_OUT_OF_RANGE, "life");
  assert_refused(wear_sets(-1, 10, 0, &sets, &error), TRADE_OUT_OF_RANGE, "work");
  assert_refused(wear_sets(10, 10, 1.5, &sets, &error), TRADE_OUT_OF_RANGE, "already_worn");
  assert_int_equal(sets.sets, 7);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(soft_slabs_eat_metal_and_hard_slabs_eat_resin),
    cmocka_unit_test(wet_metal_and_dry_resin_wear_faster_but_stay_in_their_band),
    cmocka_unit_test(a_grit_between_two_bands_takes_the_coarser),
    cmocka_unit_test(sets_are_whole_and_remember_what_was_worn),
    cmocka_unit_test(tools_without_a_band_are_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
