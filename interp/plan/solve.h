/* solve.h - the best schedule within a limit, and how good it is known to be.
 *
 * The limit is work: counted steps, so that the same problem gets the same answer on every machine. A limit in
 * seconds is for benchmarks; with it answers depend on the machine. */
#ifndef PLAN_SOLVE_H
#define PLAN_SOLVE_H

#include "plan/problem.h"
#include "plan/temporal.h"

typedef enum {
  SOLVE_BEST,       /* a schedule, proved to have the least makespan */
  SOLVE_FEASIBLE,   /* a schedule and a lower bound below it */
  SOLVE_INFEASIBLE, /* proved: there is no schedule */
  SOLVE_UNKNOWN     /* the limit came first */
} SolveStatus;

typedef struct {
  int makespan;    /* of the best schedule so far; -1: none */
  int lower_bound;
  int64_t work;
} SolveProgress;

typedef struct {
  int64_t work;   /* counted steps, about a hundred million a second; 0: SOLVE_DEFAULT_WORK */
  double seconds; /* 0: no limit in seconds. Given, it alone counts */
  bool cpu;       /* count seconds of the processor (of the busiest thread), not of the clock */
  int threads;    /* to share the work, 1 to 64; 0: 1. The result does not depend on them */
  uint64_t seed;  /* 0 is a seed like any other */
  /* May be NULL. Called now and then; false stops the solver, which returns what it has. */
  bool (*progress)(void *context, const SolveProgress *progress);
  void *context;
} SolveOptions;

enum { SOLVE_DEFAULT_WORK = 200000000 };

typedef struct {
  SolveStatus status;
  Schedule *schedule; /* NULL unless BEST or FEASIBLE */
  int lower_bound;    /* of the makespan; meaningless when INFEASIBLE */
  Contradiction why;  /* INFEASIBLE by lags and windows alone: which; else empty */
  int64_t work;
} SolveResult;

/* *options may be NULL. Free the result with solve_free. */
SolveResult solve(const Problem *problem, const SolveOptions *options);
void solve_free(SolveResult *result);

#endif
