#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <string.h>

#include <cmocka.h>

#include "plan/anneal.h"
#include "unit/plan/random_problem.h"
#include "unit/plan/sound.h"

/* Fast passes take no lag below 0. */
static void only_forward(Problem *p)
{
  for (int k = 0; k < p->link_count; k++)
    if (p->links[k].minutes < 0) p->links[k].minutes = 0;
}

typedef struct {
  Problem *problem;
  Instance *in;
  Passes *passes;
  Anneal *anneal;
} Run;

static Run run_new(Problem *p, uint64_t seed)
{
  only_forward(p);
  Run run = { .problem = p, .in = tight_instance(p) };
  assert_non_null(run.in);
  run.passes = passes_new(run.in);
  assert_non_null(run.passes);
  run.anneal = anneal_new(run.in, run.passes, seed);
  return run;
}

static void run_free(Run *run)
{
  anneal_free(run->anneal);
  passes_free(run->passes);
  instance_free(run->in);
  problem_free(run->problem);
}

static void justifying_keeps_a_schedule_sound_and_never_lengthens_it(void **state)
{
  (void)state;
  Dice dice = { 7 };
  for (int n = 0; n < 100; n++) {
    Run run = run_new(random_problem(&dice, 12, 63, 0), 1);
    int list[16], start[16];
    passes_order_by(run.passes, run.in->earliest, list);
    int first = passes_left(run.passes, list, start);
    assert_sound(run.in, start);
    for (int times = 0; times < 3; times++) {
      int then = passes_justify(run.passes, start, list);
      assert_true(then <= first);
      assert_sound(run.in, start);
      first = then;
    }
    run_free(&run);
  }
}

static void a_pass_to_the_right_says_what_is_left(void **state)
{
  (void)state;
  Dice dice = { 9 };
  for (int n = 0; n < 100; n++) {
    Run run = run_new(random_problem(&dice, 12, 63, 0), 1);
    int list[16], start[16], end = run.in->end;
    passes_order_by(run.passes, run.in->latest, list);
    int makespan = passes_left(run.passes, list, start), first = makespan;
    int left = passes_right(run.passes, start, list);
    for (int t = 0; t < end; t++)
      if (start[t] < first) first = start[t];
    assert_int_equal(left, makespan - first);
    assert_true(first >= 0);
    for (int t = 0; t <= end; t++) start[t] -= first;
    assert_sound(run.in, start);
    run_free(&run);
  }
}

static void a_head_that_is_placed_stays_where_it_is(void **state)
{
  (void)state;
  Dice dice = { 13 };
  for (int n = 0; n < 100; n++) {
    Run run = run_new(random_problem(&dice, 12, 63, 0), 1);
    int list[16], whole[16], again[16], tasks = run.in->end;
    passes_order_by(run.passes, run.in->latest, list);
    int makespan = passes_left(run.passes, list, whole), placed = dice_roll(&dice, tasks + 1);
    for (int k = 0; k < placed; k++) again[list[k]] = whole[list[k]];
    assert_int_equal(passes_left_from(run.passes, list, placed, again), makespan);
    assert_memory_equal(whole, again, (size_t)run.in->count * sizeof(int));
    run_free(&run);
  }
}

static void fast_passes_refuse_what_they_cannot_schedule(void **state)
{
  (void)state;
  Problem *p = problem_new(100);
  problem_add_task(p, 5, PROBLEM_ALWAYS, false);
  problem_add_task(p, 5, PROBLEM_ALWAYS, false);
  problem_link(p, LINK_FS_MIN, 0, 1, 0);
  problem_link(p, LINK_FS_MAX, 0, 1, 3);
  Instance *in = tight_instance(p);
  assert_null(passes_new(in));
  instance_free(in);
  problem_free(p);
}

static void steps_reach_the_optimum_of_small_problems(void **state)
{
  (void)state;
  Dice dice = { 11 };
  for (int n = 0; n < 60; n++) {
    Run run = run_new(random_problem(&dice, 5, 24, 0), 1);
    int best = best_by_trial(run.problem), start[16];
    anneal_run(run.anneal, 500, 0, best);
    assert_int_equal(anneal_best(run.anneal, start), best);
    assert_sound(run.in, start);
    run_free(&run);
  }
}

static bool rises(Run *run)
{
  bool rose = false;
  for (int k = 0, before = anneal_makespan(run->anneal); k < 100; k++) {
    anneal_run(run->anneal, 1, 0, 0);
    rose |= anneal_makespan(run->anneal) > before;
    before = anneal_makespan(run->anneal);
  }
  return rose;
}

static void only_a_hot_run_takes_what_is_worse(void **state)
{
  (void)state;
  Dice dice = { 5 };
  bool rose = false;
  for (int n = 0; n < 20; n++) {
    Run run = run_new(random_problem(&dice, 14, 100, 0), 1);
    int start[16];
    rose |= rises(&run);
    for (int k = 0; k < 100; k++) {
      int before = anneal_makespan(run.anneal), best = anneal_best(run.anneal, start);
      anneal_run(run.anneal, 1, 1, 0);
      assert_true(anneal_makespan(run.anneal) <= before);
      assert_true(anneal_best(run.anneal, start) <= best);
      assert_int_equal(start[run.in->end], anneal_best(run.anneal, start));
    }
    run_free(&run);
  }
  assert_true(rose);
}

static void it_goes_on_from_a_schedule_that_it_is_given(void **state)
{
  (void)state;
  Dice dice = { 3 };
  Run run = run_new(random_problem(&dice, 14, 100, 0), 1);
  Anneal *other = anneal_new(run.in, run.passes, 2);
  int start[2][16];
  int best = anneal_run(run.anneal, 2000, 0.5, 0);
  assert_int_equal(anneal_best(run.anneal, start[0]), best);
  anneal_follow(other, start[0]);
  assert_true(anneal_makespan(other) <= best);
  assert_true(anneal_best(other, start[1]) <= best);
  assert_sound(run.in, start[1]);
  anneal_free(other);
  run_free(&run);
}

/* Where every place on the list is given, nothing can move. */
static void a_chain_of_tasks_has_one_schedule(void **state)
{
  (void)state;
  Problem *p = problem_new(100);
  for (int t = 0; t < 4; t++) problem_add_task(p, 5, PROBLEM_ALWAYS, false);
  for (int t = 0; t < 3; t++) problem_link(p, LINK_FS_MIN, t, t + 1, 0);
  Run run = run_new(p, 1);
  assert_int_equal(anneal_run(run.anneal, 50, 0, 0), 20);
  run_free(&run);
}

static void the_same_seed_gives_the_same_schedule(void **state)
{
  (void)state;
  Dice dice = { 3 };
  Run run = run_new(random_problem(&dice, 14, 100, 0), 5);
  Anneal *again = anneal_new(run.in, run.passes, 5);
  int start[2][16];
  anneal_run(run.anneal, 50, 0, 0);
  anneal_run(again, 50, 0, 0);
  anneal_best(run.anneal, start[0]);
  anneal_best(again, start[1]);
  assert_memory_equal(start[0], start[1], (size_t)run.in->count * sizeof(int));
  anneal_free(again);
  run_free(&run);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(justifying_keeps_a_schedule_sound_and_never_lengthens_it),
    cmocka_unit_test(a_pass_to_the_right_says_what_is_left),
    cmocka_unit_test(a_head_that_is_placed_stays_where_it_is),
    cmocka_unit_test(fast_passes_refuse_what_they_cannot_schedule),
    cmocka_unit_test(steps_reach_the_optimum_of_small_problems),
    cmocka_unit_test(only_a_hot_run_takes_what_is_worse),
    cmocka_unit_test(it_goes_on_from_a_schedule_that_it_is_given),
    cmocka_unit_test(a_chain_of_tasks_has_one_schedule),
    cmocka_unit_test(the_same_seed_gives_the_same_schedule),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
