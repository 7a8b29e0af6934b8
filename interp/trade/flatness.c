/* flatness.c - F-numbers of a profile, their combination, and the values that are specified. */
#include "trade/flatness.h"

#include <math.h>

#define ROWS(table) (sizeof(table) / sizeof *(table))
#define E1155 { TRADE_FROM_MEMORY, "ASTM E1155, inch-pound edition" }

const TradeFormula flatness_formulas[] = {
  { "flatness.ff", "FF = 4.57 / (3 Sq + |mean q|)", E1155,
    "Floor flatness from the curvatures q in inches of points 12 in apart, S their sample standard deviation." },
  { "flatness.fl", "FL = 12.5 / (3 Sz + |mean z|)", E1155,
    "Floor levelness from the differences z in inches of points 10 ft apart." },
  { "flatness.combine", "F = sqrt((r1 + r2 + ...) / (r1 / F1^2 + r2 / F2^2 + ...))", E1155,
    "One F-number for several lines or sections, each with its count of readings r." },
  { "flatness.least_readings", "n = 2 sqrt(A) to 1600 sq ft, A / 30 above, rounded up", E1155,
    "The least number of readings for a section of A sq ft." },
  { 0 }
};

static const FlatnessLimit limits[] = {
  { "polished floor, association advice", 50, 30, 35, 20,
    { TRADE_CONFIRMED, "trade article and slide deck; measured 8 h after final trowelling" } },
  { "guide specification A", 40, 30, 0, 0, { TRADE_CONFIRMED, "guide specification" } },
  { "guide specification B", 50, 0, 40, 0, { TRADE_CONFIRMED, "guide specification" } },
  { "conventional", 20, 15, 0, 0, { TRADE_FROM_MEMORY, "ACI 117" } },
  { "moderately flat", 25, 20, 0, 0, { TRADE_FROM_MEMORY, "ACI 117" } },
  { "flat", 35, 25, 0, 0, { TRADE_FROM_MEMORY, "ACI 117" } },
  { "very flat", 45, 35, 0, 0, { TRADE_FROM_MEMORY, "ACI 117" } },
  { "super-flat", 60, 40, 0, 0, { TRADE_FROM_MEMORY, "ACI 117" } },
};

static const FlatnessGap gaps[] = { { 20, 5.0 / 16 }, { 25, 1.0 / 4 }, { 32, 3.0 / 16 }, { 50, 1.0 / 8 } };

const FlatnessLimit *flatness_limit_at(size_t index)
{
  return index < ROWS(limits) ? &limits[index] : NULL;
}

const FlatnessGap *flatness_gap_at(size_t index)
{
  return index < ROWS(gaps) ? &gaps[index] : NULL;
}

bool flatness_meets(const FlatnessLimit *limit, double ff, double fl)
{
  return ff >= limit->ff && fl >= limit->fl;
}

static bool f_number(double constant_in, double spread_in, double mean_in, double *f, TradeError *error)
{
  if (!trade_in_range(error, "spread_in", spread_in, 0, INFINITY) ||
      !trade_in_range(error, "mean_in", mean_in, -INFINITY, INFINITY))
    return false;
  double denominator_in = 3 * spread_in + fabs(mean_in);
  if (denominator_in == 0)
    return trade_refuse(error, TRADE_DEGENERATE, "spread_in", 0, "no F-number: the readings do not differ at all");
  *f = constant_in / denominator_in;
  return true;
}

bool flatness_ff(double spread_in, double mean_in, double *ff, TradeError *error)
{
  return f_number(4.57, spread_in, mean_in, ff, error);
}

bool flatness_fl(double spread_in, double mean_in, double *fl, TradeError *error)
{
  return f_number(12.5, spread_in, mean_in, fl, error);
}

static double curvature(const double *h, size_t i)
{
  return h[i + 2] - 2 * h[i + 1] + h[i];
}

static double difference(const double *h, size_t i)
{
  return h[i + 10] - h[i];
}

/* Mean and sample standard deviation of count >= 2 values taken along the line. */
static void sample(double (*value)(const double *, size_t), const double *h, size_t count, double *mean,
                   double *spread)
{
  double sum = 0, squares = 0;
  for (size_t i = 0; i < count; i++) sum += value(h, i);
  *mean = sum / (double)count;
  for (size_t i = 0; i < count; i++) squares += (value(h, i) - *mean) * (value(h, i) - *mean);
  *spread = sqrt(squares / (double)(count - 1));
}

bool flatness_line(const double *heights_in, size_t count, FlatnessLine *out, TradeError *error)
{
  if (count < 4)
    return trade_refuse(error, TRADE_TOO_FEW, "heights_in", (double)count,
                        "a line needs 4 points for a spread, not %zu", count);
  for (size_t i = 0; i < count; i++)
    if (!trade_in_range(error, "heights_in", heights_in[i], -INFINITY, INFINITY)) return false;
  FlatnessLine line = { .curvatures = count - 2, .has_fl = count >= 12 };
  sample(curvature, heights_in, line.curvatures, &line.q_mean_in, &line.q_spread_in);
  if (!flatness_ff(line.q_spread_in, line.q_mean_in, &line.ff, error)) return false;
  if (line.has_fl) {
    line.differences = count - 10;
    sample(difference, heights_in, line.differences, &line.z_mean_in, &line.z_spread_in);
    if (!flatness_fl(line.z_spread_in, line.z_mean_in, &line.fl, error)) return false;
  }
  *out = line;
  return true;
}

bool flatness_combine(const FlatnessSample *samples, size_t count, double *f, TradeError *error)
{
  if (count == 0) return trade_refuse(error, TRADE_TOO_FEW, "samples", 0, "there is nothing to combine");
  double readings = 0, weighted = 0;
  for (size_t i = 0; i < count; i++) {
    if (!trade_positive(error, "f", samples[i].f) || !trade_positive(error, "readings", samples[i].readings))
      return false;
    readings += samples[i].readings;
    weighted += samples[i].readings / (samples[i].f * samples[i].f);
  }
  *f = sqrt(readings / weighted);
  return true;
}

bool flatness_least_readings(double area_sqft, int *readings, TradeError *error)
{
  if (!trade_positive(error, "area_sqft", area_sqft) || !trade_in_range(error, "area_sqft", area_sqft, 0, 1e9))
    return false;
  double exact = area_sqft <= 1600 ? 2 * sqrt(area_sqft) : area_sqft / 30;
  *readings = (int)ceil(exact - 1e-9);
  return true;
}
