#include "support.h"

#include "quantity_support.h"

static void a_field_takes_its_own_kind_and_the_spellings_it_shares(void **state)
{
  (void)state;
  static const struct { const char *text; Kind field; } cases[] = {
    { "3 in", KIND_LENGTH },        { "75 mm", KIND_LENGTH },         { "3 mil", KIND_FILM },
    { "75 um", KIND_FILM },         { "0.08 mm", KIND_FILM },         { "0.002 gal/sqft", KIND_FILM },
    { "40 um", KIND_GRAIN },        { "1.5 mil", KIND_GRAIN },        { "0.1 mm", KIND_GRAIN },
    { "450 sqft/gal", KIND_SPREAD }, { "28 d", KIND_TIME },           { "1 h 30 min", KIND_TIME },
    { "3 person-h", KIND_LABOUR },  { "80 %", KIND_FRACTION },        { "0.8", KIND_FRACTION },
    { "2 pails", KIND_COUNT },      { "2", KIND_COUNT },              { "1 per 500 sqft", KIND_COUNT_PER_AREA },
    { "3 per area", KIND_COUNT_PER_AREA }, { "$62/person-h", KIND_PAY_RATE }, { "2", KIND_NONE },
    { "0.05 mg/m3", KIND_CONCENTRATION },  { "0.05 g/m3", KIND_CONCENTRATION },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Quantity q = q_(cases[i].text);
    QuantityError error = { .message = "" };
    if (!quantity_fits(&q, cases[i].field, &error)) print_error("%s: %s\n", cases[i].text, error.message);
    assert_string_equal(error.message, "");
  }
}

static void a_misfit_says_what_was_expected_and_the_nearest_legal_form(void **state)
{
  (void)state;
  static const struct { const char *text; Kind field; const char *message, *help; } cases[] = {
    { "2 h", KIND_LENGTH, "expected length, got 2 h (time)", "`3 in`, `12' 6\"` or `75 mm`" },
    { "3", KIND_LENGTH, "expected length, got 3 (plain number)", "give it a unit: `3 in`" },
    { "450 sqft/gal", KIND_LENGTH, "expected length, got 450 sqft/gal (spread rate)", "" },
    { "3 mil", KIND_LENGTH, "expected length, got 3 mil (film thickness)", "" },
    { "3 in", KIND_FILM, "expected film thickness, got 3 in (length)", "`3 mil`, `75 um` or `0.08 mm`" },
    { "0.002 gal/sqft", KIND_SPREAD, "expected spread rate", "did you mean the inverse, `500 sqft/gal`?" },
    { "450 sqft", KIND_SPREAD, "expected spread rate, got 450 sqft (area)", "did you mean `450 sqft/gal`?" },
    { "40 m2", KIND_PRODUCTION, "expected production rate", "did you mean `40 m2/h`?" },
    { "$62", KIND_PAY_RATE, "expected pay rate, got $62 (money)", "did you mean `$62/h`?" },
    { "$0.35", KIND_PRICE_PER_AREA, "expected price per area", "did you mean `$0.35/sqft`?" },
    { "EUR 4", KIND_PRICE_PER_AREA, "expected price per area", "did you mean `EUR 4/m2`?" },
    { "3 h", KIND_LABOUR, "expected labour, got 3 h (time)", "`3 person-h`" },
    { "3 C", KIND_TEMPERATURE_DIFFERENCE, "got 3 C (temperature)", "did you mean `3 delta C`?" },
    { "80 %", KIND_NONE, "expected a plain number, got 80 % (fraction)", "" },
    { "2 pails", KIND_COUNT_PER_AREA, "expected count per area", "`3 per area`" },
    { "5 m", KIND_TIME, "expected time, got 5 m (length)", "did you mean `5 min`?" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Quantity q = q_(cases[i].text);
    QuantityError error;
    assert_false(quantity_fits(&q, cases[i].field, &error));
    assert_says(&error, cases[i].text, cases[i].message, cases[i].help);
    assert_false(quantity_fits(&q, cases[i].field, NULL));
  }
}

static void a_product_without_a_kind_fits_no_field(void **state)
{
  (void)state;
  Quantity a = q_("12 ft"), b = q_("2 GU"), nameless;
  QuantityError error;
  assert_true(quantity_divide(&a, &b, &nameless, NULL));
  assert_false(quantity_fits(&nameless, KIND_NONE, &error));
  assert_false(quantity_fits(&nameless, KIND_COUNT, &error));
  assert_false(quantity_fits(&nameless, KIND_LENGTH, &error));
  assert_says(&error, "12 ft / 2 GU", "expected length, got 1.8288 m (no kind)", "");
}

static void a_value_is_had_in_any_unit_of_its_kind(void **state)
{
  (void)state;
  static const struct { const char *text, *unit; double want; } cases[] = {
    { "3 in", "mm", 76.2 },             { "1.5 mil", "um", 38.1 },        { "40 um", "mil", 40 / 25.4 },
    { "3 mil", "in", 0.003 },           { "18 C", "F", 64.4 },            { "3 delta C", "delta F", 5.4 },
    { "400 sqft/gal", "m2/L", 9.8169546994 }, { "1 h 30 min", "min", 90 }, { "$62/h", "$/d", 1488 },
    { "80 %", "%", 80 },                { "0.8", "", 0.8 },               { "2 pails", "pails", 2 },
    { "9000 sqft/set", "m2/set", 836.12736 }, { "EUR 55/h", "EUR/min", 55.0 / 60 },
    { "1 per 500 sqft", "per 1000 sqft", 2 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Quantity q = q_(cases[i].text);
    double got = NAN;
    if (!quantity_in(&q, cases[i].unit, &got, NULL)) print_error("%s in %s\n", cases[i].text, cases[i].unit);
    assert_near(got, cases[i].want, 1e-9 * fabs(cases[i].want));
  }
}

static void a_unit_of_another_kind_is_refused(void **state)
{
  (void)state;
  static const struct { const char *text, *unit, *message; } cases[] = {
    { "3 in", "h", "3 in (length) does not convert to `h` (time)" },
    { "3 in", "gal/sqft", "does not convert to `gal/sqft` (film thickness)" },
    { "450 sqft/gal", "gal/sqft", "does not convert to `gal/sqft` (film thickness)" },
    { "3 person-h", "h", "3 person-h (labour) does not convert to `h` (time)" },
    { "18 C", "delta C", "18 C (temperature) does not convert" },
    { "2 pails", "bags", "2 pails (count) does not convert to `bags` (count)" },
    { "$5", "EUR", "does not convert to `EUR` (money)" },
    { "3 in", "parsnips", "unknown unit `parsnips`" },
    { "3 in", "3 mm", "is a number where a unit is wanted" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Quantity q = q_(cases[i].text);
    QuantityError error;
    double untouched = 7;
    assert_false(quantity_in(&q, cases[i].unit, &untouched, &error));
    assert_says(&error, cases[i].unit, cases[i].message, "");
    assert_near(untouched, 7, 0);
  }
}

static void another_kind_is_taken_by_explicit_request(void **state)
{
  (void)state;
  static const struct { const char *text; Kind kind; const char *printed; } cases[] = {
    { "3 mil", KIND_LENGTH, "3 mil" },        { "75 um", KIND_FILM, "75 um" },
    { "2 h", KIND_LABOUR, "2 person-h" },     { "3 person-h", KIND_TIME, "3 h" },
    { "0.8", KIND_FRACTION, "0.8" },         { "12 ft", KIND_NONE, "3.6576 m" },
    { "0.002 gal/sqft", KIND_LENGTH, "0.000267361 ft" }, { "3 in", KIND_LENGTH, "3 in" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Quantity q = q_(cases[i].text), as;
    assert_true(quantity_as(&q, cases[i].kind, &as, NULL));
    assert_int_equal(as.kind, cases[i].kind);
    assert_prints(&as, cases[i].printed);
  }
}

static void no_request_turns_one_dimension_or_scale_into_another(void **state)
{
  (void)state;
  static const struct { const char *text; Kind kind; const char *message, *help; } cases[] = {
    { "3 in", KIND_AREA, "3 in (length) cannot be taken as area", "`12,000 sqft`" },
    { "450 sqft/gal", KIND_LENGTH, "cannot be taken as length", "" },
    { "18 C", KIND_TEMPERATURE_DIFFERENCE, "cannot be taken as temperature difference", "`5 delta F`" },
    { "3 delta C", KIND_TEMPERATURE, "cannot be taken as temperature", "" },
    { "85", KIND_SOUND, "cannot be taken as sound level", "" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Quantity q = q_(cases[i].text), as = { .kind = KIND_COUNT_LAST };
    QuantityError error;
    assert_false(quantity_as(&q, cases[i].kind, &as, &error));
    assert_says(&error, cases[i].text, cases[i].message, cases[i].help);
    assert_int_equal(as.kind, KIND_COUNT_LAST);
  }
}

static void every_example_of_a_kind_is_legal_and_fits_it(void **state)
{
  (void)state;
  for (int k = 0; k < KIND_COUNT_LAST; k++) {
    for (int i = 0; i < 3; i++) {
      Quantity q = q_(kind_example((Kind)k, i));
      QuantityError error = { .message = "" };
      if (!quantity_fits(&q, (Kind)k, &error)) print_error("%s: %s\n", kind_name((Kind)k), error.message);
      assert_string_equal(error.message, "");
    }
  }
}

static void every_kind_is_found_by_its_name(void **state)
{
  (void)state;
  Kind found;
  for (int k = 0; k < KIND_COUNT_LAST; k++) {
    assert_true(kind_find(kind_name((Kind)k), &found));
    assert_int_equal(found, k);
  }
  assert_false(kind_find("colour", &found));
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_field_takes_its_own_kind_and_the_spellings_it_shares),
    cmocka_unit_test(a_misfit_says_what_was_expected_and_the_nearest_legal_form),
    cmocka_unit_test(a_product_without_a_kind_fits_no_field),
    cmocka_unit_test(a_value_is_had_in_any_unit_of_its_kind),
    cmocka_unit_test(a_unit_of_another_kind_is_refused),
    cmocka_unit_test(another_kind_is_taken_by_explicit_request),
    cmocka_unit_test(no_request_turns_one_dimension_or_scale_into_another),
    cmocka_unit_test(every_example_of_a_kind_is_legal_and_fits_it),
    cmocka_unit_test(every_kind_is_found_by_its_name),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
