/* The tables of units.c: each row against its definition, and against docs/units.md.
 * `test_units tables` prints the tables that stand in docs/units.md. */
#include "support.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/kinds.h"
#include "base/units.h"

static const Unit *unit_named(const char *name)
{
  Word word = unit_find(name, strlen(name));
  assert_int_equal(word.sort, WORD_UNIT);
  return unit_get(word.row);
}

static void every_unit_has_the_dimension_of_its_kind_and_an_exact_factor(void **state)
{
  (void)state;
  for (size_t i = 0; i < unit_count; i++) {
    Compound unit = unit_known(unit_rows[i].name);
    assert_true(unit.factor.exact);
    assert_true(unit.factor.value > 0);
    assert_int_equal(unit.kind, unit_rows[i].kind);
    assert_true(dimension_equal(unit.dimension, kind_row(unit.kind)->dimension));
    assert_string_equal(unit.name, unit_rows[i].name);
  }
}

static void factors_are_the_defined_ones(void **state)
{
  (void)state;
  static const struct { const char *unit; int64_t numerator, denominator; } cases[] = {
    { "in", 127, 5000 },
    { "ft", 381, 1250 },
    { "mil", 127, 5000000 },
    { "usgal", 473176473, 125000000000 },
    { "impgal", 454609, 100000000 },
    { "lb", 45359237, 100000000 },
    { "lbf", 8896443230521, 2000000000000 },
    { "F", 5, 9 },
    { "psi", 8896443230521, 1290320000 },
    { "hp", 37284993579113511, 50000000000000 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Rational factor = unit_named(cases[i].unit)->factor;
    assert_int_equal(factor.numerator, cases[i].numerator);
    assert_int_equal(factor.denominator, cases[i].denominator);
  }
}

/* Reads every spelling of a list, which must mean the row it stands in. */
static void assert_spellings(const char *list, WordSort sort, size_t row)
{
  while (*list) {
    size_t length = strcspn(list, ",");
    Word word = unit_find(list, length);
    assert_int_equal(word.sort, sort);
    assert_int_equal(word.row, row);
    list += length;
    list += strspn(list, ", ");
  }
}

static void every_spelling_means_one_thing(void **state)
{
  (void)state;
  for (size_t i = 0; i < unit_count; i++) assert_spellings(unit_rows[i].also, WORD_UNIT, i);
  for (size_t i = 0; i < thing_count; i++) assert_spellings(thing_rows[i].plural, WORD_THING, i);
  for (size_t i = 0; i < currency_count; i++) assert_spellings(currency_rows[i].also, WORD_CURRENCY, i);
  for (size_t i = 0; i < ambiguous_count; i++) assert_spellings(ambiguous_rows[i].spellings, WORD_AMBIGUOUS, i);
}

static void every_unit_of_a_kind_is_legal(void **state)
{
  (void)state;
  for (int k = 0; k < KIND_COUNT_LAST; k++) {
    const KindRow *row = kind_row((Kind)k);
    for (int system = UNITS_US; system <= UNITS_METRIC; system++) {
      for (int i = 0; i < KIND_UNITS && row->unit[system][i]; i++) {
        Compound unit = unit_known(row->unit[system][i]);
        assert_true(dimension_equal(unit.dimension, row->dimension));
        assert_true(unit.kind == (Kind)k || kind_accepts((Kind)k, unit.kind, unit.name));
        if (system == UNITS_METRIC) assert_true(!unit.is_us);
      }
    }
  }
}

static void every_unit_that_display_keeps_is_of_the_kind(void **state)
{
  (void)state;
  for (int k = 0; k < KIND_COUNT_LAST; k++) {
    char list[200], *rest = list;
    snprintf(list, sizeof list, "%s", kind_row((Kind)k)->kept);
    for (char *name; strcmp(list, "*") && (name = strtok_r(rest, ",", &rest));) {
      Compound unit = unit_known(name);
      assert_string_equal(unit.name, name);
      assert_true(unit.kind == (Kind)k || kind_accepts((Kind)k, unit.kind, unit.name));
    }
  }
}

static void a_unit_text_is_normalised(void **state)
{
  (void)state;
  static const struct { const char *text, *name; } cases[] = {
    { "sq ft per gallon", "sqft/gal" }, { "square feet / US gal", "sqft/usgal" }, { "kW · h", "kW*h" },
    { "per 1,000 sq ft", "per 1000 sqft" }, { "lbs/ft²/hr", "lb/ft2/h" }, { "m^-1", "m^-1" }, { "", "" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) assert_string_equal(unit_known(cases[i].text).name, cases[i].name);
}

static void add_factor(const Unit *unit, Buf *out)
{
  Rational f = unit->factor;
  if (f.denominator == 1) buf_printf(out, "%" PRId64, f.numerator);
  else buf_printf(out, "%" PRId64 "/%" PRId64, f.numerator, f.denominator);
}

static void add_unit_rows(Buf *out)
{
  buf_puts(out, "| unit | also written | kind | definition | factor to SI, exact | source |\n"
                "|---|---|---|---|---|---|\n");
  for (size_t i = 0; i < unit_count; i++) {
    const UnitRow *row = &unit_rows[i];
    buf_printf(out, "| `%s` | %s | %s | %s | ", row->name, row->also, kind_name(row->kind),
               *row->is ? row->is : "coherent");
    add_factor(unit_get((uint16_t)i), out);
    buf_printf(out, " | %s |\n", row->source);
  }
}

static void add_kind_rows(Buf *out)
{
  buf_puts(out, "| kind | shown in, US | shown in, metric | kept as written | examples |\n|---|---|---|---|---|\n");
  for (int k = KIND_NONE + 1; k < KIND_COUNT_LAST; k++) {
    const KindRow *row = kind_row((Kind)k);
    buf_printf(out, "| %s |", row->name);
    for (int system = UNITS_US; system <= UNITS_METRIC; system++) {
      for (int i = 0; i < KIND_UNITS && row->unit[system][i]; i++)
        buf_printf(out, "%s %s", i ? "," : "", row->unit[system][i]);
      buf_puts(out, " |");
    }
    buf_printf(out, " %s | `%s`, `%s`, `%s` |\n", strcmp(row->kept, "*") ? row->kept : "any", row->example[0],
               row->example[1], row->example[2]);
  }
}

static void add_word_rows(Buf *out)
{
  buf_puts(out, "Refused, with choices:\n\n| spelling | write instead |\n|---|---|\n");
  for (size_t i = 0; i < ambiguous_count; i++)
    buf_printf(out, "| %s | %s |\n", ambiguous_rows[i].spellings, ambiguous_rows[i].choices);
  buf_puts(out, "\nCounted things:");
  for (size_t i = 0; i < thing_count; i++) buf_printf(out, "%s `%s`", i ? "," : "", thing_rows[i].name);
  buf_puts(out, ".\n\nCurrencies:");
  for (size_t i = 0; i < currency_count; i++) buf_printf(out, "%s `%s`", i ? "," : "", currency_rows[i].code);
  buf_puts(out, ".\n");
}

static void add_tables(Buf *out)
{
  buf_puts(out, "### Units\n\n");
  add_unit_rows(out);
  buf_puts(out, "\n### Kinds\n\n");
  add_kind_rows(out);
  buf_puts(out, "\n### Other words\n\n");
  add_word_rows(out);
}

static void the_manual_lists_the_tables_as_they_are(void **state)
{
  (void)state;
  Buf manual = { 0 }, tables = { 0 };
  char line[1024];
  FILE *file = fopen("docs/units.md", "r");
  if (!file) print_error("cannot open docs/units.md: run the tests from the root of the project\n");
  assert_non_null(file);
  while (fgets(line, sizeof line, file)) buf_puts(&manual, line);
  fclose(file);
  add_tables(&tables);
  const char *begin = strstr(buf_text(&manual), "### Units\n");
  assert_non_null(begin);
  if (strcmp(begin, buf_text(&tables)) != 0)
    print_error("docs/units.md differs from the tables: replace its end by what `test_units tables` prints\n");
  assert_string_equal(begin, buf_text(&tables));
  buf_free(&manual);
  buf_free(&tables);
}

int main(int argc, char **argv)
{
  if (argc == 2 && strcmp(argv[1], "tables") == 0) {
    Buf tables = { 0 };
    add_tables(&tables);
    fputs(buf_text(&tables), stdout);
    buf_free(&tables);
    return EXIT_SUCCESS;
  }
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(every_unit_has_the_dimension_of_its_kind_and_an_exact_factor),
    cmocka_unit_test(factors_are_the_defined_ones),
    cmocka_unit_test(every_spelling_means_one_thing),
    cmocka_unit_test(every_unit_of_a_kind_is_legal),
    cmocka_unit_test(every_unit_that_display_keeps_is_of_the_kind),
    cmocka_unit_test(a_unit_text_is_normalised),
    cmocka_unit_test(the_manual_lists_the_tables_as_they_are),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
