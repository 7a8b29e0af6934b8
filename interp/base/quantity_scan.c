/* quantity_scan.c - folding, cursor and numbers of the quantity reader. */
#include "base/quantity_scan.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

bool error_say(QuantityError *error, size_t begin, size_t end, const char *format, ...)
{
  if (!error) return false;
  *error = (QuantityError){ .begin = begin, .end = end };
  va_list args;
  va_start(args, format);
  vsnprintf(error->message, sizeof error->message, format, args);
  va_end(args);
  return false;
}

bool error_help(QuantityError *error, const char *format, ...)
{
  if (!error) return false;
  va_list args;
  va_start(args, format);
  vsnprintf(error->help, sizeof error->help, format, args);
  va_end(args);
  return false;
}

/* Signs beyond ASCII and what they are read as. */
static const struct {
  const char *sign, *plain;
} foldings[] = {
  { "½", " 1/2" }, { "¼", " 1/4" }, { "¾", " 3/4" }, { "⅓", " 1/3" }, { "⅔", " 2/3" },
  { "⅛", " 1/8" }, { "⅜", " 3/8" }, { "⅝", " 5/8" }, { "⅞", " 7/8" }, { "²", "^2" },
  { "³", "^3" }, { "′", "'" }, { "″", "\"" }, { "’", "'" }, { "”", "\"" },
  { "−", "-" }, { "–", "-" }, { "‑", "-" }, { "·", "*" }, { "×", "*" },
  { "⋅", "*" }, { "⁄", "/" }, { "µ", "u" }, { "μ", "u" }, { "Δ", "delta " },
  { "°", "deg" }, { "Ω", "ohm" }, { "€", "EUR" }, { "£", "GBP" }, { "\u00a0", " " },
  { "\u202f", " " }, { "\u2009", " " },
};

static void put(Scan *scan, const char *bytes, size_t length, size_t place)
{
  memcpy(scan->text + scan->length, bytes, length);
  memset(scan->place + scan->length, (int)place, length);
  scan->length += length;
}

/* Folds what stands at `text`; returns the bytes it took. */
static size_t fold(Scan *scan, const char *text, size_t left, size_t place)
{
  unsigned char first = (unsigned char)text[0];
  if (first < 0x80) {
    put(scan, first == '\t' ? " " : text, 1, place);
    return 1;
  }
  for (size_t i = 0; i < sizeof foldings / sizeof *foldings; i++) {
    size_t length = strlen(foldings[i].sign);
    if (length > left || memcmp(text, foldings[i].sign, length) != 0) continue;
    put(scan, foldings[i].plain, strlen(foldings[i].plain), place);
    return length;
  }
  put(scan, text, 1, place);
  return 1;
}

bool scan_open(Scan *scan, const char *text, size_t length, UnitRules rules, QuantityError *error)
{
  scan->length = scan->at = 0;
  scan->rules = rules;
  scan->error = error;
  for (size_t at = 0; at < length;) {
    if (scan->length >= SCAN_MOST)
      return error_say(error, 0, length, "this is too long for a quantity (%zu bytes, at most %d)", length,
                       SCAN_MOST);
    at += fold(scan, text + at, length - at, at);
  }
  scan->text[scan->length] = '\0';
  scan->place[scan->length] = (uint8_t)length;
  return true;
}

bool scan_unfold(Scan *scan)
{
  QuantityError *error = scan->error;
  if (!error) return false;
  error->begin = scan->place[error->begin];
  error->end = scan->place[error->end];
  return false;
}

void scan_spaces(Scan *scan)
{
  while (scan->text[scan->at] == ' ') scan->at++;
}

bool scan_is_end(const Scan *scan) { return scan->at >= scan->length; }

bool scan_is_digit(const Scan *scan, size_t at) { return scan->text[at] >= '0' && scan->text[at] <= '9'; }

bool scan_take(Scan *scan, char c)
{
  scan_spaces(scan);
  if (scan_is_end(scan) || scan->text[scan->at] != c) return false;
  scan->at++;
  return true;
}

bool scan_at_number(const Scan *scan)
{
  return scan_is_digit(scan, scan->at) || (scan->text[scan->at] == '.' && scan_is_digit(scan, scan->at + 1));
}

/* A decimal while its figures come in: `exact` * 10^-places while it fits, `rough` always. */
typedef struct {
  int64_t exact;
  long double rough;
  int places;
  bool fits;
} Figures;

static void take_digits(Scan *scan, Figures *figures, bool after_point)
{
  for (; scan_is_digit(scan, scan->at); scan->at++) {
    int digit = scan->text[scan->at] - '0';
    figures->rough = figures->rough * 10 + digit;
    figures->places += after_point;
    figures->fits = figures->fits && !__builtin_mul_overflow(figures->exact, (int64_t)10, &figures->exact) &&
                    !__builtin_add_overflow(figures->exact, (int64_t)digit, &figures->exact);
  }
}

static bool refuse_comma(Scan *scan, size_t begin)
{
  size_t end = scan->at;
  while (scan_is_digit(scan, end) || scan->text[end] == ',' || scan->text[end] == '.') end++;
  int whole = (int)(scan->at - begin), rest = (int)(end - scan->at - 1);
  error_say(scan->error, begin, end, "`%.*s`: a comma groups thousands, and three figures must follow it",
            (int)(end - begin), scan->text + begin);
  if (memchr(scan->text + scan->at + 1, ',', (size_t)rest) || memchr(scan->text + begin, '.', (size_t)whole))
    return error_help(scan->error, "write thousands as `1,250` and decimals as `1.5`");
  return error_help(scan->error, "did you mean `%.*s.%.*s`?", whole, scan->text + begin, rest,
                    scan->text + scan->at + 1);
}

/* The figures before the point, in groups of three if there is a comma. */
static bool take_whole(Scan *scan, Figures *figures)
{
  size_t begin = scan->at;
  take_digits(scan, figures, false);
  if (scan->text[scan->at] == ',' && scan->at - begin > 3) return refuse_comma(scan, begin);
  while (scan->text[scan->at] == ',') {
    const size_t at = scan->at;
    bool three = scan_is_digit(scan, at + 1) && scan_is_digit(scan, at + 2) && scan_is_digit(scan, at + 3);
    if (!three || scan_is_digit(scan, at + 4) || at == begin) return refuse_comma(scan, begin);
    scan->at++;
    take_digits(scan, figures, false);
  }
  return true;
}

/* "e3", "e-6": only if figures follow. */
static void take_power(Scan *scan, Figures *figures)
{
  size_t at = scan->at;
  if (scan->text[at] != 'e' && scan->text[at] != 'E') return;
  bool negative = scan->text[at + 1] == '-';
  at += 1 + (negative || scan->text[at + 1] == '+');
  if (!scan_is_digit(scan, at)) return;
  int power = 0;
  for (; scan_is_digit(scan, at); at++)
    if (power < 10000) power = power * 10 + scan->text[at] - '0';
  figures->places += negative ? power : -power;
  scan->at = at;
}

static Number figures_number(const Figures *figures)
{
  Rational r = { figures->exact, 1 }, ten = { 10, 1 };
  bool fits = figures->fits && (figures->places > -19 && figures->places < 19);
  for (int i = 0; fits && i < figures->places; i++) fits = rational_divide(r, ten, &r);
  for (int i = 0; fits && i > figures->places; i--) fits = rational_multiply(r, ten, &r);
  if (fits) return number_exact(r);
  return (Number){ .value = (double)(figures->rough * powl(10, -figures->places)) };
}

bool scan_decimal(Scan *scan, Number *out)
{
  size_t begin = scan->at;
  Figures figures = { .fits = true };
  if (!scan_at_number(scan)) return error_say(scan->error, begin, begin, "a number is missing here");
  if (!take_whole(scan, &figures)) return false;
  if (scan->text[scan->at] == '.' && scan_is_digit(scan, scan->at + 1)) {
    scan->at++;
    take_digits(scan, &figures, true);
  }
  if (scan->text[scan->at] == ',') return refuse_comma(scan, begin);
  take_power(scan, &figures);
  *out = figures_number(&figures);
  if (isfinite(out->value)) return true;
  return error_say(scan->error, begin, scan->at, "`%.*s` is too large for a number", (int)(scan->at - begin),
                   scan->text + begin);
}

/* Denominators of tapes and recipes; "1/500 sqft" is more likely a count per area. */
enum { DENOMINATOR_MOST = 128 };

/* Reads "1/2" at the cursor. */
static bool take_fraction(Scan *scan, Rational *out)
{
  size_t begin = scan->at;
  Figures top = { .fits = true }, bottom = { .fits = true };
  take_digits(scan, &top, false);
  scan->at++;
  take_digits(scan, &bottom, false);
  int length = (int)(scan->at - begin);
  if (top.fits && bottom.fits && bottom.exact > 0 && bottom.exact <= DENOMINATOR_MOST &&
      rational_make(top.exact, bottom.exact, out))
    return true;
  if (bottom.fits && bottom.exact == 0)
    return error_say(scan->error, begin, scan->at, "`%.*s` divides by zero", length, scan->text + begin);
  error_say(scan->error, begin, scan->at, "`%.*s` is not a fraction people measure with", length,
            scan->text + begin);
  return error_help(scan->error, "write `%.0Lf per %.0Lf`, or a decimal", top.rough, bottom.rough);
}

static bool at_fraction(const Scan *scan, size_t at)
{
  if (!scan_is_digit(scan, at)) return false;
  while (scan_is_digit(scan, at)) at++;
  return scan->text[at] == '/' && scan_is_digit(scan, at + 1);
}

/* Is the text from `begin` to the cursor nothing but digits? */
static bool is_whole(const Scan *scan, size_t begin)
{
  return strspn(scan->text + begin, "0123456789") >= scan->at - begin;
}

/* After the number at `begin`: a second number is the fraction of a mixed one, or a mistake. */
static bool take_mixed(Scan *scan, size_t begin, Number *number)
{
  size_t end = scan->at, next = end;
  while (scan->text[next] == ' ') next++;
  bool dash = scan->text[next] == '-';
  next += dash;
  while (dash && scan->text[next] == ' ') next++;
  if (!scan_is_digit(scan, next) && !(scan->text[next] == '.' && scan_is_digit(scan, next + 1))) return true;
  Rational fraction;
  if (is_whole(scan, begin) && at_fraction(scan, next)) {
    scan->at = next;
    if (!take_fraction(scan, &fraction)) return false;
    if (fraction.numerator < fraction.denominator) {
      *number = number_add(*number, number_exact(fraction));
      return true;
    }
  }
  size_t stop = next + strspn(scan->text + next, "0123456789.,/");
  const char *text = scan->text;
  error_say(scan->error, begin, stop, "`%.*s` is two numbers", (int)(stop - begin), text + begin);
  if (dash)
    return error_help(scan->error, "for a range write between(\"%.*s ...\", \"%.*s ...\")", (int)(end - begin),
                      text + begin, (int)(stop - next), text + next);
  return error_help(scan->error, "write thousands as `1,250` or `1250`, a mixed number as `1 1/2`");
}

bool scan_number(Scan *scan, Number *out)
{
  scan_spaces(scan);
  size_t begin = scan->at;
  if (at_fraction(scan, begin)) {
    Rational fraction;
    if (!take_fraction(scan, &fraction)) return false;
    *out = number_exact(fraction);
    return true;
  }
  return scan_decimal(scan, out) && take_mixed(scan, begin, out);
}
