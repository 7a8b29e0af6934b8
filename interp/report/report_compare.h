/* report_compare.h - two recipes, two jobs, or a job with one recipe and with the other, side by side. */
#ifndef REPORT_REPORT_COMPARE_H
#define REPORT_REPORT_COMPARE_H

#include "base/arena.h"
#include "base/diag.h"
#include "cost/price.h"
#include "model/comparison.h"
#include "plan/plan.h"

/* A finding of one of the two. */
typedef struct {
  DiagLevel level;
  const char *code, *message, *place; /* "FILE:LINE:COLUMN", or "" */
  const char *about;                  /* `hone "200"`, or "" for the whole */
} Told;

typedef struct {
  const Told *items;
  int count;
} ToldList;

typedef enum { FINDING_CAME, FINDING_WENT, FINDING_STAYED, FINDING_FATES } FindingFate;

/* A finding of the first, of the second, or of both: of the same code, about the same step or part. */
typedef struct {
  const Told *was, *now; /* NULL: not there */
  const char *about;     /* as the second calls it, "" for the whole */
  int rank;              /* of what it is about: the whole, the steps in their order, all else */
  int order;             /* as they were found */
} ComparedFinding;

typedef struct {
  const ComparedFinding *list;
  int count;
} ComparedFindings;

/* Sorts the findings, and copies them into the arena. */
ToldList told_of(Diags *diags, const Sources *sources, Arena *arena);
/* Pairs them, step by step where `recipes` tells which step is which (else NULL); kept in the arena, with pointers
 * into both lists. */
ComparedFindings findings_compared(ToldList was, ToldList now, const Comparison *recipes, Arena *arena);
FindingFate finding_fate(const ComparedFinding *finding);
extern const char *const finding_fate_names[FINDING_FATES]; /* "came", "went", "stayed" */

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
  ComparedFindings findings;
  const JobTotals *was, *now; /* both or none */
} CompareReport;

void report_compare_text(const CompareReport *report, const Sources *sources, int width, Buf *out);
void report_compare_json(const CompareReport *report, const Sources *sources, Buf *out);

#endif
