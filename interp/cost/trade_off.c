#include "cost/trade_off.h"

#include <stdlib.h>
#include <string.h>

enum { JOBS_MOST = 60, ACTIVITIES_MOST = 20000, WORK_A_JOB = 5000000 };

typedef struct {
  const Plan *plan;
  Arena *arena;
  WhyBook *why;
  bool (*go_on)(void *context);
  void *context;
  TradeRow rows[JOBS_MOST + 1];
  int count, tried;
  bool priced;
} Search;

static int *copied(Arena *arena, const int *values, int count)
{
  int *mine = arena_array(arena, (size_t)count + 1, sizeof *mine);
  if (count > 0) memcpy(mine, values, (size_t)count * sizeof *mine);
  return mine;
}

static TradeRow row_of(const Search *s, const Plan *plan, const int *crews, const int *machines)
{
  Diags *diags = diags_new();
  Takeoff *takeoff = takeoff_count(plan, s->arena, s->why);
  Cost *cost = plan->job->prices ? cost_direct(takeoff, s->arena, s->why, diags) : NULL;
  TradeRow row = { .finish = plan->finish, .crews = copied(s->arena, crews, plan->job->crew_count),
                   .machines = copied(s->arena, machines, plan->job->machine_count) };
  for (int i = 0; i < plan->job->crew_count; i++) row.heads += crews[i];
  for (int i = 0; i < plan->job->machine_count; i++) row.heads += machines[i];
  for (int i = 0; i < takeoff->labour_count; i++)
    row.people_h += takeoff->labour[i].hours.value + takeoff->labour[i].standing_h.value;
  for (int i = 0; i < takeoff->machine_count; i++) row.machine_days += takeoff->machines[i].days.value;
  if (cost && cost->complete) row.direct = cost->direct;
  diags_free(diags);
  return row;
}

/* A class of which none is left does nothing. */
static Job *smaller_job(const Search *s, const int *crews, const int *machines)
{
  const Job *whole = s->plan->job;
  Job *job = arena_alloc(s->arena, sizeof *job);
  *job = *whole;
  job->crews = arena_array(s->arena, (size_t)job->crew_count + 1, sizeof *job->crews);
  job->machines = arena_array(s->arena, (size_t)job->machine_count + 1, sizeof *job->machines);
  for (int i = 0; i < job->crew_count; i++) {
    job->crews[i] = whole->crews[i];
    job->crews[i].count = crews[i];
  }
  for (int i = 0; i < job->machine_count; i++) {
    job->machines[i] = whole->machines[i];
    job->machines[i].count = machines[i] > 0 ? machines[i] : 1;
    if (machines[i] == 0) job->machines[i].does = job->machines[i].edger = 0;
  }
  return job;
}

/* False: it cannot be done so, or not in the times that must be met. */
static bool try_job(Search *s, const int *crews, const int *machines, TradeRow *row)
{
  const PlanSearch little = { .work = WORK_A_JOB, .only_try = true };
  Diags *diags = diags_new();
  Plan *plan = plan_expand(smaller_job(s, crews, machines), s->arena, s->why, diags);
  bool done = diags_errors(diags) == 0;
  if (done) {
    s->tried++;
    plan_schedule(plan, &little, s->arena, diags);
    done = plan->bookings != NULL;
  }
  if (done) *row = row_of(s, plan, crews, machines);
  diags_free(diags);
  return done;
}

/* Below 0: a costs less. Of two that cost the same the one with fewer people and machines does. */
static int compare_costs(const TradeRow *a, const TradeRow *b)
{
  if (a->direct != b->direct) return a->direct < b->direct ? -1 : 1;
  if (a->people_h != b->people_h) return a->people_h < b->people_h ? -1 : 1;
  if (a->machine_days != b->machine_days) return a->machine_days < b->machine_days ? -1 : 1;
  return a->heads - b->heads;
}

/* The last machine of a class stays unless another class can do all that it does: hand work without one would look
 * cheaper than it is. */
static bool can_spare(const Job *job, const int *machines, int k)
{
  const Machine *m = &job->machines[k];
  for (int i = 0; i < job->machine_count && machines[k] == 1; i++) {
    const Machine *other = &job->machines[i];
    bool can_all = (m->does & ~other->does) == 0 && other->edger >= m->edger && other->wet >= m->wet;
    if (i != k && machines[i] > 0 && can_all) return true;
  }
  return machines[k] > 1;
}

/* All ways to take one away; the cheapest that is early enough into *best. */
static bool step_down(Search *s, const TradeRow *from, int latest, TradeRow *best)
{
  const Job *job = s->plan->job;
  bool found = false;
  for (int k = 0; k < job->crew_count + job->machine_count; k++) {
    int *crews = copied(s->arena, from->crews, job->crew_count);
    int *machines = copied(s->arena, from->machines, job->machine_count);
    int *one = k < job->crew_count ? &crews[k] : &machines[k - job->crew_count];
    TradeRow row;
    bool spare = k < job->crew_count ? *one > 0 : can_spare(job, machines, k - job->crew_count);
    if (!spare || s->count == JOBS_MOST || (s->go_on && !s->go_on(s->context))) continue;
    --*one;
    if (!try_job(s, crews, machines, &row) || row.finish > latest) continue;
    if (s->priced && row.direct == 0) continue;
    s->rows[s->count++] = row;
    if (!found || compare_costs(&row, best) < 0) *best = row;
    found = true;
  }
  return found;
}

static int compare_rows(const void *left, const void *right)
{
  const TradeRow *a = left, *b = right;
  if (a->finish != b->finish) return a->finish < b->finish ? -1 : 1;
  return compare_costs(a, b);
}

/* Keeps the rows that no earlier one is as cheap as. */
static TradeOff front(Search *s)
{
  TradeOff t = { .priced = s->priced, .tried = s->tried };
  t.rows = arena_array(s->arena, (size_t)s->count, sizeof *t.rows);
  qsort(s->rows, (size_t)s->count, sizeof *s->rows, compare_rows);
  for (int i = 0; i < s->count; i++)
    if (t.count == 0 || compare_costs(&s->rows[i], &t.rows[t.count - 1]) < 0) t.rows[t.count++] = s->rows[i];
  return t;
}

static bool within_reach(const Search *s)
{
  return s->count < JOBS_MOST && (s->tried + 1) * (long long)s->plan->activity_count <= ACTIVITIES_MOST;
}

TradeOff trade_off(const Plan *plan, Arena *arena, WhyBook *why, bool (*go_on)(void *context), void *context)
{
  const Job *job = plan->job;
  Search s = { .plan = plan, .arena = arena, .why = why, .go_on = go_on, .context = context };
  int *crews = arena_array(arena, (size_t)job->crew_count + 1, sizeof *crews);
  int *machines = arena_array(arena, (size_t)job->machine_count + 1, sizeof *machines);
  for (int i = 0; i < job->crew_count; i++) crews[i] = job->crews[i].count;
  for (int i = 0; i < job->machine_count; i++) machines[i] = job->machines[i].count;
  TradeRow now = row_of(&s, plan, crews, machines);
  s.priced = now.direct != 0;
  s.rows[s.count++] = now;
  int latest = plan->finish + (plan->finish - job->start_min) / 2;
  while (within_reach(&s) && step_down(&s, &now, latest, &now)) continue;
  return front(&s);
}
