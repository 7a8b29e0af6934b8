/* acceptance.h - whether readings prove a promise, and how many it takes.
 *
 *     lower bound of the mean = mean - t(confidence, n - 1) s / sqrt(n)      one-sided, readings roughly normal
 *
 * A promise about the floor as a whole is a promise about its mean; one about every spot is held against the
 * smallest reading. Which of both a contract means is for the contract to say. */
#ifndef TRADE_ACCEPTANCE_H
#define TRADE_ACCEPTANCE_H

#include "trade/statistics.h"

typedef struct {
  double mean_at_least; /* -INFINITY where nothing is promised */
  double each_at_least; /* likewise */
  double confidence;    /* of the statement on the mean, one-sided: 0.5 to 0.9999, usually 0.95 */
} AcceptanceRule;

typedef enum {
  ACCEPTANCE_PASS,   /* the promise is shown to hold at this confidence, or the smallest reading holds it */
  ACCEPTANCE_OPEN,   /* the mean holds it, the readings are too few or too scattered to prove it */
  ACCEPTANCE_FAIL
} AcceptanceVerdict;

typedef struct {
  Summary readings;
  double lower_bound; /* of the mean */
  AcceptanceVerdict mean, each, both; /* both: the worse of the two */
} Acceptance;

/* Two readings or more; more than 10,001 are refused. Errors: "readings", "confidence", those of the readings. */
bool acceptance_judge(const double *readings, size_t count, const AcceptanceRule *rule, Acceptance *out,
                      TradeError *error);

/* The least number of readings for which t(confidence, n - 1) spread / sqrt(n) <= margin: so many tell the mean to
 * within the margin, if the spread is as expected. spread > 0, margin > 0; refused over 10,000 as "margin". */
bool acceptance_readings(double spread, double margin, double confidence, int *readings, TradeError *error);

extern const TradeFormula acceptance_formulas[];

#endif
