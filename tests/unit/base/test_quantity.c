#include "support.h"

#include "quantity_support.h"

typedef bool Operation(const Quantity *a, const Quantity *b, Quantity *out, QuantityError *error);

typedef struct {
  const char *a;
  Operation *operation;
  const char *b;
  Kind kind;
  const char *printed;
} Sum;

static void assert_sums(const Sum *cases, size_t count)
{
  for (size_t i = 0; i < count; i++) {
    Quantity a = q_(cases[i].a), b = q_(cases[i].b), result;
    QuantityError error = { .message = "" };
    bool ok = cases[i].operation(&a, &b, &result, &error);
    if (!ok) print_error("%s, %s: %s\n", cases[i].a, cases[i].b, error.message);
    assert_string_equal(error.message, "");
    if (result.kind != cases[i].kind) print_error("%s, %s: %s\n", cases[i].a, cases[i].b, kind_name(result.kind));
    assert_int_equal(result.kind, cases[i].kind);
    assert_prints(&result, cases[i].printed);
  }
}

static void sums_keep_kind_and_first_unit(void **state)
{
  (void)state;
  static const Sum cases[] = {
    { "1 ft", quantity_add, "6 in", KIND_LENGTH, "1.5 ft" },
    { "1 ft", quantity_subtract, "6 in", KIND_LENGTH, "0.5 ft" },
    { "1 in", quantity_add, "25.4 mm", KIND_LENGTH, "2 in" },
    { "1.5 mil", quantity_add, "0.5 mil", KIND_FILM, "2 mil" },
    { "2 pails", quantity_add, "1 pail", KIND_COUNT, "3 pails" },
    { "$0.10", quantity_add, "$0.20", KIND_MONEY, "$0.30" },
    { "80 %", quantity_subtract, "30 %", KIND_FRACTION, "50 %" },
    { "60 GU", quantity_subtract, "15 GU", KIND_GLOSS, "45 GU" },
  };
  assert_sums(cases, COUNT_OF(cases));
}

static void temperatures_and_their_differences_are_told_apart(void **state)
{
  (void)state;
  static const Sum cases[] = {
    { "70 F", quantity_subtract, "65 F", KIND_TEMPERATURE_DIFFERENCE, "5 delta F" },
    { "18 C", quantity_subtract, "59 F", KIND_TEMPERATURE_DIFFERENCE, "3 delta C" },
    { "18 C", quantity_add, "3 delta C", KIND_TEMPERATURE, "21 C" },
    { "3 delta C", quantity_add, "18 C", KIND_TEMPERATURE, "21 C" },
    { "65 F", quantity_subtract, "5 delta C", KIND_TEMPERATURE, "56 F" },
    { "3 delta C", quantity_add, "9 delta F", KIND_TEMPERATURE_DIFFERENCE, "8 delta C" },
    { "2", quantity_multiply, "3 delta C", KIND_TEMPERATURE_DIFFERENCE, "6 delta C" },
  };
  assert_sums(cases, COUNT_OF(cases));
}

static void plain_numbers_and_fractions_scale(void **state)
{
  (void)state;
  static const Sum cases[] = {
    { "2", quantity_multiply, "3 in", KIND_LENGTH, "6 in" },
    { "3 in", quantity_multiply, "2", KIND_LENGTH, "6 in" },
    { "3 in", quantity_divide, "2", KIND_LENGTH, "1.5 in" },
    { "80 %", quantity_multiply, "450 sqft/gal", KIND_SPREAD, "360 sqft/gal" },
    { "1.5 mil", quantity_multiply, "40 %", KIND_FILM, "0.6 mil" },
    { "50 %", quantity_multiply, "50 %", KIND_FRACTION, "25 %" },
    { "2", quantity_multiply, "50 %", KIND_FRACTION, "100 %" },
    { "3 per area", quantity_multiply, "4", KIND_COUNT, "12 per area" },
    { "2", quantity_multiply, "3", KIND_NONE, "6" },
    { "-1", quantity_multiply, "3 in", KIND_LENGTH, "-3 in" },
  };
  assert_sums(cases, COUNT_OF(cases));
}

static void products_and_quotients_find_their_kind(void **state)
{
  (void)state;
  static const Sum cases[] = {
    { "12 ft", quantity_multiply, "10 ft", KIND_AREA, "120 sqft" },
    { "4 m", quantity_multiply, "3 m", KIND_AREA, "12 m2" },
    { "900 sqft", quantity_divide, "450 sqft/gal", KIND_VOLUME, "2 gal" },
    { "20 m2", quantity_divide, "10 m2/L", KIND_VOLUME, "2 L" },
    { "900 sqft", quantity_divide, "2 gal", KIND_SPREAD, "450 sqft/gal" },
    { "1 L", quantity_divide, "10 m2", KIND_FILM, "100 um" },
    { "10 m2", quantity_multiply, "100 um", KIND_VOLUME, "1 L" },
    { "120 sqft", quantity_divide, "10 ft", KIND_LENGTH, "12 ft" },
    { "400 sqft", quantity_divide, "2 h", KIND_PRODUCTION, "200 sqft/h" },
    { "200 sqft/h", quantity_multiply, "2 h", KIND_AREA, "400 sqft" },
    { "400 sqft", quantity_divide, "200 sqft/h", KIND_TIME, "2 h" },
    { "2 ft", quantity_multiply, "30 ft/min", KIND_PRODUCTION, "3600 sqft/h" },
    { "30 ft/min", quantity_multiply, "2 min", KIND_LENGTH, "60 ft" },
    { "60 ft", quantity_divide, "30 ft/min", KIND_TIME, "0.033333 h" },
    { "0.5 gal/min", quantity_multiply, "10 min", KIND_VOLUME, "5 gal" },
    { "5 gal", quantity_divide, "0.5 gal/min", KIND_TIME, "0.166667 h" },
    { "$62/h", quantity_multiply, "2 h", KIND_MONEY, "$124" },
    { "2 person-h", quantity_multiply, "$62/h", KIND_MONEY, "$124" },
    { "2 persons", quantity_multiply, "3 h", KIND_LABOUR, "6 person-h" },
    { "EUR 55/h", quantity_multiply, "3 machine-h", KIND_MONEY, "EUR 165" },
    { "$0.35/sqft", quantity_multiply, "1000 sqft", KIND_MONEY, "$350" },
    { "$350", quantity_divide, "1000 sqft", KIND_PRICE_PER_AREA, "$0.35/sqft" },
    { "$18/pail", quantity_multiply, "3 pails", KIND_MONEY, "$54" },
    { "5 gal/pail", quantity_multiply, "2 pails", KIND_VOLUME, "10 gal" },
    { "10 gal", quantity_divide, "5 gal/pail", KIND_COUNT, "2 pails" },
    { "1 per 500 sqft", quantity_multiply, "12000 sqft", KIND_COUNT, "24 each" },
    { "18000 sqft", quantity_divide, "9000 sqft/set", KIND_COUNT, "2 sets" },
    { "480 V", quantity_multiply, "30 A", KIND_POWER, "14.4 kW" },
    { "7.5 kW", quantity_multiply, "2 h", KIND_ENERGY, "15 kWh" },
    { "12 ft", quantity_divide, "3 ft", KIND_NONE, "4" },
    { "12 ft", quantity_divide, "2 GU", KIND_NONE, "1.8288 m" },
    { "3 in", quantity_divide, "5 mil", KIND_NONE, "600" },
    { "300 lbf", quantity_multiply, "2 m", KIND_NONE, "2668.932969 kg*m2/s2" },
    { "700 rpm", quantity_multiply, "2 m", KIND_NONE, "23.333333 m/s" },
  };
  assert_sums(cases, COUNT_OF(cases));
}

typedef struct {
  const char *a;
  Operation *operation;
  const char *b, *message, *help;
} Clash;

static void assert_clashes(const Clash *cases, size_t count)
{
  for (size_t i = 0; i < count; i++) {
    Quantity a = q_(cases[i].a), b = q_(cases[i].b), result = { .kind = KIND_COUNT_LAST };
    QuantityError error;
    assert_false(cases[i].operation(&a, &b, &result, &error));
    assert_says(&error, cases[i].a, cases[i].message, cases[i].help);
    assert_int_equal(result.kind, KIND_COUNT_LAST);
    assert_false(cases[i].operation(&a, &b, &result, NULL));
  }
}

static void sums_of_other_dimensions_name_both_operands_and_what_is_missing(void **state)
{
  (void)state;
  static const Clash cases[] = {
    { "450 sqft/gal", quantity_add, "3 mil", "450 sqft/gal (spread rate) and 3 mil (film thickness)",
      "the inverse" },
    { "3 in", quantity_add, "2 h", "cannot add 3 in (length) and 2 h (time)", "" },
    { "3 in", quantity_add, "2", "3 in (length) and 2 (plain number)", "such as `3 in`" },
    { "2", quantity_add, "3 mil", "2 (plain number) and 3 mil", "such as `3 mil`" },
    { "400 sqft", quantity_add, "20 ft", "400 sqft (area)", "the second lacks one factor: multiply it by length" },
    { "200 sqft/h", quantity_subtract, "400 sqft", "200 sqft/h",
      "the first lacks one factor: multiply it by time" },
  };
  assert_clashes(cases, COUNT_OF(cases));
}

static void dimensions_stand_in_aligned_rows(void **state)
{
  (void)state;
  Quantity a = q_("450 sqft/gal"), b = q_("3 h"), out;
  QuantityError error;
  assert_false(quantity_add(&a, &b, &out, &error));
  assert_string_equal(error.note, "450 sqft/gal (spread rate)  length^-1\n"
                                  "3 h (time)                  time");
}

static void kinds_of_one_dimension_do_not_mix(void **state)
{
  (void)state;
  static const Clash cases[] = {
    { "3 in", quantity_add, "3 mil", "3 in (length) and 3 mil (film thickness)",
      "one is length and the other film" },
    { "3 h", quantity_add, "3 person-h", "3 h (time) and 3 person-h (labour)", "one is time and the other labour" },
    { "2 pails", quantity_add, "3 bags", "2 pails (count) and 3 bags (count)", "pails and bags" },
    { "$5", quantity_add, "EUR 5", "$5 (money) and EUR 5 (money)", "one currency" },
    { "80 %", quantity_add, "0.1", "80 % (fraction) and 0.1 (plain number)", "convert by name" },
    { "85 dBA", quantity_add, "3 dBA", "85 dBA (sound level)", "logarithms" },
    { "18 C", quantity_add, "3 C", "18 C (temperature) and 3 C (temperature)", "`3 delta C` or `5 delta F`" },
    { "3 delta C", quantity_subtract, "18 C", "3 delta C (temperature difference) minus 18 C",
      "one is a temperature" },
  };
  assert_clashes(cases, COUNT_OF(cases));
}

static void senseless_products_are_refused_by_name(void **state)
{
  (void)state;
  static const Clash cases[] = {
    { "18 C", quantity_multiply, "2", "cannot multiply 18 C (temperature) by 2", "only differences multiply" },
    { "18 C", quantity_divide, "2 h", "cannot divide 18 C", "only differences multiply" },
    { "85 dBA", quantity_multiply, "2", "85 dBA", "compared, not multiplied" },
    { "3 in", quantity_divide, "0", "cannot divide 3 in (length) by 0", "division by zero" },
    { "3 in", quantity_divide, "0 h", "cannot divide 3 in (length) by 0 h (time)", "division by zero" },
    { "2 pails", quantity_divide, "3 bags", "2 pails", "count different things" },
    { "5 gal/pail", quantity_multiply, "2 bags", "5 gal/pail", "count different things" },
    { "$5", quantity_divide, "EUR 5", "$5", "one currency" },
    { "$5", quantity_multiply, "$5", "$5", "money times money" },
    { "3 per area", quantity_multiply, "2 h", "3 per area", "plain numbers only" },
    { "2 m9", quantity_multiply, "2 m", "2 m9", "exponents" },
    { "1e300 m", quantity_multiply, "1e300", "1e+300 m", "the product is too large" },
    { "1e308 m", quantity_add, "1e308 m", "1e+308 m", "the sum is too large" },
    { "18 C", quantity_subtract, "500 delta C", "18 C", "below absolute zero" },
  };
  assert_clashes(cases, COUNT_OF(cases));
}

static void what_is_not_finite_is_refused_by_name(void **state)
{
  (void)state;
  Quantity a = q_("3 in"), out;
  QuantityError error;
  int order;
  const double values[] = { INFINITY, -INFINITY, NAN };
  for (size_t i = 0; i < COUNT_OF(values); i++) {
    Quantity bad = quantity_number(values[i]);
    assert_false(quantity_multiply(&a, &bad, &out, &error));
    assert_says(&error, "3 in * bad", "cannot multiply 3 in (length) by", "the second is not a finite number");
    assert_false(quantity_divide(&bad, &a, &out, &error));
    assert_says(&error, "bad / 3 in", "cannot divide", "the first is not a finite number");
    assert_false(quantity_compare(&bad, &bad, &order, &error));
    assert_says(&error, "bad, bad", "cannot compare", "not a finite number");
  }
}

static void comparison_is_exact_across_units(void **state)
{
  (void)state;
  static const struct { const char *a, *b; int want; } cases[] = {
    { "1 in", "25.4 mm", 0 },       { "1 ft", "12.0000001 in", -1 }, { "1 lb", "0.45359237 kg", 0 },
    { "1 gal", "231 in3", 0 },      { "212 F", "100 C", 0 },         { "-40 F", "-40 C", 0 },
    { "85 dBA", "90 dBA", -1 },     { "3 yd", "9 ft", 0 },           { "1 psi", "6894.757293168 Pa", 1 },
    { "60 min", "1 h", 0 },         { "$0.30", "$0.3", 0 },          { "99999999999999999999 m", "1 m", 1 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Quantity a = q_(cases[i].a), b = q_(cases[i].b);
    int order = 7;
    assert_true(quantity_compare(&a, &b, &order, NULL));
    if (order != cases[i].want) print_error("%s against %s\n", cases[i].a, cases[i].b);
    assert_int_equal(order, cases[i].want);
  }
}

static void kinds_do_not_compare_across(void **state)
{
  (void)state;
  Quantity a = q_("3 mil"), b = q_("3 in");
  QuantityError error;
  int order = 7;
  assert_false(quantity_compare(&a, &b, &order, &error));
  assert_says(&error, "3 mil, 3 in", "cannot compare 3 mil (film thickness) with 3 in (length)", "convert by name");
  assert_int_equal(order, 7);
}

static void a_number_from_a_program_is_exact_if_it_is_a_short_decimal(void **state)
{
  (void)state;
  Quantity a = quantity_of(0.1, "ft"), b = quantity_of(1.2, "in"), sum, third = quantity_number(1.0 / 3);
  assert_true(a.exact && b.exact);
  assert_false(third.exact);
  assert_true(quantity_subtract(&a, &b, &sum, NULL));
  assert_near(sum.value, 0, 0);
  assert_near(quantity_of(18, "C").value, 291.15, 0);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(sums_keep_kind_and_first_unit),
    cmocka_unit_test(temperatures_and_their_differences_are_told_apart),
    cmocka_unit_test(plain_numbers_and_fractions_scale),
    cmocka_unit_test(products_and_quotients_find_their_kind),
    cmocka_unit_test(sums_of_other_dimensions_name_both_operands_and_what_is_missing),
    cmocka_unit_test(dimensions_stand_in_aligned_rows),
    cmocka_unit_test(kinds_of_one_dimension_do_not_mix),
    cmocka_unit_test(senseless_products_are_refused_by_name),
    cmocka_unit_test(what_is_not_finite_is_refused_by_name),
    cmocka_unit_test(comparison_is_exact_across_units),
    cmocka_unit_test(kinds_do_not_compare_across),
    cmocka_unit_test(a_number_from_a_program_is_exact_if_it_is_a_short_decimal),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
