/* power.c - conductor table and voltage drop. */
#include "trade/power.h"

#include <math.h>

#include "trade/customary.h"

const char power_table_edition[] = "NEC chapter 9 table 8, uncoated copper, direct current, 75 degC";

static const Conductor conductors[] = {
  { 14, 4110, 3.07, 3.14, 10.07 },    { 12, 6530, 1.93, 1.98, 6.33 },   { 10, 10380, 1.21, 1.24, 3.97 },
  { 8, 16510, 0.764, 0.778, 2.51 },   { 6, 26240, 0.491, 0.491, 1.61 }, { 4, 41740, 0.308, 0.308, 1.01 },
  { 3, 52620, 0.245, 0.245, 0.804 },  { 2, 66360, 0.194, 0.194, 0.636 },
};

const Conductor *power_conductor_at(size_t index)
{
  return index < sizeof conductors / sizeof *conductors ? &conductors[index] : NULL;
}

bool power_conductor(int awg, const Conductor **out, TradeError *error)
{
  for (size_t i = 0; power_conductor_at(i); i++)
    if (conductors[i].awg == awg) {
      *out = &conductors[i];
      return true;
    }
  return trade_refuse(error, TRADE_UNKNOWN, "awg", awg, "the table has AWG 14, 12, 10, 8, 6, 4, 3 and 2, not %d",
                      awg);
}

/* Conductors that carry the current there and back: 2, or sqrt(3) for three phases. */
static double there_and_back(PowerPhases phases)
{
  return phases == POWER_THREE_PHASE ? sqrt(3) : 2;
}

static bool supply_is_valid(PowerPhases phases, double volts, TradeError *error)
{
  return trade_in_range(error, "phases", phases, 0, POWER_PHASES - 1) && trade_positive(error, "volts", volts)
         && trade_in_range(error, "volts", volts, 0, 1000);
}

static bool line_is_valid(const PowerLine *line, TradeError *error)
{
  return supply_is_valid(line->phases, line->volts, error) && trade_in_range(error, "amps", line->amps, 0, 1000)
         && trade_positive(error, "ohm_kft", line->ohm_kft)
         && trade_in_range(error, "ohm_kft", line->ohm_kft, 0, 10);
}

static bool drop_of(const PowerLine *line, double ohm_kft, double run_m, VoltageDrop *out, TradeError *error)
{
  if (!trade_in_range(error, "run_m", run_m, 0, 3000)) return false;
  double volts = there_and_back(line->phases) * line->amps * ohm_kft * (run_m / FOOT_M) / 1000;
  if (volts > line->volts)
    return trade_refuse(error, TRADE_NO_ANSWER, "run_m", run_m, "%g m of this cord cannot carry %g A at %g V",
                        run_m, line->amps, line->volts);
  *out = (VoltageDrop){ volts, volts / line->volts };
  return true;
}

bool power_drop(const PowerLine *line, double run_m, VoltageDrop *out, TradeError *error)
{
  return line_is_valid(line, error) && drop_of(line, line->ohm_kft, run_m, out, error);
}

bool power_drop_by_area(const PowerLine *line, double circular_mils, double run_m, VoltageDrop *out,
                        TradeError *error)
{
  const double copper_ohm_cmil_ft = 12.9;
  if (!supply_is_valid(line->phases, line->volts, error) || !trade_in_range(error, "amps", line->amps, 0, 1000)
      || !trade_in_range(error, "circular_mils", circular_mils, 1000, 2e6))
    return false;
  return drop_of(line, copper_ohm_cmil_ft / circular_mils * 1000, run_m, out, error);
}

bool power_longest_run(const PowerLine *line, double share, double *run_m, TradeError *error)
{
  if (!line_is_valid(line, error) || !trade_positive(error, "amps", line->amps)
      || !trade_positive(error, "share", share) || !trade_in_range(error, "share", share, 0, 0.5))
    return false;
  double run_ft = share * line->volts * 1000 / (there_and_back(line->phases) * line->amps * line->ohm_kft);
  *run_m = run_ft * FOOT_M;
  return true;
}

bool power_apparent(PowerPhases phases, double volts, double amps, double *kva, TradeError *error)
{
  if (!supply_is_valid(phases, volts, error) || !trade_in_range(error, "amps", amps, 0, 10000)) return false;
  *kva = (phases == POWER_THREE_PHASE ? sqrt(3) : 1) * volts * amps / 1000;
  return true;
}

const TradeFormula power_formulas[] = {
  { "power.drop", "VD = 2 I R L / 1000, three phase sqrt(3) I R L / 1000; L one way ft, R ohm/kft",
    { TRADE_CONFIRMED, "electrical reference pages; R from NEC chapter 9 table 8" },
    "Volts lost along a cord, and their share of the supply. 3 % at the farthest outlet and 5 % in all are notes "
    "of the code, not law everywhere." },
  { "power.drop_by_area", "VD = 2 K I L / CM, K = 12.9 for copper", { TRADE_FROM_MEMORY, "electrical handbooks" },
    "The same from the area of the conductor in circular mils." },
  { "power.longest_run", "L = share * V * 1000 / (2 I R)", { TRADE_CONFIRMED, "the drop solved for length" },
    "Longest one-way run of cord for a share of the voltage." },
  { "power.apparent", "S = V I / 1000, three phase sqrt(3) V I / 1000 kVA",
    { TRADE_FROM_MEMORY, "electrical handbooks" },
    "Apparent power of a load." },
  { .id = NULL }
};
