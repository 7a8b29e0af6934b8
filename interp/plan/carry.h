/* carry.h - do a site's circuits carry these machines at the same time? In plain terms, for the trade's module of
 * circuits has a Machine of its own. */
#ifndef PLAN_CARRY_H
#define PLAN_CARRY_H

#include <stdbool.h>

enum { CARRY_MOST = 16 }; /* loads, and circuits */

typedef struct {
  double amps, volts;
  bool three_phase;
} CarryLoad;

typedef CarryLoad CarryCircuit; /* amps of its breaker */

/* False too where the question is too hard to settle. */
bool carry_all(const CarryLoad *loads, int load_count, const CarryCircuit *circuits, int circuit_count);

#endif
