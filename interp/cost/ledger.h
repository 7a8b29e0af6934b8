/* ledger.h - inside pricing: lines as they are written down, and what goes wrong on the way. */
#ifndef COST_LEDGER_H
#define COST_LEDGER_H

#include "cost/price.h"

typedef struct {
  const Takeoff *takeoff;
  const Job *job;
  const Prices *prices;
  Arena *arena;
  WhyBook *why;
  Diags *diags;
  Cost *cost;
  int line_room;
  int threads; /* that a simulation may run */
} Ledger;

/* A line of quantity x rate; what it is, its unit, basis and activities are `line`'s. The quantity is rounded
 * half-even to two decimals; one that rounds to nothing still makes a line. False, and a finding, if it does not
 * fit. */
bool ledger_add(Ledger *l, CostLine line, Figure quantity, const Rate *rate);

/* A line that is a share of `base`, which is the inputs' total (or, wages of some hours, their product). */
typedef enum { BASE_TOTAL, BASE_PRODUCT } LedgerBase;
bool ledger_add_share(Ledger *l, CostLine line, Money base, LedgerBase made_of, const Why *inputs, int input_count,
                      const Percent *share);

/* A line that is one sum for the whole job, worked out from `terms`. */
bool ledger_add_sum(Ledger *l, CostLine line, Money amount, const char *formula, WhySum sum, const Figure *terms,
                    int count);

bool ledger_adds(const Percent *share); /* given, and not nothing */

/* A price is used: the finding that it does not hold on the days of the job, if so. What is bought is bought
 * before the job starts; all else is paid to its end. */
typedef enum { PRICE_BOUGHT, PRICE_PAID_ON } PriceUse;
void ledger_use_price(Ledger *l, const char *what, PriceUse use, const PriceDays *days, Span at);

/* The finding that `name`, a thing of this sort ("crew"), has no price, with the near ones of the book. */
void ledger_missing(Ledger *l, const char *sort, const char *name, Span at, const char *const *known,
                    int known_count);
void ledger_overflow(Ledger *l, const char *code, Span at);

/* The figure of a node. */
Figure ledger_figure(const Ledger *l, Why why);

/* A value found by search, such as a mix of packages; worked out again, it goes in proportion to what it is for. */
Figure ledger_in_proportion(const Ledger *l, const char *what, const char *unit, const char *formula, double value,
                            Figure to);

/* The why nodes of the lines of a kind, into `out`; how many. */
int ledger_whys(const Ledger *l, LineKind kind, Why *out);

/* What the files price_*.c add. */
void price_labour(Ledger *l);
void price_machines(Ledger *l);
void price_tools(Ledger *l);
void price_materials(Ledger *l);
void price_extras(Ledger *l);
void price_taxes(Ledger *l);

/* The line of a contingency for a certainty, by a simulation of what the cost has come to; its node, 0 if it cannot
 * be had. */
Why price_contingency(Ledger *l, const char *code, const char *what);

/* The line that takes the price up to a whole multiple of `to`. */
void ledger_round_up(Ledger *l, const Rate *to, Why price);

#endif
