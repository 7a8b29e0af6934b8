/* native_trade.h - the trade library as scripts see it: one row and one small wrapper a function.
 *
 * A row says what a script gives and what it gets back. From it come the checks of core/trade.lua, the entry of the
 * manual and the example that the manual runs. The wrapper hands what was given, in the units that the row names,
 * to the core; it reckons nothing itself. To add a function, add both in the file of its subject. */
#ifndef LANG_NATIVE_TRADE_H
#define LANG_NATIVE_TRADE_H

#include <stdbool.h>
#include <stddef.h>

#include "trade/trade.h"

enum { TRADE_ROWS_MOST = 1000, TRADE_WORDS_MOST = 8 };

typedef struct TradeInput TradeInput;
struct TradeInput {
  const char *name;      /* as a script writes it: "air"; NULL ends a list of them */
  const char *kind;      /* of a quantity; "number", "whole", "flag", "text", "grit", "list"; words: "wet|dry" */
  const char *unit;      /* in which the core takes it; a label for a plain number */
  const char *example;   /* as a script writes it; of a list: its rows, `;` between them, `,` between their cells */
  const char *says;
  const char *core;      /* what the core's refusals call it, where that does not begin with `name` */
  const char *otherwise; /* the default, as a script would write it, and where it is from */
  const char *basis;
  bool may_lack;         /* may be left out, and nothing stands for it */
  const char *(*word)(size_t index); /* kind "word": the names of a table of the core; NULL past the last */
  const TradeInput *columns;         /* of a list; one column without a name is a list of plain values */
};

typedef struct {
  const char *name; /* NULL ends a list of them */
  const char *kind; /* of a quantity, or "number", "whole", "flag", "text", "texts" */
  const char *unit; /* in which the core gives it; a label for a plain number */
  bool is_list;     /* of numbers of this kind */
  bool keeps_unit;  /* told in `unit` whatever the script writes in */
  const char *us;   /* told in this unit where the script writes in US units; NULL: the usual one of its kind */
} TradeOutput;

/* What a script gave for an input. */
typedef struct Given Given;
struct Given {
  double x;         /* number, quantity in the row's unit, flag 0 or 1, number of the word */
  const char *text; /* of a grit or text */
  bool lacks;
  const Given *cells; /* of a list: row after row */
  size_t count;       /* rows, at most TRADE_ROWS_MOST */
};

/* What a wrapper leaves for an output. Begins as nothing: `x` is not a number, the others are empty. */
typedef struct {
  double x;
  const char *text;
  double *cells; /* of a list: room for TRADE_ROWS_MOST */
  size_t count;
  const char *words[TRADE_WORDS_MOST];
  Basis basis; /* of the first output, where the answer has one of its own; else its source is NULL */
} Answer;

typedef struct {
  const char *name; /* "climate.dew_point"; NULL ends a table */
  bool (*call)(const Given *in, Answer *out, TradeError *error);
  const char *says;    /* of a table of the core, which has no formula */
  const char *formula; /* in the register, where its id is not the name */
  const TradeInput *in;
  const TradeOutput *out; /* the first is the result's `value` */
} TradeRow;

#define INPUTS(...) (const TradeInput[]) { __VA_ARGS__, { .name = NULL } }
#define OUTPUTS(...) (const TradeOutput[]) { __VA_ARGS__, { .name = NULL } }
#define COLUMNS(...) .kind = "list", .columns = INPUTS(__VA_ARGS__)

extern const TradeRow native_trade_abrasive[], native_trade_floor[], native_trade_slab[], native_trade_light[],
  native_trade_liquid[], native_trade_people[], native_trade_air[], native_trade_power[];

/* All rows in a fixed order; NULL past the last. */
const TradeRow *native_trade_at(size_t index);

/* ---- for wrappers */

/* The number of the word that a choice was given as, where an enum's values are in the order of the words. */
#define GIVEN_ENUM(type, given) ((type)(int)(given).x)

int given_whole(Given given); /* a whole number; far outside every range where it is too large for an int */
/* The values of a list of plain values. Returns how many; `out` has room for TRADE_ROWS_MOST. */
size_t given_numbers(const Given *list, double *out);

#endif
