#include "cost/takeoff.h"

#include <math.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "cost/hours.h"
#include "cost/show.h"
#include "cost/sums.h"

const double takeoff_edge_strip_m = 0.15;

typedef struct {
  const Plan *plan;
  const Job *job;
  Arena *arena;
  WhyBook *why;
  int *work_days; /* days on which somebody works, in order, each once; only when scheduled */
  int work_day_count;
  Figure edge_strip_m;
} Counting;

const Step *takeoff_step(const Plan *plan, int activity)
{
  const Activity *a = &plan->activities[activity];
  return &plan->job->recipes[plan->job->areas[a->area].recipe].steps[a->step];
}

const char *takeoff_tool_name(const Step *step, Arena *arena)
{
  if (step->grit <= 0) return step->bond ? step->bond : step_words[step->word].name;
  Buf name = { 0 };
  if (step->bond) buf_printf(&name, "%s ", step->bond);
  show_number(&name, step->grit, 2);
  const char *kept = arena_strdup(arena, buf_text(&name));
  buf_free(&name);
  return kept;
}

/* ---- people */

static int shift_length(const Job *job, int crew)
{
  int shift = job->crews[crew].shift;
  if (shift < 0 || shift >= job->shift_count) return DAY_MIN;
  return job->shifts[shift].until_min - job->shifts[shift].from_min;
}

static int first_crew(const Job *job, const char *skill)
{
  for (int i = 0; i < job->crew_count; i++)
    if (skill == NULL || plan_crew_can(&job->crews[i], skill)) return i;
  return -1;
}

static bool crew_works_on(const Counting *c, int crew, int activity)
{
  const Activity *a = &c->plan->activities[activity];
  if (c->plan->bookings == NULL) return a->attended && first_crew(c->job, a->skill) == crew;
  const Booking *booking = &c->plan->bookings[activity];
  for (int i = 0; i < booking->people_count; i++)
    if (c->plan->persons[booking->people[i]].crew == crew) return true;
  return false;
}

static Figure hours(const Counting *c, const Sum *sum, const char *crew, const char *what, const char *formula,
                    long long minutes)
{
  Sum total = *sum;
  total.value = (double)minutes / 60;
  return sum_figure(&total, c->why, arena_printf(c->arena, "%s, %s", crew, what), "h", formula);
}

/* Where nothing is scheduled, a person is taken to fill one shift after the other. */
static Figure person_days(const Counting *c, const Sum *sum, const char *crew_name, int crew,
                          const CrewMinutes *minutes)
{
  const char *what = arena_printf(c->arena, "%s, days of all persons", crew_name);
  Sum total = *sum;
  total.value = minutes->days;
  if (c->plan->bookings) return sum_figure(&total, c->why, what, "day", "persons x days on which they work");
  int length = shift_length(c->job, crew);
  return why_default(c->why, what, length > 0 ? ceil((double)minutes->worked / length) : 1, "day", c->job->at,
                     "not scheduled: work over the length of a shift");
}

static void count_crew(const Counting *c, int crew, Takeoff *out)
{
  Sum sum = sum_begin(c->plan, c->arena);
  CrewMinutes minutes = { 0 };
  for (int i = 0; i < c->plan->activity_count; i++) {
    const Activity *a = &c->plan->activities[i];
    if (!crew_works_on(c, crew, i)) continue;
    sum_add(&sum, i, 0, a->minutes.why);
    minutes.worked += (long long)a->people * a->duration_min;
  }
  if (sum.count == 0) return;
  if (c->plan->bookings) minutes = hours_of_crew(c->plan, crew, c->arena);
  const char *name = c->job->crews[crew].name;
  out->labour[out->labour_count++] = (LabourUse){
    .crew = crew,
    .hours = hours(c, &sum, name, "hours", "sum of people x minutes / 60", minutes.worked),
    .night_h = hours(c, &sum, name, "night hours", "hours inside a shift marked night", minutes.night),
    .overtime_h = hours(c, &sum, name, "overtime hours", "hours past the limit, by person and shift day",
                        minutes.overtime),
    .standing_h = hours(c, &sum, name, "standing hours", "first to last work of a shift day - hours booked",
                        minutes.standing),
    .call_out_h = hours(c, &sum, name, "call-out hours", "least time paid for a shift - first to last work",
                        minutes.call_out),
    .person_days = person_days(c, &sum, name, crew, &minutes),
    .behind = sum_behind(&sum),
  };
}

/* ---- days */

static int compare_int(const void *left, const void *right)
{
  int a = *(const int *)left, b = *(const int *)right;
  return (a > b) - (a < b);
}

static void find_work_days(Counting *c)
{
  int room = 0;
  for (int i = 0; i < c->plan->activity_count; i++) room += c->plan->bookings[i].stretch_count;
  int *days = arena_array(c->arena, (size_t)room + 1, sizeof *days), count = 0;
  for (int i = 0; i < c->plan->activity_count; i++) {
    const Booking *b = &c->plan->bookings[i];
    for (int s = 0; s < b->stretch_count && b->people_count > 0; s++)
      days[count++] = hours_work_day(c->plan, &b->stretches[s]);
  }
  qsort(days, (size_t)count, sizeof *days, compare_int);
  for (int i = 0; i < count; i++)
    if (i == 0 || days[i] != days[i - 1]) days[c->work_day_count++] = days[i];
  c->work_days = days;
}

static int work_days_between(const Counting *c, int first, int last)
{
  int count = 0;
  for (int i = 0; i < c->work_day_count; i++) count += c->work_days[i] >= first && c->work_days[i] <= last;
  return count;
}

static int longest_shift(const Job *job)
{
  int longest = 0;
  for (int i = 0; i < job->crew_count; i++)
    if (shift_length(job, i) > longest) longest = shift_length(job, i);
  return longest;
}

static Figure days_assumed(const Counting *c, const char *what, double minutes_a_unit)
{
  int length = c->job->crew_count > 0 ? shift_length(c->job, 0) : DAY_MIN;
  double days = length > 0 ? ceil(minutes_a_unit / length) : 1;
  return why_default(c->why, what, days, "day", c->job->at, "not scheduled: work over the length of a shift");
}

static Figure job_days(const Counting *c, const Takeoff *t)
{
  if (c->plan->bookings)
    return why_computed(c->why, "days worked on site", c->work_day_count, "day", "days with booked work", NULL, 0);
  double busiest_min = 0;
  for (int i = 0; i < t->labour_count; i++) {
    const Crew *crew = &c->job->crews[t->labour[i].crew];
    double minutes = t->labour[i].hours.value * 60 / (crew->count > 0 ? crew->count : 1);
    if (minutes > busiest_min) busiest_min = minutes;
  }
  return days_assumed(c, "days worked on site", busiest_min);
}

/* ---- machines */

typedef struct {
  int first, last;
  bool used;
} UnitDays;

static void widen(UnitDays *unit, int day)
{
  if (!unit->used || day < unit->first) unit->first = day;
  if (!unit->used || day > unit->last) unit->last = day;
  unit->used = true;
}

static int booked_minutes(const Booking *booking)
{
  int minutes = 0;
  for (int s = 0; s < booking->stretch_count; s++)
    minutes += booking->stretches[s].finish - booking->stretches[s].start;
  return minutes;
}

/* Minutes that a machine runs in an activity: of two that take turns, each its own. */
static int run_minutes(const Counting *c, int activity, bool along, UnitDays *units, int unit_count)
{
  const Activity *a = &c->plan->activities[activity];
  if (c->plan->bookings == NULL) return along ? a->along.run_min : plan_field_min(a);
  const Booking *b = &c->plan->bookings[activity];
  for (int s = 0; s < b->stretch_count; s++) {
    int unit = along ? b->stretches[s].along_unit : b->stretches[s].unit;
    if (unit >= 0 && unit < unit_count) widen(&units[unit], hours_work_day(c->plan, &b->stretches[s]));
  }
  return along ? a->along.run_min : booked_minutes(b) - (a->duration_min - plan_field_min(a));
}

static void sum_machine(const Counting *c, int machine, int activity, UnitDays *units, Sum *sum)
{
  const Activity *a = &c->plan->activities[activity];
  int count = c->job->machines[machine].count;
  if (a->machine == machine)
    sum_add(sum, activity, run_minutes(c, activity, false, units, count) / 60.0, a->minutes.why);
  if (plan_runs_along(a) && a->along.machine == machine)
    sum_add(sum, activity, run_minutes(c, activity, true, units, count) / 60.0, a->along.minutes.why);
}

/* Days with work on site, over all units of a class that run; fills in the units and their calendar days. */
static Figure unit_days(const Counting *c, const Sum *sum, const UnitDays *units, int unit_count, const char *what,
                        MachineUse *use)
{
  Sum on_site = *sum;
  on_site.value = 0;
  use->units = 0;
  for (int i = 0; i < unit_count; i++)
    if (units[i].used) {
      use->calendar_days[use->units++] = units[i].last - units[i].first + 1;
      on_site.value += work_days_between(c, units[i].first, units[i].last);
    }
  return sum_figure(&on_site, c->why, what, "day", "days with work on site, first to last use, each unit");
}

static void count_machine(const Counting *c, int machine, Takeoff *out)
{
  const Machine *class = &c->job->machines[machine];
  Sum sum = sum_begin(c->plan, c->arena);
  UnitDays *units = arena_array(c->arena, (size_t)class->count + 1, sizeof *units);
  for (int i = 0; i < c->plan->activity_count; i++) sum_machine(c, machine, i, units, &sum);
  if (sum.count == 0) return;
  MachineUse *use = &out->machines[out->machine_count++];
  const char *what = arena_printf(c->arena, "%s, days on site", class->name);
  *use = (MachineUse){ .machine = machine, .units = 1, .behind = sum_behind(&sum) };
  use->hours = sum_figure(&sum, c->why, arena_printf(c->arena, "%s, running hours", class->name), "h",
                          "sum of minutes / 60");
  use->calendar_days = arena_array(c->arena, (size_t)class->count + 1, sizeof *use->calendar_days);
  if (c->plan->bookings) {
    use->days = unit_days(c, &sum, units, class->count, what, use);
  } else {
    use->days = days_assumed(c, what, sum.value * 60);
    use->calendar_days[0] = (int)use->days.value;
  }
  use->on_job_h = why_worked(c->why, arena_printf(c->arena, "%s, hours on the job", class->name), "h",
                             "days on site x longest shift", why_product,
                             (Figure[]){ use->days, { longest_shift(c->job) / 60.0, 0 } }, 2);
}

/* ---- tools and materials: gathered by name, in the order of first use */

typedef Figure (*FigureOf)(const Counting *c, int activity);

/* Per activity: the tool it wears, or NULL. */
static const char **tool_names(const Counting *c)
{
  const char **names = arena_array(c->arena, (size_t)c->plan->activity_count + 1, sizeof *names);
  for (int i = 0; i < c->plan->activity_count; i++) {
    WorkKind kind = c->plan->activities[i].kind;
    if (kind == WORK_FIELD || kind == WORK_EDGES) names[i] = takeoff_tool_name(takeoff_step(c->plan, i), c->arena);
  }
  return names;
}

static Figure worn_floor(const Counting *c, int activity)
{
  const Activity *a = &c->plan->activities[activity];
  if (a->kind == WORK_FIELD) return a->floor_m2;
  return why_worked(c->why, "floor under edge tools", "m2", "edge x strip", why_product,
                    (Figure[]){ a->edge_m, c->edge_strip_m }, 2);
}

static Figure assumed_strip(const Counting *c)
{
  for (int i = 0; i < c->plan->activity_count; i++)
    if (c->plan->activities[i].kind == WORK_EDGES)
      return why_default(c->why, "edge strip that wears a tool", takeoff_edge_strip_m, "m",
                         c->job->at, "common practice, no source");
  return (Figure){ takeoff_edge_strip_m, 0 };
}

/* Per activity: the material it uses, or NULL. */
static const char **material_names(const Counting *c)
{
  const char **names = arena_array(c->arena, (size_t)c->plan->activity_count + 1, sizeof *names);
  for (int i = 0; i < c->plan->activity_count; i++) {
    if (c->plan->activities[i].material.value <= 0) continue;
    const Step *step = takeoff_step(c->plan, i);
    names[i] = step->with ? step->with : step_words[step->word].name;
  }
  return names;
}

static Figure litres_of(const Counting *c, int activity) { return c->plan->activities[activity].material; }

/* Sums up every activity of the same name as the first, and clears those names. */
static Sum gather(const Counting *c, const char **names, int first, FigureOf figure_of)
{
  Sum sum = sum_begin(c->plan, c->arena);
  const char *name = names[first];
  for (int i = first; i < c->plan->activity_count; i++) {
    if (names[i] == NULL || strcmp(names[i], name) != 0) continue;
    Figure figure = figure_of(c, i);
    sum_add(&sum, i, figure.value, figure.why);
    names[i] = NULL;
  }
  return sum;
}

static void count_tools(const Counting *c, Takeoff *out)
{
  const char **names = tool_names(c);
  for (int i = 0; i < c->plan->activity_count; i++) {
    const char *tool = names[i];
    if (tool == NULL) continue;
    Sum sum = gather(c, names, i, worn_floor);
    const char *what = arena_printf(c->arena, "floor under %s", tool);
    out->tools[out->tool_count++] =
      (ToolUse){ tool, sum_total(&sum, c->why, what, "m2", "sum of floor, once a step"), sum_behind(&sum) };
  }
}

static void count_materials(const Counting *c, Takeoff *out)
{
  const char **names = material_names(c);
  for (int i = 0; i < c->plan->activity_count; i++) {
    const char *material = names[i];
    if (material == NULL) continue;
    Sum sum = gather(c, names, i, litres_of);
    out->materials[out->material_count++] =
      (MaterialUse){ material, sum_total(&sum, c->why, material, "L", "sum over steps"), sum_behind(&sum) };
  }
}

/* ---- the job as a whole */

static Figure area_sum(const Counting *c, bool joints)
{
  Sum sum = sum_begin(c->plan, c->arena);
  for (int i = 0; i < c->job->area_count; i++) {
    Figure figure = joints ? c->job->areas[i].joint_m : c->job->areas[i].area_m2;
    sum_add(&sum, i, figure.value, figure.why);
  }
  return sum_total(&sum, c->why, joints ? "joints of the job" : "floor of the job", joints ? "m" : "m2",
                    "sum of the areas");
}

/* A figure of Activity, by its offset. */
static Figure activity_sum(const Counting *c, size_t figure_at, const char *what, const char *unit)
{
  Sum sum = sum_begin(c->plan, c->arena);
  for (int i = 0; i < c->plan->activity_count; i++) {
    const Figure *figure = (const Figure *)((const char *)&c->plan->activities[i] + figure_at);
    if (figure->value > 0) sum_add(&sum, i, figure->value, figure->why);
  }
  return sum_total(&sum, c->why, what, unit, "sum over steps");
}

static Figure all_person_days(const Counting *c, const Takeoff *t)
{
  Sum sum = sum_begin(c->plan, c->arena);
  for (int i = 0; i < t->labour_count; i++)
    sum_add(&sum, i, t->labour[i].person_days.value, t->labour[i].person_days.why);
  return sum_total(&sum, c->why, "days of all persons", "day", "sum over crews");
}

Takeoff *takeoff_count(const Plan *plan, Arena *arena, WhyBook *why)
{
  Counting c = { .plan = plan, .job = plan->job, .arena = arena, .why = why };
  Takeoff *t = arena_alloc(arena, sizeof *t);
  size_t most = (size_t)plan->activity_count + 1;
  *t = (Takeoff){ .plan = plan, .scheduled = plan->bookings != NULL };
  t->labour = arena_array(arena, (size_t)plan->job->crew_count + 1, sizeof *t->labour);
  t->machines = arena_array(arena, (size_t)plan->job->machine_count + 1, sizeof *t->machines);
  t->tools = arena_array(arena, most, sizeof *t->tools);
  t->materials = arena_array(arena, most, sizeof *t->materials);
  if (t->scheduled) find_work_days(&c);
  c.edge_strip_m = assumed_strip(&c);
  for (int i = 0; i < plan->job->crew_count; i++) count_crew(&c, i, t);
  for (int i = 0; i < plan->job->machine_count; i++) count_machine(&c, i, t);
  count_tools(&c, t);
  count_materials(&c, t);
  t->job = (Figure){ 1, 0 };
  t->areas = (Figure){ plan->job->area_count, 0 };
  t->floor_m2 = area_sum(&c, false);
  t->joint_m = area_sum(&c, true);
  t->slurry_l = activity_sum(&c, offsetof(Activity, slurry_l), "slurry", "L");
  t->water_l = activity_sum(&c, offsetof(Activity, water_l), "water", "L");
  t->readings = activity_sum(&c, offsetof(Activity, readings), "readings", "");
  t->person_days = all_person_days(&c, t);
  t->days = job_days(&c, t);
  return t;
}
