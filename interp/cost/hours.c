#include "cost/hours.h"

#include <stdlib.h>

#include "model/date.h"

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

/* What the price book says of hours; a limit that it does not name is one that no day or week can reach. */
typedef struct {
  long long day_min, week_min, call_out_min;
  bool standing_is_paid; /* and then counts towards overtime */
} PayRules;

static long long minutes_or(const Maybe *maybe, long long otherwise)
{
  return maybe->given ? (long long)maybe->figure.value : otherwise;
}

static PayRules pay_rules(const Prices *prices)
{
  if (prices == NULL) return (PayRules){ .day_min = DAY_MIN, .week_min = WEEK_DAYS * DAY_MIN };
  return (PayRules){ .day_min = minutes_or(&prices->overtime_after_min, DAY_MIN),
                     .week_min = minutes_or(&prices->overtime_week_min, WEEK_DAYS * DAY_MIN),
                     .call_out_min = minutes_or(&prices->call_out_min, 0),
                     .standing_is_paid = prices->standing.given && prices->standing.ppm > 0 };
}

/* Minutes of a week so far that are no overtime yet. */
typedef struct {
  int person, week;
  long long plain;
} Week;

static void add_overtime(CrewMinutes *sum, long long duty, const PayRules *rules, Week *week)
{
  long long over = duty > rules->day_min ? duty - rules->day_min : 0;
  week->plain += duty - over;
  if (week->plain > rules->week_min) {
    over += week->plain - rules->week_min;
    week->plain = rules->week_min;
  }
  sum->overtime += over;
}

/* One person's day: turns[0 .. count - 1], by start. */
static void add_day(CrewMinutes *sum, const Turn *turns, int count, const Shift *shift, const PayRules *rules,
                    Week *week)
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
  long long there = done - turns[0].start;
  sum->days++;
  sum->worked += worked;
  sum->standing += there - worked;
  if (there < rules->call_out_min) sum->call_out += rules->call_out_min - there;
  add_overtime(sum, rules->standing_is_paid ? there : worked, rules, week);
}

/* Of a day counted from the job's start day; weeks begin on Monday. */
static int week_of(const Job *job, int day)
{
  int since = job->start_day + day;
  return since - date_weekday(since);
}

static bool same_day(const Turn *a, const Turn *b) { return a->person == b->person && a->day == b->day; }

CrewMinutes hours_of_crew(const Plan *plan, int crew, Arena *arena)
{
  CrewMinutes sum = { 0 };
  int count = crew_turns(plan, crew, NULL);
  Turn *turns = arena_array(arena, (size_t)count + 1, sizeof *turns);
  crew_turns(plan, crew, turns);
  qsort(turns, (size_t)count, sizeof *turns, compare_turns);
  PayRules rules = pay_rules(plan->job->prices);
  Week week = { .person = -1 };
  for (int i = 0, next; i < count; i = next) {
    for (next = i + 1; next < count && same_day(&turns[next], &turns[i]);) next++;
    int monday = week_of(plan->job, turns[i].day);
    if (turns[i].person != week.person || monday != week.week) week = (Week){ turns[i].person, monday, 0 };
    add_day(&sum, turns + i, next - i, crew_shift(plan->job, crew), &rules, &week);
  }
  return sum;
}
