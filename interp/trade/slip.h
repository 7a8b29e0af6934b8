/* slip.h - least dynamic coefficient of friction by use of the floor.
 *
 * ANSI A326.3 (2022) has five categories of use with least values from 0.42 to 0.55 (confirmed by a slip-testing
 * firm; the single values from memory). 0.42 wet for level interior floors is also A137.1 (2012), confirmed. The
 * standard itself says that a reading does not predict slips. */
#ifndef TRADE_SLIP_H
#define TRADE_SLIP_H

#include "trade/trade.h"

typedef struct {
  const char *id;   /* "interior wet" */
  const char *mark; /* "IW" */
  bool is_wet;      /* how the reading is taken */
  double least_dcof;
  const char *edition;
  Basis basis;
} SlipCategory;

const SlipCategory *slip_category_at(size_t index); /* NULL past the last */
bool slip_category(const char *id, const SlipCategory **out, TradeError *error);

/* A reading of 0..2 taken wet or dry; a dry reading for a wet category is refused with TRADE_NO_ANSWER. */
bool slip_check(const SlipCategory *category, double dcof, bool taken_wet, bool *holds, TradeError *error);

extern const TradeFormula slip_formulas[];

#endif
