#include "plan/solve.h"

#include <string.h>
#include <time.h>

#include "base/mem.h"
#include "plan/cp.h"
#include "plan/instance.h"
#include "plan/serial.h"

typedef struct {
  const Instance *in;
  const SolveOptions *options;
  SolveResult *result;
  int *earliest, *latest;
  int *best; /* starts of the best schedule */
  bool found;
  double deadline_s;
  int64_t work_left;
} Solver;

static double now_s(void)
{
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static bool is_late(void *context)
{
  const Solver *s = context;
  return s->options->seconds > 0 && now_s() >= s->deadline_s;
}

static void find_first(Solver *s)
{
  Serial *serial = serial_new(s->in, s->earliest, s->latest);
  s->found = serial_run(serial, s->latest, 10 * s->in->count, s->best);
  s->work_left -= serial_work(serial);
  serial_free(serial);
}

static void search(Solver *s)
{
  Cp *cp = cp_new(s->in, s->earliest, s->latest);
  int end = s->in->end;
  bool done = false;
  while (!done && !is_late(s)) {
    if (s->found) {
      cp_prefer(cp, s->best);
      done = !cp_at_most(cp, end, s->best[end] - 1);
      if (done) break;
    }
    CpLimit limit = { .work = 1 << 24, .conflicts = INT64_MAX / 2, .stop = is_late, .context = s };
    CpStatus status = cp_search(cp, NULL, 0, limit, s->best);
    if (status == CP_FOUND) s->found = true;
    done = status == CP_REFUTED;
  }
  if (cp_earliest(cp, end) > s->result->lower_bound) s->result->lower_bound = cp_earliest(cp, end);
  if (done && s->found) s->result->lower_bound = s->best[end];
  if (done && !s->found) s->result->status = SOLVE_INFEASIBLE;
  s->result->work = cp_conflicts(cp);
  cp_free(cp);
}

static void solve_windows(Solver *s)
{
  SolveResult *r = s->result;
  const Instance *in = s->in;
  r->status = SOLVE_INFEASIBLE;
  if (in->hopeless >= 0 || temporal_find_cycle(in, &r->why)) return;
  if (!temporal_tighten(in, s->earliest, s->latest, &r->why)) return;
  r->lower_bound = s->earliest[in->end];
  r->status = SOLVE_UNKNOWN;
  find_first(s);
  if (!s->found || s->best[in->end] > r->lower_bound) search(s);
  if (!s->found) return;
  r->schedule = instance_schedule(in, s->best);
  r->status = r->schedule->makespan == r->lower_bound ? SOLVE_BEST : SOLVE_FEASIBLE;
}

SolveResult solve(const Problem *problem, const SolveOptions *options)
{
  static const SolveOptions defaults = { 0 };
  SolveResult result = { 0 };
  Instance *in = instance_new(problem);
  Solver s = { .in = in, .options = options ? options : &defaults, .result = &result };
  s.earliest = in->earliest;
  s.latest = in->latest;
  s.best = mem_array((size_t)in->count, sizeof *s.best);
  s.deadline_s = now_s() + s.options->seconds;
  solve_windows(&s);
  mem_free(s.best);
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
