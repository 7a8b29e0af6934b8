/* takeoff.h - what a plan takes: hours, machine time, floor under each tool, material, what extras are counted by.
 *
 * No money here. Quantities are sums over the plan's activities, each with a why node that leads back to them.
 * Where the plan is scheduled, hours are those booked; where it is not, they are the activities' own, crews are the
 * first that have the skill, and there are no premium hours. Everything lives in the arena. */
#ifndef COST_TAKEOFF_H
#define COST_TAKEOFF_H

#include <stdbool.h>

#include "base/arena.h"
#include "base/why.h"
#include "plan/plan.h"

/* Indices into Plan.activities, in the plan's order: the work behind a quantity. */
typedef struct {
  int *index;
  int count;
} Behind;

/* Person-hours of one crew class. A premium hour is also one of `hours`; an hour may be both night and overtime. */
typedef struct {
  int crew; /* into Job.crews */
  Figure hours;
  Figure night_h;    /* inside a shift marked night */
  Figure overtime_h; /* past the limits of a day or a week, for each person; paid standing counts towards them */
  Figure standing_h; /* between a person's first and last work of a shift, with nothing booked */
  Figure call_out_h; /* that Prices.call_out_min adds to short shifts */
  Figure person_days; /* persons times days on which they work */
  Behind behind;
} LabourUse;

typedef struct {
  int machine;  /* into Job.machines */
  int units;    /* how many of the class run at least once */
  Figure hours; /* running */
  Figure days;  /* on site: days with work on site from a unit's first use to its last, summed over units */
  int *calendar_days; /* of each unit used, first use to last, both included */
  Figure on_job_h; /* days x the length of the longest shift */
  Behind behind;
} MachineUse;

/* Floor that one kind of tool wears on: fields, and edges as a strip along the wall. */
typedef struct {
  const char *tool; /* "<bond> <grit>": "resin 400" */
  Figure floor_m2;
  Behind behind;
} ToolUse;

typedef struct {
  const char *material;
  Figure litres; /* coats and waste are in it */
  Behind behind;
} MaterialUse;

typedef struct {
  const Plan *plan;
  bool scheduled;
  LabourUse *labour;
  int labour_count;
  MachineUse *machines;
  int machine_count;
  ToolUse *tools;
  int tool_count;
  MaterialUse *materials;
  int material_count;
  Figure job, areas, floor_m2, joint_m; /* one job, how many areas, their floor once, their joints */
  Figure days;                     /* on which somebody works; a shift past midnight counts for the day it begins */
  Figure person_days;              /* persons times the days on which each works */
  Figure readings;
  Figure slurry_l, water_l;
} Takeoff;

/* The width of floor that hand work along a wall wears its tool on. Common practice, no source. */
extern const double takeoff_edge_strip_m;

Takeoff *takeoff_count(const Plan *plan, Arena *arena, WhyBook *why);

/* "resin 400", "resin" without a grit, the step's word where it names neither. */
const char *takeoff_tool_name(const Step *step, Arena *arena);

const Step *takeoff_step(const Plan *plan, int activity);

#endif
