/* test_reckon.c - figures worked out again from other inputs. */
#include "support.h"

#include "base/mem.h"
#include "base/reckon.h"

/* (a + b) / c, and a second figure of the last two. */
typedef struct {
  WhyBook *book;
  Figure a, b, c, sum, ratio, other;
} Sums;

static Sums sums(void)
{
  Sums s = { .book = why_new() };
  s.a = why_written(s.book, "a", 2, "", (Span){ 0 });
  s.b = why_written(s.book, "b", 4, "", (Span){ 0 });
  s.c = why_written(s.book, "c", 3, "", (Span){ 0 });
  s.sum = why_worked(s.book, "sum", "", "a + b", why_total, (Figure[]){ s.a, s.b }, 2);
  s.ratio = why_worked(s.book, "ratio", "", "sum / c", why_ratio, (Figure[]){ s.sum, s.c }, 2);
  s.other = why_worked(s.book, "other", "", "b x c x 10", why_product, (Figure[]){ s.b, s.c, { 10, 0 } }, 3);
  return s;
}

static void a_worked_figure_has_the_value_of_its_sum(void **state)
{
  (void)state;
  Sums s = sums();
  assert_near(s.sum.value, 6, 0);
  assert_near(s.ratio.value, 2, 0);
  assert_near(s.other.value, 120, 0);
  assert_int_equal(why_node(s.book, s.other.why)->input_count, 2); /* a constant is no input */
  why_free(s.book);
}

static void what_rests_on_a_varied_figure_follows_it(void **state)
{
  (void)state;
  static const struct {
    double a, c, ratio, other;
  } cases[] = { { 2, 3, 2, 120 }, { 8, 3, 4, 120 }, { 2, 6, 1, 240 }, { -4, 1, 0, 40 } };
  Sums s = sums();
  Reckoning *r = reckoning_new(s.book, (Why[]){ s.a.why, s.c.why }, 2, (Why[]){ s.ratio.why, s.other.why }, 2);
  why_free(s.book);
  double *array = reckoning_array(r);
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    array[0] = cases[i].a;
    array[1] = cases[i].c;
    reckoning_run(r, array);
    assert_near(array[reckoning_place(r, 0)], cases[i].ratio, 1e-12);
    assert_near(array[reckoning_place(r, 1)], cases[i].other, 1e-12);
  }
  mem_free(array);
  reckoning_free(r);
}

static void what_does_not_change_is_a_constant(void **state)
{
  (void)state;
  Sums s = sums();
  Figure found = why_computed(s.book, "found", 7, "", "by search", &s.a, 1); /* has no sum */
  Reckoning *r = reckoning_new(s.book, &s.a.why, 1, (Why[]){ s.other.why, found.why, 0 }, 3);
  double *array = reckoning_array(r);
  array[0] = 99;
  reckoning_run(r, array);
  assert_near(array[reckoning_place(r, 0)], 120, 0);
  assert_near(array[reckoning_place(r, 1)], 7, 0);
  assert_near(array[reckoning_place(r, 2)], 0, 0);
  assert_false(reckoning_uses(r, 0));
  mem_free(array);
  reckoning_free(r);
  why_free(s.book);
}

static void a_figure_between_may_be_varied_itself(void **state)
{
  (void)state;
  Sums s = sums();
  Reckoning *r = reckoning_new(s.book, (Why[]){ s.sum.why, s.a.why }, 2, &s.ratio.why, 1);
  double *array = reckoning_array(r);
  array[0] = 30;
  reckoning_run(r, array);
  assert_near(array[reckoning_place(r, 0)], 10, 0);
  assert_true(reckoning_uses(r, 0));
  assert_false(reckoning_uses(r, 1)); /* only by way of the sum, which is given */
  mem_free(array);
  reckoning_free(r);
  why_free(s.book);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_worked_figure_has_the_value_of_its_sum),
    cmocka_unit_test(what_rests_on_a_varied_figure_follows_it),
    cmocka_unit_test(what_does_not_change_is_a_constant),
    cmocka_unit_test(a_figure_between_may_be_varied_itself),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
