/* risk.h - a simulation of the whole plan: in every trial what is uncertain is drawn, minutes and quantities are
 * worked out again from it, the schedule is timed again in its order (plan/retime.h), and all is costed again.
 *
 * What is drawn, what goes together and what is held is said in docs/risk.md. Trial n of a seed is the same
 * whatever the number of trials and threads (base/philox.h). Everything lives in the arena. */
#ifndef COST_RISK_H
#define COST_RISK_H

#include "cost/price.h"
#include "cost/takeoff.h"

enum { RISK_LEVELS = 4 };
extern const double risk_levels[RISK_LEVELS]; /* 0.1, 0.5, 0.8, 0.9 */

/* Something uncertain, and what it does. */
typedef struct {
  const char *what, *unit; /* "travel of machine \"planetary 32 in\"" */
  Span at;
  double low, likely, high;        /* as written; of a chance all the same */
  double finish_rank, cost_rank;   /* Spearman's correlation with finish and with cost */
  bool swings;                     /* false for chances, and then the rest is 0 */
  int finish_low, finish_high;     /* when it alone comes out at its P10 and P90 */
  double cost_low, cost_high;
} RiskDriver;

typedef struct {
  const char *area; /* NULL: the job */
  int by;
  double late; /* share of the trials */
} RiskDeadline;

typedef struct {
  int trials, seed;
  RiskShape shape;
  bool costed; /* false: the job has no price book, and all money is 0 */
  /* Cost is direct cost and overhead: what a contingency goes on. */
  int plan_finish, likely_finish; /* of the schedule; when every estimate comes out as likely */
  double plan_cost, likely_cost, mean_cost;
  int finish[RISK_LEVELS];
  double cost[RISK_LEVELS];
  RiskDeadline *deadlines;
  int deadline_count;
  double squeezed; /* share of the trials in which a window was missed or work did not fit into its hours */
  double certainty, certain_cost;
  int certain_finish;
  double contingency;       /* what certain_cost is above plan_cost, 0 if it is not */
  double covered;           /* share of the trials that the price's own contingency covers */
  RiskDriver *drivers;      /* the strongest first */
  int driver_count;
  const char **idle;        /* estimates that no minute and no cost rests on */
  int idle_count;
} Risk;

typedef struct {
  int trials, threads; /* 0: the job's, 1 */
  /* May be NULL; called now and then. */
  void (*progress)(void *context, int done, int of);
  void *context;
} RiskOptions;

/* The direct cost and overhead that a share of the trials do not exceed. */
typedef struct {
  double cost;
  Why *drawn; /* what was drawn for it */
  int drawn_count;
} RiskCost;

/* Of a scheduled plan whose cost has come so far, with the job's own trials and seed: what risk_run says of that
 * share. False when nothing is uncertain. */
bool risk_cost(const Plan *plan, const Takeoff *takeoff, const Cost *cost, const WhyBook *why, double share,
               int threads, Arena *arena, RiskCost *out);

/* Of a scheduled plan; cost NULL where the job names no price book. NULL and a finding `risk-nothing` when nothing
 * is uncertain. */
Risk *risk_run(const Plan *plan, const Takeoff *takeoff, const Cost *cost, const WhyBook *why,
               const RiskOptions *options, Arena *arena, Diags *diags);

#endif
