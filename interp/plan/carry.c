#include "plan/carry.h"

#include "trade/circuits.h"

static PowerPhases phases(bool three) { return three ? POWER_THREE_PHASE : POWER_SINGLE_PHASE; }

bool carry_all(const CarryLoad *loads, int load_count, const CarryCircuit *circuits, int circuit_count)
{
  Machine machines[CARRY_MOST];
  Circuit supplies[CARRY_MOST];
  CircuitPlan found;
  TradeError error;
  if (load_count == 0) return true;
  for (int i = 0; i < load_count; i++)
    machines[i] = (Machine){ loads[i].amps, loads[i].volts, phases(loads[i].three_phase), true, 1 };
  for (int i = 0; i < circuit_count; i++)
    supplies[i] = (Circuit){ circuits[i].amps, circuits[i].volts, phases(circuits[i].three_phase) };
  if (!circuits_assign(machines, load_count, supplies, circuit_count, &found, &error)) return false;
  return found.running == load_count;
}
