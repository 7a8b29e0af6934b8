#include "plan/portfolio.h"

#include <string.h>
#include <time.h>

#include "base/mem.h"
#include "plan/bounds.h"
#include "plan/cp.h"
#include "plan/genetic.h"
#include "plan/lns.h"
#include "plan/passes.h"
#include "plan/priorities.h"
#include "plan/serial.h"

enum {
  FIRST_SLICE = 100000,    /* of work; slices double up to the last */
  LAST_SLICE = 4000000,
  CHILD_WORK = 16,         /* of one child in the genetic algorithm, a task */
  CHILDREN_A_MEMBER = 150,
  WORK_A_SECOND = 100000000,
  CHILDREN_AT_ONCE = 100,  /* between two looks at the clock */
  SERIAL_RESTARTS = 4,     /* a task */
  LEAP_CONFLICTS = 400,    /* for an aim more than one below the best */
  NEAR = 2                 /* a gap that is worth a proof, in per cent */
};

typedef enum { WAY_GENETIC, WAY_LNS, WAY_BELOW, WAY_BOUND, WAYS } Way;

typedef struct {
  int share; /* 0: not for this problem */
  int64_t used, slice;
} Turn;

typedef struct {
  const Instance *in;
  const SolveOptions *options;
  SolveResult *result;
  int *best, *trial, *priority; /* starts of the best schedule; room for others */
  bool found, closed;           /* closed: nothing better can be found */
  int lower_bound;
  BoundKind bound;
  Passes *passes;   /* NULL where they do not apply */
  Genetic *genetic;
  Serial *serial;
  Cp *cp;
  Lns lns;
  int below_step, bound_step; /* how far to aim below the best, above the bound */
  Turn turns[WAYS];
  int64_t work;
  double end_s;
} Portfolio;

/* ---- limits */

static double now_s(const Portfolio *p)
{
  struct timespec t;
  clock_gettime(p->options->cpu ? CLOCK_THREAD_CPUTIME_ID : CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static bool is_over(void *context)
{
  const Portfolio *p = context;
  if (p->options->seconds > 0) return now_s(p) >= p->end_s;
  int64_t most = p->options->work > 0 ? p->options->work : SOLVE_DEFAULT_WORK;
  return p->work >= most;
}

static bool must_stop(void *context)
{
  Portfolio *p = context;
  return p->options->seconds > 0 && now_s(p) >= p->end_s;
}

static CpLimit limit_of(Portfolio *p, int64_t work)
{
  return (CpLimit){ .work = work, .conflicts = INT64_MAX / 2, .stop = must_stop, .context = p };
}

/* ---- what is known */

static void raise_bound(Portfolio *p, int bound, BoundKind kind)
{
  if (bound > p->lower_bound) {
    p->lower_bound = bound;
    p->bound = kind;
  }
  if (p->found && p->best[p->in->end] <= p->lower_bound) p->closed = true;
}

/* Takes a schedule if it is the best so far. */
static bool offer(Portfolio *p, const int *start)
{
  int end = p->in->end;
  if (p->found && start[end] >= p->best[end]) return false;
  memmove(p->best, start, (size_t)p->in->count * sizeof *start);
  p->found = true;
  raise_bound(p, p->lower_bound, p->bound);
  return true;
}

/* Starts again from the order of a found schedule: what the search left loose moves up. */
static void offer_tightened(Portfolio *p, const int *start)
{
  memmove(p->trial, start, (size_t)p->in->count * sizeof *start);
  offer(p, p->trial);
  genetic_add(p->genetic, p->trial);
  genetic_best(p->genetic, p->trial);
  offer(p, p->trial);
}

/* Nothing at or below `makespan` exists. */
static void refuted(Portfolio *p, int makespan)
{
  raise_bound(p, makespan + 1, BOUND_SEARCH);
  if (!cp_at_least(p->cp, p->in->end, makespan + 1)) p->closed = true;
}

/* The search looks for better schedules only. */
static void aim_below_best(Portfolio *p)
{
  if (!p->found || p->closed) return;
  if (!cp_at_most(p->cp, p->in->end, p->best[p->in->end] - 1)) raise_bound(p, p->best[p->in->end], BOUND_SEARCH);
  else raise_bound(p, cp_earliest(p->cp, p->in->end), BOUND_SEARCH);
  cp_prefer(p->cp, p->best);
}

/* ---- the ways */

static int64_t schedule_work(const Portfolio *p)
{
  return serial_work(p->serial) + (p->passes ? passes_work(p->passes) : 0);
}

static void run_genetic(Portfolio *p, int64_t work)
{
  int64_t begin = schedule_work(p);
  while (!p->closed && !must_stop(p) && schedule_work(p) - begin < work) {
    genetic_run(p->genetic, p->passes ? CHILDREN_AT_ONCE : 1, p->lower_bound);
    if (genetic_best(p->genetic, p->trial) < CALENDAR_NEVER) offer(p, p->trial);
  }
  p->turns[WAY_GENETIC].used += schedule_work(p) - begin;
}

static void run_lns(Portfolio *p, int64_t work)
{
  int64_t begin = cp_work(p->cp);
  while (!p->closed && !must_stop(p) && cp_work(p->cp) - begin < work) {
    aim_below_best(p);
    memcpy(p->trial, p->best, (size_t)p->in->count * sizeof *p->trial);
    if (!p->closed && lns_try(&p->lns, p->trial, limit_of(p, work))) offer_tightened(p, p->trial);
  }
  p->turns[WAY_LNS].used += cp_work(p->cp) - begin;
}

/* Looks for a schedule that ends by `makespan`. */
static CpStatus search_by(Portfolio *p, int makespan, CpLimit limit)
{
  CpAssumption by = { p->in->end, p->lower_bound, makespan };
  CpStatus status = cp_search(p->cp, &by, 1, limit, p->trial);
  if (status == CP_FOUND) offer_tightened(p, p->trial);
  if (status == CP_REFUTED) refuted(p, makespan);
  return status;
}

static void run_any(Portfolio *p, int64_t work)
{
  CpStatus status = cp_search(p->cp, NULL, 0, limit_of(p, work), p->trial);
  if (status == CP_FOUND) offer_tightened(p, p->trial);
  if (status == CP_REFUTED) p->closed = true;
}

/* From the best schedule down. */
static void run_below(Portfolio *p, int64_t work)
{
  int64_t begin = cp_work(p->cp), end_work = begin + work;
  while (!p->closed && !must_stop(p) && cp_work(p->cp) < end_work) {
    aim_below_best(p);
    if (p->closed) break;
    if (!p->found) {
      run_any(p, end_work - cp_work(p->cp));
      continue;
    }
    int aim = p->best[p->in->end] - p->below_step;
    CpLimit limit = limit_of(p, end_work - cp_work(p->cp));
    if (p->below_step > 1) limit.conflicts = LEAP_CONFLICTS;
    CpStatus status = search_by(p, aim > p->lower_bound ? aim : p->lower_bound, limit);
    if (status == CP_FOUND) p->below_step *= 2;
    else if (p->below_step > 1) p->below_step /= 2;
  }
  p->turns[WAY_BELOW].used += cp_work(p->cp) - begin;
}

/* From the lower bound up. */
static void run_bound(Portfolio *p, int64_t work)
{
  int64_t begin = cp_work(p->cp), end_work = begin + work;
  while (!p->closed && !must_stop(p) && cp_work(p->cp) < end_work) {
    aim_below_best(p);
    if (p->closed) break;
    int aim = p->lower_bound + p->bound_step - 1, most = p->best[p->in->end] - 1;
    CpStatus status = search_by(p, aim < most ? aim : most, limit_of(p, end_work - cp_work(p->cp)));
    if (status == CP_REFUTED) p->bound_step *= 2;
    else if (p->bound_step > 1) p->bound_step /= 2;
  }
  p->turns[WAY_BOUND].used += cp_work(p->cp) - begin;
}

/* ---- turns */

static void run_way(Portfolio *p, Way way, int64_t work)
{
  static void (*const ways[WAYS])(Portfolio *, int64_t) = { run_genetic, run_lns, run_below, run_bound };
  int64_t before = p->turns[way].used;
  ways[way](p, work);
  p->work += p->turns[way].used - before + 1;
}

static void share_out(Portfolio *p)
{
  Turn *turns = p->turns;
  for (int w = 0; w < WAYS; w++) turns[w].share = 0;
  turns[WAY_BELOW].share = 30;
  if (!p->found) return;
  int gap = p->best[p->in->end] - p->lower_bound;
  bool near = (int64_t)gap * 100 <= (int64_t)NEAR * p->best[p->in->end] || gap <= 2;
  static const int shares[][WAYS] = {
    /* genetic, neighbourhoods, below the best, above the bound */
    { 80, 0, 5, 10 },   /* fast passes, far from proved */
    { 60, 10, 30, 30 }, /* fast passes, near */
    { 10, 40, 30, 20 }, /* calendars or maximum lags */
  };
  for (int w = 0; w < WAYS; w++) turns[w].share = shares[p->passes == NULL ? 2 : near][w];
}

/* The way that has used least of its share. */
static Way next_way(const Portfolio *p)
{
  Way next = WAYS;
  for (int w = 0; w < WAYS; w++) {
    const Turn *t = &p->turns[w];
    if (t->share == 0) continue;
    if (next == WAYS || t->used * p->turns[next].share < p->turns[next].used * t->share) next = (Way)w;
  }
  return next;
}

static bool report(Portfolio *p)
{
  if (p->options->progress == NULL) return true;
  SolveProgress progress = { p->found ? p->best[p->in->end] : -1, p->lower_bound, p->work };
  return p->options->progress(p->options->context, &progress);
}

static void take_turns(Portfolio *p)
{
  while (!p->closed && !is_over(p) && report(p)) {
    share_out(p);
    Way way = next_way(p);
    Turn *turn = &p->turns[way];
    if (turn->slice == 0) turn->slice = FIRST_SLICE;
    run_way(p, way, turn->slice);
    if (turn->slice < LAST_SLICE) turn->slice *= 2;
  }
}

/* ---- beginning and end */

/* As many as have time to mix: too many do not come together, too few agree too soon. */
static int population_for(const Portfolio *p)
{
  int64_t work = p->options->work > 0 ? p->options->work : SOLVE_DEFAULT_WORK;
  if (p->options->seconds > 0) work = (int64_t)(p->options->seconds * WORK_A_SECOND);
  int64_t population = work / 2 / ((int64_t)CHILD_WORK * p->in->count) / CHILDREN_A_MEMBER;
  return population < 30 ? 30 : population > 2000 ? 2000 : (int)population;
}


static void find_first(Portfolio *p)
{
  const Instance *in = p->in;
  p->genetic = genetic_new(in, p->passes, p->serial, population_for(p), p->options->seed);
  if (p->passes != NULL) {
    run_genetic(p, FIRST_SLICE);
    return;
  }
  for (int rule = 0; rule < PRIORITIES_RULES; rule++) {
    priorities_by_rule(in, rule, p->priority);
    if (serial_run(p->serial, p->priority, SERIAL_RESTARTS * in->count, p->trial)) offer(p, p->trial);
  }
  if (p->found) genetic_add(p->genetic, p->best);
  p->work += serial_work(p->serial);
}

/* The search's windows end with the best schedule known so far. */
static void begin_search(Portfolio *p)
{
  const Instance *in = p->in;
  size_t bytes = (size_t)in->count * sizeof(int);
  memcpy(p->trial, in->earliest, bytes);
  memcpy(p->priority, in->latest, bytes);
  if (p->found) p->priority[in->end] = p->best[in->end];
  if (!temporal_tighten(in, p->trial, p->priority, NULL)) p->closed = true;
  else p->cp = cp_new(in, p->trial, p->priority);
}

static void write_result(const Portfolio *p)
{
  SolveResult *r = p->result;
  r->work = p->work;
  r->lower_bound = p->lower_bound;
  r->bound = p->bound;
  r->status = p->closed ? SOLVE_INFEASIBLE : SOLVE_UNKNOWN;
  if (!p->found) return;
  r->status = p->closed ? SOLVE_BEST : SOLVE_FEASIBLE;
  r->schedule = instance_schedule(p->in, p->best);
}

void portfolio_run(const Instance *in, const SolveOptions *options, SolveResult *result)
{
  Portfolio p = { .in = in, .options = options, .result = result, .below_step = 1, .bound_step = 1 };
  size_t n = (size_t)in->count;
  p.end_s = now_s(&p) + options->seconds;
  p.best = mem_array(n, sizeof *p.best);
  p.trial = mem_array(n, sizeof *p.trial);
  p.priority = mem_array(n, sizeof *p.priority);
  p.serial = serial_new(in, in->earliest, in->latest);
  p.passes = passes_new(in);
  raise_bound(&p, in->earliest[in->end], BOUND_LAGS);
  raise_bound(&p, bounds_energy(in, in->earliest), BOUND_ENERGY);
  find_first(&p);
  if (!p.closed) begin_search(&p);
  if (p.cp != NULL) {
    p.lns = lns_new(in, p.cp, options->seed);
    if (p.found) p.below_step = 1 + (p.best[in->end] - p.lower_bound) / 8;
    take_turns(&p);
    lns_free(&p.lns);
  }
  write_result(&p);
  cp_free(p.cp);
  genetic_free(p.genetic);
  passes_free(p.passes);
  serial_free(p.serial);
  mem_free(p.best);
  mem_free(p.trial);
  mem_free(p.priority);
}
