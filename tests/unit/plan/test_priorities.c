/* test_priorities.c - the orders in which first schedules are built. */
#include "support.h"

#include "plan/priorities.h"

enum { CHAINS = 4, LENGTH = 3 };

/* Chains of three tasks of 10 minutes each, numbered chain by chain, and one task that is fixed late. */
static Problem *chains(void)
{
  Problem *p = problem_new(1000);
  for (int t = 0; t < CHAINS * LENGTH; t++) {
    problem_add_task(p, 10, PROBLEM_ALWAYS, false);
    if (t % LENGTH > 0) problem_link(p, LINK_FS_MIN, t - 1, t, 0);
  }
  p->tasks[problem_add_task(p, 10, PROBLEM_ALWAYS, false)].fixed_start = 100;
  return p;
}

static void by_latest_start_chains_go_abreast_and_tilted_those_first_written_run_ahead(void **state)
{
  (void)state;
  Problem *p = chains();
  Instance *in = instance_new(p);
  int key[CHAINS * LENGTH + 2];
  for (int t = 0; t < CHAINS * LENGTH; t++) in->latest[t] = 970 + 10 * (t % LENGTH);
  priorities_by_rule(in, 0, key);
  assert_int_equal(key[0], key[LENGTH]);
  assert_true(key[LENGTH] < key[1]);
  for (int rule = 2; rule < PRIORITIES_RULES; rule++) {
    priorities_by_rule(in, rule, key);
    assert_true(key[LENGTH - 1] < key[(CHAINS - 1) * LENGTH]); /* the first chain is done before the last begins */
    assert_true(key[CHAINS * LENGTH - 1] < 1000 * PRIORITIES_RULES); /* the fixed one spreads nothing */
  }
  instance_free(in);
  problem_free(p);
}

static void by_earliest_start_what_can_begin_goes_first(void **state)
{
  (void)state;
  Problem *p = chains();
  Instance *in = instance_new(p);
  int key[CHAINS * LENGTH + 2];
  in->earliest[5] = 77;
  priorities_by_rule(in, 1, key);
  assert_memory_equal(key, in->earliest, (size_t)in->count * sizeof *key);
  instance_free(in);
  problem_free(p);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(by_latest_start_chains_go_abreast_and_tilted_those_first_written_run_ahead),
    cmocka_unit_test(by_earliest_start_what_can_begin_goes_first),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
