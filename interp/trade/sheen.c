/* sheen.c - bands of gloss by last step, the shop's own curve, and what a chain leads to expect. */
#include "trade/sheen.h"

#include <assert.h>
#include <math.h>

#include "trade/optics.h"

const double sheen_paste_index = 1.55, sheen_film_index = 1.50;

const TradeFormula sheen_formulas[] = {
  { "sheen.band", "low and high by last step, straight over log grit between the grits of the table",
    TRADE_RULE_OF_THUMB,
    "Gloss at 60 degrees that floors usually read after a last step, no guard, medium slab, in gloss units." },
  { "sheen.monotone", "fit[i] = max over a <= i of min over b >= i of the weighted mean of y[a..b]",
    { TRADE_COMPUTED, "isotonic least squares regression by pooling adjacent violators" },
    "The curve nearest to the shop's readings among those that never fall as the grit gets finer." },
  { "sheen.expect", "band of the last step that cleared its predecessor, + 5 to 20 if burnished or guarded, "
                    "up to the Fresnel ceiling",
    TRADE_RULE_OF_THUMB,
    "Gloss to expect at 60 degrees after a chain. The ceiling is that of a smooth surface of index 1.55 "
    "(paste) or 1.50 (guard film)." },
  { 0 }
};

typedef struct {
  double grit, low_gu, high_gu;
} Knot;

/* The trade's figures: metal 30 to 80, metal 120 to 150 and transitional, each resin. To the ends of a family the
 * nearest figure is carried on; resin 50 is taken to read like a transitional. */
static const Knot metal[] = { { 16, 1, 5 }, { 80, 1, 5 }, { 120, 2, 8 }, { 300, 2, 8 } };
static const Knot transitional[] = { { 16, 2, 8 }, { 300, 2, 8 } };
static const Knot resin[] = { { 50, 2, 8 },    { 100, 4, 10 },  { 200, 8, 18 },  { 400, 18, 35 },
                              { 800, 30, 50 }, { 1500, 42, 60 }, { 3000, 50, 70 } };

#define KNOTS(list) (list), sizeof(list) / sizeof *(list)

static const struct { const Knot *knots; size_t count; } families[BOND_FAMILIES] = {
  [BOND_METAL] = { KNOTS(metal) },
  [BOND_TRANSITIONAL] = { KNOTS(transitional) },
  [BOND_RESIN] = { KNOTS(resin) },
  [BOND_FIBRE] = { resin + 3, sizeof resin / sizeof *resin - 3 }, /* from 400 */
};

static double along(double grit, double grit_a, double a, double grit_b, double b)
{
  return grit_b > grit_a ? a + (b - a) * log(grit / grit_a) / log(grit_b / grit_a) : a;
}

bool sheen_band(BondFamily bond, double grit, SheenBand *out, TradeError *error)
{
  assert(bond < BOND_FAMILIES);
  const Knot *knot = families[bond].knots;
  if (!knot) return trade_refuse(error, TRADE_NO_ANSWER, "bond", bond, "a scraper leaves no finish to read");
  const Knot *last = knot + families[bond].count - 1;
  if (!trade_in_range(error, "grit", grit, knot->grit, last->grit)) return false;
  while (knot + 1 < last && grit > knot[1].grit) knot++;
  *out = (SheenBand){ along(grit, knot[0].grit, knot[0].low_gu, knot[1].grit, knot[1].low_gu),
                      along(grit, knot[0].grit, knot[0].high_gu, knot[1].grit, knot[1].high_gu) };
  return true;
}

static bool check_series(const double *y, const double *weights, size_t count, TradeError *error)
{
  if (count == 0) return trade_refuse(error, TRADE_TOO_FEW, "y", 0, "there are no values to fit");
  for (size_t i = 0; i < count; i++)
    if (!trade_in_range(error, "y", y[i], -INFINITY, INFINITY) ||
        (weights && !trade_positive(error, "weights", weights[i])))
      return false;
  return true;
}

/* Mean of y from first to last, both included. */
static double mean_of(const double *y, const double *weights, size_t first, size_t last)
{
  double sum = 0, total = 0;
  for (size_t i = first; i <= last; i++) {
    double weight = weights ? weights[i] : 1;
    sum += weight * y[i];
    total += weight;
  }
  return sum / total;
}

/* Blocks of equal fit lie from begin[b] to begin[b + 1] - 1. A block that falls below the one before joins it, and
 * the two take their common mean; since a merge can upset the block before, it goes back. */
bool sheen_monotone(const double *y, const double *weights, size_t count, double *fit, TradeError *error)
{
  if (!check_series(y, weights, count, error)) return false;
  if (!trade_in_range(error, "count", (double)count, 1, SHEEN_KNOTS_MAX)) return false;
  size_t begin[SHEEN_KNOTS_MAX], blocks = 0;
  double level[SHEEN_KNOTS_MAX];
  for (size_t i = 0; i < count; i++) {
    begin[blocks] = i;
    level[blocks++] = y[i];
    for (; blocks > 1 && level[blocks - 2] > level[blocks - 1]; blocks--)
      level[blocks - 2] = mean_of(y, weights, begin[blocks - 2], i);
  }
  for (size_t b = 0; b < blocks; b++)
    for (size_t i = begin[b], end = b + 1 < blocks ? begin[b + 1] : count; i < end; i++) fit[i] = level[b];
  return true;
}

/* Sorted insertion of a reading into knots that hold sums for now. */
static bool add_reading(SheenCurve *curve, double weights[SHEEN_KNOTS_MAX], SheenReading r, TradeError *error)
{
  if (!trade_positive(error, "grit", r.grit) || !trade_in_range(error, "gloss_gu", r.gloss_gu, 0, 1000))
    return false;
  size_t at = 0;
  while (at < curve->count && curve->grit[at] < r.grit) at++;
  if (at == curve->count || curve->grit[at] != r.grit) {
    if (!trade_in_range(error, "grits", (double)curve->count + 1, 1, SHEEN_KNOTS_MAX)) return false;
    for (size_t i = curve->count++; i > at; i--) {
      curve->grit[i] = curve->grit[i - 1];
      curve->gloss_gu[i] = curve->gloss_gu[i - 1];
      weights[i] = weights[i - 1];
    }
    curve->grit[at] = r.grit;
    curve->gloss_gu[at] = weights[at] = 0;
  }
  curve->gloss_gu[at] += r.gloss_gu;
  weights[at]++;
  return true;
}

static double spread_about(const SheenCurve *curve, const SheenReading *readings, size_t count)
{
  if (count <= curve->count) return 0;
  double squares = 0;
  for (size_t i = 0, k = 0; i < count; i++, k = 0) {
    while (curve->grit[k] != readings[i].grit) k++;
    squares += (readings[i].gloss_gu - curve->gloss_gu[k]) * (readings[i].gloss_gu - curve->gloss_gu[k]);
  }
  return sqrt(squares / (double)(count - curve->count));
}

bool sheen_calibrate(const SheenReading *readings, size_t count, SheenCurve *out, TradeError *error)
{
  if (count == 0) return trade_refuse(error, TRADE_TOO_FEW, "readings", 0, "there are no readings to fit");
  SheenCurve curve = { .readings = count };
  double weights[SHEEN_KNOTS_MAX];
  for (size_t i = 0; i < count; i++)
    if (!add_reading(&curve, weights, readings[i], error)) return false;
  for (size_t i = 0; i < curve.count; i++) curve.gloss_gu[i] /= weights[i];
  double fit[SHEEN_KNOTS_MAX];
  if (!sheen_monotone(curve.gloss_gu, weights, curve.count, fit, error)) return false;
  for (size_t i = 0; i < curve.count; i++) curve.gloss_gu[i] = fit[i];
  curve.spread_gu = spread_about(&curve, readings, count);
  *out = curve;
  return true;
}

bool sheen_curve_at(const SheenCurve *curve, double grit, double *gloss_gu, TradeError *error)
{
  assert(curve->count > 0);
  size_t last = curve->count - 1, k = 0;
  if (!trade_in_range(error, "grit", grit, curve->grit[0], curve->grit[last])) return false;
  while (k + 1 < last && grit > curve->grit[k + 1]) k++;
  size_t next = k < last ? k + 1 : k;
  *gloss_gu = along(grit, curve->grit[k], curve->gloss_gu[k], curve->grit[next], curve->gloss_gu[next]);
  return true;
}

/* The last step's band, reaching down to the steps whose scratch was never cleared. */
static bool chain_band(const SheenStep *steps, size_t count, SheenBand *out, TradeError *error)
{
  SheenBand band = { 0 }, chain = { 0 };
  for (size_t i = 0; i < count; i++) {
    if (!sheen_band(steps[i].bond, steps[i].grit, &band, error)) return false;
    chain.high_gu = band.high_gu;
    chain.low_gu = i == 0 || steps[i].cleared ? band.low_gu : fmin(chain.low_gu, band.low_gu);
  }
  *out = chain;
  return true;
}

static bool shop_band(const SheenCurve *shop, const SheenStep *last, SheenBand *out)
{
  double gloss_gu;
  bool polishes = last->bond == BOND_RESIN || last->bond == BOND_FIBRE;
  if (!shop || !polishes || shop->spread_gu == 0 || !sheen_curve_at(shop, last->grit, &gloss_gu, NULL))
    return false;
  *out = (SheenBand){ fmax(gloss_gu - 2 * shop->spread_gu, 0), gloss_gu + 2 * shop->spread_gu };
  return true;
}

bool sheen_expect(const SheenStep *steps, size_t count, SheenFinish finish, const SheenCurve *shop,
                  SheenExpectation *out, TradeError *error)
{
  static const SheenBand gains[] = { [SHEEN_BARE] = { 0, 0 }, [SHEEN_BURNISHED] = { 5, 20 },
                                     [SHEEN_GUARDED] = { 5, 20 } };
  if (count == 0) return trade_refuse(error, TRADE_TOO_FEW, "steps", 0, "no step, no sheen");
  SheenBand band;
  if (!chain_band(steps, count, &band, error)) return false;
  SheenExpectation e = { .basis = TRADE_RULE_OF_THUMB };
  if (steps[count - 1].cleared && shop_band(shop, &steps[count - 1], &band)) {
    e.from_shop = true;
    e.basis = (Basis){ TRADE_COMPUTED, "isotonic fit to the shop's own readings" };
  }
  double index = finish == SHEEN_GUARDED ? sheen_film_index : sheen_paste_index;
  if (!optics_gloss_ceiling(index, 60, &e.ceiling_gu, error)) return false;
  double high_gu = band.high_gu + gains[finish].high_gu;
  e.at_ceiling = high_gu > e.ceiling_gu;
  e.high_gu = fmin(high_gu, e.ceiling_gu);
  e.low_gu = fmin(band.low_gu + gains[finish].low_gu, e.ceiling_gu);
  *out = e;
  return true;
}
