/* test_trade_1_tables.c - the built-in tables of the trade against the copied ones. data/trade_tables.csv says with
 * each row where it comes from: trade practice, guide specifications, contractors' pages, ACI 117. */
#include "support.h"

#include "csv.h"
#include "trade/appearance.h"
#include "trade/bond.h"
#include "trade/coverage.h"
#include "trade/flatness.h"
#include "trade/sheen.h"

typedef struct {
  double low, high;
} Range;

/* "120-350" */
static Range range_of(const char *text)
{
  Range r;
  assert_int_equal(sscanf(text, "%lf-%lf", &r.low, &r.high), 2);
  return r;
}

static void assert_range(double low, double high, const char *want)
{
  Range r = range_of(want);
  assert_near(low, r.low, 1e-9);
  assert_near(high, r.high, 1e-9);
}

static size_t index_of(const char *word, const char *const *words, size_t count)
{
  size_t i = 0;
  while (i < count && strcmp(words[i], word) != 0) i++;
  if (i == count) print_error("`%s` is no row of this table\n", word);
  assert_true(i < count);
  return i;
}

static BondFamily bond_of(const char *name)
{
  BondFamily bond;
  assert_true(bond_find(name, &bond, NULL));
  return bond;
}

static void check_production(const Csv *csv)
{
  static const char *const steps[COVERAGE_STEP_CLASSES] = {
    "scraper or coating removal", "first metal (opening)", "second, third metal", "transitional", "resin 50-200",
    "resin 400-3000 dry", "resin wet incl. slurry pick-up", "grout coat (spread and cut)",
  };
  static const char *const heads[COVERAGE_HEAD_CLASSES] = { "20-22 in", "26-28 in", "30-32 in or larger" };
  const CoverageBand *band =
    coverage_band((CoverageStepClass)index_of(csv_get(csv, "row"), steps, COUNT_OF(steps)),
                  (CoverageHead)index_of(csv_get(csv, "item"), heads, COUNT_OF(heads)));
  assert_range(band->low_sqft_h, band->high_sqft_h, csv_get(csv, "value"));
}

static void check_other_work(const Csv *csv)
{
  size_t i = 0;
  while (coverage_other(i) && strcmp(coverage_other(i)->work, csv_get(csv, "row")) != 0) i++;
  assert_non_null(coverage_other(i));
  assert_range(coverage_other(i)->low, coverage_other(i)->high, csv_get(csv, "value"));
  assert_string_equal(coverage_other(i)->unit, csv_get(csv, "unit"));
}

static void check_walking_speed(const Csv *csv)
{
  const CoverageSpeed *speed = coverage_usual_speed(bond_of(csv_get(csv, "row")));
  assert_range(speed->low_ft_min, speed->high_ft_min, csv_get(csv, "value"));
}

static void check_usual_grit(const Csv *csv)
{
  const BondInfo *info = bond_info(bond_of(csv_get(csv, "row")));
  double grit = strtod(csv_get(csv, "value"), NULL);
  size_t i = 0;
  while (i < info->grit_count && info->grits[i] != grit) i++;
  assert_true(i < info->grit_count);
}

static void check_bond_for_slab(const Csv *csv)
{
  Range mohs = range_of(csv_get(csv, "value"));
  const BondChoice *choice;
  assert_true(bond_for_mohs((mohs.low + mohs.high) / 2, &choice, NULL));
  assert_near(choice->to_mohs, mohs.high, 0);
  assert_string_equal(choice->slab, csv_get(csv, "row"));
  assert_string_equal(choice->bond, csv_get(csv, "item"));
}

static void check_gloss(const Csv *csv)
{
  SheenBand band;
  assert_true(sheen_band(bond_of(csv_get(csv, "row")), strtod(csv_get(csv, "item"), NULL), &band, NULL));
  assert_range(band.low_gu, band.high_gu, csv_get(csv, "value"));
}

static void check_gloss_level(const Csv *csv)
{
  size_t i = 0;
  while (appearance_gloss_level_at(i) && strcmp(appearance_gloss_level_at(i)->name, csv_get(csv, "row")) != 0) i++;
  const GlossLevel *level = appearance_gloss_level_at(i);
  assert_non_null(level);
  assert_near(level->least_passes, strtod(csv_get(csv, "item"), NULL), 0);
  assert_range(level->low_gu, level->high_gu, csv_get(csv, "value"));
}

static void check_flatness(const Csv *csv)
{
  static const char *const items[] = { "FF", "FL", "local FF", "local FL" };
  size_t i = 0;
  while (flatness_limit_at(i) && strcmp(flatness_limit_at(i)->name, csv_get(csv, "row")) != 0) i++;
  const FlatnessLimit *limit = flatness_limit_at(i);
  assert_non_null(limit);
  const double values[] = { limit->ff, limit->fl, limit->local_ff, limit->local_fl };
  assert_near(values[index_of(csv_get(csv, "item"), items, COUNT_OF(items))], strtod(csv_get(csv, "value"), NULL),
              0);
  assert_string_equal(basis_status_name(limit->basis.status), csv_get(csv, "status"));
}

static void check_gap(const Csv *csv)
{
  double over, under, ff = strtod(csv_get(csv, "row"), NULL);
  assert_int_equal(sscanf(csv_get(csv, "value"), "%lf/%lf", &over, &under), 2);
  size_t i = 0;
  while (flatness_gap_at(i) && flatness_gap_at(i)->ff != ff) i++;
  assert_non_null(flatness_gap_at(i));
  assert_near(flatness_gap_at(i)->gap_in, over / under, 0);
}

static const struct { const char *table; void (*check)(const Csv *); int rows; } tables[] = {
  { "production", check_production, 23 },   { "other work", check_other_work, 8 },
  { "walking speed", check_walking_speed, 2 }, { "usual grit", check_usual_grit, 26 },
  { "bond for slab", check_bond_for_slab, 6 }, { "gloss at 60 deg", check_gloss, 11 },
  { "gloss level", check_gloss_level, 4 },  { "flatness", check_flatness, 18 },
  { "gap under 10 ft", check_gap, 4 },
};

static void every_copied_row_is_in_its_table(void **state)
{
  (void)state;
  Csv csv;
  int seen[COUNT_OF(tables)] = { 0 };
  csv_open(&csv, "trade_tables.csv");
  while (csv_next(&csv)) {
    size_t i = 0;
    while (i < COUNT_OF(tables) && strcmp(tables[i].table, csv_get(&csv, "table")) != 0) i++;
    assert_true(i < COUNT_OF(tables));
    tables[i].check(&csv);
    seen[i]++;
  }
  for (size_t i = 0; i < COUNT_OF(tables); i++) assert_int_equal(seen[i], tables[i].rows);
}

/* And nothing is in the tables that was not copied. */
static void the_tables_hold_no_more_than_was_copied(void **state)
{
  (void)state;
  size_t bands = 0, work = 0, speeds = 0, grits = 0, numbers = 0, gaps = 0;
  for (int step = 0; step < COVERAGE_STEP_CLASSES; step++)
    for (int head = 0; head < COVERAGE_HEAD_CLASSES; head++)
      bands += coverage_band((CoverageStepClass)step, (CoverageHead)head) != NULL;
  while (coverage_other(work)) work++;
  for (int bond = 0; bond < BOND_FAMILIES; bond++) {
    speeds += coverage_usual_speed((BondFamily)bond) != NULL;
    grits += bond_info((BondFamily)bond)->grit_count;
  }
  for (size_t i = 0; flatness_limit_at(i); i++) {
    const FlatnessLimit *limit = flatness_limit_at(i);
    numbers += (limit->ff > 0) + (limit->fl > 0) + (limit->local_ff > 0) + (limit->local_fl > 0);
  }
  while (flatness_gap_at(gaps)) gaps++;
  assert_int_equal(bands, 23);
  assert_int_equal(work, 8);
  assert_int_equal(speeds, 2);
  assert_int_equal(grits, 26);
  assert_int_equal(numbers, 18);
  assert_int_equal(gaps, 4);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(every_copied_row_is_in_its_table),
    cmocka_unit_test(the_tables_hold_no_more_than_was_copied),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
