/* quantity_parts.h - what the quantity_*.c files share: number, unit and text of a quantity. */
#ifndef BASE_QUANTITY_PARTS_H
#define BASE_QUANTITY_PARTS_H

#include "base/quantity.h"
#include "base/rational.h"
#include "base/units.h"

enum { QUANTITY_TEXT = 96 };

Number quantity_get(const Quantity *q); /* in coherent SI */
void quantity_set(Quantity *q, Number number);

/* A quantity of `amount` in a unit. */
Quantity quantity_from(Number amount, const Compound *unit);
/* The unit a quantity was written in. */
Compound quantity_unit(const Quantity *q);
/* The system of that unit; if it is at home in both, what its currency suggests. */
UnitSystem quantity_system(const Quantity *q);
/* Its amount in any unit of the same dimension. */
Number quantity_amount(const Quantity *q, const Compound *unit);

/* A unit of the kind: kinds.c's text with the counted thing for `each` and the currency for `$`;
 * a currency that q->unit already writes as `$` stays so. */
void quantity_set_unit(Quantity *q, const char *pattern);
/* The coherent SI unit of the dimension: "kg*m2/s3". */
void quantity_set_si_unit(Quantity *q);

/* "450 sqft/gal (spread rate)" into a text of QUANTITY_TEXT bytes, cut if it must be; returns the text. */
const char *quantity_describe(const Quantity *q, char *text);

/* Fills in note and help for two operands that do not go together; returns false. */
bool quantity_explain(const Quantity *a, const Quantity *b, QuantityError *error);

#endif
