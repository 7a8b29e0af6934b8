/* test_grit.c - grit numbers, grain sizes, and the step from one abrasive to the next. */
#include <string.h>

#include "support.h"
#include "trade/grit.h"

static double size_of(GritSystem system, double number)
{
  GritSize size;
  assert_true(grit_size((Grit){ system, number }, &size, NULL));
  return size.size_um;
}

static void each_spelling_names_one_system(void **state)
{
  (void)state;
  static const struct { const char *text; GritSystem system; double number; } cases[] = {
    { "400", GRIT_PAD, 400 }, { "P400", GRIT_P, 400 }, { "F60", GRIT_F, 60 }, { "#400", GRIT_JIS, 400 },
    { "JIS 400", GRIT_JIS, 400 }, { "JIS #400", GRIT_JIS, 400 }, { "CAMI 400", GRIT_CAMI, 400 },
    { "No. 200", GRIT_SIEVE, 200 }, { "No. 3.5", GRIT_SIEVE, 3.5 }, { "D126", GRIT_DIAMOND, 126 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Grit grit;
    assert_true(grit_read(cases[i].text, &grit, NULL));
    assert_int_equal(grit.system, cases[i].system);
    assert_near(grit.number, cases[i].number, 0);
  }
}

static void what_is_no_grit_is_refused(void **state)
{
  (void)state;
  static const char *const texts[] = { "",    "P",     "coarse", "P-80", "80P",
                                       "1e3", "4.0.0", "400 ",   "0x20", "12345678901" };
  for (size_t i = 0; i < COUNT_OF(texts); i++) {
    Grit grit = { GRIT_PAD, -1 };
    TradeError error = { 0 };
    assert_false(grit_read(texts[i], &grit, &error));
    assert_int_equal(error.status, TRADE_UNKNOWN);
    assert_near(grit.number, -1, 0);
  }
}

static void the_same_number_is_another_grain_in_another_system(void **state)
{
  (void)state;
  static const struct { GritSystem system; double number, size_um; } cases[] = {
    { GRIT_P, 400, 35 }, { GRIT_CAMI, 400, 23 }, { GRIT_F, 400, 17.3 }, { GRIT_JIS, 400, 30 },
    { GRIT_SIEVE, 400, 38 },
    { GRIT_P, 180, 82 },          /* not 180 um, as one page has it */
    { GRIT_SIEVE, 40, 425 },      /* not 400 */
    { GRIT_SIEVE, 200, 75 },
    { GRIT_SIEVE_OLD, 200, 74 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_near(size_of(cases[i].system, cases[i].number), cases[i].size_um, 1e-12);
}

static void a_grade_between_two_rows_says_it_was_interpolated(void **state)
{
  (void)state;
  GritSize size;
  assert_true(grit_size((Grit){ GRIT_CAMI, 200 }, &size, NULL));
  assert_true(size.interpolated);
  assert_string_equal(size.coarse->name, "180");
  assert_string_equal(size.fine->name, "220");
  assert_int_equal(size.basis.status, TRADE_COMPUTED);
  assert_near(size.size_um, 74.3234, 1e-4); /* 82 (68/82)^0.52504, the share ln(200/180) / ln(220/180) of the way */
  static const Grit between[] = { { GRIT_P, 90 }, { GRIT_F, 500.5 }, { GRIT_JIS, 900 } };
  for (size_t i = 0; i < COUNT_OF(between); i++) {
    assert_true(grit_size(between[i], &size, NULL));
    assert_true(size.interpolated && size.size_um < size.coarse->size_um && size.size_um > size.fine->size_um);
  }
  assert_true(grit_size((Grit){ GRIT_CAMI, 220 }, &size, NULL));
  assert_false(size.interpolated);
  assert_ptr_equal(size.coarse, size.fine);
}

static void sieves_and_diamond_codes_are_never_interpolated(void **state)
{
  (void)state;
  static const struct { GritSystem system; double number; const char *says; } cases[] = {
    { GRIT_SIEVE, 180, "no No. 180; it has No. 170 (90 um) and No. 200 (75 um)" },
    { GRIT_DIAMOND, 100, "no D100; it has D91 (82.5 um) and D107 (98 um)" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    GritSize size;
    TradeError error = { 0 };
    assert_false(grit_size((Grit){ cases[i].system, cases[i].number }, &size, &error));
    assert_int_equal(error.status, TRADE_UNKNOWN);
    assert_non_null(strstr(error.message, cases[i].says));
  }
}

static void past_the_end_of_a_table_there_is_no_answer(void **state)
{
  (void)state;
  static const Grit grits[] = { { GRIT_P, 3000 }, { GRIT_P, 8 }, { GRIT_CAMI, 1500 }, { GRIT_CAMI, 16 },
                                { GRIT_JIS, 200 }, { GRIT_PAD, 5 }, { GRIT_PAD, 10000 } };
  for (size_t i = 0; i < COUNT_OF(grits); i++) {
    GritSize size = { .size_um = -1 };
    TradeError error = { 0 };
    assert_false(grit_size(grits[i], &size, &error));
    assert_int_equal(error.status, TRADE_OUT_OF_RANGE);
    assert_string_equal(error.argument, "grit");
    assert_near(size.size_um, -1, 0);
  }
  TradeError error = { 0 };
  GritSize size;
  assert_false(grit_size((Grit){ GRIT_P, 3000 }, &size, &error));
  assert_string_equal(error.message, "no published size for P3000: the table of FEPA P ends at P2500 (8.4 um)");
}

static void a_pad_number_is_read_as_a_standard_grade_and_says_which(void **state)
{
  (void)state;
  static const struct { double number; GritSystem read_as; bool interpolated; } cases[] = {
    { 6, GRIT_F, false }, { 11, GRIT_F, true }, { 12, GRIT_P, false }, { 16, GRIT_P, false }, { 23, GRIT_P, true },
    { 24, GRIT_CAMI, false }, { 1200, GRIT_JIS, false }, { 30, GRIT_CAMI, false }, { 100, GRIT_CAMI, false },
    { 200, GRIT_CAMI, true }, { 800, GRIT_CAMI, false }, { 1000, GRIT_CAMI, false }, { 1500, GRIT_JIS, false },
    { 3000, GRIT_JIS, false }, { 8000, GRIT_JIS, false },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    GritSize size;
    assert_true(grit_size((Grit){ GRIT_PAD, cases[i].number }, &size, NULL));
    assert_int_equal(size.read_as.system, cases[i].read_as);
    assert_int_equal(size.interpolated, cases[i].interpolated);
    assert_int_equal(size.basis.status, TRADE_COMMON_PRACTICE);
    assert_near(size.size_um, size_of(cases[i].read_as, cases[i].number), 0);
  }
  GritSize size;
  assert_false(grit_size((Grit){ GRIT_PAD, 99.5 }, &size, NULL));
  assert_false(grit_size((Grit){ GRIT_PAD, 1100 }, &size, NULL)); /* JIS #1100 is coarser than CAMI 1000 */
}

static void a_grade_of_another_system_has_a_pad_of_its_grain(void **state)
{
  (void)state;
  static const struct { Grit grit; double pad;
  } cases[] = {
    { { GRIT_PAD, 200 }, 200 },   { { GRIT_CAMI, 400 }, 400 },
    { { GRIT_P, 400 }, 324 }, /* 35 um, between the 36 of CAMI 320 and the 28 of 360 */
    { { GRIT_JIS, 3000 }, 3000 }, { { GRIT_P, 12 }, 12 },
    { { GRIT_F, 6 }, 6 },         { { GRIT_JIS, 8000 }, 8000 },
    { { GRIT_F, 2000 }, 8000 },   { { GRIT_CAMI, 1000 }, 1000 },
    { { GRIT_P, 2000 }, 1000 }, /* 10.3 um, the end of CAMI */
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    double pad = -1;
    assert_true(grit_as_pad(cases[i].grit, &pad, NULL));
    assert_near(pad, cases[i].pad, 0);
  }
  double pad = -1;
  assert_false(grit_as_pad((Grit){ GRIT_F, 4 }, &pad, NULL)); /* coarser than any pad */
  assert_false(grit_as_pad((Grit){ GRIT_P, 3000 }, &pad, NULL));
  assert_near(pad, -1, 0);
}

static void every_pad_number_is_its_own_pad(void **state)
{
  (void)state;
  for (double number = 6; number <= 8000; number += number < 1000 ? 1 : 100) {
    GritSize size;
    double pad;
    if (!grit_size((Grit){ GRIT_PAD, number }, &size, NULL)) continue;
    assert_true(grit_as_pad((Grit){ GRIT_PAD, number }, &pad, NULL));
    assert_near(pad, number, 0);
  }
}

static void finer_numbers_are_smaller_grains_in_every_scale(void **state)
{
  (void)state;
  static const GritSystem scales[] = { GRIT_P, GRIT_F, GRIT_JIS, GRIT_CAMI, GRIT_PAD };
  for (size_t i = 0; i < COUNT_OF(scales); i++) {
    double last_um = INFINITY;
    for (double number = 4; number <= 8000; number++) {
      GritSize size;
      if (!grit_size((Grit){ scales[i], number }, &size, NULL)) continue;
      assert_true(size.size_um < last_um);
      last_um = size.size_um;
    }
    assert_true(last_um < 11);
  }
}

static void doubling_the_number_does_not_halve_the_grain_in_every_system(void **state)
{
  (void)state;
  static const struct { GritSystem system; double coarse, fine, ratio; } cases[] = {
    { GRIT_P, 400, 800, 1.61 }, { GRIT_JIS, 400, 800, 2.14 }, { GRIT_P, 80, 150, 2.01 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    double ratio;
    assert_true(grit_size_ratio((Grit){ cases[i].system, cases[i].coarse },
                                (Grit){ cases[i].system, cases[i].fine }, &ratio, NULL));
    assert_near(ratio, cases[i].ratio, 0.005);
  }
}

static void the_pitch_of_a_sieve_is_not_its_opening(void **state)
{
  (void)state;
  double pitch_um;
  assert_true(grit_sieve_pitch(200, &pitch_um, NULL));
  assert_near(pitch_um, 127, 1e-9);
  assert_true(pitch_um > 1.5 * size_of(GRIT_SIEVE, 200));
  assert_false(grit_sieve_pitch(0, &pitch_um, NULL));
}

static void steps_are_judged_by_the_rule_of_doubling(void **state)
{
  (void)state;
  static const struct { double last; BondFamily last_bond; double next; BondFamily next_bond; GritVerdict want; }
    cases[] = {
      { 100, BOND_RESIN, 200, BOND_RESIN, GRIT_STEP_GOOD },
      { 800, BOND_RESIN, 1500, BOND_RESIN, GRIT_STEP_GOOD },
      { 60, BOND_METAL, 150, BOND_METAL, GRIT_STEP_LONG },      /* exactly 2.5 */
      { 40, BOND_METAL, 120, BOND_METAL, GRIT_STEP_LONG },      /* exactly 3 is not over 3 */
      { 30, BOND_RESIN, 100, BOND_RESIN, GRIT_STEP_SKIPPED },
      { 200, BOND_RESIN, 200, BOND_RESIN, GRIT_STEP_REPEAT },
      { 200, BOND_RESIN, 100, BOND_RESIN, GRIT_STEP_BACK },
      { 80, BOND_METAL, 50, BOND_RESIN, GRIT_STEP_GOOD },       /* a change of family may step back */
      { 80, BOND_METAL, 100, BOND_RESIN, GRIT_STEP_GOOD },
      { 150, BOND_METAL, 100, BOND_TRANSITIONAL, GRIT_STEP_GOOD },
      { 150, BOND_METAL, 150, BOND_RESIN, GRIT_STEP_GOOD },     /* or repeat */
      { 100, BOND_METAL, 50, BOND_RESIN, GRIT_STEP_GOOD },      /* to half the number at most */
      { 150, BOND_METAL, 50, BOND_RESIN, GRIT_STEP_BACK },
      { 80, BOND_METAL, 200, BOND_RESIN, GRIT_STEP_LONG },
      { 80, BOND_METAL, 400, BOND_RESIN, GRIT_STEP_SKIPPED },
      { 200, BOND_RESIN, 400, BOND_METAL, GRIT_STEP_BACK },     /* metal after resin */
    };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    GritStep step;
    assert_true(grit_step((Grit){ GRIT_PAD, cases[i].last }, cases[i].last_bond, (Grit){ GRIT_PAD, cases[i].next },
                          cases[i].next_bond, &step, NULL));
    assert_int_equal(step.verdict, cases[i].want);
    assert_near(step.judged_by, cases[i].next / cases[i].last, 1e-12);
    assert_int_equal(step.family_change, cases[i].last_bond != cases[i].next_bond);
  }
}

static void a_step_between_systems_is_judged_by_grain_size(void **state)
{
  (void)state;
  GritStep step;
  assert_true(grit_step((Grit){ GRIT_P, 180 }, BOND_RESIN, (Grit){ GRIT_JIS, 400 }, BOND_RESIN, &step, NULL));
  assert_near(step.number_ratio, 0, 0);
  assert_near(step.judged_by, 82 / 30.0, 1e-12);
  assert_int_equal(step.verdict, GRIT_STEP_LONG);
  /* D codes count down with fineness: 126 to 64 is a step on, not back. */
  assert_true(
      grit_step((Grit){ GRIT_DIAMOND, 126 }, BOND_METAL, (Grit){ GRIT_DIAMOND, 64 }, BOND_METAL, &step, NULL));
  assert_int_equal(step.verdict, GRIT_STEP_GOOD);
}

static void a_hard_slab_gets_a_soft_bond(void **state)
{
  (void)state;
  static const struct { double mohs; const char *slab, *bond; } cases[] = {
    { 1, "very soft", "extra hard" }, { 3.5, "soft", "hard" }, { 4.5, "medium", "medium" }, { 6, "hard", "soft" },
    { 7, "very hard", "soft to extra soft" }, { 7.01, "extremely hard", "extra soft, fewer segments" },
    { 10, "extremely hard", "extra soft, fewer segments" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    const BondChoice *choice;
    assert_true(bond_for_mohs(cases[i].mohs, &choice, NULL));
    assert_string_equal(choice->slab, cases[i].slab);
    assert_string_equal(choice->bond, cases[i].bond);
  }
  const BondChoice *choice;
  TradeError error;
  assert_false(bond_for_mohs(0.5, &choice, &error));
  assert_false(bond_for_mohs(NAN, &choice, &error));
  assert_string_equal(error.argument, "mohs");
}

static void every_usual_grit_of_every_family_has_a_size(void **state)
{
  (void)state;
  for (int family = 0; family < BOND_FAMILIES; family++) {
    const BondInfo *info = bond_info((BondFamily)family);
    BondFamily found;
    assert_true(bond_find(info->name, &found, NULL));
    assert_int_equal(found, family);
    for (size_t i = 0; i < info->grit_count; i++) assert_true(size_of(GRIT_PAD, info->grits[i]) > 0);
  }
  BondFamily found;
  TradeError error;
  assert_false(bond_find("wood", &found, &error));
  assert_int_equal(error.status, TRADE_UNKNOWN);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(each_spelling_names_one_system),
    cmocka_unit_test(what_is_no_grit_is_refused),
    cmocka_unit_test(the_same_number_is_another_grain_in_another_system),
    cmocka_unit_test(a_grade_between_two_rows_says_it_was_interpolated),
    cmocka_unit_test(sieves_and_diamond_codes_are_never_interpolated),
    cmocka_unit_test(past_the_end_of_a_table_there_is_no_answer),
    cmocka_unit_test(a_pad_number_is_read_as_a_standard_grade_and_says_which),
    cmocka_unit_test(a_grade_of_another_system_has_a_pad_of_its_grain),
    cmocka_unit_test(every_pad_number_is_its_own_pad),
    cmocka_unit_test(finer_numbers_are_smaller_grains_in_every_scale),
    cmocka_unit_test(doubling_the_number_does_not_halve_the_grain_in_every_system),
    cmocka_unit_test(the_pitch_of_a_sieve_is_not_its_opening),
    cmocka_unit_test(steps_are_judged_by_the_rule_of_doubling),
    cmocka_unit_test(a_step_between_systems_is_judged_by_grain_size),
    cmocka_unit_test(a_hard_slab_gets_a_soft_bond),
    cmocka_unit_test(every_usual_grit_of_every_family_has_a_size),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
