#include "base/money.h"

#include <assert.h>
#include <float.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"

__extension__ typedef __int128 Wide;

static const int64_t PARTS = 1000000; /* parts per million in a whole */

static bool narrow(Wide value, int64_t *out)
{
  if (value > INT64_MAX || value < INT64_MIN) return false;
  *out = (int64_t)value;
  return true;
}

/* numerator / denominator (> 0), to the nearest integer; halfway goes to the even neighbour. */
static Wide divide_half_even(Wide numerator, Wide denominator)
{
  Wide quotient = numerator / denominator, rest = numerator % denominator;
  Wide sign = rest < 0 ? -1 : 1, twice = 2 * sign * rest;
  bool away = twice > denominator || (twice == denominator && quotient % 2 != 0);
  return away ? quotient + sign : quotient;
}

/* The exact amount numerator / denominator, rounded to whole cents. */
static bool to_cents(Wide numerator, Wide denominator, Money *out)
{
  return narrow(divide_half_even(numerator, denominator * MONEY_CENT) * MONEY_CENT, out);
}

/* ---- amounts from doubles */

/* value * scale, rounded: the double is taken apart into mantissa * 2^exponent, so that nothing is lost before. */
static bool scale_half_even(double value, int64_t scale, Wide *out)
{
  int exponent;
  Wide product = (Wide)ldexp(frexp(value, &exponent), DBL_MANT_DIG) * scale;
  exponent -= DBL_MANT_DIG;
  if (exponent > 63 - DBL_MANT_DIG) return false; /* the value alone is 2^63 or more */
  if (exponent >= 0)
    *out = product * ((Wide)1 << exponent);
  else
    *out = exponent > -120 ? divide_half_even(product, (Wide)1 << -exponent) : 0;
  return true;
}

bool amount_from(double value, int decimals, Amount *out)
{
  static const int64_t scales[] = { 1, 10, 100, 1000, 10000 };
  assert(decimals >= 0 && decimals <= 4);
  Wide rounded;
  if (!isfinite(value) || !scale_half_even(value, scales[decimals], &rounded)) return false;
  return narrow(rounded * (AMOUNT_SCALE / scales[decimals]), out);
}

/* ---- arithmetic */

bool money_add(Money a, Money b, Money *out) { return narrow((Wide)a + b, out); }

bool money_times(Money rate, Amount quantity, Money *out)
{
  return to_cents((Wide)rate * quantity, AMOUNT_SCALE, out);
}

bool money_fraction(Money base, int64_t parts_per_million, Money *out)
{
  return to_cents((Wide)base * parts_per_million, PARTS, out);
}

bool money_for_margin(Money cost, int64_t margin_ppm, Money *out)
{
  if (margin_ppm >= PARTS) return false;
  return to_cents((Wide)cost * PARTS, (Wide)PARTS - margin_ppm, out);
}

/* ---- splitting */

typedef struct {
  Wide share, rest; /* of the exact part, in units of the sum of weights */
  size_t index;
} Part;

/* More left over first; among equals, the first one. */
static int compare_rests(const void *a, const void *b)
{
  const Part *x = a, *y = b;
  if (x->rest != y->rest) return x->rest > y->rest ? -1 : 1;
  return x->index < y->index ? -1 : 1;
}

static bool largest_weight(const double *weights, size_t count, double *out)
{
  double largest = 0;
  for (size_t i = 0; i < count; i++) {
    if (!isfinite(weights[i]) || weights[i] < 0) return false;
    if (weights[i] > largest) largest = weights[i];
  }
  *out = largest;
  return largest > 0;
}

/* Weights as integers of 53 bits, so that all that follows is exact, whatever their size was. Returns their sum. */
static Wide whole_weights(const double *weights, size_t count, double largest, int64_t *whole)
{
  Wide sum = 0;
  int shift = DBL_MANT_DIG - 1 - ilogb(largest);
  for (size_t i = 0; i < count; i++) sum += whole[i] = (int64_t)ldexp(weights[i], shift);
  return sum;
}

/* Splits `size` (not negative) units; the few that rounding down leaves go to the largest rests. */
static void split_units(Wide size, const int64_t *whole, Wide sum, size_t count, Part *parts)
{
  Wide left = size;
  for (size_t i = 0; i < count; i++) {
    Wide exact = size * whole[i];
    parts[i] = (Part){ exact / sum, exact % sum, i };
    left -= parts[i].share;
  }
  qsort(parts, count, sizeof *parts, compare_rests);
  for (size_t i = 0; i < (size_t)left; i++) parts[i].share++;
}

bool money_split(Money total, const double *weights, size_t count, Money *parts)
{
  double largest;
  if (!largest_weight(weights, count, &largest)) return false;
  int unit = total % MONEY_CENT == 0 ? MONEY_CENT : 1, sign = total < 0 ? -1 : 1;
  int64_t *whole = mem_array(count, sizeof *whole);
  Part *split = mem_array(count, sizeof *split);
  Wide sum = whole_weights(weights, count, largest, whole);
  split_units((Wide)total / unit * sign, whole, sum, count, split);
  for (size_t i = 0; i < count; i++) parts[split[i].index] = (Money)(split[i].share * unit * sign);
  mem_free(split);
  mem_free(whole);
  return true;
}

/* ---- printing */

static const struct {
  const char *code, *sign;
} currencies[] = { { "USD", "$" }, { "EUR", "\u20AC" }, { "GBP", "\u00A3" } };

static const char *sign_of(const char *currency)
{
  for (size_t i = 0; i < sizeof currencies / sizeof *currencies; i++)
    if (strcmp(currencies[i].code, currency) == 0) return currencies[i].sign;
  return NULL;
}

static void print_grouped(uint64_t whole, Buf *out)
{
  if (whole >= 1000) {
    print_grouped(whole / 1000, out);
    buf_printf(out, ",%03d", (int)(whole % 1000));
  } else {
    buf_printf(out, "%d", (int)whole);
  }
}

void money_print(Money value, const char *currency, Buf *out)
{
  if (currency == NULL) currency = "";
  const char *sign = sign_of(currency);
  uint64_t size = value < 0 ? 0 - (uint64_t)value : (uint64_t)value;
  int fraction = (int)(size % MONEY_SCALE);
  if (value < 0) buf_putc(out, '-');
  if (sign) buf_puts(out, sign);
  print_grouped(size / MONEY_SCALE, out);
  if (fraction % MONEY_CENT == 0)
    buf_printf(out, ".%02d", fraction / MONEY_CENT);
  else
    buf_printf(out, ".%04d", fraction);
  if (!sign && *currency) buf_printf(out, " %s", currency);
}
