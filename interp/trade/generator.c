/* generator.c - running load, worst start, altitude. */
#include "trade/generator.h"

#include <math.h>

#include "trade/customary.h"

/* Common practice: the mild and the cautious end of each rule. */
typedef struct {
  double direct_start, drive_waveform, loss_per_kft;
} GeneratorRules;

static const GeneratorRules mild = { 3, 1.5, 0.03 }, cautious = { 6, 2, 0.035 };
static const double running_share = 0.8; /* of prime rating */

static double running_kva(const GeneratorLoad *load, const GeneratorRules *rules)
{
  return load->running_kva * (load->has_drive ? rules->drive_waveform : 1);
}

/* A drive starts at 1 to 1.5 times, which the allowance for its waveform covers. */
static double starting_kva(const GeneratorLoad *load, const GeneratorRules *rules)
{
  return load->has_drive ? running_kva(load, rules) : load->running_kva * rules->direct_start;
}

static void demand(const GeneratorLoad *loads, int count, const GeneratorRules *rules, double *running,
                   double *starting)
{
  double sum = 0, worst_rise = 0;
  for (int i = 0; i < count; i++) {
    sum += running_kva(&loads[i], rules);
    worst_rise = fmax(worst_rise, starting_kva(&loads[i], rules) - running_kva(&loads[i], rules));
  }
  *running = sum;
  *starting = sum + worst_rise;
}

bool generator_size(const GeneratorLoad *loads, int count, double altitude_m, GeneratorSize *out, TradeError *error)
{
  if (!trade_in_range(error, "count", count, 1, 32) || !trade_in_range(error, "altitude_m", altitude_m, 0, 5000))
    return false;
  for (int i = 0; i < count; i++)
    if (!trade_positive(error, "running_kva", loads[i].running_kva)
        || !trade_in_range(error, "running_kva", loads[i].running_kva, 0, 1000))
      return false;
  GeneratorSize s;
  double altitude_kft = altitude_m / FOOT_M / 1000;
  demand(loads, count, &mild, &s.running_low_kva, &s.starting_low_kva);
  demand(loads, count, &cautious, &s.running_high_kva, &s.starting_high_kva);
  s.size_low_kva = fmax(s.running_low_kva / running_share, s.starting_low_kva)
                   / (1 - mild.loss_per_kft * altitude_kft);
  s.size_high_kva = fmax(s.running_high_kva / running_share, s.starting_high_kva)
                    / (1 - cautious.loss_per_kft * altitude_kft);
  *out = s;
  return true;
}

const TradeFormula generator_formulas[] = {
  { "generator.size",
    "size = max(running / 0.8, running + worst start - its running) / (1 - 0.03..0.035 per 1000 ft)",
    { TRADE_COMMON_PRACTICE, "common practice; direct start 3 to 6 times, on a drive 1 to 1.5, waveform 1.5 to 2" },
    "Span of prime rating in kVA that a set of machines asks for. The maker's own sizing comes first." },
  { .id = NULL }
};
