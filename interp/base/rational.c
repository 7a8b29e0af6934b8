/* rational.c - fractions in lowest terms; a product is reduced crosswise before it is formed. */
#include "base/rational.h"

#include <math.h>

__extension__ typedef __int128 Wide;

static const int64_t ten_to[] = {
  1, 10, 100, 1000, 10000, 100000, 1000000, 10000000, 100000000, 1000000000, 10000000000, 100000000000,
  1000000000000, 10000000000000, 100000000000000, 1000000000000000, 10000000000000000, 100000000000000000,
  1000000000000000000
};

/* Stein's algorithm; gcd(0, b) is b. */
static uint64_t gcd(uint64_t a, uint64_t b)
{
  if (!a || !b) return a | b;
  int shift = __builtin_ctzll(a | b);
  a >>= __builtin_ctzll(a);
  while (b) {
    b >>= __builtin_ctzll(b);
    if (a > b) {
      uint64_t swap = a;
      a = b;
      b = swap;
    }
    b -= a;
  }
  return a << shift;
}

static uint64_t magnitude(int64_t n) { return n < 0 ? -(uint64_t)n : (uint64_t)n; }

static bool fits(Wide n) { return n >= -(Wide)INT64_MAX && n <= (Wide)INT64_MAX; }

bool rational_make(int64_t numerator, int64_t denominator, Rational *out)
{
  if (denominator == 0 || numerator == INT64_MIN || denominator == INT64_MIN) return false;
  int64_t common = (int64_t)gcd(magnitude(numerator), magnitude(denominator));
  if (denominator < 0) common = -common;
  *out = (Rational){ numerator / common, denominator / common };
  return true;
}

static Wide wide_gcd(Wide a, Wide b)
{
  while (b) {
    Wide rest = a % b;
    a = b;
    b = rest;
  }
  return a < 0 ? -a : a;
}

bool rational_add(Rational a, Rational b, Rational *out)
{
  Wide n = (Wide)a.numerator * b.denominator + (Wide)b.numerator * a.denominator;
  Wide d = (Wide)a.denominator * b.denominator;
  if (!fits(n) || !fits(d)) {
    Wide common = wide_gcd(n, d);
    n /= common;
    d /= common;
  }
  if (!fits(n) || !fits(d)) return false;
  return rational_make((int64_t)n, (int64_t)d, out);
}

bool rational_multiply(Rational a, Rational b, Rational *out)
{
  int64_t left = (int64_t)gcd(magnitude(a.numerator), (uint64_t)b.denominator);
  int64_t right = (int64_t)gcd(magnitude(b.numerator), (uint64_t)a.denominator);
  Wide n = (Wide)(a.numerator / left) * (b.numerator / right);
  Wide d = (Wide)(a.denominator / right) * (b.denominator / left);
  if (!fits(n) || !fits(d)) return false;
  *out = (Rational){ (int64_t)n, (int64_t)d };
  return true;
}

bool rational_divide(Rational a, Rational b, Rational *out)
{
  if (b.numerator == 0) return false;
  Rational inverse = { b.denominator, b.numerator };
  if (inverse.denominator < 0) inverse = (Rational){ -b.denominator, -b.numerator };
  return rational_multiply(a, inverse, out);
}

int rational_compare(Rational a, Rational b)
{
  Wide left = (Wide)a.numerator * b.denominator, right = (Wide)b.numerator * a.denominator;
  return (left > right) - (left < right);
}

double rational_value(Rational r) { return (double)((long double)r.numerator / (long double)r.denominator); }

bool rational_from(double value, Rational *out)
{
  const double most = 9007199254740992.0; /* 2^53: whole doubles below it are exact */
  for (int places = 0; places <= 15; places++) {
    double scaled = value * (double)ten_to[places];
    if (!(fabs(scaled) < most)) return false;
    double whole = rint(scaled);
    if (whole / (double)ten_to[places] == value) return rational_make((int64_t)whole, ten_to[places], out);
  }
  return false;
}

bool rational_round(Rational r, int places, int64_t *out)
{
  Wide scaled = (Wide)r.numerator * ten_to[places];
  Wide whole = scaled / r.denominator, rest = scaled % r.denominator;
  Wide twice = 2 * (rest < 0 ? -rest : rest);
  if (twice > r.denominator || (twice == r.denominator && whole % 2)) whole += r.numerator < 0 ? -1 : 1;
  if (!fits(whole)) return false;
  *out = (int64_t)whole;
  return true;
}

Number number_exact(Rational r) { return (Number){ .fraction = r, .value = rational_value(r), .exact = true }; }

Number number_from(double value)
{
  Rational r;
  return rational_from(value, &r) ? number_exact(r) : (Number){ .value = value };
}

/* One operation on numbers: the fraction if both are exact and the result fits, else the double. */
typedef bool Operation(Rational a, Rational b, Rational *out);

static Number combine(Number a, Number b, Operation *operation, double value)
{
  Rational r;
  if (a.exact && b.exact && operation(a.fraction, b.fraction, &r)) return number_exact(r);
  return (Number){ .value = value };
}

Number number_add(Number a, Number b) { return combine(a, b, rational_add, a.value + b.value); }

Number number_subtract(Number a, Number b) { return number_add(a, number_negate(b)); }

Number number_multiply(Number a, Number b) { return combine(a, b, rational_multiply, a.value * b.value); }

Number number_divide(Number a, Number b) { return combine(a, b, rational_divide, a.value / b.value); }

Number number_negate(Number a)
{
  a.fraction.numerator = -a.fraction.numerator;
  a.value = 0.0 - a.value; /* never -0 */
  return a;
}

int number_compare(Number a, Number b)
{
  if (a.exact && b.exact) return rational_compare(a.fraction, b.fraction);
  return (a.value > b.value) - (a.value < b.value);
}
