/* test_limits.c - the table of limits. */
#include "support.h"

#include "refused.h"
#include "trade/limits.h"

static void every_limit_is_whole_and_found_by_its_own_id(void **state)
{
  (void)state;
  for (size_t i = 0; limit_at(i); i++) {
    const Limit *limit = limit_at(i), *found = NULL;
    assert_true(limit_find(limit->id, &found, NULL));
    assert_ptr_equal(found, limit); /* also: no id twice */
    assert_true(limit->low < limit->high && (isfinite(limit->low) || isfinite(limit->high)));
    assert_true(*limit->says && *limit->unit && *limit->edition && *limit->basis.source);
  }
}

static void the_end_of_a_limit_is_allowed_unless_it_is_strict(void **state)
{
  (void)state;
  static const struct { const char *id; double value; bool holds; } cases[] = {
    { "silica.action", 24.9, true }, { "silica.action", 25, false }, { "noise.action.osha", 85, false },
    { "noise.pel.osha", 90, true }, { "hand_arm.action", 2.5, true }, { "hand_arm.action", 2.51, false },
    { "silica.pel", 50, true },     { "silica.pel", 50.01, false }, { "age.polish", 28, true },
    { "age.polish", 27.9, false },  { "ph.f710", 7, true },         { "ph.f710", 10.1, false },
    { "waste.ph", 2, false },       { "waste.ph", 2.01, true },     { "waste.ph", 12.49, true },
    { "waste.ph", 12.5, false },    { "coat.humidity", 0.85, true },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    const Limit *limit;
    bool holds = !cases[i].holds;
    assert_true(limit_find(cases[i].id, &limit, NULL));
    assert_true(limit_holds(limit, cases[i].value, &holds, NULL));
    assert_int_equal(holds, cases[i].holds);
  }
}

static void an_unknown_limit_and_a_value_that_is_no_number_are_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  const Limit *limit = NULL;
  bool holds = true;
  assert_refused(limit_find("co.twa.nobody", &limit, &error), TRADE_UNKNOWN, "id");
  assert_null(limit);
  assert_refused(limit_holds(limit_at(0), NAN, &holds, &error), TRADE_NOT_FINITE, "value");
  assert_true(holds);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(every_limit_is_whole_and_found_by_its_own_id),
    cmocka_unit_test(the_end_of_a_limit_is_allowed_unless_it_is_strict),
    cmocka_unit_test(an_unknown_limit_and_a_value_that_is_no_number_are_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
