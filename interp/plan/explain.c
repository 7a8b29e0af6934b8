/* explain.c - why a plan has no schedule.
 *
 * Everything that somebody wrote and that can be in the way is a demand: a window, a time to be done by, hours,
 * closed days, a shift, a count of machines, the people of a skill. Demands are dropped as long as the rest still
 * cannot hold; what is left cannot be made smaller (a deletion filter: J. Chinneck, E. Dravnieks, ORSA J.
 * Computing 3 (1991) 157-168). Halves go first, so that a large job takes few attempts; an attempt that does not
 * prove anything within its share of work keeps what it tried to drop. */
#include <math.h>
#include <string.h>

#include "base/mem.h"
#include "model/date.h"
#include "plan/roster.h"
#include "plan/timetable.h"

enum { WORK_AN_ATTEMPT = 1000000, ATTEMPTS = 300, PLENTY = 100 };

typedef enum {
  DEMAND_WINDOW, DEMAND_JOB_BY, DEMAND_AREA_BY, DEMAND_AREA_HOURS, DEMAND_SITE_HOURS, DEMAND_CLOSED, DEMAND_SHIFT,
  DEMAND_MACHINE, DEMAND_PEOPLE
} DemandKind;

typedef struct {
  DemandKind kind;
  int index;         /* lag, area, shift, machine class; PEOPLE: an activity that asks for the skill */
  bool dropped;
} Wanted;

typedef struct {
  const Plan *plan;
  Arena *arena;
  int days, attempts;
  Wanted *wanted;
  int count;
} Filter;

/* ---- what can be in the way */

static void want(Filter *f, DemandKind kind, int index) { f->wanted[f->count++] = (Wanted){ kind, index, false }; }

static bool is_window(const Lag *lag)
{
  return (lag->kind == LAG_FS_MAX || lag->kind == LAG_SS_MAX) && !span_is_nowhere(lag->at);
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
                         job->machine_count) + 3;
  f->wanted = arena_array(f->arena, most, sizeof *f->wanted);
  for (int i = 0; i < plan->activity_count; i++)
    if (asks_first(plan, i)) want(f, DEMAND_PEOPLE, i);
  for (int i = 0; i < job->machine_count; i++) want(f, DEMAND_MACHINE, i);
  for (int i = 0; i < plan->lag_count; i++)
    if (is_window(&plan->lags[i])) want(f, DEMAND_WINDOW, i);
  for (int i = 0; i < job->area_count; i++) {
    if (job->areas[i].finish_by.given) want(f, DEMAND_AREA_BY, i);
    if (job->areas[i].has_hours) want(f, DEMAND_AREA_HOURS, i);
  }
  if (job->closed_count > 0) want(f, DEMAND_CLOSED, 0);
  if (job->site_hours) want(f, DEMAND_SITE_HOURS, 0);
  for (int i = 0; i < job->shift_count; i++) want(f, DEMAND_SHIFT, i);
  if (job->finish_by.given) want(f, DEMAND_JOB_BY, 0);
}

/* ---- the job without what was dropped */

typedef struct {
  Job job;
  Area *areas;
  Shift *shifts;
  Machine *machines;
  bool *without_lag, *without_skill;
} Rest;

static void *copy(const void *items, int count, size_t each)
{
  void *mine = mem_array((size_t)count + 1, each);
  if (count > 0) memcpy(mine, items, (size_t)count * each);
  return mine;
}

static void drop_people(const Plan *plan, Rest *rest, int activity)
{
  for (int i = 0; i < plan->activity_count; i++)
    if (plan->activities[i].attended && strcmp(plan->activities[i].skill, plan->activities[activity].skill) == 0)
      rest->without_skill[i] = true;
}

static void drop(const Plan *plan, Rest *rest, const Wanted *w)
{
  switch (w->kind) {
  case DEMAND_WINDOW: rest->without_lag[w->index] = true; break;
  case DEMAND_JOB_BY: rest->job.finish_by.given = false; break;
  case DEMAND_AREA_BY: rest->areas[w->index].finish_by.given = false; break;
  case DEMAND_AREA_HOURS: rest->areas[w->index].has_hours = false; break;
  case DEMAND_SITE_HOURS: rest->job.site_hours = NULL; break;
  case DEMAND_CLOSED: rest->job.closed_count = 0; break;
  case DEMAND_SHIFT:
    rest->shifts[w->index].from_min = 0;
    rest->shifts[w->index].until_min = DAY_MIN;
    rest->shifts[w->index].days = (1u << WEEK_DAYS) - 1;
    break;
  case DEMAND_MACHINE: rest->machines[w->index].count = PLENTY; break;
  case DEMAND_PEOPLE: drop_people(plan, rest, w->index); break;
  }
}

static Rest rest_of(const Filter *f)
{
  const Plan *plan = f->plan;
  const Job *job = plan->job;
  Rest rest = { .job = *job };
  rest.job.areas = rest.areas = copy(job->areas, job->area_count, sizeof *job->areas);
  rest.job.shifts = rest.shifts = copy(job->shifts, job->shift_count, sizeof *job->shifts);
  rest.job.machines = rest.machines = copy(job->machines, job->machine_count, sizeof *job->machines);
  rest.without_lag = mem_array((size_t)plan->lag_count + 1, sizeof *rest.without_lag);
  rest.without_skill = mem_array((size_t)plan->activity_count + 1, sizeof *rest.without_skill);
  for (int i = 0; i < f->count; i++)
    if (f->wanted[i].dropped) drop(plan, &rest, &f->wanted[i]);
  return rest;
}

static void rest_free(Rest *rest)
{
  void *blocks[] = { rest->areas, rest->shifts, rest->machines, rest->without_lag, rest->without_skill };
  for (size_t k = 0; k < sizeof blocks / sizeof *blocks; k++) mem_free(blocks[k]);
}

static SolveResult solve_rest(Filter *f)
{
  Rest rest = rest_of(f);
  Plan plan = *f->plan;
  plan.job = &rest.job;
  Timetable t = { .plan = &plan, .job = &rest.job, .without_lag = rest.without_lag,
                  .without_skill = rest.without_skill, .days = f->days, .away_days = f->days };
  Problem *problem = timetable_problem(&t);
  const SolveOptions options = { .work = WORK_AN_ATTEMPT };
  SolveResult result = solve(problem, &options);
  problem_free(problem);
  rest_free(&rest);
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
    SolveResult result = solve_rest(f);
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

/* ---- in words */

static const char *when(const Filter *f, int minute)
{
  int year, month, day, of_day = minute % DAY_MIN;
  date_of_day(f->plan->job->start_day + minute / DAY_MIN, &year, &month, &day);
  return arena_printf(f->arena, "%04d-%02d-%02d %02d:%02d", year, month, day, of_day / 60, of_day % 60);
}

static const char *clock_span(Arena *arena, const Shift *hours)
{
  return arena_printf(arena, "%02d:%02d-%02d:%02d", hours->from_min / 60 % 24, hours->from_min % 60,
                      hours->until_min / 60 % 24, hours->until_min % 60);
}

static DiagLabel label_window(const Filter *f, const Lag *lag)
{
  const Activity *to = &f->plan->activities[lag->to], *from = &f->plan->activities[lag->from];
  const char *text = lag->minutes == 0
    ? arena_printf(f->arena, "%s starts at once when %s ends, and takes %d min", to->id, from->id, to->duration_min)
    : arena_printf(f->arena, "%s must start at most %d min after %s %s", to->id, lag->minutes, from->id,
                   lag->kind == LAG_SS_MAX ? "starts" : "ends");
  return (DiagLabel){ lag->at, text };
}

static DiagLabel label_of(const Filter *f, const Wanted *w)
{
  const Job *job = f->plan->job;
  const Area *area = &job->areas[w->kind == DEMAND_AREA_BY || w->kind == DEMAND_AREA_HOURS ? w->index : 0];
  switch (w->kind) {
  case DEMAND_WINDOW: return label_window(f, &f->plan->lags[w->index]);
  case DEMAND_JOB_BY:
    return (DiagLabel){ job->finish_by.at,
                        arena_printf(f->arena, "the job must be done by %s",
                                     when(f, (int)job->finish_by.figure.value)) };
  case DEMAND_AREA_BY:
    return (DiagLabel){ area->finish_by.at, arena_printf(f->arena, "%s must be done by %s", area->name,
                                                         when(f, (int)area->finish_by.figure.value)) };
  case DEMAND_AREA_HOURS:
    return (DiagLabel){ area->hours.at, arena_printf(f->arena, "%s may be worked on or wet only %s", area->name,
                                                     clock_span(f->arena, &area->hours)) };
  case DEMAND_SITE_HOURS:
    return (DiagLabel){ job->site_hours->at,
                        arena_printf(f->arena, "the site is open only %s", clock_span(f->arena, job->site_hours)) };
  case DEMAND_CLOSED: return (DiagLabel){ job->at, "the site has closed days" };
  case DEMAND_SHIFT:
    return (DiagLabel){ job->shifts[w->index].at,
                        arena_printf(f->arena, "shift %s is %s", job->shifts[w->index].name,
                                     clock_span(f->arena, &job->shifts[w->index])) };
  case DEMAND_MACHINE:
    return (DiagLabel){ job->machines[w->index].at,
                        arena_printf(f->arena, "there are %d of %s", job->machines[w->index].count,
                                     job->machines[w->index].name) };
  case DEMAND_PEOPLE: break;
  }
  const char *skill = f->plan->activities[w->index].skill;
  for (int i = 0; i < job->crew_count; i++)
    if (plan_crew_can(&job->crews[i], skill))
      return (DiagLabel){ job->crews[i].at,
                          arena_printf(f->arena, "at most %d with the skill `%s` are there at once",
                                       roster_people_at_once(job, skill), skill) };
  return (DiagLabel){ job->at, arena_printf(f->arena, "nobody has the skill `%s`", skill) };
}

/* ---- what would free it: each demand alone, where dropping it leaves a schedule */

static const char *freed_words(const Filter *f, const Wanted *w, int makespan)
{
  const Job *job = f->plan->job;
  switch (w->kind) {
  case DEMAND_WINDOW:
    return arena_printf(f->arena, "a longer window for %s", f->plan->activities[f->plan->lags[w->index].to].id);
  case DEMAND_JOB_BY: return arena_printf(f->arena, "a later finish (it can end on %s)", when(f, makespan));
  case DEMAND_AREA_BY: return arena_printf(f->arena, "a later time for %s", job->areas[w->index].name);
  case DEMAND_AREA_HOURS: return arena_printf(f->arena, "longer hours of %s", job->areas[w->index].name);
  case DEMAND_SITE_HOURS: return "longer hours of the site";
  case DEMAND_CLOSED: return "fewer closed days";
  case DEMAND_SHIFT: return arena_printf(f->arena, "a longer shift %s", job->shifts[w->index].name);
  case DEMAND_MACHINE: return arena_printf(f->arena, "more of %s", job->machines[w->index].name);
  case DEMAND_PEOPLE: break;
  }
  return arena_printf(f->arena, "more people with the skill `%s`", f->plan->activities[w->index].skill);
}

static const char *what_frees(Filter *f)
{
  Buf text = { 0 };
  for (int i = 0; i < f->count; i++) {
    if (f->wanted[i].dropped) continue;
    f->wanted[i].dropped = true;
    SolveResult result = solve_rest(f);
    f->wanted[i].dropped = false;
    if (result.schedule)
      buf_printf(&text, "%s%s", text.length ? ", or " : "",
                 freed_words(f, &f->wanted[i], result.schedule->makespan));
    solve_free(&result);
  }
  const char *kept = text.length ? arena_printf(f->arena, "%s would free it", buf_text(&text)) : NULL;
  buf_free(&text);
  return kept;
}

static bool is_said(const Diag *diag, DiagLabel label)
{
  for (int i = 0; i < diag->label_count; i++)
    if (diag->labels[i].at.source == label.at.source && diag->labels[i].at.begin == label.at.begin &&
        strcmp(diag->labels[i].text, label.text) == 0)
      return true;
  return false;
}

static void report(Filter *f, Diags *diags)
{
  const Job *job = f->plan->job;
  Diag diag = { .level = DIAG_ERROR, .code = "no-schedule", .at = job->at };
  int kept = 0;
  bool times_only = true;
  for (int i = 0; i < f->count; i++) {
    const Wanted *w = &f->wanted[i];
    if (w->dropped) continue;
    DiagLabel label = label_of(f, w);
    kept++;
    times_only = times_only && (w->kind == DEMAND_JOB_BY || w->kind == DEMAND_AREA_BY);
    if (diag.label_count < DIAG_LABELS && !is_said(&diag, label)) diag.labels[diag.label_count++] = label;
  }
  if (kept == 1) {
    diag.at = diag.labels[0].at;
    diag.label_count = 0;
  }
  diag.message = "there is no schedule: these cannot all hold";
  if (times_only && kept > 0) {
    diag.code = "late";
    diag.message = "the work takes longer than the time there is, whoever does it";
  }
  if (kept > diag.label_count)
    diag.note = arena_printf(f->arena, "%d more of the kind take part in it", kept - diag.label_count);
  const char *freed = what_frees(f);
  diag.help = freed ? freed : "more than one of them has to give way";
  diags_add(diags, &diag);
}

/* Not proved: what times would do is the most that can be said. */
static void not_found(Filter *f, Diags *diags)
{
  Diag diag = { .level = DIAG_ERROR, .code = "no-schedule", .at = f->plan->job->at };
  diag.message = "no schedule was found within the work allowed";
  for (int i = 0; i < f->count; i++) {
    Wanted *w = &f->wanted[i];
    w->dropped = w->kind == DEMAND_JOB_BY || w->kind == DEMAND_AREA_BY;
    if (w->dropped && diag.label_count < DIAG_LABELS) diag.labels[diag.label_count++] = label_of(f, w);
  }
  SolveResult result = solve_rest(f);
  if (diag.label_count > 0 && result.schedule)
    diag.note = arena_printf(f->arena, "without these times it can end on %s", when(f, result.schedule->makespan));
  diag.help = "allow more work with --effort, move the times, lengthen the shifts, or add people and machines";
  diags_add(diags, &diag);
  solve_free(&result);
}

void timetable_explain(const Plan *plan, const SolveResult *result, int days, Arena *arena, Diags *diags)
{
  Filter f = { .plan = plan, .arena = arena, .days = days };
  list_wanted(&f);
  if (result->status != SOLVE_INFEASIBLE) {
    not_found(&f, diags);
    return;
  }
  filter(&f);
  report(&f, diags);
}
