/* shifts.h - inside the reports: a schedule's stretches, sorted under the shifts in which they are worked. */
#ifndef REPORT_SHIFTS_H
#define REPORT_SHIFTS_H

#include "plan/plan.h"

/* A stretch of an activity, in the shift that it is told under. */
typedef struct {
  int activity, stretch, start, finish;
  int day, shift; /* the day the shift begins, and its index in Job.shifts, -1 for none */
} ShiftEntry;

/* All stretches with a length, by shift and start; mem_free them. What nobody attends is told under the shift that
 * began last before it. */
ShiftEntry *shifts_list(const Plan *plan, int *count);
bool shifts_same(const ShiftEntry *a, const ShiftEntry *b);

#endif
