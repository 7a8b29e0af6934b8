/* test_supply.c - circuits as limits of a schedule: held against trying every set of machines on every circuit. */
#include "support.h"

#include "plan/dice.h"
#include "plan/supply.h"
#include "unit/plan/made_job.h"

static Made *job_with(const double *amps, const int *counts, int classes, const Supply *circuits, int circuit_count)
{
  Made *m = made_new(1);
  for (int i = 0; i < classes; i++) {
    m->machines[i].amps = made_maybe(amps[i]);
    m->machines[i].volts = made_maybe(230);
    m->machines[i].count = counts[i];
  }
  m->job.machine_count = classes;
  m->job.supplies = arena_array(m->arena, (size_t)circuit_count, sizeof *circuits);
  memcpy(m->job.supplies, circuits, (size_t)circuit_count * sizeof *circuits);
  m->job.supply_count = circuit_count;
  return m;
}

static bool is_allowed(const SupplyLimit *limits, int count, const int *running)
{
  for (int i = 0; i < count; i++) {
    int sum = 0;
    for (int k = 0; k < limits[i].count; k++) sum += limits[i].weight[k] * running[limits[i].class[k]];
    if (sum > limits[i].most) return false;
  }
  return true;
}

/* Machine after machine on any circuit with room: 125 % of its current. */
static bool fit_on(const Made *m, const int *left, double *load)
{
  int class = 0;
  while (class < m->job.machine_count && left[class] == 0) class++;
  if (class == m->job.machine_count) return true;
  int rest[MADE_MACHINES];
  memcpy(rest, left, sizeof rest);
  rest[class]--;
  for (int c = 0; c < m->job.supply_count; c++) {
    load[c] += 1.25 * m->machines[class].amps.figure.value;
    bool fits = load[c] <= m->job.supplies[c].amps + 1e-9 && fit_on(m, rest, load);
    load[c] -= 1.25 * m->machines[class].amps.figure.value;
    if (fits) return true;
  }
  return false;
}

/* How many combinations are forbidden though they could run; none that cannot run may be allowed. */
static int count_forbidden(const Made *m)
{
  SupplyLimit limits[SUPPLY_LIMITS];
  int count = supply_limits(&m->job, limits), forbidden = 0;
  for (int n = 0; n < 64; n++) {
    int running[MADE_MACHINES] = { n % 4, n / 4 % 4, n / 16, 0 };
    double load[8] = { 0 };
    bool owned = true;
    for (int k = 0; k < 3; k++) owned = owned && running[k] <= m->machines[k].count;
    if (!owned) continue;
    bool runs = fit_on(m, running, load), allowed = is_allowed(limits, count, running);
    assert_true(runs || !allowed);
    forbidden += runs && !allowed;
  }
  return forbidden;
}

static void limits_are_exactly_what_one_circuit_carries(void **state)
{
  (void)state;
  Dice dice = { 3 };
  for (int n = 0; n < 60; n++) {
    double amps[3];
    int counts[3];
    for (int k = 0; k < 3; k++) amps[k] = 4 + dice_roll(&dice, 12), counts[k] = 1 + dice_roll(&dice, 3);
    const Supply circuit = { 20 + dice_roll(&dice, 40), 230, false };
    Made *m = job_with(amps, counts, 3, &circuit, 1);
    assert_int_equal(count_forbidden(m), 0);
    made_free(m);
  }
}

static void on_several_circuits_nothing_too_much_is_allowed(void **state)
{
  (void)state;
  Dice dice = { 5 };
  int forbidden = 0;
  for (int n = 0; n < 60; n++) {
    double amps[3];
    int counts[3];
    Supply circuits[3];
    for (int k = 0; k < 3; k++) amps[k] = 4 + dice_roll(&dice, 12), counts[k] = 1 + dice_roll(&dice, 3);
    for (int k = 0; k < 3; k++) circuits[k] = (Supply){ 16 + 4 * dice_roll(&dice, 4), 230, false };
    Made *m = job_with(amps, counts, 3, circuits, 3);
    forbidden += count_forbidden(m);
    made_free(m);
  }
  assert_in_range(forbidden, 0, 40); /* of some thousands: where no limit can tell them apart */
}

static void what_no_circuit_carries_alone_is_left_to_the_rules(void **state)
{
  (void)state;
  const double amps[] = { 30, 8 };
  const int counts[] = { 1, 3 };
  const Supply circuit = { 20, 230, false };
  Made *m = job_with(amps, counts, 2, &circuit, 1);
  SupplyLimit limits[SUPPLY_LIMITS];
  assert_int_equal(supply_limits(&m->job, limits), 1);
  assert_int_equal(limits[0].class[0], 1);
  assert_int_equal(limits[0].most, 2);
  made_free(m);
}

static void other_voltages_and_unknown_currents_limit_nothing(void **state)
{
  (void)state;
  const double amps[] = { 8 };
  const int counts[] = { 3 };
  const Supply circuits[] = { { 100, 230, false }, { 10, 480, true } };
  SupplyLimit limits[SUPPLY_LIMITS];
  Made *m = job_with(amps, counts, 1, circuits, 2);
  assert_int_equal(supply_limits(&m->job, limits), 0);
  m->job.supply_count = 0;
  assert_int_equal(supply_limits(&m->job, limits), 0);
  m->job.supply_count = 1;
  m->job.supplies[0].amps = 10;
  assert_int_equal(supply_limits(&m->job, limits), 1);
  m->machines[0].amps.given = false;
  assert_int_equal(supply_limits(&m->job, limits), 0);
  made_free(m);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(limits_are_exactly_what_one_circuit_carries),
    cmocka_unit_test(on_several_circuits_nothing_too_much_is_allowed),
    cmocka_unit_test(what_no_circuit_carries_alone_is_left_to_the_rules),
    cmocka_unit_test(other_voltages_and_unknown_currents_limit_nothing),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
