#include "support.h"

#include "quantity_support.h"

static void a_quantity_prints_as_it_was_written(void **state)
{
  (void)state;
  static const struct { double value; const char *unit, *want; } cases[] = {
    { 450, "sqft/gal", "450 sqft/gal" }, { 0.1, "ft", "0.1 ft" },          { 1.0 / 3, "in", "0.333333 in" },
    { -0.0, "in", "0 in" },              { 1e-7, "m", "0.0000001 m" },     { 2.0 / 3e5, "m", "0.00000666667 m" },
    { 1e20, "m", "1e+20 m" },            { 1250.5, "$", "$1250.50" },      { 1, "pail", "1 pail" },
    { 0.5, "pail", "0.5 pails" },        { 1, "week", "1 week" },          { 2, "short ton", "2 short tons" },
    { 62, "EUR/h", "EUR 62/h" }, { 2, "each/100 m2", "2 per 100 m2" }, { 2, "each/h", "2 each/h" },
    { 3, "per area", "3 per area" },  { 0.0005, "in", "0.0005 in" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Quantity q = quantity_of(cases[i].value, cases[i].unit);
    assert_prints(&q, cases[i].want);
  }
}

static void display_uses_the_units_of_the_document(void **state)
{
  (void)state;
  static const struct { const char *text, *us, *metric; } cases[] = {
    { "12,000 sqft", "12,000 sqft", "1,115 m2" },
    { "149.0 m2", "1,604 sqft", "149 m2" },
    { "150.5 in", "12.54 ft", "3.82 m" },
    { "6 in", "6 in", "152.4 mm" },
    { "0 ft", "0 ft", "0 m" },
    { "75 um", "75 um", "75 um" },
    { "3 mil", "3 mil", "76.2 um" },
    { "450 sqft/gal", "450 sqft/gal", "11 m2/L" },
    { "90 min", "1.5 h", "1.5 h" },
    { "20 min", "20 min", "20 min" },
    { "28 d", "28 d", "28 d" },
    { "18 C", "64 F", "18 C" },
    { "5 delta F", "5 delta F", "2.8 delta C" },
    { "4000 psi", "4,000 psi", "27.6 MPa" },
    { "10 hp", "10 hp", "7.5 kW" },
    { "25 cfm", "25 cfm", "707.92 L/min" },
    { "3 yd3", "3 yd3", "2,293.7 L" },
    { "3 lb/1000 sqft/24 h", "3 lb/1000 sqft/24 h", "0.00061 kg/m2/h" },
    { "$1250.5", "$1,250.50", "$1,250.50" },
    { "-$1250", "-$1,250.00", "-$1,250.00" },
    { "$0.35/sqft", "$0.35/sqft", "$3.77/m2" },
    { "$0.0035/sqft", "$0.0035/sqft", "$0.0377/m2" },
    { "EUR 55/h", "€55.00/h", "€55.00/h" },
    { "CHF 900", "CHF 900.00", "CHF 900.00" },
    { "$18/pail", "$18.00/pail", "$18.00/pail" },
    { "2 pails", "2 pails", "2 pails" },
    { "24 each", "24", "24" },
    { "1 per 500 sqft", "1 per 500 sqft", "2.15 per 100 m2" },
    { "9000 sqft/set", "9,000 sqft/set", "836 m2/set" },
    { "12345.678", "12,345.678", "12,345.678" },
    { "0.004 gal", "0.004 gal", "15.1 mL" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Quantity q = q_(cases[i].text);
    Buf us = { 0 }, metric = { 0 };
    quantity_display(&q, UNITS_US, 0, &us);
    quantity_display(&q, UNITS_METRIC, 0, &metric);
    assert_string_equal(buf_text(&us), cases[i].us);
    assert_string_equal(buf_text(&metric), cases[i].metric);
    buf_free(&us);
    buf_free(&metric);
  }
}

static void digits_ask_for_significant_figures(void **state)
{
  (void)state;
  static const struct { const char *text; int digits; const char *want; } cases[] = {
    { "450 sqft/gal", 2, "450 sqft/gal" }, { "1/3 ft", 3, "4 in" },      { "12.3456 ft", 4, "12.35 ft" },
    { "12,345.678", 6, "12,345.7" },       { "12345.678", 2, "12,000" }, { "$62.50/h", 3, "$62.5/h" },
    { "0", 3, "0" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Quantity q = q_(cases[i].text);
    Buf text = { 0 };
    quantity_display(&q, UNITS_US, cases[i].digits, &text);
    assert_string_equal(buf_text(&text), cases[i].want);
    buf_free(&text);
  }
}

static void display_changes_no_value(void **state)
{
  (void)state;
  Quantity q = q_("150.5 in"), before = q;
  Buf text = { 0 };
  quantity_display(&q, UNITS_METRIC, 0, &text);
  buf_free(&text);
  assert_memory_equal(&q, &before, sizeof q);
}

static void dimensions_are_written_in_words(void **state)
{
  (void)state;
  static const struct { const char *text, *want; } cases[] = {
    { "450 sqft/gal", "length^-1" }, { "$62/h", "time^-1 money" }, { "3", "none" },
    { "5 gal/pail", "length^3 count^-1" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Buf text = { 0 };
    dimension_print(q_(cases[i].text).dimension, &text);
    assert_string_equal(buf_text(&text), cases[i].want);
    buf_free(&text);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_quantity_prints_as_it_was_written),
    cmocka_unit_test(display_uses_the_units_of_the_document),
    cmocka_unit_test(digits_ask_for_significant_figures),
    cmocka_unit_test(display_changes_no_value),
    cmocka_unit_test(dimensions_are_written_in_words),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
