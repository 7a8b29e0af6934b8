#include "plan/check.h"

#include <stdarg.h>
#include <stdlib.h>

#include "base/mem.h"

typedef struct {
  const Problem *problem;
  const Schedule *schedule;
  Buf *breaches;
  bool sound;
} Check;

static void breach(Check *c, const char *format, ...) __attribute__((format(printf, 2, 3)));
static void breach(Check *c, const char *format, ...)
{
  c->sound = false;
  if (c->breaches == NULL) return;
  va_list args;
  va_start(args, format);
  buf_vprintf(c->breaches, format, args);
  va_end(args);
  buf_putc(c->breaches, '\n');
}

static void check_window(Check *c, int t)
{
  const Task *task = &c->problem->tasks[t];
  int start = c->schedule->start[t], finish = c->schedule->finish[t];
  if (start < 0 || start < task->release) breach(c, "task %d starts at %d, before %d", t, start, task->release);
  if (finish > task->deadline) breach(c, "task %d ends at %d, after its deadline %d", t, finish, task->deadline);
  if (finish > c->problem->horizon) breach(c, "task %d ends at %d, after the horizon", t, finish);
  if (task->fixed_start != PROBLEM_FREE && start != task->fixed_start)
    breach(c, "task %d starts at %d, not at its fixed %d", t, start, task->fixed_start);
  if (finish > c->schedule->makespan && !task->absent)
    breach(c, "task %d ends at %d, after the makespan", t, finish);
}

static void check_work(Check *c, int t)
{
  const Task *task = &c->problem->tasks[t];
  int start = c->schedule->start[t], finish = c->schedule->finish[t];
  if (task->duration == 0) {
    if (finish != start) breach(c, "event %d lasts from %d to %d", t, start, finish);
    return;
  }
  Calendar *working = problem_working_time(c->problem, t);
  if (!calendar_is_open(working, start)) breach(c, "task %d starts at %d, a closed minute", t, start);
  if (!calendar_is_open(working, finish - 1)) breach(c, "task %d ends at %d, a closed minute", t, finish);
  if (calendar_work(working, start, finish) != task->duration)
    breach(c, "task %d works %d minutes, not %d", t, calendar_work(working, start, finish), task->duration);
  if (!task->breakable && finish - start != task->duration)
    breach(c, "task %d may not pause, but takes from %d to %d", t, start, finish);
  calendar_free(working);
}

static void check_link(Check *c, int k)
{
  const Link *link = &c->problem->links[k];
  bool from_finish = link->kind == LINK_FS_MIN || link->kind == LINK_FS_MAX;
  bool least = link->kind == LINK_FS_MIN || link->kind == LINK_SS_MIN;
  int from = from_finish ? c->schedule->finish[link->from] : c->schedule->start[link->from];
  int to = c->schedule->start[link->to];
  if (least ? to >= from + link->minutes : to <= from + link->minutes) return;
  breach(c, "task %d %s at %d, but %d starts at %d, %s %d %+d", link->from, from_finish ? "ends" : "starts", from,
         link->to, to, least ? "before" : "after", from, link->minutes);
}

/* ---- capacities: a sweep over the minutes at which use changes */

enum { PEOPLE = 64 };

typedef struct {
  int minute, resource, amount; /* a person who is away counts as a resource after the problem's own */
} Change;

typedef struct {
  Change *changes;
  size_t count, room;
} Changes;

static void add_change(Changes *all, int minute, int resource, int amount)
{
  if (all->count == all->room) {
    all->room = all->room ? 2 * all->room : 64;
    all->changes = mem_grow(all->changes, all->room, sizeof *all->changes);
  }
  all->changes[all->count++] = (Change){ minute, resource, amount };
}

static void add_use(const Check *c, Changes *all, int t)
{
  const Task *task = &c->problem->tasks[t];
  for (int person = 0; person < PEOPLE; person++)
    if (task->absent >> person & 1) {
      add_change(all, c->schedule->start[t], c->problem->resource_count + person, 1);
      add_change(all, c->schedule->finish[t], c->problem->resource_count + person, -1);
    }
  if (task->duration == 0 || task->demand_count == 0) return;
  int count;
  Interval *pieces = schedule_pieces(c->problem, c->schedule, t, &count);
  for (int k = 0; k < count; k++)
    for (int d = 0; d < task->demand_count; d++) {
      add_change(all, pieces[k].begin, task->demands[d].resource, task->demands[d].amount);
      add_change(all, pieces[k].end, task->demands[d].resource, -task->demands[d].amount);
    }
  mem_free(pieces);
}

static int by_minute(const void *a, const void *b)
{
  const Change *x = a, *y = b;
  return (x->minute > y->minute) - (x->minute < y->minute);
}

/* Gives every person asked for to a group, one after the other, by augmenting paths: can all demands be met by
 * distinct people? D. Koenig's theorem; this is deliberately not Hall's condition, which the solver uses. */
typedef struct {
  const Problem *problem;
  uint64_t away;
  int holder[PEOPLE]; /* the group that each person works for now; -1: none */
} Matching;

static bool give_person(Matching *m, int group, uint64_t *tried)
{
  for (int person = 0; person < PEOPLE; person++) {
    uint64_t bit = UINT64_C(1) << person;
    if (!(m->problem->resources[group].people & ~m->away & bit) || (*tried & bit)) continue;
    *tried |= bit;
    if (m->holder[person] >= 0 && !give_person(m, m->holder[person], tried)) continue;
    m->holder[person] = group;
    return true;
  }
  return false;
}

static bool people_suffice(const Problem *p, const int *use)
{
  Matching m = { .problem = p };
  for (int person = 0; person < PEOPLE; person++) {
    m.holder[person] = -1;
    if (use[p->resource_count + person] > 0) m.away |= UINT64_C(1) << person;
  }
  for (int r = 0; r < p->resource_count; r++) {
    for (int k = 0; p->resources[r].people != 0 && k < use[r]; k++) {
      uint64_t tried = 0;
      if (!give_person(&m, r, &tried)) return false;
    }
  }
  return true;
}

static void check_use(Check *c, const int *use, int minute)
{
  const Problem *p = c->problem;
  for (int r = 0; r < p->resource_count; r++)
    if (use[r] > p->resources[r].capacity)
      breach(c, "at %d resource %d is asked for %d of %d", minute, r, use[r], p->resources[r].capacity);
  if (!people_suffice(p, use)) breach(c, "at %d the groups are asked for more people than there are", minute);
}

static void check_capacities(Check *c)
{
  Changes all = { 0 };
  for (int t = 0; t < c->problem->task_count; t++) add_use(c, &all, t);
  if (all.count > 0) qsort(all.changes, all.count, sizeof *all.changes, by_minute);
  int *use = mem_array((size_t)c->problem->resource_count + PEOPLE, sizeof *use);
  for (size_t k = 0; k < all.count; k++) {
    use[all.changes[k].resource] += all.changes[k].amount;
    bool last = k + 1 == all.count || all.changes[k + 1].minute > all.changes[k].minute;
    if (last) check_use(c, use, all.changes[k].minute);
  }
  mem_free(use);
  mem_free(all.changes);
}

bool check_schedule(const Problem *problem, const Schedule *schedule, Buf *breaches)
{
  Check c = { problem, schedule, breaches, true };
  if (schedule->count != problem->task_count) breach(&c, "%d tasks, not %d", schedule->count, problem->task_count);
  for (int t = 0; t < problem->task_count && c.sound; t++) check_window(&c, t);
  for (int t = 0; t < problem->task_count; t++) check_work(&c, t);
  for (int k = 0; k < problem->link_count; k++) check_link(&c, k);
  if (c.sound) check_capacities(&c);
  return c.sound;
}
