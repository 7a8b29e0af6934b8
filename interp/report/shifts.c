#include "report/shifts.h"

#include <stdlib.h>

#include "base/mem.h"
#include "report/page.h"


static int floor_day(int minute) { return page_day_of(minute); }

static void place_in_shift(const Plan *plan, ShiftEntry *e)
{
  const Stretch *stretch = &plan->bookings[e->activity].stretches[e->stretch];
  e->shift = plan->job->crews[plan->persons[stretch->people[0]].crew].shift;
  int from = e->shift >= 0 && e->shift < plan->job->shift_count ? plan->job->shifts[e->shift].from_min : 0;
  e->day = floor_day(e->start - from);
}

static int compare_start(const void *left, const void *right)
{
  const ShiftEntry *a = left, *b = right;
  if (a->start != b->start) return a->start < b->start ? -1 : 1;
  if (a->activity != b->activity) return a->activity < b->activity ? -1 : 1;
  return (a->stretch > b->stretch) - (a->stretch < b->stretch);
}

static int compare_shift(const void *left, const void *right)
{
  const ShiftEntry *a = left, *b = right;
  if (a->day != b->day) return a->day < b->day ? -1 : 1;
  if (a->shift != b->shift) return a->shift < b->shift ? -1 : 1;
  return compare_start(left, right);
}

/* What nobody attends is printed under the shift that began last before it. */
static void place_unattended(const Plan *plan, ShiftEntry *entries, int count)
{
  int day = 0, shift = -1;
  for (int i = 0; i < count; i++) {
    if (plan->bookings[entries[i].activity].people_count > 0) {
      day = entries[i].day;
      shift = entries[i].shift;
    } else {
      entries[i].day = shift < 0 ? floor_day(entries[i].start) : day;
      entries[i].shift = shift;
    }
  }
}

ShiftEntry *shifts_list(const Plan *plan, int *count)
{
  int room = 0;
  for (int i = 0; i < plan->activity_count; i++) room += plan->bookings[i].stretch_count;
  ShiftEntry *entries = mem_array((size_t)room + 1, sizeof *entries);
  *count = 0;
  for (int i = 0; i < plan->activity_count; i++)
    for (int s = 0; s < plan->bookings[i].stretch_count; s++) {
      const Stretch *stretch = &plan->bookings[i].stretches[s];
      if (stretch->start == stretch->finish) continue;
      ShiftEntry *e = &entries[(*count)++];
      *e = (ShiftEntry){ .activity = i, .stretch = s, .start = stretch->start, .finish = stretch->finish };
      if (plan->bookings[i].people_count > 0) place_in_shift(plan, e);
    }
  qsort(entries, (size_t)*count, sizeof *entries, compare_start);
  place_unattended(plan, entries, *count);
  qsort(entries, (size_t)*count, sizeof *entries, compare_shift);
  return entries;
}

bool shifts_same(const ShiftEntry *a, const ShiftEntry *b) { return a->day == b->day && a->shift == b->shift; }
