/* report_compare.h - two recipes, two jobs, or a job with one recipe and with the other, side by side. */
#ifndef REPORT_REPORT_COMPARE_H
#define REPORT_REPORT_COMPARE_H

#include "base/arena.h"
#include "base/diag.h"
#include "cost/price.h"
#include "model/comparison.h"
#include "plan/plan.h"

/* A finding that only one of the two has. */
typedef struct {
  bool in_now; /* in the second, else in the first */
  DiagLevel level;
  const char *code, *message, *place; /* "FILE:LINE:COLUMN", or "" */
} OneSided;

typedef struct {
  const char *name, *recipe;
  double floor_m2;
} AreaTotal;

/* What a job comes to. */
typedef struct {
  const char *job, *currency;
  const char *finish; /* ISO 8601 */
  bool metric, complete;
  AreaTotal *areas;
  int area_count;
  double person_h, machine_h; /* charged */
  int makespan_min;
  Money kinds[LINE_KINDS], price;
} JobTotals;

/* Of a scheduled and costed plan; kept in the arena. */
JobTotals totals_of(const Plan *plan, const Cost *cost, Arena *arena);

/* Everything that was compared: a part that was not is NULL or empty. */
typedef struct {
  const Comparison *recipes;
  const OneSided *findings;
  int finding_count;
  const JobTotals *was, *now; /* both or none */
} CompareReport;

void report_compare_text(const CompareReport *report, const Sources *sources, int width, Buf *out);
void report_compare_json(const CompareReport *report, const Sources *sources, Buf *out);

#endif
