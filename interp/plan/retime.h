/* retime.h - a schedule whose durations came out otherwise: who does what in which order stays, all starts are new.
 *
 * Every activity waits for what its lags ask for and for the people and the machine that, in the schedule, came to
 * it from other work; it then starts as early as its calendars allow. (A policy of earliest starts: Igelmund,
 * Radermacher, Networks 13 (1983) 1-28; from memory.) Where a maximum lag would be missed, the earlier work starts
 * later, as in the schedule itself. Work that filled a pause of other work fills one still, or waits for its end.
 * Who hands work over in the middle leaves it after the same part of it; who takes over is taken to be in time. */
#ifndef PLAN_RETIME_H
#define PLAN_RETIME_H

#include "plan/calendar.h"
#include "plan/plan.h"

typedef struct Retiming Retiming;

/* Of a scheduled plan. */
Retiming *retiming_new(const Plan *plan);
void retiming_free(Retiming *r); /* NULL is fine */

/* What runs of one thread need to themselves; mem_free it. */
int *retiming_scratch(const Retiming *r);

/* Minutes in the plan's order; start[] and finish[] are filled in. False if a window was missed, or work that may
 * not pause did not fit into any piece of its hours and was broken off at their end all the same. */
bool retiming_run(const Retiming *r, const int *minutes, int *scratch, int *start, int *finish);

/* The hours in which an activity can work; NULL: always. Borrowed. And, after a run, which piece of them it began
 * in. */
const Calendar *retiming_hours(const Retiming *r, int activity);
int retiming_piece(const Retiming *r, const int *scratch, int activity);

#endif
