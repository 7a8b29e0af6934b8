/* expand.c - a recipe over the areas of a job: activities and the lags between them. */
#include <math.h>
#include <string.h>

#include "base/mem.h"
#include "base/text.h"
#include "plan/effort.h"
#include "plan/plan.h"
#include "plan/roster.h"

enum { ENDS = 4, LOOK_DAYS = 28 };

/* What a step must wait for: the activities that end the one before, and a window that starts with the first of them. */
typedef struct {
  int activity[ENDS];
  int count;
  int at_most; /* minutes after activity[0] by which the next must start; -1: no such window */
  Span at;
} Ends;

typedef struct {
  Plan *plan;
  Arena *arena;
  WhyBook *why;
  Diags *diags;
  int activity_room, lag_room;
  int area, step;
  Ends before;
} Expansion;

static const Area *area_of(const Expansion *x) { return &x->plan->job->areas[x->area]; }

static const Step *step_of(const Expansion *x)
{
  return &x->plan->job->recipes[area_of(x)->recipe].steps[x->step];
}

static void *roomier(Arena *arena, void *old, int count, int *room, size_t each)
{
  if (count < *room) return old;
  *room = *room ? *room * 2 : 64;
  void *new = arena_array(arena, (size_t)*room, each);
  if (count) memcpy(new, old, (size_t)count * each);
  return new;
}

static void add_lag(Expansion *x, LagKind kind, int from, int to, int minutes, Span at)
{
  Plan *plan = x->plan;
  plan->lags = roomier(x->arena, plan->lags, plan->lag_count, &x->lag_room, sizeof *plan->lags);
  plan->lags[plan->lag_count++] = (Lag){ from, to, kind, minutes, at };
}

static int whole_minutes(double minutes) { return minutes > 0 ? (int)ceil(minutes - 1e-9) : 0; }

static Activity *add_activity(Expansion *x, WorkKind kind, const char *part, Figure minutes)
{
  Plan *plan = x->plan;
  plan->activities = roomier(x->arena, plan->activities, plan->activity_count, &x->activity_room, sizeof *plan->activities);
  Activity *a = &plan->activities[plan->activity_count++];
  *a = (Activity){ .area = x->area, .step = x->step, .kind = kind, .minutes = minutes, .machine = -1,
                   .duration_min = whole_minutes(minutes.value), .at = step_of(x)->at };
  a->id = arena_printf(x->arena, "%s/%s%s%s", area_of(x)->name, step_of(x)->name, part[0] ? "/" : "", part);
  return a;
}

static int index_of(const Expansion *x, const Activity *a) { return (int)(a - x->plan->activities); }

/* Starts after what ends the step before, and inside its window. */
static void follow(Expansion *x, int to)
{
  for (int i = 0; i < x->before.count; i++) add_lag(x, LAG_FS_MIN, x->before.activity[i], to, 0, (Span){ 0 });
  if (x->before.at_most >= 0) add_lag(x, LAG_FS_MAX, x->before.activity[0], to, x->before.at_most, x->before.at);
}

static void follow_within(Expansion *x, int to)
{
  follow(x, to);
  const Maybe *within = &step_of(x)->within_min;
  if (!within->given) return;
  for (int i = 0; i < x->before.count; i++)
    add_lag(x, LAG_FS_MAX, x->before.activity[i], to, (int)floor(within->figure.value + 1e-9), within->at);
}

static void ends_with(Expansion *x, int activity) { x->before = (Ends){ { activity }, 1, -1, { 0 } }; }

/* ---- who and what does it */

static bool can(const Crew *crew, const char *skill)
{
  if (strcmp(skill, "any") == 0) return true;
  for (int i = 0; i < crew->skill_count; i++)
    if (strcmp(crew->skills[i], skill) == 0 || strcmp(crew->skills[i], "any") == 0) return true;
  return false;
}

int plan_people_with(const Job *job, const char *skill, int shift)
{
  int people = 0;
  for (int i = 0; i < job->crew_count; i++)
    if (job->crews[i].shift == shift && can(&job->crews[i], skill)) people += job->crews[i].count;
  return people;
}

int plan_shift_for(const Job *job, const char *skill)
{
  int best = -1, most = 0;
  for (int shift = 0; shift < job->shift_count; shift++) {
    int people = plan_people_with(job, skill, shift);
    if (people > most) most = people, best = shift;
  }
  return best;
}

bool plan_crew_can(const Crew *crew, const char *skill) { return can(crew, skill); }

static void staff(Expansion *x, Activity *a, int people, const char *skill)
{
  const Job *job = x->plan->job;
  a->attended = true;
  a->people = people;
  a->skill = skill;
  int shift = plan_shift_for(job, skill), have = shift < 0 ? 0 : plan_people_with(job, skill, shift);
  if (have >= people) return;
  Diag diag = { .level = DIAG_ERROR, .code = "crew", .at = step_of(x)->at };
  diag.message = arena_printf(x->arena, "step %s needs %d with the skill `%s` on one shift, the job has %d",
                              step_of(x)->name, people, skill, have);
  diag.help = "give the skill to a crew of the job, or ask for fewer people in the step";
  diags_add(x->diags, &diag);
}

static bool suits(const Machine *m, const Step *step)
{
  if (step->machine) return strcmp(m->name, step->machine) == 0;
  return (m->does >> step->word & 1) && (!step->wet || m->wet);
}

static void no_machine(Expansion *x)
{
  const Step *step = step_of(x);
  Diag diag = { .level = DIAG_ERROR, .code = "machine", .at = step->at };
  diag.message = step->machine ? arena_printf(x->arena, "the job has no machine `%s` for step %s", step->machine, step->name)
                               : arena_printf(x->arena, "no machine of the job can %s%s for step %s", step_words[step->word],
                                              step->wet ? " wet" : "", step->name);
  diag.help = arena_printf(x->arena, "add a machine with does = { \"%s\" }%s", step_words[step->word],
                           step->wet ? " and wet = true" : "");
  diags_add(x->diags, &diag);
}

static int machine_for(const Expansion *x)
{
  const Job *job = x->plan->job;
  const char *preferred = area_of(x)->machine;
  int first = -1;
  for (int i = job->machine_count - 1; i >= 0; i--) {
    if (!suits(&job->machines[i], step_of(x))) continue;
    if (preferred && strcmp(job->machines[i].name, preferred) == 0) return i;
    first = i;
  }
  return first;
}

static int edger(const Job *job)
{
  for (int i = 0; i < job->machine_count; i++)
    if (job->machines[i].edger) return i;
  return -1;
}

static Effort effort(const Expansion *x, int machine)
{
  const Job *job = x->plan->job;
  return (Effort){ job, area_of(x), step_of(x), machine < 0 ? NULL : &job->machines[machine], x->arena, x->why, x->diags };
}

/* A piece of work that may not pause must fit into some shift. */
static void refuse_too_long(Expansion *x, const Activity *a)
{
  if (a->breakable || !a->attended) return;
  const Job *job = x->plan->job;
  int shift = plan_shift_for(job, a->skill);
  if (shift < 0) return;
  Calendar *people = roster_shift(job, shift, LOOK_DAYS), *area = roster_area(job, area_of(x), LOOK_DAYS);
  Calendar *both = calendar_both(people, area);
  int longest = roster_longest(both);
  calendar_free(people);
  calendar_free(area);
  calendar_free(both);
  if (a->duration_min <= longest) return;
  Diag diag = { .level = DIAG_ERROR, .code = "too-long", .at = a->at, .label_count = 1,
                .labels = { { area_of(x)->at, "in this area" } } };
  diag.message = arena_printf(x->arena, "%s takes %d min in one go, and no shift leaves more than %d min", a->id,
                              a->duration_min, longest);
  diag.help = "make the area smaller, spread faster, or lengthen the shift or the area's hours";
  diags_add(x->diags, &diag);
}

/* ---- families */

static void abrasive(Expansion *x)
{
  int number = machine_for(x);
  const Step *step = step_of(x);
  if (number < 0) {
    no_machine(x);
    return;
  }
  if (!x->plan->job->machines[number].width_m.given) {
    diags_error(x->diags, "machine", x->plan->job->machines[number].at, "machine %s needs a width to %s in lanes",
                x->plan->job->machines[number].name, step_words[step->word]);
    return;
  }
  Effort e = effort(x, number);
  Figure minutes;
  if (!effort_field(&e, &minutes)) return;
  Activity *field = add_activity(x, WORK_FIELD, "field", minutes);
  field->machine = number;
  field->breakable = true;
  field->floor_m2 = area_of(x)->area_m2;
  if (step->wet) field->water_l = field->slurry_l = effort_water_l(&e);
  staff(x, field, (int)step->people.value, step->skill);
  int field_index = index_of(x, field);
  follow_within(x, field_index);
  Ends ends = { { field_index }, 1, -1, { 0 } };

  if (step->edges && area_of(x)->edge_m.value > 0) {
    Effort by_hand = effort(x, edger(x->plan->job));
    Activity *edges = add_activity(x, WORK_EDGES, "edges", effort_edges(&by_hand));
    edges->machine = edger(x->plan->job);
    edges->breakable = true;
    edges->edge_m = area_of(x)->edge_m;
    staff(x, edges, 1, step->skill);
    int edges_index = index_of(x, edges);
    follow(x, edges_index);
    ends.activity[ends.count++] = edges_index;
  }
  x->before = ends;
}

/* The clock alone, or one person who stays: a dwell, a rest. Starts at once when `after` ends. */
static int stay(Expansion *x, WorkKind kind, const char *part, Figure minutes, int after, bool watched)
{
  Activity *a = add_activity(x, kind, part, minutes);
  if (watched) staff(x, a, 1, step_of(x)->skill);
  int index = index_of(x, a);
  refuse_too_long(x, a);
  add_lag(x, LAG_FS_MIN, after, index, 0, (Span){ 0 });
  add_lag(x, LAG_FS_MAX, after, index, 0, step_of(x)->at);
  return index;
}

/* Adds a window after `after`: its low end is stayed through, its high end bounds the next step's start. */
static int window(Expansion *x, WorkKind kind, const char *part, const Band *band, int after, bool watched)
{
  if (!band->has_low && !band->has_high) return after;
  Figure low = band->has_low ? band->low : (Figure){ 0, band->high.why };
  int index = stay(x, kind, part, low, after, watched);
  ends_with(x, index);
  if (band->has_high) {
    double left = band->high.value - low.value;
    x->before.at_most = (int)floor(left + 1e-9);
    x->before.at = band->at;
  }
  return index;
}

static void surface(Expansion *x)
{
  int number = machine_for(x);
  const Step *step = step_of(x);
  if (number < 0 && step->machine) {
    no_machine(x);
    return;
  }
  Effort e = effort(x, number);
  Activity *a = add_activity(x, WORK_SURFACE, "", effort_surface(&e));
  a->machine = number;
  a->breakable = !step->within_min.given;
  staff(x, a, (int)step->people.value, step->skill);
  refuse_too_long(x, a);
  int index = index_of(x, a);
  follow_within(x, index);
  ends_with(x, index);
  window(x, WORK_REST, "dry", &step->dry_min, index, false);
}

static const char *numbered(const Expansion *x, const char *part, int coat, int coats)
{
  return coats > 1 ? arena_printf(x->arena, "%s %d", part, coat) : part;
}

/* Repairs, joints and grout are handwork that can stop; a sprayed film cannot. */
static bool can_pause(StepWord word) { return word == STEP_GROUT || word == STEP_FILL || word == STEP_PATCH; }

static void coat(Expansion *x, int number, int coats)
{
  const Step *step = step_of(x);
  Effort e = effort(x, -1);
  Activity *a = add_activity(x, WORK_APPLY, numbered(x, "coat", number, coats), effort_apply(&e));
  a->breakable = can_pause(step->word);
  a->material = effort_material_l(&e);
  staff(x, a, (int)step->people.value, step->skill);
  refuse_too_long(x, a);
  int index = index_of(x, a);
  if (number == 1) follow_within(x, index);
  else follow(x, index);
  ends_with(x, index);
  index = window(x, WORK_DWELL, numbered(x, "dwell", number, coats), &step->dwell_min, index, step->keep_wet);
  window(x, WORK_REST, numbered(x, "dry", number, coats), &step->dry_min, index, false);
}

static void material(Expansion *x)
{
  const Step *step = step_of(x);
  if (step->word == STEP_FILL && area_of(x)->joint_m.value <= 0) return; /* no joints in this area */
  int coats = step->coats.why ? (int)step->coats.value : 1;
  for (int i = 1; i <= coats; i++) coat(x, i, coats);
}

static void wait(Expansion *x)
{
  Activity *a = add_activity(x, WORK_REST, "", step_of(x)->time_min.figure);
  int index = index_of(x, a);
  follow(x, index);
  ends_with(x, index);
}

static void check(Expansion *x)
{
  Effort e = effort(x, -1);
  Figure minutes, readings = effort_readings(&e, &minutes);
  Activity *a = add_activity(x, WORK_READ, "", minutes);
  a->readings = readings;
  a->hold = step_of(x)->hold;
  a->breakable = true;
  staff(x, a, (int)step_of(x)->people.value, step_of(x)->skill);
  int index = index_of(x, a);
  follow_within(x, index);
  ends_with(x, index);
}

static void expand_step(Expansion *x)
{
  static void (*const by_family[])(Expansion *) = {
    [FAMILY_ABRASIVE] = abrasive, [FAMILY_SURFACE] = surface, [FAMILY_MATERIAL] = material,
    [FAMILY_WAIT] = wait,         [FAMILY_CHECK] = check,
  };
  StepFamily family = step_family(step_of(x)->word);
  if (family != FAMILY_NOTE) by_family[family](x);
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
  for (x.area = 0; x.area < job->area_count; x.area++) {
    x.before = (Ends){ .at_most = -1 };
    for (x.step = 0; x.step < job->recipes[area_of(&x)->recipe].step_count; x.step++) expand_step(&x);
  }
  return plan;
}
