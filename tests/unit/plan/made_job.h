/* made_job.h - small jobs made in C, for the tests and the bench of the plan: any number of rooms with one method,
 * worked by a few people. Everything can be changed before it is expanded. */
#ifndef TESTS_UNIT_PLAN_MADE_JOB_H
#define TESTS_UNIT_PLAN_MADE_JOB_H

#include <stdio.h>
#include <string.h>

#include "base/arena.h"
#include "base/diag.h"
#include "base/why.h"
#include "model/date.h"
#include "plan/plan.h"

enum { MADE_STEPS = 12, MADE_CREWS = 4, MADE_SHIFTS = 3, MADE_CLOSED = 4 };
enum { WEEKDAYS = 0x1F, EVERY_DAY = 0x7F };
enum { MADE_PLANETARY, MADE_SMALL, MADE_EDGER, MADE_VACUUM, MADE_MACHINES };

typedef struct {
  Arena *arena;
  WhyBook *why;
  Diags *diags;
  Job job;
  Shift shifts[MADE_SHIFTS];
  Crew crews[MADE_CREWS];
  Machine machines[MADE_MACHINES];
  Recipe recipe;
  Step steps[MADE_STEPS];
  int closed[MADE_CLOSED];
  int lines; /* places given out so far */
} Made;

/* A place of its own for everything that a finding may point at. */
static inline Span made_place(Made *m)
{
  m->lines++;
  return (Span){ 1, (uint32_t)m->lines * 10, (uint32_t)m->lines * 10 + 5 };
}

static inline Figure made_figure(double value) { return (Figure){ value, 0 }; }
static inline Maybe made_maybe(double value) { return (Maybe){ true, { value, 0 }, { 0 } }; }

static inline Step *made_step(Made *m, StepWord word, const char *name)
{
  Step *s = &m->steps[m->recipe.step_count++];
  *s = (Step){ .word = word, .name = name, .at = made_place(m), .passes = { 4, 0 }, .people = { 1, 0 },
               .skill = "any", .edge_m_per_min = { 0.25, 0 }, .water_m2_per_l = { 2.5, 0 }, .rate_m2_per_min = made_maybe(5),
               .minutes_a_reading = { 3, 0 }, .least_readings = { 3, 0 } };
  return s;
}

static inline Step *made_hone(Made *m, const char *name, bool wet)
{
  Step *s = made_step(m, STEP_HONE, name);
  s->skill = "machine";
  s->wet = wet;
  return s;
}

static inline Step *made_collect(Made *m, const char *name, double within_min)
{
  Step *s = made_step(m, STEP_COLLECT, name);
  s->within_min = made_maybe(within_min);
  s->within_min.at = made_place(m);
  return s;
}

/* Spread over the floor; the dwell window of the densifier, kept wet. */
static inline Step *made_densify(Made *m, double low_min, double high_min)
{
  Step *s = made_step(m, STEP_DENSIFY, "densify");
  s->spread_m2_per_l = (Band){ .has_low = true, .low = { 11, 0 } };
  s->dwell_min = (Band){ true, true, { low_min, 0 }, { high_min, 0 }, made_place(m) };
  s->keep_wet = true;
  return s;
}

static inline Machine made_machine(Made *m, const char *name, unsigned does, double width_m)
{
  return (Machine){ .name = name, .at = made_place(m), .count = 1, .does = does, .wet = true,
                    .width_m = { width_m > 0, { width_m, 0 }, { 0 } }, .overlap_m = made_maybe(0.05),
                    .travel_m_per_min = made_maybe(5), .turn_min = { 0.25, 0 }, .duty = { 0.85, 0 },
                    .set_up_min = { 10, 0 }, .trip_min = { 10, 0 } };
}

static inline void made_crew(Made *m, const char *name, int count, const char *skill, int shift)
{
  const char **skills = arena_array(m->arena, 1, sizeof *skills);
  skills[0] = skill;
  m->crews[m->job.crew_count++] =
    (Crew){ .name = name, .at = made_place(m), .count = count, .skills = skills, .skill_count = 1, .shift = shift };
}

static inline Area *made_area(Made *m, const char *name, double length_m, double width_m)
{
  Area *a = &m->job.areas[m->job.area_count++];
  *a = (Area){ .name = name, .at = made_place(m), .area_m2 = { length_m * width_m, 0 }, .length_m = length_m,
               .width_m = width_m };
  return a;
}

static inline void made_shift(Made *m, const char *name, int from_hour, int until_hour, unsigned days)
{
  m->shifts[m->job.shift_count++] = (Shift){ .name = name, .from_min = from_hour * 60, .until_min = until_hour * 60,
                                             .days = days, .at = made_place(m) };
}

/* A job that begins on Monday 2027-03-01 at 07:00, with a planetary, a smaller one, an edger and a vacuum; shifts,
 * people, steps and areas are still to come. */
static inline Made *made_new(int areas)
{
  const unsigned abrasive = 1u << STEP_GRIND | 1u << STEP_HONE | 1u << STEP_POLISH;
  Arena *arena = arena_new();
  Made *m = arena_alloc(arena, sizeof *m);
  m->arena = arena;
  m->why = why_new();
  m->diags = diags_new();
  m->machines[MADE_PLANETARY] = made_machine(m, "planetary", abrasive, 0.8);
  m->machines[MADE_SMALL] = made_machine(m, "small planetary", abrasive, 0.5);
  m->machines[MADE_EDGER] = made_machine(m, "edger", 0, 0);
  m->machines[MADE_EDGER].edger = true;
  m->machines[MADE_VACUUM] = made_machine(m, "vacuum", 1u << STEP_COLLECT | 1u << STEP_CLEAN, 0);
  m->recipe = (Recipe){ .name = "method", .at = made_place(m), .steps = m->steps };
  m->job = (Job){ .name = "made", .currency = "USD", .at = made_place(m), .start_day = date_day(2027, 3, 1),
                  .start_min = 7 * 60, .shifts = m->shifts, .crews = m->crews, .machines = m->machines,
                  .machine_count = MADE_MACHINES, .recipes = &m->recipe, .recipe_count = 1,
                  .closed = { m->closed, 0, { 0 } } };
  m->job.areas = arena_array(arena, (size_t)areas + 1, sizeof *m->job.areas);
  return m;
}

static inline void made_free(Made *m)
{
  diags_free(m->diags);
  why_free(m->why);
  arena_free(m->arena);
}

static inline Plan *made_expand(Made *m) { return plan_expand(&m->job, m->arena, m->why, m->diags); }

static inline Plan *made_schedule(Made *m)
{
  const PlanSearch search = { .work = 2000000 };
  Plan *plan = made_expand(m);
  if (diags_errors(m->diags) == 0) plan_schedule(plan, &search, m->arena, m->diags);
  return plan;
}

static inline int made_find(const Plan *plan, const char *id)
{
  for (int i = 0; i < plan->activity_count; i++)
    if (strcmp(plan->activities[i].id, id) == 0) return i;
  return -1;
}

#endif
