#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <string.h>

#include <cmocka.h>

#include "plan/genetic.h"
#include "unit/plan/random_problem.h"
#include "unit/plan/sound.h"

/* How often 300 children reach the optimum, with or without calendars. */
static int optima_reached(int features, int tasks, int horizon, int times)
{
  Dice dice = { 11 };
  int reached = 0;
  for (int n = 0; n < times; n++) {
    Problem *p = random_problem(&dice, tasks, horizon, features);
    int best = best_by_trial(p), start[16];
    Instance *in = best < 0 ? NULL : tight_instance(p);
    if (in != NULL) {
      Serial *serial = serial_new(in, in->earliest, in->latest);
      Genetic *genetic = genetic_new(in, serial, 20, 1);
      genetic_run(genetic, 300, best);
      int found = genetic_best(genetic, start);
      assert_true(found >= best);
      if (found < CALENDAR_NEVER) assert_sound(in, start);
      reached += found == best;
      genetic_free(genetic);
      serial_free(serial);
      instance_free(in);
    } else {
      reached++;
    }
    problem_free(p);
  }
  return reached;
}

static void children_reach_the_optimum_of_small_problems(void **state)
{
  (void)state;
  assert_int_equal(optima_reached(0, 5, 24, 60), 60);
  assert_in_range(optima_reached(RANDOM_CALENDARS, 4, 40, 60), 55, 60);
  assert_in_range(optima_reached(RANDOM_MAX_LAGS, 5, 26, 60), 45, 60);
}

static void the_same_seed_gives_the_same_schedule(void **state)
{
  (void)state;
  Dice dice = { 3 };
  Problem *p = random_problem(&dice, 14, 100, RANDOM_CALENDARS);
  Instance *in = tight_instance(p);
  assert_non_null(in);
  int start[2][16];
  for (int run = 0; run < 2; run++) {
    Serial *serial = serial_new(in, in->earliest, in->latest);
    Genetic *genetic = genetic_new(in, serial, 10, 5);
    genetic_run(genetic, 50, 0);
    assert_true(genetic_best(genetic, start[run]) < CALENDAR_NEVER);
    genetic_free(genetic);
    serial_free(serial);
  }
  assert_memory_equal(start[0], start[1], (size_t)in->count * sizeof(int));
  instance_free(in);
  problem_free(p);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(children_reach_the_optimum_of_small_problems),
    cmocka_unit_test(the_same_seed_gives_the_same_schedule),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
