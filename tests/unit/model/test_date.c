/* test_date.c - days and dates, against the C library's calendar. */
#include "model/date.h"

#include "support.h"

#include <time.h>

static const int years[] = { -4800, -1, 0, 1, 1582, 1600, 1899, 1900, 1970, 2000, 2023, 2024, 2100, 2400, 9999 };

/* POSIX.1-2017, "Seconds Since the Epoch": timegm counts 86400 of them a day. */
static void a_day_is_the_one_of_the_c_library(void **state)
{
  (void)state;
  for (size_t i = 0; i < COUNT_OF(years); i++)
    for (int month = 1; month <= 12; month++)
      for (int day = 1; day <= 28; day++) {
        struct tm tm = { .tm_year = years[i] - 1900, .tm_mon = month - 1, .tm_mday = day };
        int days = date_day(years[i], month, day);
        assert_int_equal(days, timegm(&tm) / 86400);
        assert_int_equal(date_weekday(days), (tm.tm_wday + 6) % 7);
      }
}

static void every_day_has_its_date(void **state)
{
  (void)state;
  for (size_t i = 0; i < COUNT_OF(years); i++) {
    int first = date_day(years[i], 1, 1), next = date_day(years[i] + 1, 1, 1);
    for (int days = first; days < next; days++) {
      int year, month, day;
      date_of_day(days, &year, &month, &day);
      assert_int_equal(year, years[i]);
      assert_int_equal(date_day(year, month, day), days);
    }
  }
}

static void a_date_exists_or_does_not(void **state)
{
  (void)state;
  static const struct { int year, month, day; bool exists; } cases[] = {
    { 2024, 2, 29, true },  { 2023, 2, 29, false },  { 2000, 2, 29, true },   { 2100, 2, 29, false },
    { 2026, 4, 30, true },  { 2026, 4, 31, false },  { 2026, 12, 31, true },  { 2026, 12, 32, false },
    { 2026, 0, 1, false },  { 2026, 13, 1, false },  { 2026, 1, 0, false },   { 2026, 1, -1, false },
    { 1970, 1, 1, true },   { 1969, 12, 31, false }, { 9999, 12, 31, true },  { 10000, 1, 1, false },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_int_equal(date_exists(cases[i].year, cases[i].month, cases[i].day), cases[i].exists);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_day_is_the_one_of_the_c_library),
    cmocka_unit_test(every_day_has_its_date),
    cmocka_unit_test(a_date_exists_or_does_not),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
