#include "plan/problem.h"

#include <assert.h>
#include <string.h>

#include "base/mem.h"

Problem *problem_new(int horizon)
{
  assert(horizon >= 0 && horizon <= PROBLEM_LATEST);
  Problem *p = mem_alloc(sizeof *p);
  p->horizon = horizon;
  return p;
}

void problem_free(Problem *p)
{
  if (p == NULL) return;
  for (int k = 0; k < p->calendar_count; k++) calendar_free(p->calendars[k]);
  for (int a = 0; a < p->task_count; a++) mem_free(p->tasks[a].demands);
  mem_free(p->calendars);
  mem_free(p->resources);
  mem_free(p->tasks);
  mem_free(p->links);
  mem_free(p);
}

/* Room for one more in an array that doubles: its new address. */
static void *one_more(void *items, int count, size_t each)
{
  bool full = count == 0 || (count >= 8 && (count & (count - 1)) == 0);
  return full ? mem_grow(items, count == 0 ? 8 : 2 * (size_t)count, each) : items;
}

static bool is_calendar(const Problem *p, int calendar)
{
  return calendar >= PROBLEM_ALWAYS && calendar < p->calendar_count;
}

int problem_add_calendar(Problem *p, const Interval *open, size_t count)
{
  p->calendars = one_more(p->calendars, p->calendar_count, sizeof *p->calendars);
  p->calendars[p->calendar_count] = calendar_new(open, count);
  return p->calendar_count++;
}

static int add_resource(Problem *p, Resource resource)
{
  assert(resource.capacity >= 0 && resource.capacity <= PROBLEM_LARGEST_CAPACITY);
  assert(is_calendar(p, resource.calendar));
  p->resources = one_more(p->resources, p->resource_count, sizeof *p->resources);
  p->resources[p->resource_count] = resource;
  return p->resource_count++;
}

int problem_add_resource(Problem *p, int capacity, int calendar)
{
  return add_resource(p, (Resource){ .capacity = capacity, .calendar = calendar });
}

int problem_add_group(Problem *p, uint64_t people, int calendar)
{
  assert(people != 0);
  return add_resource(
      p, (Resource){ .capacity = __builtin_popcountll(people), .calendar = calendar, .people = people });
}

int problem_add_task(Problem *p, int duration, int calendar, bool breakable)
{
  assert(duration >= 0 && duration <= PROBLEM_LARGEST_DURATION && is_calendar(p, calendar));
  p->tasks = one_more(p->tasks, p->task_count, sizeof *p->tasks);
  p->tasks[p->task_count] = (Task){ .duration = duration,
                                                 .calendar = calendar,
                                                 .breakable = breakable,
                                                 .deadline = p->horizon,
                                                 .fixed_start = PROBLEM_FREE };
  return p->task_count++;
}

int problem_add_absence(Problem *p, uint64_t people, int begin, int end)
{
  assert(people != 0 && begin >= 0 && begin < end);
  int task = problem_add_task(p, end - begin, PROBLEM_ALWAYS, false);
  p->tasks[task].fixed_start = begin;
  p->tasks[task].absent = people;
  return task;
}

static bool is_task(const Problem *p, int task) { return task >= 0 && task < p->task_count; }

void problem_demand(Problem *p, int task, int resource, int amount)
{
  assert(is_task(p, task) && resource >= 0 && resource < p->resource_count);
  assert(amount >= 0 && amount <= PROBLEM_LARGEST_CAPACITY);
  Task *a = &p->tasks[task];
  if (amount == 0) return;
  for (int k = 0; k < a->demand_count; k++) {
    if (a->demands[k].resource != resource) continue;
    a->demands[k].amount += amount;
    return;
  }
  a->demands = one_more(a->demands, a->demand_count, sizeof *a->demands);
  a->demands[a->demand_count++] = (Demand){ resource, amount };
}

int problem_link(Problem *p, LinkKind kind, int from, int to, int minutes)
{
  assert(is_task(p, from) && is_task(p, to));
  assert(minutes >= -PROBLEM_LARGEST_DURATION && minutes <= PROBLEM_LARGEST_DURATION);
  p->links = one_more(p->links, p->link_count, sizeof *p->links);
  p->links[p->link_count] = (Link){ kind, from, to, minutes };
  return p->link_count++;
}

static const Calendar *calendar_at(const Problem *p, int index)
{
  return index == PROBLEM_ALWAYS ? NULL : p->calendars[index];
}

Calendar *problem_working_time(const Problem *p, int task)
{
  const Task *a = &p->tasks[task];
  Calendar *both = calendar_both(calendar_at(p, a->calendar), NULL);
  for (int k = 0; k < a->demand_count; k++) {
    Calendar *narrower = calendar_both(both, calendar_at(p, p->resources[a->demands[k].resource].calendar));
    calendar_free(both);
    both = narrower;
  }
  return both;
}

Schedule *schedule_new(int count)
{
  Schedule *s = mem_alloc(sizeof *s);
  s->start = mem_array((size_t)count, sizeof *s->start);
  s->finish = mem_array((size_t)count, sizeof *s->finish);
  s->count = count;
  return s;
}

void schedule_free(Schedule *schedule)
{
  if (schedule == NULL) return;
  mem_free(schedule->start);
  mem_free(schedule->finish);
  mem_free(schedule);
}

Interval *schedule_pieces(const Problem *p, const Schedule *schedule, int task, int *count)
{
  int begin = schedule->start[task], end = schedule->finish[task];
  Calendar *working = problem_working_time(p, task);
  size_t most = working ? working->count : 1;
  Interval *pieces = mem_array(most, sizeof *pieces);
  *count = 0;
  while (begin < end) {
    int from = calendar_next_open(working, begin);
    if (from >= end) break;
    int closed = calendar_next_closed(working, from);
    begin = closed < end ? closed : end;
    pieces[(*count)++] = (Interval){ from, begin };
  }
  calendar_free(working);
  return pieces;
}
