#include "plan/bounds.h"

#include <stdlib.h>

#include "base/mem.h"

/* From the finish on. When work that may pause finishes is not known from its start: only edges from its finish
 * tell something. */
static int tail_of(const Instance *in, const int *after, int task)
{
  int tail = 0;
  for (int k = in->out_first[task]; k < in->out_first[task + 1]; k++) {
    const Edge *e = &in->edges[in->out[k]];
    if (after[e->to] == CALENDAR_BEFORE || e->kind == EDGE_TO_FINISH) continue;
    if (e->kind == EDGE_START && in->breakable[task]) continue;
    int least = after[e->to] + e->minutes - (e->kind == EDGE_START ? in->duration[task] : 0);
    if (least > tail) tail = least;
  }
  return tail;
}

/* Longest paths to the end along edges between starts. Maximum lags make cycles, none of them positive, so that
 * passes over all edges settle after at most one for each task. */
void bounds_tails(const Instance *in, int *tail)
{
  int *after = mem_array((size_t)in->count, sizeof *after); /* from the start; it may not reach the end */
  for (int t = 0; t < in->count; t++) after[t] = t == in->end ? 0 : CALENDAR_BEFORE;
  bool moved = true;
  for (int round = 0; moved && round < in->count; round++) {
    moved = false;
    for (int k = 0; k < in->edge_count; k++) {
      const Edge *e = &in->edges[k];
      if (e->kind == EDGE_TO_FINISH || after[e->to] == CALENDAR_BEFORE) continue;
      int least = after[e->to] + e->minutes + (e->kind == EDGE_FROM_FINISH ? in->duration[e->from] : 0);
      if (least <= after[e->from]) continue;
      after[e->from] = least;
      moved = true;
    }
  }
  for (int t = 0; t < in->count; t++) tail[t] = tail_of(in, after, t);
  mem_free(after);
}

typedef struct {
  int head, tail;
  int64_t work;
} Block;

static int by_head_down(const void *a, const void *b)
{
  const Block *x = a, *y = b;
  return (x->head < y->head) - (x->head > y->head);
}

static int compare_ints(const void *a, const void *b)
{
  const int *x = a, *y = b;
  return (*x > *y) - (*x < *y);
}

static const Calendar *calendar_of(const Instance *in, int resource)
{
  const Problem *p = in->problem;
  if (resource >= p->resource_count || p->resources[resource].calendar == PROBLEM_ALWAYS) return NULL;
  return p->calendars[p->resources[resource].calendar];
}

/* The blocks of one resource with at least the tail q: the best bound over all heads. */
static int bound_for_tail(const Block *blocks, int count, int capacity, const Calendar *calendar, int q)
{
  int64_t work = 0;
  int best = 0;
  for (int k = 0; k < count; k++) {
    if (blocks[k].tail < q) continue;
    work += blocks[k].work;
    int64_t minutes = (work + capacity - 1) / capacity;
    if (minutes >= CALENDAR_NEVER) return CALENDAR_NEVER;
    int finish = calendar_finish(calendar, blocks[k].head, (int)minutes);
    if (finish >= CALENDAR_NEVER) return CALENDAR_NEVER;
    if (finish + q > best) best = finish + q;
  }
  return best;
}

static int bound_of_resource(const Instance *in, const int *earliest, const int *tail, int r, Block *blocks,
                             int *tails)
{
  int count = 0, best = 0;
  for (int t = 0; t < in->end; t++) {
    int need = in->need[t * in->resource_count + r];
    if (need == 0 || in->problem->tasks[t].absent) continue;
    tails[count] = tail[t];
    blocks[count++] = (Block){ earliest[t], tail[t], (int64_t)need * in->duration[t] };
  }
  qsort(blocks, (size_t)count, sizeof *blocks, by_head_down);
  qsort(tails, (size_t)count, sizeof *tails, compare_ints);
  for (int k = 0; k < count; k++) {
    if (k > 0 && tails[k] == tails[k - 1]) continue;
    int bound = bound_for_tail(blocks, count, in->capacity[r], calendar_of(in, r), tails[k]);
    if (bound > best) best = bound;
  }
  return best;
}

int bounds_energy(const Instance *in, const int *earliest)
{
  size_t n = (size_t)in->count;
  int *tail = mem_array(n, sizeof *tail), *tails = mem_array(n, sizeof *tails), best = 0;
  Block *blocks = mem_array(n, sizeof *blocks);
  bounds_tails(in, tail);
  for (int r = 0; r < in->resource_count; r++) {
    int bound = in->capacity[r] > 0 ? bound_of_resource(in, earliest, tail, r, blocks, tails) : 0;
    if (bound > best) best = bound;
  }
  mem_free(tail);
  mem_free(tails);
  mem_free(blocks);
  return best;
}
