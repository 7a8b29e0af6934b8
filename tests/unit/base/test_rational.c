#include "support.h"

#include "base/rational.h"

static Rational fraction(int64_t numerator, int64_t denominator)
{
  Rational r;
  assert_true(rational_make(numerator, denominator, &r));
  return r;
}

static void assert_fraction(Rational got, int64_t numerator, int64_t denominator)
{
  assert_int_equal(got.numerator, numerator);
  assert_int_equal(got.denominator, denominator);
}

static void a_fraction_is_kept_in_lowest_terms(void **state)
{
  (void)state;
  static const struct { int64_t n, d, want_n, want_d; } cases[] = {
    { 6, 4, 3, 2 }, { -6, 4, -3, 2 }, { 6, -4, -3, 2 }, { 0, 7, 0, 1 }, { INT64_MAX, INT64_MAX, 1, 1 },
    { 127, 50, 127, 50 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_fraction(fraction(cases[i].n, cases[i].d), cases[i].want_n, cases[i].want_d);
}

static void a_zero_denominator_and_the_odd_minimum_are_refused(void **state)
{
  (void)state;
  Rational r = { 7, 9 };
  assert_false(rational_make(1, 0, &r));
  assert_false(rational_make(INT64_MIN, 1, &r));
  assert_false(rational_make(1, INT64_MIN, &r));
  assert_false(rational_divide(r, (Rational){ 0, 1 }, &r));
  assert_fraction(r, 7, 9);
}

static void sums_products_and_quotients_are_exact(void **state)
{
  (void)state;
  Rational r;
  assert_true(rational_add(fraction(1, 3), fraction(1, 6), &r));
  assert_fraction(r, 1, 2);
  assert_true(rational_multiply(fraction(-2, 3), fraction(9, 4), &r));
  assert_fraction(r, -3, 2);
  assert_true(rational_divide(fraction(1, 3), fraction(-2, 9), &r));
  assert_fraction(r, -3, 2);
  assert_true(rational_multiply(fraction(0, 1), fraction(5, 7), &r));
  assert_fraction(r, 0, 1);
}

static void a_result_is_reduced_before_it_is_said_not_to_fit(void **state)
{
  (void)state;
  Rational r;
  assert_true(rational_multiply(fraction(INT64_MAX, 2), fraction(2, INT64_MAX), &r));
  assert_fraction(r, 1, 1);
  assert_true(rational_add(fraction(1, INT64_MAX), fraction(-1, INT64_MAX), &r));
  assert_fraction(r, 0, 1);
  assert_false(rational_multiply(fraction(INT64_MAX, 1), fraction(2, 1), &r));
  assert_false(rational_add(fraction(INT64_MAX, 1), fraction(1, 1), &r));
  assert_false(rational_add(fraction(1, INT64_MAX), fraction(1, INT64_MAX - 1), &r));
}

static void comparing_never_overflows(void **state)
{
  (void)state;
  assert_int_equal(rational_compare(fraction(INT64_MAX, 2), fraction(INT64_MAX, 3)), 1);
  assert_int_equal(rational_compare(fraction(-INT64_MAX, 2), fraction(INT64_MAX, 3)), -1);
  assert_int_equal(rational_compare(fraction(1, 3), fraction(2, 6)), 0);
}

static void a_double_is_taken_as_the_decimal_it_prints_as(void **state)
{
  (void)state;
  static const struct { double value; int64_t n, d; } cases[] = {
    { 0, 0, 1 },      { 0.1, 1, 10 },   { -2.5, -5, 2 }, { 0.35, 7, 20 },
    { 1e6, 1000000, 1 }, { 0.0000254, 127, 5000000 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Rational r;
    assert_true(rational_from(cases[i].value, &r));
    assert_fraction(r, cases[i].n, cases[i].d);
  }
}

static void a_double_that_is_no_short_decimal_is_not_taken_as_exact(void **state)
{
  (void)state;
  static const double cases[] = { 1.0 / 3, 1e300, INFINITY, NAN, 1e-20 };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Rational r;
    assert_false(rational_from(cases[i], &r));
  }
}

static void rounding_is_half_to_even(void **state)
{
  (void)state;
  static const struct { int64_t n, d; int places; int64_t want; } cases[] = {
    { 1, 2, 0, 0 },  { 3, 2, 0, 2 },   { 5, 2, 0, 2 },    { -1, 2, 0, 0 }, { -3, 2, 0, -2 },
    { 2, 3, 2, 67 }, { 1, 3, 2, 33 },  { -2, 3, 2, -67 }, { 51, 100, 0, 1 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    int64_t got;
    assert_true(rational_round(fraction(cases[i].n, cases[i].d), cases[i].places, &got));
    assert_int_equal(got, cases[i].want);
  }
  int64_t untouched = 5;
  assert_false(rational_round(fraction(INT64_MAX, 1), 1, &untouched));
  assert_int_equal(untouched, 5);
}

static void a_number_turns_into_a_double_when_the_fraction_no_longer_fits(void **state)
{
  (void)state;
  Number big = number_exact(fraction(INT64_MAX, 1)), product = number_multiply(big, big);
  assert_true(big.exact);
  assert_false(product.exact);
  assert_near(product.value / ((double)INT64_MAX * (double)INT64_MAX), 1, 1e-15);
  assert_int_equal(number_compare(product, big), 1);
  assert_false(isfinite(number_divide(big, number_exact(fraction(0, 1))).value));
}

static void a_tenth_added_ten_times_is_one(void **state)
{
  (void)state;
  Number sum = number_from(0);
  for (int i = 0; i < 10; i++) sum = number_add(sum, number_from(0.1));
  assert_int_equal(number_compare(sum, number_from(1)), 0);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_fraction_is_kept_in_lowest_terms),
    cmocka_unit_test(a_zero_denominator_and_the_odd_minimum_are_refused),
    cmocka_unit_test(sums_products_and_quotients_are_exact),
    cmocka_unit_test(a_result_is_reduced_before_it_is_said_not_to_fit),
    cmocka_unit_test(comparing_never_overflows),
    cmocka_unit_test(a_double_is_taken_as_the_decimal_it_prints_as),
    cmocka_unit_test(a_double_that_is_no_short_decimal_is_not_taken_as_exact),
    cmocka_unit_test(rounding_is_half_to_even),
    cmocka_unit_test(a_number_turns_into_a_double_when_the_fraction_no_longer_fits),
    cmocka_unit_test(a_tenth_added_ten_times_is_one),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
