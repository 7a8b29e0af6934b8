/* sheen.h - the gloss to expect after a step, from the trade's bands or from the shop's own readings.
 *
 * Bands of 60 degree gloss by last completed step, no guard, medium slab: common practice, no source. Between the
 * grits of the bands both ends run straight over the logarithm of the grit number. An expectation is never a
 * measurement, and none of this says what one slab will read: read a mock-up.
 *
 * Shop readings are fitted by isotonic regression (pool adjacent violators: the least squares fit among curves that
 * never fall), since gloss may not drop as the grit gets finer. */
#ifndef TRADE_SHEEN_H
#define TRADE_SHEEN_H

#include "trade/bond.h"

typedef struct {
  double low_gu, high_gu;
} SheenBand;

/* Index of concrete paste for the ceiling, 1.50 to 1.60; from memory. The guard film is 1.50. */
extern const double sheen_paste_index, sheen_film_index;

/* The trade's band for a last step. Grits: metal and transitional 16 to 300, resin 50 to 3000, fibre 400 to 3000;
 * else refused as "grit"; a scraper as "bond". */
bool sheen_band(BondFamily bond, double grit, SheenBand *out, TradeError *error);

/* Non-decreasing weighted least squares fit of y[0..count) in place order. weights > 0 (NULL: all 1); fit may be y.
 * Refuses an empty series and values that are not finite. */
bool sheen_monotone(const double *y, const double *weights, size_t count, double *fit, TradeError *error);

typedef struct {
  double grit;     /* of the last step, a pad number (grit_as_pad), resin or fibre */
  double gloss_gu; /* at 60 degrees */
} SheenReading;

enum { SHEEN_KNOTS_MAX = 32 };

typedef struct {
  size_t count, readings;
  double grit[SHEEN_KNOTS_MAX], gloss_gu[SHEEN_KNOTS_MAX];
  double spread_gu; /* standard deviation of the readings about the curve; 0 until there are more than grits */
} SheenCurve;

/* The shop's curve. Readings in any order; each grit weighs by how many it has. Errors: "readings" (none),
 * "grits" (over SHEEN_KNOTS_MAX), "grit" (not above 0), "gloss_gu" (outside 0 to 1000). */
bool sheen_calibrate(const SheenReading *readings, size_t count, SheenCurve *out, TradeError *error);

/* Gloss on the curve, straight over log grit between its grits; refused outside them as "grit". */
bool sheen_curve_at(const SheenCurve *curve, double grit, double *gloss_gu, TradeError *error);

typedef struct {
  BondFamily bond;
  double grit;  /* pad number; grit_as_pad for other systems */
  bool cleared; /* it took out the scratch before it: enough passes and no skipped grit */
} SheenStep;

typedef enum {
  SHEEN_BARE,      /* as the last abrasive leaves it */
  SHEEN_BURNISHED, /* burnished dry with the finest pad */
  SHEEN_GUARDED    /* guard, burnished */
} SheenFinish;

typedef struct {
  double low_gu, high_gu;
  double ceiling_gu; /* what a perfectly smooth surface of that index would read */
  bool at_ceiling;   /* high_gu was cut down to it */
  bool from_shop;    /* the shop's curve was used, not the trade's bands */
  Basis basis;
} SheenExpectation;

/* What to expect after the chain. A step that did not clear its predecessor can read as low as that one. With a
 * shop curve that covers the last step the band is the curve less and plus twice its spread, else the trade's.
 * Burnishing and guard add 5 to 20 (common practice, a figure for both together). Errors: "steps" (none), those of
 * sheen_band. */
bool sheen_expect(const SheenStep *steps, size_t count, SheenFinish finish, const SheenCurve *shop,
                  SheenExpectation *out, TradeError *error);

extern const TradeFormula sheen_formulas[];

#endif
