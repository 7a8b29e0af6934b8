#include "cost/split.h"

typedef struct {
  const Plan *plan;
  int areas;
  double *of_kind[LINE_KINDS]; /* money of each area, by kind of line */
  double *by;                  /* what the line at hand is laid by */
} Split;

static double driver(const Activity *a, LineKind kind)
{
  switch (kind) {
  case LINE_LABOUR:
  case LINE_PREMIUM: return (double)a->people * a->duration_min;
  case LINE_MACHINE: return a->duration_min;
  case LINE_TOOL: return a->kind == WORK_FIELD ? a->floor_m2.value : a->edge_m.value * takeoff_edge_strip_m;
  case LINE_MATERIAL: return a->material.value;
  default: return 0;
  }
}

static double total(const double *values, int count)
{
  double sum = 0;
  for (int i = 0; i < count; i++) sum += values[i];
  return sum;
}

static void lay_by_floor(Split *s)
{
  for (int i = 0; i < s->areas; i++) s->by[i] = s->plan->job->areas[i].area_m2.value;
}

static void find_driver(Split *s, const CostLine *line)
{
  for (int i = 0; i < s->areas; i++) {
    s->by[i] = 0;
    for (int kind = 0; kind < LINE_KINDS; kind++)
      if (line->on_kinds >> kind & 1) s->by[i] += s->of_kind[kind][i];
  }
  for (int i = 0; i < line->behind.count && line->on_kinds == 0; i++) {
    const Activity *a = &s->plan->activities[line->behind.index[i]];
    s->by[a->area] += driver(a, line->kind);
  }
  if (total(s->by, s->areas) <= 0) lay_by_floor(s);
}

static void lay(Split *s, const CostLine *line)
{
  find_driver(s, line);
  double sum = total(s->by, s->areas);
  for (int i = 0; i < s->areas && sum > 0; i++) s->of_kind[line->kind][i] += (double)line->amount * s->by[i] / sum;
}

static Split lay_all(const Plan *plan, const Cost *cost, Arena *arena)
{
  Split s = { .plan = plan, .areas = plan->job->area_count };
  size_t count = (size_t)s.areas;
  s.by = arena_array(arena, count + 1, sizeof *s.by);
  for (int kind = 0; kind < LINE_KINDS; kind++) s.of_kind[kind] = arena_array(arena, count + 1, sizeof(double));
  for (int i = 0; i < cost->line_count; i++) lay(&s, &cost->lines[i]);
  for (int i = 0; i < s.areas; i++) {
    s.by[i] = 0;
    for (int kind = 0; kind < LINE_KINDS; kind++) s.by[i] += s.of_kind[kind][i];
  }
  return s;
}

bool split_by_area(const Plan *plan, const Cost *cost, Arena *arena, Money *parts)
{
  Split s = lay_all(plan, cost, arena);
  return money_split(cost->price, s.by, (size_t)s.areas, parts);
}

/* ---- where the parts come from */

static const char *const laid[LINE_OVERHEAD] = {
  [LINE_LABOUR] = "laid by people x minutes",   [LINE_PREMIUM] = "laid by people x minutes",
  [LINE_BURDEN] = "as wages and premiums lie",  [LINE_MACHINE] = "laid by minutes",
  [LINE_TOOL] = "laid by floor and edges worn", [LINE_MATERIAL] = "laid by litres",
  [LINE_EXTRA] = "laid by floor",               [LINE_TAX] = "as what is taxed lies",
};

typedef struct {
  const Split *split;
  const Cost *cost;
  Arena *arena;
  WhyBook *why;
} Tracing;

static Figure kind_in_area(const Tracing *t, int kind, int area)
{
  const char *what =
    arena_printf(t->arena, "%s in %s", line_kind_names[kind], t->split->plan->job->areas[area].name);
  Figure *lines = arena_array(t->arena, (size_t)t->cost->line_count + 1, sizeof *lines);
  int count = 0;
  for (int i = 0; i < t->cost->line_count; i++)
    if ((int)t->cost->lines[i].kind == kind) lines[count++] = (Figure){ 0, t->cost->lines[i].why };
  double money = t->split->of_kind[kind][area] / MONEY_SCALE;
  return why_computed(t->why, what, money, t->cost->currency, laid[kind], lines, count);
}

static Why price_of_area(const Tracing *t, int area, Money price)
{
  Figure inputs[LINE_OVERHEAD + 1];
  int count = 0;
  for (int kind = 0; kind < LINE_OVERHEAD; kind++)
    if (t->split->of_kind[kind][area] != 0) inputs[count++] = kind_in_area(t, kind, area);
  inputs[count++] = (Figure){ 0, t->cost->why };
  const char *what = arena_printf(t->arena, "price of %s", t->split->plan->job->areas[area].name);
  const char *formula = "price x what of the direct cost lies there / direct cost, cents by the largest remainder";
  return why_computed(t->why, what, (double)price / MONEY_SCALE, t->cost->currency, formula, inputs, count).why;
}

bool split_whys(const Plan *plan, const Cost *cost, Arena *arena, WhyBook *why, Why *whys)
{
  Split s = lay_all(plan, cost, arena);
  Money *parts = arena_array(arena, (size_t)s.areas + 1, sizeof *parts);
  if (!money_split(cost->price, s.by, (size_t)s.areas, parts)) return false;
  const Tracing t = { &s, cost, arena, why };
  for (int i = 0; i < s.areas; i++) whys[i] = price_of_area(&t, i, parts[i]);
  return true;
}
