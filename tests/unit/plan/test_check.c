#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <string.h>

#include <cmocka.h>

#include "plan/check.h"

/* Hone (breakable, 100 min), collect within 8 min of its end, an event after it; shifts 0-60 and 120-240. */
static Problem *wet_hone(void)
{
  static const Interval shifts[] = { { 0, 60 }, { 120, 240 } };
  Problem *p = problem_new(1000);
  int day = problem_add_calendar(p, shifts, 2);
  int crew = problem_add_resource(p, 2, day);
  int hone = problem_add_task(p, 100, day, true);
  int collect = problem_add_task(p, 20, PROBLEM_ALWAYS, false);
  int done = problem_add_task(p, 0, PROBLEM_ALWAYS, false);
  problem_demand(p, hone, crew, 2);
  problem_demand(p, collect, crew, 1);
  problem_link(p, LINK_FS_MIN, hone, collect, 0);
  problem_link(p, LINK_FS_MAX, hone, collect, 8);
  problem_link(p, LINK_FS_MIN, collect, done, 0);
  return p;
}

static void check_case(const int *start, const int *finish, const char *wanted)
{
  Problem *p = wet_hone();
  Schedule *s = schedule_new(p->task_count);
  memcpy(s->start, start, 3 * sizeof *start);
  memcpy(s->finish, finish, 3 * sizeof *finish);
  s->makespan = finish[2];
  Buf breaches = { 0 };
  assert_int_equal(check_schedule(p, s, &breaches), wanted[0] == '\0');
  if (wanted[0] != '\0') assert_non_null(strstr(buf_text(&breaches), wanted));
  buf_free(&breaches);
  schedule_free(s);
  problem_free(p);
}

static void every_breach_is_named(void **state)
{
  (void)state;
  static const struct { int start[3], finish[3]; const char *wanted; } cases[] = {
    { { 0, 160, 180 }, { 160, 180, 180 }, "" },
    { { 0, 165, 185 }, { 160, 185, 185 }, "" },
    { { 0, 169, 189 }, { 160, 189, 189 }, "task 0 ends at 160, but 1 starts at 169, after 160 +8" },
    { { 0, 150, 170 }, { 160, 170, 170 }, "before 160 +0" },
    { { 0, 160, 180 }, { 150, 180, 180 }, "task 0 works 90 minutes, not 100" },
    { { 60, 160, 180 }, { 160, 180, 180 }, "task 0 starts at 60, a closed minute" },
    { { 0, 160, 185 }, { 160, 185, 185 }, "task 1 works 25 minutes" },
    { { 0, 160, 180 }, { 160, 180, 181 }, "event 2 lasts" },
  };
  for (size_t k = 0; k < sizeof cases / sizeof *cases; k++)
    check_case(cases[k].start, cases[k].finish, cases[k].wanted);
}

static void capacity_holds_at_every_minute(void **state)
{
  (void)state;
  Problem *p = problem_new(100);
  int crew = problem_add_resource(p, 2, PROBLEM_ALWAYS);
  for (int t = 0; t < 3; t++) problem_demand(p, problem_add_task(p, 10, PROBLEM_ALWAYS, false), crew, 1);
  Schedule *s = schedule_new(3);
  for (int t = 0; t < 3; t++) s->finish[t] = (s->start[t] = t == 2 ? 10 : 0) + 10;
  s->makespan = 20;
  assert_true(check_schedule(p, s, NULL));
  s->start[2] = 9, s->finish[2] = 19;
  Buf breaches = { 0 };
  assert_false(check_schedule(p, s, &breaches));
  assert_string_equal(buf_text(&breaches), "at 9 resource 0 is asked for 3 of 2\n");
  buf_free(&breaches);
  schedule_free(s);
  problem_free(p);
}

static void people_of_overlapping_groups_must_be_distinct(void **state)
{
  (void)state;
  Problem *p = problem_new(100);
  int grinders = problem_add_group(p, 3, PROBLEM_ALWAYS), edgers = problem_add_group(p, 6, PROBLEM_ALWAYS);
  problem_demand(p, problem_add_task(p, 10, PROBLEM_ALWAYS, false), grinders, 2);
  problem_demand(p, problem_add_task(p, 10, PROBLEM_ALWAYS, false), edgers, 1);
  int more = problem_add_task(p, 10, PROBLEM_ALWAYS, false);
  problem_demand(p, more, edgers, 1);
  Schedule *s = schedule_new(3);
  for (int t = 0; t < 3; t++) s->finish[t] = (s->start[t] = t == 2 ? 10 : 0) + 10;
  s->makespan = 20;
  assert_true(check_schedule(p, s, NULL));
  s->start[2] = 0, s->finish[2] = 10; /* 4 people of 3 */
  assert_false(check_schedule(p, s, NULL));
  schedule_free(s);
  problem_free(p);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(every_breach_is_named),
    cmocka_unit_test(capacity_holds_at_every_minute),
    cmocka_unit_test(people_of_overlapping_groups_must_be_distinct),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
