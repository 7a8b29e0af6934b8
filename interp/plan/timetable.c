#include "plan/timetable.h"

#include <string.h>

#include "base/mem.h"
#include "plan/naming.h"
#include "plan/roster.h"

enum { SPARE_DAYS = 30, LONGEST_DAYS = 3000 };

/* People of one skill, in whatever shifts. */
typedef struct {
  const char *skill;
  int resource;
  bool mixed; /* not all in the same shift */
} Group;

/* When enough people of a skill may work in areas of the same hours. */
typedef struct {
  int area_hours, people, calendar;
  const char *skill;
} Joint;

typedef struct {
  const Timetable *t;
  Problem *problem;
  int *machine;                  /* resource of each machine class */
  int *area_hours, *floor_hours; /* calendars of each area */
  Group *groups;
  int group_count;
  Joint *joints;
  int joint_count;
} Build;

int timetable_days(const Plan *plan, const Job *job)
{
  double minutes = 0;
  for (int i = 0; i < plan->activity_count; i++) minutes += plan->activities[i].duration_min;
  int least = DAY_MIN * WEEK_DAYS;
  for (int i = 0; i < job->shift_count; i++) {
    const Shift *s = &job->shifts[i];
    int week = 0;
    for (int d = 0; d < WEEK_DAYS; d++) week += (s->days >> d & 1) * (s->until_min - s->from_min);
    if (week > 0 && week < least) least = week;
  }
  double days = SPARE_DAYS + 2 * WEEK_DAYS * (minutes / least + 1) + job->closed_count;
  return days < LONGEST_DAYS ? (int)days : LONGEST_DAYS;
}

static int add_calendar(Build *b, Calendar *calendar)
{
  if (calendar == NULL) return PROBLEM_ALWAYS;
  int index = 0;
  while (index < b->problem->calendar_count && !calendar_same(b->problem->calendars[index], calendar)) index++;
  if (index == b->problem->calendar_count) problem_add_calendar(b->problem, calendar->open, calendar->count);
  calendar_free(calendar);
  return index;
}

/* Doubles, so that its items move seldom. */
static void *room_for_one(void *items, int count, size_t each)
{
  bool full = (count & (count - 1)) == 0;
  return full ? mem_grow(items, count ? 2 * (size_t)count : 1, each) : items;
}

/* ---- people */

static bool same_hours(const Shift *a, const Shift *b)
{
  return a->from_min == b->from_min && a->until_min == b->until_min && a->days == b->days;
}

static bool in_several_shifts(const Job *job, const char *skill)
{
  const Shift *first = NULL;
  for (int i = 0; i < job->crew_count; i++) {
    if (!plan_crew_can(&job->crews[i], skill)) continue;
    const Shift *shift = &job->shifts[job->crews[i].shift];
    if (first && !same_hours(first, shift)) return true;
    first = shift;
  }
  return false;
}

static const Group *group_of(Build *b, const char *skill)
{
  for (int i = 0; i < b->group_count; i++)
    if (strcmp(b->groups[i].skill, skill) == 0) return &b->groups[i];
  const Job *job = b->t->job;
  b->groups = room_for_one(b->groups, b->group_count, sizeof *b->groups);
  Group *group = &b->groups[b->group_count++];
  int calendar = add_calendar(b, roster_people(job, skill, 1, b->t->days));
  *group = (Group){ skill, problem_add_group(b->problem, naming_people_with(b->t->plan, skill), calendar),
                    in_several_shifts(job, skill) };
  return group;
}

/* Several people of different shifts can work together only while enough of them are there; else they pause. */
static int joint_hours(Build *b, const Activity *a)
{
  int hours = b->area_hours[a->area];
  for (int i = 0; i < b->joint_count; i++) {
    const Joint *j = &b->joints[i];
    if (j->area_hours == hours && j->people == a->people && strcmp(j->skill, a->skill) == 0) return j->calendar;
  }
  const Job *job = b->t->job;
  Calendar *people = roster_people(job, a->skill, a->people, b->t->days);
  int calendar = add_calendar(b, calendar_both(b->problem->calendars[hours], people));
  calendar_free(people);
  b->joints = room_for_one(b->joints, b->joint_count, sizeof *b->joints);
  b->joints[b->joint_count++] = (Joint){ hours, a->people, calendar, a->skill };
  return calendar;
}

/* Whom it matters to know away: those who share a skill with people of other shifts. */
static uint64_t people_in_several_shifts(const Build *b)
{
  uint64_t people = 0;
  for (int i = 0; i < b->group_count; i++)
    if (b->groups[i].mixed) people |= b->problem->resources[b->groups[i].resource].people;
  return people;
}

static void add_absences(Build *b)
{
  uint64_t mixed = people_in_several_shifts(b);
  int end = b->t->away_days * DAY_MIN;
  for (int from = b->t->job->start_min, to; mixed && from < end; from = to) {
    uint64_t there = naming_on_shift(b->t->plan, from) & mixed;
    to = roster_next_change(b->t->job, from);
    while (to < end && (naming_on_shift(b->t->plan, to) & mixed) == there) to = roster_next_change(b->t->job, to);
    if (there && there != mixed) problem_add_absence(b->problem, mixed & ~there, from, to < end ? to : end);
  }
}

/* ---- the problem */

static void add_resources(Build *b)
{
  const Job *job = b->t->job;
  b->machine = mem_array((size_t)job->machine_count + 1, sizeof *b->machine);
  for (int i = 0; i < job->machine_count; i++)
    b->machine[i] = problem_add_resource(b->problem, job->machines[i].count, PROBLEM_ALWAYS);
  b->area_hours = mem_array((size_t)job->area_count + 1, sizeof *b->area_hours);
  b->floor_hours = mem_array((size_t)job->area_count + 1, sizeof *b->floor_hours);
  int without = -1; /* an area without hours of its own: they are all alike */
  for (int i = 0; i < job->area_count; i++) {
    bool own = job->areas[i].has_hours || without < 0;
    b->area_hours[i] = own ? add_calendar(b, roster_area(job, &job->areas[i], b->t->days)) : b->area_hours[without];
    b->floor_hours[i] = add_calendar(b, roster_floor(job, &job->areas[i], b->t->days));
    if (!job->areas[i].has_hours) without = i;
  }
}

static int deadline_of(const Job *job, int area, int horizon)
{
  Maybe own = job->areas[area].finish_by, by = own.given ? own : job->finish_by;
  return by.given && by.figure.value < horizon ? (int)by.figure.value : horizon;
}

static void add_task(Build *b, int i)
{
  const Activity *a = &b->t->plan->activities[i];
  const Job *job = b->t->job;
  bool asks = a->attended && a->duration_min > 0 && !(b->t->without_skill && b->t->without_skill[i]);
  const Group *group = asks ? group_of(b, a->skill) : NULL;
  int calendar = a->attended ? b->area_hours[a->area] : b->floor_hours[a->area];
  if (group && group->mixed && a->people > 1) calendar = joint_hours(b, a);
  int task = problem_add_task(b->problem, a->duration_min, calendar, a->breakable);
  b->problem->tasks[task].release = job->start_min;
  b->problem->tasks[task].deadline = deadline_of(job, a->area, b->problem->horizon);
  if (a->machine >= 0) problem_demand(b->problem, task, b->machine[a->machine], 1);
  if (plan_runs_along(a)) problem_demand(b->problem, task, b->machine[a->along.machine], 1);
  if (group) problem_demand(b->problem, task, group->resource, a->people);
}

static void add_links(Build *b)
{
  static const LinkKind kinds[] = { [LAG_FS_MIN] = LINK_FS_MIN, [LAG_FS_MAX] = LINK_FS_MAX,
                                    [LAG_SS_MIN] = LINK_SS_MIN, [LAG_SS_MAX] = LINK_SS_MAX };
  const Plan *plan = b->t->plan;
  for (int i = 0; i < plan->lag_count; i++) {
    const Lag *lag = &plan->lags[i];
    if (b->t->without_lag && b->t->without_lag[i]) continue;
    problem_link(b->problem, kinds[lag->kind], lag->from, lag->to, lag->minutes);
  }
}

Problem *timetable_problem(const Timetable *t)
{
  Build b = { .t = t, .problem = problem_new(t->days * DAY_MIN) };
  add_resources(&b);
  for (int i = 0; i < t->plan->activity_count; i++) add_task(&b, i);
  add_links(&b);
  add_absences(&b);
  mem_free(b.machine);
  mem_free(b.area_hours);
  mem_free(b.floor_hours);
  mem_free(b.groups);
  mem_free(b.joints);
  return b.problem;
}
