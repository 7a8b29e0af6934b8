/* test_circuits.c - machines on circuits, against enumeration, and the GFCI rule. */
#include "support.h"

#include "refused.h"
#include "trade/circuits.h"

#define MACHINE(a) { .amps = (a), .volts = 120, .worth = 1 }
static const Circuit twenty = { 20, 120, POWER_SINGLE_PHASE };

static void a_continuous_load_counts_a_quarter_more(void **state)
{
  (void)state;
  Machine vacuum = { .amps = 16, .volts = 115, .is_continuous = true, .worth = 1 };
  CircuitPlan plan;
  assert_true(circuits_assign(&vacuum, 1, &twenty, 1, &plan, NULL));
  assert_int_equal(plan.running, 1);
  assert_near(plan.load_amps[0], 20, 1e-9);
  vacuum.amps = 16.1;
  assert_true(circuits_assign(&vacuum, 1, &twenty, 1, &plan, NULL));
  assert_int_equal(plan.running, 0);
  assert_int_equal(plan.circuit[0], -1);
}

static void a_machine_keeps_to_its_voltage_and_phases(void **state)
{
  (void)state;
  const Machine grinder = { .amps = 10, .volts = 480, .phases = POWER_THREE_PHASE, .worth = 1 };
  const Circuit circuits[] = { { 60, 480, POWER_SINGLE_PHASE }, { 60, 208, POWER_THREE_PHASE },
                               { 60, 460, POWER_THREE_PHASE } };
  CircuitPlan plan;
  assert_true(circuits_assign(&grinder, 1, circuits, 3, &plan, NULL));
  assert_int_equal(plan.circuit[0], 2);
}

static void voltage_may_be_ten_percent_off_and_no_more(void **state)
{
  (void)state;
  static const struct { double machine_v, circuit_v; int running; } cases[] = {
    { 230, 240, 1 }, { 115, 120, 1 }, { 108, 120, 1 }, { 107, 120, 0 }, { 132, 120, 1 }, { 133, 120, 0 },
    { 208, 240, 0 }, { 480, 400, 0 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    const Machine machine = { .amps = 5, .volts = cases[i].machine_v, .worth = 1 };
    const Circuit circuit = { 20, cases[i].circuit_v, POWER_SINGLE_PHASE };
    CircuitPlan plan;
    assert_true(circuits_assign(&machine, 1, &circuit, 1, &plan, NULL));
    assert_int_equal(plan.running, cases[i].running);
  }
}

static void a_breaker_may_be_filled_to_the_last_tenth(void **state)
{
  (void)state;
  const Machine full[] = { MACHINE(6.6), MACHINE(6.7), MACHINE(6.7) };
  const Machine over[] = { MACHINE(6.6), MACHINE(6.7), MACHINE(6.75) };
  CircuitPlan plan;
  assert_true(circuits_assign(full, 3, &twenty, 1, &plan, NULL));
  assert_int_equal(plan.running, 3);
  assert_true(circuits_assign(over, 3, &twenty, 1, &plan, NULL));
  assert_int_equal(plan.running, 2);
}

static void two_small_machines_beat_one_large_unless_it_is_worth_more(void **state)
{
  (void)state;
  Machine machines[] = { MACHINE(18), MACHINE(9), MACHINE(10) };
  CircuitPlan plan;
  assert_true(circuits_assign(machines, 3, &twenty, 1, &plan, NULL));
  assert_int_equal(plan.running, 2);
  assert_int_equal(plan.circuit[0], -1);
  machines[0].worth = 5;
  assert_true(circuits_assign(machines, 3, &twenty, 1, &plan, NULL));
  assert_int_equal(plan.running, 1);
  assert_int_equal(plan.circuit[0], 0);
}

static void a_packing_that_greed_misses_is_found(void **state)
{
  (void)state;
  /* Largest first puts 10 + 8 and 7 + 6 + 5 together and strands the last. */
  const Machine machines[] = { MACHINE(10), MACHINE(8), MACHINE(7), MACHINE(6), MACHINE(5), MACHINE(4) };
  const Circuit circuits[] = { twenty, twenty };
  CircuitPlan plan;
  assert_true(circuits_assign(machines, 6, circuits, 2, &plan, NULL));
  assert_int_equal(plan.running, 6);
}

/* The most machines that run, by trying every placing of each on every circuit or none. */
static int by_enumeration(const Machine *machines, int count, const Circuit *circuits, int circuit_count)
{
  int best = 0, placings = 1;
  for (int i = 0; i < count; i++) placings *= circuit_count + 1;
  for (int placing = 0; placing < placings; placing++) {
    double load[4] = { 0 };
    int running = 0;
    for (int i = 0, rest = placing; i < count; i++, rest /= circuit_count + 1) {
      int c = rest % (circuit_count + 1);
      if (c == circuit_count) continue;
      load[c] += machines[i].amps;
      running++;
    }
    bool fits = true;
    for (int c = 0; c < circuit_count; c++) fits = fits && load[c] <= circuits[c].breaker_amps;
    if (fits && running > best) best = running;
  }
  return best;
}

static void the_search_agrees_with_enumeration(void **state)
{
  (void)state;
  uint32_t seed = 3;
  for (int round = 0; round < 100; round++) {
    Machine machines[6];
    Circuit circuits[3];
    for (int i = 0; i < 6; i++) {
      seed = seed * 1664525u + 1013904223u;
      machines[i] = (Machine)MACHINE(3 + (seed >> 16) % 14);
    }
    for (int c = 0; c < 3; c++) {
      seed = seed * 1664525u + 1013904223u;
      circuits[c] = (Circuit){ 10 + (seed >> 16) % 3 * 5, 120, POWER_SINGLE_PHASE };
    }
    CircuitPlan plan;
    assert_true(circuits_assign(machines, 6, circuits, 3, &plan, NULL));
    assert_int_equal(plan.running, by_enumeration(machines, 6, circuits, 3));
    for (int c = 0; c < 3; c++) assert_true(plan.load_amps[c] <= circuits[c].breaker_amps);
  }
}

static void sixteen_machines_on_sixteen_circuits_settle(void **state)
{
  (void)state;
  Machine machines[CIRCUITS_MOST];
  Circuit circuits[CIRCUITS_MOST];
  for (int i = 0; i < CIRCUITS_MOST; i++) machines[i] = (Machine)MACHINE(12), circuits[i] = twenty;
  CircuitPlan plan;
  assert_true(circuits_assign(machines, CIRCUITS_MOST, circuits, CIRCUITS_MOST, &plan, NULL));
  assert_int_equal(plan.running, CIRCUITS_MOST);
}

static void gfci_is_asked_for_where_the_rule_says(void **state)
{
  (void)state;
  const Receptacle site = { .volts = 120, .amps = 20 };
  Receptacle wired = site, heavy = site, strong = site, small = site, large = site, bonded = site, low = site;
  wired.is_permanent = true, heavy.amps = 30, strong.volts = 240, low.volts = 110;
  small.is_generator = small.is_two_wire = small.is_frame_insulated = true, small.generator_kw = 5;
  large = small, large.generator_kw = 5.5, bonded = small, bonded.is_frame_insulated = false;
  const struct { const Receptacle *receptacle; GfciVerdict verdict; } cases[] = {
    { &site, GFCI_NEEDED },            { &wired, GFCI_NOT_COVERED }, { &heavy, GFCI_NOT_COVERED },
    { &strong, GFCI_NOT_COVERED },     { &small, GFCI_EXEMPT_GENERATOR }, { &large, GFCI_NEEDED },
    { &bonded, GFCI_NEEDED },          { &low, GFCI_NEEDED },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    GfciVerdict verdict;
    assert_true(circuits_gfci(cases[i].receptacle, &verdict, NULL));
    assert_int_equal(verdict, cases[i].verdict);
  }
}

static void circuits_that_cannot_be_are_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  CircuitPlan plan = { .running = 7 };
  GfciVerdict verdict = GFCI_NOT_COVERED;
  const Machine idle = MACHINE(0), worthless = { .amps = 5, .volts = 120 }, fine = MACHINE(5);
  const Circuit dead = { 20, 0, POWER_SINGLE_PHASE };
  const Receptacle no_generator = { .volts = 120, .amps = 20, .is_generator = true };
  assert_refused(circuits_assign(&idle, 1, &twenty, 1, &plan, &error), TRADE_OUT_OF_RANGE, "amps");
  assert_refused(circuits_assign(&worthless, 1, &twenty, 1, &plan, &error), TRADE_OUT_OF_RANGE, "worth");
  assert_refused(circuits_assign(&fine, 1, &dead, 1, &plan, &error), TRADE_OUT_OF_RANGE, "volts");
  assert_refused(circuits_assign(&fine, 17, &twenty, 1, &plan, &error), TRADE_OUT_OF_RANGE, "machine_count");
  assert_refused(circuits_gfci(&no_generator, &verdict, &error), TRADE_OUT_OF_RANGE, "generator_kw");
  assert_int_equal(plan.running, 7);
  assert_int_equal(verdict, GFCI_NOT_COVERED);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_continuous_load_counts_a_quarter_more),
    cmocka_unit_test(a_machine_keeps_to_its_voltage_and_phases),
    cmocka_unit_test(voltage_may_be_ten_percent_off_and_no_more),
    cmocka_unit_test(a_breaker_may_be_filled_to_the_last_tenth),
    cmocka_unit_test(two_small_machines_beat_one_large_unless_it_is_worth_more),
    cmocka_unit_test(a_packing_that_greed_misses_is_found),
    cmocka_unit_test(the_search_agrees_with_enumeration),
    cmocka_unit_test(sixteen_machines_on_sixteen_circuits_settle),
    cmocka_unit_test(gfci_is_asked_for_where_the_rule_says),
    cmocka_unit_test(circuits_that_cannot_be_are_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
