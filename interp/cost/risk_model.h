/* risk_model.h - inside the simulation: a job laid out flat for trials. Nothing here changes while trials run. */
#ifndef COST_RISK_MODEL_H
#define COST_RISK_MODEL_H

#include "base/reckon.h"
#include "cost/risk.h"
#include "cost/spread.h"
#include "plan/retime.h"

typedef enum { FACTOR_PRODUCTION, FACTOR_HARDNESS, FACTOR_DRYING, FACTOR_AREA, FACTOR_KINDS } FactorKind;

typedef struct {
  const char *what, *unit;
  Span at;
  double low, likely, high;
  Why why;
  Spread *spread;
} RiskInput;

typedef struct {
  int place;                /* of its minutes, in the array of efforts */
  int factor[FACTOR_KINDS]; /* the input that changes them; -1: none */
  int rework;               /* its number among the fields that may be done again; -1: it is none */
  int planned_min;
  bool attended;
} RiskWork;

/* An activity's minutes count towards a share: of a crew, times its people, as a mean over the stretches; of a
 * machine class, times the part in which one runs. */
typedef struct {
  int activity, share;
  double times;
} RiskMinutes;

/* Hours and days that follow from a trial's schedule: shares of what the take-off counted. */
typedef struct {
  Why why;
  double value;
  int share; /* into RiskTrial.shares */
} RiskLeaf;

typedef struct {
  const Plan *plan;
  const RiskSetting *setting;
  Retiming *retiming;
  RiskInput *inputs; /* those of figures first */
  int input_count, figure_count;
  Reckoning *efforts, *costs; /* costs NULL: not costed */
  int cost_place;
  RiskWork *work;
  int rework_count;
  int work_count;
  RiskMinutes *minutes;
  int minutes_count;
  RiskLeaf *leaves;
  int leaf_count;
  double *counted; /* what the shares are of: minutes by crew, by machine class, days worked, days on site */
  int crew_count, machine_count, share_count;
  /* Days of work, counted from the job's first, each beginning at day_from_min. */
  int *days, *day_index; /* the days in order; by day: the place of the last one up to it */
  int day_count, last_day, day_from_min;
  const char **idle;
  int idle_count;
} RiskModel;

/* Lives in the arena but for what risk_model_free frees. */
RiskModel *risk_model_new(const Plan *plan, const Takeoff *takeoff, const Cost *cost, const WhyBook *why,
                          Arena *arena);
void risk_model_free(RiskModel *m);

#endif
