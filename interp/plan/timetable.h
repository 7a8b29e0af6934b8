/* timetable.h - inside plan_schedule: a plan as a scheduling problem, its solution as bookings, and what stands in
 * the way where there is none. */
#ifndef PLAN_TIMETABLE_H
#define PLAN_TIMETABLE_H

#include "plan/plan.h"
#include "plan/problem.h"
#include "plan/solve.h"

/* A plan's activities and lags under the hours, counts and times of a job, which may differ from the plan's own. */
typedef struct {
  const Plan *plan;
  const Job *job;
  const bool *without_lag;   /* by Plan.lags; NULL: all hold */
  const bool *without_skill; /* by activity: there are enough people on every shift; NULL: as many as there are */
  int days;                  /* how far the calendars reach */
  int away_days;             /* how far absences are told; at most `days` */
} Timetable;

/* Task i is activity i; absences of people in shifts of their own follow. */
Problem *timetable_problem(const Timetable *timetable);
/* Far enough for all work done by one hand after the other, in the shortest week of any shift. */
int timetable_days(const Plan *plan, const Job *job);

void timetable_book(Plan *plan, const Problem *problem, const Schedule *schedule, Arena *arena);

/* Fills in latest starts and slacks of the plan's bookings. */
void timetable_slack(const Timetable *timetable, Plan *plan);

/* Reports why there is no schedule: the smallest set of windows, hours, shifts, people and machines found that
 * cannot hold together. `result` is the solver's answer to the whole problem. */
void timetable_explain(const Plan *plan, const SolveResult *result, int days, Arena *arena, Diags *diags);

#endif
