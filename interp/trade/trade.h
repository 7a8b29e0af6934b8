/* trade.h - what all functions of the trade library share: refusals, sources, and the register of formulas.
 *
 * A function of this library looks like
 *
 *     bool climate_dew_point(double air_c, double rh, double *dew_c, TradeError *error);
 *
 * It is pure: plain values in, plain values out, no memory kept, no clock, no locale. It answers true and sets its
 * outputs, or answers false, fills *error (which may be NULL) and leaves its outputs untouched. Nothing is clamped
 * in silence: an input outside the range that the header states is refused, and so is one that is not a finite
 * number. Units ride in the names: _um _mm _m _m2 _m_min _s _min _h _c _kpa; a name without a unit is a plain
 * number. */
#ifndef TRADE_TRADE_H
#define TRADE_TRADE_H

#include <stdbool.h>
#include <stddef.h>

typedef enum {
  TRADE_OK,
  TRADE_NOT_FINITE,   /* an input is a NaN or infinite */
  TRADE_OUT_OF_RANGE, /* an input is outside the range of the formula */
  TRADE_UNKNOWN,      /* a name, a grade, a class that no table has */
  TRADE_AMBIGUOUS,    /* a name that means different things in different systems or editions */
  TRADE_DEGENERATE,   /* an outline without area, a profile that crosses itself, a spread of zero */
  TRADE_TOO_FEW,      /* not enough readings for the statistic */
  TRADE_NO_ANSWER     /* the inputs are each fine, but no result satisfies them together */
} TradeStatus;

typedef struct {
  TradeStatus status;
  const char *argument;    /* the input at fault, by its name: "head_m"; never NULL once an error is set */
  double value, low, high; /* what it was and what it may be; low and high are infinite where there is no limit */
  char message[160];       /* "head_m is -0.2, must be above 0" */
} TradeError;

/* v is finite and low <= v <= high; else fills *error and answers false. Either limit may be infinite. */
bool trade_in_range(TradeError *error, const char *name, double v, double low, double high);
/* v is finite and above 0. */
bool trade_positive(TradeError *error, const char *name, double v);
/* Fills *error with any other refusal and answers false, so that `return trade_refuse(...)` reads well. */
bool trade_refuse(TradeError *error, TradeStatus status, const char *argument, double value, const char *format,
                  ...) __attribute__((format(printf, 5, 6)));

const char *trade_status_name(TradeStatus status); /* "out of range" */

/* How sure a fact is, and who says so. */
typedef enum {
  TRADE_CONFIRMED,       /* the figure, or the formula and its inputs, was seen in a published source */
  TRADE_FROM_MEMORY,     /* known from the cited standard or handbook, not seen again: check before relying on it */
  TRADE_COMMON_PRACTICE, /* a rule of thumb of the trade, no source: a default or a sanity bound, never a refusal */
  TRADE_COMPUTED         /* arithmetic from the formula beside it */
} BasisStatus;

typedef struct {
  BasisStatus status;
  const char *source;
} Basis;

const char *basis_status_name(BasisStatus status); /* "common practice" */

/* The basis of a rule of thumb, for the tables. */
#define TRADE_RULE_OF_THUMB { TRADE_COMMON_PRACTICE, "common practice, no source" }

/* One formula, so that a result can explain itself and the documentation can be printed from the tables. */
typedef struct {
  const char *id;   /* "coverage.lanes": module, then a word */
  const char *says; /* the formula as one line: "lanes = ceil((width - overlap) / (head - overlap))" */
  Basis basis;
  const char *doc; /* one paragraph: what it gives, units, valid range */
} TradeFormula;

/* Each module has one table, `MODULE_formulas`, ending in a row whose id is NULL, and one row in trade.c. */
const TradeFormula *trade_formula(const char *id); /* NULL if there is none */
const TradeFormula *trade_formula_at(size_t index); /* all of them in a fixed order; NULL past the last */

#endif
