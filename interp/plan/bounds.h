/* bounds.h - lower bounds of the makespan that need no search.
 *
 * All tasks with a head (earliest start) of at least h and a tail (time from their finish to the end) of at least q
 * must be worked between h and the end less q: their work on a resource, over its capacity, in its open minutes,
 * gives a bound for every h and q. R. Klein, A. Scholl, EJOR 112 (1999) 322-346, section 3; with one h and q: the
 * critical path and the total energy are special cases. O(resources x tasks^2). */
#ifndef PLAN_BOUNDS_H
#define PLAN_BOUNDS_H

#include "plan/instance.h"

/* earliest[]: heads. CALENDAR_NEVER if the work does not fit into the open minutes at all. */
int bounds_energy(const Instance *in, const int *earliest);

/* Of each task, the least time from its finish to the end that the lags keep, calendars left out. */
void bounds_tails(const Instance *in, int *tail);

#endif
