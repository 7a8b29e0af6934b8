/* units_read.c - the grammar of unit texts:
 *
 *   units  = [ factor { "*" factor } ] { ( "/" | "per" ) [ number ] factor { "*" factor } }
 *   factor = name [ "^" ] [ "-" ] exponent      each "/" divides by the one factor after it: lb/ft2/h */
#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/kinds.h"
#include "base/units.h"

enum { NAME_MOST = 48, WORDS_MOST = 3, POWER_MOST = 9 };

/* A name as it was found at the cursor; `end` is behind it. */
typedef struct {
  char spelling[NAME_MOST];
  size_t begin, end;
  Word word;
} Name;

Compound compound_plain(void)
{
  return (Compound){ .factor = number_exact((Rational){ 1, 1 }), .shift = { 0, 1 }, .kind = KIND_NONE };
}

void compound_money(Compound *out, const char *code, const char *sign)
{
  *out = compound_plain();
  out->kind = KIND_MONEY;
  out->dimension = kind_row(KIND_MONEY)->dimension;
  snprintf(out->currency, sizeof out->currency, "%s", code);
  snprintf(out->name, sizeof out->name, "%s", sign);
}

static bool is_letter(char c)
{
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (unsigned char)c >= 0x80;
}

/* The end of the word at `at`: letters with inner hyphens, "dB(A)", or one sign. */
static size_t word_end(const char *text, size_t at)
{
  if (text[at] && strchr("'\"%$", text[at])) return at + 1;
  while (is_letter(text[at]) || (text[at] == '-' && is_letter(text[at + 1]))) at++;
  if (strncmp(text + at, "(A)", 3) == 0) at += 3;
  return at;
}

/* Finds the longest known name of up to three words at the cursor; if none is known, the first word. */
static Name find_name(const Scan *scan)
{
  Name name = { .begin = scan->at, .end = scan->at }, longest = name;
  size_t length = 0, at = scan->at;
  for (int words = 0; words < WORDS_MOST; words++) {
    size_t end = word_end(scan->text, at);
    if (end == at || (words && at == name.end) || length + (end - at) + 2 > NAME_MOST) break;
    if (words) name.spelling[length++] = ' ';
    memcpy(name.spelling + length, scan->text + at, end - at);
    length += end - at;
    name.spelling[length] = '\0';
    name.end = end + (is_letter(scan->text[end - 1]) && scan->text[end] == '.'); /* "sq. ft." */
    name.word = unit_find(name.spelling, length);
    if (words == 0 || name.word.sort != WORD_UNKNOWN) longest = name;
    at = name.end;
    while (scan->text[at] == ' ') at++;
  }
  return longest;
}

static bool refuse_missing(Scan *scan)
{
  const char *rest = scan->text + scan->at;
  if (!*rest) return error_say(scan->error, 0, scan->length, "a unit is missing at the end of `%s`", scan->text);
  error_say(scan->error, scan->at, scan->length, "a unit is missing before `%s`", rest);
  return *rest == '(' ? error_help(scan->error, "write one `/` for each divisor: `ug/s/m2`") : false;
}

static bool refuse_unknown(Scan *scan, const Name *name)
{
  if (name->end == name->begin) return refuse_missing(scan);
  if (strcmp(name->spelling, "to") == 0) {
    error_say(scan->error, name->begin, name->end, "a range is not one quantity");
    return error_help(scan->error, "write between(\"3 in\", \"6 in\")");
  }
  error_say(scan->error, name->begin, name->end, "unknown unit `%s`", name->spelling);
  if (scan->error) unit_suggest(name->spelling, scan->error->help, sizeof scan->error->help);
  return false;
}

static bool refuse_ambiguous(Scan *scan, const Name *name)
{
  error_say(scan->error, name->begin, name->end, "`%s` is ambiguous", name->spelling);
  return error_help(scan->error, "write %s", ambiguous_rows[name->word.row].choices);
}

static bool refuse_us_only(Scan *scan, const Name *name)
{
  error_say(scan->error, name->begin, name->end, "`%s` is ambiguous in a metric document", name->spelling);
  return error_help(scan->error, "write litres (`L`), or the measure that is meant: `usgal` or `impgal`");
}

static bool dollar_code(const Scan *scan, const char **code)
{
  const char *wanted = scan->rules.currency && *scan->rules.currency ? scan->rules.currency : "USD";
  for (size_t i = 0; i < currency_count; i++) {
    if (strcmp(currency_rows[i].code, wanted) != 0 || currency_rows[i].sign[0] != '$') continue;
    *code = currency_rows[i].code;
    return true;
  }
  return false;
}

static bool take_dollar(Scan *scan, const Name *name, Compound *out)
{
  const char *code;
  if (dollar_code(scan, &code)) {
    compound_money(out, code, "$");
    return true;
  }
  error_say(scan->error, name->begin, name->end, "`%s` in a document that counts in %s", name->spelling,
            scan->rules.currency);
  return error_help(scan->error, "write the currency by its code, such as `%s 62` or `USD 62`",
                    scan->rules.currency);
}

static void take_unit(const Unit *unit, Compound *out)
{
  *out = compound_plain();
  out->factor = number_exact(unit->factor);
  out->shift = unit->shift;
  out->is_point = unit->row->kind == KIND_TEMPERATURE;
  out->is_us = unit->row->home == HOME_US || unit->row->home == HOME_US_ONLY;
  out->is_metric = unit->row->home == HOME_METRIC;
  out->dimension = unit->dimension;
  out->kind = unit->row->kind;
  snprintf(out->name, sizeof out->name, "%s", unit->row->name);
}

static void take_thing(uint16_t thing, Compound *out)
{
  *out = compound_plain();
  out->dimension = kind_row(KIND_COUNT)->dimension;
  out->kind = KIND_COUNT;
  out->thing = thing;
  snprintf(out->name, sizeof out->name, "%s", thing_rows[thing].name);
}

static bool take_name(Scan *scan, Compound *out)
{
  Name name = find_name(scan);
  bool metric = scan->rules.metric;
  switch (name.word.sort) {
  case WORD_UNIT:
    if (metric && unit_rows[name.word.row].home == HOME_US_ONLY) return refuse_us_only(scan, &name);
    take_unit(unit_get(name.word.row), out);
    break;
  case WORD_THING: take_thing(name.word.row, out); break;
  case WORD_CURRENCY:
    compound_money(out, currency_rows[name.word.row].code, currency_rows[name.word.row].code);
    break;
  case WORD_DOLLAR:
    if (!take_dollar(scan, &name, out)) return false;
    break;
  case WORD_AMBIGUOUS: return refuse_ambiguous(scan, &name);
  case WORD_UNKNOWN: return refuse_unknown(scan, &name);
  }
  scan->at = name.end;
  return true;
}

static bool append(Scan *scan, Compound *out, const char *text)
{
  size_t length = strlen(out->name);
  if (length + strlen(text) < sizeof out->name) {
    strcpy(out->name + length, text);
    return true;
  }
  return error_say(scan->error, 0, scan->at, "this unit is too long");
}

/* out = out * by or out / by. */
static bool combine(Scan *scan, Compound *out, const Compound *by, bool divide)
{
  Dimension dimension;
  if (!dimension_combine(out->dimension, by->dimension, divide ? -1 : 1, &dimension))
    return error_say(scan->error, 0, scan->at, "the exponents of this unit are too large");
  if (out->thing && by->thing && out->thing != by->thing)
    return error_say(scan->error, 0, scan->at, "a unit can count one thing only, this one counts `%s` and `%s`",
                     thing_rows[out->thing].name, thing_rows[by->thing].name);
  if (thing_is_frequency(out->thing) || (out->name[0] && thing_is_frequency(by->thing)))
    return error_say(scan->error, 0, scan->at, "`per area` and the like stand alone, as in `3 per area`");
  if (out->currency[0] && by->currency[0])
    return error_say(scan->error, 0, scan->at, "a unit can hold one currency only, and once");
  bool alone = !out->name[0] && !divide;
  out->kind = alone ? by->kind : kind_of_product(out->kind, by->kind, divide, dimension);
  out->is_point = alone && by->is_point;
  out->shift = by->shift;
  out->factor = divide ? number_divide(out->factor, by->factor) : number_multiply(out->factor, by->factor);
  out->dimension = dimension;
  out->is_us |= by->is_us;
  out->is_metric |= by->is_metric;
  if (by->thing) out->thing = by->thing;
  if (by->currency[0]) memcpy(out->currency, by->currency, sizeof out->currency);
  return true;
}

/* "2", "^2", "^-1" behind a name; 1 if there is none. */
static bool take_power(Scan *scan, int *power)
{
  size_t begin = scan->at;
  bool caret = scan->text[scan->at] == '^';
  scan->at += caret;
  bool negative = caret && scan->text[scan->at] == '-';
  scan->at += negative;
  *power = 1;
  if (!caret && !scan_is_digit(scan, scan->at)) return true;
  *power = scan->text[scan->at] - '0';
  bool good = *power >= 1 && *power <= POWER_MOST;
  scan->at += good;
  if (!good || scan_is_digit(scan, scan->at))
    return error_say(scan->error, begin, scan->at, "an exponent is a whole number from 1 to %d", POWER_MOST);
  if (negative) *power = -*power;
  return true;
}

/* A name with its exponent, as one compound: ft2 is an area. */
static bool take_factor(Scan *scan, Compound *out)
{
  Compound base;
  int power;
  if (!take_name(scan, &base) || !take_power(scan, &power)) return false;
  *out = base;
  if (power == 1) return true;
  base.is_point = false;
  if (power < 0) *out = compound_plain();
  for (int i = power < 0 ? power : 1; i != (power < 0 ? 0 : power); i++)
    if (!combine(scan, out, &base, power < 0)) return false;
  char digits[8];
  snprintf(digits, sizeof digits, power < 0 ? "^%d" : "%d", power);
  snprintf(out->name, sizeof out->name, "%s", base.name);
  out->is_point = false;
  return append(scan, out, digits);
}

/* The number in "lb/1000 sqft" goes into the factor and the name. */
static bool take_scale(Scan *scan, Compound *factor, char *text, size_t room)
{
  *text = '\0';
  scan_spaces(scan);
  if (!scan_at_number(scan)) return take_factor(scan, factor);
  size_t begin = scan->at;
  Number scale;
  if (!scan_decimal(scan, &scale)) return false;
  if (!(scale.value > 0)) return error_say(scan->error, begin, scan->at, "this divides by zero");
  size_t length = 0;
  for (size_t i = begin; i < scan->at && length + 2 < room; i++)
    if (scan->text[i] != ',') text[length++] = scan->text[i];
  memcpy(text + length, " ", 2);
  scan_spaces(scan);
  if (!take_factor(scan, factor)) return false;
  factor->factor = number_multiply(factor->factor, scale);
  return true;
}

static bool take_divisor(Scan *scan, Compound *out)
{
  Compound factor;
  char scale[24];
  if (!take_scale(scan, &factor, scale, sizeof scale)) return false;
  bool bare = !out->name[0];
  return combine(scan, out, &factor, true) && append(scan, out, bare ? "per " : "/") && append(scan, out, scale) &&
         append(scan, out, factor.name);
}

static bool take_multiplier(Scan *scan, Compound *out)
{
  Compound factor;
  scan_spaces(scan);
  bool bare = !out->name[0];
  return take_factor(scan, &factor) && combine(scan, out, &factor, false) && append(scan, out, bare ? "" : "*") &&
         append(scan, out, factor.name);
}

/* "per" as a word of its own, unless it begins a text that is the name of a counted thing ("per area"). */
static bool take_per(Scan *scan, const Compound *before)
{
  const char *text = scan->text + scan->at;
  if (strncmp(text, "per", 3) != 0 || (text[3] != ' ' && text[3] != '\0')) return false;
  if (!before->name[0] && find_name(scan).word.sort != WORD_UNKNOWN) return false;
  scan->at += 3;
  return true;
}

/* At the number of a further part: "12 ft 6 in", "12'-6\"", or a definition's "K - 273.15". */
static bool at_next_part(const Scan *scan)
{
  if (scan_at_number(scan)) return true;
  Scan ahead = *scan;
  return scan_take(&ahead, '-') && (scan_spaces(&ahead), scan_at_number(&ahead));
}

/* "1 per 500 sqft" and "1 reading/500 sqft" are counts per area. */
static void count_the_one(Compound *out)
{
  if (out->kind != KIND_NONE || strncmp(out->name, "per ", 4) != 0) return;
  Dimension per_area = kind_row(KIND_COUNT_PER_AREA)->dimension;
  per_area.power[DIM_COUNT] = 0;
  if (!dimension_equal(out->dimension, per_area)) return;
  out->kind = KIND_COUNT_PER_AREA;
  out->dimension.power[DIM_COUNT] = 1;
}

/* A compound that has a row of its own ("mg/m3") takes the kind from there. */
static void name_the_kind(Compound *out)
{
  Word word = unit_find(out->name, strlen(out->name));
  if (word.sort == WORD_UNIT) out->kind = unit_rows[word.row].kind;
}

static bool refuse_two_units(Scan *scan, const Compound *out)
{
  Name next = find_name(scan);
  if (next.word.sort == WORD_AMBIGUOUS) return refuse_ambiguous(scan, &next);
  if (next.word.sort == WORD_UNKNOWN && next.end > next.begin) return refuse_unknown(scan, &next);
  if (next.end == next.begin)
    return error_say(scan->error, scan->at, scan->length, "`%s` is not part of a quantity", scan->text + scan->at);
  error_say(scan->error, scan->at, next.end, "two units without an operator: `%s` and `%s`", out->name,
            next.spelling);
  if (out->kind == KIND_MONEY) return error_help(scan->error, "write `%s/%s`", out->name, next.spelling);
  return error_help(scan->error, "write `%s/%s` or `%s*%s`", out->name, next.spelling, out->name, next.spelling);
}

bool unit_scan_currency(Scan *scan, Compound *out)
{
  Name name = find_name(scan);
  WordSort sort = name.word.sort;
  return (sort == WORD_CURRENCY || sort == WORD_DOLLAR || sort == WORD_AMBIGUOUS) && take_name(scan, out);
}

bool unit_scan(Scan *scan, Compound *out)
{
  bool compound = false;
  for (;;) {
    scan_spaces(scan);
    if (scan_is_end(scan) || at_next_part(scan)) break;
    bool ok;
    if (scan_take(scan, '/') || take_per(scan, out)) ok = take_divisor(scan, out);
    else if (!out->name[0] || scan_take(scan, '*')) ok = take_multiplier(scan, out);
    else ok = refuse_two_units(scan, out);
    if (!ok) return false;
    compound = true;
  }
  if (!compound) return true;
  count_the_one(out);
  name_the_kind(out);
  if (isfinite(out->factor.value) && out->factor.value > 0) return true;
  return error_say(scan->error, 0, scan->length, "the factor of this unit is too large or too small");
}

bool unit_read(const char *text, UnitRules rules, Compound *out, QuantityError *error)
{
  Scan scan;
  Compound compound = compound_plain();
  if (!scan_open(&scan, text, strlen(text), rules, error)) return false;
  if (!unit_scan(&scan, &compound)) return scan_unfold(&scan);
  if (!scan_is_end(&scan)) {
    error_say(error, scan.at, scan.length, "`%s` is a number where a unit is wanted", scan.text + scan.at);
    return scan_unfold(&scan);
  }
  *out = compound;
  return true;
}

Compound unit_known(const char *text)
{
  Compound compound = compound_plain();
  bool ok = unit_read(text, (UnitRules){ 0 }, &compound, NULL);
  assert(ok);
  (void)ok;
  return compound;
}
