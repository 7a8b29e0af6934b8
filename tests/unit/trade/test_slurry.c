/* test_slurry.c - solids, settling, drums, bags, pH class. */
#include "support.h"

#include "refused.h"
#include "trade/slurry.h"

static const Solids cut = { 100, 235 }; /* 100 m2 by 1 mm */

static void what_goes_in_is_what_comes_out(void **state)
{
  (void)state;
  Slurry s;
  Settled settled;
  assert_true(slurry_mix(&cut, 1000, 0.1, &s, NULL));
  assert_near(s.volume_l, 1000, 1e-9);
  assert_near(s.mass_kg, 1135, 1e-9);
  assert_near(s.free_water_share, 0.9, 1e-12);
  assert_near(s.solids_mass_share, 235.0 / 1135, 1e-12);
  assert_true(slurry_settle(&s, 0.25, &settled, NULL));
  assert_near(settled.sludge_l, 400, 1e-9);
  assert_near(settled.sludge_l + settled.clear_l, s.volume_l, 1e-9);
}

static void a_paste_settles_no_further(void **state)
{
  (void)state;
  Slurry s;
  Settled settled;
  assert_true(slurry_mix(&cut, 50, 0, &s, NULL)); /* two thirds solids */
  assert_true(slurry_settle(&s, 0.3, &settled, NULL));
  assert_near(settled.clear_l, 0, 0);
  assert_near(settled.sludge_l, 150, 1e-9);
}

static void drums_are_whole_and_not_filled_to_the_brim(void **state)
{
  (void)state;
  static const struct { double volume_l, fill; int drums; } cases[] = {
    { 0, 1, 0 }, { SLURRY_DRUM_L, 1, 1 }, { SLURRY_DRUM_L + 1, 1, 2 }, { SLURRY_DRUM_L, 0.9, 2 },
    { 40 * SLURRY_DRUM_L, 1, 40 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    int drums = -1;
    assert_true(slurry_drums(cases[i].volume_l, SLURRY_DRUM_L, cases[i].fill, &drums, NULL));
    assert_int_equal(drums, cases[i].drums);
  }
}

static void dry_dust_bulks_up(void **state)
{
  (void)state;
  DustBags bags;
  assert_true(slurry_dust(&cut, 20, &bags, NULL));
  assert_near(bags.low_l, 150, 1e-9);
  assert_near(bags.high_l, 200, 1e-9);
  assert_int_equal(bags.bags_low, 8);
  assert_int_equal(bags.bags_high, 10);
}

static void the_ph_limits_are_inclusive_and_need_free_water(void **state)
{
  (void)state;
  static const struct { double ph, free_water; SlurryPhClass class; } cases[] = {
    { 2, 0.9, SLURRY_CORROSIVE_ACID },       { 2.01, 0.9, SLURRY_NOT_CORROSIVE },
    { 11.5, 0.9, SLURRY_NOT_CORROSIVE },     { 12.49, 0.9, SLURRY_NOT_CORROSIVE },
    { 12.5, 0.9, SLURRY_CORROSIVE_ALKALINE }, { 13, 0.19, SLURRY_NOT_AQUEOUS },
    { 13, 0.2, SLURRY_CORROSIVE_ALKALINE },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    SlurryPhClass class;
    assert_true(slurry_ph_class(cases[i].ph, cases[i].free_water, &class, NULL));
    assert_string_equal(slurry_ph_class_name(class), slurry_ph_class_name(cases[i].class));
  }
}

static void impossible_slurry_is_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  Solids solids = { 7, 7 };
  const Solids none = { 0, 0 };
  Slurry slurry = { .volume_l = 7 };
  Settled settled = { 7, 7 };
  SlurryPhClass class = SLURRY_NOT_AQUEOUS;
  int drums = 7;
  assert_refused(slurry_solids(-1, 100, 2350, &solids, &error), TRADE_OUT_OF_RANGE, "area_m2");
  assert_refused(slurry_solids(10, NAN, 2350, &solids, &error), TRADE_NOT_FINITE, "depth_um");
  assert_refused(slurry_solids(10, 100, 145, &solids, &error), TRADE_OUT_OF_RANGE, "density_kg_m3"); /* lb/ft3 */
  assert_refused(slurry_mix(&none, 100, 1, &slurry, &error), TRADE_DEGENERATE, "water_l");
  assert_near(slurry.volume_l, 7, 0);
  assert_refused(slurry_mix(&cut, 100, 1.5, &slurry, &error), TRADE_OUT_OF_RANGE, "water_lost");
  assert_refused(slurry_settle(&(Slurry){ .volume_l = 10, .solids_l = 20 }, 0.3, &settled, &error),
                 TRADE_OUT_OF_RANGE, "slurry.solids_l");
  assert_refused(slurry_settle(&(Slurry){ .volume_l = 10 }, 0, &settled, &error), TRADE_OUT_OF_RANGE,
                 "sludge_solids");
  assert_refused(slurry_drums(10, 0, 1, &drums, &error), TRADE_OUT_OF_RANGE, "drum_l");
  assert_refused(slurry_ph_class(17, 0.9, &class, &error), TRADE_OUT_OF_RANGE, "ph");
  assert_near(solids.mass_kg, 7, 0);
  assert_int_equal(drums, 7);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(what_goes_in_is_what_comes_out),
    cmocka_unit_test(a_paste_settles_no_further),
    cmocka_unit_test(drums_are_whole_and_not_filled_to_the_brim),
    cmocka_unit_test(dry_dust_bulks_up),
    cmocka_unit_test(the_ph_limits_are_inclusive_and_need_free_water),
    cmocka_unit_test(impossible_slurry_is_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
