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

bool split_by_area(const Plan *plan, const Cost *cost, Arena *arena, Money *parts)
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
  return money_split(cost->price, s.by, count, parts);
}
