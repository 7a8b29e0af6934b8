#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <string.h>

#include <cmocka.h>

#include "plan/anneal.h"
#include "plan/check.h"
#include "plan/temporal.h"
#include "unit/plan/random_problem.h"

static void assert_sound(const Instance *in, const int *start)
{
  Schedule *s = instance_schedule(in, start);
  Buf breaches = { 0 };
  if (!check_schedule(in->problem, s, &breaches)) fail_msg("%s", buf_text(&breaches));
  buf_free(&breaches);
  schedule_free(s);
}

static Instance *tight_instance(const Problem *p)
{
  Instance *in = instance_new(p);
  if (temporal_tighten(in, in->earliest, in->latest, NULL)) return in;
  instance_free(in);
  return NULL;
}

/* Fast passes take no lag below 0. */
static void only_forward(Problem *p)
{
  for (int k = 0; k < p->link_count; k++)
    if (p->links[k].minutes < 0) p->links[k].minutes = 0;
}

static void justifying_keeps_a_schedule_sound_and_never_lengthens_it(void **state)
{
  (void)state;
  Dice dice = { 7 };
  for (int n = 0; n < 100; n++) {
    Problem *p = random_problem(&dice, 12, 63, 0);
    only_forward(p);
    Instance *in = tight_instance(p);
    Passes *passes = passes_new(in);
    assert_non_null(passes);
    int list[16], start[16];
    passes_order_by(passes, in->earliest, list);
    int first = passes_left(passes, list, start);
    assert_sound(in, start);
    for (int times = 0; times < 3; times++) {
      int then = passes_justify(passes, start, list);
      assert_true(then <= first);
      assert_sound(in, start);
      first = then;
    }
    passes_free(passes);
    instance_free(in);
    problem_free(p);
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

static void a_pass_to_the_right_says_what_is_left(void **state)
{
  (void)state;
  Dice dice = { 9 };
  for (int n = 0; n < 100; n++) {
    Problem *p = random_problem(&dice, 12, 63, 0);
    only_forward(p);
    Instance *in = tight_instance(p);
    Passes *passes = passes_new(in);
    int list[16], start[16];
    passes_order_by(passes, in->latest, list);
    int makespan = passes_left(passes, list, start), first = makespan;
    int left = passes_right(passes, start, list);
    for (int t = 0; t < in->end; t++)
      if (start[t] < first) first = start[t];
    assert_int_equal(left, makespan - first);
    assert_true(first >= 0);
    for (int t = 0; t < in->end; t++) start[t] -= first;
    start[in->end] -= first;
    assert_sound(in, start);
    passes_free(passes);
    instance_free(in);
    problem_free(p);
  }
}

static void steps_reach_the_optimum_of_small_problems(void **state)
{
  (void)state;
  Dice dice = { 11 };
  for (int n = 0; n < 60; n++) {
    Problem *p = random_problem(&dice, 5, 24, 0);
    only_forward(p);
    int best = best_by_trial(p), start[16];
    Instance *in = tight_instance(p);
    assert_non_null(in);
    Passes *passes = passes_new(in);
    Anneal *anneal = anneal_new(in, passes, 1);
    anneal_run(anneal, 500, 0, best);
    assert_int_equal(anneal_best(anneal, start), best);
    assert_sound(in, start);
    anneal_free(anneal);
    passes_free(passes);
    instance_free(in);
    problem_free(p);
  }
}

/* A cold run keeps no worse list; a hot one does. It never loses its best. */
static void a_cold_run_is_never_worse_off_than_before(void **state)
{
  (void)state;
  Dice dice = { 5 };
  bool rose = false;
  for (int n = 0; n < 20; n++) {
    Problem *p = random_problem(&dice, 14, 100, 0);
    only_forward(p);
    int start[16];
    Instance *in = tight_instance(p);
    Passes *passes = passes_new(in);
    Anneal *anneal = anneal_new(in, passes, 1);
    for (int k = 0, before = anneal_makespan(anneal); k < 100; k++) {
      anneal_run(anneal, 1, 0, 0);
      rose |= anneal_makespan(anneal) > before;
      before = anneal_makespan(anneal);
    }
    for (int k = 0; k < 100; k++) {
      int before = anneal_makespan(anneal), best = anneal_best(anneal, start);
      anneal_run(anneal, 1, 1, 0);
      assert_true(anneal_makespan(anneal) <= before);
      assert_true(anneal_best(anneal, start) <= best);
      assert_int_equal(start[in->end], anneal_best(anneal, start));
    }
    anneal_free(anneal);
    passes_free(passes);
    instance_free(in);
    problem_free(p);
  }
  assert_true(rose);
}

static void it_goes_on_from_a_schedule_that_it_is_given(void **state)
{
  (void)state;
  Dice dice = { 3 };
  Problem *p = random_problem(&dice, 14, 100, 0);
  only_forward(p);
  Instance *in = tight_instance(p);
  Passes *passes = passes_new(in);
  Anneal *found = anneal_new(in, passes, 1), *other = anneal_new(in, passes, 2);
  int start[2][16];
  int best = anneal_run(found, 2000, 0.5, 0);
  assert_int_equal(anneal_best(found, start[0]), best);
  anneal_follow(other, start[0]);
  assert_true(anneal_makespan(other) <= best);
  assert_true(anneal_best(other, start[1]) <= best);
  assert_sound(in, start[1]);
  anneal_free(found);
  anneal_free(other);
  passes_free(passes);
  instance_free(in);
  problem_free(p);
}

/* Where every place on the list is given, nothing can move. */
static void a_chain_of_tasks_has_one_schedule(void **state)
{
  (void)state;
  Problem *p = problem_new(100);
  for (int t = 0; t < 4; t++) problem_add_task(p, 5, PROBLEM_ALWAYS, false);
  for (int t = 0; t < 3; t++) problem_link(p, LINK_FS_MIN, t, t + 1, 0);
  Instance *in = tight_instance(p);
  Passes *passes = passes_new(in);
  Anneal *anneal = anneal_new(in, passes, 1);
  assert_int_equal(anneal_run(anneal, 50, 0, 0), 20);
  anneal_free(anneal);
  passes_free(passes);
  instance_free(in);
  problem_free(p);
}

static void the_same_seed_gives_the_same_schedule(void **state)
{
  (void)state;
  Dice dice = { 3 };
  Problem *p = random_problem(&dice, 14, 100, 0);
  only_forward(p);
  Instance *in = tight_instance(p);
  Passes *passes = passes_new(in);
  int start[2][16];
  for (int run = 0; run < 2; run++) {
    Anneal *anneal = anneal_new(in, passes, 5);
    anneal_run(anneal, 50, 0, 0);
    anneal_best(anneal, start[run]);
    anneal_free(anneal);
  }
  assert_memory_equal(start[0], start[1], (size_t)in->count * sizeof(int));
  passes_free(passes);
  instance_free(in);
  problem_free(p);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(justifying_keeps_a_schedule_sound_and_never_lengthens_it),
    cmocka_unit_test(a_pass_to_the_right_says_what_is_left),
    cmocka_unit_test(fast_passes_refuse_what_they_cannot_schedule),
    cmocka_unit_test(steps_reach_the_optimum_of_small_problems),
    cmocka_unit_test(a_cold_run_is_never_worse_off_than_before),
    cmocka_unit_test(it_goes_on_from_a_schedule_that_it_is_given),
    cmocka_unit_test(a_chain_of_tasks_has_one_schedule),
    cmocka_unit_test(the_same_seed_gives_the_same_schedule),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
