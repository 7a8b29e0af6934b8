/* levels.h - what is free at each minute, for passes that place one task after the other.
 *
 * Four minutes at a time where the processor can (SSE2), no task is longer than twelve minutes, and the lanes
 * (lanes.h) of all resources are bytes that share 32 bits; else minute by minute. Both find the same. */
#ifndef PLAN_LEVELS_H
#define PLAN_LEVELS_H

#include "plan/instance.h"

#if defined __SSE2__
#include <emmintrin.h>
#define LEVELS_BY_FOUR 1
#else
#define LEVELS_BY_FOUR 0
#endif

enum {
  LEVELS_LONGEST = 12, /* task, by four */
  LEVELS_SEEN = 64,    /* minutes that are looked at together */
  LEVELS_PAST = 128     /* minutes after the last that may be read */
};

typedef struct {
  const Lanes *lanes;
  bool by_four;
  uint32_t *four;  /* by four: of each minute, without guards */
  uint64_t *words; /* else: lanes->words of each minute */
} Levels;

/* All free, for so many minutes. */
Levels levels_new(const Instance *in, int minutes);
void levels_free(Levels *levels);
/* Gives back what was taken before that minute. */
void levels_clear(Levels *levels, int minute);

#if LEVELS_BY_FOUR
/* In each of four lanes: 0, if the minute has enough. */
static inline __m128i levels_missing(const uint32_t *four, __m128i demand)
{
  return _mm_subs_epu8(demand, _mm_loadu_si128((const __m128i *)four));
}

/* Bit k: minute k of these 16 has enough. What is missing is never negative and, narrowed, never becomes 0. */
static inline uint64_t levels_sixteen(const uint32_t *four, __m128i demand)
{
  __m128i first = _mm_packs_epi32(levels_missing(four, demand), levels_missing(four + 4, demand));
  __m128i last = _mm_packs_epi32(levels_missing(four + 8, demand), levels_missing(four + 12, demand));
  return (unsigned)_mm_movemask_epi8(_mm_cmpeq_epi8(_mm_packs_epi16(first, last), _mm_setzero_si128()));
}

static inline uint64_t levels_thirty_two(const uint32_t *four, __m128i demand)
{
  return levels_sixteen(four, demand) | levels_sixteen(four + 16, demand) << 16;
}

/* The bits from which on `length` bits are set, 1 to 16. */
static inline uint64_t levels_runs(uint64_t bits, uint32_t length)
{
  uint32_t half = length / 2;
  bits &= bits >> half, length -= half, half = length / 2;
  bits &= bits >> half, length -= half, half = length / 2;
  bits &= bits >> half, length -= half, half = length / 2;
  return bits & bits >> half;
}

static inline int levels_fit_by_four(const Levels *l, uint32_t demand, int start, int duration)
{
  if (duration == 0) return start;
  __m128i demands = _mm_set1_epi32((int)demand);
  for (;; start += LEVELS_SEEN + 1 - duration) {
    const uint32_t *four = l->four + start;
    uint64_t seen = levels_thirty_two(four, demands) | levels_thirty_two(four + 32, demands) << 32;
    uint64_t runs = levels_runs(seen, (uint32_t)duration);
    if (runs != 0) return start + __builtin_ctzll(runs);
  }
}

extern const uint32_t levels_ones[2 * LEVELS_LONGEST]; /* as many with all bits set, then as many without */

static inline void levels_take_by_four(Levels *l, uint32_t demand, int start, int duration)
{
  __m128i demands = _mm_set1_epi32((int)demand), *four = (__m128i *)(l->four + start);
  const __m128i *ones = (const __m128i *)(levels_ones + LEVELS_LONGEST - duration);
  for (int k = 0; k < LEVELS_LONGEST / 4; k++) {
    __m128i taken = _mm_and_si128(demands, _mm_loadu_si128(ones + k));
    _mm_storeu_si128(four + k, _mm_sub_epi32(_mm_loadu_si128(four + k), taken));
  }
}
#else
/* Never called: no levels are by four. */
static inline int levels_fit_by_four(const Levels *l, uint32_t demand, int start, int duration)
{
  return (void)l, (void)demand, (void)duration, start;
}

static inline void levels_take_by_four(Levels *l, uint32_t demand, int start, int duration)
{
  (void)l, (void)demand, (void)duration, (void)start;
}
#endif

/* The first start, from `start` on, at which all that the task asks for is free for so long. */
static inline int levels_fit_by_one(const Levels *l, int task, int start, int duration)
{
  const uint64_t *demand = lanes_demand(l->lanes, task);
  for (int m = start + duration - 1; m >= start; m--) {
    if (lanes_fit(l->lanes, l->words + (int64_t)m * l->lanes->words, demand)) continue;
    start = m + 1;
    m = start + duration;
  }
  return start;
}

static inline void levels_take_by_one(Levels *l, int task, int start, int duration)
{
  for (int m = start; m < start + duration; m++)
    lanes_take(l->lanes, l->words + (int64_t)m * l->lanes->words, lanes_demand(l->lanes, task));
}

#endif
