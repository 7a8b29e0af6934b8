/* rational.h - exact fractions of 64 over 64 bits, and numbers that are exact as long as they fit.
 *
 * Every Rational is in lowest terms with denominator > 0 and |numerator| <= INT64_MAX. The rational_ functions that
 * return false do so because the result does not fit or because of a division by zero; *out is then untouched. */
#ifndef BASE_RATIONAL_H
#define BASE_RATIONAL_H

#include <stdbool.h>
#include <stdint.h>

typedef struct {
  int64_t numerator, denominator;
} Rational;

bool rational_make(int64_t numerator, int64_t denominator, Rational *out);
bool rational_add(Rational a, Rational b, Rational *out);
bool rational_multiply(Rational a, Rational b, Rational *out);
bool rational_divide(Rational a, Rational b, Rational *out);
int rational_compare(Rational a, Rational b); /* -1, 0, 1 */
double rational_value(Rational r);            /* nearest double */

/* The shortest decimal that reads back as this double, if it has at most 15 places: 0.1 is 1/10. */
bool rational_from(double value, Rational *out);

/* r * 10^places, rounded half-even to a whole number. places 0..18. */
bool rational_round(Rational r, int places, int64_t *out);

/* A number: the fraction while it fits, and the nearest double always. */
typedef struct {
  Rational fraction; /* only if exact */
  double value;
  bool exact;
} Number;

Number number_exact(Rational r);
Number number_from(double value); /* exact if rational_from is */
Number number_add(Number a, Number b);
Number number_subtract(Number a, Number b);
Number number_multiply(Number a, Number b);
Number number_divide(Number a, Number b); /* by zero: not finite */
Number number_negate(Number a);
int number_compare(Number a, Number b); /* -1, 0, 1 */

#endif
