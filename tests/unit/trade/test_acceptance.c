/* test_acceptance.c - Student's t, summaries, and readings against a promise. */
#include "support.h"
#include "trade/acceptance.h"

static void the_incomplete_beta_function_meets_its_closed_forms(void **state)
{
  (void)state;
  for (double x = 0; x <= 1; x += 0.0625) {
    double got;
    assert_true(statistics_beta(1, 1, x, &got, NULL));
    assert_near(got, x, 1e-14);
    assert_true(statistics_beta(3, 1, x, &got, NULL));
    assert_near(got, x * x * x, 1e-14);
    assert_true(statistics_beta(1, 4, x, &got, NULL));
    assert_near(got, 1 - pow(1 - x, 4), 1e-14);
    assert_true(statistics_beta(0.5, 0.5, x, &got, NULL));
    assert_near(got, asin(sqrt(x)) * 2 / 3.14159265358979323846, 1e-14);
  }
}

static void the_two_tails_of_the_beta_function_add_up(void **state)
{
  (void)state;
  static const double sizes[] = { 0.1, 0.7, 2, 30, 900, 10000 };
  for (size_t i = 0; i < 6; i++)
    for (size_t k = 0; k < 6; k++)
      for (double x = 0.001; x < 1; x += 0.037) {
        double one, other;
        assert_true(statistics_beta(sizes[i], sizes[k], x, &one, NULL));
        assert_true(statistics_beta(sizes[k], sizes[i], 1 - x, &other, NULL));
        assert_near(one + other, 1, 1e-10);
        assert_true(one >= 0 && one <= 1);
      }
}

static void one_and_two_degrees_of_freedom_have_closed_forms(void **state)
{
  (void)state;
  const double pi = 3.14159265358979323846;
  for (double p = 0.001; p < 1; p += 0.0437) {
    double t;
    assert_true(statistics_t_quantile(p, 1, &t, NULL));
    assert_near(t, tan(pi * (p - 0.5)), 1e-10 * fmax(1, fabs(t)));
    assert_true(statistics_t_quantile(p, 2, &t, NULL));
    assert_near(t, (2 * p - 1) / sqrt(2 * p * (1 - p)), 1e-10 * fmax(1, fabs(t)));
  }
}

static void quantile_and_probability_undo_each_other(void **state)
{
  (void)state;
  static const double freedoms[] = { 1, 1.5, 3, 29, 400, 10000 };
  static const double chances[] = { 1e-12, 1e-6, 0.01, 0.3, 0.499999, 0.5, 0.500001, 0.75, 0.95, 0.9999 };
  for (size_t i = 0; i < 6; i++)
    for (size_t k = 0; k < 10; k++) {
      double t, p;
      assert_true(statistics_t_quantile(chances[k], freedoms[i], &t, NULL));
      assert_true(statistics_t_below(t, freedoms[i], &p, NULL));
      assert_near(p, chances[k], 1e-10 * chances[k]);
      assert_true((t < 0) == (chances[k] < 0.5) && (t == 0) == (chances[k] == 0.5));
    }
}

static void what_is_outside_the_distributions_is_refused(void **state)
{
  (void)state;
  double out = -1;
  assert_false(statistics_beta(0, 1, 0.5, &out, NULL));
  assert_false(statistics_beta(1, 1, 1.1, &out, NULL));
  assert_false(statistics_t_quantile(0, 5, &out, NULL));
  assert_false(statistics_t_quantile(1, 5, &out, NULL));
  assert_false(statistics_t_quantile(0.95, 0.5, &out, NULL));
  assert_false(statistics_t_below(NAN, 5, &out, NULL));
  assert_near(out, -1, 0);
}

static void a_summary_keeps_its_digits_far_from_zero(void **state)
{
  (void)state;
  static const double values[] = { 1e9 + 4, 1e9 + 7, 1e9 + 13, 1e9 + 16 };
  Summary s;
  assert_true(statistics_summary(values, 4, &s, NULL));
  assert_near(s.mean, 1e9 + 10, 1e-6);
  assert_near(s.spread, sqrt(30), 1e-6);
  assert_near(s.least, 1e9 + 4, 0);
  assert_near(s.most, 1e9 + 16, 0);
  static const double falling[] = { 3, 2, 1 };
  assert_true(statistics_summary(falling, 3, &s, NULL));
  assert_true(s.least == 1 && s.most == 3);
  assert_true(statistics_summary(falling, 1, &s, NULL));
  assert_true(s.least == 3 && s.most == 3 && s.spread == 0);
  assert_false(statistics_summary(values, 0, &s, NULL));
}

static void the_bound_lies_below_the_mean_by_students_t(void **state)
{
  (void)state;
  static const double gloss_gu[] = { 52, 48, 55, 50, 45 };
  const AcceptanceRule rule = { .mean_at_least = 45, .each_at_least = 40, .confidence = 0.95 };
  Acceptance a;
  assert_true(acceptance_judge(gloss_gu, 5, &rule, &a, NULL));
  assert_near(a.readings.mean, 50, 1e-12);
  assert_near(a.lower_bound, 50 - 2.131847 * sqrt(14.5) / sqrt(5), 1e-5); /* t(0.95, 4) = 2.131847 in any table */
  assert_int_equal(a.mean, ACCEPTANCE_PASS);
  assert_int_equal(a.each, ACCEPTANCE_PASS);
  assert_int_equal(a.both, ACCEPTANCE_PASS);
}

static void a_mean_that_is_not_proved_is_open_and_one_low_spot_fails(void **state)
{
  (void)state;
  static const double gloss_gu[] = { 52, 48, 55, 50, 45 };
  static const struct { double mean, each; AcceptanceVerdict want_mean, want_each, want_both; } cases[] = {
    { 46, 45, ACCEPTANCE_PASS, ACCEPTANCE_PASS, ACCEPTANCE_PASS },
    { 49, 45, ACCEPTANCE_OPEN, ACCEPTANCE_PASS, ACCEPTANCE_OPEN },
    { 51, 45, ACCEPTANCE_FAIL, ACCEPTANCE_PASS, ACCEPTANCE_FAIL },
    { 46, 45.1, ACCEPTANCE_PASS, ACCEPTANCE_FAIL, ACCEPTANCE_FAIL },
    { 50, 45, ACCEPTANCE_OPEN, ACCEPTANCE_PASS, ACCEPTANCE_OPEN }, /* the mean itself is enough to stay open */
    { -INFINITY, -INFINITY, ACCEPTANCE_PASS, ACCEPTANCE_PASS, ACCEPTANCE_PASS }, /* nothing promised */
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    AcceptanceRule rule = { cases[i].mean, cases[i].each, 0.95 };
    Acceptance a;
    assert_true(acceptance_judge(gloss_gu, 5, &rule, &a, NULL));
    assert_int_equal(a.mean, cases[i].want_mean);
    assert_int_equal(a.each, cases[i].want_each);
    assert_int_equal(a.both, cases[i].want_both);
  }
}

static void readings_needed_are_the_fewest_that_do(void **state)
{
  (void)state;
  static const struct { double spread, margin, confidence; } cases[] = {
    { 4, 2, 0.95 }, { 4, 1, 0.95 }, { 4, 0.2, 0.99 }, { 1, 10, 0.9 }, { 5, 3, 0.5 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    int n;
    double t, t_before = INFINITY;
    assert_true(acceptance_readings(cases[i].spread, cases[i].margin, cases[i].confidence, &n, NULL));
    assert_true(statistics_t_quantile(cases[i].confidence, n - 1, &t, NULL));
    assert_true(t * cases[i].spread / sqrt(n) <= cases[i].margin);
    if (n == 2) continue;
    assert_true(statistics_t_quantile(cases[i].confidence, n - 2, &t_before, NULL));
    assert_true(t_before * cases[i].spread / sqrt(n - 1) > cases[i].margin);
  }
}

static void judging_refuses_what_cannot_be_judged(void **state)
{
  (void)state;
  static const double two[] = { 50, 51 }, lost[] = { 50, NAN };
  static const struct {
    const double *readings;
    size_t count;
    AcceptanceRule rule;
    const char *argument;
  } cases[] = {
    { two, 1, { 45, 40, 0.95 }, "readings" },  { lost, 2, { 45, 40, 0.95 }, "values" },
    { two, 2, { 45, 40, 0.4 }, "confidence" }, { two, 2, { 45, 40, 1 }, "confidence" },
    { two, 2, { NAN, 40, 0.95 }, "at_least" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Acceptance a = { .lower_bound = -1 };
    TradeError error = { 0 };
    assert_false(acceptance_judge(cases[i].readings, cases[i].count, &cases[i].rule, &a, &error));
    assert_string_equal(error.argument, cases[i].argument);
    assert_near(a.lower_bound, -1, 0);
  }
  int n = -1;
  TradeError error = { 0 };
  assert_false(acceptance_readings(100, 0.01, 0.95, &n, &error));
  assert_string_equal(error.argument, "margin");
  assert_false(acceptance_readings(0, 1, 0.95, &n, &error));
  assert_int_equal(n, -1);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_incomplete_beta_function_meets_its_closed_forms),
    cmocka_unit_test(the_two_tails_of_the_beta_function_add_up),
    cmocka_unit_test(one_and_two_degrees_of_freedom_have_closed_forms),
    cmocka_unit_test(quantile_and_probability_undo_each_other),
    cmocka_unit_test(what_is_outside_the_distributions_is_refused),
    cmocka_unit_test(a_summary_keeps_its_digits_far_from_zero),
    cmocka_unit_test(the_bound_lies_below_the_mean_by_students_t),
    cmocka_unit_test(a_mean_that_is_not_proved_is_open_and_one_low_spot_fails),
    cmocka_unit_test(readings_needed_are_the_fewest_that_do),
    cmocka_unit_test(judging_refuses_what_cannot_be_judged),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
