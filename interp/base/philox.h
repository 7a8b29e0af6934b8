/* philox.h - random numbers by counter: the block with a number is the same whoever asks for it, in whatever order.
 *
 * Philox-4x32-10 of J. Salmon, M. Moraes, R. Dror, D. Shaw, "Parallel random numbers: as easy as 1, 2, 3", SC11. */
#ifndef BASE_PHILOX_H
#define BASE_PHILOX_H

#include <stdint.h>

enum { PHILOX_WORDS = 4 };

typedef struct {
  uint32_t word[PHILOX_WORDS];
} PhiloxBlock;

PhiloxBlock philox(uint64_t key, PhiloxBlock counter);

/* Above 0 and below 1, in the middle of its 2^32nd part. */
static inline double philox_fraction(uint32_t word) { return (word + 0.5) * 0x1p-32; }

#endif
