/* explain.h - inside timetable_explain: the demands that can be in the way, and the job without some of them. */
#ifndef PLAN_EXPLAIN_H
#define PLAN_EXPLAIN_H

#include "plan/timetable.h"

typedef enum {
  DEMAND_WINDOW, DEMAND_JOB_BY, DEMAND_AREA_BY, DEMAND_AREA_HOURS, DEMAND_SITE_HOURS, DEMAND_CLOSED, DEMAND_SHIFT,
  DEMAND_AWAY, DEMAND_MACHINE_HOURS, DEMAND_MACHINE_AWAY, DEMAND_MACHINE, DEMAND_CIRCUITS, DEMAND_PEOPLE
} DemandKind;

typedef struct {
  DemandKind kind;
  int index; /* lag, area, shift, crew, machine class; PEOPLE: an activity that asks for the skill */
  bool dropped;
} Wanted;

enum { EXPLAIN_MORE = 4 }; /* people, machines, hours: as many are tried */

/* PEOPLE of one skill count for those who follow too. */
const char *explain_skill(const Plan *plan, const Wanted *wanted);

typedef struct {
  const Plan *plan;
  Arena *arena;
  int days, attempts;
  Wanted *wanted;
  int count;
} Filter;

/* One demand made easier: by so many people or machines, by hours as below, by the day or circuit of a number. */
typedef struct {
  const Wanted *wanted; /* NULL: none */
  int amount;
} Easing;

/* Hours end later by so many, or from EXPLAIN_MORE on begin earlier by the rest. */
void explain_lengthen(Shift *hours, int way);

/* The job without what was dropped, solved with a share of work. */
SolveResult explain_solve(Filter *filter, Easing easing);

/* ---- explain_words.c */

/* What is left of the demands cannot be made smaller. */
void explain_report(Filter *filter, Diags *diags);
/* Not proved: what times would do is the most that can be said. */
void explain_not_found(Filter *filter, Diags *diags);

#endif
