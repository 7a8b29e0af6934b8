/* test_chemistry.c - catalogue rows, volumes, dose until refusal, return to service. */
#include "support.h"

#include "refused.h"
#include "trade/chemistry.h"
#include "trade/customary.h"

static void every_row_is_found_by_name_and_its_bands_are_in_order(void **state)
{
  (void)state;
  for (size_t i = 0; chemistry_at(i); i++) {
    const Chemistry *row = chemistry_at(i), *found = NULL;
    assert_true(chemistry_find(row->name, &found, NULL));
    assert_ptr_equal(found, row);
    assert_true(0 < row->spread_low_m2_l && row->spread_low_m2_l < row->spread_high_m2_l);
    assert_true(row->dwell_low_min <= row->dwell_high_min && row->dry_low_min <= row->dry_high_min);
    assert_true(row->dwell_high_min > 0 || row->dry_high_min > 0);
    assert_true(*row->care && *row->basis.source);
  }
}

static void what_whitens_must_be_removed_and_what_burns_says_so(void **state)
{
  (void)state;
  static const struct { const char *name; bool removed, dry_floor, flammable; } cases[] = {
    { "sodium silicate", true, false, false }, { "potassium silicate", true, false, false },
    { "lithium silicate", false, false, false }, { "acetone dye", false, true, true },
    { "water dye", false, true, false }, { "guard", false, true, false },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    const Chemistry *row;
    assert_true(chemistry_find(cases[i].name, &row, NULL));
    assert_int_equal(row->must_be_removed, cases[i].removed);
    assert_int_equal(row->needs_dry_floor, cases[i].dry_floor);
    assert_int_equal(row->is_flammable, cases[i].flammable);
  }
}

static void volume_grows_with_coats_and_waste(void **state)
{
  (void)state;
  double volume_l;
  assert_true(chemistry_volume(100, 10, 2, 0.1, &volume_l, NULL));
  assert_near(volume_l, 22, 1e-12);
}

static void coats_stop_at_the_one_the_floor_rejects(void **state)
{
  (void)state;
  static const double shares[] = { 1.0, 0.8, 0.3, 0.1 };
  const AbsorptionTest test = { shares, 4, 10, 0.25 };
  RefusalDose d;
  assert_true(chemistry_until_refusal(&test, &d, NULL));
  assert_int_equal(d.coats, 3);
  assert_near(d.applied_l_m2, 0.3, 1e-12);
  assert_near(d.absorbed_l_m2, 0.21, 1e-12);
  assert_near(d.excess_l_m2, 0.09, 1e-12);
  assert_false(d.extrapolated);
}

static void a_test_that_stopped_early_is_carried_on_and_says_so(void **state)
{
  (void)state;
  static const double shares[] = { 0.8, 0.4 }; /* halves: 0.2, then 0.1 is refused */
  const AbsorptionTest test = { shares, 2, 10, 0.15 };
  RefusalDose d;
  assert_true(chemistry_until_refusal(&test, &d, NULL));
  assert_true(d.extrapolated);
  assert_int_equal(d.coats, 3);
  assert_near(d.absorbed_l_m2, 0.14, 1e-12);
}

static void the_continuation_takes_the_mean_fall_of_the_series(void **state)
{
  (void)state;
  static const double uneven[] = { 0.8, 0.6, 0.2 }; /* a quarter over two steps: half each, so 0.1 comes next */
  const AbsorptionTest test = { uneven, 3, 10, 0.08 };
  RefusalDose d;
  assert_true(chemistry_until_refusal(&test, &d, NULL));
  assert_int_equal(d.coats, 4);
  assert_near(d.absorbed_l_m2, 0.17, 1e-12);
}

static void a_coat_that_takes_just_the_refusal_share_is_put_on(void **state)
{
  (void)state;
  static const double shares[] = { 0.5, 0.25, 0.2 };
  RefusalDose d;
  assert_true(chemistry_until_refusal(&(AbsorptionTest){ shares, 3, 10, 0.25 }, &d, NULL));
  assert_int_equal(d.coats, 2);
}

static void a_sealed_floor_takes_no_coat(void **state)
{
  (void)state;
  static const double shares[] = { 0.05 };
  const AbsorptionTest test = { shares, 1, 10, 0.2 };
  RefusalDose d;
  assert_true(chemistry_until_refusal(&test, &d, NULL));
  assert_int_equal(d.coats, 0);
  assert_near(d.applied_l_m2, 0, 0);
}

static void tests_that_cannot_tell_refusal_are_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  RefusalDose d = { .coats = 7 };
  static const double one[] = { 0.9 }, level[] = { 0.9, 0.9 }, rising[] = { 0.4, 0.9 }, over[] = { 1.2 };
  static const double slow[] = { 0.99, 0.98 };
  assert_refused(chemistry_until_refusal(&(AbsorptionTest){ one, 1, 10, 0.2 }, &d, &error), TRADE_TOO_FEW, "coats");
  assert_refused(chemistry_until_refusal(&(AbsorptionTest){ level, 2, 10, 0.2 }, &d, &error), TRADE_NO_ANSWER,
                 "absorbed");
  assert_refused(chemistry_until_refusal(&(AbsorptionTest){ rising, 2, 10, 0.2 }, &d, &error), TRADE_OUT_OF_RANGE,
                 "absorbed");
  assert_refused(chemistry_until_refusal(&(AbsorptionTest){ over, 1, 10, 0.2 }, &d, &error), TRADE_OUT_OF_RANGE,
                 "absorbed");
  assert_refused(chemistry_until_refusal(&(AbsorptionTest){ slow, 2, 10, 0.2 }, &d, &error), TRADE_NO_ANSWER,
                 "coats");
  assert_refused(chemistry_until_refusal(&(AbsorptionTest){ one, 1, 10, 0 }, &d, &error), TRADE_OUT_OF_RANGE,
                 "refusal");
  assert_int_equal(d.coats, 7);
}

static void unknown_names_and_bad_amounts_are_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  const Chemistry *row = NULL;
  const ReturnToService *opens = NULL;
  double volume_l = 7;
  assert_refused(chemistry_find("magic water", &row, &error), TRADE_UNKNOWN, "name");
  assert_refused(chemistry_opens_after("aeroplanes", &opens, &error), TRADE_UNKNOWN, "traffic");
  assert_refused(chemistry_volume(0, 10, 1, 0, &volume_l, &error), TRADE_OUT_OF_RANGE, "area_m2");
  assert_refused(chemistry_volume(10, 10, 0, 0, &volume_l, &error), TRADE_OUT_OF_RANGE, "coats");
  assert_refused(chemistry_volume(10, 10, 1, -0.1, &volume_l, &error), TRADE_OUT_OF_RANGE, "waste");
  assert_null(row);
  assert_near(volume_l, 7, 0);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(every_row_is_found_by_name_and_its_bands_are_in_order),
    cmocka_unit_test(what_whitens_must_be_removed_and_what_burns_says_so),
    cmocka_unit_test(volume_grows_with_coats_and_waste),
    cmocka_unit_test(coats_stop_at_the_one_the_floor_rejects),
    cmocka_unit_test(a_test_that_stopped_early_is_carried_on_and_says_so),
    cmocka_unit_test(the_continuation_takes_the_mean_fall_of_the_series),
    cmocka_unit_test(a_coat_that_takes_just_the_refusal_share_is_put_on),
    cmocka_unit_test(a_sealed_floor_takes_no_coat),
    cmocka_unit_test(tests_that_cannot_tell_refusal_are_refused),
    cmocka_unit_test(unknown_names_and_bad_amounts_are_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
