/* supply.h - which machines the circuits of a site let run at the same time, as limits that a schedule can keep.
 *
 * A circuit carries its loads as trade/circuits.h reckons, continuous ones at 125 %. Which classes of machines may
 * run together in which numbers is tried out, and written down as limits: the sum of weight x machines running,
 * over the classes, is at most `most`. No limit forbids what the circuits carry, where limits of that form can tell
 * it from what they do not carry; where they cannot, as with some mixed loads on several circuits, the limit is the
 * careful one. A machine that no circuit carries even alone is left out: a rule reports it. */
#ifndef PLAN_SUPPLY_H
#define PLAN_SUPPLY_H

#include "model/job.h"

enum { SUPPLY_CLASSES = 8, SUPPLY_LIMITS = 16 };

typedef struct {
  int class[SUPPLY_CLASSES]; /* indexes into Job.machines */
  int weight[SUPPLY_CLASSES];
  int count, most;
} SupplyLimit;

/* At most SUPPLY_LIMITS limits; 0 where nothing is known of circuits or nothing is limited by them. */
int supply_limits(const Job *job, SupplyLimit *limits);

#endif
