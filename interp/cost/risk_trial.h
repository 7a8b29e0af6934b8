/* risk_trial.h - inside the simulation: one trial after the other, without an allocation. */
#ifndef COST_RISK_TRIAL_H
#define COST_RISK_TRIAL_H

#include "cost/risk_model.h"

typedef struct RiskTrial RiskTrial;

/* For one thread. */
RiskTrial *risk_trial_new(const RiskModel *m);
void risk_trial_free(RiskTrial *t);

/* The random word of an input in a trial: what draws it, and how it ranks. */
uint32_t risk_trial_word(const RiskModel *m, uint32_t trial, int input);

void risk_trial_draw(RiskTrial *t, uint32_t trial); /* all that is uncertain */
void risk_trial_likely(RiskTrial *t);               /* nothing out of the way */
void risk_trial_set(RiskTrial *t, int input, double value);

typedef struct {
  int finish;
  double cost;
  int reworked, lost_days;
  bool squeezed; /* a window was missed, or work did not fit into its hours */
} RiskOutcome;

RiskOutcome risk_trial_run(RiskTrial *t);
int risk_trial_area_finish(const RiskTrial *t, int area); /* after a run */

#endif
