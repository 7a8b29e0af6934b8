/* quantity_read.c - the grammar of quantities:
 *
 *   quantity = [ "-" ] [ currency ] number units { [ "-" ] number units }     the further parts as in 12'-6 1/2"
 *
 * Numbers are read in quantity_scan.c, units in units_read.c; docs/units.md tells it to users. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/kinds.h"
#include "base/quantity_parts.h"

/* One number with its unit, and where it stands. */
typedef struct {
  Number amount;
  Compound unit;
  size_t begin, end;
  bool is_sum; /* several parts already */
} Part;

static int part_length(const Part *part) { return (int)(part->end - part->begin); }

static bool refuse_no_number(Scan *scan)
{
  if (scan_is_end(scan)) error_say(scan->error, 0, scan->length, "a quantity is missing: the text is empty");
  else error_say(scan->error, scan->at, scan->length, "`%s` does not begin with a number", scan->text + scan->at);
  return error_help(scan->error, "write a number and a unit, such as `3 in`");
}

static bool refuse_no_unit(Scan *scan, const Part *part, const Part *before)
{
  error_say(scan->error, part->begin, part->end, "a unit is missing after `%.*s`", part_length(part),
            scan->text + part->begin);
  bool feet = strcmp(before->unit.name, "ft") == 0 && !before->is_sum;
  return feet ? error_help(scan->error, "write `%.*s %.*s in`", part_length(before), scan->text + before->begin,
                           part_length(part), scan->text + part->begin)
              : false;
}

static bool read_part(Scan *scan, Part *part)
{
  scan_spaces(scan);
  part->begin = scan->at;
  part->is_sum = false;
  part->unit = compound_plain();
  if (!scan_at_number(scan) && !unit_scan_currency(scan, &part->unit)) {
    bool refused = scan->error && scan->error->message[0];
    return refused ? false : refuse_no_number(scan);
  }
  bool is_money = part->unit.currency[0];
  bool negative = is_money && scan_take(scan, '-'); /* "$-5" */
  scan_spaces(scan);
  if (!scan_at_number(scan)) return refuse_no_number(scan);
  /* "$350/1000 sqft" is no fraction. */
  bool (*scan_figures)(Scan *, Number *) = is_money ? scan_decimal : scan_number;
  if (!scan_figures(scan, &part->amount) || !unit_scan(scan, &part->unit)) return false;
  if (negative) part->amount = number_negate(part->amount);
  part->end = scan->at;
  while (part->end > part->begin && scan->text[part->end - 1] == ' ') part->end--;
  return true;
}

static bool is_simple(const Compound *unit)
{
  return unit->name[0] && !unit->is_point && !unit->currency[0] && !strpbrk(unit->name, "/*^");
}

/* Adds "6 in" to "12 ft". The sum keeps the larger unit if it is a short decimal there, else the smaller. */
static bool add_part(Scan *scan, Part *sum, const Part *part)
{
  const Compound *large = &sum->unit, *small = &part->unit;
  if (!small->name[0] && large->name[0]) return refuse_no_unit(scan, part, sum);
  bool alike = is_simple(large) && is_simple(small) && large->kind == small->kind && large->thing == small->thing;
  if (!alike || large->kind == KIND_SOUND || large->kind == KIND_GLOSS || large->kind == KIND_FRACTION)
    return error_say(scan->error, sum->begin, part->end, "`%.*s` and `%.*s` do not make one quantity",
                     part_length(sum), scan->text + sum->begin, part_length(part), scan->text + part->begin);
  if (large->factor.value <= small->factor.value) {
    error_say(scan->error, part->begin, part->end, "`%s` is not smaller than `%s`", small->name, large->name);
    return error_help(scan->error, "write the larger unit first, each unit once");
  }
  Number ratio = number_divide(large->factor, small->factor);
  Number in_small = number_add(number_multiply(sum->amount, ratio), part->amount);
  Number in_large = number_divide(in_small, ratio);
  int64_t millionths;
  Rational back;
  bool is_short = in_large.exact && rational_round(in_large.fraction, 6, &millionths) &&
                  rational_make(millionths, 1000000, &back) && rational_compare(back, in_large.fraction) == 0;
  sum->amount = is_short ? in_large : in_small;
  if (!is_short) sum->unit = *small;
  sum->end = part->end;
  sum->is_sum = true;
  return true;
}

static bool read_all(Scan *scan, Part *sum)
{
  bool negative = scan_take(scan, '-');
  if (!read_part(scan, sum)) return false;
  while (!scan_is_end(scan)) {
    Part part = { 0 };
    scan_take(scan, '-');
    if (!read_part(scan, &part) || !add_part(scan, sum, &part)) return false;
  }
  if (negative) sum->amount = number_negate(sum->amount);
  return true;
}

static bool check_range(Scan *scan, const Quantity *q)
{
  if (!isfinite(q->value))
    return error_say(scan->error, 0, scan->length, "`%s` is too large for a number", scan->text);
  if (q->kind == KIND_TEMPERATURE && q->value < 0)
    return error_say(scan->error, 0, scan->length, "`%s` is below absolute zero", scan->text);
  return true;
}

bool quantity_read(const char *text, size_t length, UnitRules rules, Quantity *out, QuantityError *error)
{
  Scan scan;
  Part sum = { 0 };
  QuantityError own = { .message = "" };
  if (error) *error = own;
  if (!scan_open(&scan, text, length, rules, error ? error : &own)) return false;
  if (!read_all(&scan, &sum)) return scan_unfold(&scan);
  Quantity q = quantity_from(sum.amount, &sum.unit);
  if (!check_range(&scan, &q)) return scan_unfold(&scan);
  *out = q;
  return true;
}
