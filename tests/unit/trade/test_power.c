/* test_power.c - voltage drop, and the size of a generator. */
#include "support.h"

#include "refused.h"
#include "trade/customary.h"
#include "trade/generator.h"
#include "trade/power.h"

static const PowerLine cord = { POWER_SINGLE_PHASE, 120, 15, 1.93 };

static void the_longest_run_drops_exactly_its_share(void **state)
{
  (void)state;
  for (PowerPhases phases = POWER_SINGLE_PHASE; phases < POWER_PHASES; phases++) {
    PowerLine line = { phases, 480, 30, 1.21 };
    double run_m;
    VoltageDrop drop;
    assert_true(power_longest_run(&line, 0.03, &run_m, NULL));
    assert_true(power_drop(&line, run_m, &drop, NULL));
    assert_near(drop.share, 0.03, 1e-12);
  }
}

static void the_form_by_area_agrees_with_the_table_within_two_percent(void **state)
{
  (void)state;
  for (size_t i = 0; power_conductor_at(i); i++) {
    const Conductor *c = power_conductor_at(i);
    PowerLine line = { POWER_SINGLE_PHASE, 240, 10, c->stranded_ohm_kft };
    VoltageDrop by_table, by_area;
    assert_true(power_drop(&line, 30, &by_table, NULL));
    assert_true(power_drop_by_area(&line, c->circular_mils, 30, &by_area, NULL));
    assert_near(by_area.volts / by_table.volts, 1, 0.02);
  }
}

static void thicker_conductors_come_later_and_lose_less(void **state)
{
  (void)state;
  for (size_t i = 1; power_conductor_at(i); i++) {
    assert_true(power_conductor_at(i)->awg < power_conductor_at(i - 1)->awg);
    assert_true(power_conductor_at(i)->ohm_kft < power_conductor_at(i - 1)->ohm_kft);
  }
}

static void cords_that_cannot_be_are_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  const Conductor *conductor = NULL;
  VoltageDrop drop = { 7, 7 };
  double x = 7;
  PowerLine idle = cord;
  idle.amps = 0;
  assert_refused(power_conductor(11, &conductor, &error), TRADE_UNKNOWN, "awg");
  assert_null(conductor);
  assert_refused(power_drop(&cord, -1, &drop, &error), TRADE_OUT_OF_RANGE, "run_m");
  assert_refused(power_drop(&cord, 2900, &drop, &error), TRADE_NO_ANSWER, "run_m");
  assert_refused(power_drop_by_area(&cord, 10, 30, &drop, &error), TRADE_OUT_OF_RANGE, "circular_mils");
  assert_refused(power_longest_run(&idle, 0.03, &x, &error), TRADE_OUT_OF_RANGE, "amps");
  assert_refused(power_longest_run(&cord, 3, &x, &error), TRADE_OUT_OF_RANGE, "share"); /* a percentage */
  assert_refused(power_apparent(POWER_SINGLE_PHASE, NAN, 10, &x, &error), TRADE_NOT_FINITE, "volts");
  assert_near(drop.volts, 7, 0);
  assert_near(x, 7, 0);
}

static void one_motor_is_sized_by_its_start(void **state)
{
  (void)state;
  GeneratorSize s;
  assert_true(generator_size(&(GeneratorLoad){ 10, false }, 1, 0, &s, NULL));
  assert_near(s.size_low_kva, 30, 1e-9);
  assert_near(s.size_high_kva, 60, 1e-9);
}

static void a_drive_is_sized_by_its_waveform(void **state)
{
  (void)state;
  GeneratorSize s;
  assert_true(generator_size(&(GeneratorLoad){ 10, true }, 1, 0, &s, NULL));
  assert_near(s.size_low_kva, 15 / 0.8, 1e-9);
  assert_near(s.size_high_kva, 20 / 0.8, 1e-9);
}

static void the_worst_start_counts_once_on_top_of_all_others(void **state)
{
  (void)state;
  const GeneratorLoad loads[] = { { 4, false }, { 2, false } };
  GeneratorSize s;
  assert_true(generator_size(loads, 2, 0, &s, NULL));
  assert_near(s.starting_high_kva, 6 * 4 + 2, 1e-9);
  assert_near(s.running_high_kva, 6, 1e-9);
}

static void altitude_takes_its_share(void **state)
{
  (void)state;
  GeneratorSize low, high;
  const GeneratorLoad load = { 10, false };
  assert_true(generator_size(&load, 1, 0, &low, NULL));
  assert_true(generator_size(&load, 1, 5000 * FOOT_M, &high, NULL));
  assert_near(low.size_high_kva / high.size_high_kva, 1 - 5 * 0.035, 1e-12);
  assert_near(low.size_low_kva / high.size_low_kva, 1 - 5 * 0.03, 1e-12);
}

static void loads_that_cannot_be_are_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  GeneratorSize s = { .size_low_kva = 7 };
  const GeneratorLoad none = { 0, false }, fine = { 1, false };
  assert_refused(generator_size(&none, 1, 0, &s, &error), TRADE_OUT_OF_RANGE, "running_kva");
  assert_refused(generator_size(&fine, 0, 0, &s, &error), TRADE_OUT_OF_RANGE, "count");
  assert_refused(generator_size(&fine, 1, 9000, &s, &error), TRADE_OUT_OF_RANGE, "altitude_m");
  assert_near(s.size_low_kva, 7, 0);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_longest_run_drops_exactly_its_share),
    cmocka_unit_test(the_form_by_area_agrees_with_the_table_within_two_percent),
    cmocka_unit_test(thicker_conductors_come_later_and_lose_less),
    cmocka_unit_test(cords_that_cannot_be_are_refused),
    cmocka_unit_test(one_motor_is_sized_by_its_start),
    cmocka_unit_test(a_drive_is_sized_by_its_waveform),
    cmocka_unit_test(the_worst_start_counts_once_on_top_of_all_others),
    cmocka_unit_test(altitude_takes_its_share),
    cmocka_unit_test(loads_that_cannot_be_are_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
