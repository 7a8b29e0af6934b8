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
  Ways *ways;
  Pass *pass;
  Anneal *anneal;
} Run;

static Run run_new(Problem *p, uint64_t seed)
{
  only_forward(p);
  Run run = { .problem = p, .in = tight_instance(p) };
  assert_non_null(run.in);
  run.ways = ways_new(run.in);
  assert_non_null(run.ways);
  run.pass = pass_new(run.ways);
  run.anneal = anneal_new(run.ways, seed);
  return run;
}

static void run_free(Run *run)
{
  anneal_free(run->anneal);
  pass_free(run->pass);
  ways_free(run->ways);
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
    pass_order_by(run.pass, run.in->earliest, list);
    int first = pass_left(run.pass, list, start);
    assert_sound(run.in, start);
    for (int times = 0; times < 3; times++) {
      int then = pass_justify(run.pass, start, list);
      assert_true(then <= first);
      assert_sound(run.in, start);
      first = then;
    }
    run_free(&run);
  }
}

static void a_pass_to_the_right_counts_from_its_first_start(void **state)
{
  (void)state;
  Dice dice = { 9 };
  for (int n = 0; n < 100; n++) {
    Run run = run_new(random_problem(&dice, 12, 63, 0), 1);
    int list[16], start[16], end = run.in->end;
    pass_order_by(run.pass, run.in->latest, list);
    int makespan = pass_left(run.pass, list, start), first = makespan;
    int left = pass_right(run.pass, start, list);
    for (int t = 0; t < end; t++)
      if (start[t] < first) first = start[t];
    assert_int_equal(first, 0);
    assert_int_equal(start[end], left);
    assert_true(left <= makespan);
    assert_sound(run.in, start);
    run_free(&run);
  }
}

/* The same tasks with resources that none asks for. With more than four the minutes are looked at one by one, with more
 * than eight in two words each. */
static void four_minutes_at_a_time_find_what_one_by_one_finds(void **state)
{
  (void)state;
  Dice dice = { 21 };
  for (int n = 0; n < 200; n++) {
    uint64_t seed = dice.state;
    Problem *more = random_problem(&dice, 14, 100, 0);
    dice.state = seed;
    Run few = run_new(random_problem(&dice, 14, 100, 0), 1);
    for (int k = n % 2 ? 3 : 10; k > 0; k--) problem_add_resource(more, 1, PROBLEM_ALWAYS);
    Run many = run_new(more, 1);
    int list[16], one[16], four[16];
    pass_order_by(few.pass, few.in->latest, list);
    assert_int_equal(pass_left(few.pass, list, four), pass_left(many.pass, list, one));
    assert_memory_equal(four, one, (size_t)few.in->count * sizeof(int));
    assert_int_equal(pass_right(few.pass, four, list), pass_right(many.pass, one, list));
    assert_memory_equal(four, one, (size_t)few.in->count * sizeof(int));
    run_free(&few);
    run_free(&many);
  }
}

/* Two passes under way, and what each would be alone. */
static void passes_side_by_side_do_not_disturb_each_other(void **state)
{
  (void)state;
  Dice dice = { 13 };
  for (int n = 0; n < 100; n++) {
    Run run = run_new(random_problem(&dice, 12, 63, 0), 1);
    Pass *passes[] = { run.pass, pass_new(run.ways) };
    int list[2][16], start[2][16], alone[16];
    for (int k = 0; k < 2; k++) {
      pass_order_by(passes[k], k == 0 ? run.in->latest : run.in->earliest, list[k]);
      pass_begin_left(passes[k], list[k], NULL, 1000, start[k]);
    }
    int first = pass_go_on(passes[0], passes[1]) == passes[1];
    int makespan[2];
    makespan[first] = pass_result(passes[first]);
    assert_ptr_equal(pass_go_on(passes[!first], NULL), passes[!first]);
    makespan[!first] = pass_result(passes[!first]);
    for (int k = 0; k < 2; k++) {
      assert_int_equal(pass_left(passes[!k], list[k], alone), makespan[k]);
      assert_memory_equal(alone, start[k], (size_t)run.in->count * sizeof(int));
    }
    pass_free(passes[1]);
    run_free(&run);
  }
}

static int pass_like(Run *run, const int *list, PassLike like, int most, int *start)
{
  pass_begin_left(run->pass, list, &like, most, start);
  return pass_result(pass_go_on(run->pass, NULL));
}

static bool must_precede(const Instance *in, int from, int to)
{
  for (int k = in->out_first[from]; k < in->out_first[from + 1]; k++)
    if (in->edges[in->out[k]].to == to) return true;
  return false;
}

/* Two neighbours on the list change places. */
static void a_list_like_another_gives_what_it_would_alone(void **state)
{
  (void)state;
  Dice dice = { 13 };
  for (int n = 0, changed = 0, same = 0; n < 200 || changed < 20 || same < 20; n++) {
    Run run = run_new(random_problem(&dice, 12, 63, 0), 1);
    int list[16], old[16], start[16], alone[16], at = dice_roll(&dice, run.in->end - 1);
    size_t bytes = (size_t)run.in->count * sizeof(int);
    pass_order_by(run.pass, run.in->latest, list);
    pass_left(run.pass, list, old);
    memcpy(start, old, bytes);
    assert_int_equal(pass_like(&run, list, (PassLike){ at, at }, 1000, start), PASS_SAME);
    if (!must_precede(run.in, list[at], list[at + 1])) {
      int first = list[at];
      list[at] = list[at + 1];
      list[at + 1] = first;
    }
    int makespan = pass_like(&run, list, (PassLike){ at, at + 2 }, 1000, start);
    int wanted = pass_left(run.pass, list, alone);
    if (makespan == PASS_SAME) same++;
    else changed++, assert_int_equal(makespan, wanted);
    assert_memory_equal(alone, start, bytes);
    run_free(&run);
  }
}

static void a_pass_is_given_up_only_when_it_must_become_too_long(void **state)
{
  (void)state;
  Dice dice = { 17 };
  for (int n = 0; n < 100; n++) {
    Run run = run_new(random_problem(&dice, 12, 63, 0), 1);
    int list[16], start[16], again[16];
    pass_order_by(run.pass, run.in->latest, list);
    int makespan = pass_left(run.pass, list, start);
    for (int most = 0; most <= makespan; most++) {
      pass_begin_left(run.pass, list, NULL, most, again);
      int found = pass_result(pass_go_on(run.pass, NULL));
      if (most < makespan) assert_true(found > most);
      else assert_int_equal(found, makespan);
    }
    assert_memory_equal(start, again, (size_t)run.in->count * sizeof(int));
    int left = pass_right(run.pass, again, list);
    for (int most = 0; most <= left; most++) {
      memcpy(again, start, sizeof again);
      pass_begin_right(run.pass, most, again, list);
      int found = pass_result(pass_go_on(run.pass, NULL));
      if (most < left) assert_true(found > most);
      else assert_int_equal(found, left);
    }
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
  assert_null(ways_new(in));
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
  Anneal *other = anneal_new(run.ways, 2);
  int start[2][16];
  int best = anneal_run(run.anneal, 2000, 0.5, 0);
  assert_int_equal(anneal_best(run.anneal, start[0]), best);
  anneal_follow(other, start[0]);
  assert_true(anneal_best(other, start[1]) <= best);
  anneal_follow(other, start[0]); /* the other of its two walks, or the same again */
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
  Anneal *again = anneal_new(run.ways, 5);
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
    cmocka_unit_test(a_pass_to_the_right_counts_from_its_first_start),
    cmocka_unit_test(four_minutes_at_a_time_find_what_one_by_one_finds),
    cmocka_unit_test(passes_side_by_side_do_not_disturb_each_other),
    cmocka_unit_test(a_list_like_another_gives_what_it_would_alone),
    cmocka_unit_test(a_pass_is_given_up_only_when_it_must_become_too_long),
    cmocka_unit_test(fast_passes_refuse_what_they_cannot_schedule),
    cmocka_unit_test(steps_reach_the_optimum_of_small_problems),
    cmocka_unit_test(only_a_hot_run_takes_what_is_worse),
    cmocka_unit_test(it_goes_on_from_a_schedule_that_it_is_given),
    cmocka_unit_test(a_chain_of_tasks_has_one_schedule),
    cmocka_unit_test(the_same_seed_gives_the_same_schedule),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
