#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "plan/check.h"
#include "plan/solve.h"
#include "unit/plan/random_problem.h"

static void agree_on(Dice *dice, int tasks, int horizon, int features)
{
  Problem *p = random_problem(dice, tasks, horizon, features);
  int wanted = best_by_trial(p);
  SolveResult r = solve(p, NULL);
  if (wanted < 0) {
    assert_int_equal(r.status, SOLVE_INFEASIBLE);
    assert_null(r.schedule);
  } else {
    assert_int_equal(r.status, SOLVE_BEST);
    Buf breaches = { 0 };
    if (!check_schedule(p, r.schedule, &breaches)) fail_msg("%s", buf_text(&breaches));
    buf_free(&breaches);
    assert_int_equal(r.schedule->makespan, wanted);
    assert_int_equal(r.lower_bound, wanted);
  }
  solve_free(&r);
  problem_free(p);
}

static void the_solver_agrees_with_trying_everything(void **state)
{
  (void)state;
  static const struct { int features, tasks, horizon, times; } cases[] = {
    { 0, 5, 24, 150 },
    { 0, 6, 8, 150 },
    { RANDOM_MAX_LAGS, 5, 26, 200 },
    { RANDOM_CALENDARS, 4, 40, 200 },
    { RANDOM_WINDOWS | RANDOM_MAX_LAGS, 5, 26, 150 },
    { RANDOM_CALENDARS | RANDOM_MAX_LAGS, 4, 40, 300 },
    { RANDOM_GROUPS, 5, 24, 150 },
    { RANDOM_ALL, 4, 36, 400 },
  };
  Dice dice = { 4 };
  for (size_t k = 0; k < sizeof cases / sizeof *cases; k++)
    for (int n = 0; n < cases[k].times; n++) agree_on(&dice, cases[k].tasks, cases[k].horizon, cases[k].features);
}

/* Tasks of 5 minutes, one after the other. */
static void a_schedule_that_ends_after_the_horizon_is_none(void **state)
{
  (void)state;
  for (int horizon = 10; horizon <= 20; horizon++) {
    Problem *p = problem_new(horizon);
    problem_add_resource(p, 1, PROBLEM_ALWAYS);
    for (int t = 0; t < 3; t++) problem_demand(p, problem_add_task(p, 5, PROBLEM_ALWAYS, false), 0, 1);
    SolveResult r = solve(p, NULL);
    assert_int_equal(r.status, horizon < 15 ? SOLVE_INFEASIBLE : SOLVE_BEST);
    if (r.schedule != NULL) assert_int_equal(r.schedule->makespan, 15);
    solve_free(&r);
    problem_free(p);
  }
}

/* A problem too large to be proved at once: 60 tasks, two resources, a few predecessors each. */
static Problem *large_problem(int features)
{
  Dice dice = { 5 };
  Problem *p = problem_new(600);
  for (int k = 0; k < 2; k++) problem_add_resource(p, 10, PROBLEM_ALWAYS);
  for (int t = 0; t < 60; t++) {
    problem_add_task(p, 1 + dice_roll(&dice, 10), PROBLEM_ALWAYS, false);
    for (int r = 0; r < 2; r++) problem_demand(p, t, r, dice_roll(&dice, 8));
    for (int k = 0; k < 2 && t > 10; k++) problem_link(p, LINK_FS_MIN, t - 1 - dice_roll(&dice, 10), t, 0);
    if (features & RANDOM_MAX_LAGS && t % 5 == 4) problem_link(p, LINK_SS_MAX, t - 1, t, 12);
  }
  return p;
}

static void the_same_work_gives_the_same_answer(void **state)
{
  (void)state;
  static const int features[] = { 0, RANDOM_MAX_LAGS };
  for (int n = 0; n < 2; n++) {
    Problem *p = large_problem(features[n]);
    SolveOptions options = { .work = 3000000 };
    SolveResult a = solve(p, &options), b = solve(p, &options);
    assert_non_null(a.schedule);
    assert_true(check_schedule(p, a.schedule, NULL));
    assert_int_equal(a.work, b.work);
    assert_int_equal(a.lower_bound, b.lower_bound);
    assert_memory_equal(a.schedule->start, b.schedule->start, (size_t)p->task_count * sizeof(int));
    solve_free(&a);
    solve_free(&b);
    problem_free(p);
  }
}

static void any_number_of_threads_gives_the_same_answer(void **state)
{
  (void)state;
  static const int features[] = { 0, RANDOM_MAX_LAGS }, threads[] = { 2, 4, 64 };
  for (int n = 0; n < 2; n++) {
    Problem *p = large_problem(features[n]);
    SolveResult one = solve(p, &(SolveOptions){ .work = 8000000 });
    assert_non_null(one.schedule);
    for (size_t k = 0; k < sizeof threads / sizeof *threads; k++) {
      SolveResult more = solve(p, &(SolveOptions){ .work = 8000000, .threads = threads[k] });
      assert_int_equal(more.work, one.work);
      assert_int_equal(more.status, one.status);
      assert_int_equal(more.lower_bound, one.lower_bound);
      assert_memory_equal(more.schedule->start, one.schedule->start, (size_t)p->task_count * sizeof(int));
      solve_free(&more);
    }
    solve_free(&one);
    problem_free(p);
  }
}

static bool stop_at_once(void *context, const SolveProgress *progress)
{
  ++*(int *)context;
  assert_true(progress->makespan >= progress->lower_bound);
  return false;
}

static void whoever_watches_can_stop_it(void **state)
{
  (void)state;
  Problem *p = large_problem(RANDOM_MAX_LAGS);
  int calls = 0;
  SolveResult r = solve(p, &(SolveOptions){ .progress = stop_at_once, .context = &calls });
  assert_int_equal(calls, 1);
  assert_int_equal(r.status, SOLVE_FEASIBLE);
  assert_true(check_schedule(p, r.schedule, NULL));
  solve_free(&r);
  problem_free(p);
}

static void a_contradiction_of_lags_is_named(void **state)
{
  (void)state;
  Problem *p = problem_new(100);
  problem_add_task(p, 30, PROBLEM_ALWAYS, false);
  problem_add_task(p, 10, PROBLEM_ALWAYS, false);
  problem_link(p, LINK_SS_MIN, 0, 1, 20);
  problem_link(p, LINK_SS_MAX, 0, 1, 15);
  SolveResult r = solve(p, NULL);
  assert_int_equal(r.status, SOLVE_INFEASIBLE);
  assert_int_equal(r.why.link_count, 2);
  assert_int_equal(r.why.task_count, 0);
  solve_free(&r);
  problem_free(p);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_solver_agrees_with_trying_everything),
    cmocka_unit_test(a_schedule_that_ends_after_the_horizon_is_none),
    cmocka_unit_test(the_same_work_gives_the_same_answer),
    cmocka_unit_test(any_number_of_threads_gives_the_same_answer),
    cmocka_unit_test(whoever_watches_can_stop_it),
    cmocka_unit_test(a_contradiction_of_lags_is_named),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
