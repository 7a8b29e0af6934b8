/* lns.h - large neighbourhood search: frees a stretch of a schedule and asks the search with learning for a shorter
 * schedule.
 *
 * Tasks before the stretch keep their starts; those after it must start as much earlier as
 * the schedule is to be shorter (or, where calendars make that meaningless, are free as well). M. Palpant, C.
 * Artigues, P. Michelon, Ann. Oper. Res. 131 (2004) 237-257. */
#ifndef PLAN_LNS_H
#define PLAN_LNS_H

#include "plan/cp.h"
#include "plan/dice.h"

typedef struct {
  const Instance *in;
  Cp *cp;
  Dice dice;
  int size; /* tasks to free: adapts to what the search can decide */
  int step; /* minutes to win: doubles with every success, halves without */
  CpAssumption *assumptions;
  int64_t conflicts; /* allowed for one try */
} Lns;

Lns lns_new(const Instance *in, Cp *cp, uint64_t seed);
void lns_free(Lns *lns);

/* One try. True: start[] is a schedule with an earlier end. The Cp must already hold the end below start[end]. */
bool lns_try(Lns *lns, int *start, CpLimit limit);

#endif
