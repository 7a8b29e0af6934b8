/* ranks.h - order statistics of simulated outcomes. */
#ifndef COST_RANKS_H
#define COST_RANKS_H

#include <stdint.h>

/* A key that sorts as the number does. */
uint64_t ranks_key(double value);

/* Ranks from 1; equal keys share the middle of theirs. */
void ranks_of(const uint64_t *keys, int count, double *ranks);

/* Spearman's correlation: Pearson's of the ranks. 0 where one of the two never changes. */
double ranks_correlation(const double *a, const double *b, int count);

/* The index, in a sorted array, of the nearest-rank quantile: the least value that at least this share does not
 * exceed. */
int ranks_quantile(int count, double share);

#endif
