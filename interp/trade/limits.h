/* limits.h - published limits as data, each with its edition, so that a change of a standard is a change of a row.
 *
 * A limit says what a value may be: low..high, an open end infinite. The ends themselves are allowed unless
 * `strict` is set, as for action levels, which ask for action at the level itself. Meeting a limit is not the same
 * as being safe: product data sheets, local codes and licensed practice come first. */
#ifndef TRADE_LIMITS_H
#define TRADE_LIMITS_H

#include "trade/trade.h"

typedef struct {
  const char *id;   /* "co.twa.osha": what it is on, which figure, who says so */
  const char *says; /* "carbon monoxide, 8 h average" */
  double low, high;
  bool strict;      /* the ends are not allowed */
  const char *unit; /* "degC", "fraction", "ppm", ... */
  const char *edition;
  Basis basis;
} Limit;

const Limit *limit_at(size_t index); /* all rows in a fixed order; NULL past the last */
bool limit_find(const char *id, const Limit **out, TradeError *error);
/* Does `value`, in the row's unit, keep to it? Refuses only a value that is not finite. */
bool limit_holds(const Limit *limit, double value, bool *holds, TradeError *error);

#endif
