#include "plan/timetable.h"

#include <string.h>

#include "base/mem.h"
#include "plan/naming.h"
#include "plan/roster.h"
#include "plan/supply.h"

enum { SPARE_DAYS = 30, LONGEST_DAYS = 3000 };

/* People of one skill, in whatever shifts. */
typedef struct {
  const char *skill;
  int resource;
  bool mixed; /* they do not all work the same hours */
} Group;

/* When a team may work in areas of the same hours. */
typedef struct {
  int area_hours, calendar;
  Team team;
} Joint;

typedef struct {
  const Timetable *t;
  Problem *problem;
  int *machine;                  /* resource of each machine class */
  SupplyLimit limits[SUPPLY_LIMITS];
  int limit[SUPPLY_LIMITS];      /* their resources */
  int limit_count;
  int *area_hours, *floor_hours; /* calendars of each area */
  Group *groups;
  int group_count;
  Joint *joints;
  int joint_count;
} Build;

static int days_off(const Job *job)
{
  int days = job->closed.count;
  for (int i = 0; i < job->crew_count; i++) days += job->crews[i].away.count;
  for (int i = 0; i < job->machine_count; i++) days += job->machines[i].away.count;
  return days;
}

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
  double days = SPARE_DAYS + 2 * WEEK_DAYS * (minutes / least + 1) + days_off(job);
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

static bool same_hours(const Job *job, const Crew *a, const Crew *b)
{
  const Shift *x = &job->shifts[a->shift], *y = &job->shifts[b->shift];
  return x->from_min == y->from_min && x->until_min == y->until_min && x->days == y->days && a->away.count == 0 &&
         b->away.count == 0;
}

static bool is_mixed(const Job *job, const char *skill)
{
  const Crew *first = NULL;
  for (int i = 0; i < job->crew_count; i++) {
    const Crew *crew = &job->crews[i];
    if (!plan_crew_can(crew, skill)) continue;
    if (first && !same_hours(job, first, crew)) return true;
    first = crew;
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
  int calendar = add_calendar(b, roster_team(job, &(Team){ .skill = skill, .people = 1 }, b->t->days));
  *group = (Group){ skill, problem_add_group(b->problem, naming_people_with(b->t->plan, skill), calendar),
                    is_mixed(job, skill) };
  return group;
}

static bool same_team(const Team *a, const Team *b)
{
  return a->people == b->people && a->also == b->also && strcmp(a->skill, b->skill) == 0 &&
         (a->also == 0 || strcmp(a->also_skill, b->also_skill) == 0);
}

/* Several people of different shifts can work together only while enough of them are there; else they pause. */
static int joint_hours(Build *b, const Activity *a, Team team)
{
  int hours = b->area_hours[a->area];
  for (int i = 0; i < b->joint_count; i++)
    if (b->joints[i].area_hours == hours && same_team(&b->joints[i].team, &team)) return b->joints[i].calendar;
  Calendar *people = roster_team(b->t->job, &team, b->t->days);
  int calendar = add_calendar(b, calendar_both(b->problem->calendars[hours], people));
  calendar_free(people);
  b->joints = room_for_one(b->joints, b->joint_count, sizeof *b->joints);
  b->joints[b->joint_count++] = (Joint){ hours, calendar, team };
  return calendar;
}

/* Whom it matters to know away: those who share a skill with people of other hours. */
static uint64_t people_of_mixed_hours(const Build *b)
{
  uint64_t people = 0;
  for (int i = 0; i < b->group_count; i++)
    if (b->groups[i].mixed) people |= b->problem->resources[b->groups[i].resource].people;
  return people;
}

static void add_absences(Build *b)
{
  uint64_t mixed = people_of_mixed_hours(b);
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
    b->machine[i] = problem_add_resource(b->problem, job->machines[i].count,
                                         add_calendar(b, roster_machine(job, &job->machines[i], b->t->days)));
  b->limit_count = supply_limits(job, b->limits);
  for (int i = 0; i < b->limit_count; i++)
    b->limit[i] = problem_add_resource(b->problem, b->limits[i].most, PROBLEM_ALWAYS);
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

static void ask_people(Build *b, int task, const char *skill, int people)
{
  if (people > 0) problem_demand(b->problem, task, group_of(b, skill)->resource, people);
}

static void ask_machine(Build *b, int task, int class)
{
  problem_demand(b->problem, task, b->machine[class], 1);
  for (int i = 0; i < b->limit_count; i++)
    for (int k = 0; k < b->limits[i].count; k++)
      if (b->limits[i].class[k] == class) problem_demand(b->problem, task, b->limit[i], b->limits[i].weight[k]);
}

/* With people enough it is worked on whenever one of each skill is on shift. */
static int task_calendar(Build *b, const Activity *a, bool enough)
{
  if (!a->attended) return b->floor_hours[a->area];
  if (a->duration_min == 0) return b->area_hours[a->area];
  Team team = plan_team(a);
  if (enough) return joint_hours(b, a, (Team){ team.skill, team.also_skill, 1, team.also > 0 });
  bool together = team.also > 0 || (team.people > 1 && group_of(b, team.skill)->mixed);
  return together ? joint_hours(b, a, team) : b->area_hours[a->area];
}

static void add_task(Build *b, int i)
{
  const Activity *a = &b->t->plan->activities[i];
  const Job *job = b->t->job;
  bool enough = b->t->without_skill && b->t->without_skill[i];
  bool asks = a->attended && a->duration_min > 0 && !enough;
  int task = problem_add_task(b->problem, a->duration_min, task_calendar(b, a, enough), a->breakable);
  b->problem->tasks[task].release = job->start_min;
  b->problem->tasks[task].deadline = deadline_of(job, a->area, b->problem->horizon);
  if (a->machine >= 0) ask_machine(b, task, a->machine);
  if (plan_runs_along(a)) ask_machine(b, task, a->along.machine);
  if (asks) ask_people(b, task, a->skill, a->people - a->along.people);
  if (asks) ask_people(b, task, a->along.skill, a->along.people);
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
