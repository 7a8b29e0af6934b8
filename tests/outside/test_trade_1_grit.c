/* test_trade_1_grit.c - the built-in grit table against the copied one, row by row. Each row of
 * data/grit_sizes.csv names its source: standards' catalogues, public reference pages, tool makers' pages. */
#include "support.h"

#include "csv.h"
#include "trade/grit.h"

static const struct { const char *standard; GritSystem system; } standards[] = {
  { "FEPA P / ISO 6344", GRIT_P },
  { "FEPA F / ISO 8486-1", GRIT_F },
  { "FEPA F / ISO 8486-2", GRIT_F },
  { "JIS R 6001", GRIT_JIS },
  { "CAMI / ANSI B74.18 (coated, US)", GRIT_CAMI },
  { "ASTM E11 sieve opening", GRIT_SIEVE },
  { "US sieve, superseded inch series", GRIT_SIEVE_OLD },
  { "FEPA D / ISO 6106 diamond", GRIT_DIAMOND },
};

static GritSystem system_of(const char *standard)
{
  for (size_t i = 0; i < COUNT_OF(standards); i++)
    if (strcmp(standards[i].standard, standard) == 0) return standards[i].system;
  print_error("no system for `%s`\n", standard);
  fail();
  return GRIT_SYSTEMS;
}

/* The source text carries the tolerance of a median or the sieves of a diamond code. */
static void check_range(const GritRow *row, const char *source)
{
  const char *plus_minus = strstr(source, "+/- "), *pair = strstr(source, "sieve pair ");
  if (pair) {
    double high_um, low_um;
    char mesh[16];
    assert_int_equal(sscanf(pair, "sieve pair %lf/%lf um = US mesh %15[0-9/]", &high_um, &low_um, mesh), 3);
    assert_near(row->high_um, high_um, 0);
    assert_near(row->low_um, low_um, 0);
    assert_string_equal(row->mesh, mesh);
    assert_near(row->size_um, (high_um + low_um) / 2, 0.51); /* the table rounds some middles */
  } else {
    double tolerance_um = plus_minus ? csv_number(plus_minus, "+/- ") : 0;
    assert_near(row->high_um, plus_minus ? row->size_um + tolerance_um : 0, 1e-9);
    assert_near(row->low_um, plus_minus ? row->size_um - tolerance_um : 0, 1e-9);
    assert_null(row->mesh);
  }
}

static void the_built_in_table_is_the_copied_one(void **state)
{
  (void)state;
  Csv csv;
  size_t i = 0;
  csv_open(&csv, "grit_sizes.csv");
  for (; csv_next(&csv); i++) {
    assert_true(i < grit_table_count);
    const GritRow *row = &grit_table[i];
    assert_string_equal(row->name, csv_get(&csv, "designation"));
    assert_int_equal(row->system, system_of(csv_get(&csv, "standard")));
    assert_near(row->size_um, strtod(csv_get(&csv, "micrometres"), NULL), 0);
    assert_string_equal(basis_status_name(row->status), csv_get(&csv, "status"));
    assert_near(row->number, strtod(row->name + strcspn(row->name, "0123456789"), NULL), 0);
    check_range(row, csv_get(&csv, "source"));
  }
  assert_int_equal(i, grit_table_count);
}

static void every_row_is_found_by_its_printed_name(void **state)
{
  (void)state;
  for (size_t i = 0; i < grit_table_count; i++) {
    const GritRow *row = &grit_table[i];
    Grit grit = { row->system, row->number };
    GritSize size;
    /* Old sieves print like new ones and CAMI grades like pads: those two are asked for by system. */
    if (row->system != GRIT_SIEVE_OLD && row->system != GRIT_CAMI) assert_true(grit_read(row->name, &grit, NULL));
    assert_int_equal(grit.system, row->system);
    assert_true(grit_size(grit, &size, NULL));
    assert_false(size.interpolated);
    assert_ptr_equal(size.coarse, row);
    assert_int_equal(size.basis.status, row->status);
  }
}

/* Public reference pages as gathered in the trade facts, section on the same number in different systems. */
static void a_printed_number_differs_between_systems_as_published(void **state)
{
  (void)state;
  static const struct { double number; double p, cami, f, jis; } cases[] = {
    { 80, 201, 190, 185, 0 },       { 120, 125, 115, 109, 0 },  { 240, 58.5, 53, 44.5, 57 },
    { 400, 35.0, 23, 17.3, 30 },    { 600, 25.8, 16, 9.3, 20 }, { 800, 21.8, 12.6, 6.5, 14 },
    { 1000, 18.3, 10.3, 4.5, 11.5 },
  };
  static const GritSystem systems[] = { GRIT_P, GRIT_CAMI, GRIT_F, GRIT_JIS };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    const double want[] = { cases[i].p, cases[i].cami, cases[i].f, cases[i].jis };
    for (size_t k = 0; k < COUNT_OF(systems); k++) {
      GritSize size;
      if (want[k] == 0) continue;
      assert_true(grit_size((Grit){ systems[k], cases[i].number }, &size, NULL));
      assert_near(size.size_um, want[k], 0);
    }
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_built_in_table_is_the_copied_one),
    cmocka_unit_test(every_row_is_found_by_its_printed_name),
    cmocka_unit_test(a_printed_number_differs_between_systems_as_published),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
