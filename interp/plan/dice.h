/* dice.h - the solver's random numbers: splitmix64 (G. Steele, D. Lea, C. Flood, OOPSLA 2014). Always seeded. */
#ifndef PLAN_DICE_H
#define PLAN_DICE_H

#include <stdint.h>

typedef struct {
  uint64_t state;
} Dice;

static inline uint64_t dice_bits(Dice *d)
{
  uint64_t z = (d->state += UINT64_C(0x9e3779b97f4a7c15));
  z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
  z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
  return z ^ (z >> 31);
}

/* 0 .. sides - 1; the bias of a multiplication by 2^-32 is of no matter here. */
static inline int dice_roll(Dice *d, int sides)
{
  return (int)(((dice_bits(d) >> 32) * (uint64_t)sides) >> 32);
}

#endif
