#include "plan/solve.h"

#include "plan/instance.h"
#include "plan/portfolio.h"

SolveResult solve(const Problem *problem, const SolveOptions *options)
{
  static const SolveOptions defaults = { 0 };
  SolveResult result = { .status = SOLVE_INFEASIBLE };
  Instance *in = instance_new(problem);
  bool hopeless = in->hopeless >= 0 || temporal_find_cycle(in, &result.why) ||
                  !temporal_tighten(in, in->earliest, in->latest, &result.why);
  if (!hopeless) portfolio_run(in, options ? options : &defaults, &result);
  instance_free(in);
  return result;
}

void solve_free(SolveResult *result)
{
  schedule_free(result->schedule);
  contradiction_free(&result->why);
  result->schedule = NULL;
}
