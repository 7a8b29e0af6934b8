/* genetic.h - a genetic algorithm over lists of tasks.
 *
 * A list becomes a schedule by fast passes, justified to the right and to the left, or, with calendars and maximum
 * lags, by the serial scheme. A child replaces its mother if it is no worse (crowding: K. De
 * Jong, 1975; without it all members soon agree). Two parents are crossed at a stretch of time in which the one
 * uses the resources well: its order there is kept in one piece, the rest follows the other parent. V. Valls,
 * F. Ballestin, S. Quintanilla, EJOR 185 (2008) 495-508 (peak crossover); S. Hartmann, NRL 45 (1998) 733-750. */
#ifndef PLAN_GENETIC_H
#define PLAN_GENETIC_H

#include "plan/passes.h"
#include "plan/serial.h"

typedef struct Genetic Genetic;

/* `passes` may be NULL: then `serial` is used. Both are borrowed. */
Genetic *genetic_new(const Instance *in, Passes *passes, Serial *serial, int population, uint64_t seed);
void genetic_free(Genetic *genetic);

/* Makes so many children; stops once the best makespan is at most `enough`. Returns the best makespan so far. */
int genetic_run(Genetic *genetic, int64_t children, int enough);
int genetic_best(const Genetic *genetic, int *start);
/* Puts the order of a schedule from elsewhere into the population. */
void genetic_add(Genetic *genetic, const int *start);
/* Deals the members out among populations of one size like cards: together they are one population in parts. */
void genetic_mix(Genetic *const *parts, int count);

#endif
