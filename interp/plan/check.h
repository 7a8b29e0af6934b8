/* check.h - is this a schedule? Written from the definition in problem.h alone: it shares no code with the solver
 * beyond calendars and the pieces of a schedule. */
#ifndef PLAN_CHECK_H
#define PLAN_CHECK_H

#include "base/buf.h"
#include "plan/problem.h"

/* True if the schedule keeps every lag, window, calendar and capacity. If not, appends one line a breach to
 * *breaches (may be NULL): "task 3 ends at 70, but 4 starts at 65, before 70 + 0". */
bool check_schedule(const Problem *problem, const Schedule *schedule, Buf *breaches);

#endif
