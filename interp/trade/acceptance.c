/* acceptance.c - judging readings against a promise. */
#include "trade/acceptance.h"

#include <math.h>

enum { READINGS_MAX = 10000 };

const TradeFormula acceptance_formulas[] = {
  { "acceptance.lower_bound", "bound = mean - t(confidence, n - 1) s / sqrt(n)",
    { TRADE_COMPUTED, "one-sided confidence bound of a mean, Student's t" },
    "What the mean of the whole floor is at least, at the given confidence, from n readings that scatter "
    "roughly like a normal distribution." },
  { "acceptance.readings", "least n with t(confidence, n - 1) s / sqrt(n) <= margin",
    { TRADE_COMPUTED, "one-sided confidence bound of a mean, Student's t" },
    "Readings needed to tell the mean to within a margin, given the spread to expect." },
  { 0 }
};

/* How far below the mean of n readings the bound lies. */
static bool half_width(double spread, size_t n, double confidence, double *width, TradeError *error)
{
  double t;
  if (!trade_in_range(error, "confidence", confidence, 0.5, 0.9999)) return false;
  if (!statistics_t_quantile(confidence, (double)(n - 1), &t, error)) return false;
  *width = t * spread / sqrt((double)n);
  return true;
}

static AcceptanceVerdict judge_mean(const Acceptance *a, double at_least)
{
  return a->lower_bound >= at_least     ? ACCEPTANCE_PASS
         : a->readings.mean >= at_least ? ACCEPTANCE_OPEN
                                        : ACCEPTANCE_FAIL;
}

bool acceptance_judge(const double *readings, size_t count, const AcceptanceRule *rule, Acceptance *out,
                      TradeError *error)
{
  if (count < 2)
    return trade_refuse(error, TRADE_TOO_FEW, "readings", (double)count,
                        "two readings are the least that show a spread");
  Acceptance a;
  double width;
  if (!trade_in_range(error, "readings", (double)count, 2, READINGS_MAX + 1) ||
      !statistics_summary(readings, count, &a.readings, error) ||
      !half_width(a.readings.spread, count, rule->confidence, &width, error))
    return false;
  if (isnan(rule->mean_at_least) || isnan(rule->each_at_least))
    return trade_refuse(error, TRADE_NOT_FINITE, "at_least", NAN, "a promise must be a number");
  a.lower_bound = a.readings.mean - width;
  a.mean = judge_mean(&a, rule->mean_at_least);
  a.each = a.readings.least >= rule->each_at_least ? ACCEPTANCE_PASS : ACCEPTANCE_FAIL;
  a.both = a.mean > a.each ? a.mean : a.each;
  *out = a;
  return true;
}

/* The width falls as n grows, so the least n is found by halving. */
bool acceptance_readings(double spread, double margin, double confidence, int *readings, TradeError *error)
{
  double width;
  if (!trade_positive(error, "spread", spread) || !trade_positive(error, "margin", margin) ||
      !half_width(spread, READINGS_MAX, confidence, &width, error))
    return false;
  if (width > margin)
    return trade_refuse(error, TRADE_NO_ANSWER, "margin", margin, "%d readings do not tell the mean to within %g",
                        READINGS_MAX, margin);
  size_t low = 1, high = READINGS_MAX; /* low does not do, high does */
  while (high - low > 1) {
    size_t middle = (low + high) / 2;
    if (!half_width(spread, middle, confidence, &width, error)) return false;
    if (width <= margin) high = middle;
    else low = middle;
  }
  *readings = (int)high;
  return true;
}
