/* quantity_parts.c - number, unit and text of a quantity; how a unit is named after arithmetic. */
#include "base/quantity_parts.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "base/kinds.h"

Number quantity_get(const Quantity *q)
{
  return (Number){ .fraction = { q->numerator, q->denominator }, .value = q->value, .exact = q->exact };
}

void quantity_set(Quantity *q, Number number)
{
  q->exact = number.exact;
  q->numerator = number.exact ? number.fraction.numerator : 0;
  q->denominator = number.exact ? number.fraction.denominator : 1;
  q->value = number.value;
}

Quantity quantity_from(Number amount, const Compound *unit)
{
  Quantity q = { .dimension = unit->dimension, .kind = unit->kind, .thing = unit->thing };
  if (unit->is_point) amount = number_add(amount, number_exact(unit->shift));
  quantity_set(&q, number_multiply(amount, unit->factor));
  memcpy(q.currency, unit->currency, sizeof q.currency);
  memcpy(q.unit, unit->name, sizeof q.unit);
  return q;
}

Quantity quantity_number(double value)
{
  Compound plain = compound_plain();
  return quantity_from(number_from(value), &plain);
}

Quantity quantity_of(double value, const char *unit)
{
  Compound compound = unit_known(unit);
  return quantity_from(number_from(value), &compound);
}

Compound quantity_unit(const Quantity *q)
{
  Compound unit = compound_plain();
  bool ok = unit_read(q->unit, (UnitRules){ .currency = q->currency }, &unit, NULL);
  assert(ok);
  (void)ok;
  return unit;
}

UnitSystem quantity_system(const Quantity *q)
{
  Compound unit = quantity_unit(q);
  if (unit.is_us || unit.is_metric) return unit.is_us ? UNITS_US : UNITS_METRIC;
  return q->currency[0] && strcmp(q->currency, "USD") != 0 ? UNITS_METRIC : UNITS_US;
}

Number quantity_amount(const Quantity *q, const Compound *unit)
{
  Number amount = number_divide(quantity_get(q), unit->factor);
  return unit->is_point ? number_subtract(amount, number_exact(unit->shift)) : amount;
}

/* Copies `pattern` with `word` replaced by `by`, which may be as long as a name. */
static void replace(char *unit, size_t room, const char *pattern, const char *word, const char *by)
{
  const char *at = strstr(pattern, word);
  if (!at) snprintf(unit, room, "%s", pattern);
  else snprintf(unit, room, "%.*s%s%s", (int)(at - pattern), pattern, by, at + strlen(word));
}

void quantity_set_unit(Quantity *q, const char *pattern)
{
  char with_thing[sizeof q->unit];
  bool is_dollar = !q->currency[0] || q->unit[0] == '$' || strcmp(q->currency, "USD") == 0;
  replace(with_thing, sizeof with_thing, pattern, "each", thing_rows[q->thing].name);
  replace(q->unit, sizeof q->unit, with_thing, "$", is_dollar ? "$" : q->currency);
}

/* Names of the coherent units, in the order in which they are written. */
static const struct {
  DimBase base;
  const char *name;
} si_units[] = { { DIM_MONEY, "$" }, { DIM_COUNT, "each" }, { DIM_MASS, "kg" },       { DIM_LENGTH, "m" },
                 { DIM_TIME, "s" },  { DIM_CURRENT, "A" },  { DIM_TEMPERATURE, "K" } };

static size_t add_si_unit(char *text, size_t length, size_t room, const char *name, int power, bool has_numerator)
{
  const char *between = !length ? "" : power < 0 && has_numerator ? "/" : "*";
  int shown = power < 0 && has_numerator ? -power : power;
  length += (size_t)snprintf(text + length, room - length, "%s%s%s", between, name, shown < 0 ? "^" : "");
  if (shown != 1) length += (size_t)snprintf(text + length, room - length, "%d", shown);
  return length;
}

void quantity_set_si_unit(Quantity *q)
{
  enum { BASES = sizeof si_units / sizeof *si_units };
  char text[sizeof q->unit] = "";
  size_t length = 0;
  for (int i = 0; i < BASES; i++) {
    int power = q->dimension.power[si_units[i].base];
    if (power > 0) length = add_si_unit(text, length, sizeof text, si_units[i].name, power, true);
  }
  bool has_numerator = length > 0;
  for (int i = 0; i < BASES; i++) {
    int power = q->dimension.power[si_units[i].base];
    if (power < 0) length = add_si_unit(text, length, sizeof text, si_units[i].name, power, has_numerator);
  }
  quantity_set_unit(q, text);
}
