/* test_packages.c - the cheapest whole packages, against enumeration. */
#include "support.h"

#include "refused.h"
#include "trade/customary.h"
#include "trade/packages.h"

static void a_mix_takes_the_pail_and_fills_up_with_jugs(void **state)
{
  (void)state;
  const PackageSize sizes[] = { { GALLON_L, 4000 }, { 5 * GALLON_L, 15000 } };
  PackageMix mix;
  assert_true(packages_cover(7 * GALLON_L, sizes, 2, &mix, NULL));
  assert_int_equal(mix.count[0], 2);
  assert_int_equal(mix.count[1], 1);
  assert_int_equal(mix.price, 23000);
  assert_near(mix.left_over, 0, 1e-9);
}

static void two_pails_beat_a_pail_and_many_jugs(void **state)
{
  (void)state;
  const PackageSize sizes[] = { { GALLON_L, 4000 }, { 5 * GALLON_L, 15000 } };
  PackageMix mix;
  assert_true(packages_cover(9.3 * GALLON_L, sizes, 2, &mix, NULL)); /* 5 jugs would be 20000 */
  assert_int_equal(mix.count[0], 0);
  assert_int_equal(mix.count[1], 2);
  assert_near(mix.left_over / GALLON_L, 0.7, 1e-6);
}

static void equal_prices_leave_the_least_over_then_take_the_fewest(void **state)
{
  (void)state;
  const PackageSize flat[] = { { 5, 100 }, { 4, 100 } };
  const PackageSize level[] = { { 1, 10 }, { 5, 50 }, { 20, 200 } };
  PackageMix mix;
  assert_true(packages_cover(4, flat, 2, &mix, NULL));
  assert_int_equal(mix.count[1], 1);
  assert_true(packages_cover(46, level, 3, &mix, NULL));
  assert_int_equal(mix.packages, 4);
  assert_int_equal(mix.count[2], 2);
  assert_true(packages_cover(1000.5, level, 3, &mix, NULL)); /* a tie at every count must not hang */
  assert_int_equal(mix.packages, 51);
}

static void gallons_add_up_to_a_pail_without_a_rest(void **state)
{
  (void)state;
  const PackageSize sizes[] = { { GALLON_L, 1000 } };
  PackageMix mix;
  assert_true(packages_cover(5 * GALLON_L, sizes, 1, &mix, NULL));
  assert_int_equal(mix.count[0], 5);
}

/* Every mix of three sizes up to the counts that alone would do. */
static PackageMix by_enumeration(double need, const PackageSize *s)
{
  PackageMix best = { .packages = 1000, .price = INT64_MAX };
  int most[3];
  for (int i = 0; i < 3; i++) most[i] = (int)ceil(need / s[i].holds);
  for (int a = 0; a <= most[0]; a++)
    for (int b = 0; b <= most[1]; b++)
      for (int c = 0; c <= most[2]; c++) {
        double over = a * s[0].holds + b * s[1].holds + c * s[2].holds - need;
        int64_t price = a * s[0].price + b * s[1].price + c * s[2].price;
        if (over < -1e-9 || price > best.price) continue;
        bool ties = price == best.price && over > best.left_over - 1e-9;
        if (ties && (over > best.left_over + 1e-9 || a + b + c >= best.packages)) continue;
        best = (PackageMix){ { a, b, c }, a + b + c, price, price, over };
      }
  return best;
}

static void the_search_agrees_with_enumeration(void **state)
{
  (void)state;
  uint32_t seed = 1;
  for (int i = 0; i < 400; i++) {
    PackageSize sizes[3];
    for (int k = 0; k < 3; k++) {
      seed = seed * 1664525u + 1013904223u;
      sizes[k] = (PackageSize){ 1 + (seed >> 16) % 40 * 0.5, 1 + (seed >> 8) % 60 };
    }
    seed = seed * 1664525u + 1013904223u;
    double need = 0.25 + (seed >> 16) % 160 * 0.25;
    PackageMix got, want = by_enumeration(need, sizes);
    assert_true(packages_cover(need, sizes, 3, &got, NULL));
    assert_int_equal(got.price, want.price);
    assert_int_equal(got.least_price, want.price);
    assert_near(got.left_over, want.left_over, 1e-9);
    assert_int_equal(got.packages, want.packages);
  }
}

static void a_free_size_is_taken_before_any_that_costs(void **state)
{
  (void)state;
  const PackageSize sizes[] = { { 5, 100 }, { 2, 0 } };
  PackageMix mix;
  assert_true(packages_cover(9, sizes, 2, &mix, NULL));
  assert_int_equal(mix.price, 0);
  assert_int_equal(mix.count[1], 5);
}

static void odd_sizes_at_one_price_a_litre_end_in_time_and_say_how_sure(void **state)
{
  (void)state;
  static const double litres[] = { 0.946352946, 3.785411784, 18.92705892, 208.19764812, 20, 5, 25, 1 };
  PackageSize sizes[COUNT_OF(litres)];
  for (size_t i = 0; i < COUNT_OF(litres); i++) sizes[i] = (PackageSize){ litres[i], (int64_t)(litres[i] * 2e5) };
  PackageMix mix;
  assert_true(packages_cover(3531.59, sizes, COUNT_OF(litres), &mix, NULL));
  double held = 0;
  for (size_t i = 0; i < COUNT_OF(litres); i++) held += mix.count[i] * litres[i];
  assert_near(held - mix.left_over, 3531.59, 1e-6);
  assert_true(mix.least_price < mix.price);          /* not settled, and it says so */
  assert_true(mix.price < mix.least_price * 1.0001); /* but close */
}

static void bad_packages_are_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  PackageMix mix = { .packages = 7 };
  const PackageSize empty = { 0, 100 }, paid_to_take = { 1, -1 }, jug = { 1, 100 }, gold = { 1, 10000000001 };
  assert_refused(packages_cover(10, &empty, 1, &mix, &error), TRADE_OUT_OF_RANGE, "holds");
  assert_refused(packages_cover(10, &paid_to_take, 1, &mix, &error), TRADE_OUT_OF_RANGE, "price");
  assert_refused(packages_cover(10, &gold, 1, &mix, &error), TRADE_OUT_OF_RANGE, "price");
  assert_refused(packages_cover(0, &jug, 1, &mix, &error), TRADE_OUT_OF_RANGE, "need");
  assert_refused(packages_cover(NAN, &jug, 1, &mix, &error), TRADE_NOT_FINITE, "need");
  assert_refused(packages_cover(10, &jug, 0, &mix, &error), TRADE_OUT_OF_RANGE, "size_count");
  assert_refused(packages_cover(200000, &jug, 1, &mix, &error), TRADE_OUT_OF_RANGE, "need");
  assert_int_equal(mix.packages, 7);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_mix_takes_the_pail_and_fills_up_with_jugs),
    cmocka_unit_test(two_pails_beat_a_pail_and_many_jugs),
    cmocka_unit_test(equal_prices_leave_the_least_over_then_take_the_fewest),
    cmocka_unit_test(gallons_add_up_to_a_pail_without_a_rest),
    cmocka_unit_test(the_search_agrees_with_enumeration),
    cmocka_unit_test(a_free_size_is_taken_before_any_that_costs),
    cmocka_unit_test(odd_sizes_at_one_price_a_litre_end_in_time_and_say_how_sure),
    cmocka_unit_test(bad_packages_are_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
