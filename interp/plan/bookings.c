/* bookings.c - from the starts of a schedule to bookings: stretches of work, numbered machines, named people. */
#include <stdlib.h>

#include "base/mem.h"
#include "plan/naming.h"
#include "plan/timetable.h"

static void take_stretches(Plan *plan, const Problem *problem, const Schedule *schedule, int i, Arena *arena)
{
  Booking *b = &plan->bookings[i];
  b->start = schedule->start[i];
  b->finish = schedule->finish[i];
  Interval *pieces = schedule_pieces(problem, schedule, i, &b->stretch_count);
  int count = b->stretch_count ? b->stretch_count : 1;
  b->stretches = arena_array(arena, (size_t)count, sizeof *b->stretches);
  b->stretches[0] = (Stretch){ .start = b->start, .finish = b->finish };
  for (int k = 0; k < b->stretch_count; k++)
    b->stretches[k] = (Stretch){ .start = pieces[k].begin, .finish = pieces[k].end };
  b->stretch_count = count;
  mem_free(pieces);
}

/* ---- machines of a class are alike: a stretch goes on with the one before if it is free, else takes the lowest */

/* One use of a machine in a stretch: the activity's own or the one that runs along. */
typedef struct {
  int activity, stretch;
  bool along, goes_on; /* goes_on: it had a machine the minute before */
  int start;
} Use;

typedef struct {
  Plan *plan;
  int *free_from; /* by unit of all classes */
  int *first;     /* of each class */
} Units;

static int compare_uses(const void *left, const void *right)
{
  const Use *a = left, *b = right;
  if (a->start != b->start) return a->start < b->start ? -1 : 1;
  if (a->goes_on != b->goes_on) return a->goes_on ? -1 : 1;
  if (a->activity != b->activity) return a->activity - b->activity;
  return a->along - b->along;
}

static int *unit_of(Stretch *stretch, bool along) { return along ? &stretch->along_unit : &stretch->unit; }

static void give_unit(Units *u, const Use *use)
{
  const Activity *a = &u->plan->activities[use->activity];
  Stretch *stretches = u->plan->bookings[use->activity].stretches, *stretch = &stretches[use->stretch];
  int class = use->along ? a->along.machine : a->machine, count = u->plan->job->machines[class].count;
  int *free_from = u->free_from + u->first[class], unit = 0;
  int before = use->stretch > 0 ? *unit_of(&stretches[use->stretch - 1], use->along) : -1;
  if (before >= 0 && free_from[before] <= stretch->start) unit = before;
  else
    while (unit < count - 1 && free_from[unit] > stretch->start) unit++;
  free_from[unit] = stretch->finish;
  *unit_of(stretch, use->along) = unit;
}

static Use *list_uses(Plan *plan, Arena *arena, int *count)
{
  size_t most = 1;
  for (int i = 0; i < plan->activity_count; i++) most += 2 * (size_t)plan->bookings[i].stretch_count;
  Use *uses = arena_array(arena, most, sizeof *uses);
  *count = 0;
  for (int i = 0; i < plan->activity_count; i++)
    for (int s = 0; s < plan->bookings[i].stretch_count; s++) {
      Stretch *stretch = &plan->bookings[i].stretches[s];
      bool goes_on = s > 0 && stretch[-1].finish == stretch->start;
      stretch->unit = stretch->along_unit = -1;
      if (plan->activities[i].machine >= 0) uses[(*count)++] = (Use){ i, s, false, goes_on, stretch->start };
      if (plan_runs_along(&plan->activities[i])) uses[(*count)++] = (Use){ i, s, true, goes_on, stretch->start };
    }
  return uses;
}

static void number_machines(Plan *plan, Arena *arena)
{
  const Job *job = plan->job;
  int count, units = 0;
  Units u = { .plan = plan, .first = arena_array(arena, (size_t)job->machine_count + 1, sizeof *u.first) };
  for (int i = 0; i < job->machine_count; i++) {
    u.first[i] = units;
    units += job->machines[i].count;
  }
  u.free_from = arena_array(arena, (size_t)units + 1, sizeof *u.free_from);
  Use *uses = list_uses(plan, arena, &count);
  qsort(uses, (size_t)count, sizeof *uses, compare_uses);
  for (int k = 0; k < count; k++) give_unit(&u, &uses[k]);
  for (int i = 0; i < plan->activity_count; i++) {
    plan->bookings[i].unit = plan->bookings[i].stretches[0].unit;
    plan->bookings[i].along_unit = plan->bookings[i].stretches[0].along_unit;
  }
}

void timetable_book(Plan *plan, const Problem *problem, const Schedule *schedule, Arena *arena)
{
  plan->bookings = arena_array(arena, (size_t)plan->activity_count + 1, sizeof *plan->bookings);
  for (int i = 0; i < plan->activity_count; i++) take_stretches(plan, problem, schedule, i, arena);
  naming_people(plan, arena);
  number_machines(plan, arena);
}
