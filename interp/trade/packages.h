/* packages.h - the cheapest whole packages that cover a need.
 *
 * Exact: among all mixes that hold at least the need, the lowest price; of those the least left over; of those the
 * fewest packages; a tie beyond that always falls the same way. Amounts may be in any one unit (L, kg, m). */
#ifndef TRADE_PACKAGES_H
#define TRADE_PACKAGES_H

#include <stdint.h>

#include "trade/trade.h"

enum { PACKAGE_SIZES = 8 };

typedef struct {
  double holds;  /* 1e-6..1e6 */
  int64_t price; /* smallest money unit; 0..1e10 */
} PackageSize;

typedef struct {
  int count[PACKAGE_SIZES]; /* of each size, in the order given */
  int packages;
  int64_t price;
  int64_t least_price; /* no mix costs less; the price itself once the search has settled the matter */
  double left_over;
} PackageMix;

/* 1..PACKAGE_SIZES sizes; need above 0, at most 1e6, and at most 100,000 of any one package. Amounts are compared
 * at a billionth of the unit, so 5 x 1 gal is exactly a 5 gal pail. Many odd sizes at one price a litre can take
 * too long to settle to the last cent: after 200,000 mixes the best so far is the answer, with least_price below
 * its price. */
bool packages_cover(double need, const PackageSize *sizes, int size_count, PackageMix *out, TradeError *error);

extern const TradeFormula packages_formulas[];

#endif
