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
  WORK_SITE,    /* protection before an area's first step, clean-up after its last */
  WORK_KINDS
} WorkKind;

/* A step done bay by bay within another: slurry picked up along the way, by the same people or others who
 * follow. */
typedef struct {
  int run_min; /* of the activity's minutes; 0: there is no such step, and the rest means nothing */
  int step;
  int machine; /* index into Job.machines, -1 for none; booked as long as the activity's own */
  Figure minutes;
  int people;        /* who follow: the last of Activity.people. 0: the same people, taking turns with the field */
  const char *skill; /* of those who follow */
  int field_min;     /* for which the activity's own machine runs */
} Along;

typedef struct {
  const char *id; /* "lobby/densify/coat": stable and unique */
  int area, step; /* indices into Job.areas and that area's recipe; site work has the first step or the last */
  WorkKind kind;
  const char *part;  /* what it is of its step: "field", "coat 2 bay 1"; "" the whole */
  Figure minutes;    /* on the clock, for the whole crew of the activity; before rounding */
  int duration_min;  /* minutes rounded up */
  bool breakable;    /* may pause at a shift's end */
  bool attended;     /* needs people and therefore shifts; false: runs on the clock */
  int people;        /* all of them */
  const char *skill; /* of all but those who follow; NULL when not attended */
  int machine;       /* index into Job.machines, -1 for none; one machine */
  Along along;       /* its minutes are in `minutes` */
  bool hold;         /* a hold point ends it */
  /* for the take-off, 0 where it does not apply */
  Figure floor_m2;   /* floor worked over once (tool wear counts it once a step, not once a pass) */
  Figure edge_m;
  Figure material;   /* of `with`, in the unit of its packages: litres; fillers litres */
  Figure water_l, slurry_l;
  Figure readings;
  Span at;           /* the step */
} Activity;

static inline bool plan_runs_along(const Activity *a) { return a->along.run_min > 0 && a->along.machine >= 0; }

/* People asked for at one piece of work: so many with a skill and, if `also` is above 0, others with another. */
typedef struct {
  const char *skill, *also_skill;
  int people, also;
} Team;

static inline Team plan_team(const Activity *a)
{
  return (Team){ a->skill, a->along.skill, a->people - a->along.people, a->along.people };
}

/* Minutes for which its own machine runs. */
static inline int plan_field_min(const Activity *a)
{
  return a->along.run_min > 0 ? a->along.field_min : a->duration_min;
}

/* The skill that the n-th of its people needs. */
static inline const char *plan_skill_of(const Activity *a, int n)
{
  return n < a->people - a->along.people ? a->skill : a->along.skill;
}

/* finish-to-start and start-to-start, in clock minutes: `to` starts at least (MIN) or at most (MAX) that much
 * after. */
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
  int unit;       /* which machine of its class, from 0; -1 for none; mostly the same in all stretches */
  int along_unit; /* of the machine that runs along */
} Stretch;

typedef struct {
  Stretch *stretches; /* at least one; more where work pauses, or where somebody hands over to another */
  int stretch_count;
  int start, finish;
  int *people; /* all who take part, each once, in the order they come in */
  int people_count;
  int unit, along_unit; /* of the first stretch */
  /* With everybody's order of work and the plan's finish as they are: the latest start, and how much later that
   * is, in minutes of the people's hours (of the clock where nobody attends). 0: critical. */
  int latest_start, slack_min;
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
 * the skill, a window longer than any shift) goes to diags as an error at the step or field. Never NULL; with
 * errors the plan holds what could be expanded. All memory is the arena's, all figures go into `why`. */
Plan *plan_expand(const Job *job, Arena *arena, WhyBook *why, Diags *diags);

int plan_whole_minutes(double minutes); /* rounded up, but for an error of rounding */

/* A skill belongs to a crew that lists it; `any` belongs to all, and a crew that lists `any` has them all. */
bool plan_crew_can(const Crew *crew, const char *skill);

/* Schedules a plan that expanded without error, within `work` counted steps (0: the default), so that the same job
 * gets the same schedule on every machine. A little work may miss what more would find: where the times that must
 * be met are missed, the default is spent before saying so. Infeasible: the reason goes to diags. */
enum { PLAN_LITTLE_WORK = 1000000 };

/* How far the search is: minutes since the job's first midnight. */
typedef struct {
  int finish; /* of the best schedule so far, -1: none */
  int lower_bound;
} PlanProgress;

typedef struct {
  int64_t work;
  int threads;   /* to share it: the schedule does not depend on them; 0: 1 */
  bool only_try; /* where little work finds nothing there is neither more of it nor a finding */
  /* May be NULL. Called now and then; false: take the best so far. */
  bool (*progress)(void *context, const PlanProgress *progress);
  void *context;
} PlanSearch;

void plan_schedule(Plan *plan, const PlanSearch *search, Arena *arena, Diags *diags);

#endif
