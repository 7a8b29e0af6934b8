#include "plan/solve.h"

#include "base/mem.h"
#include "plan/instance.h"
#include "plan/serial.h"

static bool find_first(const Instance *in, const int *earliest, const int *latest, SolveResult *result)
{
  Serial *serial = serial_new(in, earliest, latest);
  int *start = mem_array((size_t)in->count, sizeof *start);
  bool found = serial_run(serial, latest, 10 * in->count, start);
  if (found) result->schedule = instance_schedule(in, start);
  result->work += serial_work(serial);
  mem_free(start);
  serial_free(serial);
  return found;
}

static void solve_windows(const Instance *in, int *earliest, int *latest, SolveResult *result)
{
  result->status = SOLVE_INFEASIBLE;
  if (in->hopeless >= 0 || temporal_find_cycle(in, &result->why)) return;
  if (!temporal_tighten(in, earliest, latest, &result->why)) return;
  result->lower_bound = earliest[in->end];
  result->status = SOLVE_UNKNOWN;
  if (!find_first(in, earliest, latest, result)) return;
  result->status = result->schedule->makespan == result->lower_bound ? SOLVE_BEST : SOLVE_FEASIBLE;
}

SolveResult solve(const Problem *problem, const SolveOptions *options)
{
  (void)options;
  SolveResult result = { 0 };
  Instance *in = instance_new(problem);
  solve_windows(in, in->earliest, in->latest, &result);
  instance_free(in);
  return result;
}

void solve_free(SolveResult *result)
{
  schedule_free(result->schedule);
  contradiction_free(&result->why);
  result->schedule = NULL;
}

const char *bound_name(BoundKind bound)
{
  static const char *const names[] = { "critical path", "energy", "search" };
  return names[bound];
}
