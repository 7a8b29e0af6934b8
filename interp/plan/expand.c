/* expand.c - a recipe over the areas of a job: activities and the lags between them. */
#include <math.h>
#include <string.h>

#include "plan/expansion.h"

const Area *expansion_area(const Expansion *x) { return &x->plan->job->areas[x->area]; }

static const Recipe *recipe_of(const Expansion *x) { return &x->plan->job->recipes[expansion_area(x)->recipe]; }

const Step *expansion_step(const Expansion *x) { return &recipe_of(x)->steps[x->step]; }

const Step *expansion_next(const Expansion *x, int *index)
{
  const Recipe *recipe = recipe_of(x);
  for (*index = x->step + 1; *index < recipe->step_count; ++*index)
    if (step_words[recipe->steps[*index].word].family != FAMILY_NOTE) return &recipe->steps[*index];
  return NULL;
}

/* ---- activities and lags */

static void *roomier(Arena *arena, void *old, int count, int *room, size_t each)
{
  if (count < *room) return old;
  *room = *room ? *room * 2 : 64;
  void *new = arena_array(arena, (size_t)*room, each);
  if (count) memcpy(new, old, (size_t)count * each);
  return new;
}

void expansion_lag(Expansion *x, LagKind kind, int from, int to, int minutes, Span at)
{
  Plan *plan = x->plan;
  plan->lags = roomier(x->arena, plan->lags, plan->lag_count, &x->lag_room, sizeof *plan->lags);
  plan->lags[plan->lag_count++] = (Lag){ from, to, kind, minutes, at };
}

int plan_whole_minutes(double minutes) { return minutes > 0 ? (int)ceil(minutes - 1e-9) : 0; }

Activity *expansion_add(Expansion *x, WorkKind kind, const char *part, Figure minutes)
{
  Plan *plan = x->plan;
  plan->activities = roomier(x->arena, plan->activities, plan->activity_count, &x->activity_room,
                             sizeof *plan->activities);
  Activity *a = &plan->activities[plan->activity_count++];
  *a = (Activity){ .area = x->area, .step = x->step, .kind = kind, .part = part, .minutes = minutes, .machine = -1,
                   .duration_min = plan_whole_minutes(minutes.value), .at = expansion_step(x)->at };
  a->id = arena_printf(x->arena, "%s/%s%s%s", expansion_area(x)->name, expansion_step(x)->name, part[0] ? "/" : "",
                       part);
  return a;
}

int expansion_index(const Expansion *x, const Activity *a) { return (int)(a - x->plan->activities); }

void expansion_follow(Expansion *x, int to)
{
  const Ends *b = &x->before;
  for (int i = 0; i < b->count; i++) expansion_lag(x, LAG_FS_MIN, b->activity[i], to, 0, (Span){ 0 });
  if (b->window_from >= 0) expansion_lag(x, b->window_kind, b->window_from, to, b->at_most, b->at);
}

void expansion_follow_within(Expansion *x, int to)
{
  expansion_follow(x, to);
  const Maybe *within = &expansion_step(x)->within_min;
  if (!within->given) return;
  int minutes = (int)floor(within->figure.value + 1e-9);
  for (int i = 0; i < x->before.count; i++)
    expansion_lag(x, LAG_FS_MAX, x->before.activity[i], to, minutes, within->at);
}

static Ends only(int activity) { return (Ends){ .activity = { activity }, .count = 1, .window_from = -1 }; }

void expansion_end(Expansion *x, int activity) { x->before = only(activity); }

int expansion_stay(Expansion *x, WorkKind kind, const char *part, Figure minutes, int after, bool watched)
{
  Activity *a = expansion_add(x, kind, part, minutes);
  if (watched) means_staff(x, a, 1, expansion_step(x)->skill);
  int index = expansion_index(x, a);
  means_refuse_too_long(x, a);
  expansion_lag(x, LAG_FS_MIN, after, index, 0, (Span){ 0 });
  expansion_lag(x, LAG_FS_MAX, after, index, 0, expansion_step(x)->at);
  return index;
}

/* Its low end is waited for, its high end bounds the next step's start. */
void expansion_dry(Expansion *x, const char *part, int after)
{
  const Band *band = &expansion_step(x)->dry_min;
  if (!band->has_low && !band->has_high) return;
  Figure low = band->has_low ? band->low : (Figure){ 0, band->high.why };
  int index = expansion_stay(x, WORK_REST, part, low, after, false);
  expansion_end(x, index);
  if (!band->has_high) return;
  x->before.window_from = index;
  x->before.window_kind = LAG_FS_MAX;
  x->before.at_most = (int)floor(band->high.value - low.value + 1e-9);
  x->before.at = band->at;
}

/* ---- abrasive work */

/* Slurry that would dry before the whole floor is done is picked up along the way, bay by bay. The step that does
 * so, or NULL. */
static const Step *collected_along(const Expansion *x, double field_min, int *index)
{
  const Step *step = expansion_step(x), *next = expansion_next(x, index);
  bool collects = step->wet && next && next->word == STEP_COLLECT && next->within_min.given;
  return collects && (next->follow || field_min > next->within_min.figure.value) ? next : NULL;
}

static const char *skill_of_both(Expansion *x, const Step *collect)
{
  const Step *step = expansion_step(x);
  if (strcmp(collect->skill, "any") == 0 || strcmp(collect->skill, step->skill) == 0) return step->skill;
  if (strcmp(step->skill, "any") == 0) return collect->skill;
  Diag diag = { .level = DIAG_ERROR, .code = "crew", .at = collect->at, .label_count = 1,
                .labels = { { step->at, "the step that leaves the slurry" } } };
  diag.message = arena_printf(x->arena, "the slurry of step %s is picked up along the way by the people of that "
                              "step, and step %s asks for the skill `%s`", step->name, collect->name, collect->skill);
  diag.help = "ask for the same skill in both steps, or for `any`";
  diags_add(x->diags, &diag);
  return step->skill;
}

static void set_minutes(Activity *a, Figure minutes)
{
  a->minutes = minutes;
  a->duration_min = plan_whole_minutes(minutes.value);
}

/* The same people stop for it. */
static void take_turns(Expansion *x, Activity *field, const Step *collect)
{
  const Step *step = expansion_step(x);
  const char *skill = skill_of_both(x, collect);
  Effort e = means_effort(x, field->machine);
  set_minutes(field, effort_together(&e, field->minutes, field->along.minutes));
  field->along.field_min = field->duration_min - field->along.run_min;
  int people = (int)(collect->people.value > step->people.value ? collect->people.value : step->people.value);
  means_staff(x, field, people, skill);
}

/* Others follow while the machine runs. */
static void follow_behind(Expansion *x, Activity *field, const Step *collect)
{
  const Step *step = expansion_step(x);
  Effort e = means_effort(x, field->machine);
  field->along.field_min = field->duration_min;
  set_minutes(field, effort_following(&e, field->minutes, field->along.minutes, collect->within_min.figure));
  field->along.people = (int)collect->people.value;
  field->along.skill = collect->skill;
  means_staff(x, field, (int)step->people.value + field->along.people, step->skill);
}

static void pick_up_along(Expansion *x, Activity *field, int collect_index, const Step *collect)
{
  int hone = x->step;
  x->step = collect_index;
  int vacuum = means_machine(x);
  if (vacuum < 0 && collect->machine) means_refuse_machine(x);
  Effort e = means_effort(x, vacuum);
  e.slurry_l = field->slurry_l;
  Figure minutes = effort_surface(&e);
  x->step = hone;
  x->done_step = collect_index;
  field->along = (Along){ plan_whole_minutes(minutes.value), collect_index, vacuum, minutes, 0, NULL, 0 };
  (collect->follow ? follow_behind : take_turns)(x, field, collect);
}

static int hand_edges(Expansion *x)
{
  const Step *step = expansion_step(x);
  int edger = means_edger(x->plan->job);
  Effort by_hand = means_effort(x, edger);
  Activity *edges = expansion_add(x, WORK_EDGES, "edges", effort_edges(&by_hand));
  edges->machine = edger;
  edges->breakable = true;
  edges->edge_m = expansion_area(x)->edge_m;
  means_staff(x, edges, 1, step->skill);
  int index = expansion_index(x, edges);
  expansion_follow(x, index);
  return index;
}

static bool has_width(Expansion *x, const Machine *m)
{
  if (m->width_m.given) return true;
  diags_error(x->diags, "machine", m->at, "machine %s needs a width to %s in lanes", m->name,
              step_words[expansion_step(x)->word].name);
  return false;
}

static void abrasive(Expansion *x)
{
  int number = means_machine(x), collect_index;
  const Step *step = expansion_step(x);
  if (number < 0) means_refuse_machine(x);
  if (number < 0 || !has_width(x, &x->plan->job->machines[number])) return;
  Effort e = means_effort(x, number);
  Figure minutes;
  if (!effort_field(&e, &minutes)) return;
  Activity *field = expansion_add(x, WORK_FIELD, "field", minutes);
  field->machine = number;
  field->breakable = true;
  field->floor_m2 = expansion_area(x)->area_m2;
  if (step->wet) field->water_l = field->slurry_l = effort_water_l(&e);
  const Step *collect = collected_along(x, minutes.value, &collect_index);
  if (collect) pick_up_along(x, field, collect_index, collect);
  else means_staff(x, field, (int)step->people.value, step->skill);
  int index = expansion_index(x, field);
  expansion_follow_within(x, index);
  Ends ends = only(index);
  if (step->edges && expansion_area(x)->edge_m.value > 0) ends.activity[ends.count++] = hand_edges(x);
  x->before = ends;
}

/* ---- the other families */

static void refuse_to_follow(Expansion *x)
{
  const Step *step = expansion_step(x);
  Diag diag = { .level = DIAG_ERROR, .code = "follow", .at = step->at };
  diag.message = arena_printf(x->arena, "step %s has nothing to follow", step->name);
  diag.help = "put it right behind a wet abrasive step and say `within`, or take `follow` out";
  diags_add(x->diags, &diag);
}

bool expansion_surface(Expansion *x, int bay, int bays)
{
  int number = means_machine(x);
  const Step *step = expansion_step(x);
  if (number < 0 && step->machine) {
    means_refuse_machine(x);
    return false;
  }
  if (step->word == STEP_COLLECT && step->follow) refuse_to_follow(x);
  Effort e = means_effort(x, number);
  e.bays = bays;
  if (step->word == STEP_COLLECT && x->before.count > 0)
    e.slurry_l = x->plan->activities[x->before.activity[0]].slurry_l;
  const char *part = bays > 1 ? arena_printf(x->arena, "bay %d", bay) : "";
  Activity *a = expansion_add(x, WORK_SURFACE, part, effort_surface(&e));
  a->machine = number;
  means_staff(x, a, (int)step->people.value, step->skill);
  /* A wet floor is not left to those who walk on it outside the area's hours, if it can be helped. */
  bool stays_wet = expansion_area(x)->has_hours && means_fits(x, a);
  a->breakable = !step->within_min.given && bays == 1 && !stays_wet;
  means_refuse_too_long(x, a);
  int index = expansion_index(x, a);
  expansion_follow_within(x, index);
  expansion_end(x, index);
  return true;
}

static void surface(Expansion *x)
{
  if (expansion_surface(x, 1, 1)) expansion_dry(x, "dry", x->before.activity[0]);
}

/* Collected along the way: what is left of the step is its drying, after the whole floor. */
static void dry_after_all(Expansion *x)
{
  const Band *dry = &expansion_step(x)->dry_min;
  if (step_words[expansion_step(x)->word].family != FAMILY_SURFACE || x->before.count == 0 || !dry->has_low) return;
  Ends ends = x->before;
  const Along *along = &x->plan->activities[ends.activity[0]].along;
  if (along->run_min == 0 || along->step != x->step) return;
  expansion_dry(x, "dry", ends.activity[0]);
  for (int i = 1; i < ends.count; i++)
    expansion_lag(x, LAG_FS_MIN, ends.activity[i], x->before.activity[0], 0, (Span){ 0 });
}

static void wait(Expansion *x)
{
  Activity *a = expansion_add(x, WORK_REST, "", expansion_step(x)->time_min.figure);
  int index = expansion_index(x, a);
  means_refuse_too_long(x, a);
  expansion_follow(x, index);
  expansion_end(x, index);
}

static void check(Expansion *x)
{
  const Step *step = expansion_step(x);
  Effort e = means_effort(x, -1);
  Figure minutes, readings = effort_readings(&e, &minutes);
  Activity *a = expansion_add(x, WORK_READ, "", minutes);
  a->readings = readings;
  a->hold = step->hold;
  a->breakable = true;
  means_staff(x, a, (int)step->people.value, step->skill);
  int index = expansion_index(x, a);
  expansion_follow_within(x, index);
  expansion_end(x, index);
}

static void expand_step(Expansion *x)
{
  static void (*const by_family[])(Expansion *) = {
    [FAMILY_ABRASIVE] = abrasive, [FAMILY_SURFACE] = surface, [FAMILY_MATERIAL] = expand_material,
    [FAMILY_WAIT] = wait,         [FAMILY_CHECK] = check,
  };
  StepFamily family = step_words[expansion_step(x)->word].family;
  if (family == FAMILY_NOTE) return;
  if (x->step == x->done_step) dry_after_all(x);
  else by_family[family](x);
}

/* ---- areas */

/* Masking and covering before the first step, clearing up after the last. */
static void site_work(Expansion *x, const char *part, Figure minutes)
{
  if (minutes.value <= 0) return;
  Activity *a = expansion_add(x, WORK_SITE, part, minutes);
  a->id = arena_printf(x->arena, "%s/%s", expansion_area(x)->name, part);
  a->breakable = true;
  means_staff(x, a, 1, "any");
  int index = expansion_index(x, a);
  expansion_follow(x, index);
  expansion_end(x, index);
}

static void expand_area(Expansion *x)
{
  int steps = recipe_of(x)->step_count;
  x->before = (Ends){ .window_from = -1 };
  x->done_step = -1;
  x->step = 0;
  means_begin_area(x);
  if (steps > 0) site_work(x, "protection", expansion_area(x)->protection_min);
  for (x->step = 0; x->step < steps; x->step++) expand_step(x);
  x->step = steps - 1;
  if (steps > 0) site_work(x, "clean-up", expansion_area(x)->clean_up_min);
}

static void name_people(Plan *plan, Arena *arena)
{
  const Job *job = plan->job;
  int total = 0;
  for (int i = 0; i < job->crew_count; i++) total += job->crews[i].count;
  plan->persons = arena_array(arena, (size_t)total + 1, sizeof *plan->persons);
  for (int i = 0; i < job->crew_count; i++)
    for (int n = 1; n <= job->crews[i].count; n++) {
      const char *class = job->crews[i].name;
      const char *name = job->crews[i].count > 1 ? arena_printf(arena, "%s %d", class, n) : class;
      plan->persons[plan->person_count++] = (Person){ name, i };
    }
}

Plan *plan_expand(const Job *job, Arena *arena, WhyBook *why, Diags *diags)
{
  Plan *plan = arena_alloc(arena, sizeof *plan);
  Expansion x = { .plan = plan, .arena = arena, .why = why, .diags = diags };
  plan->job = job;
  plan->status = PLAN_UNKNOWN;
  name_people(plan, arena);
  means_begin(&x);
  for (x.area = 0; x.area < job->area_count; x.area++) expand_area(&x);
  return plan;
}
