/* noise.c - criteria, dose and the printed tables. */
#include "trade/noise.h"

#include <math.h>
#include <string.h>

static const NoiseCriterion criteria[] = {
  { "osha permissible", 90, 5, 90, 115, "29 CFR 1926.52 and 1910.95(b)",
    { TRADE_CONFIRMED, "federal regulation text; threshold from memory" } },
  { "osha hearing", 90, 5, 80, 115, "29 CFR 1910.95(c), hearing conservation",
    { TRADE_CONFIRMED, "federal regulation text; threshold from memory" } },
  { "niosh", 85, 3, 80, INFINITY, "NIOSH 98-126",
    { TRADE_CONFIRMED, "federal health agency page; threshold from memory" } },
};

const NoiseCriterion *noise_criterion_at(size_t index)
{
  return index < sizeof criteria / sizeof *criteria ? &criteria[index] : NULL;
}

bool noise_criterion(const char *id, const NoiseCriterion **out, TradeError *error)
{
  for (size_t i = 0; noise_criterion_at(i); i++)
    if (strcmp(criteria[i].id, id) == 0) {
      *out = &criteria[i];
      return true;
    }
  return trade_refuse(error, TRADE_UNKNOWN, "id", 0, "no noise criterion is called `%s`", id);
}

static double allowed_hours(const NoiseCriterion *c, double level_dba)
{
  return 8 / exp2((level_dba - c->criterion_dba) / c->exchange_db);
}

bool noise_allowed_hours(const NoiseCriterion *criterion, double level_dba, double *allowed_h, TradeError *error)
{
  if (!trade_in_range(error, "level_dba", level_dba, 70, 140)) return false;
  *allowed_h = allowed_hours(criterion, level_dba);
  return true;
}

static double average_of(const NoiseCriterion *c, double dose_percent)
{
  return c->criterion_dba + c->exchange_db * log2(dose_percent / 100);
}

bool noise_average(const NoiseCriterion *criterion, double dose_percent, double *average_dba, TradeError *error)
{
  if (!trade_positive(error, "dose_percent", dose_percent)
      || !trade_in_range(error, "dose_percent", dose_percent, 0, 100000))
    return false;
  *average_dba = average_of(criterion, dose_percent);
  return true;
}

bool noise_dose(const NoiseCriterion *criterion, const Exposure *tasks, int count, NoiseDose *out,
                TradeError *error)
{
  double hours;
  NoiseDose dose = { .average_dba = -INFINITY, .loudest_dba = -INFINITY };
  if (!exposure_hours(tasks, count, &hours, error)) return false;
  for (int i = 0; i < count; i++) {
    double level_dba = tasks[i].level;
    if (!trade_in_range(error, "level", level_dba, 30, 140)) return false;
    if (tasks[i].hours <= 0) continue;
    dose.loudest_dba = fmax(dose.loudest_dba, level_dba);
    if (level_dba < criterion->threshold_db) continue;
    dose.dose_percent += 100 * tasks[i].hours / allowed_hours(criterion, level_dba);
  }
  if (dose.dose_percent > 0) dose.average_dba = average_of(criterion, dose.dose_percent);
  dose.over_highest = dose.loudest_dba > criterion->highest_dba;
  *out = dose;
  return true;
}

const NoiseTableRow *noise_table_g16a(size_t *rows)
{
  static const NoiseTableRow table[] = {
    { 80, 32 },    { 81, 27.9 },  { 82, 24.3 },  { 83, 21.1 },  { 84, 18.4 }, { 85, 16 },    { 86, 13.9 },
    { 87, 12.1 },  { 88, 10.6 },  { 89, 9.2 },   { 90, 8 },     { 91, 7.0 },  { 92, 6.1 },   { 93, 5.3 },
    { 94, 4.6 },   { 95, 4 },     { 96, 3.5 },   { 97, 3.0 },   { 98, 2.6 },  { 99, 2.3 },   { 100, 2 },
    { 101, 1.7 },  { 102, 1.5 },  { 103, 1.3 },  { 104, 1.1 },  { 105, 1 },   { 106, 0.87 }, { 108, 0.66 },
    { 110, 0.5 },  { 112, 0.38 }, { 115, 0.25 }, { 120, 0.125 },
  };
  *rows = sizeof table / sizeof *table;
  return table;
}

const NoiseTableRow *noise_table_d2(size_t *rows)
{
  static const NoiseTableRow table[] = {
    { 90, 8 }, { 92, 6 }, { 95, 4 }, { 97, 3 }, { 100, 2 }, { 102, 1.5 }, { 105, 1 }, { 110, 0.5 }, { 115, 0.25 },
  };
  *rows = sizeof table / sizeof *table;
  return table;
}

const TradeFormula noise_formulas[] = {
  { "noise.allowed_hours", "T = 8 / 2^((L - criterion) / exchange) h",
    { TRADE_CONFIRMED, "29 CFR 1910.95 Table G-16a; NIOSH 98-126" },
    "Hours at a level that use up the day's allowance: criterion 90 dBA and 5 dB for OSHA, 85 dBA and 3 dB for "
    "NIOSH." },
  { "noise.dose", "D = 100 * sum(C / T) %", { TRADE_CONFIRMED, "29 CFR 1910.95 appendix A" },
    "A person's noise dose; time under the criterion's threshold adds nothing." },
  { "noise.average", "TWA = criterion + exchange * log2(D / 100) dBA",
    { TRADE_CONFIRMED, "29 CFR 1910.95 appendix A" },
    "The steady 8 h level with the same dose: 16.61 log10(D/100) + 90 for OSHA, 10 log10(D/100) + 85 for NIOSH." },
  { .id = NULL }
};
