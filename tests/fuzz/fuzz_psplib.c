/* fuzz_psplib.c - any bytes as a benchmark file: an error with its line, or a problem whose solution checks out.
 * The first byte's lowest bit picks the format. */
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "plan/check.h"
#include "plan/psplib.h"
#include "plan/solve.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void must(int condition)
{
  if (!condition) abort();
}

/* Searching takes its time, so only small problems are solved, and little is spent on them. */
static void check_solution(const Problem *problem)
{
  enum { TASKS = 40, WORK = 20000 };
  if (problem->task_count > TASKS) return;
  SolveResult result = solve(problem, &(SolveOptions){ .work = WORK });
  must((result.schedule != NULL) == (result.status == SOLVE_BEST || result.status == SOLVE_FEASIBLE));
  if (result.schedule) {
    must(check_schedule(problem, result.schedule, NULL));
    must(result.lower_bound <= result.schedule->makespan);
    must((result.status == SOLVE_BEST) == (result.lower_bound == result.schedule->makespan));
  }
  solve_free(&result);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  if (size == 0) return 0;
  PsplibError error = { .line = -1 };
  char *text = malloc(size); /* of its exact size, so that a byte too far is seen */
  memcpy(text, data + 1, size - 1);
  Problem *problem = psplib_read(data[0] & 1 ? PSPLIB_SCH : PSPLIB_SM, text, size - 1, &error);
  if (problem) check_solution(problem);
  else must(error.line >= 1 && error.message[0] && memchr(error.message, '\0', sizeof error.message));
  problem_free(problem);
  free(text);
  return 0;
}
