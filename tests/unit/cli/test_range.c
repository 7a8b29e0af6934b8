/* test_range.c - ranges of values on the command line. */
#include "support.h"

#include "cli/range.h"

static void a_range_names_its_values(void **state)
{
  (void)state;
  static const struct {
    const char *text;
    int count, n;
    const char *setting;
  } cases[] = {
    { "opening passes=4..12:2", 5, 4, "opening passes=12" },
    { "passes=4..6", 3, 1, "passes=5" },
    { "machine.planetary 32 in.count=1..1", 1, 0, "machine.planetary 32 in.count=1" },
    { "a.b.spread=400..600:50 sqft/gal", 5, 2, "a.b.spread=500 sqft/gal" },
    { "prices.night=0..20:10 %", 3, 2, "prices.night=20 %" },
    { "x=0.5..0.9:0.1", 5, 4, "x=0.9" },
    { "x=-2..2:4", 2, 0, "x=-2" },
    { "x=1..2.5:1", 2, 1, "x=2" }, /* the end itself is not met */
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Range range;
    Buf got = { 0 };
    assert_true(range_read(cases[i].text, &range));
    assert_int_equal(range.count, cases[i].count);
    range_setting(&range, cases[i].n, &got);
    assert_string_equal(buf_text(&got), cases[i].setting);
    buf_free(&got);
  }
}

static void what_is_no_range_is_refused(void **state)
{
  (void)state;
  static const char *const texts[] = { "",        "x",         "=1..2",       "x=",         "x=1",       "x=1..",
                                       "x=..2",   "x=2..1",    "x=1..2:0",    "x=1..2:-1",  "x=a..b",    "x=1..2:",
                                       "x=nan..2", "x=1..inf", "x=1 m..2 m", "x=1..1000",  "x=1..2:1e-9" };
  for (size_t i = 0; i < COUNT_OF(texts); i++) {
    Range range = { .count = -7 };
    assert_false(range_read(texts[i], &range));
    assert_int_equal(range.count, -7);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_range_names_its_values),
    cmocka_unit_test(what_is_no_range_is_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
