/* timetable.c - a plan as a scheduling problem, and its solution as bookings of named people and machines. */
#include <math.h>
#include <string.h>

#include "base/mem.h"
#include "plan/naming.h"
#include "plan/problem.h"
#include "plan/roster.h"
#include "plan/solve.h"

enum { SPARE_DAYS = 30, LONGEST_DAYS = 3000 };

typedef struct {
  Plan *plan;
  Arena *arena;
  Diags *diags;
  Problem *problem;
  int days;
  int *machine;      /* resource of each machine class */
  int *area_hours, *floor_hours; /* calendars of each area */
  struct {
    const char *skill;
    int resource;
  } groups[64];
  int group_count;
} Timetable;

static int add_calendar(Timetable *t, Calendar *calendar)
{
  if (calendar == NULL) return PROBLEM_ALWAYS;
  int index = problem_add_calendar(t->problem, calendar->open, calendar->count);
  calendar_free(calendar);
  return index;
}

static int group_of(Timetable *t, const char *skill)
{
  for (int i = 0; i < t->group_count; i++)
    if (strcmp(t->groups[i].skill, skill) == 0) return t->groups[i].resource;
  const Job *job = t->plan->job;
  int shift = plan_shift_for(job, skill);
  int calendar = add_calendar(t, roster_shift(job, shift, t->days));
  int resource = problem_add_group(t->problem, naming_people_with(t->plan, skill), calendar);
  t->groups[t->group_count].skill = skill;
  t->groups[t->group_count++].resource = resource;
  return resource;
}

/* Far enough for all work done by one hand after the other, in the shortest week of any shift. */
static int days_needed(const Plan *plan)
{
  double minutes = 0;
  for (int i = 0; i < plan->activity_count; i++) minutes += plan->activities[i].duration_min;
  int least = DAY_MIN * WEEK_DAYS;
  for (int i = 0; i < plan->job->shift_count; i++) {
    const Shift *s = &plan->job->shifts[i];
    int week = 0;
    for (int d = 0; d < WEEK_DAYS; d++) week += (s->days >> d & 1) * (s->until_min - s->from_min);
    if (week > 0 && week < least) least = week;
  }
  double days = SPARE_DAYS + 2 * WEEK_DAYS * (minutes / least + 1) + plan->job->closed_count;
  return days < LONGEST_DAYS ? (int)days : LONGEST_DAYS;
}

static void add_resources(Timetable *t)
{
  const Job *job = t->plan->job;
  t->machine = arena_array(t->arena, (size_t)job->machine_count + 1, sizeof *t->machine);
  for (int i = 0; i < job->machine_count; i++)
    t->machine[i] = problem_add_resource(t->problem, job->machines[i].count, PROBLEM_ALWAYS);
  t->area_hours = arena_array(t->arena, (size_t)job->area_count + 1, sizeof *t->area_hours);
  t->floor_hours = arena_array(t->arena, (size_t)job->area_count + 1, sizeof *t->floor_hours);
  for (int i = 0; i < job->area_count; i++) {
    t->area_hours[i] = add_calendar(t, roster_area(job, &job->areas[i], t->days));
    t->floor_hours[i] = add_calendar(t, roster_floor(job, &job->areas[i], t->days));
  }
}

static void add_tasks(Timetable *t, bool deadlines)
{
  const Job *job = t->plan->job;
  for (int i = 0; i < t->plan->activity_count; i++) {
    const Activity *a = &t->plan->activities[i];
    int calendar = a->attended ? t->area_hours[a->area] : t->floor_hours[a->area];
    int task = problem_add_task(t->problem, a->duration_min, calendar, a->breakable);
    t->problem->tasks[task].release = job->start_min;
    Maybe area_by = job->areas[a->area].finish_by, by = area_by.given ? area_by : job->finish_by;
    if (deadlines && by.given) t->problem->tasks[task].deadline = (int)by.figure.value;
    if (a->machine >= 0) problem_demand(t->problem, task, t->machine[a->machine], 1);
    if (a->attended && a->duration_min > 0) problem_demand(t->problem, task, group_of(t, a->skill), a->people);
  }
  static const LinkKind kinds[] = { [LAG_FS_MIN] = LINK_FS_MIN, [LAG_FS_MAX] = LINK_FS_MAX, [LAG_SS_MIN] = LINK_SS_MIN,
                                    [LAG_SS_MAX] = LINK_SS_MAX };
  for (int i = 0; i < t->plan->lag_count; i++) {
    const Lag *lag = &t->plan->lags[i];
    problem_link(t->problem, kinds[lag->kind], lag->from, lag->to, lag->minutes);
  }
}

static SolveResult solve_plan(Timetable *t, bool deadlines, int64_t work)
{
  const SolveOptions options = { .work = work };
  t->problem = problem_new(t->days * DAY_MIN);
  t->group_count = 0;
  add_resources(t);
  add_tasks(t, deadlines);
  return solve(t->problem, &options);
}

/* ---- from starts to bookings */


static void take_stretches(Timetable *t, const Schedule *schedule, int i, Booking *b)
{
  b->start = schedule->start[i];
  b->finish = schedule->finish[i];
  Interval *pieces = schedule_pieces(t->problem, schedule, i, &b->stretch_count);
  int count = b->stretch_count ? b->stretch_count : 1;
  b->stretches = arena_array(t->arena, (size_t)count, sizeof *b->stretches);
  b->stretches[0] = (Stretch){ b->start, b->finish, NULL };
  for (int k = 0; k < b->stretch_count; k++) b->stretches[k] = (Stretch){ pieces[k].begin, pieces[k].end, NULL };
  b->stretch_count = count;
  mem_free(pieces);
}

static bool overlap(const Booking *a, const Booking *b)
{
  for (int i = 0; i < a->stretch_count; i++)
    for (int k = 0; k < b->stretch_count; k++)
      if (a->stretches[i].start < b->stretches[k].finish && b->stretches[k].start < a->stretches[i].finish) return true;
  return false;
}

/* Machines of a class are alike: the lowest number that is free. */
static void number_machines(Plan *plan, const int *order)
{
  for (int k = 0; k < plan->activity_count; k++) {
    int i = order[k], class = plan->activities[i].machine;
    plan->bookings[i].unit = -1;
    if (class < 0) continue;
    bool taken = true;
    for (int unit = 0; taken && unit < plan->job->machines[class].count; unit++) {
      taken = false;
      for (int m = 0; m < k && !taken; m++)
        taken = plan->activities[order[m]].machine == class && plan->bookings[order[m]].unit == unit &&
                overlap(&plan->bookings[order[m]], &plan->bookings[i]);
      if (!taken) plan->bookings[i].unit = unit;
    }
  }
}

static int *by_start(Arena *arena, const Plan *plan)
{
  int *order = arena_array(arena, (size_t)plan->activity_count + 1, sizeof *order);
  for (int i = 0; i < plan->activity_count; i++) {
    int k = i;
    for (; k > 0 && plan->bookings[order[k - 1]].start > plan->bookings[i].start; k--) order[k] = order[k - 1];
    order[k] = i;
  }
  return order;
}

static void book(Timetable *t, const Schedule *schedule)
{
  Plan *plan = t->plan;
  plan->bookings = arena_array(t->arena, (size_t)plan->activity_count + 1, sizeof *plan->bookings);
  for (int i = 0; i < plan->activity_count; i++) take_stretches(t, schedule, i, &plan->bookings[i]);
  number_machines(plan, by_start(t->arena, plan));
  naming_people(plan, t->arena);
}

/* ---- what to say when there is none */

static const char *when(Timetable *t, int minute)
{
  return arena_printf(t->arena, "day %d at %02d:%02d", minute / DAY_MIN + 1, minute % DAY_MIN / 60, minute % 60);
}

static void too_late(Timetable *t, const SolveResult *best)
{
  const Job *job = t->plan->job;
  bool certain = best->status == SOLVE_BEST;
  Diag diag = { .level = DIAG_ERROR, .code = "late", .at = job->finish_by.given ? job->finish_by.at : job->at };
  diag.message = certain ? "the job cannot be done by the time it must be" : "no schedule was found that meets the times set";
  if (best->schedule)
    diag.note = arena_printf(t->arena, "without those times it ends on %s", when(t, best->schedule->makespan));
  diag.help = "move the time, lengthen the shifts, or add people and machines";
  for (int i = 0; i < job->area_count && diag.label_count < DIAG_LABELS; i++)
    if (job->areas[i].finish_by.given)
      diag.labels[diag.label_count++] = (DiagLabel){ job->areas[i].finish_by.at, "an area must be done by this time" };
  diags_add(t->diags, &diag);
}

static void contradiction(Timetable *t, const SolveResult *result)
{
  const Plan *plan = t->plan;
  Diag diag = { .level = DIAG_ERROR, .code = "no-schedule", .at = plan->job->at };
  diag.message = result->status == SOLVE_UNKNOWN ? "no schedule was found within the work allowed"
                                                 : "there is no schedule: windows, hours and shifts contradict each other";
  for (int i = 0; i < result->why.link_count && diag.label_count < DIAG_LABELS; i++) {
    const Lag *lag = &plan->lags[result->why.links[i]];
    if (span_is_nowhere(lag->at)) continue;
    diag.labels[diag.label_count++] = (DiagLabel){
      lag->at, arena_printf(t->arena, "%s must start at most %d min after %s", plan->activities[lag->to].id, lag->minutes,
                            plan->activities[lag->from].id) };
  }
  for (int i = 0; i < result->why.task_count && diag.label_count < DIAG_LABELS; i++) {
    const Activity *a = &plan->activities[result->why.tasks[i]];
    diag.labels[diag.label_count++] = (DiagLabel){ a->at, arena_printf(t->arena, "%s takes part in it", a->id) };
  }
  diag.help = "widen a window, lengthen a shift or the area's hours, or make the area smaller";
  diags_add(t->diags, &diag);
}

static void none(Timetable *t, const SolveResult *result)
{
  t->plan->status = result->status == SOLVE_INFEASIBLE ? PLAN_INFEASIBLE : PLAN_UNKNOWN;
  bool has_deadline = t->plan->job->finish_by.given;
  for (int i = 0; i < t->plan->job->area_count; i++) has_deadline = has_deadline || t->plan->job->areas[i].finish_by.given;
  if (!has_deadline) {
    contradiction(t, result);
    return;
  }
  problem_free(t->problem);
  SolveResult without = solve_plan(t, false, 0);
  if (without.schedule) too_late(t, &without);
  else contradiction(t, &without);
  solve_free(&without);
}

void plan_schedule(Plan *plan, int64_t work, Arena *arena, Diags *diags)
{
  Timetable t = { .plan = plan, .arena = arena, .diags = diags };
  if (plan->person_count > NAMING_MOST) {
    diags_error(diags, "people", plan->job->at, "a job may have at most %d people, this one has %d", NAMING_MOST,
                plan->person_count);
    return;
  }
  t.days = days_needed(plan);
  SolveResult result = solve_plan(&t, true, work);
  if (work > 0 && result.status == SOLVE_UNKNOWN) {
    problem_free(t.problem);
    solve_free(&result);
    result = solve_plan(&t, true, 0);
  }
  if (result.schedule) {
    plan->status = result.status == SOLVE_BEST ? PLAN_PROVED_BEST : PLAN_FEASIBLE;
    plan->finish = result.schedule->makespan;
    plan->lower_bound = result.lower_bound;
    book(&t, result.schedule);
  } else {
    none(&t, &result);
  }
  solve_free(&result);
  problem_free(t.problem);
}
