/* price.h - a take-off times a price book: lines, direct cost, and how the price is made of them.
 *
 *   line     amount = quantity x rate, or share x base; half-even to cents
 *   direct   the sum of the lines: wages, call-out, standing, premiums, burden, machines, tools, materials, extras,
 *            taxes by what they are on
 *   cost     direct + overhead (share of direct) + contingency (share of direct and overhead, or what the job's
 *            risk takes for a certainty: cost/risk.h)
 *   price    cost + profit: markup = share x cost; margin: price = cost / (1 - margin); then up to a whole multiple
 *            where the book asks for that
 *
 * All of it is exact in integers, so that lines add up to totals to the cent. Nothing wraps: what does not fit is a
 * finding `cost-overflow` and leaves the sum. Everything lives in the arena. */
#ifndef COST_PRICE_H
#define COST_PRICE_H

#include <stdbool.h>
#include <stdint.h>

#include "base/arena.h"
#include "base/diag.h"
#include "base/money.h"
#include "cost/takeoff.h"

typedef enum {
  LINE_LABOUR, LINE_PREMIUM, LINE_BURDEN, LINE_MACHINE, LINE_TOOL, LINE_MATERIAL, LINE_EXTRA, LINE_TAX, /* direct */
  LINE_OVERHEAD, LINE_CONTINGENCY, LINE_PROFIT, LINE_ROUNDING, LINE_KINDS
} LineKind;

typedef struct {
  LineKind kind;
  const char *code;  /* "LAB-operator", "TOOL-resin 400" */
  const char *what;  /* "operator" */
  Amount quantity;   /* with two decimals at most; of a share: its base in money */
  const char *unit;  /* "h"; of a share: the currency */
  Money rate;        /* of a share: 0 */
  bool share;        /* a share of other lines: quantity is their money, share_ppm the part of it */
  int64_t share_ppm;
  unsigned on_kinds; /* of a share: bits of the LineKinds whose sum is its base; 0: the wage of some hours */
  Amount hours;      /* of such a one: those hours, and the line that has the wage */
  int rated;
  int sets;          /* of a tool: whole sets to bring */
  Money amount;
  const char *basis; /* one line: where the quantity comes from */
  Why why;           /* of the amount */
  Span at;           /* the price */
  Behind behind;
} CostLine;

typedef struct {
  const char *currency;
  CostLine *lines; /* direct cost, in the order of LineKind */
  int line_count;
  CostLine *build; /* overhead, contingency, profit, rounding: those that the price book gives */
  int build_count;
  Money direct, planned, cost, price; /* planned: direct and overhead, what contingency goes on */
  Money kind_total[LINE_KINDS];
  ProfitRule profit_rule;
  double standing_h; /* person-hours between booked work of a shift; only STAND lines charge any */
  int good_until; /* the last day of work at these prices, since 1970-01-01; 0: not said */
  bool complete; /* false: something used could not be priced, so `price` is not a bid */
  Why planned_why;
  Why why;       /* of the price */
} Cost;

extern const char *const line_kind_names[LINE_KINDS]; /* "labour", "premium", ... as in the JSON */

/* NULL, and `prices-missing`, when the job names no price book. Other findings: `price-missing` and `price-unit` at
 * the crew, machine or step without a usable price, `price-currency`, `profit-margin`, `risk-nothing` and
 * `risk-schedule` where a contingency from risk cannot be had, `cost-overflow`, and `price-stale`, a warning.
 * `threads` share a simulation; the figures are the same for any number of them. */
Cost *cost_price(const Takeoff *takeoff, int threads, Arena *arena, WhyBook *why, Diags *diags);

/* The direct cost alone: `planned`, `cost` and `price` stay 0. */
Cost *cost_direct(const Takeoff *takeoff, Arena *arena, WhyBook *why, Diags *diags);

#endif
