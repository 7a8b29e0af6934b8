#include "cost/spread.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>

#include "base/mem.h"
#include "trade/statistics.h"

/* Cells of equal width in the middle, and towards both ends cells that get narrower by a fourth of an octave. */
enum { CELLS = 256, END_CELLS = 8, OCTAVES = 28, A_OCTAVE = 4, TAIL_CELLS = OCTAVES * A_OCTAVE };

static const double END = (double)END_CELLS / CELLS;   /* tails are below this and above 1 - this */
static const double P90_Z = 1.2815515655446004;        /* of the standard normal */
static const double LEAST_SKEW = 0.02;

typedef struct {
  double alpha, beta, log_scale;
} Beta;

/* All three are worked out between 0 and 1, with the likely value at `mode`, and then stretched. */
typedef struct {
  RiskShape shape;
  double mode;
  Beta beta;        /* PERT only */
  double low, high; /* where it is cut off */
} Unit;

/* A quantile and its derivative by the cell. */
typedef struct {
  double at, slope;
} Knot;

typedef struct {
  Knot middle[CELLS + 1], tails[2][TAIL_CELLS + 1];
} Table;

struct Spread {
  Unit unit;
  double low, width;
  Table *table; /* NULL: a triangle needs none */
  bool owns_table;
};

/* ---- inverting a distribution: Newton steps, by halves where one would leave what is known to hold the answer */

typedef double (*Density)(const void *context, double x);

static double invert(Density below, Density density, const void *context, double fraction, double low, double high,
                     double guess)
{
  double x = guess;
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
                        : invert(normal_below, normal_density, NULL, fraction, -10, 0, -1);
}

/* ---- the three shapes between 0 and 1, not cut off yet: quantile, and its derivative. `guess` is near it. */

static double pert(const Unit *u, double fraction, double guess, double *slope)
{
  double x = invert(beta_below, beta_density, &u->beta, fraction, 0, 1, guess);
  *slope = 1 / beta_density(&u->beta, x);
  return x;
}

static double triangular(const Unit *u, double fraction, double guess, double *slope)
{
  (void)guess;
  if (fraction < u->mode) {
    double x = sqrt(fraction * u->mode);
    *slope = u->mode / (2 * x);
    return x;
  }
  double rest = sqrt((1 - fraction) * (1 - u->mode));
  *slope = (1 - u->mode) / (2 * rest);
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

static double lognormal(const Unit *u, double fraction, double guess, double *slope)
{
  double mode = fmin(fmax(u->mode, LEAST_SKEW), 1 - LEAST_SKEW), z = normal_quantile(fraction), x, by_z;
  (void)guess;
  if (fabs(mode - 0.5) < 1e-6) {
    by_z = 0.5 / P90_Z;
    x = mode + by_z * z;
  } else if (mode < 0.5) {
    x = skewed(mode, z, &by_z);
  } else {
    x = 1 - skewed(1 - mode, -z, &by_z);
  }
  *slope = by_z / normal_density(NULL, z);
  return x;
}

static double unit_quantile(const Unit *u, double fraction, double guess, double *slope)
{
  static double (*const shapes[RISK_SHAPES])(const Unit *, double, double, double *) = {
    [RISK_PERT] = pert, [RISK_TRIANGULAR] = triangular, [RISK_LOGNORMAL] = lognormal,
  };
  return shapes[u->shape](u, fraction, guess, slope);
}

static double cut_off(const Unit *u, double x) { return x < u->low ? u->low : x > u->high ? u->high : x; }

static Unit unit_of(const Estimate *e)
{
  assert(e->low < e->high && e->low <= e->likely && e->likely <= e->high);
  Unit u = { .shape = e->shape, .mode = (e->likely - e->low) / (e->high - e->low), .low = 0, .high = 1 };
  if (u.shape == RISK_PERT) u.beta = beta_of(u.mode);
  if (u.shape == RISK_LOGNORMAL) {
    u.low = -u.mode;
    u.high = 2 - u.mode;
  }
  return u;
}

double spread_quantile(const Estimate *e, double fraction)
{
  Unit u = unit_of(e);
  double slope;
  return e->low + (e->high - e->low) * cut_off(&u, unit_quantile(&u, fraction, 0.5, &slope));
}

/* ---- the table */

static double tail_fraction(double cell) { return END * exp2(-cell / A_OCTAVE); }

static void fill_middle(const Unit *u, Table *table)
{
  double guess = 0.5;
  for (int k = END_CELLS; k <= CELLS - END_CELLS; k++) {
    Knot *knot = &table->middle[k];
    knot->at = guess = unit_quantile(u, (double)k / CELLS, guess, &knot->slope);
    knot->slope /= CELLS;
  }
}

/* Cells count away from the middle; one is longer the nearer it is. */
static void fill_tail(const Unit *u, Table *table, bool upper)
{
  double guess = table->middle[upper ? CELLS - END_CELLS : END_CELLS].at;
  for (int k = 0; k <= TAIL_CELLS; k++) {
    Knot *knot = &table->tails[upper][k];
    double fraction = tail_fraction(k), by_cell = -fraction * 0.6931471805599453 / A_OCTAVE;
    knot->at = guess = unit_quantile(u, upper ? 1 - fraction : fraction, guess, &knot->slope);
    knot->slope *= upper ? -by_cell : by_cell;
  }
}

static Table *new_table(const Unit *u)
{
  Table *table = mem_alloc(sizeof *table);
  fill_middle(u, table);
  fill_tail(u, table, false);
  fill_tail(u, table, true);
  return table;
}

bool spread_alike(const Spread *s, const Estimate *e)
{
  Unit u = unit_of(e);
  return s->unit.shape == u.shape && s->unit.mode == u.mode;
}

Spread *spread_new(const Estimate *e, const Spread *alike)
{
  Spread *s = mem_alloc(sizeof *s);
  *s = (Spread){ .unit = unit_of(e), .low = e->low, .width = e->high - e->low };
  if (alike) s->table = alike->table;
  else if (s->unit.shape != RISK_TRIANGULAR) s->table = new_table(&s->unit);
  s->owns_table = alike == NULL;
  return s;
}

void spread_free(Spread *s)
{
  if (s == NULL) return;
  if (s->owns_table) mem_free(s->table);
  mem_free(s);
}

/* Hermite's cubic between two knots. */
static double between(const Knot *a, const Knot *b, double t)
{
  double u = 1 - t, before = (1 + 2 * t) * a->at + t * a->slope, after = (1 + 2 * u) * b->at - u * b->slope;
  return u * u * before + t * t * after;
}

static double in_tail(const Spread *s, double fraction)
{
  bool upper = fraction > 0.5;
  double unused, cell = -log2((upper ? 1 - fraction : fraction) / END) * A_OCTAVE;
  int k = (int)cell;
  const Knot *tail = s->table->tails[upper];
  if (k >= TAIL_CELLS) return unit_quantile(&s->unit, fraction, tail[TAIL_CELLS].at, &unused);
  return between(&tail[k], &tail[k + 1], cell - k);
}

static double from_table(const Spread *s, double fraction)
{
  double cell = fraction * CELLS;
  int k = (int)cell;
  if (k < END_CELLS || k >= CELLS - END_CELLS) return in_tail(s, fraction);
  return between(&s->table->middle[k], &s->table->middle[k + 1], cell - k);
}

double spread_at(const Spread *s, double fraction)
{
  double unused;
  double x = s->table ? from_table(s, fraction) : triangular(&s->unit, fraction, 0, &unused);
  return s->low + s->width * cut_off(&s->unit, x);
}
