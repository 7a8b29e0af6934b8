#include "cost/hours.h"

#include <stdlib.h>

/* A stretch of one person, cut where a shift's day ends. */
typedef struct {
  int person, day, start, finish;
} Turn;

static const Shift *crew_shift(const Job *job, int crew)
{
  int shift = job->crews[crew].shift;
  return shift >= 0 && shift < job->shift_count ? &job->shifts[shift] : NULL;
}

static int floor_day(int minute) { return minute >= 0 ? minute / DAY_MIN : -((DAY_MIN - 1 - minute) / DAY_MIN); }

int hours_shift_day(const Job *job, int crew, int minute)
{
  const Shift *shift = crew_shift(job, crew);
  return floor_day(shift ? minute - shift->from_min : minute);
}

int hours_work_day(const Plan *plan, const Stretch *stretch)
{
  if (stretch->people == NULL) return floor_day(stretch->start);
  return hours_shift_day(plan->job, plan->persons[stretch->people[0]].crew, stretch->start);
}

static int compare_turns(const void *left, const void *right)
{
  const Turn *a = left, *b = right;
  if (a->person != b->person) return a->person < b->person ? -1 : 1;
  if (a->start != b->start) return a->start < b->start ? -1 : 1;
  return (a->finish > b->finish) - (a->finish < b->finish);
}

/* Calls of this with turns NULL only count. */
static int cut_stretch(const Job *job, int crew, int person, const Stretch *stretch, Turn *turns)
{
  const Shift *shift = crew_shift(job, crew);
  int from = shift ? shift->from_min : 0, count = 0;
  for (int start = stretch->start; start < stretch->finish; count++) {
    int day = hours_shift_day(job, crew, start), next = (day + 1) * DAY_MIN + from;
    int finish = stretch->finish < next ? stretch->finish : next;
    if (turns) turns[count] = (Turn){ person, day, start, finish };
    start = finish;
  }
  return count;
}

static int crew_turns(const Plan *plan, int crew, Turn *turns)
{
  int count = 0;
  for (int i = 0; i < plan->activity_count; i++) {
    const Booking *booking = &plan->bookings[i];
    for (int s = 0; s < booking->stretch_count; s++) {
      const Stretch *stretch = &booking->stretches[s];
      for (int p = 0; stretch->people && p < plan->activities[i].people; p++)
        if (plan->persons[stretch->people[p]].crew == crew)
          count += cut_stretch(plan->job, crew, stretch->people[p], stretch, turns ? turns + count : NULL);
    }
  }
  return count;
}

static int night_minutes(const Shift *shift, int day, int start, int finish)
{
  if (shift == NULL || !shift->night) return 0;
  int end = day * DAY_MIN + shift->until_min;
  if (finish > end) finish = end;
  return finish > start ? finish - start : 0;
}

/* One person's day: turns[0 .. count - 1], by start. */
static void add_day(CrewMinutes *sum, const Turn *turns, int count, const Shift *shift, long long overtime_after)
{
  long long worked = 0;
  int done = turns[0].start;
  for (int i = 0; i < count; i++) {
    int start = turns[i].start > done ? turns[i].start : done;
    if (turns[i].finish <= start) continue;
    worked += turns[i].finish - start;
    sum->night += night_minutes(shift, turns[i].day, start, turns[i].finish);
    done = turns[i].finish;
  }
  sum->worked += worked;
  sum->standing += done - turns[0].start - worked;
  if (worked > overtime_after) sum->overtime += worked - overtime_after;
}

static long long overtime_after(const Prices *prices)
{
  return prices && prices->overtime_after_min.given ? (long long)prices->overtime_after_min.figure.value : DAY_MIN;
}

static bool same_day(const Turn *a, const Turn *b) { return a->person == b->person && a->day == b->day; }

CrewMinutes hours_of_crew(const Plan *plan, int crew, Arena *arena)
{
  CrewMinutes sum = { 0 };
  int count = crew_turns(plan, crew, NULL);
  Turn *turns = arena_array(arena, (size_t)count + 1, sizeof *turns);
  crew_turns(plan, crew, turns);
  qsort(turns, (size_t)count, sizeof *turns, compare_turns);
  for (int i = 0, next; i < count; i = next) {
    for (next = i + 1; next < count && same_day(&turns[next], &turns[i]);) next++;
    add_day(&sum, turns + i, next - i, crew_shift(plan->job, crew), overtime_after(plan->job->prices));
  }
  return sum;
}
