/* test_trade_2_traps.c - figures that public pages get wrong, and the right ones. */
#include "support.h"

#include <ctype.h>
#include <string.h>

#include "trade/carbon_monoxide.h"
#include "trade/customary.h"
#include "trade/dust.h"
#include "trade/limits.h"
#include "trade/slurry.h"

static double high_of(const char *limit_id)
{
  const Limit *limit;
  assert_true(limit_find(limit_id, &limit, NULL));
  return limit->high;
}

/* A supplier page says 20 ft3 or 3,000 lb; area by depth says 26 times as much. */
static void fifty_thousand_square_feet_by_an_eighth_are_520_cubic_feet(void **state)
{
  (void)state;
  Solids solids;
  double density_kg_m3 = 145 * POUND_KG / CUFT_L * 1000;
  assert_true(slurry_solids(50000 * SQFT_M2, 0.125 * INCH_MM * 1000, density_kg_m3, &solids, NULL));
  assert_near(solids.volume_l / CUFT_L, 520.8, 0.2);
  assert_near(solids.mass_kg / POUND_KG, 75500, 100);
}

/* A textbook page prints 11.5, another "less than 2 or greater than 12"; 40 CFR 261.22: 2 and 12.5, inclusive. */
static void the_corrosive_ph_is_2_and_12_and_a_half_inclusive(void **state)
{
  (void)state;
  static const struct { double ph; bool corrosive; } cases[] = {
    { 2, true }, { 2.01, false }, { 11.5, false }, { 12, false }, { 12.2, false }, { 12.49, false }, { 12.5, true }
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    SlurryPhClass class;
    assert_true(slurry_ph_class(cases[i].ph, 1, &class, NULL));
    assert_int_equal(class != SLURRY_NOT_CORROSIVE, cases[i].corrosive);
  }
}

/* 40 CFR 261.22 is on aqueous waste; a federal agency memorandum puts that at 20 % free water by volume. */
static void a_solid_alone_is_not_corrosive_waste(void **state)
{
  (void)state;
  SlurryPhClass class;
  assert_true(slurry_ph_class(13, 0.05, &class, NULL));
  assert_int_equal(class, SLURRY_NOT_AQUEOUS);
}

/* Quoted as 200 or 800 ppm; the federal agency's chemical page says 1,000 ppm for OSHA and 250 for NIOSH. */
static void acetone_limits_are_those_of_the_agencies(void **state)
{
  (void)state;
  assert_near(high_of("acetone.twa.osha"), 1000, 0);
  assert_near(high_of("acetone.twa.niosh"), 250, 0);
  assert_near(high_of("acetone.idlh"), 2500, 0);
}

/* Quoted as "50 ppm for one hour"; the OSHA figure is an 8 h average. */
static void carbon_monoxide_of_one_hour_is_averaged_over_eight(void **state)
{
  (void)state;
  CarbonMonoxideVerdict v;
  assert_true(carbon_monoxide_check(&(Exposure){ 60, 1 }, 1, 60, &v, NULL));
  assert_near(v.average_ppm, 7.5, 1e-12);
  assert_false(v.over_osha);
  assert_near(high_of("co.twa.osha"), 50, 0);
}

/* One reprint's row numerals are off by one: rows go by the name of the equipment. */
static void rows_of_the_silica_table_carry_no_numerals(void **state)
{
  (void)state;
  for (size_t i = 0; dust_row_at(i); i++)
    for (const char *c = dust_row_at(i)->equipment; *c; c++) assert_false(isdigit((unsigned char)*c));
}

/* A drum is 55 US gal, 208.2 L and not 200; a trade supplier prints forty of them for 2,200 gal. */
static void a_drum_is_fifty_five_gallons(void **state)
{
  (void)state;
  int drums;
  assert_near(SLURRY_DRUM_L, 55 * GALLON_L, 1e-8);
  assert_true(slurry_drums(2200 * GALLON_L, SLURRY_DRUM_L, 1, &drums, NULL));
  assert_int_equal(drums, 40);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(fifty_thousand_square_feet_by_an_eighth_are_520_cubic_feet),
    cmocka_unit_test(the_corrosive_ph_is_2_and_12_and_a_half_inclusive),
    cmocka_unit_test(a_solid_alone_is_not_corrosive_waste),
    cmocka_unit_test(acetone_limits_are_those_of_the_agencies),
    cmocka_unit_test(carbon_monoxide_of_one_hour_is_averaged_over_eight),
    cmocka_unit_test(rows_of_the_silica_table_carry_no_numerals),
    cmocka_unit_test(a_drum_is_fifty_five_gallons),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
