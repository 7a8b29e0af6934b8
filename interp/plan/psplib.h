/* psplib.h - reads the two text formats of published scheduling benchmarks.
 *
 * `.sm` (single mode, finish to start): R. Kolisch, A. Sprecher, European Journal of Operational Research 96 (1997)
 * 205-216. `.sch` (ProGen/max, start to start with a lag in brackets, negative for a maximum lag of the other way):
 * C. Schwindt, Report WIOR-543, Univ. Karlsruhe (1998). Task t of the problem is job t + 1 of a `.sm` and activity
 * t of a `.sch` file. The first task is fixed at 0. */
#ifndef PLAN_PSPLIB_H
#define PLAN_PSPLIB_H

#include <stddef.h>

#include "plan/problem.h"

typedef enum { PSPLIB_SM, PSPLIB_SCH } PsplibFormat;

typedef struct {
  int line;          /* from 1 */
  char message[120]; /* "job 7 has a successor 40, but there are 32 jobs" */
} PsplibError;

/* The format that a file name's ending stands for; false: neither. */
bool psplib_format(const char *name, PsplibFormat *format);
/* NULL and an error if the text is not such a file. */
Problem *psplib_read(PsplibFormat format, const char *text, size_t length, PsplibError *error);

#endif
