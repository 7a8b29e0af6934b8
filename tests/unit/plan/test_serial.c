#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "plan/check.h"
#include "plan/solve.h"

/* Solves and checks; the makespan, or -1 if there is no schedule. */
static int makespan_of(Problem *p)
{
  SolveResult r = solve(p, NULL);
  int makespan = r.schedule ? r.schedule->makespan : -1;
  if (r.schedule != NULL) {
    Buf breaches = { 0 };
    if (!check_schedule(p, r.schedule, &breaches)) fail_msg("%s", buf_text(&breaches));
    assert_true(r.lower_bound <= makespan);
    buf_free(&breaches);
  }
  solve_free(&r);
  problem_free(p);
  return makespan;
}

static void tasks_share_a_resource_in_turn(void **state)
{
  (void)state;
  Problem *p = problem_new(100);
  int grinder = problem_add_resource(p, 1, PROBLEM_ALWAYS);
  for (int t = 0; t < 4; t++) problem_demand(p, problem_add_task(p, 10, PROBLEM_ALWAYS, false), grinder, 1);
  assert_int_equal(makespan_of(p), 40);
}

/* Two areas, one crew: hone, and collect at most 5 minutes after. The second hone must not begin before the first
 * collect, or the collect comes too late. */
static void a_task_waits_so_that_its_successor_comes_in_time(void **state)
{
  (void)state;
  Problem *p = problem_new(1000);
  int crew = problem_add_resource(p, 1, PROBLEM_ALWAYS);
  for (int area = 0; area < 2; area++) {
    int hone = problem_add_task(p, 30, PROBLEM_ALWAYS, false);
    int collect = problem_add_task(p, 10, PROBLEM_ALWAYS, false);
    problem_demand(p, hone, crew, 1);
    problem_demand(p, collect, crew, 1);
    problem_link(p, LINK_FS_MIN, hone, collect, 2);
    problem_link(p, LINK_FS_MAX, hone, collect, 5);
  }
  assert_int_equal(makespan_of(p), 84);
}

static void work_pauses_overnight_and_a_window_does_not(void **state)
{
  (void)state;
  static const Interval shifts[] = { { 0, 60 }, { 200, 260 }, { 400, 460 } };
  Problem *p = problem_new(1000);
  int day = problem_add_calendar(p, shifts, 3), crew = problem_add_resource(p, 1, day);
  int hone = problem_add_task(p, 50, PROBLEM_ALWAYS, true), spread = problem_add_task(p, 10, PROBLEM_ALWAYS, false);
  int take_up = problem_add_task(p, 30, PROBLEM_ALWAYS, false);
  for (int t = 0; t < 3; t++) problem_demand(p, t, crew, 1);
  problem_link(p, LINK_FS_MIN, hone, spread, 0);
  problem_link(p, LINK_FS_MIN, spread, take_up, 20);
  problem_link(p, LINK_FS_MAX, spread, take_up, 30);
  assert_int_equal(makespan_of(p), 260);
}

static void more_than_there_is_makes_no_schedule(void **state)
{
  (void)state;
  Problem *p = problem_new(100);
  int crew = problem_add_resource(p, 2, PROBLEM_ALWAYS);
  problem_demand(p, problem_add_task(p, 10, PROBLEM_ALWAYS, false), crew, 3);
  assert_int_equal(makespan_of(p), -1);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(tasks_share_a_resource_in_turn),
    cmocka_unit_test(a_task_waits_so_that_its_successor_comes_in_time),
    cmocka_unit_test(work_pauses_overnight_and_a_window_does_not),
    cmocka_unit_test(more_than_there_is_makes_no_schedule),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
