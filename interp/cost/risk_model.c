#include "cost/risk_model.h"

#include <stddef.h>

#include "base/mem.h"

enum { MACHINES_AT_ONCE = 2 };

typedef struct {
  RiskModel *m;
  const Plan *plan;
  const Takeoff *takeoff;
  const Cost *cost;
  const WhyBook *why;
  Arena *arena;
  Why *figures; /* nodes of the inputs that are figures, then of the leaves */
} Laying;

/* ---- what is drawn */

static const Spread *alike(const RiskModel *m, const Estimate *e)
{
  for (int i = 0; i < m->input_count; i++)
    if (m->inputs[i].spread && spread_alike(m->inputs[i].spread, e)) return m->inputs[i].spread;
  return NULL;
}

static void add_input(RiskModel *m, RiskInput input)
{
  Estimate e = { m->setting->shape, input.low, input.likely, input.high };
  if (e.low < e.high) input.spread = spread_new(&e, alike(m, &e));
  m->inputs[m->input_count++] = input;
}

static RiskInput input_of(const WhyBook *book, Why why)
{
  const WhyNode *node = why_node(book, why);
  return (RiskInput){ .what = node->what, .unit = node->unit, .at = node->at, .low = node->low,
                      .likely = node->value, .high = node->high, .why = why };
}

static bool is_estimate(const WhyNode *node) { return node->origin != WHY_COMPUTED && node->low < node->high; }

static bool is_factor(const RiskSetting *s, Why why)
{
  const Maybe *factors[] = { &s->production, &s->hardness, &s->drying, &s->areas };
  for (size_t i = 0; i < sizeof factors / sizeof *factors; i++)
    if (factors[i]->given && factors[i]->figure.why == why) return true;
  return false;
}

/* Factors come as fractions. */
static int add_factor(Laying *x, const Maybe *factor, const char *what)
{
  if (!factor->given) return -1;
  RiskInput input = input_of(x->why, factor->figure.why);
  input.what = what;
  add_input(x->m, input);
  return x->m->input_count - 1;
}

static bool is_abrasive(const Plan *plan, const Activity *a)
{
  return step_words[takeoff_step(plan, (int)(a - plan->activities))->word].family == FAMILY_ABRASIVE;
}

static bool is_drying(const Plan *plan, const Activity *a)
{
  return a->kind == WORK_REST && takeoff_step(plan, (int)(a - plan->activities))->word != STEP_WAIT;
}

static void add_factors(Laying *x)
{
  RiskModel *m = x->m;
  const RiskSetting *s = m->setting;
  int production = add_factor(x, &s->production, "production of the crew");
  int hardness = add_factor(x, &s->hardness, "hardness of the slab"), drying = add_factor(x, &s->drying, "drying");
  int area = m->input_count;
  for (int i = 0; s->areas.given && i < x->plan->job->area_count; i++)
    add_factor(x, &s->areas, arena_printf(x->arena, "work in %s", x->plan->job->areas[i].name));
  for (int i = 0; i < x->plan->activity_count; i++) {
    const Activity *a = &x->plan->activities[i];
    bool is_work = a->attended && a->kind != WORK_DWELL;
    int *factor = m->work[i].factor;
    factor[FACTOR_PRODUCTION] = is_work ? production : -1;
    factor[FACTOR_HARDNESS] = is_abrasive(x->plan, a) ? hardness : -1;
    factor[FACTOR_DRYING] = is_drying(x->plan, a) ? drying : -1;
    factor[FACTOR_AREA] = is_work && s->areas.given ? area + a->area : -1;
    m->work[i].rework = s->rework.given && a->kind == WORK_FIELD ? m->rework_count++ : -1;
  }
}

/* ---- hours and days */

static double people_of(const Plan *plan, int activity, int crew)
{
  const Booking *b = &plan->bookings[activity];
  double people_min = 0, minutes = 0;
  for (int s = 0; s < b->stretch_count; s++) {
    const Stretch *stretch = &b->stretches[s];
    int people = 0;
    for (int p = 0; stretch->people && p < plan->activities[activity].people; p++)
      people += plan->persons[stretch->people[p]].crew == crew;
    people_min += (double)people * (stretch->finish - stretch->start);
    minutes += stretch->finish - stretch->start;
  }
  return minutes > 0 ? people_min / minutes : 0;
}

static void add_minutes(RiskModel *m, int activity, int share, double times)
{
  if (times > 0) m->minutes[m->minutes_count++] = (RiskMinutes){ activity, share, times };
}

static void count_minutes(Laying *x)
{
  RiskModel *m = x->m;
  size_t most = (size_t)m->work_count * ((size_t)m->crew_count + MACHINES_AT_ONCE);
  m->minutes = arena_array(x->arena, most + 1, sizeof *m->minutes);
  for (int i = 0; i < m->work_count; i++) {
    const Activity *a = &x->plan->activities[i];
    double along = a->along.run_min > 0 ? (double)a->along.run_min / a->duration_min : 0;
    double own = a->along.run_min > 0 ? (double)plan_field_min(a) / a->duration_min : 1;
    for (int crew = 0; crew < m->crew_count; crew++) add_minutes(m, i, crew, people_of(x->plan, i, crew));
    if (a->machine >= 0) add_minutes(m, i, m->crew_count + a->machine, own);
    if (plan_runs_along(a)) add_minutes(m, i, m->crew_count + a->along.machine, along);
  }
}

static void add_leaf(RiskModel *m, Figure figure, int share)
{
  if (figure.why != 0) m->leaves[m->leaf_count++] = (RiskLeaf){ figure.why, figure.value, share };
}

/* Of LabourUse, what goes with the crew's hours. */
static const size_t with_hours[] = { offsetof(LabourUse, hours), offsetof(LabourUse, night_h),
                                     offsetof(LabourUse, overtime_h), offsetof(LabourUse, standing_h),
                                     offsetof(LabourUse, call_out_h) };
enum { WITH_HOURS = sizeof with_hours / sizeof *with_hours, CREW_LEAVES = WITH_HOURS + 1, MACHINE_LEAVES = 2 };

static void add_leaves(Laying *x)
{
  RiskModel *m = x->m;
  const Takeoff *t = x->takeoff;
  int worked = m->crew_count + m->machine_count, on_site = worked + 1;
  m->share_count = on_site + 1;
  m->counted = arena_array(x->arena, (size_t)m->share_count, sizeof *m->counted);
  m->leaves = arena_array(x->arena, (size_t)(t->labour_count * CREW_LEAVES + t->machine_count * MACHINE_LEAVES + 1),
                          sizeof *m->leaves);
  for (int i = 0; i < t->labour_count; i++) {
    const LabourUse *use = &t->labour[i];
    for (int k = 0; k < WITH_HOURS; k++)
      add_leaf(m, *(const Figure *)((const char *)use + with_hours[k]), use->crew);
    add_leaf(m, use->person_days, worked);
    m->counted[use->crew] = use->hours.value * 60;
  }
  for (int i = 0; i < t->machine_count; i++) {
    const MachineUse *use = &t->machines[i];
    add_leaf(m, use->hours, m->crew_count + use->machine);
    add_leaf(m, use->days, on_site);
    m->counted[m->crew_count + use->machine] = use->hours.value * 60;
  }
  add_leaf(m, t->days, worked);
  m->counted[worked] = m->counted[on_site] = t->days.value;
}

static int floor_div(int a, int b) { return a >= 0 ? a / b : -((b - 1 - a) / b); }

static int first_shift_hour(const Job *job)
{
  int first = DAY_MIN;
  for (int i = 0; i < job->shift_count; i++)
    if (job->shifts[i].from_min < first) first = job->shifts[i].from_min;
  return first < DAY_MIN ? first : 0;
}

static int last_day_of(const Calendar *hours, int from)
{
  return hours && hours->count > 0 ? floor_div(hours->open[hours->count - 1].begin - from, DAY_MIN) : 0;
}

static void find_days(Laying *x)
{
  RiskModel *m = x->m;
  m->day_from_min = first_shift_hour(x->plan->job);
  for (int i = 0; i < x->plan->activity_count; i++) {
    int last = last_day_of(retiming_hours(m->retiming, i), m->day_from_min);
    if (x->plan->activities[i].attended && last > m->last_day) m->last_day = last;
  }
  bool *open = arena_array(x->arena, (size_t)m->last_day + 1, sizeof *open);
  for (int i = 0; i < x->plan->activity_count; i++) {
    const Calendar *hours = x->plan->activities[i].attended ? retiming_hours(m->retiming, i) : NULL;
    for (size_t k = 0; hours && k < hours->count; k++) {
      int day = floor_div(hours->open[k].begin - m->day_from_min, DAY_MIN);
      if (day >= 0) open[day] = true;
    }
  }
  m->days = arena_array(x->arena, (size_t)m->last_day + 1, sizeof *m->days);
  m->day_index = arena_array(x->arena, (size_t)m->last_day + 1, sizeof *m->day_index);
  for (int day = 0; day <= m->last_day; day++) {
    if (open[day]) m->days[m->day_count++] = day;
    m->day_index[day] = m->day_count > 0 ? m->day_count - 1 : 0;
  }
}

/* ---- figures */

static void set_reckonings(Laying *x)
{
  RiskModel *m = x->m;
  int count = x->plan->activity_count;
  Why *minutes = arena_array(x->arena, (size_t)count + 1, sizeof *minutes);
  for (int i = 0; i < count; i++) minutes[i] = x->plan->activities[i].minutes.why;
  for (int i = 0; i < m->leaf_count; i++) x->figures[m->figure_count + i] = m->leaves[i].why;
  reckoning_free(m->efforts);
  reckoning_free(m->costs);
  m->efforts = reckoning_new(x->why, x->figures, m->figure_count, minutes, count);
  m->costs = x->cost ? reckoning_new(x->why, x->figures, m->figure_count + m->leaf_count, &x->cost->planned_why, 1)
                     : NULL;
}

static bool is_used(const RiskModel *m, int figure)
{
  return reckoning_uses(m->efforts, figure) || (m->costs && reckoning_uses(m->costs, figure));
}

static void take_figures(Laying *x)
{
  RiskModel *m = x->m;
  for (Why why = 1; why <= why_count(x->why); why++)
    if (is_estimate(why_node(x->why, why)) && !is_factor(m->setting, why)) x->figures[m->figure_count++] = why;
  set_reckonings(x);
  m->idle = arena_array(x->arena, (size_t)m->figure_count + 1, sizeof *m->idle);
  int kept = 0;
  for (int i = 0; i < m->figure_count; i++) {
    if (is_used(m, i)) x->figures[kept++] = x->figures[i];
    else m->idle[m->idle_count++] = why_node(x->why, x->figures[i])->what;
  }
  m->figure_count = kept;
  set_reckonings(x);
  for (int i = 0; i < kept; i++) add_input(m, input_of(x->why, x->figures[i]));
}

RiskModel *risk_model_new(const Plan *plan, const Takeoff *takeoff, const Cost *cost, const WhyBook *why,
                          Arena *arena)
{
  RiskModel *m = arena_alloc(arena, sizeof *m);
  Laying x = { .m = m, .plan = plan, .takeoff = takeoff, .cost = cost, .why = why, .arena = arena };
  const Job *job = plan->job;
  *m = (RiskModel){ .plan = plan, .setting = &job->risk, .retiming = retiming_new(plan),
                    .work_count = plan->activity_count, .crew_count = job->crew_count,
                    .machine_count = job->machine_count };
  m->work = arena_array(arena, (size_t)plan->activity_count + 1, sizeof *m->work);
  x.figures = arena_array(arena, why_count(why) + (size_t)1, sizeof *x.figures);
  m->inputs = arena_array(arena, why_count(why) + (size_t)job->area_count + FACTOR_KINDS, sizeof *m->inputs);
  count_minutes(&x);
  add_leaves(&x);
  find_days(&x);
  take_figures(&x);
  add_factors(&x);
  for (int i = 0; i < plan->activity_count; i++) {
    m->work[i].place = reckoning_place(m->efforts, i);
    m->work[i].planned_min = plan->activities[i].duration_min;
    m->work[i].attended = plan->activities[i].attended;
  }
  if (m->costs) m->cost_place = reckoning_place(m->costs, 0);
  return m;
}

void risk_model_free(RiskModel *m)
{
  for (int i = 0; i < m->input_count; i++) spread_free(m->inputs[i].spread);
  reckoning_free(m->efforts);
  reckoning_free(m->costs);
  retiming_free(m->retiming);
}
