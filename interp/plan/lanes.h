/* lanes.h - levels of several resources side by side in 64-bit words.
 *
 * A lane is 8, 16 or 32 bits wide, the narrowest that holds the largest capacity; its top bit is a guard that stays
 * set. One subtraction then compares a level with a demand in every lane: a guard bit that is cleared means "too
 * little". */
#ifndef PLAN_LANES_H
#define PLAN_LANES_H

#include <stdbool.h>
#include <stdint.h>

typedef struct {
  int words; /* a level or demand is this many words */
  int width; /* bits a lane */
  uint64_t guard;
  uint64_t *full;   /* all free: guards and capacities */
  uint64_t *demand; /* demand[task * words + word] */
} Lanes;

/* `need` is an array of tasks x resources, each at most the capacity (see instance.c for those that are not). */
void lanes_pack(Lanes *lanes, const int *capacity, int resources, const int *need, int tasks);
void lanes_free(Lanes *lanes);

static inline const uint64_t *lanes_demand(const Lanes *lanes, int task)
{
  return lanes->demand + (int64_t)task * lanes->words;
}

static inline bool lanes_fit(const Lanes *lanes, const uint64_t *level, const uint64_t *demand)
{
  if (lanes->words == 1) return ((*level - *demand) & lanes->guard) == lanes->guard;
  for (int w = 0; w < lanes->words; w++)
    if (((level[w] - demand[w]) & lanes->guard) != lanes->guard) return false;
  return true;
}

static inline void lanes_take(const Lanes *lanes, uint64_t *level, const uint64_t *demand)
{
  for (int w = 0; w < lanes->words; w++) level[w] -= demand[w];
}

static inline void lanes_give(const Lanes *lanes, uint64_t *level, const uint64_t *demand)
{
  for (int w = 0; w < lanes->words; w++) level[w] += demand[w];
}

/* The larger of the two, lane by lane. */
static inline void lanes_raise(const Lanes *lanes, uint64_t *level, const uint64_t *other)
{
  for (int w = 0; w < lanes->words; w++) {
    uint64_t more = ((other[w] | lanes->guard) - (level[w] & ~lanes->guard)) & lanes->guard; /* where other >= level */
    uint64_t mask = more - (more >> (lanes->width - 1));
    level[w] = (other[w] & mask) | (level[w] & ~mask);
  }
}

/* Units free of one resource. */
int lanes_free_of(const Lanes *lanes, const uint64_t *level, int resource);

#endif
