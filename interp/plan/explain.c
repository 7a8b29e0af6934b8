/* explain.c - why a plan has no schedule.
 *
 * Everything that somebody wrote and that can be in the way is a demand: a window, a time to be done by, hours,
 * closed days, a shift, a count of machines, the people of a skill. Demands are dropped as long as the rest still
 * cannot hold; what is left cannot be made smaller (a deletion filter: J. Chinneck, E. Dravnieks, ORSA J.
 * Computing 3 (1991) 157-168). Halves go first, so that a large job takes few attempts; an attempt that does not
 * prove anything within its share of work keeps what it tried to drop. */
#include "plan/explain.h"

#include <string.h>

#include "base/mem.h"

enum { WORK_AN_ATTEMPT = 1000000, ATTEMPTS = 300, PLENTY = 100 };

/* ---- what can be in the way */

static void want(Filter *f, DemandKind kind, int index) { f->wanted[f->count++] = (Wanted){ kind, index, false }; }

static bool is_window(const Lag *lag)
{
  return (lag->kind == LAG_FS_MAX || lag->kind == LAG_SS_MAX) && !span_is_nowhere(lag->at);
}

const char *explain_skill(const Plan *plan, const Wanted *wanted) { return plan->activities[wanted->index].skill; }

static bool asks_for(const Activity *a, const char *skill)
{
  bool follows = a->along.people > 0 && strcmp(a->along.skill, skill) == 0;
  return a->attended && (strcmp(a->skill, skill) == 0 || follows);
}

static bool asks_first(const Plan *plan, int activity)
{
  const Activity *a = &plan->activities[activity];
  if (!a->attended) return false;
  for (int i = 0; i < activity; i++)
    if (plan->activities[i].attended && strcmp(plan->activities[i].skill, a->skill) == 0) return false;
  return true;
}

static void list_wanted(Filter *f)
{
  const Plan *plan = f->plan;
  const Job *job = plan->job;
  size_t most = (size_t)(plan->lag_count + plan->activity_count + 2 * job->area_count + job->shift_count +
                         job->crew_count + 3 * job->machine_count) + 4;
  f->wanted = arena_array(f->arena, most, sizeof *f->wanted);
  for (int i = 0; i < plan->activity_count; i++)
    if (asks_first(plan, i)) want(f, DEMAND_PEOPLE, i);
  for (int i = 0; i < job->machine_count; i++) want(f, DEMAND_MACHINE, i);
  if (job->supply_count > 0) want(f, DEMAND_CIRCUITS, 0);
  for (int i = 0; i < plan->lag_count; i++)
    if (is_window(&plan->lags[i])) want(f, DEMAND_WINDOW, i);
  for (int i = 0; i < job->area_count; i++) {
    if (job->areas[i].finish_by.given) want(f, DEMAND_AREA_BY, i);
    if (job->areas[i].has_hours) want(f, DEMAND_AREA_HOURS, i);
  }
  for (int i = 0; i < job->machine_count; i++) {
    if (job->machines[i].away.count > 0) want(f, DEMAND_MACHINE_AWAY, i);
    if (job->machines[i].has_hours) want(f, DEMAND_MACHINE_HOURS, i);
  }
  for (int i = 0; i < job->crew_count; i++)
    if (job->crews[i].away.count > 0) want(f, DEMAND_AWAY, i);
  if (job->closed.count > 0) want(f, DEMAND_CLOSED, 0);
  if (job->site_hours) want(f, DEMAND_SITE_HOURS, 0);
  for (int i = 0; i < job->shift_count; i++) want(f, DEMAND_SHIFT, i);
  if (job->finish_by.given) want(f, DEMAND_JOB_BY, 0);
}

/* ---- the job without what was dropped */

typedef struct {
  Job job;
  Area *areas;
  Shift *shifts;
  Crew *crews;
  Machine *machines;
  Supply *supplies;
  Shift site_hours;
  Person *persons;
  int person_count;
  bool *without_lag, *without_skill;
} Rest;

static void *copy(const void *items, int count, size_t each)
{
  void *mine = mem_array((size_t)count + 1, each);
  if (count > 0) memcpy(mine, items, (size_t)count * each);
  return mine;
}

static void drop_people(const Plan *plan, Rest *rest, const Wanted *w)
{
  for (int i = 0; i < plan->activity_count; i++)
    if (asks_for(&plan->activities[i], explain_skill(plan, w))) rest->without_skill[i] = true;
}

static void drop(const Plan *plan, Rest *rest, const Wanted *w)
{
  static const Days none = { 0 };
  switch (w->kind) {
  case DEMAND_WINDOW: rest->without_lag[w->index] = true; break;
  case DEMAND_JOB_BY: rest->job.finish_by.given = false; break;
  case DEMAND_AREA_BY: rest->areas[w->index].finish_by.given = false; break;
  case DEMAND_AREA_HOURS: rest->areas[w->index].has_hours = false; break;
  case DEMAND_SITE_HOURS: rest->job.site_hours = NULL; break;
  case DEMAND_CLOSED: rest->job.closed = none; break;
  case DEMAND_SHIFT:
    rest->shifts[w->index].from_min = 0;
    rest->shifts[w->index].until_min = DAY_MIN;
    rest->shifts[w->index].days = (1u << WEEK_DAYS) - 1;
    break;
  case DEMAND_AWAY: rest->crews[w->index].away = none; break;
  case DEMAND_MACHINE_HOURS: rest->machines[w->index].has_hours = false; break;
  case DEMAND_MACHINE_AWAY: rest->machines[w->index].away = none; break;
  case DEMAND_MACHINE: rest->machines[w->index].count = PLENTY; break;
  case DEMAND_CIRCUITS: rest->job.supply_count = 0; break;
  case DEMAND_PEOPLE: drop_people(plan, rest, w); break;
  }
}

void explain_lengthen(Shift *hours, int way)
{
  if (way <= EXPLAIN_MORE) hours->until_min += way * 60;
  else hours->from_min -= (way - EXPLAIN_MORE) * 60;
  if (hours->from_min < 0) hours->from_min = 0;
  if (hours->until_min > hours->from_min + DAY_MIN) hours->until_min = hours->from_min + DAY_MIN;
}

static void take_out(Days *days, int number)
{
  int *kept = mem_array((size_t)days->count, sizeof *kept);
  for (int i = 0, k = 0; i < days->count; i++)
    if (i != number) kept[k++] = days->days[i];
  days->days = kept;
  days->count--;
}

static void add_people(const Plan *plan, Rest *rest, const Wanted *w, int amount)
{
  for (int i = 0; i < rest->job.crew_count; i++)
    if (plan_crew_can(&rest->crews[i], explain_skill(plan, w))) {
      rest->crews[i].count += amount;
      for (int k = 0; k < amount; k++) rest->persons[rest->person_count++] = (Person){ "", i };
      return;
    }
}

/* Days that were taken out are freed with the rest. */
static int *ease(const Plan *plan, Rest *rest, Easing easing)
{
  const Wanted *w = easing.wanted;
  Days *days = NULL;
  switch (w->kind) {
  case DEMAND_MACHINE: rest->machines[w->index].count += easing.amount; break;
  case DEMAND_PEOPLE: add_people(plan, rest, w, easing.amount); break;
  case DEMAND_SHIFT: explain_lengthen(&rest->shifts[w->index], easing.amount); break;
  case DEMAND_AREA_HOURS: explain_lengthen(&rest->areas[w->index].hours, easing.amount); break;
  case DEMAND_MACHINE_HOURS: explain_lengthen(&rest->machines[w->index].hours, easing.amount); break;
  case DEMAND_SITE_HOURS: explain_lengthen(&rest->site_hours, easing.amount); break;
  case DEMAND_CIRCUITS: rest->supplies[rest->job.supply_count++] = rest->supplies[easing.amount]; break;
  case DEMAND_CLOSED: take_out(days = &rest->job.closed, easing.amount); break;
  case DEMAND_AWAY: take_out(days = &rest->crews[w->index].away, easing.amount); break;
  case DEMAND_MACHINE_AWAY: take_out(days = &rest->machines[w->index].away, easing.amount); break;
  default: break;
  }
  return days ? days->days : NULL;
}

static void begin_rest(const Filter *f, Rest *rest)
{
  const Plan *plan = f->plan;
  const Job *job = plan->job;
  *rest = (Rest){ .job = *job, .person_count = plan->person_count };
  rest->job.areas = rest->areas = copy(job->areas, job->area_count, sizeof *job->areas);
  rest->job.shifts = rest->shifts = copy(job->shifts, job->shift_count, sizeof *job->shifts);
  rest->job.crews = rest->crews = copy(job->crews, job->crew_count, sizeof *job->crews);
  rest->job.machines = rest->machines = copy(job->machines, job->machine_count, sizeof *job->machines);
  rest->job.supplies = rest->supplies = copy(job->supplies, job->supply_count, sizeof *job->supplies);
  rest->persons = mem_array((size_t)plan->person_count + EXPLAIN_MORE, sizeof *plan->persons);
  memcpy(rest->persons, plan->persons, (size_t)plan->person_count * sizeof *plan->persons);
  if (job->site_hours) {
    rest->site_hours = *job->site_hours;
    rest->job.site_hours = &rest->site_hours;
  }
  rest->without_lag = mem_array((size_t)plan->lag_count + 1, sizeof *rest->without_lag);
  rest->without_skill = mem_array((size_t)plan->activity_count + 1, sizeof *rest->without_skill);
  for (int i = 0; i < f->count; i++)
    if (f->wanted[i].dropped) drop(plan, rest, &f->wanted[i]);
}

static void end_rest(Rest *rest)
{
  void *blocks[] = { rest->areas, rest->shifts, rest->crews, rest->machines, rest->supplies, rest->persons,
                     rest->without_lag, rest->without_skill };
  for (size_t k = 0; k < sizeof blocks / sizeof *blocks; k++) mem_free(blocks[k]);
}

SolveResult explain_solve(Filter *f, Easing easing)
{
  Rest rest;
  begin_rest(f, &rest);
  int *days = easing.wanted ? ease(f->plan, &rest, easing) : NULL;
  Plan plan = *f->plan;
  plan.job = &rest.job;
  plan.persons = rest.persons;
  plan.person_count = rest.person_count;
  Timetable t = { .plan = &plan, .job = &rest.job, .without_lag = rest.without_lag,
                  .without_skill = rest.without_skill, .days = f->days, .away_days = f->days };
  Problem *problem = timetable_problem(&t);
  const SolveOptions options = { .work = WORK_AN_ATTEMPT };
  SolveResult result = solve(problem, &options);
  problem_free(problem);
  mem_free(days);
  end_rest(&rest);
  f->attempts++;
  return result;
}

/* ---- the filter */

static void drop_range(Filter *f, int from, int until)
{
  int fresh = 0;
  bool *before = mem_array((size_t)f->count + 1, sizeof *before);
  for (int i = from; i < until; i++) {
    before[i] = f->wanted[i].dropped;
    fresh += !before[i];
    f->wanted[i].dropped = true;
  }
  bool holds = true;
  if (fresh > 0 && f->attempts < ATTEMPTS) {
    SolveResult result = explain_solve(f, (Easing){ NULL, 0 });
    holds = result.status != SOLVE_INFEASIBLE;
    solve_free(&result);
  }
  for (int i = from; i < until && holds; i++) f->wanted[i].dropped = before[i];
  mem_free(before);
}

static void filter(Filter *f)
{
  for (int size = (f->count + 1) / 2;; size = (size + 1) / 2) {
    for (int from = 0; from < f->count; from += size)
      drop_range(f, from, from + size < f->count ? from + size : f->count);
    if (size == 1) break;
  }
}

void timetable_explain(const Plan *plan, const SolveResult *result, int days, Arena *arena, Diags *diags)
{
  Filter f = { .plan = plan, .arena = arena, .days = days };
  list_wanted(&f);
  if (result->status != SOLVE_INFEASIBLE) {
    explain_not_found(&f, diags);
    return;
  }
  filter(&f);
  explain_report(&f, diags);
}
