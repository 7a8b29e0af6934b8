/* genetic.h - a genetic algorithm over lists of tasks, for problems with calendars or maximum lags.
 *
 * A list becomes a schedule by the serial scheme. A child replaces its mother if it is no worse (crowding: K. De
 * Jong, 1975; without it all members soon agree). Two parents are crossed at a stretch of time in which the one
 * uses the resources well: its order there is kept in one piece, the rest follows the other parent. V. Valls,
 * F. Ballestin, S. Quintanilla, EJOR 185 (2008) 495-508 (peak crossover); S. Hartmann, NRL 45 (1998) 733-750. */
#ifndef PLAN_GENETIC_H
#define PLAN_GENETIC_H

#include "plan/serial.h"

typedef struct Genetic Genetic;

/* `serial` is borrowed. */
Genetic *genetic_new(const Instance *in, Serial *serial, int population, uint64_t seed);
void genetic_free(Genetic *genetic);

/* Makes so many children; stops once the best makespan is at most `enough`. Returns the best makespan so far. */
int genetic_run(Genetic *genetic, int64_t children, int enough);
int genetic_best(const Genetic *genetic, int *start);
/* Puts the order of a schedule from elsewhere into the population. */
void genetic_add(Genetic *genetic, const int *start);

#endif
