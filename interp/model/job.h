/* job.h - a job as plain data: rooms, people, machines, shifts, and which recipe goes where. Instants are minutes
 * since the midnight that begins the job's start day; times in minutes, all else in SI. */
#ifndef MODEL_JOB_H
#define MODEL_JOB_H

#include <stdbool.h>

#include "base/arena.h"
#include "model/prices.h"
#include "model/recipe.h"
#include "model/risk.h"

enum { DAY_MIN = 1440, WEEK_DAYS = 7 };

/* A part of the day, on some days of the week; `until` may lie past midnight (22:00 to 06:00 is 1320 to 1800). */
typedef struct {
  const char *name; /* "night"; NULL for hours that are not a shift */
  int from_min, until_min;
  unsigned days; /* bit 0 Monday .. bit 6 Sunday: the day on which it begins */
  bool night;    /* its hours earn the night premium */
  Span at;
} Shift;

/* Days since 1970-01-01, in the order written. */
typedef struct {
  int *days;
  int count;
  Span at;
} Days;

typedef struct {
  const char *name; /* class: "operator" */
  Span at;
  int count;
  const char **skills;
  int skill_count;
  int shift; /* index into Job.shifts */
  Days away; /* none of them works a shift that begins then */
} Crew;

typedef struct {
  const char *name; /* class: "planetary 32 in" */
  Span at;
  int count;
  unsigned does; /* bit per StepWord */
  bool edger;    /* works edges by hand */
  bool wet;      /* may run wet */
  Maybe width_m, overlap_m, travel_m_per_min, rate_m2_per_min;
  Figure turn_min, duty, set_up_min;
  Maybe tank_l;    /* water it carries, or slurry it takes up; not given: a hose, no trips */
  Figure trip_min; /* to fill or empty it once */
  bool has_hours;  /* it may run within these hours only */
  Shift hours;
  Days away;       /* not on site then */
  Maybe amps, volts; /* what it draws from a circuit; either not given: nothing that is known */
  bool three_phase;
} Machine;

/* A circuit of the site. */
typedef struct {
  double amps, volts; /* of its breaker */
  bool three_phase;
} Supply;

typedef struct {
  const char *name;
  Span at;
  int recipe; /* index into Job.recipes */
  Figure area_m2;
  double length_m, width_m; /* 0 where the outline is not a rectangle */
  Figure edge_m;            /* wall and column edges worked by hand */
  Figure joint_m;
  const char *machine;      /* class that works here where it can; NULL: the first that can */
  bool has_hours; /* work and wet floor only within these hours; the floor is open to walk on outside them */
  Shift hours;
  Maybe finish_by; /* an instant */
  Figure protection_min, clean_up_min; /* site work before the first step and after the last; 0: none */
} Area;

/* A sum that the price carries for work that cannot be known before the floor is opened. */
typedef struct {
  const char *name; /* "crack repair" */
  Span at;
  Rate sum;
} Allowance;

/* An area done by another recipe, priced as a difference. */
typedef struct {
  const char *name, *says; /* says NULL: nothing for the client */
  Span at;
  int area, recipe;        /* recipe: into Job.recipes, maybe past recipe_count, which counts those of the areas */
} Alternate;

typedef struct {
  const char *name, *currency;
  Span at;
  const char *client, *place; /* who asked for it, where the floor is; NULL: not said */
  const char *contractor;     /* who makes the bid; NULL: not said */
  int dated_day;              /* of the papers, since 1970-01-01; 0: not said */
  const char **excludes;      /* what the price does not cover, in the shop's words */
  int exclude_count;
  const char **terms; /* of the proposal, in the shop's words */
  int term_count;
  Allowance *allowances;
  int allowance_count;
  Alternate *alternates;
  int alternate_count;
  bool metric;
  int start_day; /* days since 1970-01-01 */
  int start_min; /* minutes after that day's midnight */
  Maybe finish_by; /* an instant */
  Figure move_min; /* to bring a machine into an area where there are several */
  Shift *shifts;
  int shift_count;
  Shift *site_hours; /* NULL: open at all hours */
  Days closed;
  Supply *supplies;  /* circuits; none: nothing is known of them, and nothing limited by them */
  int supply_count;
  Span supplies_at;
  Crew *crews;
  int crew_count;
  Machine *machines;
  int machine_count;
  Area *areas;
  int area_count;
  Recipe *recipes;
  int recipe_count;
  Waiver *waivers; /* besides those of the recipes */
  int waiver_count;
  Prices *prices; /* NULL: the job names no price book */
  RiskSetting risk;
} Job;

/* What a file's script left behind; everything in it lives in the arena, every figure in the why-book. */
typedef enum { DOCUMENT_NONE, DOCUMENT_RECIPE, DOCUMENT_JOB, DOCUMENT_PRICES } DocumentKind;
typedef struct {
  DocumentKind kind;
  Job *job;
  Prices *prices;
  Arena *arena;
  WhyBook *why;
} Document;

#endif
