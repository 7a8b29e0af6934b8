/* test_aggregate.c - exposure classes and their cuts. */
#include <string.h>

#include "support.h"
#include "trade/aggregate.h"

static void the_letter_c_means_another_class_in_the_older_chart(void **state)
{
  (void)state;
  const AggregateClass *now, *before;
  assert_true(aggregate_find(CHART_CURRENT, "C", &now, NULL));
  assert_true(aggregate_find(CHART_BEFORE_2017, "C", &before, NULL));
  assert_string_equal(now->name, "coarse aggregate");
  assert_string_equal(before->name, "medium aggregate");
}

static void classes_are_found_by_letter_or_name_in_their_own_chart_only(void **state)
{
  (void)state;
  const AggregateClass *found;
  assert_true(aggregate_find(CHART_CURRENT, "A", &found, NULL));
  assert_string_equal(found->name, "cement fines");
  assert_true(aggregate_find(CHART_CURRENT, "fine aggregate", &found, NULL));
  assert_int_equal(found->letter, 'B');
  assert_true(aggregate_find(CHART_BEFORE_2017, "random exposure", &found, NULL));
  static const struct { ChartEdition edition; const char *name; } missing[] = {
    { CHART_CURRENT, "D" },  { CHART_CURRENT, "medium aggregate" },
    { CHART_CURRENT, "" },   { CHART_BEFORE_2017, "E" },
    { CHART_CURRENT, "Bb" },
  };
  for (size_t i = 0; i < COUNT_OF(missing); i++) {
    TradeError error = { 0 };
    assert_false(aggregate_find(missing[i].edition, missing[i].name, &found, &error));
    assert_int_equal(error.status, TRADE_UNKNOWN);
    assert_non_null(strstr(error.message, missing[i].edition == CHART_CURRENT ? "current" : "older"));
  }
}

static void the_class_of_a_surface_follows_from_its_make_up(void **state)
{
  (void)state;
  static const struct { double fines, fine, coarse; char letter; } cases[] = {
    { 90, 10, 0, 'A' }, { 85, 15, 0, 'A' }, { 5, 90, 5, 'B' }, { 10, 5, 85, 'C' }, { 5, 15, 80, 'C' },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    const AggregateClass *found;
    assert_true(aggregate_of_surface(cases[i].fines, cases[i].fine, cases[i].coarse, &found, NULL));
    assert_int_equal(found->letter, cases[i].letter);
  }
}

static void a_make_up_between_the_classes_or_not_of_a_hundred_percent_is_refused(void **state)
{
  (void)state;
  static const struct { double fines, fine, coarse; TradeStatus status; } cases[] = {
    { 50, 50, 0, TRADE_NO_ANSWER }, { 90, 0, 10, TRADE_NO_ANSWER }, /* coarse stones in a cream floor */
    { 90, 5, 0, TRADE_OUT_OF_RANGE }, { -5, 95, 10, TRADE_OUT_OF_RANGE }, { 10, -5, 95, TRADE_OUT_OF_RANGE },
    { 95, 10, -5, TRADE_OUT_OF_RANGE }, { NAN, 90, 10, TRADE_NOT_FINITE },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    const AggregateClass *found = NULL;
    TradeError error = { 0 };
    assert_false(aggregate_of_surface(cases[i].fines, cases[i].fine, cases[i].coarse, &found, &error));
    assert_int_equal(error.status, cases[i].status);
    assert_null(found);
  }
}

static void cut_depths_belong_to_the_older_chart(void **state)
{
  (void)state;
  static const struct { const char *name; double cut_mm; } cases[] = {
    { "B", 1.5875 }, { "C", 3.175 }, { "D", 6.35 }, { "random exposure", 6.35 },
  };
  const AggregateClass *found;
  double cut_mm;
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    assert_true(aggregate_find(CHART_BEFORE_2017, cases[i].name, &found, NULL));
    assert_true(aggregate_cut_depth(found, &cut_mm, NULL));
    assert_near(cut_mm, cases[i].cut_mm, 1e-12);
  }
  TradeError error = { 0 };
  assert_true(aggregate_find(CHART_CURRENT, "B", &found, NULL));
  assert_false(aggregate_cut_depth(found, &cut_mm, &error));
  assert_string_equal(error.argument, "edition");
  assert_true(aggregate_find(CHART_BEFORE_2017, "A", &found, NULL));
  assert_false(aggregate_cut_depth(found, &cut_mm, &error)); /* cream: a limit, no depth */
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_letter_c_means_another_class_in_the_older_chart),
    cmocka_unit_test(classes_are_found_by_letter_or_name_in_their_own_chart_only),
    cmocka_unit_test(the_class_of_a_surface_follows_from_its_make_up),
    cmocka_unit_test(a_make_up_between_the_classes_or_not_of_a_hundred_percent_is_refused),
    cmocka_unit_test(cut_depths_belong_to_the_older_chart),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
