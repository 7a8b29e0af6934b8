/* problem.h - what is to be scheduled, and what a schedule is.
 *
 * Tasks (activities) with durations in whole working minutes, generalised precedences (lags counted in minutes of
 * the clock, with minimum and maximum), renewable resources with a capacity, and calendars. The aim is the earliest
 * finish of the last task. This is RCPSP/max with calendars: Bartusch, Mohring, Radermacher, Ann. Oper. Res. 16
 * (1988) 201-240; Franck, Neumann, Schwindt, OR Spektrum 23 (2001) 325-334.
 *
 * Meaning, which the checker (check.h) states again in code:
 * - A task works only at minutes open in its own calendar and in those of all resources it asks for. Once begun,
 *   it works at every such minute until its duration is done. If it is not breakable, the minutes must be in a row;
 *   if it is, it may pause while closed (a shift's end), and needs its resources only while it works.
 * - It starts at its first minute of work and finishes at the end of its last. With duration 0 it is an event: it
 *   needs no resource and no open minute.
 * - Capacity holds at every minute. Finish is exclusive: one may start when another ends.
 * - A task may be an absence: a fixed time at which named people are away from all groups. It does not count
 *   for the makespan. Two absences of one person do not overlap.
 * - A group is a resource made of named people (a set). People may be in several groups (skills), so groups that
 *   share people compete: at every minute the people asked of all groups must be distinct people (Hall's
 *   condition).
 *
 * Everything is copied in; indexes are returned, counted from 0. Contract breaches are asserted. */
#ifndef PLAN_PROBLEM_H
#define PLAN_PROBLEM_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "plan/calendar.h"

enum {
  PROBLEM_ALWAYS = -1,               /* the calendar that is always open */
  PROBLEM_FREE = -1,                 /* no fixed start */
  PROBLEM_LATEST = 1 << 26,          /* the largest horizon: 127 years */
  PROBLEM_LARGEST_CAPACITY = 32767,  /* of one resource */
  PROBLEM_LARGEST_DURATION = 1 << 24 /* also the largest lag, either sign */
};

/* S start, F finish of `from` against the start of `to`, in clock minutes (negative allowed):
 * MIN: start(to) >= S|F(from) + minutes; MAX: start(to) <= S|F(from) + minutes. */
typedef enum { LINK_SS_MIN, LINK_SS_MAX, LINK_FS_MIN, LINK_FS_MAX } LinkKind;

typedef struct {
  LinkKind kind;
  int from, to, minutes;
} Link;

typedef struct {
  int resource, amount;
} Demand;

typedef struct {
  int capacity;
  int calendar;
  uint64_t people; /* the members of a group, one bit a person; 0: an anonymous resource */
} Resource;

typedef struct {
  int duration;
  int calendar;
  bool breakable;
  int release;     /* earliest start; 0 */
  int deadline;    /* latest finish; the horizon */
  int fixed_start; /* or PROBLEM_FREE */
  uint64_t absent; /* an absence: who is away; else 0 */
  Demand *demands;
  int demand_count;
} Task;

typedef struct {
  int horizon; /* everything ends at or before it */
  Calendar **calendars;
  int calendar_count;
  Resource *resources;
  int resource_count;
  Task *tasks;
  int task_count;
  Link *links;
  int link_count;
} Problem;

Problem *problem_new(int horizon);
void problem_free(Problem *problem); /* NULL is fine */

int problem_add_calendar(Problem *problem, const Interval *open, size_t count);
int problem_add_resource(Problem *problem, int capacity, int calendar);
int problem_add_group(Problem *problem, uint64_t people, int calendar); /* capacity: how many they are */
int problem_add_task(Problem *problem, int duration, int calendar, bool breakable);
int problem_add_absence(Problem *problem, uint64_t people, int begin, int end);
/* Adds to what the task already asks of the resource. More than the capacity is allowed here and makes the
 * problem infeasible. */
void problem_demand(Problem *problem, int task, int resource, int amount);
int problem_link(Problem *problem, LinkKind kind, int from, int to, int minutes);

/* The minutes at which the task can work, as a new calendar, NULL for always. */
Calendar *problem_working_time(const Problem *problem, int task);

/* A schedule: one entry a task. */
typedef struct {
  int *start, *finish;
  int count;
  int makespan; /* the largest finish, 0 if there are none */
} Schedule;

Schedule *schedule_new(int count); /* all at 0 */
void schedule_free(Schedule *schedule); /* NULL is fine */
/* The pieces in which a task works when begun at start[task], in order; mem_free them. A task of
 * duration 0 has none. */
Interval *schedule_pieces(const Problem *problem, const Schedule *schedule, int task, int *count);

#endif
