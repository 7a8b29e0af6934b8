/* trade_off.h - the same job with fewer people and machines: when it ends and what it costs.
 *
 * One person or machine less at a time, the one whose loss leaves the job cheapest, as long as it ends within half
 * again the first's time; every job met on the way is a candidate. Those that another beats in both finish and
 * cost are left out. Each is scheduled with little work, so a row is what was found, not what is best: a row can
 * only be too late or too dear, never too good. */
#ifndef COST_TRADE_OFF_H
#define COST_TRADE_OFF_H

#include "cost/price.h"

typedef struct {
  int finish;      /* minutes since the job's first midnight */
  double people_h; /* booked and standing */
  double machine_days;
  Money direct;    /* 0 where the job names no price book, or something is not priced */
  int *crews;      /* how many of each class of Job.crews; 0: left at home */
  int *machines;   /* of each class of Job.machines */
  int heads;       /* people and machines together */
} TradeRow;

typedef struct {
  TradeRow *rows; /* earliest finish first; the first is the plan itself or one that is as early for less */
  int count;
  bool priced;    /* rows compare by direct cost; else by people's hours */
  int tried;      /* jobs that were scheduled */
} TradeOff;

/* `plan` is scheduled. Everything lives in the arena; figures of the jobs tried stay in the why-book. `go_on` may
 * be NULL; it is asked before each job, and false ends the search with the rows so far. */
TradeOff trade_off(const Plan *plan, Arena *arena, WhyBook *why, bool (*go_on)(void *context), void *context);

#endif
