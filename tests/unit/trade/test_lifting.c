/* test_lifting.c - the recommended weight limit. */
#include "support.h"

#include "refused.h"
#include "trade/lifting.h"

static const Lift ideal = { .weight_kg = 23, .reach_cm = 25, .height_cm = 75, .travel_cm = 25, .lifts_per_min = 0.2,
                            .hours = 1, .grip = LIFTING_GRIP_GOOD };

static void the_ideal_lift_may_weigh_the_load_constant(void **state)
{
  (void)state;
  LiftingLimit limit;
  assert_true(lifting_limit(&ideal, &limit, NULL));
  assert_near(limit.limit_kg, 23, 1e-9);
  assert_near(limit.index, 1, 1e-9);
}

static void each_departure_from_ideal_costs_its_multiplier(void **state)
{
  (void)state;
  Lift far = ideal, low = ideal, twisted = ideal, high_rise = ideal, all_day = ideal, slippery = ideal;
  far.reach_cm = 50, low.height_cm = 0, twisted.twist_deg = 90, high_rise.travel_cm = 100;
  all_day.hours = 8, all_day.lifts_per_min = 3, slippery.grip = LIFTING_GRIP_POOR;
  const struct { const Lift *lift; double share;
  } cases[] = {
    { &far, 0.5 },         { &low, 0.775 },    { &twisted, 0.712 },
    { &high_rise, 0.865 }, { &all_day, 0.55 }, { &slippery, 0.9 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    LiftingLimit limit;
    assert_true(lifting_limit(cases[i].lift, &limit, NULL));
    assert_near(limit.limit_kg, 23 * cases[i].share, 1e-9);
  }
}

static void a_pace_between_two_rows_takes_the_faster(void **state)
{
  (void)state;
  Lift brisk = ideal;
  LiftingLimit limit;
  brisk.lifts_per_min = 3.5;
  assert_true(lifting_limit(&brisk, &limit, NULL));
  assert_near(limit.pace, 0.84, 0);
}

static void impossible_lifts_are_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  LiftingLimit limit = { .limit_kg = 7 };
  Lift lift = ideal;
  lift.reach_cm = 64;
  assert_refused(lifting_limit(&lift, &limit, &error), TRADE_OUT_OF_RANGE, "reach_cm");
  lift = ideal, lift.weight_kg = NAN;
  assert_refused(lifting_limit(&lift, &limit, &error), TRADE_NOT_FINITE, "weight_kg");
  lift = ideal, lift.lifts_per_min = 12, lift.hours = 8;
  assert_refused(lifting_limit(&lift, &limit, &error), TRADE_NO_ANSWER, "lifts_per_min");
  assert_near(limit.limit_kg, 7, 0);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_ideal_lift_may_weigh_the_load_constant),
    cmocka_unit_test(each_departure_from_ideal_costs_its_multiplier),
    cmocka_unit_test(a_pace_between_two_rows_takes_the_faster),
    cmocka_unit_test(impossible_lifts_are_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
