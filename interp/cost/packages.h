/* packages.h - which packages to buy for a volume: the mix of least cost that covers it. */
#ifndef COST_PACKAGES_H
#define COST_PACKAGES_H

#include <stdbool.h>

#include "base/money.h"
#include "model/prices.h"

enum { PACKAGES_MOST = 16 }; /* sizes of one material; the rest are not looked at */

typedef struct {
  int count[PACKAGES_MOST]; /* of each MaterialPrice.packages */
  Money cost;
  double litres; /* bought */
  bool least;    /* proved to cost least; false only when the search ran into its limit */
} PackageMix;

typedef enum {
  PACKAGES_OK,
  PACKAGES_NONE_BY_VOLUME, /* sold by mass or by the piece only, or without a price */
  PACKAGES_TOO_MANY        /* the numbers do not fit */
} PackagesStatus;

/* Least cost, then fewest packages, then the first in the price book. Exact: a depth-first search that is cut by the
 * cost of the rest at the best price a litre. On error *mix is untouched. */
PackagesStatus packages_choose(const MaterialPrice *material, double litres, PackageMix *mix);

#endif
