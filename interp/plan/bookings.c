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
  b->stretches[0] = (Stretch){ b->start, b->finish, NULL };
  for (int k = 0; k < b->stretch_count; k++) b->stretches[k] = (Stretch){ pieces[k].begin, pieces[k].end, NULL };
  b->stretch_count = count;
  mem_free(pieces);
}

/* ---- machines of a class are alike: the lowest number that is free */

/* One use of a machine: the activity's own or the one that runs along. */
typedef struct {
  int activity, start;
  bool along;
} Use;

static int compare_uses(const void *left, const void *right)
{
  const Use *a = left, *b = right;
  if (a->start != b->start) return a->start < b->start ? -1 : 1;
  return a->activity != b->activity ? a->activity - b->activity : a->along - b->along;
}

static int class_of(const Plan *plan, const Use *use)
{
  const Activity *a = &plan->activities[use->activity];
  return use->along ? a->along.machine : a->machine;
}

static int *unit_of(const Plan *plan, const Use *use)
{
  Booking *b = &plan->bookings[use->activity];
  return use->along ? &b->along_unit : &b->unit;
}

static bool overlap(const Booking *a, const Booking *b)
{
  if (a->finish <= b->start || b->finish <= a->start) return false;
  for (int i = 0; i < a->stretch_count; i++)
    for (int k = 0; k < b->stretch_count; k++)
      if (a->stretches[i].start < b->stretches[k].finish && b->stretches[k].start < a->stretches[i].finish) return true;
  return false;
}

static bool is_taken(const Plan *plan, const Use *uses, int count, const Use *use, int unit)
{
  for (int m = 0; m < count; m++)
    if (class_of(plan, &uses[m]) == class_of(plan, use) && *unit_of(plan, &uses[m]) == unit &&
        overlap(&plan->bookings[uses[m].activity], &plan->bookings[use->activity]))
      return true;
  return false;
}

static void number_machines(Plan *plan, Arena *arena)
{
  Use *uses = arena_array(arena, 2 * (size_t)plan->activity_count + 1, sizeof *uses);
  int count = 0;
  for (int i = 0; i < plan->activity_count; i++) {
    plan->bookings[i].unit = plan->bookings[i].along_unit = -1;
    if (plan->activities[i].machine >= 0) uses[count++] = (Use){ i, plan->bookings[i].start, false };
    if (plan_runs_along(&plan->activities[i])) uses[count++] = (Use){ i, plan->bookings[i].start, true };
  }
  qsort(uses, (size_t)count, sizeof *uses, compare_uses);
  for (int k = 0; k < count; k++) {
    int units = plan->job->machines[class_of(plan, &uses[k])].count, unit = 0;
    while (unit < units - 1 && is_taken(plan, uses, k, &uses[k], unit)) unit++;
    *unit_of(plan, &uses[k]) = unit;
  }
}

void timetable_book(Plan *plan, const Problem *problem, const Schedule *schedule, Arena *arena)
{
  plan->bookings = arena_array(arena, (size_t)plan->activity_count + 1, sizeof *plan->bookings);
  for (int i = 0; i < plan->activity_count; i++) take_stretches(plan, problem, schedule, i, arena);
  number_machines(plan, arena);
  naming_people(plan, arena);
}
