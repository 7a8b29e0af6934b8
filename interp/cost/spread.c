#include "cost/spread.h"

#include <assert.h>
#include <math.h>

#include "base/mem.h"
#include "trade/statistics.h"

enum { CELLS = 1024, EXACT_CELLS = 8 };

static const double P90_Z = 1.2815515655446004; /* of the standard normal */
static const double LEAST_SKEW = 0.02;

/* All three are worked out between 0 and 1, with the likely value at `mode`, and then stretched. */
typedef struct {
  RiskShape shape;
  double mode;
} Unit;

struct Spread {
  Unit unit;
  double low, width;
  double at[CELLS + 1], slope[CELLS + 1]; /* quantiles at k / CELLS, and their change over a cell */
};

/* ---- inverting a distribution: Newton steps, by halves where one would leave what is known to hold the answer */

typedef double (*Density)(const void *context, double x);

static double invert(Density below, Density density, const void *context, double fraction, double low, double high)
{
  double x = low + (high - low) * fraction;
  for (int i = 0; i < 200; i++) {
    double over = below(context, x) - fraction;
    if (over > 0) high = x;
    else low = x;
    double next = x - over / density(context, x);
    if (!(next > low && next < high)) next = (low + high) / 2;
    if (fabs(next - x) <= 1e-13 * (1 + fabs(x))) return next;
    x = next;
  }
  return x;
}

typedef struct {
  double alpha, beta, log_scale;
} Beta;

static double beta_below(const void *context, double x)
{
  const Beta *b = context;
  double below = 0;
  TradeError error;
  bool known = statistics_beta(b->alpha, b->beta, x, &below, &error);
  assert(known);
  (void)known;
  return below;
}

static double beta_density(const void *context, double x)
{
  const Beta *b = context;
  return exp(b->log_scale + (b->alpha - 1) * log(x) + (b->beta - 1) * log1p(-x));
}

static Beta beta_of(double mode)
{
  Beta b = { .alpha = 1 + 4 * mode, .beta = 1 + 4 * (1 - mode) };
  b.log_scale = lgamma(b.alpha + b.beta) - lgamma(b.alpha) - lgamma(b.beta);
  return b;
}

static double normal_below(const void *context, double z)
{
  (void)context;
  return erfc(-z / 1.4142135623730951) / 2;
}

static double normal_density(const void *context, double z)
{
  (void)context;
  return exp(-z * z / 2) * 0.3989422804014327;
}

static double normal_quantile(double fraction)
{
  return fraction > 0.5 ? -normal_quantile(1 - fraction)
                        : invert(normal_below, normal_density, NULL, fraction, -10, 0);
}

/* ---- the three shapes between 0 and 1: quantile, and its derivative */

static double pert(double mode, double fraction, double *slope)
{
  Beta b = beta_of(mode);
  double x = invert(beta_below, beta_density, &b, fraction, 0, 1);
  *slope = 1 / beta_density(&b, x);
  return x;
}

static double triangular(double mode, double fraction, double *slope)
{
  if (fraction < mode) {
    double x = sqrt(fraction * mode);
    *slope = mode / (2 * x);
    return x;
  }
  double rest = sqrt((1 - fraction) * (1 - mode));
  *slope = (1 - mode) / (2 * rest);
  return 1 - rest;
}

/* start + (mode - start) exp(spread z), with start and spread such that P10 is 0 and P90 is 1. */
static double skewed(double mode, double z, double *by_z)
{
  double start = -mode * mode / (1 - 2 * mode), spread = log((1 - start) / (mode - start)) / P90_Z;
  double over = (mode - start) * exp(spread * z);
  *by_z = over * spread;
  return start + over;
}

static double lognormal(double mode, double fraction, double *slope)
{
  mode = fmin(fmax(mode, LEAST_SKEW), 1 - LEAST_SKEW);
  double z = normal_quantile(fraction), x, by_z;
  if (fabs(mode - 0.5) < 1e-6) {
    by_z = 0.5 / P90_Z;
    x = mode + by_z * z;
  } else if (mode < 0.5) {
    x = skewed(mode, z, &by_z);
  } else {
    x = 1 - skewed(1 - mode, -z, &by_z);
  }
  *slope = by_z / normal_density(NULL, z);
  if (x >= -mode && x <= 2 - mode) return x;
  *slope = 0;
  return x < -mode ? -mode : 2 - mode;
}

static double unit_quantile(Unit u, double fraction, double *slope)
{
  static double (*const shapes[RISK_SHAPES])(double, double, double *) = {
    [RISK_PERT] = pert, [RISK_TRIANGULAR] = triangular, [RISK_LOGNORMAL] = lognormal,
  };
  return shapes[u.shape](u.mode, fraction, slope);
}

static Unit unit_of(const Estimate *e)
{
  assert(e->low < e->high && e->low <= e->likely && e->likely <= e->high);
  return (Unit){ e->shape, (e->likely - e->low) / (e->high - e->low) };
}

double spread_quantile(const Estimate *e, double fraction)
{
  double slope;
  return e->low + (e->high - e->low) * unit_quantile(unit_of(e), fraction, &slope);
}

Spread *spread_new(const Estimate *e)
{
  Spread *s = mem_alloc(sizeof *s);
  s->unit = unit_of(e);
  s->low = e->low;
  s->width = e->high - e->low;
  for (int k = EXACT_CELLS; k <= CELLS - EXACT_CELLS; k++) {
    s->at[k] = unit_quantile(s->unit, (double)k / CELLS, &s->slope[k]);
    s->slope[k] /= CELLS;
  }
  return s;
}

void spread_free(Spread *s) { mem_free(s); }

double spread_at(const Spread *s, double fraction)
{
  double cell = fraction * CELLS, unused;
  int k = (int)cell;
  if (k < EXACT_CELLS || k >= CELLS - EXACT_CELLS)
    return s->low + s->width * unit_quantile(s->unit, fraction, &unused);
  double t = cell - k, u = 1 - t;
  double before = (1 + 2 * t) * s->at[k] + t * s->slope[k], after = (1 + 2 * u) * s->at[k + 1] - u * s->slope[k + 1];
  return s->low + s->width * (u * u * before + t * t * after);
}
