#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "plan/bounds.h"
#include "plan/check.h"
#include "plan/cp.h"
#include "plan/temporal.h"
#include "unit/plan/random_problem.h"

static const CpLimit no_limit = { .work = INT64_MAX / 2, .conflicts = INT64_MAX / 2 };

static CpStatus search_within(Cp *cp, const Instance *in, int makespan, int *start)
{
  CpAssumption by = { in->end, 0, makespan };
  return cp_search(cp, &by, 1, no_limit, start);
}

/* One engine is asked for every makespan, down and up again: what it learned must not outlive an assumption. */
static void ask_every_makespan(const Problem *p, int best)
{
  Instance *in = instance_new(p);
  int start[16];
  bool windows = in->hopeless < 0 && temporal_tighten(in, in->earliest, in->latest, NULL);
  assert_true(windows || best < 0);
  if (windows) {
    assert_true(best < 0 || bounds_energy(in, in->earliest) <= best);
    Cp *cp = cp_new(in, in->earliest, in->latest);
    for (int by = p->horizon; by >= 0; by -= 3)
      assert_int_equal(search_within(cp, in, by, start), best >= 0 && by >= best ? CP_FOUND : CP_REFUTED);
    for (int by = 0; by <= p->horizon; by++) {
      CpStatus status = search_within(cp, in, by, start);
      assert_int_equal(status, best >= 0 && by >= best ? CP_FOUND : CP_REFUTED);
      if (status != CP_FOUND) continue;
      Schedule *s = instance_schedule(in, start);
      assert_true(s->makespan <= by && check_schedule(p, s, NULL));
      schedule_free(s);
    }
    cp_free(cp);
  }
  instance_free(in);
}

static void a_makespan_is_found_or_refuted_exactly(void **state)
{
  (void)state;
  static const int features[] = { 0, RANDOM_MAX_LAGS, RANDOM_CALENDARS, RANDOM_ALL };
  Dice dice = { 99 };
  for (int n = 0; n < 240; n++) {
    Problem *p = random_problem(&dice, 4 + n % 2, 26, features[n % 4]);
    ask_every_makespan(p, best_by_trial(p));
    problem_free(p);
  }
}

static void a_bound_that_contradicts_is_final(void **state)
{
  (void)state;
  Problem *p = problem_new(100);
  int crew = problem_add_resource(p, 1, PROBLEM_ALWAYS);
  for (int t = 0; t < 3; t++) problem_demand(p, problem_add_task(p, 10, PROBLEM_ALWAYS, false), crew, 1);
  Instance *in = instance_new(p);
  assert_true(temporal_tighten(in, in->earliest, in->latest, NULL));
  Cp *cp = cp_new(in, in->earliest, in->latest);
  int start[4];
  assert_int_equal(cp_search(cp, NULL, 0, no_limit, start), CP_FOUND);
  assert_int_equal(search_within(cp, in, 29, start), CP_REFUTED);
  assert_int_equal(cp_search(cp, NULL, 0, no_limit, start), CP_FOUND); /* the assumption is gone */
  cp_at_most(cp, in->end, 29);
  assert_int_equal(cp_search(cp, NULL, 0, no_limit, start), CP_REFUTED);
  assert_false(cp_at_least(cp, in->end, 0));
  cp_free(cp);
  instance_free(in);
  problem_free(p);
}

static void energy_counts_heads_and_tails(void **state)
{
  (void)state;
  Problem *p = problem_new(200);
  int crew = problem_add_resource(p, 2, PROBLEM_ALWAYS);
  int survey = problem_add_task(p, 7, PROBLEM_ALWAYS, false), cure = problem_add_task(p, 20, PROBLEM_ALWAYS, false);
  for (int t = 0; t < 5; t++) {
    int hone = problem_add_task(p, 10, PROBLEM_ALWAYS, false);
    problem_demand(p, hone, crew, 1);
    problem_link(p, LINK_FS_MIN, survey, hone, 0);
    problem_link(p, LINK_FS_MIN, hone, cure, 0);
  }
  Instance *in = instance_new(p);
  assert_true(temporal_tighten(in, in->earliest, in->latest, NULL));
  assert_int_equal(in->earliest[in->end], 37);
  assert_int_equal(bounds_energy(in, in->earliest), 7 + 25 + 20);
  instance_free(in);
  problem_free(p);
}

/* Begun at 1 and paused at once, the hone ends long after its start, and sealing need not wait for that end. */
static void work_that_may_pause_has_no_tail_from_its_start(void **state)
{
  (void)state;
  static const Interval shifts[] = { { 1, 4 }, { 5, 10 } };
  Problem *p = problem_new(40);
  int day = problem_add_calendar(p, shifts, 2), crew = problem_add_resource(p, 1, day);
  int hone = problem_add_task(p, 4, day, true), seal = problem_add_task(p, 3, PROBLEM_ALWAYS, false);
  problem_demand(p, hone, crew, 1);
  problem_link(p, LINK_SS_MIN, hone, seal, 2);
  Instance *in = instance_new(p);
  int tail[3];
  bounds_tails(in, tail);
  assert_int_equal(tail[hone], 0);
  assert_true(temporal_tighten(in, in->earliest, in->latest, NULL));
  assert_int_equal(bounds_energy(in, in->earliest), 6);
  instance_free(in);
  problem_free(p);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_makespan_is_found_or_refuted_exactly),
    cmocka_unit_test(a_bound_that_contradicts_is_final),
    cmocka_unit_test(energy_counts_heads_and_tails),
    cmocka_unit_test(work_that_may_pause_has_no_tail_from_its_start),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
