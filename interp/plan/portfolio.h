/* portfolio.h - several ways to better schedules and bounds, taking turns on one problem.
 *
 * Each way has a share of the work and runs in slices; what one finds (a schedule, a bound) serves all. All turns
 * are decided by counted work, so a run that is limited by work can be repeated. */
#ifndef PLAN_PORTFOLIO_H
#define PLAN_PORTFOLIO_H

#include "plan/instance.h"
#include "plan/solve.h"

/* Fills status, schedule, lower_bound, bound and work. The windows have been tightened and are not empty. */
void portfolio_run(const Instance *in, const SolveOptions *options, SolveResult *result);

#endif
