/* statistics.c - incomplete beta function, Student's t, and summaries of readings. */
#include "trade/statistics.h"

#include <math.h>

const TradeFormula statistics_formulas[] = {
  { "statistics.beta", "I_x(a, b) = x^a (1-x)^b / (a B(a, b)) times a continued fraction",
    { TRADE_COMPUTED, "continued fraction of the incomplete beta function, Lentz's method" },
    "Regularised incomplete beta function for 0.1 <= a, b <= 10000." },
  { "statistics.t", "P(|T| > t) = I_x(v/2, 1/2) with x = v / (v + t^2)",
    { TRADE_COMPUTED, "Student's t distribution as an incomplete beta function" },
    "Student's t with v degrees of freedom, 1 to 10000, and its quantiles." },
  { 0 }
};

/* Even and odd terms of the continued fraction, front to back, until a factor is 1 to the last bit or so. Converges
 * fast for x below (a + 1) / (a + b + 2). */
static double beta_fraction(double a, double b, double x)
{
  const double tiny = 1e-300;
  double c = 1, d = 1 / (1 - (a + b) * x / (a + 1)), fraction = d;
  for (int m = 1; m <= 10000; m++) {
    double terms[] = { m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)),
                       -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)) };
    double before = fraction;
    for (int i = 0; i < 2; i++) {
      d = 1 + terms[i] * d;
      c = 1 + terms[i] / c;
      d = 1 / (fabs(d) < tiny ? tiny : d);
      if (fabs(c) < tiny) c = tiny;
      fraction *= d * c;
    }
    if (fabs(fraction - before) <= 1e-16 * fabs(fraction)) break;
  }
  return fraction;
}

/* log of 1 / B(a, b). The difference of lgammas loses digits: 1e-11 is left of them at the end of the range. */
static double log_beta_inverse(double a, double b)
{
  return lgamma(a + b) - lgamma(a) - lgamma(b);
}

/* I_x(a, b) given both x and y = 1 - x, so that neither tail loses digits. */
static double beta_tail(double a, double b, double x, double y)
{
  if (x <= 0) return 0;
  if (y <= 0) return 1;
  double front = exp(log_beta_inverse(a, b) + a * log(x) + b * log(y));
  if (x < (a + 1) / (a + b + 2)) return front * beta_fraction(a, b, x) / a;
  return 1 - front * beta_fraction(b, a, y) / b;
}

bool statistics_beta(double a, double b, double x, double *out, TradeError *error)
{
  if (!trade_in_range(error, "a", a, 0.1, 1e4) || !trade_in_range(error, "b", b, 0.1, 1e4) ||
      !trade_in_range(error, "x", x, 0, 1))
    return false;
  *out = beta_tail(a, b, x, 1 - x);
  return true;
}

static bool check_freedom(double freedom, TradeError *error)
{
  return trade_in_range(error, "freedom", freedom, 1, 1e4);
}

/* P(T > t) and P(|T| <= t) for t >= 0. */
static double t_above(double t, double v)
{
  return beta_tail(v / 2, 0.5, v / (v + t * t), t * t / (v + t * t)) / 2;
}

static double t_within(double t, double v)
{
  return beta_tail(0.5, v / 2, t * t / (v + t * t), v / (v + t * t));
}

static double t_density(double t, double v)
{
  return exp(log_beta_inverse(v / 2, 0.5) - (v + 1) / 2 * log1p(t * t / v)) / sqrt(v);
}

bool statistics_t_below(double t, double freedom, double *probability, TradeError *error)
{
  if (!check_freedom(freedom, error) || !trade_in_range(error, "t", t, -1e150, 1e150)) return false;
  double above = t_above(fabs(t), freedom);
  *probability = t < 0 ? above : 1 - above;
  return true;
}

/* The t > 0 whose tail beyond it, or centre within it, has this probability: Newton's method on the logarithm of
 * both, where they are nearly straight, inside a bracket that halves when a step would leave it. */
static double solve_t(double target, double v, bool tail)
{
  double low = -40, high = 60, u = 0; /* u = log t */
  for (int i = 0; i < 200 && high - low > 1e-15 * fmax(1, fabs(u)); i++) {
    double t = exp(u), p = tail ? t_above(t, v) : t_within(t, v);
    bool too_far = tail ? p < target : p > target;
    if (too_far) high = u;
    else low = u;
    double slope = (tail ? -1 : 2) * t_density(t, v) * t / p;
    double step = (log(target) - log(p)) / slope;
    double next = u + step;
    if (!(next > low && next < high)) next = (low + high) / 2;
    if (fabs(next - u) <= 1e-15 * fmax(1, fabs(u))) return exp(next);
    u = next;
  }
  return exp(u);
}

bool statistics_t_quantile(double probability, double freedom, double *t, TradeError *error)
{
  if (!check_freedom(freedom, error) || !trade_in_range(error, "probability", probability, 1e-12, 1 - 1e-12))
    return false;
  double centre = fabs(2 * probability - 1), tail = fmin(probability, 1 - probability);
  double size = centre == 0 ? 0 : centre < 0.5 ? solve_t(centre, freedom, false) : solve_t(tail, freedom, true);
  *t = probability < 0.5 ? -size : size;
  return true;
}

bool statistics_summary(const double *values, size_t count, Summary *out, TradeError *error)
{
  if (count == 0) return trade_refuse(error, TRADE_TOO_FEW, "values", 0, "there are no values");
  Summary s = { .count = count, .least = values[0], .most = values[0] };
  double squares = 0;
  for (size_t i = 0; i < count; i++) {
    if (!trade_in_range(error, "values", values[i], -INFINITY, INFINITY)) return false;
    double away = values[i] - s.mean; /* running mean and squares: no cancellation */
    s.mean += away / (double)(i + 1);
    squares += away * (values[i] - s.mean);
    s.least = fmin(s.least, values[i]);
    s.most = fmax(s.most, values[i]);
  }
  s.spread = count > 1 ? sqrt(squares / (double)(count - 1)) : 0;
  *out = s;
  return true;
}
