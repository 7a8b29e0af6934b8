/* quantity.c - arithmetic: the number, the dimension, the kind and the unit of sums and products. */
#include "base/quantity.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/kinds.h"
#include "base/quantity_parts.h"

typedef enum { ADD, SUBTRACT, COMPARE, MULTIPLY, DIVIDE } Operator;

static const struct {
  const char *before, *between, *name;
} words[] = {
  [ADD] = { "cannot add ", " and ", "sum" },
  [SUBTRACT] = { "cannot compute ", " minus ", "difference" },
  [COMPARE] = { "cannot compare ", " with ", "comparison" },
  [MULTIPLY] = { "cannot multiply ", " by ", "product" },
  [DIVIDE] = { "cannot divide ", " by ", "quotient" },
};

static bool refuse(Operator op, const Quantity *a, const Quantity *b, QuantityError *error)
{
  char left[QUANTITY_TEXT], right[QUANTITY_TEXT];
  return error_say(error, 0, 0, "%s%s%s%s", words[op].before, quantity_describe(a, left), words[op].between,
                   quantity_describe(b, right));
}

static bool check_finite(Operator op, const Quantity *a, const Quantity *b, QuantityError *error)
{
  if (isfinite(a->value) && isfinite(b->value)) return true;
  refuse(op, a, b, error);
  return error_help(error, "%s is not a finite number", isfinite(a->value) ? "the second" : "the first");
}

/* Sets the number of a result; refuses one that is too large, or a temperature below absolute zero. */
static bool finish(Operator op, const Quantity *a, const Quantity *b, Quantity *result, Number number,
                   Quantity *out, QuantityError *error)
{
  bool cold = result->kind == KIND_TEMPERATURE && number.value < 0;
  if (!isfinite(number.value) || cold) {
    refuse(op, a, b, error);
    return error_help(error, cold ? "the %s lies below absolute zero" : "the %s is too large for a number",
                      words[op].name);
  }
  quantity_set(result, number);
  *out = *result;
  return true;
}

static bool same_sort(const Quantity *a, const Quantity *b)
{
  return a->kind == b->kind && dimension_equal(a->dimension, b->dimension) && a->thing == b->thing &&
         strcmp(a->currency, b->currency) == 0;
}

/* Kind and unit of a + b or a - b, where one is a temperature or a difference of temperatures. */
static bool temperature_result(Operator op, const Quantity *a, const Quantity *b, Quantity *result)
{
  bool a_point = a->kind == KIND_TEMPERATURE, b_point = b->kind == KIND_TEMPERATURE;
  if (a_point && b_point && op == SUBTRACT) {
    *result = *a;
    result->kind = KIND_TEMPERATURE_DIFFERENCE;
    snprintf(result->unit, sizeof result->unit, "delta %.8s", a->unit);
    return true;
  }
  if (a_point && b->kind == KIND_TEMPERATURE_DIFFERENCE) {
    *result = *a;
    return true;
  }
  if (b_point && a->kind == KIND_TEMPERATURE_DIFFERENCE && op == ADD) {
    *result = *b;
    return true;
  }
  return false;
}

static bool sum(Operator op, const Quantity *a, const Quantity *b, Quantity *out, QuantityError *error)
{
  if (!check_finite(op, a, b, error)) return false;
  Quantity result = *a;
  bool is_point = a->kind == KIND_TEMPERATURE || b->kind == KIND_TEMPERATURE;
  bool allowed = is_point ? temperature_result(op, a, b, &result) : same_sort(a, b) && a->kind != KIND_SOUND;
  if (!allowed) {
    refuse(op, a, b, error);
    return quantity_explain(a, b, error);
  }
  Number left = quantity_get(a), right = quantity_get(b);
  Number number = op == ADD ? number_add(left, right) : number_subtract(left, right);
  return finish(op, a, b, &result, number, out, error);
}

bool quantity_add(const Quantity *a, const Quantity *b, Quantity *out, QuantityError *error)
{
  return sum(ADD, a, b, out, error);
}

bool quantity_subtract(const Quantity *a, const Quantity *b, Quantity *out, QuantityError *error)
{
  return sum(SUBTRACT, a, b, out, error);
}

bool quantity_compare(const Quantity *a, const Quantity *b, int *out, QuantityError *error)
{
  if (!check_finite(COMPARE, a, b, error)) return false;
  if (!same_sort(a, b)) {
    refuse(COMPARE, a, b, error);
    return quantity_explain(a, b, error);
  }
  *out = number_compare(quantity_get(a), quantity_get(b));
  return true;
}

/* Plain numbers and fractions scale: the other operand keeps its kind and its unit. */
static bool scales(const Quantity *q)
{
  return q->kind == KIND_FRACTION || (q->kind == KIND_NONE && dimension_is_plain(q->dimension));
}

/* "2 persons" times "3 h" is labour. */
static bool is_crew_time(const Quantity *a, const Quantity *b)
{
  return a->kind == KIND_COUNT && strcmp(thing_rows[a->thing].name, "person") == 0 && b->kind == KIND_TIME;
}

/* What cannot enter a product, though it may be scaled. */
static const char *why_no_product(const Quantity *a, const Quantity *b, bool divide)
{
  const Quantity *both[] = { a, b };
  for (int i = 0; i < 2; i++) {
    if (both[i]->kind == KIND_TEMPERATURE) return "a temperature is a point on a scale; only differences multiply";
    if (both[i]->kind == KIND_SOUND) return "sound levels are logarithms; they are compared, not multiplied";
    if (thing_is_frequency(both[i]->thing) && !scales(both[1 - i]))
      return "a count for each area, pour, room or shift is multiplied by plain numbers only";
  }
  if (a->thing && b->thing && a->thing != b->thing) return "they count different things, which do not convert";
  if (a->currency[0] && b->currency[0] && strcmp(a->currency, b->currency) != 0)
    return "one job counts in one currency; convert one amount first";
  if (a->dimension.power[DIM_MONEY] && b->dimension.power[DIM_MONEY] && !divide &&
      a->dimension.power[DIM_MONEY] == b->dimension.power[DIM_MONEY])
    return "money times money means nothing";
  return NULL;
}

/* US customary if a unit of either is, metric if one is metric. */
static UnitSystem product_system(const Quantity *a, const Quantity *b)
{
  Compound left = quantity_unit(a), right = quantity_unit(b);
  return (left.is_metric || right.is_metric) && !left.is_us && !right.is_us ? UNITS_METRIC : UNITS_US;
}

/* Kind, thing, currency and unit of the product of two operands of which neither merely scales. */
static bool product_sort(const Quantity *a, const Quantity *b, bool divide, Quantity *result)
{
  Dimension dimension;
  if (!dimension_combine(a->dimension, b->dimension, divide ? -1 : 1, &dimension)) return false;
  *result = (Quantity){ .dimension = dimension, .thing = a->thing ? a->thing : b->thing };
  result->kind = dimension_is_plain(dimension) ? KIND_NONE : kind_of_product(a->kind, b->kind, divide, dimension);
  if (!divide && (is_crew_time(a, b) || is_crew_time(b, a))) {
    result->kind = KIND_LABOUR;
    result->dimension = kind_row(KIND_LABOUR)->dimension;
  }
  if (!result->dimension.power[DIM_COUNT]) result->thing = 0;
  if (dimension.power[DIM_MONEY]) {
    const Quantity *money = a->currency[0] ? a : b;
    memcpy(result->currency, money->currency, sizeof result->currency);
    memcpy(result->unit, money->unit, sizeof result->unit);
  }
  if (result->kind == KIND_NONE) quantity_set_si_unit(result);
  else quantity_set_unit(result, kind_unit(result->kind, product_system(a, b)));
  return true;
}

static bool product(Operator op, const Quantity *a, const Quantity *b, Quantity *out, QuantityError *error)
{
  bool divide = op == DIVIDE;
  if (!check_finite(op, a, b, error)) return false;
  const char *why = why_no_product(a, b, divide);
  if (!why && divide && b->value == 0) why = "division by zero";
  Quantity result = *a;
  if (!why && !divide && scales(a) && (!scales(b) || a->kind == KIND_NONE)) result = *b;
  else if (!why && !scales(b) && !product_sort(a, b, divide, &result)) why = "the exponents would be too large";
  else if (!why && divide && a->kind == b->kind && dimension_is_plain(a->dimension)) result = quantity_number(0);
  if (why) {
    refuse(op, a, b, error);
    return error_help(error, "%s", why);
  }
  Number left = quantity_get(a), right = quantity_get(b);
  return finish(op, a, b, &result, divide ? number_divide(left, right) : number_multiply(left, right), out, error);
}

bool quantity_multiply(const Quantity *a, const Quantity *b, Quantity *out, QuantityError *error)
{
  return product(MULTIPLY, a, b, out, error);
}

bool quantity_divide(const Quantity *a, const Quantity *b, Quantity *out, QuantityError *error)
{
  return product(DIVIDE, a, b, out, error);
}
