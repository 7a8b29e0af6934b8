/* units.h - the tables of units, counted things and currencies, and the reading of a unit text such as "sqft/gal".
 *
 * For the quantity_*.c files; others use quantity.h. A new unit is one row in units.c, its definition made of rows
 * above it, and one line in docs/units.md, which a test holds against the table. */
#ifndef BASE_UNITS_H
#define BASE_UNITS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/quantity.h"
#include "base/quantity_scan.h"
#include "base/rational.h"

/* Where a unit is at home. A US_ONLY name is another measure elsewhere: metric documents must not use it. */
typedef enum { HOME_ANY, HOME_METRIC, HOME_US, HOME_US_ONLY } UnitHome;

typedef struct {
  const char *name;   /* as printed */
  const char *also;   /* other spellings, comma-separated */
  Kind kind;          /* of a value in this unit alone */
  UnitHome home;
  const char *is;     /* exact definition by rows above: "231 in3"; "" for a coherent SI unit */
  const char *source;
} UnitRow;

typedef struct {
  const UnitRow *row;
  Rational factor; /* to coherent SI */
  Rational shift;  /* of a temperature scale, in its own degrees: kelvin = (x + shift) * factor */
  Dimension dimension;
} Unit;

typedef struct {
  const char *name, *plural, *also;
} ThingRow;

typedef struct {
  const char *code, *sign, *also; /* sign: "" if it has none of its own */
} CurrencyRow;

/* A spelling that people use for several things: never read, always answered with choices. */
typedef struct {
  const char *spellings, *choices;
} AmbiguousRow;

extern const UnitRow unit_rows[];
extern const size_t unit_count;
extern const ThingRow thing_rows[];
extern const size_t thing_count;
extern const CurrencyRow currency_rows[];
extern const size_t currency_count;
extern const AmbiguousRow ambiguous_rows[];
extern const size_t ambiguous_count;

/* What a spelling stands for; `row` indexes the table of that sort, for WORD_UNIT by unit_get. */
typedef enum { WORD_UNKNOWN, WORD_UNIT, WORD_THING, WORD_CURRENCY, WORD_DOLLAR, WORD_AMBIGUOUS } WordSort;
typedef struct {
  WordSort sort;
  uint16_t row;
} Word;

Word unit_find(const char *spelling, size_t length);
const Unit *unit_get(uint16_t row);
/* Is it a count for each of something ("per area")? Such counts scale, but enter no products. */
bool thing_is_frequency(uint16_t thing);
/* "did you mean `kg`?" for a spelling that is not known, "" if no name is near. `room` bytes. */
void unit_suggest(const char *spelling, char *help, size_t room);

/* A unit text that was read: what "sqft/gal" comes to. */
typedef struct {
  Number factor; /* to coherent SI */
  Rational shift;
  bool is_point; /* a temperature on a scale: uses shift */
  bool is_us, is_metric; /* some unit in it is at home there */
  Dimension dimension;
  Kind kind;
  uint16_t thing;
  char currency[4];
  char name[sizeof ((Quantity *)0)->unit]; /* normalised: "sqft/gal" */
} Compound;

/* Reads "sqft / gal", "per 500 sqft", "lb/ft2/h" up to the end or to the number of a further part ("12 ft 6 in").
 * *out holds what was read before: compound_plain(), or money. */
bool unit_scan(Scan *scan, Compound *out);
Compound compound_plain(void);
/* Takes a currency in front of the number: "$62", "EUR 55". False if there is none (no error) or it is refused. */
bool unit_scan_currency(Scan *scan, Compound *out);
/* Makes it an amount of this currency; `sign` is how it was written, "$" or "EUR". */
void compound_money(Compound *out, const char *code, const char *sign);

bool unit_read(const char *text, UnitRules rules, Compound *out, QuantityError *error);
/* A unit text that is known to be right. */
Compound unit_known(const char *text);

#endif
