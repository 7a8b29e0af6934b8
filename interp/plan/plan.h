/* plan.h - a job spread out in work: activities with their minutes and quantities, the lags between them, and, once
 * scheduled, when each is done and by whom. */
#ifndef PLAN_PLAN_H
#define PLAN_PLAN_H

#include <stdbool.h>

#include "base/arena.h"
#include "base/diag.h"
#include "model/job.h"

typedef enum {
  WORK_FIELD,   /* a machine in lanes */
  WORK_EDGES,   /* hand work along walls and columns */
  WORK_SURFACE, /* collect, clean */
  WORK_APPLY,   /* spread, fill, patch */
  WORK_DWELL,   /* the material works; a person may stay and keep it wet */
  WORK_REST,    /* drying, waiting: the clock only */
  WORK_READ,    /* readings */
  WORK_KINDS
} WorkKind;

typedef struct {
  const char *id; /* "lobby/densify/apply": stable and unique */
  int area, step; /* indices into Job.areas and that area's recipe */
  WorkKind kind;
  Figure minutes;    /* on the clock, for the whole crew of the activity; before rounding */
  int duration_min;  /* minutes rounded up */
  bool breakable;    /* may pause at a shift's end */
  bool attended;     /* needs people and therefore shifts; false: runs on the clock */
  int people;
  const char *skill; /* NULL when not attended */
  int machine;       /* index into Job.machines, -1 for none; one machine */
  bool hold;         /* a hold point ends it */
  /* for the take-off, 0 where it does not apply */
  Figure floor_m2;   /* floor worked over once (tool wear counts it once a step, not once a pass) */
  Figure edge_m;
  Figure material;   /* of `with`, in the unit of its packages: litres; fillers litres */
  Figure water_l, slurry_l;
  Figure readings;
  Span at;           /* the step */
} Activity;

/* finish-to-start and start-to-start, in clock minutes: `to` starts at least (MIN) or at most (MAX) that much after. */
typedef enum { LAG_FS_MIN, LAG_FS_MAX, LAG_SS_MIN, LAG_SS_MAX } LagKind;

typedef struct {
  int from, to;
  LagKind kind;
  int minutes;
  Span at; /* the field that asks for it; nowhere for plain order */
} Lag;

/* One stretch of work by the same people, minutes since the job's first midnight; finish exclusive. `people` are as
 * many numbers of Plan.persons as the activity asks for; NULL where nobody attends. */
typedef struct {
  int start, finish;
  const int *people;
} Stretch;

typedef struct {
  Stretch *stretches; /* at least one; more where work pauses, or where somebody hands over to another */
  int stretch_count;
  int start, finish;
  int *people; /* all who take part, each once, in the order they come in */
  int people_count;
  int unit;         /* which machine of its class, from 0; -1 for none */
} Booking;

typedef struct {
  const char *name; /* "operator 2" */
  int crew;         /* index into Job.crews */
} Person;

typedef enum { PLAN_FEASIBLE, PLAN_PROVED_BEST, PLAN_INFEASIBLE, PLAN_UNKNOWN } PlanStatus;

typedef struct {
  const Job *job;
  Activity *activities;
  int activity_count;
  Lag *lags;
  int lag_count;
  Person *persons;
  int person_count;
  /* after plan_schedule */
  PlanStatus status;
  Booking *bookings; /* one an activity; NULL unless feasible */
  int finish, lower_bound;
} Plan;

/* Expands every area's recipe into activities and lags. What cannot be done (no machine for a step, no person with
 * the skill, a window longer than any shift) goes to diags as an error at the step or field. Never NULL; with errors
 * the plan holds what could be expanded. All memory is the arena's, all figures go into `why`. */
Plan *plan_expand(const Job *job, Arena *arena, WhyBook *why, Diags *diags);

/* A skill belongs to a crew that lists it; `any` belongs to all, and a crew that lists `any` has them all. */
bool plan_crew_can(const Crew *crew, const char *skill);
int plan_people_with(const Job *job, const char *skill, int shift);
/* People of one skill work together in one shift: the one with most of them, the first written if equal. -1: nobody. */
int plan_shift_for(const Job *job, const char *skill);

/* Schedules a plan that expanded without error, within `work` counted steps (0: the default), so that the same job gets
 * the same schedule on every machine. A little work may miss what more would find: where the times that must be met
 * are missed, the default is spent before saying so. Infeasible: the reason goes to diags. */
enum { PLAN_LITTLE_WORK = 1000000 };
void plan_schedule(Plan *plan, int64_t work, Arena *arena, Diags *diags);

#endif
