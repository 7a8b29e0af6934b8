#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "plan/dice.h"
#include "plan/profile.h"

enum { TASKS = 24, HORIZON = 3000 };

/* Tasks of all lengths on two resources, some with hours, some of those with pauses. */
static Problem *problem_of_chance(Dice *dice)
{
  Interval days[HORIZON / 100];
  for (int k = 0; k < HORIZON / 100; k++) days[k] = (Interval){ k * 100 + 20, k * 100 + 80 };
  Problem *p = problem_new(HORIZON);
  problem_add_calendar(p, days, HORIZON / 100);
  problem_add_resource(p, 3, PROBLEM_ALWAYS);
  problem_add_resource(p, 2, PROBLEM_ALWAYS);
  for (int t = 0; t < TASKS; t++) {
    problem_add_task(p, 1 + dice_roll(dice, 60), dice_roll(dice, 3) ? 0 : PROBLEM_ALWAYS, dice_roll(dice, 2));
    problem_demand(p, t, 0, dice_roll(dice, 4));
    problem_demand(p, t, 1, 1 + dice_roll(dice, 2));
  }
  return p;
}

typedef struct {
  const Instance *in;
  int start[TASKS]; /* -1: not placed */
} Placed;

/* Counted task by task: may it begin at `start` beside those that are placed? */
static bool fits(const Placed *placed, int task, int start)
{
  const Instance *in = placed->in;
  for (int m = start; m < instance_finish(in, task, start); m++) {
    int use[2] = { 0 };
    for (int t = 0; t < TASKS; t++) {
      int from = t == task ? start : placed->start[t];
      bool works = from >= 0 && from <= m && m < instance_finish(in, t, from) && calendar_is_open(in->working[t], m);
      for (int r = 0; works && r < 2; r++) use[r] += in->need[t * in->resource_count + r];
    }
    bool works = calendar_is_open(in->working[task], m);
    if (works && (use[0] > in->capacity[0] || use[1] > in->capacity[1])) return false;
  }
  return true;
}

static int earliest_by_counting(const Placed *placed, int task, int from)
{
  int start = instance_next(placed->in, task, from);
  while (!fits(placed, task, start)) start = instance_next(placed->in, task, start + 1);
  return start;
}

static void starts_are_the_first_that_fit_whatever_was_taken_and_given_back(void **state)
{
  (void)state;
  Dice dice = { 11 };
  Problem *p = problem_of_chance(&dice);
  Instance *in = instance_new(p);
  Profile profile = profile_new(in);
  Placed placed = { .in = in };
  for (int t = 0; t < TASKS; t++) placed.start[t] = -1;
  for (int n = 0; n < 1500; n++) {
    int task = dice_roll(&dice, TASKS), from = dice_roll(&dice, 300);
    if (placed.start[task] >= 0) {
      profile_give(&profile, task, placed.start[task]);
      placed.start[task] = -1;
    } else {
      int start = profile_earliest(&profile, task, from, HORIZON);
      assert_int_equal(start, earliest_by_counting(&placed, task, from));
      profile_take(&profile, task, start);
      placed.start[task] = start;
    }
  }
  profile_free(&profile);
  instance_free(in);
  problem_free(p);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(starts_are_the_first_that_fit_whatever_was_taken_and_given_back),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
