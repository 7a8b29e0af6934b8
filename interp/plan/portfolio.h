/* portfolio.h - several ways to better schedules and bounds, together on one problem.
 *
 * The members (member.h) work in rounds, each on its own with its share of the round's work, in as many threads as
 * there may be; at a round's end they tell each other what they found, in fixed order. Rounds and shares are counted
 * in work, so that a run which is limited by work has the same result every time and with any number of threads. */
#ifndef PLAN_PORTFOLIO_H
#define PLAN_PORTFOLIO_H

#include "plan/instance.h"
#include "plan/solve.h"

/* Fills status, schedule, lower_bound and work. The windows have been tightened and are not empty. */
void portfolio_run(const Instance *in, const SolveOptions *options, SolveResult *result);

#endif
