/* test_slip.c - friction by use of the floor. */
#include "support.h"

#include "refused.h"
#include "trade/slip.h"

static void the_least_value_itself_holds(void **state)
{
  (void)state;
  for (size_t i = 0; slip_category_at(i); i++) {
    const SlipCategory *c = slip_category_at(i), *found = NULL;
    bool holds;
    assert_true(slip_category(c->id, &found, NULL));
    assert_ptr_equal(found, c);
    assert_true(slip_check(c, c->least_dcof, c->is_wet, &holds, NULL));
    assert_true(holds);
    assert_true(slip_check(c, c->least_dcof - 0.01, c->is_wet, &holds, NULL));
    assert_false(holds);
  }
}

static void a_dry_reading_says_nothing_of_a_wet_floor(void **state)
{
  (void)state;
  TradeError error = { 0 };
  const SlipCategory *wet, *dry;
  bool holds = true;
  assert_true(slip_category("interior wet", &wet, NULL));
  assert_true(slip_category("interior dry", &dry, NULL));
  assert_refused(slip_check(wet, 0.8, false, &holds, &error), TRADE_NO_ANSWER, "taken_wet");
  assert_true(slip_check(dry, 0.3, true, &holds, NULL));
  assert_false(holds);
}

static void unknown_uses_and_wild_readings_are_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  const SlipCategory *category = NULL;
  bool holds = true;
  assert_refused(slip_category("ice rink", &category, &error), TRADE_UNKNOWN, "id");
  assert_null(category);
  assert_refused(slip_check(slip_category_at(0), 42, false, &holds, &error), TRADE_OUT_OF_RANGE, "dcof");
  assert_refused(slip_check(slip_category_at(0), NAN, false, &holds, &error), TRADE_NOT_FINITE, "dcof");
  assert_true(holds);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_least_value_itself_holds),
    cmocka_unit_test(a_dry_reading_says_nothing_of_a_wet_floor),
    cmocka_unit_test(unknown_uses_and_wild_readings_are_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
