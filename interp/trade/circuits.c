/* circuits.c - exact assignment of machines to circuits, and the GFCI rule. */
#include "trade/circuits.h"

#include <math.h>

enum { MOST_PLACINGS = 2000000 };
static const double continuous_factor = 1.25, voltage_tolerance = 0.1, rounding_a = 1e-9;

typedef struct {
  const Machine *machines;
  const Circuit *circuits;
  int machine_count, circuit_count;
  int by_value[CIRCUITS_MOST]; /* machines, the most worth an ampere first */
  CircuitPlan now, best;
  long placings;
} Search;

static double load_amps(const Machine *machine)
{
  return machine->amps * (machine->is_continuous ? continuous_factor : 1);
}

static bool fits(const Search *s, const Machine *machine, int c)
{
  const Circuit *circuit = &s->circuits[c];
  return machine->phases == circuit->phases
         && fabs(machine->volts - circuit->volts) <= voltage_tolerance * circuit->volts
         && s->now.load_amps[c] + load_amps(machine) <= circuit->breaker_amps + rounding_a;
}

/* An earlier circuit in the same state has been tried: this one can bring nothing new. */
static bool has_twin_before(const Search *s, int c)
{
  const Circuit *circuit = &s->circuits[c];
  for (int i = 0; i < c; i++)
    if (s->circuits[i].breaker_amps == circuit->breaker_amps && s->circuits[i].volts == circuit->volts
        && s->circuits[i].phases == circuit->phases && s->now.load_amps[i] == s->now.load_amps[c])
      return true;
  return false;
}

static void order_by_value(Search *s)
{
  for (int m = 0; m < s->machine_count; m++) {
    const Machine *machine = &s->machines[m];
    int at = m;
    for (; at > 0; at--) {
      const Machine *before = &s->machines[s->by_value[at - 1]];
      if (before->worth * load_amps(machine) >= machine->worth * load_amps(before)) break;
      s->by_value[at] = s->by_value[at - 1];
    }
    s->by_value[at] = m;
  }
}

/* What the machines from `m` on could add at most, if all free amperes were one circuit and machines divisible. */
static double most_worth_from(const Search *s, int m)
{
  double free_amps = 0, worth = 0;
  for (int c = 0; c < s->circuit_count; c++)
    free_amps += s->circuits[c].breaker_amps - s->now.load_amps[c] + rounding_a;
  for (int i = 0; i < s->machine_count && free_amps > 0; i++) {
    const Machine *machine = &s->machines[s->by_value[i]];
    if (s->by_value[i] < m) continue;
    worth += machine->worth * fmin(free_amps / load_amps(machine), 1);
    free_amps -= load_amps(machine);
  }
  return worth;
}

static void place(Search *s, int m)
{
  const double rounding = 1e-6;
  double most_worth = floor(s->now.worth + most_worth_from(s, m) + rounding);
  if (++s->placings > MOST_PLACINGS || most_worth <= s->best.worth) return;
  if (m == s->machine_count) {
    s->best = s->now;
    return;
  }
  const Machine *machine = &s->machines[m];
  for (int c = 0; c < s->circuit_count; c++) {
    if (!fits(s, machine, c) || has_twin_before(s, c)) continue;
    double before_a = s->now.load_amps[c];
    s->now.circuit[m] = c;
    s->now.load_amps[c] += load_amps(machine);
    s->now.running++, s->now.worth += machine->worth;
    place(s, m + 1);
    s->now.running--, s->now.worth -= machine->worth;
    s->now.load_amps[c] = before_a;
  }
  s->now.circuit[m] = -1;
  place(s, m + 1);
}

static bool supply_is_valid(double volts, PowerPhases phases, double amps, const char *amps_name, TradeError *error)
{
  return trade_in_range(error, "volts", volts, 1, 1000)
         && trade_in_range(error, "phases", phases, 0, POWER_PHASES - 1) && trade_positive(error, amps_name, amps)
         && trade_in_range(error, amps_name, amps, 0, 1000);
}

static bool inputs_are_valid(const Search *s, TradeError *error)
{
  if (!trade_in_range(error, "machine_count", s->machine_count, 1, CIRCUITS_MOST)
      || !trade_in_range(error, "circuit_count", s->circuit_count, 1, CIRCUITS_MOST))
    return false;
  for (const Machine *m = s->machines; m < s->machines + s->machine_count; m++)
    if (!supply_is_valid(m->volts, m->phases, m->amps, "amps", error)
        || !trade_in_range(error, "worth", m->worth, 1, 1000))
      return false;
  for (const Circuit *c = s->circuits; c < s->circuits + s->circuit_count; c++)
    if (!supply_is_valid(c->volts, c->phases, c->breaker_amps, "breaker_amps", error)) return false;
  return true;
}

bool circuits_assign(const Machine *machines, int machine_count, const Circuit *circuits, int circuit_count,
                     CircuitPlan *out, TradeError *error)
{
  Search s = { .machines = machines, .circuits = circuits, .machine_count = machine_count,
               .circuit_count = circuit_count, .best = { .worth = -1 } };
  if (!inputs_are_valid(&s, error)) return false;
  order_by_value(&s);
  place(&s, 0);
  if (s.placings > MOST_PLACINGS)
    return trade_refuse(error, TRADE_NO_ANSWER, "machines", machine_count,
                        "over %d ways to place the machines; list fewer at a time", MOST_PLACINGS);
  *out = s.best;
  return true;
}

bool circuits_gfci(const Receptacle *r, GfciVerdict *out, TradeError *error)
{
  const double small_generator_kw = 5;
  if (!supply_is_valid(r->volts, r->phases, r->amps, "amps", error)
      || (r->is_generator && !trade_in_range(error, "generator_kw", r->generator_kw, 0.1, 10000)))
    return false;
  bool is_120 = r->phases == POWER_SINGLE_PHASE && fabs(r->volts - 120) <= voltage_tolerance * 120;
  bool is_small = r->amps <= 20;
  if (r->is_permanent || !is_120 || !is_small) *out = GFCI_NOT_COVERED;
  else if (r->is_generator && r->generator_kw <= small_generator_kw && r->is_two_wire && r->is_frame_insulated)
    *out = GFCI_EXEMPT_GENERATOR;
  else *out = GFCI_NEEDED;
  return true;
}

const TradeFormula circuits_formulas[] = {
  { "circuits.assign", "most worth with sum(amps * 1.25 if continuous) <= breaker on every circuit",
    { TRADE_FROM_MEMORY, "NEC 210.20 for the 125 %; exact search, checked against enumeration in the tests" },
    "Which machines may run at once, and on which circuit each." },
  { "circuits.gfci",
    "120 V, single phase, up to 20 A, not permanent wiring; exempt: insulated two-wire generator up to 5 kW",
    { TRADE_CONFIRMED, "29 CFR 1926.404(b)(1), state labour department reprint" },
    "Whether a receptacle on site needs a GFCI (or a written assured grounding programme). Local codes "
    "come first." },
  { .id = NULL }
};
