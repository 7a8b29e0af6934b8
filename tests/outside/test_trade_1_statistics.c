/* test_trade_1_statistics.c - our own distributions against the GNU Scientific Library (GSL 2.7, its functions
 * gsl_sf_beta_inc_e, gsl_cdf_tdist_P and gsl_cdf_tdist_Pinv), an independent implementation. */
#include "support.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_sf_gamma.h>

#include "trade/statistics.h"

static void the_incomplete_beta_function_agrees_over_a_grid(void **state)
{
  (void)state;
  gsl_set_error_handler_off();
  static const double sizes[] = { 0.5, 1, 2.5, 7, 40, 300, 2000 };
  for (size_t i = 0; i < COUNT_OF(sizes); i++)
    for (size_t k = 0; k < COUNT_OF(sizes); k++)
      for (int step = 1; step < 64; step++) {
        double x = step / 64.0, got;
        gsl_sf_result want = { 0 };
        int status = gsl_sf_beta_inc_e(sizes[i], sizes[k], x, &want);
        assert_true(statistics_beta(sizes[i], sizes[k], x, &got, NULL));
        assert_near(got, status == GSL_EUNDRFLW ? 0 : want.val, 1e-10); /* GSL gives up below 1e-308 */
      }
}

static void students_t_agrees_over_a_grid(void **state)
{
  (void)state;
  static const double freedoms[] = { 1, 2, 3.5, 5, 10, 29, 120, 1000, 10000 };
  for (size_t i = 0; i < COUNT_OF(freedoms); i++)
    for (double t = -12; t <= 12; t += 0.375) {
      double got, want = gsl_cdf_tdist_P(t, freedoms[i]);
      assert_true(statistics_t_below(t, freedoms[i], &got, NULL));
      assert_near(got, want, 1e-10);
    }
}

static void quantiles_of_students_t_agree_over_a_grid(void **state)
{
  (void)state;
  static const double freedoms[] = { 1, 2, 3, 4, 9, 29, 120, 1000, 10000 };
  static const double chances[] = { 0.0001, 0.01, 0.05, 0.2, 0.49, 0.5, 0.6, 0.9, 0.95, 0.975, 0.99, 0.9999 };
  for (size_t i = 0; i < COUNT_OF(freedoms); i++)
    for (size_t k = 0; k < COUNT_OF(chances); k++) {
      double got, want = gsl_cdf_tdist_Pinv(chances[k], freedoms[i]);
      assert_true(statistics_t_quantile(chances[k], freedoms[i], &got, NULL));
      assert_near(got, want, 1e-10 * fmax(1, fabs(want)));
    }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_incomplete_beta_function_agrees_over_a_grid),
    cmocka_unit_test(students_t_agrees_over_a_grid),
    cmocka_unit_test(quantiles_of_students_t_agree_over_a_grid),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
