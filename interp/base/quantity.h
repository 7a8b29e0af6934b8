/* quantity.h - values with a unit, a dimension and a kind.
 *
 * A quantity is a number in the coherent SI unit of its dimension plus the unit it was written in. The number is an
 * exact rational where the definition of the unit is exact and the figures fit 64 bits over 64 bits; otherwise it
 * is the nearest double and `exact` is false. Two quantities add only if dimension and kind agree: a spread rate is
 * not a length, a temperature is not a temperature difference, a pail is not a bag.
 *
 * Factors: NIST SP 811 (2008), Appendix B; US survey units are not used. */
#ifndef BASE_QUANTITY_H
#define BASE_QUANTITY_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/buf.h"

/* Exponents of the base dimensions. Money and counts are base dimensions of their own. */
typedef enum { DIM_LENGTH, DIM_MASS, DIM_TIME, DIM_CURRENT, DIM_TEMPERATURE, DIM_MONEY, DIM_COUNT, DIM_BASES } DimBase;
typedef struct {
  int8_t power[DIM_BASES];
} Dimension;

/* What a quantity is of: same dimension, different thing. The table in kinds.c says name, dimension and preferred
 * display units (US customary, metric) of each; units.c holds the units. */
typedef enum {
  KIND_NONE,           /* a plain number or a product with no kind of its own */
  KIND_LENGTH,
  KIND_FILM,           /* wet or dry film thickness: mil, um */
  KIND_GRAIN,          /* abrasive grain size, scratch depth, roughness: um, microinch */
  KIND_AREA,
  KIND_VOLUME,
  KIND_MASS,
  KIND_TIME,           /* on the clock */
  KIND_LABOUR,         /* person-hours: "3 person-h" */
  KIND_MACHINE_TIME,   /* machine-hours */
  KIND_SPEED,          /* travel: ft/min, m/min, mph */
  KIND_ROTATION,       /* rpm */
  KIND_PRODUCTION,     /* area per time: sqft/h, m2/h */
  KIND_SPREAD,         /* area per volume: sqft/gal, m2/L */
  KIND_FLOW,           /* volume per time: gal/min, cfm, L/s, m3/h */
  KIND_TEMPERATURE,    /* a point on a scale: 18 C, 70 F, 291 K */
  KIND_TEMPERATURE_DIFFERENCE, /* "3 delta C", "5 delta F" or point - point */
  KIND_FRACTION,       /* 80 %, 0.8, 250 ppm */
  KIND_SOUND,          /* dBA: no arithmetic */
  KIND_GLOSS,          /* GU */
  KIND_PRESSURE,
  KIND_FORCE,
  KIND_POWER,
  KIND_ENERGY,
  KIND_VOLTAGE,
  KIND_CURRENT,
  KIND_RESISTANCE,
  KIND_DENSITY,
  KIND_ACCELERATION,   /* vibration, m/s2 */
  KIND_EVAPORATION,    /* mass per area and time: lb/ft2/h, kg/m2/h */
  KIND_CONCENTRATION,  /* mass per volume of air: mg/m3, ug/m3 */
  KIND_MONEY,
  KIND_PAY_RATE,       /* money per clock, person or machine time: $62/h */
  KIND_PRICE_PER_AREA,
  KIND_PRICE_PER_LENGTH,
  KIND_PRICE_PER_VOLUME,
  KIND_PRICE_PER_MASS,
  KIND_PRICE_PER_COUNT, /* $/pail; the counted thing is in `thing` */
  KIND_COUNT,          /* of a nominal thing: pail, bag, pad, set, reading, person, shift */
  KIND_COUNT_PER_AREA, /* readings: "1 per 500 sqft" */
  KIND_AREA_PER_COUNT, /* tool life: "9000 sqft/set" */
  KIND_VOLUME_PER_COUNT, /* "5 gal/pail" */
  KIND_MASS_PER_COUNT,
  KIND_LENGTH_PER_COUNT,
  KIND_COUNT_LAST
} Kind;

typedef struct {
  int64_t numerator, denominator; /* in coherent SI; denominator > 0; only if exact */
  double value;                   /* always set: coherent SI, kelvin for temperatures, major units for money */
  bool exact;
  Dimension dimension;
  Kind kind;
  uint16_t thing;    /* nominal counted thing, 0 for none; see quantity_thing_name */
  char currency[4];  /* ISO 4217, "" unless money is in it */
  char unit[40];     /* as written, normalised: "sqft/gal"; used to print it back */
} Quantity;

/* How a text may be read. In a metric document a bare "gal" is refused, in any document "oz", "ton" and the
 * like. */
typedef struct {
  bool metric;
  const char *currency; /* what a bare "$" means; NULL or "" for USD */
} UnitRules;

typedef struct {
  char message[200]; /* what is wrong: "`oz` is ambiguous" */
  char note[200];    /* both operands and their dimensions, one below the other; "" if that adds nothing */
  char help[200];    /* what would be right: "write `fl oz` (volume) or `oz av` (mass)"; "" if nothing is known */
  size_t begin, end; /* bytes of the text that are at fault */
} QuantityError;

/* Reads "1 1/2 in", "12' 6\"", "400 sqft/gal", "$62/h", "1 h 30 min", "1 per 500 sqft", "-4 F", "2,000 sqft". */
bool quantity_read(const char *text, size_t length, UnitRules rules, Quantity *out, QuantityError *error);

/* A plain number; a number given in a unit ("ft/min"). The second asserts that the unit exists. */
Quantity quantity_number(double value);
Quantity quantity_of(double value, const char *unit);

/* Value in another unit of the same dimension and kind; false (and an error) if it does not convert. */
bool quantity_in(const Quantity *q, const char *unit, double *out, QuantityError *error);

/* Arithmetic. On false *error names both operands with unit, dimension and kind; *out is untouched. */
bool quantity_add(const Quantity *a, const Quantity *b, Quantity *out, QuantityError *error);
bool quantity_subtract(const Quantity *a, const Quantity *b, Quantity *out, QuantityError *error);
bool quantity_multiply(const Quantity *a, const Quantity *b, Quantity *out, QuantityError *error);
bool quantity_divide(const Quantity *a, const Quantity *b, Quantity *out, QuantityError *error);
bool quantity_compare(const Quantity *a, const Quantity *b, int *out, QuantityError *error); /* -1, 0, 1 */

/* The same value under another kind of the same dimension, by an explicit request only (a film of 3 mil as a
 * length). */
bool quantity_as(const Quantity *q, Kind kind, Quantity *out, QuantityError *error);

/* Does q fit a field of this kind? If not, the error says what was expected, with three legal spellings, and the
 * nearest legal form where one is certain (the inverse, a missing unit). */
bool quantity_fits(const Quantity *q, Kind kind, QuantityError *error);

const char *kind_name(Kind kind);          /* "spread rate" */
bool kind_find(const char *name, Kind *out);
const char *kind_example(Kind kind, int which); /* three legal spellings, which 0..2 */
const char *quantity_thing_name(uint16_t thing, bool plural);
void dimension_print(Dimension d, Buf *out); /* "length^2 time^-1" */

/* As written: number and unit, shortest exact decimal up to 6 places. */
void quantity_print(const Quantity *q, Buf *out);

typedef enum { UNITS_US, UNITS_METRIC } UnitSystem;
/* In the preferred unit of its kind for that system, rounded to `digits` significant figures (0: the kind's
 * own). */
void quantity_display(const Quantity *q, UnitSystem system, int digits, Buf *out);
const char *kind_unit(Kind kind, UnitSystem system); /* "sqft", "m2/L" */

#endif
