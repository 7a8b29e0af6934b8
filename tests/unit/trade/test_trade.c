/* test_trade.c - refusals and the register of formulas. */
#include <string.h>

#include "support.h"
#include "trade/trade.h"

static void a_value_inside_its_range_passes_and_leaves_the_error_alone(void **state)
{
  (void)state;
  TradeError error = { .status = TRADE_UNKNOWN };
  assert_true(trade_in_range(&error, "rh", 0.5, 0, 1));
  assert_true(trade_in_range(&error, "rh", 0, 0, 1)); /* both ends belong to the range */
  assert_true(trade_in_range(&error, "rh", 1, 0, 1));
  assert_true(trade_positive(&error, "head_m", 1e-9));
  assert_int_equal(error.status, TRADE_UNKNOWN);
}

static void a_refusal_names_the_input_its_value_and_its_range(void **state)
{
  (void)state;
  static const struct {
    double value, low, high;
    TradeStatus status;
    const char *message;
  } cases[] = {
    { 1.5, 0, 1, TRADE_OUT_OF_RANGE, "x is 1.5, must be 0 to 1" },
    { -1, 0, INFINITY, TRADE_OUT_OF_RANGE, "x is -1, must be at least 0" },
    { 7, -INFINITY, 5, TRADE_OUT_OF_RANGE, "x is 7, must be at most 5" },
    { NAN, 0, 1, TRADE_NOT_FINITE, "x must be a finite number" },
    { INFINITY, 0, INFINITY, TRADE_NOT_FINITE, "x must be a finite number" }, /* no limit, yet infinity is none */
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    TradeError error = { 0 };
    assert_false(trade_in_range(&error, "x", cases[i].value, cases[i].low, cases[i].high));
    assert_int_equal(error.status, cases[i].status);
    assert_string_equal(error.argument, "x");
    assert_string_equal(error.message, cases[i].message);
  }
}

static void zero_and_nan_are_not_positive(void **state)
{
  (void)state;
  TradeError error = { 0 };
  assert_false(trade_positive(&error, "head_m", 0));
  assert_string_equal(error.message, "head_m is 0, must be above 0");
  assert_false(trade_positive(&error, "head_m", NAN));
  assert_int_equal(error.status, TRADE_NOT_FINITE);
}

static void a_caller_may_ask_for_no_error(void **state)
{
  (void)state;
  assert_false(trade_in_range(NULL, "x", 2, 0, 1));
  assert_false(trade_positive(NULL, "x", NAN));
  assert_false(trade_refuse(NULL, TRADE_UNKNOWN, "x", 0, "no such %s", "thing"));
}

static void every_formula_is_whole_and_found_by_its_own_name(void **state)
{
  (void)state;
  for (size_t i = 0; trade_formula_at(i); i++) {
    const TradeFormula *f = trade_formula_at(i);
    assert_ptr_equal(trade_formula(f->id), f); /* also: no name twice */
    assert_non_null(strchr(f->id, '.'));
    assert_true(f->says && *f->says && f->doc && *f->doc && f->basis.source && *f->basis.source);
  }
  assert_null(trade_formula("coverage.no_such_formula"));
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_value_inside_its_range_passes_and_leaves_the_error_alone),
    cmocka_unit_test(a_refusal_names_the_input_its_value_and_its_range),
    cmocka_unit_test(zero_and_nan_are_not_positive),
    cmocka_unit_test(a_caller_may_ask_for_no_error),
    cmocka_unit_test(every_formula_is_whole_and_found_by_its_own_name),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
