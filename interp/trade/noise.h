/* noise.h - a person's noise dose of a shift, by each published criterion.
 *
 *     T = 8 / 2^((L - criterion) / exchange) h         D = 100 sum(C / T) %
 *     TWA = criterion + exchange / log10(2) * log10(D / 100)     16.61 for 5 dB, 10 for 3 dB
 *
 * Time under the criterion's threshold adds nothing: that is part of the criterion. Levels are dBA, slow. */
#ifndef TRADE_NOISE_H
#define TRADE_NOISE_H

#include "trade/exposure.h"
#include "trade/trade.h"

typedef struct {
  const char *id; /* "osha hearing", "osha permissible", "niosh" */
  double criterion_dba, exchange_db, threshold_db;
  double highest_dba; /* never without protection, however short; infinite if none is stated */
  const char *edition;
  Basis basis;
} NoiseCriterion;

const NoiseCriterion *noise_criterion_at(size_t index); /* NULL past the last */
bool noise_criterion(const char *id, const NoiseCriterion **out, TradeError *error);

/* Level in 70..140 dBA. */
bool noise_allowed_hours(const NoiseCriterion *criterion, double level_dba, double *allowed_h, TradeError *error);

typedef struct {
  double dose_percent; /* 100: the criterion is used up */
  double average_dba;  /* the steady 8 h level of the same dose; -INFINITY without any dose */
  double loudest_dba;
  bool over_highest;   /* a task was louder than the criterion ever allows */
} NoiseDose;

/* Levels in 30..140 dBA. */
bool noise_dose(const NoiseCriterion *criterion, const Exposure *tasks, int count, NoiseDose *out,
                TradeError *error);
/* The 8 h level of a dose above 0, at most 100000 %. */
bool noise_average(const NoiseCriterion *criterion, double dose_percent, double *average_dba, TradeError *error);

/* Tables as printed, rounded as printed: 29 CFR 1910.95 Table G-16a (80 to 120 dBA), 29 CFR 1926.52 Table D-2. */
typedef struct {
  double level_dba, hours;
} NoiseTableRow;

const NoiseTableRow *noise_table_g16a(size_t *rows);
const NoiseTableRow *noise_table_d2(size_t *rows);

extern const TradeFormula noise_formulas[];

#endif
