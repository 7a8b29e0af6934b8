#include "plan/roster.h"

#include <limits.h>
#include <stdlib.h>

#include "base/mem.h"
#include "model/date.h"

static Calendar *from_hours(const Job *job, const Shift *hours, int days)
{
  Interval *open = mem_array((size_t)days + 1, sizeof *open);
  size_t count = 0;
  for (int day = -1; day < days; day++) {
    if (!(hours->days >> date_weekday(job->start_day + day) & 1)) continue;
    Interval piece = { day * DAY_MIN + hours->from_min, day * DAY_MIN + hours->until_min };
    if (piece.begin < job->start_min) piece.begin = job->start_min;
    if (piece.begin < piece.end) open[count++] = piece;
  }
  Calendar *calendar = calendar_new(open, count);
  mem_free(open);
  return calendar;
}

/* Every minute from the start on that is not in a closed day. */
static Calendar *open_days(const Job *job, int days)
{
  Interval *open = mem_array((size_t)days + 1, sizeof *open);
  size_t count = 0;
  for (int day = 0; day < days; day++) {
    bool closed = false;
    for (int i = 0; i < job->closed_count; i++) closed = closed || job->closed_days[i] == job->start_day + day;
    Interval whole = { day == 0 ? job->start_min : day * DAY_MIN, (day + 1) * DAY_MIN };
    if (!closed) open[count++] = whole;
  }
  Calendar *calendar = calendar_new(open, count);
  mem_free(open);
  return calendar;
}

/* Both, freeing them. */
static Calendar *meet(Calendar *a, Calendar *b)
{
  Calendar *both = calendar_both(a, b);
  calendar_free(a);
  calendar_free(b);
  return both;
}

static Calendar *site(const Job *job, int days)
{
  Calendar *open = open_days(job, days);
  return job->site_hours ? meet(open, from_hours(job, job->site_hours, days)) : open;
}

Calendar *roster_shift(const Job *job, int shift, int days)
{
  return meet(site(job, days), from_hours(job, &job->shifts[shift], days));
}

Calendar *roster_area(const Job *job, const Area *area, int days)
{
  Calendar *open = site(job, days);
  return area->has_hours ? meet(open, from_hours(job, &area->hours, days)) : open;
}

Calendar *roster_floor(const Job *job, const Area *area, int days)
{
  return area->has_hours ? from_hours(job, &area->hours, days) : NULL;
}

/* ---- people of a skill, in whatever shifts they work */

static bool covers(const Shift *shift, int weekday, int minute)
{
  int before = (weekday + WEEK_DAYS - 1) % WEEK_DAYS;
  if (shift->days >> weekday & 1 && minute >= shift->from_min && minute < shift->until_min) return true;
  return shift->days >> before & 1 && minute + DAY_MIN >= shift->from_min && minute + DAY_MIN < shift->until_min;
}

static int people_at(const Job *job, const char *skill, int weekday, int minute)
{
  int people = 0;
  for (int i = 0; i < job->crew_count; i++)
    if (plan_crew_can(&job->crews[i], skill) && covers(&job->shifts[job->crews[i].shift], weekday, minute))
      people += job->crews[i].count;
  return people;
}

/* There are never more than when some shift begins. */
int roster_people_at_once(const Job *job, const char *skill)
{
  int most = 0;
  for (int s = 0; s < job->shift_count; s++)
    for (int day = 0; day < WEEK_DAYS; day++) {
      if (!(job->shifts[s].days >> day & 1)) continue;
      int people = people_at(job, skill, day, job->shifts[s].from_min);
      if (people > most) most = people;
    }
  return most;
}

bool roster_on_shift(const Job *job, const Crew *crew, int minute)
{
  int day = minute >= 0 ? minute / DAY_MIN : -1;
  return covers(&job->shifts[crew->shift], date_weekday(job->start_day + day), minute - day * DAY_MIN);
}

int roster_next_change(const Job *job, int minute)
{
  int next = INT_MAX, midnight = minute / DAY_MIN * DAY_MIN;
  for (int i = 0; i < job->crew_count; i++) {
    const Shift *shift = &job->shifts[job->crews[i].shift];
    int ends[] = { midnight + shift->from_min % DAY_MIN, midnight + shift->until_min % DAY_MIN };
    for (int k = 0; k < 2; k++) {
      int at = ends[k] > minute ? ends[k] : ends[k] + DAY_MIN;
      if (at < next) next = at;
    }
  }
  return next;
}

typedef struct {
  int minute, people;
} Change;

static int by_minute(const void *a, const void *b)
{
  const Change *x = a, *y = b;
  return (x->minute > y->minute) - (x->minute < y->minute);
}

static size_t list_changes(const Job *job, const char *skill, int days, Change **changes)
{
  size_t count = 0;
  *changes = NULL;
  for (int i = 0; i < job->crew_count; i++) {
    if (!plan_crew_can(&job->crews[i], skill)) continue;
    Calendar *shift = roster_shift(job, job->crews[i].shift, days);
    *changes = mem_grow(*changes, count + 2 * shift->count + 1, sizeof **changes);
    for (size_t k = 0; k < shift->count; k++) {
      (*changes)[count++] = (Change){ shift->open[k].begin, job->crews[i].count };
      (*changes)[count++] = (Change){ shift->open[k].end, -job->crews[i].count };
    }
    calendar_free(shift);
  }
  if (count > 0) qsort(*changes, count, sizeof **changes, by_minute);
  return count;
}

Calendar *roster_people(const Job *job, const char *skill, int people, int days)
{
  Change *changes;
  size_t count = list_changes(job, skill, days, &changes), pieces = 0;
  Interval *open = mem_array(count + 1, sizeof *open);
  int now = 0;
  for (size_t k = 0; k < count; k++) {
    bool were = now >= people;
    now += changes[k].people;
    if (!were && now >= people) open[pieces].begin = changes[k].minute;
    if (were && now < people) open[pieces++].end = changes[k].minute;
  }
  Calendar *calendar = calendar_new(open, pieces);
  mem_free(changes);
  mem_free(open);
  return calendar;
}

int roster_longest(const Calendar *calendar)
{
  if (calendar == NULL) return INT_MAX;
  int longest = 0;
  for (size_t i = 0; i < calendar->count; i++) {
    int length = calendar->open[i].end - calendar->open[i].begin;
    if (length > longest) longest = length;
  }
  return longest;
}
