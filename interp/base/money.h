/* money.h - exact amounts. An amount is an integer of 1/10,000 of a major unit (dollar, euro) in one currency a
 * job; line items are rounded half-even to minor units (cents). Overflow is refused, never wrapped. */
#ifndef BASE_MONEY_H
#define BASE_MONEY_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/buf.h"

typedef int64_t Money; /* 1/10,000 of a major unit */
enum { MONEY_SCALE = 10000, MONEY_CENT = 100 };

/* A count with four decimals, exact: 2.5 is 25000. Quantities enter a price only in this form, so that what is
 * printed is what was multiplied. */
typedef int64_t Amount;
enum { AMOUNT_SCALE = 10000 };

/* All of these return false, and leave *out as it was, when the result does not fit. */

/* Rounds the exact value of the double half-even to 0..4 decimals; false if it is not finite. */
bool amount_from(double value, int decimals, Amount *out);
bool money_add(Money a, Money b, Money *out);
bool money_times(Money rate, Amount quantity, Money *out);              /* rounded half-even to cents */
bool money_fraction(Money base, int64_t parts_per_million, Money *out); /* rounded half-even to cents */
/* price = cost / (1 - margin), rounded half-even to cents; false when margin >= 1. */
bool money_for_margin(Money cost, int64_t margin_ppm, Money *out);
/* Splits total by weights so that the parts add up to it exactly: largest remainder, first index wins a tie.
 * The parts are whole cents if the total is. False if every weight is zero, or one is negative or not finite. */
bool money_split(Money total, const double *weights, size_t count, Money *parts);

/* "1,234.50" (cents shown; 4 decimals when they are not zero), with the currency's sign in front: "$1,234.50".
 * An unknown currency is printed as "1,234.50 XYZ", none (NULL or "") as "1,234.50". */
void money_print(Money value, const char *currency, Buf *out);

#endif
