/* test_spread.c - distributions of estimates against the GNU Scientific Library, and their moments against the
 * formulas of Malcolm, Roseboom, Clark, Fazar 1959; random numbers against their published vectors. */
#include "support.h"

#include <gsl/gsl_cdf.h>

#include "base/philox.h"
#include "cost/spread.h"

/* low, likely, high: skewed both ways, in the middle, and with the likely value at an end. */
static const double estimates[][3] = { { 0, 0.5, 1 }, { 5, 8, 14 },    { 0.8, 1, 1.3 }, { 10, 13, 14 }, { 0, 0, 1 },
                                       { 2, 3, 3 },   { 90, 91, 140 }, { -4, -1, 0 },   { 1, 500, 1000 } };

static const double fractions[] = { 1e-9, 1e-6, 0.001, 0.0078, 0.0079, 0.02, 0.1, 0.25, 0.4999, 0.5, 0.6, 0.8,
                                    0.9,  0.99, 0.9922, 0.9999, 1 - 1e-6, 1 - 1e-9 };

/* By GSL and the definitions in spread.h. */
static double pert_by_gsl(const double *e, double p)
{
  double m = (e[1] - e[0]) / (e[2] - e[0]);
  return e[0] + (e[2] - e[0]) * gsl_cdf_beta_Pinv(p, 1 + 4 * m, 1 + 4 * (1 - m));
}

/* GSL has no triangle: it is the distribution with P(x) = x^2 / m below its peak, and so from the other side. */
static double triangle_below(const double *e, double x)
{
  double w = e[2] - e[0];
  if (x < e[1]) return (x - e[0]) * (x - e[0]) / (w * (e[1] - e[0]));
  return e[2] > e[1] ? 1 - (e[2] - x) * (e[2] - x) / (w * (e[2] - e[1])) : 1;
}

static Estimate estimate(RiskShape shape, const double *e) { return (Estimate){ shape, e[0], e[1], e[2] }; }

static void pert_is_the_beta_distribution(void **state)
{
  (void)state;
  for (size_t i = 0; i < COUNT_OF(estimates); i++) {
    Estimate e = estimate(RISK_PERT, estimates[i]);
    double width = e.high - e.low;
    Spread *s = spread_new(&e, NULL);
    for (size_t k = 0; k < COUNT_OF(fractions); k++) {
      double want = pert_by_gsl(estimates[i], fractions[k]);
      assert_near(spread_quantile(&e, fractions[k]), want, 1e-8 * width);
      assert_near(spread_at(s, fractions[k]), want, 1e-6 * width);
    }
    spread_free(s);
  }
}

static void a_triangle_has_its_area_below_each_quantile(void **state)
{
  (void)state;
  for (size_t i = 0; i < COUNT_OF(estimates); i++) {
    Estimate e = estimate(RISK_TRIANGULAR, estimates[i]);
    Spread *s = spread_new(&e, NULL);
    for (size_t k = 0; k < COUNT_OF(fractions); k++) {
      assert_near(triangle_below(estimates[i], spread_quantile(&e, fractions[k])), fractions[k], 1e-12);
      assert_near(spread_at(s, fractions[k]), spread_quantile(&e, fractions[k]), 2e-6 * (e.high - e.low));
    }
    spread_free(s);
  }
}

/* With a shift that the three points give by themselves: (x - shift) is lognormal. */
static void a_skewed_estimate_is_a_shifted_lognormal_through_its_three_points(void **state)
{
  (void)state;
  const double e[] = { 5, 8, 14 };
  Estimate skewed = estimate(RISK_LOGNORMAL, e);
  double shift = (e[0] * e[2] - e[1] * e[1]) / (e[0] + e[2] - 2 * e[1]);
  double sigma = log((e[2] - shift) / (e[1] - shift)) / gsl_cdf_ugaussian_Pinv(0.9);
  Spread *s = spread_new(&skewed, NULL);
  for (double p = 0.04; p < 0.97; p += 0.01) {
    double want = shift + gsl_cdf_lognormal_Pinv(p, log(e[1] - shift), sigma);
    assert_near(spread_quantile(&skewed, p), want, 1e-8);
    assert_near(spread_at(s, p), want, 1e-5);
  }
  assert_near(spread_quantile(&skewed, 0.1), 5, 1e-9);
  assert_near(spread_quantile(&skewed, 0.9), 14, 1e-9);
  assert_near(spread_quantile(&skewed, 1 - 1e-9), 20, 1e-12); /* as far beyond high as likely is below it */
  spread_free(s);
}

static void in_the_middle_it_is_normal_and_above_it_mirrored(void **state)
{
  (void)state;
  Estimate normal = { RISK_LOGNORMAL, 10, 20, 30 };
  Estimate left = { RISK_LOGNORMAL, 0, 6, 9 }, right = { RISK_LOGNORMAL, 0, 3, 9 };
  for (double p = 0.05; p < 0.96; p += 0.05) {
    assert_near(spread_quantile(&normal, p), 20 + 10 * gsl_cdf_ugaussian_Pinv(p) / gsl_cdf_ugaussian_Pinv(0.9),
                1e-8);
    assert_near(spread_quantile(&left, p), 9 - spread_quantile(&right, 1 - p), 1e-9);
  }
  assert_near(spread_quantile(&normal, 1e-9), 0, 1e-12); /* cut off */
}

typedef struct {
  double mean, variance;
} Moments;

static Moments moments(const Spread *s, int count, uint64_t key)
{
  double sum = 0, squares = 0;
  for (int i = 0; i < count; i++) {
    PhiloxBlock block = philox(key, (PhiloxBlock){ { (uint32_t)i, 0, 0, 0 } });
    double x = spread_at(s, philox_fraction(block.word[0]));
    sum += x;
    squares += x * x;
  }
  return (Moments){ sum / count, squares / count - (sum / count) * (sum / count) };
}

static void samples_have_the_mean_and_variance_of_their_shape(void **state)
{
  (void)state;
  enum { SAMPLES = 200000 };
  for (size_t i = 0; i < COUNT_OF(estimates); i++) {
    const double *e = estimates[i];
    double width = e[2] - e[0], mean = (e[0] + 4 * e[1] + e[2]) / 6, middle = (e[0] + e[1] + e[2]) / 3;
    Estimate pert = estimate(RISK_PERT, e), triangle = estimate(RISK_TRIANGULAR, e);
    Spread *p = spread_new(&pert, NULL), *t = spread_new(&triangle, NULL);
    Moments of_pert = moments(p, SAMPLES, i), of_triangle = moments(t, SAMPLES, i + 100);
    assert_near(of_pert.mean, mean, 0.002 * width); /* the error of a mean of 200,000 is some 0.0005 */
    assert_near(of_pert.variance, (mean - e[0]) * (e[2] - mean) / 7, 0.0006 * width * width);
    assert_near(of_triangle.mean, middle, 0.002 * width);
    double squares = e[0] * e[0] + e[1] * e[1] + e[2] * e[2];
    double products = e[0] * e[1] + e[0] * e[2] + e[1] * e[2];
    assert_near(of_triangle.variance, (squares - products) / 18, 0.0006 * width * width);
    spread_free(p);
    spread_free(t);
  }
}

/* The known-answer vectors that come with the authors' own library: zeros, ones, and digits of pi. */
static void philox_gives_its_published_blocks(void **state)
{
  (void)state;
  static const struct {
    uint64_t key;
    PhiloxBlock counter, want;
  } vectors[] = {
    { 0, { { 0, 0, 0, 0 } }, { { 0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8 } } },
    { UINT64_MAX,
      { { 0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff } },
      { { 0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd } } },
    { 0x299f31d0a4093822,
      { { 0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344 } },
      { { 0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1 } } },
  };
  for (size_t i = 0; i < COUNT_OF(vectors); i++) {
    PhiloxBlock got = philox(vectors[i].key, vectors[i].counter);
    for (int w = 0; w < PHILOX_WORDS; w++) assert_int_equal(got.word[w], vectors[i].want.word[w]);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(pert_is_the_beta_distribution),
    cmocka_unit_test(a_triangle_has_its_area_below_each_quantile),
    cmocka_unit_test(a_skewed_estimate_is_a_shifted_lognormal_through_its_three_points),
    cmocka_unit_test(in_the_middle_it_is_normal_and_above_it_mirrored),
    cmocka_unit_test(samples_have_the_mean_and_variance_of_their_shape),
    cmocka_unit_test(philox_gives_its_published_blocks),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
