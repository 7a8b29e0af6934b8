#include "plan/calendar.h"

#include <stdlib.h>
#include <string.h>

#include "base/mem.h"

static int by_begin(const void *a, const void *b)
{
  const Interval *x = a, *y = b;
  return (x->begin > y->begin) - (x->begin < y->begin);
}

static bool is_sorted(const Interval *open, size_t count)
{
  for (size_t k = 1; k < count; k++)
    if (open[k].begin < open[k - 1].begin) return false;
  return true;
}

static size_t join_touching(Interval *open, size_t count)
{
  size_t kept = 0;
  for (size_t k = 0; k < count; k++) {
    if (open[k].end <= open[k].begin) continue;
    if (kept > 0 && open[k].begin <= open[kept - 1].end) {
      if (open[k].end > open[kept - 1].end) open[kept - 1].end = open[k].end;
    } else {
      open[kept++] = open[k];
    }
  }
  return kept;
}

Calendar *calendar_new(const Interval *open, size_t count)
{
  Calendar *c = mem_alloc(sizeof *c);
  c->open = mem_array(count, sizeof *c->open);
  if (count > 0) memcpy(c->open, open, count * sizeof *open);
  if (!is_sorted(open, count)) qsort(c->open, count, sizeof *c->open, by_begin);
  c->count = join_touching(c->open, count);
  c->worked = mem_array(c->count + 1, sizeof *c->worked);
  for (size_t k = 0; k < c->count; k++) c->worked[k + 1] = c->worked[k] + c->open[k].end - c->open[k].begin;
  return c;
}

void calendar_free(Calendar *c)
{
  if (c == NULL) return;
  mem_free(c->open);
  mem_free(c->worked);
  mem_free(c);
}

Calendar *calendar_both(const Calendar *a, const Calendar *b)
{
  if (a == NULL && b == NULL) return NULL;
  if (a == NULL || b == NULL) {
    const Calendar *only = a ? a : b;
    return calendar_new(only->open, only->count);
  }
  Interval *common = mem_array(a->count + b->count, sizeof *common);
  size_t count = 0;
  for (size_t i = 0, j = 0; i < a->count && j < b->count;) {
    Interval x = a->open[i], y = b->open[j];
    Interval both = { x.begin > y.begin ? x.begin : y.begin, x.end < y.end ? x.end : y.end };
    if (both.begin < both.end) common[count++] = both;
    if (x.end < y.end) i++;
    else j++;
  }
  Calendar *c = calendar_new(common, count);
  mem_free(common);
  return c;
}

bool calendar_same(const Calendar *a, const Calendar *b)
{
  if (a == NULL || b == NULL) return a == b;
  return a->count == b->count && (a->count == 0 || memcmp(a->open, b->open, a->count * sizeof *a->open) == 0);
}

/* The first interval that ends after `minute`; `count` if there is none. */
static size_t interval_after(const Calendar *c, int minute)
{
  size_t low = 0, high = c->count;
  while (low < high) {
    size_t middle = (low + high) / 2;
    if (c->open[middle].end > minute) high = middle;
    else low = middle + 1;
  }
  return low;
}

bool calendar_is_open(const Calendar *c, int minute)
{
  if (c == NULL) return true;
  size_t k = interval_after(c, minute);
  return k < c->count && c->open[k].begin <= minute;
}

int calendar_next_open(const Calendar *c, int minute)
{
  if (c == NULL) return minute;
  size_t k = interval_after(c, minute);
  if (k == c->count) return CALENDAR_NEVER;
  return c->open[k].begin > minute ? c->open[k].begin : minute;
}

int calendar_previous_open(const Calendar *c, int minute)
{
  if (c == NULL) return minute;
  size_t k = interval_after(c, minute);
  if (k < c->count && c->open[k].begin <= minute) return minute;
  return k == 0 ? CALENDAR_BEFORE : c->open[k - 1].end - 1;
}

int calendar_next_closed(const Calendar *c, int minute)
{
  if (c == NULL) return CALENDAR_NEVER;
  size_t k = interval_after(c, minute);
  return k < c->count && c->open[k].begin <= minute ? c->open[k].end : minute;
}

/* Open minutes before `minute`. */
static int worked_before(const Calendar *c, int minute)
{
  size_t k = interval_after(c, minute);
  int inside = k < c->count && minute > c->open[k].begin ? minute - c->open[k].begin : 0;
  return c->worked[k] + inside;
}

int calendar_work(const Calendar *c, int begin, int end)
{
  if (end <= begin) return 0;
  return c == NULL ? end - begin : worked_before(c, end) - worked_before(c, begin);
}

/* The interval in which the open minute number `nth` (from 0) lies; `count` if there are not so many. */
static size_t interval_of_minute(const Calendar *c, int nth)
{
  size_t low = 0, high = c->count;
  while (low < high) {
    size_t middle = (low + high) / 2;
    if (c->worked[middle + 1] > nth) high = middle;
    else low = middle + 1;
  }
  return low;
}

int calendar_finish(const Calendar *c, int start, int work)
{
  if (c == NULL) return start + work;
  int last = worked_before(c, start) + work - 1;
  size_t k = interval_of_minute(c, last);
  return k == c->count ? CALENDAR_NEVER : c->open[k].begin + (last - c->worked[k]) + 1;
}

int calendar_latest_start(const Calendar *c, int finish, int work)
{
  if (c == NULL) return finish - work;
  int first = worked_before(c, finish) - work;
  if (first < 0) return CALENDAR_BEFORE;
  size_t k = interval_of_minute(c, first);
  return c->open[k].begin + (first - c->worked[k]);
}

int calendar_next_fit(const Calendar *c, int start, int work)
{
  if (c == NULL) return start;
  for (size_t k = interval_after(c, start); k < c->count; k++) {
    int from = c->open[k].begin > start ? c->open[k].begin : start;
    if (c->open[k].end - from >= work) return from;
  }
  return CALENDAR_NEVER;
}

int calendar_previous_fit(const Calendar *c, int start, int work)
{
  if (c == NULL) return start;
  size_t k = interval_after(c, start);
  if (k == c->count || c->open[k].begin > start) k--; /* wraps below the first: the loop does not run */
  for (; k < c->count; k--) {
    int from = c->open[k].end - work < start ? c->open[k].end - work : start;
    if (from >= c->open[k].begin) return from;
  }
  return CALENDAR_BEFORE;
}
