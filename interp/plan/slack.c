/* slack.c - how much later each activity of a schedule could start with the finish as it is.
 *
 * Everybody and every machine keeps the order of its work: one follows the other as if there were a lag. Latest
 * starts are then what the lags, windows and calendars leave, backwards from the finish. */
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "plan/instance.h"
#include "plan/timetable.h"

/* One use of somebody or something by an activity. */
typedef struct {
  int owner, activity, start;
} Turn;

typedef struct {
  Turn *turns;
  int count;
} Turns;

static int compare_turns(const void *left, const void *right)
{
  const Turn *a = left, *b = right;
  if (a->owner != b->owner) return a->owner - b->owner;
  if (a->start != b->start) return a->start < b->start ? -1 : 1;
  return a->activity - b->activity;
}

/* Owners are numbered: persons, then the units of each machine class. */
static int first_unit(const Plan *plan, int class)
{
  int owner = plan->person_count;
  for (int i = 0; i < class; i++) owner += plan->job->machines[i].count;
  return owner;
}

static void add_turn(Turns *t, int owner, int activity, int start)
{
  t->turns[t->count++] = (Turn){ owner, activity, start };
}

static Turns list_turns(const Plan *plan)
{
  size_t most = 1;
  for (int i = 0; i < plan->activity_count; i++)
    most += (size_t)plan->bookings[i].people_count + 2 * (size_t)plan->bookings[i].stretch_count;
  Turns t = { mem_array(most, sizeof *t.turns), 0 };
  for (int i = 0; i < plan->activity_count; i++) {
    const Activity *a = &plan->activities[i];
    const Booking *b = &plan->bookings[i];
    for (int k = 0; k < b->people_count; k++) add_turn(&t, b->people[k], i, b->start);
    for (int s = 0; s < b->stretch_count; s++) {
      const Stretch *stretch = &b->stretches[s];
      int own = first_unit(plan, a->machine) + stretch->unit;
      int along = first_unit(plan, a->along.machine) + stretch->along_unit;
      if (a->machine >= 0) add_turn(&t, own, i, stretch->start);
      if (plan_runs_along(a)) add_turn(&t, along, i, stretch->start);
    }
  }
  qsort(t.turns, (size_t)t.count, sizeof *t.turns, compare_turns);
  return t;
}

/* Work that is handed over to and fro has no order: it is left out. */
static void keep_order(Problem *problem, const Plan *plan)
{
  Turns t = list_turns(plan);
  for (int k = 1; k < t.count; k++) {
    const Turn *from = &t.turns[k - 1], *to = &t.turns[k];
    if (from->owner == to->owner && plan->bookings[from->activity].finish <= plan->bookings[to->activity].start)
      problem_link(problem, LINK_FS_MIN, from->activity, to->activity, 0);
  }
  mem_free(t.turns);
}

static int slack_of(const Instance *in, const Plan *plan, int i, int latest)
{
  int start = plan->bookings[i].start;
  if (latest <= start) return 0;
  return plan->activities[i].attended ? calendar_work(in->working[i], start, latest) : latest - start;
}

/* Activities by start, the last first. */
static int *backwards(const Plan *plan)
{
  Turns t = { mem_array((size_t)plan->activity_count, sizeof *t.turns), 0 };
  int *order = mem_array((size_t)plan->activity_count, sizeof *order);
  for (int i = 0; i < plan->activity_count; i++) add_turn(&t, 0, i, -plan->bookings[i].start);
  if (t.count > 0) qsort(t.turns, (size_t)t.count, sizeof *t.turns, compare_turns);
  for (int i = 0; i < t.count; i++) order[i] = t.turns[i].activity;
  mem_free(t.turns);
  return order;
}

/* Brings forward what must start before a task for it to start by its latest start. */
static bool pull_before(const Instance *in, int task, int *latest)
{
  bool moved = false;
  for (int k = in->in_first[task]; k < in->in_first[task + 1]; k++) {
    const Edge *e = &in->edges[in->in[k]];
    int most = instance_pull(in, e, latest[task]);
    if (most >= latest[e->from]) continue;
    latest[e->from] = most;
    moved = true;
  }
  return moved;
}

/* Least lags lead backwards in time, so that one round in this order settles all but the greatest lags. No bound
 * goes below the start of the schedule, which keeps every lag. */
static int *latest_starts(const Instance *in, const Plan *plan)
{
  int *order = backwards(plan), *latest = mem_array((size_t)in->count, sizeof *latest);
  memcpy(latest, in->latest, (size_t)in->count * sizeof *latest);
  for (bool moved = true; moved;) {
    moved = false;
    for (int i = 0; i < plan->activity_count; i++) moved = pull_before(in, order[i], latest) || moved;
  }
  mem_free(order);
  return latest;
}

void timetable_slack(const Timetable *t, Plan *plan)
{
  Problem *problem = timetable_problem(t);
  keep_order(problem, plan);
  for (int i = 0; i < plan->activity_count; i++)
    if (problem->tasks[i].deadline > plan->finish) problem->tasks[i].deadline = plan->finish;
  Instance *in = instance_new(problem);
  int *latest = latest_starts(in, plan);
  for (int i = 0; i < plan->activity_count; i++) {
    plan->bookings[i].latest_start = latest[i];
    plan->bookings[i].slack_min = slack_of(in, plan, i, latest[i]);
  }
  mem_free(latest);
  instance_free(in);
  problem_free(problem);
}
