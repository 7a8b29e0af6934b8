#include "plan/roster.h"

#include <limits.h>

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
