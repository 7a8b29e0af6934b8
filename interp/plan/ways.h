/* ways.h - the tasks of a problem as passes read them: all that placing a task takes, side by side in one record.
 *
 * There is one such record for each way: to the left, and to the right with time mirrored, so that the finish of
 * work becomes its start and what came after comes before. */
#ifndef PLAN_WAYS_H
#define PLAN_WAYS_H

#include "plan/instance.h"

enum { WAY_BEFORE = 3 };

/* Must begin so many minutes before. */
typedef struct {
  int task, minutes;
} Before;

typedef struct {
  Before before[WAY_BEFORE]; /* where there are fewer: the task itself, so long ago that it does not count */
  int more, more_end;        /* the others, in Way.more */
  int earliest, duration;    /* minutes */
  int rest;                  /* minutes from its start until all that must follow can be over */
  uint32_t demand;           /* the lower half of its lanes (lanes.h) */
} WayTask;

typedef struct {
  WayTask *tasks;
  Before *more;
  int *topological; /* order */
} Way;

typedef struct {
  const Instance *in;
  int tasks;   /* without the end */
  int minutes; /* no pass takes longer, whatever its list */
  Way left, right;
} Ways;

/* NULL for problems with calendars, deadlines, maximum lags or lags in a circle (see Instance.plain and .forward),
 * and for those that ask for more than there is. */
Ways *ways_new(const Instance *in);
void ways_free(Ways *ways);

#endif
