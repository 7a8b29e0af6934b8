/* sums.h - inside the take-off: adding up figures of activities with their why, and which ones took part. */
#ifndef COST_SUMS_H
#define COST_SUMS_H

#include "cost/takeoff.h"

/* A sum in the making: its value, the nodes it rests on, the activities it came from (each once, in plan order). */
typedef struct {
  double value;
  Why *inputs;
  int input_count;
  int *index;
  int count;
} Sum;

Sum sum_begin(const Plan *plan, Arena *arena);
/* Adds an activity's share; call in the order of the plan. */
void sum_add(Sum *sum, int activity, double value, Why input);
/* The plain total of what was added; or, `sum_figure`, whatever its value was set to. */
Figure sum_total(const Sum *sum, WhyBook *why, const char *what, const char *unit, const char *formula);
Figure sum_figure(const Sum *sum, WhyBook *why, const char *what, const char *unit, const char *formula);
Behind sum_behind(const Sum *sum);

#endif
