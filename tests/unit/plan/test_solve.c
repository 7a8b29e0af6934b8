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
    { RANDOM_MAX_LAGS, 5, 26, 200 },
    { RANDOM_CALENDARS, 4, 40, 200 },
    { RANDOM_WINDOWS | RANDOM_MAX_LAGS, 5, 26, 150 },
    { RANDOM_CALENDARS | RANDOM_MAX_LAGS, 4, 40, 300 },
    { RANDOM_GROUPS, 5, 24, 150 },
    { RANDOM_ALL, 4, 36, 400 },
  };
  Dice dice = { 20250914 };
  for (size_t k = 0; k < sizeof cases / sizeof *cases; k++)
    for (int n = 0; n < cases[k].times; n++) agree_on(&dice, cases[k].tasks, cases[k].horizon, cases[k].features);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_solver_agrees_with_trying_everything),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
