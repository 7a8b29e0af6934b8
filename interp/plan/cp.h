/* cp.h - search for a schedule by constraint propagation with learning (lazy clause generation).
 *
 * A start S has a lower and an upper bound; every deduction moves one bound and knows why. From a conflict the
 * reasons give a new clause over bounds, which is kept, and the search jumps back (first unique implication point).
 * Sources: O. Ohrimenko, P. Stuckey, M. Codish, Constraints 14 (2009) 357-391 (lazy clause generation); A. Schutt,
 * T. Feydy, P. Stuckey, M. Wallace, Constraints 16 (2011) 250-282 (cumulative) and J. Scheduling 16 (2013) 273-289
 * (RCPSP/max); J. Marques-Silva, K. Sakallah, IEEE Trans. Comput. 48 (1999) 506-521 (learning); M. Moskewicz et
 * al., DAC 2001 (watched literals, activities).
 *
 * One Cp serves a whole solution process: what it learns stays true when the makespan's bound is tightened, and
 * assumptions are taken back after each call. */
#ifndef PLAN_CP_H
#define PLAN_CP_H

#include "plan/instance.h"

typedef struct Cp Cp;

typedef enum { CP_FOUND, CP_REFUTED, CP_LIMIT } CpStatus;

/* Bounds on one start that hold during one call. */
typedef struct {
  int task, earliest, latest;
} CpAssumption;

typedef struct {
  int64_t work;      /* stop after so many more counted steps */
  int64_t conflicts; /* or conflicts */
  bool (*stop)(void *context); /* asked now and then; may be NULL */
  void *context;
} CpLimit;

/* Windows as temporal_tighten leaves them. */
Cp *cp_new(const Instance *in, const int *earliest, const int *latest);
void cp_free(Cp *cp);

/* A schedule under the assumptions: FOUND writes start[]. REFUTED: there is none; without assumptions that is
 * final. */
CpStatus cp_search(Cp *cp, const CpAssumption *assumptions, int count, CpLimit limit, int *start);

/* From now on a task's start is at least (at most) this. False: a contradiction, nothing will be found any more. */
bool cp_at_least(Cp *cp, int task, int start);
bool cp_at_most(Cp *cp, int task, int start);
/* What has been proved without assumptions. */
int cp_earliest(const Cp *cp, int task);

/* Starts to try first where there is a choice. */
void cp_prefer(Cp *cp, const int *start);

int64_t cp_work(const Cp *cp);

#endif
