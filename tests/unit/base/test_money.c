/* Money: exact amounts, half-even rounding, refused overflow. */
#include "support.h"

#include <float.h>
#include <math.h>
#include <string.h>

#include "base/money.h"

#define DOLLARS(x) ((Money)(x) * MONEY_SCALE)
#define CENTS(x) ((Money)(x) * MONEY_CENT)

/* ---- rounding against an independent slow way, which counts up to the quotient and looks at both neighbours */

static int64_t slow_half_even(int64_t numerator, int64_t denominator)
{
  int64_t q = -25000;
  while ((q + 1) * denominator <= numerator) q++; /* the largest q not above the quotient */
  int64_t down = numerator - q * denominator, up = (q + 1) * denominator - numerator;
  if (down != up) return down < up ? q : q + 1;
  return q % 2 == 0 ? q : q + 1;
}

static void fractions_round_as_the_slow_way_does(void **state)
{
  (void)state;
  uint32_t seed = 20240229;
  int ties = 0;
  for (int round = 0; round < 400; round++) {
    seed = seed * 1664525u + 1013904223u;
    int64_t base = (int64_t)(seed >> 8) % 40000 * 50 - 1000000; /* half cents */
    seed = seed * 1664525u + 1013904223u;
    int64_t ppm = (int64_t)(seed >> 8) % 8 * 125000; /* eighths: ties are common */
    int64_t numerator = base * (ppm / 125000), denominator = 8 * MONEY_CENT; /* base * ppm / 10^6 in cents */
    Money got = 0;
    assert_true(money_fraction(base, ppm, &got));
    assert_int_equal(got, slow_half_even(numerator, denominator) * MONEY_CENT);
    ties += (2 * numerator) % denominator == 0 && numerator % denominator != 0;
  }
  assert_true(ties > 10); /* the sweep met what it is for */
}

static void prices_round_as_the_slow_way_does(void **state)
{
  (void)state;
  uint32_t seed = 7;
  for (int round = 0; round < 400; round++) {
    seed = seed * 1664525u + 1013904223u;
    Money rate = CENTS((int64_t)(seed >> 8) % 400 - 200);
    seed = seed * 1664525u + 1013904223u;
    Amount quantity = (int64_t)(seed >> 8) % 400 * 2500; /* quarters */
    Money got = 0;
    assert_true(money_times(rate, quantity, &got));
    assert_int_equal(got, slow_half_even(rate / MONEY_CENT * (quantity / 2500), 4) * MONEY_CENT);
  }
}

static void margins_round_as_the_slow_way_does(void **state)
{
  (void)state;
  uint32_t seed = 99;
  for (int round = 0; round < 200; round++) {
    seed = seed * 1664525u + 1013904223u;
    Money cost = (int64_t)(seed >> 8) % 200000 - 100000;
    seed = seed * 1664525u + 1013904223u;
    int64_t percent = (int64_t)(seed >> 8) % 95;
    Money got = 0;
    assert_true(money_for_margin(cost, percent * 10000, &got));
    assert_int_equal(got, slow_half_even(cost, 100 - percent) * MONEY_CENT); /* cost*100/(100-p)/100 */
  }
}

/* ---- amounts */

static void a_double_becomes_an_amount_by_its_exact_value(void **state)
{
  (void)state;
  static const struct {
    double value;
    int decimals;
    Amount want;
  } cases[] = {
    { 0, 4, 0 },         { 2.5, 4, 25000 },  { 2.5, 1, 25000 },   { 2.5, 0, 20000 }, /* tie to even, down */
    { 3.5, 0, 40000 },   { -2.5, 0, -20000 }, { -3.5, 0, -40000 },                   /* tie to even, both signs */
    { 0.125, 2, 1200 },  { 0.375, 2, 3800 },  { -0.125, 2, -1200 },
    { 0.03125, 4, 312 }, { 0.09375, 4, 938 }, /* ties at the fourth decimal */
    { 1.005, 2, 10000 },  /* the double is 1.00499999999999989... */
    { 2.675, 2, 26700 },  /* 2.67499999999999982... */
    { 1.115, 2, 11100 },  /* 1.11499999999999999... */
    { 0.035, 2, 400 },    /* 0.035000000000000003... */
    { 0.1 + 0.2, 4, 3000 }, { 5e-324, 4, 0 },  { -5e-324, 4, 0 }, { 1e-5, 4, 0 },  { 0.00006, 4, 1 },
    { 9007199254740993.0 / 16, 0, 5629499534213120000 }, /* 2^49 exactly: the sum above 2^53 is even */
    { 922337203685477.5, 1, 9223372036854775000 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Amount got = -1;
    assert_true(amount_from(cases[i].value, cases[i].decimals, &got));
    if (got != cases[i].want) fail_msg("case %zu: got %lld", i, (long long)got);
  }
}

static void amounts_just_beside_a_tie_do_not_count_as_one(void **state)
{
  (void)state;
  static const double ties[] = { 0.5, 1.5, 2.5, 1000000.5, 123456789.5 };
  for (size_t i = 0; i < COUNT_OF(ties); i++) {
    Amount below = 0, above = 0;
    assert_true(amount_from(nextafter(ties[i], 0), 0, &below));
    assert_true(amount_from(nextafter(ties[i], INFINITY), 0, &above));
    assert_int_equal(below, (int64_t)floor(ties[i]) * AMOUNT_SCALE);
    assert_int_equal(above, (int64_t)ceil(ties[i]) * AMOUNT_SCALE);
  }
}

static void what_is_no_amount_is_refused(void **state)
{
  (void)state;
  static const double cases[] = { NAN, INFINITY, -INFINITY, DBL_MAX, -DBL_MAX, 1e15, -1e15, 922337203685478.0 };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    for (int decimals = 0; decimals <= 4; decimals++) {
      Amount got = 42;
      assert_false(amount_from(cases[i], decimals, &got));
      assert_int_equal(got, 42);
    }
  }
}

/* ---- arithmetic */

static void a_rate_times_a_quantity_is_in_whole_cents(void **state)
{
  (void)state;
  static const struct {
    Money rate;
    Amount quantity;
    Money want;
  } cases[] = {
    { DOLLARS(62), 25000, DOLLARS(155) },          /* $62.00 x 2.5 */
    { CENTS(1), 5000, 0 },                         /* half a cent, tie to 0 */
    { CENTS(1), 15000, CENTS(2) },                 /* 1.5 cents, tie to 2 */
    { CENTS(1), 25000, CENTS(2) },                 /* 2.5 cents, tie to 2 */
    { CENTS(-1), 25000, CENTS(-2) },
    { CENTS(-1), 35000, CENTS(-4) },
    { 1, 1, 0 },                                   /* $0.0001 x 0.0001 */
    { 3333, 30000, DOLLARS(1) },                   /* $0.3333 x 3 = 0.9999 */
    { DOLLARS(25), 550000, DOLLARS(1375) },        /* $25/h, 55 h paid: reference weekly pay with overtime */
    { 0, INT64_MAX, 0 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Money got = -1;
    assert_true(money_times(cases[i].rate, cases[i].quantity, &got));
    if (got != cases[i].want) fail_msg("case %zu: got %lld", i, (long long)got);
  }
}

static void a_fraction_is_in_whole_cents(void **state)
{
  (void)state;
  static const struct {
    Money base;
    int64_t ppm;
    Money want;
  } cases[] = {
    { DOLLARS(1375), 76500, CENTS(10519) }, /* 7.65 % of 1,375.00 = 105.1875: US payroll taxes on wages */
    { DOLLARS(100), 1000000, DOLLARS(100) },
    { DOLLARS(100), -250000, DOLLARS(-25) },
    { CENTS(50), 10000, 0 },         /* 0.5 cent */
    { CENTS(150), 10000, CENTS(2) }, /* 1.5 cents */
    { CENTS(-150), 10000, CENTS(-2) },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Money got = -1;
    assert_true(money_fraction(cases[i].base, cases[i].ppm, &got));
    assert_int_equal(got, cases[i].want);
  }
}

/* price = cost / (1 - margin) is the definition of a margin on the price. */
static void a_margin_is_a_part_of_the_price(void **state)
{
  (void)state;
  static const struct {
    Money cost;
    int64_t margin_ppm;
    Money want;
  } cases[] = {
    { DOLLARS(10000), 250000, CENTS(1333333) }, /* 25 % of 13,333.33 is 3,333.33 */
    { DOLLARS(10000), 0, DOLLARS(10000) },
    { DOLLARS(10000), 500000, DOLLARS(20000) },
    { DOLLARS(-10000), 250000, CENTS(-1333333) },
    { DOLLARS(100), -250000, DOLLARS(80) }, /* a loss on purpose */
    { CENTS(1), 999999, DOLLARS(10000) },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Money got = -1;
    assert_true(money_for_margin(cases[i].cost, cases[i].margin_ppm, &got));
    assert_int_equal(got, cases[i].want);
  }
}

static void a_margin_of_all_the_price_is_refused(void **state)
{
  (void)state;
  Money got = 42;
  assert_false(money_for_margin(DOLLARS(1), 1000000, &got));
  assert_false(money_for_margin(DOLLARS(1), 2000000, &got));
  assert_false(money_for_margin(DOLLARS(1), INT64_MAX, &got));
  assert_int_equal(got, 42);
}

static void overflow_is_refused_and_leaves_the_output(void **state)
{
  (void)state;
  Money got = 42;
  assert_false(money_add(INT64_MAX, 1, &got));
  assert_false(money_add(INT64_MIN, -1, &got));
  assert_false(money_times(INT64_MAX, 10001, &got));
  assert_false(money_times(INT64_MIN, INT64_MIN, &got));
  assert_false(money_times(INT64_MIN, INT64_MAX, &got));
  assert_false(money_fraction(INT64_MAX, 1000001, &got));
  assert_false(money_fraction(INT64_MIN, INT64_MAX, &got));
  assert_false(money_for_margin(INT64_MAX, 1, &got));
  assert_int_equal(got, 42);
}

static void sums_at_the_very_limit_are_exact(void **state)
{
  (void)state;
  Money got = 0;
  assert_true(money_add(INT64_MAX, 0, &got));
  assert_true(got == INT64_MAX);
  assert_true(money_add(INT64_MAX, INT64_MIN, &got));
  assert_int_equal(got, -1);
  assert_true(money_for_margin(DOLLARS(1), INT64_MIN, &got));
  assert_int_equal(got, 0);
}

/* ---- splitting */

static Money sum_of(const Money *parts, size_t count)
{
  Money sum = 0;
  for (size_t i = 0; i < count; i++) sum += parts[i];
  return sum;
}

static void a_split_goes_to_the_largest_rests_and_first_on_a_tie(void **state)
{
  (void)state;
  static const struct {
    Money total;
    double weights[4];
    size_t count;
    Money want[4];
  } cases[] = {
    { DOLLARS(100), { 1, 1, 1 }, 3, { CENTS(3334), CENTS(3333), CENTS(3333) } },
    { DOLLARS(-100), { 1, 1, 1 }, 3, { CENTS(-3334), CENTS(-3333), CENTS(-3333) } },
    { CENTS(2), { 1, 1, 1 }, 3, { CENTS(1), CENTS(1), 0 } },
    { CENTS(10), { 1, 2, 4 }, 3, { CENTS(1), CENTS(3), CENTS(6) } }, /* 1.43, 2.86, 5.71: rests .86 and .71 */
    { DOLLARS(9), { 0, 1, 0, 2 }, 4, { 0, DOLLARS(3), 0, DOLLARS(6) } },
    { CENTS(1), { 0, 1, 1, 0 }, 4, { 0, CENTS(1), 0, 0 } }, /* never to a weight of zero */
    { 10001, { 1, 1 }, 2, { 5001, 5000 } },                 /* not in whole cents: by ten-thousandths */
    { 0, { 1, 5 }, 2, { 0, 0 } },
    { DOLLARS(7), { 0.1 }, 1, { DOLLARS(7) } },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Money parts[4] = { 0 };
    assert_true(money_split(cases[i].total, cases[i].weights, cases[i].count, parts));
    for (size_t k = 0; k < cases[i].count; k++)
      if (parts[k] != cases[i].want[k]) fail_msg("case %zu, part %zu: got %lld", i, k, (long long)parts[k]);
  }
}

static void parts_add_up_whatever_the_weights(void **state)
{
  (void)state;
  static const double weights[][3] = {
    { DBL_MAX, DBL_MAX, DBL_MAX }, { 5e-324, 5e-324, 1e-323 }, { 1e300, 1, 1e-300 },
    { 0.1, 0.2, 0.7 },             { M_PI, M_E, M_SQRT2 },     { 1e18, 3, 1 },
  };
  static const Money totals[] = {
    0, 1, -1, 99, 100, 12345678, -12345678, INT64_MAX, INT64_MIN, INT64_MAX / 100 * 100,
  };
  for (size_t w = 0; w < COUNT_OF(weights); w++) {
    for (size_t t = 0; t < COUNT_OF(totals); t++) {
      Money parts[3];
      assert_true(money_split(totals[t], weights[w], 3, parts));
      assert_true(sum_of(parts, 3) == totals[t]);
      for (int i = 0; i < 3; i++) assert_true(totals[t] >= 0 ? parts[i] >= 0 : parts[i] <= 0);
    }
  }
}

static void no_part_is_a_cent_or_more_from_its_exact_share(void **state)
{
  (void)state;
  uint32_t seed = 4711;
  for (int round = 0; round < 100; round++) {
    double weights[20], sum = 0;
    Money parts[20];
    for (int i = 0; i < 20; i++) {
      seed = seed * 1664525u + 1013904223u;
      sum += weights[i] = (double)(seed >> 12);
    }
    Money total = CENTS(seed >> 4);
    assert_true(money_split(total, weights, 20, parts));
    assert_true(sum_of(parts, 20) == total);
    for (int i = 0; i < 20; i++) assert_near((double)parts[i], (double)total * weights[i] / sum, MONEY_CENT);
  }
}

static void weights_that_say_nothing_are_refused(void **state)
{
  (void)state;
  static const double cases[][2] = { { 0, 0 }, { -1, 2 }, { 1, NAN }, { INFINITY, 1 }, { 3, -0.001 } };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Money parts[2] = { 42, 43 };
    assert_false(money_split(DOLLARS(1), cases[i], 2, parts));
    assert_int_equal(parts[0], 42);
    assert_int_equal(parts[1], 43);
  }
  assert_false(money_split(DOLLARS(1), NULL, 0, NULL));
}

/* ---- printing */

static void money_is_printed_with_groups_sign_and_cents(void **state)
{
  (void)state;
  static const struct {
    Money value;
    const char *currency, *want;
  } cases[] = {
    { 12345000, "USD", "$1,234.50" },
    { 0, "USD", "$0.00" },
    { CENTS(5), "USD", "$0.05" },
    { DOLLARS(999), "USD", "$999.00" },
    { DOLLARS(1000), "USD", "$1,000.00" },
    { DOLLARS(1000000), "USD", "$1,000,000.00" },
    { DOLLARS(1002003), "USD", "$1,002,003.00" },
    { DOLLARS(-1234), "USD", "-$1,234.00" },
    { 1234, "USD", "$0.1234" },
    { -1, "USD", "-$0.0001" },
    { 12345000, "EUR", "\xE2\x82\xAC" "1,234.50" },
    { 12345000, "GBP", "\xC2\xA3" "1,234.50" },
    { 12345000, "XYZ", "1,234.50 XYZ" },
    { -12345000, "XYZ", "-1,234.50 XYZ" },
    { 12345000, "", "1,234.50" },
    { 12345000, NULL, "1,234.50" },
    { INT64_MAX, "USD", "$922,337,203,685,477.5807" },
    { INT64_MIN, "USD", "-$922,337,203,685,477.5808" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Buf out = { 0 };
    money_print(cases[i].value, cases[i].currency, &out);
    assert_string_equal(buf_text(&out), cases[i].want);
    buf_free(&out);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(fractions_round_as_the_slow_way_does),
    cmocka_unit_test(prices_round_as_the_slow_way_does),
    cmocka_unit_test(margins_round_as_the_slow_way_does),
    cmocka_unit_test(a_double_becomes_an_amount_by_its_exact_value),
    cmocka_unit_test(amounts_just_beside_a_tie_do_not_count_as_one),
    cmocka_unit_test(what_is_no_amount_is_refused),
    cmocka_unit_test(a_rate_times_a_quantity_is_in_whole_cents),
    cmocka_unit_test(a_fraction_is_in_whole_cents),
    cmocka_unit_test(a_margin_is_a_part_of_the_price),
    cmocka_unit_test(a_margin_of_all_the_price_is_refused),
    cmocka_unit_test(overflow_is_refused_and_leaves_the_output),
    cmocka_unit_test(sums_at_the_very_limit_are_exact),
    cmocka_unit_test(a_split_goes_to_the_largest_rests_and_first_on_a_tie),
    cmocka_unit_test(parts_add_up_whatever_the_weights),
    cmocka_unit_test(no_part_is_a_cent_or_more_from_its_exact_share),
    cmocka_unit_test(weights_that_say_nothing_are_refused),
    cmocka_unit_test(money_is_printed_with_groups_sign_and_cents),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
