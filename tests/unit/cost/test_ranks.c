/* test_ranks.c - order statistics. */
#include "support.h"

#include "cost/ranks.h"

static void keys_sort_as_their_numbers(void **state)
{
  (void)state;
  static const double rising[] = { -INFINITY, -1e300, -2, -1e-300, 0, 1e-300, 1, 1.5, 3e7, INFINITY };
  for (size_t i = 1; i < COUNT_OF(rising); i++) assert_true(ranks_key(rising[i - 1]) < ranks_key(rising[i]));
}

static void equal_keys_share_the_middle_of_their_ranks(void **state)
{
  (void)state;
  static const uint64_t keys[] = { 70, UINT64_MAX, 7, 70, 1 << 30, 70 };
  static const double want[] = { 3, 6, 1, 3, 5, 3 };
  double ranks[COUNT_OF(keys)];
  ranks_of(keys, COUNT_OF(keys), ranks);
  for (size_t i = 0; i < COUNT_OF(keys); i++) assert_near(ranks[i], want[i], 0);
}

static void correlation_is_of_ranks(void **state)
{
  (void)state;
  static const double rising[] = { 1, 2, 3, 4, 5 }, falling[] = { 5, 4, 3, 2, 1 }, same[] = { 3, 3, 3, 3, 3 };
  static const double swapped[] = { 2, 1, 4, 3, 5 }; /* 1 - 6 x 4 / (5 x 24) */
  assert_near(ranks_correlation(rising, rising, 5), 1, 1e-15);
  assert_near(ranks_correlation(rising, falling, 5), -1, 1e-15);
  assert_near(ranks_correlation(rising, swapped, 5), 0.8, 1e-15);
  assert_near(ranks_correlation(rising, same, 5), 0, 0);
}

static void a_quantile_is_the_least_value_that_the_share_does_not_exceed(void **state)
{
  (void)state;
  static const struct {
    int count;
    double share;
    int index;
  } cases[] = { { 10, 0.1, 0 }, { 10, 0.11, 1 }, { 10, 0.5, 4 },     { 10, 0.9, 8 },        { 10, 1, 9 },
                { 10, 0, 0 },   { 1, 0.8, 0 },   { 10000, 0.8, 7999 }, { 1000, 0.1, 99 } };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_int_equal(ranks_quantile(cases[i].count, cases[i].share), cases[i].index);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(keys_sort_as_their_numbers),
    cmocka_unit_test(equal_keys_share_the_middle_of_their_ranks),
    cmocka_unit_test(correlation_is_of_ranks),
    cmocka_unit_test(a_quantile_is_the_least_value_that_the_share_does_not_exceed),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
