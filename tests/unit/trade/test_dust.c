/* test_dust.c - what Table 1 asks for. */
#include "support.h"

#include "refused.h"
#include "trade/customary.h"
#include "trade/dust.h"

enum { ALL_CONTROLS = 127 };

static DustVerdict verdict_of(DustTask task)
{
  DustVerdict verdict;
  assert_true(dust_check(&task, &verdict, NULL));
  return verdict;
}

static void a_row_in_full_needs_no_sampling_and_names_its_respirator(void **state)
{
  (void)state;
  static const struct { const char *equipment, *method; DustPlace place; double hours; int apf;
  } cases[] = {
    { "floor grinder", "wet", DUST_INDOORS, 8, 0 },
    { "floor grinder", "collector", DUST_INDOORS, 6, 0 },
    { "handheld grinder", "collector", DUST_INDOORS, 4, 0 },
    { "handheld grinder", "collector", DUST_INDOORS, 4.1, 10 },
    { "handheld grinder", "collector", DUST_OUTDOORS, 8, 0 },
    { "mortar grinder", "collector", DUST_INDOORS, 3, 10 },
    { "mortar grinder", "collector", DUST_OUTDOORS, 5, 25 },
    { "handheld saw", "wet", DUST_OUTDOORS, 5, 10 },
    { "handheld saw", "wet", DUST_INDOORS, 1, 10 },
    { "walk-behind saw", "wet", DUST_INDOORS, 1, 10 },
    { "walk-behind saw", "wet", DUST_OUTDOORS, 8, 0 },
    { "drill", "collector", DUST_INDOORS, 8, 0 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    DustVerdict v = verdict_of((DustTask){ cases[i].equipment, cases[i].method, cases[i].place, cases[i].hours,
                                           ALL_CONTROLS });
    assert_int_equal(v.finding, DUST_ROW_FOLLOWED);
    assert_int_equal(v.respirator.apf, cases[i].apf);
    assert_int_equal(v.missing, 0);
  }
}

static void a_missing_control_means_the_row_is_not_followed(void **state)
{
  (void)state;
  unsigned no_hepa = DUST_COLLECTOR | DUST_FILTER_99 | DUST_FILTER_CLEANING;
  DustVerdict indoors = verdict_of((DustTask){ "floor grinder", "collector", DUST_INDOORS, 6, no_hepa });
  assert_int_equal(indoors.finding, DUST_ROW_NOT_FOLLOWED);
  assert_int_equal(indoors.missing, DUST_HEPA_BETWEEN_PASSES);
  DustVerdict outdoors = verdict_of((DustTask){ "floor grinder", "collector", DUST_OUTDOORS, 6, no_hepa });
  assert_int_equal(outdoors.finding, DUST_ROW_FOLLOWED);
}

static void a_use_without_a_row_must_be_measured(void **state)
{
  (void)state;
  DustVerdict wet_indoors = verdict_of((DustTask){ "handheld grinder", "wet", DUST_INDOORS, 1, ALL_CONTROLS });
  assert_int_equal(wet_indoors.finding, DUST_NO_ROW);
  assert_null(wet_indoors.row);
  assert_int_equal(verdict_of((DustTask){ "floor grinder", "bare", DUST_OUTDOORS, 1, 0 }).finding, DUST_NO_ROW);
}

static void every_control_that_a_row_needs_has_a_name(void **state)
{
  (void)state;
  for (size_t i = 0; dust_row_at(i); i++) {
    assert_true(dust_row_at(i)->needs != 0 && (dust_row_at(i)->needs & ~(unsigned)ALL_CONTROLS) == 0);
    assert_true(dust_row_at(i)->up_to_4h.apf <= dust_row_at(i)->over_4h.apf);
  }
  for (unsigned control = 1; control <= ALL_CONTROLS; control *= 2)
    assert_true(*dust_control_name((DustControl)control));
}

static void impossible_dust_is_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  DustVerdict verdict = { .missing = 7 };
  double airflow_l_s = 7;
  DustTask task = { "leaf blower", "wet", DUST_INDOORS, 1, 0 };
  assert_refused(dust_check(&task, &verdict, &error), TRADE_UNKNOWN, "equipment");
  task = (DustTask){ "drill", "collector", DUST_INDOORS, 0, 0 };
  assert_refused(dust_check(&task, &verdict, &error), TRADE_OUT_OF_RANGE, "hours");
  assert_refused(dust_shroud_airflow(7, &airflow_l_s, &error), TRADE_OUT_OF_RANGE, "wheel_mm"); /* inches given */
  assert_near(airflow_l_s, 7, 0);
  assert_int_equal(verdict.missing, 7);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_row_in_full_needs_no_sampling_and_names_its_respirator),
    cmocka_unit_test(a_missing_control_means_the_row_is_not_followed),
    cmocka_unit_test(a_use_without_a_row_must_be_measured),
    cmocka_unit_test(every_control_that_a_row_needs_has_a_name),
    cmocka_unit_test(impossible_dust_is_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
