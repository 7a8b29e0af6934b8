#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "plan/calendar.h"

/* Two shifts of 480 minutes with a night between them, then a short Saturday. */
static Calendar *week(void)
{
  static const Interval open[] = { { 1920, 2400 }, { 480, 960 }, { 3360, 3600 }, { 700, 900 }, { 50, 50 } };
  return calendar_new(open, sizeof open / sizeof *open);
}

static void intervals_are_sorted_and_joined(void **state)
{
  (void)state;
  Calendar *c = week();
  assert_int_equal(c->count, 3);
  assert_int_equal(c->open[0].begin, 480);
  assert_int_equal(c->open[0].end, 960);
  assert_int_equal(c->worked[3], 1200);
  calendar_free(c);
}

static void open_minutes_are_found_both_ways(void **state)
{
  (void)state;
  Calendar *c = week();
  static const struct { int at, next, previous; } cases[] = {
    { 0, 480, CALENDAR_BEFORE },  { 480, 480, 480 }, { 959, 959, 959 }, { 960, 1920, 959 },
    { 3599, 3599, 3599 },         { 3600, CALENDAR_NEVER, 3599 },
  };
  for (size_t k = 0; k < sizeof cases / sizeof *cases; k++) {
    assert_int_equal(calendar_next_open(c, cases[k].at), cases[k].next);
    assert_int_equal(calendar_previous_open(c, cases[k].at), cases[k].previous);
    assert_int_equal(calendar_is_open(c, cases[k].at), cases[k].next == cases[k].at);
  }
  calendar_free(c);
}

static void breakable_work_pauses_at_the_shifts_end(void **state)
{
  (void)state;
  Calendar *c = week();
  static const struct { int start, work, finish, latest; } cases[] = {
    { 480, 480, 960, 480 },   /* a whole shift */
    { 900, 61, 1921, 900 },   /* one minute is left for the next day */
    { 0, 10, 490, 480 },      /* begins when the door opens */
    { 900, 540, 2400, 900 },
    { 3600, 1, CALENDAR_NEVER, -1 },
    { 480, 1201, CALENDAR_NEVER, -1 },
  };
  for (size_t k = 0; k < sizeof cases / sizeof *cases; k++) {
    assert_int_equal(calendar_finish(c, cases[k].start, cases[k].work), cases[k].finish);
    if (cases[k].latest >= 0)
      assert_int_equal(calendar_latest_start(c, cases[k].finish, cases[k].work), cases[k].latest);
  }
  assert_int_equal(calendar_latest_start(c, 500, 21), CALENDAR_BEFORE);
  calendar_free(c);
}

static void unbroken_work_waits_for_room(void **state)
{
  (void)state;
  Calendar *c = week();
  static const struct { int start, work, next, previous; } cases[] = {
    { 480, 480, 480, 480 }, { 481, 480, 1920, 480 }, { 900, 60, 900, 900 },  { 900, 61, 1920, 899 },
    { 3400, 240, CALENDAR_NEVER, 3360 }, { 470, 10, 480, CALENDAR_BEFORE },
    { 0, 481, CALENDAR_NEVER, CALENDAR_BEFORE },
  };
  for (size_t k = 0; k < sizeof cases / sizeof *cases; k++) {
    assert_int_equal(calendar_next_fit(c, cases[k].start, cases[k].work), cases[k].next);
    assert_int_equal(calendar_previous_fit(c, cases[k].start, cases[k].work), cases[k].previous);
  }
  calendar_free(c);
}

static void no_calendar_is_always_open(void **state)
{
  (void)state;
  assert_int_equal(calendar_finish(NULL, 7, 5), 12);
  assert_int_equal(calendar_latest_start(NULL, 12, 5), 7);
  assert_int_equal(calendar_next_fit(NULL, 7, 5), 7);
  assert_int_equal(calendar_work(NULL, 7, 5), 0);
  assert_true(calendar_is_open(NULL, -3));
  assert_int_equal(calendar_next_closed(NULL, 3), CALENDAR_NEVER);
}

static void both_calendars_must_be_open(void **state)
{
  (void)state;
  static const Interval late[] = { { 600, 2000 } };
  Calendar *a = week(), *b = calendar_new(late, 1), *both = calendar_both(a, b);
  assert_int_equal(both->count, 2);
  assert_int_equal(calendar_work(both, 0, 5000), 360 + 80);
  Calendar *same = calendar_both(NULL, a);
  assert_true(calendar_same(a, same));
  assert_false(calendar_same(a, b));
  assert_null(calendar_both(NULL, NULL));
  calendar_free(a), calendar_free(b), calendar_free(both), calendar_free(same);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(intervals_are_sorted_and_joined),
    cmocka_unit_test(open_minutes_are_found_both_ways),
    cmocka_unit_test(breakable_work_pauses_at_the_shifts_end),
    cmocka_unit_test(unbroken_work_waits_for_room),
    cmocka_unit_test(no_calendar_is_always_open),
    cmocka_unit_test(both_calendars_must_be_open),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
