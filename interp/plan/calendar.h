/* calendar.h - when work may be done: sorted, disjoint, non-touching open intervals in whole minutes.
 *
 * A NULL calendar is always open. Minutes are counted from the start of the plan; an interval is [begin, end).
 * Every look-up is O(log n). Times past the last interval are closed: such answers are CALENDAR_NEVER (or, looking
 * backwards, CALENDAR_BEFORE). */
#ifndef PLAN_CALENDAR_H
#define PLAN_CALENDAR_H

#include <stdbool.h>
#include <stddef.h>

enum { CALENDAR_NEVER = 1 << 29, CALENDAR_BEFORE = -(1 << 29) };

typedef struct {
  int begin, end;
} Interval;

typedef struct {
  Interval *open;
  int *worked; /* open minutes before interval k; `count + 1` entries */
  size_t count;
} Calendar;

/* Copies and normalises: sorts, joins intervals that touch or overlap, drops empty ones. */
Calendar *calendar_new(const Interval *open, size_t count);
void calendar_free(Calendar *calendar); /* NULL is fine */
/* The minutes open in both, as a new calendar; NULL if both are NULL. */
Calendar *calendar_both(const Calendar *a, const Calendar *b);
bool calendar_same(const Calendar *a, const Calendar *b);

bool calendar_is_open(const Calendar *calendar, int minute);
int calendar_next_open(const Calendar *calendar, int minute);     /* first open minute >= minute */
int calendar_previous_open(const Calendar *calendar, int minute); /* last open minute <= minute */
int calendar_next_closed(const Calendar *calendar, int minute);   /* first closed minute >= minute */
/* Open minutes in [begin, end); 0 if end <= begin. */
int calendar_work(const Calendar *calendar, int begin, int end);

/* Work that pauses while the calendar is closed. The end (exclusive) of `work` > 0 open minutes begun at the first
 * open minute >= start; and the latest open minute at which work can begin and end at or before `finish`. */
int calendar_finish(const Calendar *calendar, int start, int work);
int calendar_latest_start(const Calendar *calendar, int finish, int work);

/* Work that may not pause. The first (last) start >= (<=) `start` with `work` > 0 open minutes in one piece. */
int calendar_next_fit(const Calendar *calendar, int start, int work);
int calendar_previous_fit(const Calendar *calendar, int start, int work);

#endif
