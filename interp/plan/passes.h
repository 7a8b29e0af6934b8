/* passes.h - fast serial passes for problems without calendars, deadlines and maximum lags, and double
 * justification.
 *
 * A pass takes a list of tasks, predecessors first, and places each as early (or, from the end, as late) as it
 * fits. Justifying a schedule to the right and then to the left never makes it longer and often shorter: V. Valls,
 * F. Ballestin, S. Quintanilla, EJOR 165 (2005) 375-386. */
#ifndef PLAN_PASSES_H
#define PLAN_PASSES_H

#include "plan/instance.h"

typedef struct Passes Passes;

/* Is the instance of that kind (see Instance.forward and .plain)? */
bool passes_apply(const Instance *in);
/* NULL if they do not apply. */
Passes *passes_new(const Instance *in);
void passes_free(Passes *passes);

/* All tasks by their keys, 0 or more, smallest first; among equal keys predecessors come first. */
void passes_order_by(const Passes *passes, const int *key, int *list);

/* list[] has all tasks but the end, predecessors first. Writes start[] (the end's too); returns the makespan. */
int passes_left(Passes *passes, const int *list, int *start);
/* The same, where the first so many tasks of the list have their starts already. */
int passes_left_from(Passes *passes, const int *list, int placed, int *start);
/* One pass to the right, up to the makespan; returns the makespan that is left, counted from the first start. list[]
 * becomes the order in which the tasks finished before. */
int passes_right(Passes *passes, int *start, int *list);
/* Improves start[] by one pass to the right and one to the left; returns the makespan. list[] becomes the order in
 * which the last pass placed the tasks. */
int passes_justify(Passes *passes, int *start, int *list);
int64_t passes_work(const Passes *passes);

#endif
