#include "support.h"

#include "quantity_support.h"

typedef struct {
  const char *text;
  double value; /* coherent SI */
  Kind kind;
  const char *printed;
} Reading;

static void assert_readings(const Reading *cases, size_t count, UnitRules rules)
{
  for (size_t i = 0; i < count; i++) {
    Quantity q = read_right(cases[i].text, rules);
    if (q.kind != cases[i].kind) print_error("%s: %s\n", cases[i].text, kind_name(q.kind));
    assert_int_equal(q.kind, cases[i].kind);
    assert_near(q.value, cases[i].value, 1e-15 * fabs(cases[i].value));
    assert_prints(&q, cases[i].printed);
  }
}

static void lengths_are_read_as_a_tape_shows_them(void **state)
{
  (void)state;
  static const Reading cases[] = {
    { "3 in", 0.0762, KIND_LENGTH, "3 in" },
    { "3in", 0.0762, KIND_LENGTH, "3 in" },
    { "3 in.", 0.0762, KIND_LENGTH, "3 in" },
    { "1 1/2 in", 0.0381, KIND_LENGTH, "1.5 in" },
    { "1-1/2 in", 0.0381, KIND_LENGTH, "1.5 in" },
    { "1½ in", 0.0381, KIND_LENGTH, "1.5 in" },
    { "½ in", 0.0127, KIND_LENGTH, "0.5 in" },
    { "¼″", 0.00635, KIND_LENGTH, "0.25 in" },
    { "3/4\"", 0.01905, KIND_LENGTH, "0.75 in" },
    { ".5 in", 0.0127, KIND_LENGTH, "0.5 in" },
    { "12' 6\"", 3.81, KIND_LENGTH, "12.5 ft" },
    { "12′ 6″", 3.81, KIND_LENGTH, "12.5 ft" },
    { "12 ft 6 in", 3.81, KIND_LENGTH, "12.5 ft" },
    { "12'-6 1/2\"", 3.8227, KIND_LENGTH, "150.5 in" }, /* no short decimal of a foot */
    { "-12' 6\"", -3.81, KIND_LENGTH, "-12.5 ft" },
    { "−3 in", -0.0762, KIND_LENGTH, "-3 in" },
    { "6 feet", 1.8288, KIND_LENGTH, "6 ft" },
    { "75 mm", 0.075, KIND_LENGTH, "75 mm" },
    { "1.5 mil", 3.81e-5, KIND_FILM, "1.5 mil" },
    { "3 mils", 7.62e-5, KIND_FILM, "3 mil" },
    { "40 um", 4e-5, KIND_GRAIN, "40 um" },
    { "40 µm", 4e-5, KIND_GRAIN, "40 um" }, /* U+00B5, the micro sign */
    { "40 μm", 4e-5, KIND_GRAIN, "40 um" }, /* U+03BC, the Greek letter */
    { "40 microns", 4e-5, KIND_GRAIN, "40 um" },
  };
  assert_readings(cases, COUNT_OF(cases), (UnitRules){ 0 });
}

static void areas_volumes_and_rates_are_read_in_every_usual_spelling(void **state)
{
  (void)state;
  static const Reading cases[] = {
    { "1,250 sqft", 116.1288, KIND_AREA, "1250 sqft" },
    { "1,234,567 sqft", 1234567 * 0.09290304, KIND_AREA, "1234567 sqft" },
    { "10 ft2", 0.9290304, KIND_AREA, "10 ft2" },
    { "10 ft^2", 0.9290304, KIND_AREA, "10 ft2" },
    { "10 ft²", 0.9290304, KIND_AREA, "10 ft2" },
    { "10 sq ft", 0.9290304, KIND_AREA, "10 sqft" },
    { "10 sq. ft.", 0.9290304, KIND_AREA, "10 sqft" },
    { "10 square feet", 0.9290304, KIND_AREA, "10 sqft" },
    { "3 L", 0.003, KIND_VOLUME, "3 L" },
    { "3 l", 0.003, KIND_VOLUME, "3 L" },
    { "3 yd3", 3 * 0.764554857984, KIND_VOLUME, "3 yd3" },
    { "2 usgal", 0.007570823568, KIND_VOLUME, "2 usgal" },
    { "450 sqft/gal", 450 * 0.09290304 / 0.003785411784, KIND_SPREAD, "450 sqft/gal" },
    { "450 sqft / gal", 450 * 0.09290304 / 0.003785411784, KIND_SPREAD, "450 sqft/gal" },
    { "450 sq ft per gallon", 450 * 0.09290304 / 0.003785411784, KIND_SPREAD, "450 sqft/gal" },
    { "10 m2/L", 10000, KIND_SPREAD, "10 m2/L" },
    { "12 ft/min", 0.06096, KIND_SPEED, "12 ft/min" },
    { "400 sqft/h", 0.01032256, KIND_PRODUCTION, "400 sqft/h" },
    { "0.5 gal/min", 0.5 * 0.003785411784 / 60, KIND_FLOW, "0.5 gal/min" },
    { "25 cfm", 25 * 0.028316846592 / 60, KIND_FLOW, "25 cfm" },
    { "3.6 m3/h", 0.001, KIND_FLOW, "3.6 m3/h" },
    { "0.2 lb/ft2/h", 0.2 * 0.45359237 / 0.09290304 / 3600, KIND_EVAPORATION, "0.2 lb/ft2/h" },
    { "3 lb/1000 sqft/24 h", 3 * 0.45359237 / 92.90304 / 86400, KIND_EVAPORATION, "3 lb/1000 sqft/24 h" },
    { "145 lb/ft3", 145 * 0.45359237 / 0.028316846592, KIND_DENSITY, "145 lb/ft3" },
    { "0.05 mg/m3", 5e-8, KIND_CONCENTRATION, "0.05 mg/m3" },
    { "2.5 m/s2", 2.5, KIND_ACCELERATION, "2.5 m/s2" },
    { "2.5 m/s/s", 2.5, KIND_ACCELERATION, "2.5 m/s/s" },
    { "0.002 gal/sqft", 0.002 * 0.003785411784 / 0.09290304, KIND_FILM, "0.002 gal/sqft" },
  };
  assert_readings(cases, COUNT_OF(cases), (UnitRules){ 0 });
}

static void times_labour_and_machine_time_are_three_kinds(void **state)
{
  (void)state;
  static const Reading cases[] = {
    { "20 min", 1200, KIND_TIME, "20 min" },
    { "1 h 30 min", 5400, KIND_TIME, "1.5 h" },
    { "1 h 20 min", 4800, KIND_TIME, "80 min" },
    { "1 h 20 min 30 s", 4830, KIND_TIME, "80.5 min" },
    { "28 d", 2419200, KIND_TIME, "28 d" },
    { "28 days", 2419200, KIND_TIME, "28 d" },
    { "2 weeks", 1209600, KIND_TIME, "2 weeks" },
    { "2 person-h", 7200, KIND_LABOUR, "2 person-h" },
    { "3 machine-h", 10800, KIND_MACHINE_TIME, "3 machine-h" },
  };
  assert_readings(cases, COUNT_OF(cases), (UnitRules){ 0 });
}

static void scales_and_levels_are_read(void **state)
{
  (void)state;
  static const Reading cases[] = {
    { "18 C", 291.15, KIND_TEMPERATURE, "18 C" },
    { "18 degC", 291.15, KIND_TEMPERATURE, "18 C" },
    { "18 °C", 291.15, KIND_TEMPERATURE, "18 C" },
    { "-4 F", 253.15, KIND_TEMPERATURE, "-4 F" },
    { "3 delta C", 3, KIND_TEMPERATURE_DIFFERENCE, "3 delta C" },
    { "5 delta F", 25.0 / 9, KIND_TEMPERATURE_DIFFERENCE, "5 delta F" },
    { "3 Δ°C", 3, KIND_TEMPERATURE_DIFFERENCE, "3 delta C" },
    { "80 %", 0.8, KIND_FRACTION, "80 %" },
    { "80%", 0.8, KIND_FRACTION, "80 %" },
    { "250 ppm", 0.00025, KIND_FRACTION, "250 ppm" },
    { "85 dBA", 85, KIND_SOUND, "85 dBA" },
    { "85 dB(A)", 85, KIND_SOUND, "85 dBA" },
    { "45 GU", 45, KIND_GLOSS, "45 GU" },
    { "720 rpm", 12, KIND_ROTATION, "720 rpm" },
    { "480 V", 480, KIND_VOLTAGE, "480 V" },
    { "30 A", 30, KIND_CURRENT, "30 A" },
    { "7.5 kW", 7500, KIND_POWER, "7.5 kW" },
    { "10 hp", 7456.9987158227022, KIND_POWER, "10 hp" },
    { "30 MPa", 3e7, KIND_PRESSURE, "30 MPa" },
    { "4000 psi", 4000 * 6894.757293168361, KIND_PRESSURE, "4000 psi" },
    { "2.5", 2.5, KIND_NONE, "2.5" },
  };
  assert_readings(cases, COUNT_OF(cases), (UnitRules){ 0 });
}

static void money_is_read_before_or_behind_the_figures(void **state)
{
  (void)state;
  static const struct { const char *text, *currency; Reading read; } cases[] = {
    { "$62/h", "USD", { "", 62.0 / 3600, KIND_PAY_RATE, "$62/h" } },
    { "$62 per hour", "USD", { "", 62.0 / 3600, KIND_PAY_RATE, "$62/h" } },
    { "62 USD/h", "USD", { "", 62.0 / 3600, KIND_PAY_RATE, "USD 62/h" } },
    { "EUR 55/h", "EUR", { "", 55.0 / 3600, KIND_PAY_RATE, "EUR 55/h" } },
    { "€55/h", "EUR", { "", 55.0 / 3600, KIND_PAY_RATE, "EUR 55/h" } },
    { "£4", "GBP", { "", 4, KIND_MONEY, "GBP 4" } },
    { "$0.35/sqft", "USD", { "", 0.35 / 0.09290304, KIND_PRICE_PER_AREA, "$0.35/sqft" } },
    { "$18/pail", "USD", { "", 18, KIND_PRICE_PER_COUNT, "$18/pail" } },
    { "$1,250.50", "USD", { "", 1250.5, KIND_MONEY, "$1250.50" } },
    { "-$5", "USD", { "", -5, KIND_MONEY, "-$5" } },
    { "$-5", "USD", { "", -5, KIND_MONEY, "-$5" } },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Reading reading = cases[i].read;
    reading.text = cases[i].text;
    assert_readings(&reading, 1, (UnitRules){ 0 });
    assert_string_equal(q_(cases[i].text).currency, cases[i].currency);
  }
}

static void a_bare_dollar_is_the_dollar_of_the_document(void **state)
{
  (void)state;
  assert_string_equal(read_right("$5", (UnitRules){ .currency = "CAD" }).currency, "CAD");
  Quantity q;
  QuantityError error;
  assert_false(quantity_read("$5", 2, (UnitRules){ .currency = "EUR" }, &q, &error));
  assert_says(&error, "$5", "counts in EUR", "`EUR 62`");
}

static void counts_name_what_is_counted(void **state)
{
  (void)state;
  static const Reading cases[] = {
    { "2 pails", 2, KIND_COUNT, "2 pails" },
    { "1 pail", 1, KIND_COUNT, "1 pail" },
    { "24 each", 24, KIND_COUNT, "24 each" },
    { "9000 sqft/set", 836.12736, KIND_AREA_PER_COUNT, "9000 sqft/set" },
    { "5 gal/pail", 5 * 0.003785411784, KIND_VOLUME_PER_COUNT, "5 gal/pail" },
    { "1 per 500 sqft", 1 / 46.45152, KIND_COUNT_PER_AREA, "1 per 500 sqft" },
    { "2 readings/100 m2", 0.02, KIND_COUNT_PER_AREA, "2 readings/100 m2" },
    { "3 per area", 3, KIND_COUNT, "3 per area" },
  };
  assert_readings(cases, COUNT_OF(cases), (UnitRules){ 0 });
  assert_string_equal(quantity_thing_name(q_("2 pails").thing, false), "pail");
  assert_string_equal(quantity_thing_name(q_("1 box").thing, true), "boxes");
}

typedef struct {
  const char *text, *message, *help;
  size_t begin, end;
} Refusal;

static void assert_refusals(const Refusal *cases, size_t count, UnitRules rules)
{
  for (size_t i = 0; i < count; i++) {
    Quantity q = { .kind = KIND_COUNT_LAST };
    QuantityError error;
    assert_false(quantity_read(cases[i].text, strlen(cases[i].text), rules, &q, &error));
    assert_says(&error, cases[i].text, cases[i].message, cases[i].help);
    assert_int_equal(q.kind, KIND_COUNT_LAST);
    if (error.begin != cases[i].begin || error.end != cases[i].end) print_error("%s:\n", cases[i].text);
    assert_int_equal(error.begin, cases[i].begin);
    assert_int_equal(error.end, cases[i].end);
  }
}

static void ambiguous_spellings_are_refused_with_choices(void **state)
{
  (void)state;
  static const Refusal cases[] = {
    { "3 oz", "`oz` is ambiguous", "`fl oz` (volume) or `oz av` (mass)", 2, 4 },
    { "2 tons", "`tons` is ambiguous", "`short ton` (2000 lb), `long ton` (2240 lb) or `t`", 2, 6 },
    { "3 sq", "`sq` is ambiguous", "`sqft` or `m2`", 2, 4 },
    { "12 yards", "`yards` is ambiguous", "`yd3` (volume, as concrete is sold)", 3, 8 },
    { "$1.2M", "`M` is ambiguous", "the figure in full", 4, 5 },
    { "1 month", "`month` is ambiguous", "`28 d`", 2, 7 },
    { "2 person-days", "`person-days` is ambiguous", "`8 person-h`", 2, 13 },
    { "60 dB", "`dB` is ambiguous", "`dBA`", 3, 5 },
    { "¥500", "`¥` is ambiguous", "`JPY` or `CNY`", 0, 2 },
  };
  assert_refusals(cases, COUNT_OF(cases), (UnitRules){ 0 });
}

static void a_gallon_in_a_metric_document_is_refused_with_choices(void **state)
{
  (void)state;
  static const Refusal cases[] = {
    { "5 gal", "`gal` is ambiguous in a metric document", "`usgal` or `impgal`", 2, 5 },
    { "450 sqft/gallon", "`gallon` is ambiguous in a metric document", "litres (`L`)", 9, 15 },
    { "3 qt", "`qt` is ambiguous in a metric document", "litres (`L`)", 2, 4 },
  };
  UnitRules metric = { .metric = true };
  assert_refusals(cases, COUNT_OF(cases), metric);
  assert_near(read_right("1 impgal", metric).value, 0.00454609, 1e-18);
  assert_near(read_right("1 usgal", metric).value, 0.003785411784, 1e-18);
}

static void commas_that_group_no_thousands_are_refused(void **state)
{
  (void)state;
  static const Refusal cases[] = {
    { "1,5 m", "`1,5`", "did you mean `1.5`?", 0, 3 },
    { "1,25 m", "`1,25`", "did you mean `1.25`?", 0, 4 },
    { "1234,567 m", "`1234,567`", "did you mean `1234.567`?", 0, 8 },
    { "12,345,67 m", "`12,345,67`", "did you mean `12,345.67`?", 0, 9 },
    { "1.234,5 m", "`1.234,5`", "decimals as `1.5`", 0, 7 },
    { "1 250 sqft", "`1 250` is two numbers", "thousands as `1,250`", 0, 5 },
  };
  assert_refusals(cases, COUNT_OF(cases), (UnitRules){ 0 });
}

static void mistakes_are_named_at_their_place(void **state)
{
  (void)state;
  static const Refusal cases[] = {
    { "", "the text is empty", "`3 in`", 0, 0 },
    { "  ", "the text is empty", "`3 in`", 0, 2 },
    { "wide", "does not begin with a number", "`3 in`", 0, 4 },
    { "3 ft in", "two units without an operator: `ft` and `in`", "`ft/in` or `ft*in`", 5, 7 },
    { "$62 h", "two units without an operator", "`$/h`", 4, 5 },
    { "3 ft 4 h", "do not make one quantity", "", 0, 8 },
    { "60 F 3 F", "do not make one quantity", "", 0, 8 },
    { "6 in 12 ft", "`ft` is not smaller than `in`", "larger unit first", 5, 10 },
    { "12' 6", "a unit is missing after `6`", "`12' 6 in`", 4, 5 },
    { "3-6 in", "`3-6` is two numbers", "between(", 0, 3 },
    { "3 to 6 in", "a range is not one quantity", "between(", 2, 4 },
    { "1 7/4 in", "two numbers", "`1 1/2`", 0, 5 },
    { "1/0 in", "divides by zero", "", 0, 3 },
    { "5 L/0 m2", "divides by zero", "", 4, 5 },
    { "1/500 sqft", "not a fraction", "`1 per 500`", 0, 5 },
    { "3 gallns", "unknown unit `gallns`", "did you mean `gallons`?", 2, 8 },
    { "40 µmm", "unknown unit `umm`", "", 3, 7 },
    { "3 KG", "unknown unit `KG`", "did you mean `kg`? Upper and lower case matter", 2, 4 },
    { "3 m10", "an exponent is a whole number", "", 3, 4 },
    { "3 /", "a unit is missing at the end", "", 0, 3 },
    { "3 ug/(s m2)", "a unit is missing before `(s m2)`", "`ug/s/m2`", 5, 11 },
    { "3 pails/bag", "one thing only", "", 0, 11 },
    { "$3/$", "one currency only", "", 0, 4 },
    { "3 per area/h", "stand alone", "", 0, 12 },
    { "1e400 m", "too large", "", 0, 5 },
    { "-500 F", "below absolute zero", "", 0, 6 },
    { "3 m9*m9", "exponents", "", 0, 7 },
  };
  assert_refusals(cases, COUNT_OF(cases), (UnitRules){ 0 });
}

static void a_text_too_long_is_refused_whatever_it_says(void **state)
{
  (void)state;
  char text[500];
  memset(text, '1', sizeof text);
  Quantity q;
  QuantityError error;
  assert_false(quantity_read(text, sizeof text, (UnitRules){ 0 }, &q, &error));
  assert_says(&error, "500 ones", "too long", "");
  assert_int_equal(error.end, sizeof text);
}

static void an_error_may_be_unwanted(void **state)
{
  (void)state;
  Quantity q;
  assert_false(quantity_read("3 oz", 4, (UnitRules){ 0 }, &q, NULL));
  assert_false(quantity_read("3 gallns", 8, (UnitRules){ 0 }, &q, NULL));
}

static void long_figures_are_read_as_the_nearest_double(void **state)
{
  (void)state;
  Quantity exact = q_("0.123456789012345678 m"), rough = q_("0.12345678901234567890123 m");
  assert_true(exact.exact);
  assert_false(rough.exact);
  assert_near(rough.value, 0.12345678901234567890123, 1e-17);
  assert_false(q_("99999999999999999999 m").exact);
  assert_near(q_("1e3 m").value, 1000, 0);
  assert_near(q_("2.5e-3 m").value, 0.0025, 0);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(lengths_are_read_as_a_tape_shows_them),
    cmocka_unit_test(areas_volumes_and_rates_are_read_in_every_usual_spelling),
    cmocka_unit_test(times_labour_and_machine_time_are_three_kinds),
    cmocka_unit_test(scales_and_levels_are_read),
    cmocka_unit_test(money_is_read_before_or_behind_the_figures),
    cmocka_unit_test(a_bare_dollar_is_the_dollar_of_the_document),
    cmocka_unit_test(counts_name_what_is_counted),
    cmocka_unit_test(ambiguous_spellings_are_refused_with_choices),
    cmocka_unit_test(a_gallon_in_a_metric_document_is_refused_with_choices),
    cmocka_unit_test(commas_that_group_no_thousands_are_refused),
    cmocka_unit_test(mistakes_are_named_at_their_place),
    cmocka_unit_test(a_text_too_long_is_refused_whatever_it_says),
    cmocka_unit_test(an_error_may_be_unwanted),
    cmocka_unit_test(long_figures_are_read_as_the_nearest_double),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
