/* quantity_fits.c - kinds against fields and units: fits, conversion, change of kind, explanations. */
#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "base/kinds.h"
#include "base/quantity_parts.h"

/* Both on the scale of lengths, films and grains, and the unit not a compound such as gal/sqft. */
static bool share_scale(Kind kind, const Compound *unit)
{
  return (kind_row(kind)->flags & kind_row(unit->kind)->flags & KIND_SHARED_SCALE) && !strchr(unit->name, '/');
}

static bool is_inverse(Dimension a, Dimension b)
{
  Dimension product;
  return dimension_combine(a, b, 1, &product) && dimension_is_plain(product) && !dimension_is_plain(a);
}

/* The kind of everyday factor whose dimension leads from `from` to `to`, KIND_NONE if there is none. */
static Kind missing_factor(Dimension from, Dimension to)
{
  static const Kind factors[] = { KIND_AREA, KIND_VOLUME, KIND_TIME, KIND_LENGTH, KIND_MASS, KIND_COUNT };
  Dimension factor;
  if (!dimension_combine(to, from, -1, &factor)) return KIND_NONE;
  for (size_t i = 0; i < sizeof factors / sizeof *factors; i++)
    if (dimension_equal(kind_row(factors[i])->dimension, factor)) return factors[i];
  return KIND_NONE;
}

static void note_rows(const Quantity *a, const Quantity *b, QuantityError *error)
{
  char left[QUANTITY_TEXT], right[QUANTITY_TEXT];
  Buf rows = { 0 };
  int width = (int)strlen(quantity_describe(a, left)), other = (int)strlen(quantity_describe(b, right));
  if (other > width) width = other;
  buf_printf(&rows, "%-*s  ", width, left);
  dimension_print(a->dimension, &rows);
  buf_printf(&rows, "\n%-*s  ", width, right);
  dimension_print(b->dimension, &rows);
  snprintf(error->note, sizeof error->note, "%s", buf_text(&rows));
  buf_free(&rows);
}

static bool explain_same_dimension(const Quantity *a, const Quantity *b, QuantityError *error)
{
  bool is_point = a->kind == KIND_TEMPERATURE || b->kind == KIND_TEMPERATURE;
  if (a->kind == KIND_SOUND && b->kind == KIND_SOUND)
    return error_help(error, "sound levels are logarithms; they are compared, not added");
  if (a->kind == KIND_TEMPERATURE && b->kind == KIND_TEMPERATURE)
    return error_help(error, "two temperatures do not add; a difference is written `3 delta C` or `5 delta F`");
  if (is_point && (a->kind == KIND_TEMPERATURE_DIFFERENCE || b->kind == KIND_TEMPERATURE_DIFFERENCE))
    return error_help(error, "one is a temperature, the other a difference of temperatures");
  if (strcmp(a->currency, b->currency) != 0)
    return error_help(error, "one job counts in one currency; convert one amount first");
  if (a->thing != b->thing)
    return error_help(error, "they count different things: %s and %s", quantity_thing_name(a->thing, true),
                      quantity_thing_name(b->thing, true));
  return error_help(error, "the dimension is the same, but one is %s and the other %s; convert by name, "
                           "if that is meant", kind_name(a->kind), kind_name(b->kind));
}

bool quantity_explain(const Quantity *a, const Quantity *b, QuantityError *error)
{
  if (!error) return false;
  if (dimension_equal(a->dimension, b->dimension)) return explain_same_dimension(a, b, error);
  note_rows(a, b, error);
  bool a_plain = dimension_is_plain(a->dimension), b_plain = dimension_is_plain(b->dimension);
  if (a_plain || b_plain)
    return error_help(error, "give the number a unit, such as `%s`", kind_example(a_plain ? b->kind : a->kind, 0));
  if (is_inverse(a->dimension, b->dimension))
    return error_help(error, "one is the inverse of the other: write one of them the other way round");
  Kind up = missing_factor(b->dimension, a->dimension), down = missing_factor(a->dimension, b->dimension);
  if (up) return error_help(error, "the second lacks one factor: multiply it by %s", kind_name(up));
  if (down) return error_help(error, "the first lacks one factor: multiply it by %s", kind_name(down));
  return false;
}

bool quantity_in(const Quantity *q, const char *unit, double *out, QuantityError *error)
{
  Compound to;
  if (!unit_read(unit, (UnitRules){ .currency = q->currency }, &to, error)) return false;
  bool same = dimension_equal(to.dimension, q->dimension) && to.thing == q->thing &&
              strcmp(to.currency, q->currency) == 0;
  if (same && (share_scale(q->kind, &to) || kind_accepts(q->kind, to.kind, to.name))) {
    *out = quantity_amount(q, &to).value;
    return true;
  }
  char text[QUANTITY_TEXT];
  error_say(error, 0, strlen(unit), "%s does not convert to `%s` (%s)", quantity_describe(q, text), unit,
            kind_name(to.kind));
  Quantity one = quantity_from(number_exact((Rational){ 1, 1 }), &to);
  return quantity_explain(q, &one, error);
}

/* Temperatures and sound levels are scales of their own: no other kind is one of them by decree. */
static bool can_become(const Quantity *q, Kind kind)
{
  Dimension of_kind = kind_row(kind)->dimension;
  bool of_scale = q->kind == KIND_TEMPERATURE || q->kind == KIND_SOUND;
  bool to_scale = kind == KIND_TEMPERATURE || kind == KIND_SOUND;
  return q->kind == kind || (!of_scale && !to_scale && (kind == KIND_NONE || dimension_equal(of_kind, q->dimension)));
}

bool quantity_as(const Quantity *q, Kind kind, Quantity *out, QuantityError *error)
{
  char text[QUANTITY_TEXT];
  if (!can_become(q, kind)) {
    error_say(error, 0, 0, "%s cannot be taken as %s", quantity_describe(q, text), kind_name(kind));
    return error_help(error, "%s is written like `%s` or `%s`", kind_name(kind), kind_example(kind, 0),
                      kind_example(kind, 1));
  }
  Quantity as = *q;
  as.kind = kind;
  Compound unit = quantity_unit(q);
  if (kind == KIND_NONE) quantity_set_si_unit(&as);
  else if (!share_scale(kind, &unit) && !kind_accepts(kind, unit.kind, unit.name))
    quantity_set_unit(&as, kind_unit(kind, quantity_system(q)));
  *out = as;
  return true;
}

/* Units that are written where another is meant. */
static const struct {
  Kind field;
  const char *written, *meant;
} confusions[] = {
  { KIND_TIME, "m", "min" },      { KIND_FORCE, "lb", "lbf" },       { KIND_PRESSURE, "lb", "psi" },
  { KIND_POWER, "kWh", "kW" },    { KIND_ENERGY, "kW", "kWh" },      { KIND_LABOUR, "h", "person-h" },
  { KIND_MACHINE_TIME, "h", "machine-h" }, { KIND_TEMPERATURE_DIFFERENCE, "C", "delta C" },
  { KIND_TEMPERATURE_DIFFERENCE, "F", "delta F" }, { KIND_TEMPERATURE_DIFFERENCE, "K", "delta K" },
};

static bool help_confused(const Quantity *q, Kind kind, QuantityError *error)
{
  for (size_t i = 0; i < sizeof confusions / sizeof *confusions; i++) {
    if (confusions[i].field != kind || strcmp(confusions[i].written, q->unit) != 0) continue;
    Buf text = { 0 };
    quantity_print(q, &text);
    size_t figures = strcspn(buf_text(&text), " ");
    error_help(error, "did you mean `%.*s %s`?", (int)figures, buf_text(&text), confusions[i].meant);
    buf_free(&text);
    return true;
  }
  return false;
}

static bool help_inverse(const Quantity *q, Kind kind, QuantityError *error)
{
  Quantity one = quantity_number(1), inverse;
  if (!is_inverse(q->dimension, kind_row(kind)->dimension) || q->value == 0) return false;
  Number number = number_divide(quantity_get(&one), quantity_get(q));
  inverse = *q;
  inverse.kind = kind;
  inverse.dimension = kind_row(kind)->dimension;
  quantity_set_unit(&inverse, kind_unit(kind, quantity_system(q)));
  quantity_set(&inverse, number);
  Buf text = { 0 };
  quantity_print(&inverse, &text);
  error_help(error, "did you mean the inverse, `%s`?", buf_text(&text));
  buf_free(&text);
  return true;
}

static bool help_missing_unit(const Quantity *q, Kind kind, QuantityError *error)
{
  Kind divisor = missing_factor(kind_row(kind)->dimension, q->dimension);
  if (!divisor || divisor == KIND_COUNT || q->kind == KIND_COUNT || dimension_is_plain(q->dimension)) return false;
  Buf text = { 0 };
  quantity_print(q, &text);
  error_help(error, "did you mean `%s/%s`?", buf_text(&text), kind_unit(divisor, quantity_system(q)));
  buf_free(&text);
  return true;
}

static bool help_plain(const Quantity *q, Kind kind, QuantityError *error)
{
  if (q->kind != KIND_NONE || !dimension_is_plain(q->dimension)) return false;
  error_help(error, "give it a unit: `%s`, `%s` or `%s`", kind_example(kind, 0), kind_example(kind, 1),
             kind_example(kind, 2));
  return true;
}

bool quantity_fits(const Quantity *q, Kind kind, QuantityError *error)
{
  bool nameless = q->kind == KIND_NONE && !dimension_is_plain(q->dimension);
  if (!nameless && kind_accepts(kind, q->kind, q->unit)) return true;
  char text[QUANTITY_TEXT];
  const char *wanted = kind == KIND_NONE ? "a plain number" : kind_name(kind);
  error_say(error, 0, 0, "expected %s, got %s", wanted, quantity_describe(q, text));
  if (kind == KIND_NONE) return false;
  if (!error || help_plain(q, kind, error) || help_confused(q, kind, error) || help_inverse(q, kind, error) ||
      help_missing_unit(q, kind, error))
    return false;
  return error_help(error, "write it like `%s`, `%s` or `%s`", kind_example(kind, 0), kind_example(kind, 1),
                    kind_example(kind, 2));
}
