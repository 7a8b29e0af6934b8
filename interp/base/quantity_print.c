/* quantity_print.c - quantities as text: as written, and in the units a document shows. */
#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/kinds.h"
#include "base/quantity_parts.h"

enum { PLACES = 6, PLACES_MOST = 15, FIGURES = 48 };

/* Decimals for `figures` significant figures of x, at most PLACES_MOST; negative: zeros before the point. */
static int places_for(double x, int figures)
{
  if (x == 0) return 0;
  int places = figures - 1 - (int)floor(log10(fabs(x)));
  return places > PLACES_MOST ? PLACES_MOST : places;
}

/* Rounded to a multiple of 10^-places, places being negative. */
static Number round_whole(Number number, int places)
{
  Number scale = number_from(pow(10, -places));
  Number scaled = number_divide(number, scale);
  int64_t whole;
  if (scaled.exact && rational_round(scaled.fraction, 0, &whole))
    return number_multiply(number_exact((Rational){ whole, 1 }), scale);
  return number_multiply(number_from(rint(scaled.value)), scale);
}

static void trim_zeros(char *figures)
{
  char *end = figures + strlen(figures);
  if (!strchr(figures, '.')) return;
  while (end[-1] == '0') end--;
  if (end[-1] == '.') end--;
  *end = '\0';
}

/* Rounded half-even to `places` decimals if exact, else as printf does; "-0" becomes "0". Very large: "1.5e+20". */
static void print_fixed(Number number, int places, char *text)
{
  static const int64_t unit[] = { 1, 10, 100, 1000, 10000, 100000, 1000000 };
  int64_t scaled;
  if (number.exact && places <= PLACES && rational_round(number.fraction, places, &scaled)) {
    const char *sign = scaled < 0 ? "-" : "";
    if (scaled < 0) scaled = -scaled;
    int length = snprintf(text, FIGURES, "%s%lld", sign, (long long)(scaled / unit[places]));
    long long rest = (long long)(scaled % unit[places]);
    if (places) snprintf(text + length, FIGURES - (size_t)length, ".%0*lld", places, rest);
    return;
  }
  if (fabs(number.value) >= 1e15) snprintf(text, FIGURES, "%.12g", number.value);
  else snprintf(text, FIGURES, "%.*f", places, number.value);
  if (strspn(text, "-0.") == strlen(text)) snprintf(text, FIGURES, "0");
}

/* Up to six decimals; six figures when the number is so small that they would say little. */
static void print_shortest(Number number, char *text)
{
  int places = fabs(number.value) < 0.001 ? places_for(number.value, PLACES) : PLACES;
  print_fixed(number, places, text);
  if (!strchr(text, 'e')) trim_zeros(text);
}

static void add_commas(const char *figures, Buf *out)
{
  size_t whole = strspn(figures, "0123456789");
  for (size_t i = 0; i < whole; i++) {
    if (i && (whole - i) % 3 == 0) buf_putc(out, ',');
    buf_putc(out, figures[i]);
  }
  buf_puts(out, figures + whole);
}

const char *quantity_thing_name(uint16_t thing, bool plural)
{
  assert(thing < thing_count);
  return plural ? thing_rows[thing].plural : thing_rows[thing].name;
}

/* Length of `name` if the unit begins with it as a whole word, else 0. */
static size_t leads_with(const char *unit, const char *name)
{
  size_t length = strlen(name);
  return length && strncmp(unit, name, length) == 0 && strchr("/", unit[length]) ? length : 0;
}

/* Units written out take a plural s: the long names whose plural is a spelling too. */
static bool has_plural(const char *unit)
{
  char plural[sizeof ((Quantity *)0)->unit + 1];
  int length = snprintf(plural, sizeof plural, "%ss", unit);
  return length > 4 && unit_find(plural, (size_t)length).sort == WORD_UNIT;
}

/* "2 pails", "1 per 500 sqft", "2 readings/100 m2", "450 sqft/gal": what stands behind the figures. */
static void add_unit(const Quantity *q, const char *figures, Buf *out)
{
  const char *unit = q->unit;
  const ThingRow *row = &thing_rows[q->thing];
  size_t counted = leads_with(unit, row->name);
  bool plural = strcmp(figures, "1") != 0;
  if (!*unit) return;
  if (!q->thing && counted && q->kind == KIND_COUNT_PER_AREA) buf_printf(out, " per %s", unit + counted + 1);
  else if (counted) buf_printf(out, " %s%s", plural ? row->plural : row->name, unit + counted);
  else buf_printf(out, " %s%s", unit, plural && has_plural(unit) ? "s" : "");
}

/* The currency's sign for display, its code otherwise: "$", "€", "CHF ". A `$` that was written stays. */
static void add_currency(const char *unit, const char *currency, bool with_sign, Buf *out)
{
  if (*unit == '$') {
    buf_putc(out, '$');
    return;
  }
  for (size_t i = 0; with_sign && i < currency_count; i++) {
    const char *sign = currency_rows[i].sign;
    if (strcmp(currency_rows[i].code, currency) != 0 || !*sign || *sign == '$') continue;
    buf_puts(out, sign);
    return;
  }
  buf_printf(out, "%s ", currency);
}

/* Figures and unit; a currency goes in front: "-$62/h", "EUR 55/h". */
static void add_all(const Quantity *q, const char *figures, bool for_display, Buf *out)
{
  size_t money = leads_with(q->unit, *q->unit == '$' ? "$" : q->currency);
  if (*figures == '-') buf_putc(out, *figures++);
  if (money) add_currency(q->unit, q->currency, for_display, out);
  if (for_display) add_commas(figures, out);
  else buf_puts(out, figures);
  if (money) buf_puts(out, q->unit + money);
  else if (!for_display || strcmp(q->unit, thing_rows[0].name) != 0) add_unit(q, figures, out);
}

/* "1250.5" is written "1250.50" if it is money. */
static void pad_cents(char *figures)
{
  char *point = strchr(figures, '.');
  if (point && strlen(point) == 2) strcat(figures, "0");
}

void quantity_print(const Quantity *q, Buf *out)
{
  char figures[FIGURES];
  Compound unit = quantity_unit(q);
  print_shortest(quantity_amount(q, &unit), figures);
  if (q->dimension.power[DIM_MONEY] == 1) pad_cents(figures);
  add_all(q, figures, false, out);
}

const char *quantity_describe(const Quantity *q, char *text)
{
  Buf printed = { 0 };
  bool nameless = q->kind == KIND_NONE && !dimension_is_plain(q->dimension);
  quantity_print(q, &printed);
  snprintf(text, QUANTITY_TEXT, "%.60s (%s)", buf_text(&printed), nameless ? "no kind" : kind_name(q->kind));
  buf_free(&printed);
  return text;
}

static bool keeps_unit(const Quantity *q, UnitSystem system)
{
  const char *kept = kind_row(q->kind)->kept;
  if (thing_is_frequency(q->thing) || (q->kind == KIND_NONE && !dimension_is_plain(q->dimension))) return true;
  if (system == UNITS_METRIC && quantity_unit(q).is_us) return false;
  return *kept == '*' || kind_has_word(kept, q->unit);
}

/* In the unit as written if the kind keeps it, else in the first unit of the ladder that gives 1 or more. */
static Quantity in_display_unit(const Quantity *q, UnitSystem system)
{
  const KindRow *row = kind_row(q->kind);
  Quantity shown = *q;
  if (keeps_unit(q, system)) return shown;
  for (int i = 0; i < KIND_UNITS && row->unit[system][i]; i++) {
    quantity_set_unit(&shown, row->unit[system][i]);
    Compound unit = quantity_unit(&shown);
    if (q->value == 0 || fabs(quantity_amount(&shown, &unit).value) >= 1) break;
  }
  return shown;
}

/* Cents always; two decimals more if they make the amount exact, or if it is below 1. */
static int money_places(Number amount)
{
  Rational ten_thousand = { 10000, 1 }, scaled;
  bool whole = amount.exact && rational_multiply(amount.fraction, ten_thousand, &scaled) && scaled.denominator == 1;
  if (whole) return scaled.numerator % 100 ? 4 : 2;
  return fabs(amount.value) < 1 ? 4 : 2;
}

void quantity_display(const Quantity *q, UnitSystem system, int digits, Buf *out)
{
  char figures[FIGURES];
  Quantity shown = in_display_unit(q, system);
  Compound unit = quantity_unit(&shown);
  Number amount = quantity_amount(&shown, &unit);
  bool is_money = q->dimension.power[DIM_MONEY] == 1 && digits == 0;
  int least = places_for(amount.value, 2), places = kind_row(q->kind)->decimals;
  if (digits > 0) places = places_for(amount.value, digits);
  else if (is_money) places = money_places(amount);
  else if (least > places) places = least;
  if (places < 0) amount = round_whole(amount, places);
  print_fixed(amount, places < 0 ? 0 : places, figures);
  if (!is_money && !strchr(figures, 'e')) trim_zeros(figures);
  add_all(&shown, figures, true, out);
}
