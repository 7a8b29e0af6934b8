/* native_trade_power.c - for scripts: conductors, voltage drop, circuits, generators. */
#include "lang/native_trade.h"
#include "trade/circuits.h"
#include "trade/generator.h"
#include "trade/power.h"

#define PHASES "single|three"


/* Where a function takes a line, it is the four inputs of LINE. */
static PowerLine line_of(const Given *in, const Conductor *conductor)
{
  return (PowerLine){ GIVEN_ENUM(PowerPhases, in[0]), in[1].x, in[2].x, conductor->ohm_kft };
}

static bool conductor(const Given *in, Answer *out, TradeError *error)
{
  const Conductor *c;
  if (!power_conductor(given_whole(in[0]), &c, error)) return false;
  out[0].x = c->ohm_kft;
  out[1].x = c->stranded_ohm_kft;
  out[2].x = c->ohm_km;
  out[3].x = c->circular_mils;
  out[4].text = power_table_edition;
  return true;
}

static void tell_drop(const VoltageDrop *drop, Answer *out)
{
  out[0].x = drop->volts;
  out[1].x = drop->share;
}

static bool drop(const Given *in, Answer *out, TradeError *error)
{
  const Conductor *c;
  VoltageDrop d;
  if (!power_conductor(given_whole(in[3]), &c, error)) return false;
  PowerLine line = line_of(in, c);
  if (!power_drop(&line, in[4].x, &d, error)) return false;
  tell_drop(&d, out);
  return true;
}

static bool drop_by_area(const Given *in, Answer *out, TradeError *error)
{
  const Conductor *c;
  VoltageDrop d;
  if (!power_conductor(given_whole(in[3]), &c, error)) return false;
  PowerLine line = line_of(in, c);
  if (!power_drop_by_area(&line, c->circular_mils, in[4].x, &d, error)) return false;
  tell_drop(&d, out);
  return true;
}

static bool longest_run(const Given *in, Answer *out, TradeError *error)
{
  const Conductor *c;
  if (!power_conductor(given_whole(in[3]), &c, error)) return false;
  PowerLine line = line_of(in, c);
  return power_longest_run(&line, in[4].x, &out[0].x, error);
}

static bool apparent(const Given *in, Answer *out, TradeError *error)
{
  return power_apparent(GIVEN_ENUM(PowerPhases, in[0]), in[1].x, in[2].x, &out[0].x, error);
}

/* ---- circuits */

enum { MACHINE_CELLS = 5, CIRCUIT_CELLS = 3 };

static Machine machine_of(const Given *cell)
{
  int worth = cell[4].lacks ? 1 : given_whole(cell[4]);
  return (Machine){ cell[0].x, cell[1].x, GIVEN_ENUM(PowerPhases, cell[2]), cell[3].x > 0, worth };
}

static bool assign(const Given *in, Answer *out, TradeError *error)
{
  Machine machines[CIRCUITS_MOST];
  Circuit circuits[CIRCUITS_MOST];
  CircuitPlan plan;
  if (!trade_in_range(error, "machine_count", (double)in[0].count, 1, CIRCUITS_MOST) ||
      !trade_in_range(error, "circuit_count", (double)in[1].count, 1, CIRCUITS_MOST))
    return false;
  int machine_count = (int)in[0].count, circuit_count = (int)in[1].count;
  for (int i = 0; i < machine_count; i++) machines[i] = machine_of(&in[0].cells[MACHINE_CELLS * i]);
  for (int i = 0; i < circuit_count; i++) {
    const Given *cell = &in[1].cells[CIRCUIT_CELLS * i];
    circuits[i] = (Circuit){ cell[0].x, cell[1].x, GIVEN_ENUM(PowerPhases, cell[2]) };
  }
  if (!circuits_assign(machines, machine_count, circuits, circuit_count, &plan, error)) return false;
  out[0].x = plan.running;
  out[1].count = (size_t)machine_count;
  for (int i = 0; i < machine_count; i++) out[1].cells[i] = plan.circuit[i] + 1; /* scripts count from 1 */
  out[2].count = (size_t)circuit_count;
  for (int i = 0; i < circuit_count; i++) out[2].cells[i] = plan.load_amps[i];
  out[3].x = plan.worth;
  return true;
}

static bool gfci(const Given *in, Answer *out, TradeError *error)
{
  static const char *const verdicts[] = { [GFCI_NEEDED] = "needed", [GFCI_EXEMPT_GENERATOR] = "exempt generator",
                                          [GFCI_NOT_COVERED] = "not covered" };
  Receptacle r = { .volts = in[0].x, .amps = in[1].x, .phases = GIVEN_ENUM(PowerPhases, in[2]),
                   .is_permanent = in[3].x > 0, .is_generator = !in[4].lacks, .generator_kw = in[4].x,
                   .is_two_wire = in[5].x > 0, .is_frame_insulated = in[6].x > 0 };
  GfciVerdict verdict;
  if (!circuits_gfci(&r, &verdict, error)) return false;
  out[0].text = verdicts[verdict];
  return true;
}

/* ---- generators */

static bool generator(const Given *in, Answer *out, TradeError *error)
{
  GeneratorLoad loads[TRADE_ROWS_MOST];
  GeneratorSize size;
  for (size_t i = 0; i < in[0].count; i++)
    loads[i] = (GeneratorLoad){ in[0].cells[2 * i].x, in[0].cells[2 * i + 1].x > 0 };
  if (!generator_size(loads, (int)in[0].count, in[1].x, &size, error)) return false;
  out[0].x = size.size_high_kva;
  out[1].x = size.size_low_kva;
  out[2].x = size.running_low_kva;
  out[3].x = size.running_high_kva;
  out[4].x = size.starting_low_kva;
  out[5].x = size.starting_high_kva;
  return true;
}

/* ---- rows */

#define PHASE_INPUT { "phases", PHASES, "", "single", .says = "of the line" }
#define GAUGE { "awg", "whole", "", "12", .says = "American wire gauge of the copper: 14, 12, 10, 8, 6, 4, 3 or 2" }
#define LINE                                                                                                       \
  PHASE_INPUT, { "volts", "voltage", "V", "120 V", .says = "between its conductors" },                             \
    { "amps", "current", "A", "20 A", .says = "that flow" }, GAUGE
#define RUN { "run", "length", "m", "100 ft", .says = "length of the cord, one way" }
#define DROP_OUT OUTPUTS({ "drop", "voltage", .unit = "V" }, { "share", "fraction", .unit = "" })
#define KVA(name_) { name_, "number", .unit = "kVA" }

const TradeRow native_trade_power[] = {
  { "power.conductor", conductor, .formula = "power.drop",
    .says = "Resistance of one copper conductor, direct current at 75 degC, and its area.",
    .in = INPUTS(GAUGE),
    .out = OUTPUTS({ "resistance", "number", .unit = "ohm/1000 ft" },
                   { "stranded", "number", .unit = "ohm/1000 ft" },
                   { "metric", "number", .unit = "ohm/km" }, { "circular_mils", .kind = "number" },
                   { "edition", .kind = "text" }) },
  { "power.drop", drop, .in = INPUTS(LINE, RUN), .out = DROP_OUT },
  { "power.drop_by_area", drop_by_area, .in = INPUTS(LINE, RUN), .out = DROP_OUT },
  { "power.longest_run", longest_run,
    .in = INPUTS(LINE, { "share", "fraction", "", "3 %", .says = "of the voltage that may be lost",
                         .otherwise = "3 %",
                         .basis = "the informational value for a branch circuit" }),
    .out = OUTPUTS({ "run", "length", .unit = "m" }) },
  { "power.apparent", apparent,
    .in = INPUTS({ "phases", PHASES, "", "three", .says = "of the line" },
                 { "volts", "voltage", "V", "480 V", .says = "between its conductors" },
                 { "amps", "current", "A", "30 A", .says = "that flow" }),
    .out = OUTPUTS(KVA("power")) },

  { "circuits.assign", assign,
    .in = INPUTS({ "machines",
                   .example = "15 A, 120 V, single, true; 12 A, 120 V, single, false; 28 A, 240 V, single, false",
                   .says = "what should run at once", .core = "machine_count",
                   COLUMNS({ "amps", "current", "A", "15 A", .says = "running" },
                           { "volts", "voltage", "V", "120 V", .says = "it is made for" },
                           { "phases", PHASES, "", "single", .says = "it is made for" },
                           { "continuous", "flag", "", "true", .says = "runs 3 h or more", .otherwise = "false",
                             .basis = "short work unless said" },
                           { "worth", "whole", "", "1", .says = "to tell which should run first", .otherwise = "1",
                             .basis = "all alike" }) },
                 { "circuits", .example = "20 A, 120 V, single; 50 A, 240 V, single", .says = "that there are",
                   .core = "circuit_count",
                   COLUMNS({ "amps", "current", "A", "20 A", .says = "of the breaker", .core = "breaker_amps" },
                           { "volts", "voltage", "V", "120 V", .says = "of the circuit" },
                           { "phases", PHASES, "", "single", .says = "of the circuit" }) }),
    .out = OUTPUTS({ "running", .kind = "whole" }, { "circuit", "whole", .is_list = true },
                   { "load", "current", .unit = "A", .is_list = true }, { "worth", .kind = "whole" }) },
  { "circuits.gfci", gfci,
    .in = INPUTS({ "volts", "voltage", "V", "120 V", .says = "of the receptacle" },
                 { "amps", "current", "A", "20 A", .says = "of the receptacle" }, PHASE_INPUT,
                 { "permanent", "flag", "", "false", .says = "part of the building's permanent wiring",
                   .otherwise = "false", .basis = "temporary power unless said" },
                 { "generator", "power", "kW", "4 kW", .says = "a portable generator of this size feeds it",
                   .core = "generator_kw", .may_lack = true },
                 { "two_wire", "flag", "", "false", .says = "the generator is two-wire, single phase",
                   .otherwise = "false", .basis = "not unless said" },
                 { "frame_insulated", "flag", "", "false", .says = "its conductors are insulated from its frame",
                   .otherwise = "false", .basis = "not unless said" }),
    .out = OUTPUTS({ "verdict", .kind = "text" }) },

  { "generator.size", generator,
    .in = INPUTS({ "loads", .example = "12, true; 4, false", .says = "what it feeds", .core = "count",
                   COLUMNS({ "running", "number", "kVA", "12", .says = "load in kVA" },
                           { "drive", "flag", "", "true", .says = "fed through a variable-frequency drive",
                             .otherwise = "false", .basis = "straight from the line unless said" }) },
                 { "altitude", "length", "m", "0 ft", .says = "of the site", .otherwise = "0 ft",
                   .basis = "at sea level unless said" }),
    .out = OUTPUTS(KVA("high"), KVA("low"), KVA("running_low"), KVA("running_high"), KVA("starting_low"),
                   KVA("starting_high")) },
  { .name = NULL }
};
