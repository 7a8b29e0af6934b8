/* compare_totals.c - what a job comes to, for comparing. */
#include <string.h>

#include "report/page.h"
#include "report/report_compare.h"

static double hours_of(const Cost *cost, LineKind kind)
{
  double hours = 0;
  for (int i = 0; i < cost->line_count; i++) {
    const CostLine *line = &cost->lines[i];
    if (line->kind == kind && !line->share && strcmp(line->unit, "h") == 0)
      hours += (double)line->quantity / AMOUNT_SCALE;
  }
  return hours;
}

static AreaTotal area_of(const Job *job, const Area *area, Arena *arena)
{
  return (AreaTotal){ arena_strdup(arena, area->name), arena_strdup(arena, job->recipes[area->recipe].name),
                      area->area_m2.value };
}

JobTotals totals_of(const Plan *plan, const Cost *cost, Arena *arena)
{
  const Job *job = plan->job;
  Buf finish = { 0 };
  page_iso(&finish, job, plan->finish);
  JobTotals totals = { .job = arena_strdup(arena, job->name), .currency = arena_strdup(arena, cost->currency),
                       .finish = arena_strdup(arena, buf_text(&finish)), .metric = job->metric,
                       .complete = cost->complete, .area_count = job->area_count,
                       .person_h = hours_of(cost, LINE_LABOUR), .machine_h = hours_of(cost, LINE_MACHINE),
                       .makespan_min = plan->finish - job->start_min, .price = cost->price };
  buf_free(&finish);
  totals.areas = arena_array(arena, (size_t)job->area_count + 1, sizeof *totals.areas);
  for (int i = 0; i < job->area_count; i++) totals.areas[i] = area_of(job, &job->areas[i], arena);
  for (int kind = 0; kind < LINE_KINDS; kind++) totals.kinds[kind] = cost->kind_total[kind];
  return totals;
}
