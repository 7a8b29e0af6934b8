/* Conversions against the factors that NIST SP 811, Appendix B.8, prints; each row of the table has its source. */
#include "support.h"

#include "base/quantity.h"
#include "csv.h"

enum { ROWS_LEAST = 40 };

static void every_printed_factor_is_met_to_its_last_figure(void **state)
{
  (void)state;
  Csv csv;
  int rows = 0;
  csv_open(&csv, "nist_sp811.csv");
  while (csv_next(&csv)) {
    const char *from = csv_get(&csv, "from"), *to = csv_get(&csv, "to");
    double want = strtod(csv_get(&csv, "factor"), NULL), got = NAN;
    double tolerance = strtod(csv_get(&csv, "relative_tolerance"), NULL);
    Quantity q;
    QuantityError error = { .message = "" };
    bool ok = quantity_read(from, strlen(from), (UnitRules){ 0 }, &q, &error) && quantity_in(&q, to, &got, &error);
    if (!ok || !(fabs(got - want) <= tolerance * want)) print_error("%s to %s: %s\n", from, to, error.message);
    assert_true(ok);
    assert_near(got, want, tolerance * want);
    rows++;
  }
  assert_true(rows >= ROWS_LEAST);
}

int main(void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test(every_printed_factor_is_met_to_its_last_figure) };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
