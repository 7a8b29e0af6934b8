/* anneal.h - simulated annealing over lists of tasks, for problems to which the fast passes apply.
 *
 * A list becomes a schedule by three passes: to the left, to the right, to the left (passes.h). A step moves a task
 * or two on the list, no further than predecessors and successors let them. The new list is kept if its schedule
 * ends no later than the old one's; if it ends later, it is kept by a chance that falls as the run cools. K.
 * Bouleimen, H. Lecocq, EJOR 149 (2003) 268-281. Two such walks go side by side, as two passes take little longer
 * than one. */
#ifndef PLAN_ANNEAL_H
#define PLAN_ANNEAL_H

#include "plan/passes.h"

typedef struct Anneal Anneal;

/* `ways` is borrowed. Begins with the list by latest start. */
Anneal *anneal_new(const Ways *ways, uint64_t seed);
void anneal_free(Anneal *anneal);

/* Makes so many steps; stops once the best makespan is at most `enough`. `gone` is the part of the whole run that
 * is over, 0 (hot) to 1 (cold). Returns the best makespan so far. */
int anneal_run(Anneal *anneal, int64_t steps, double gone, int enough);
int anneal_best(const Anneal *anneal, int *start);
/* The makespan that its worse walk is at, which may be worse than the best. */
int anneal_makespan(const Anneal *anneal);
/* That walk goes on from a schedule found elsewhere. */
void anneal_follow(Anneal *anneal, const int *start);
/* Steps of passes made so far. */
int64_t anneal_work(const Anneal *anneal);

#endif
