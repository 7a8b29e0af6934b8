/* test_noise.c - dose by each criterion. */
#include "support.h"

#include "refused.h"
#include "trade/noise.h"

static NoiseDose dose_of(const char *id, const Exposure *tasks, int count)
{
  const NoiseCriterion *criterion;
  NoiseDose dose;
  assert_true(noise_criterion(id, &criterion, NULL));
  assert_true(noise_dose(criterion, tasks, count, &dose, NULL));
  return dose;
}

static void a_full_day_at_the_criterion_is_a_full_dose(void **state)
{
  (void)state;
  for (size_t i = 0; noise_criterion_at(i); i++) {
    const NoiseCriterion *c = noise_criterion_at(i);
    NoiseDose dose = dose_of(c->id, &(Exposure){ c->criterion_dba, 8 }, 1);
    assert_near(dose.dose_percent, 100, 1e-9);
    assert_near(dose.average_dba, c->criterion_dba, 1e-9);
  }
}

static void one_exchange_louder_is_half_the_time(void **state)
{
  (void)state;
  for (size_t i = 0; noise_criterion_at(i); i++) {
    const NoiseCriterion *c = noise_criterion_at(i);
    double allowed_h;
    assert_true(noise_allowed_hours(c, c->criterion_dba + c->exchange_db, &allowed_h, NULL));
    assert_near(allowed_h, 4, 1e-12);
  }
}

static void the_same_shift_is_worse_by_the_stricter_criterion(void **state)
{
  (void)state;
  const Exposure grinder[] = { { 95, 5 }, { 85, 2 } };
  double permissible = dose_of("osha permissible", grinder, 2).dose_percent;
  double hearing = dose_of("osha hearing", grinder, 2).dose_percent;
  assert_near(permissible, 125, 1e-9); /* 85 dBA is under its threshold */
  assert_near(hearing, 137.5, 1e-9);
  assert_true(dose_of("niosh", grinder, 2).dose_percent > 600);
}

static void quiet_work_has_no_dose_and_no_average(void **state)
{
  (void)state;
  NoiseDose dose = dose_of("niosh", &(Exposure){ 65, 8 }, 1);
  assert_near(dose.dose_percent, 0, 0);
  assert_true(isinf(dose.average_dba) && dose.average_dba < 0);
}

static void time_at_the_threshold_counts_and_below_it_does_not(void **state)
{
  (void)state;
  for (size_t i = 0; noise_criterion_at(i); i++) {
    const NoiseCriterion *c = noise_criterion_at(i);
    assert_true(dose_of(c->id, &(Exposure){ c->threshold_db, 8 }, 1).dose_percent > 20);
    assert_near(dose_of(c->id, &(Exposure){ c->threshold_db - 0.1, 8 }, 1).dose_percent, 0, 0);
  }
  assert_true(dose_of("osha hearing", &(Exposure){ 80, 8 }, 1).dose_percent > 0);
  assert_near(dose_of("osha permissible", &(Exposure){ 89, 8 }, 1).dose_percent, 0, 0);
}

static void over_115_dba_is_flagged_however_short(void **state)
{
  (void)state;
  assert_true(dose_of("osha permissible", &(Exposure){ 116, 0.01 }, 1).over_highest);
  assert_false(dose_of("osha permissible", &(Exposure){ 115, 0.01 }, 1).over_highest);
  assert_false(
      dose_of("osha permissible", (Exposure[]){ { 116, 0 }, { 90, 1 } }, 2).over_highest); /* no time at it */
}

static void dose_and_average_are_inverse(void **state)
{
  (void)state;
  for (size_t i = 0; noise_criterion_at(i); i++)
    for (double level = 91; level < 115; level += 6) {
      NoiseDose dose = dose_of(noise_criterion_at(i)->id, &(Exposure){ level, 8 }, 1);
      double average_dba;
      assert_true(noise_average(noise_criterion_at(i), dose.dose_percent, &average_dba, NULL));
      assert_near(average_dba, level, 1e-9);
      assert_near(dose.average_dba, level, 1e-9);
    }
}

static void impossible_noise_is_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  const NoiseCriterion *criterion = NULL;
  NoiseDose dose = { .dose_percent = 7 };
  double x = 7;
  assert_refused(noise_criterion("my ears", &criterion, &error), TRADE_UNKNOWN, "id");
  assert_null(criterion);
  assert_refused(noise_dose(noise_criterion_at(0), &(Exposure){ 150, 1 }, 1, &dose, &error), TRADE_OUT_OF_RANGE,
                 "level");
  assert_refused(noise_dose(noise_criterion_at(0), &(Exposure){ 90, -1 }, 1, &dose, &error), TRADE_OUT_OF_RANGE,
                 "hours");
  assert_refused(noise_allowed_hours(noise_criterion_at(0), 20, &x, &error), TRADE_OUT_OF_RANGE, "level_dba");
  assert_refused(noise_average(noise_criterion_at(0), 0, &x, &error), TRADE_OUT_OF_RANGE, "dose_percent");
  assert_near(dose.dose_percent, 7, 0);
  assert_near(x, 7, 0);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_full_day_at_the_criterion_is_a_full_dose),
    cmocka_unit_test(one_exchange_louder_is_half_the_time),
    cmocka_unit_test(the_same_shift_is_worse_by_the_stricter_criterion),
    cmocka_unit_test(quiet_work_has_no_dose_and_no_average),
    cmocka_unit_test(time_at_the_threshold_counts_and_below_it_does_not),
    cmocka_unit_test(over_115_dba_is_flagged_however_short),
    cmocka_unit_test(dose_and_average_are_inverse),
    cmocka_unit_test(impossible_noise_is_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
