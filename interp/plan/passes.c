#include "plan/passes.h"

#include <string.h>

#include "base/mem.h"

typedef struct {
  int task, minutes;
} Near;

struct Passes {
  const Instance *in;
  int tasks; /* without the end */
  int *topological;
  Near *before, *after; /* neighbours, end left out */
  int *before_first, *after_first;
  uint64_t *level;
  int minutes; /* of `level` */
  int used;    /* nothing is taken from here on */
  int *count, *keys, *list;
  int64_t work;
};

static bool order_topologically(Passes *p)
{
  const Instance *in = p->in;
  int *waiting = mem_array((size_t)in->count, sizeof *waiting);
  int placed = 0;
  for (int t = 0; t < p->tasks; t++) {
    waiting[t] = in->in_first[t + 1] - in->in_first[t];
    if (waiting[t] == 0) p->topological[placed++] = t;
  }
  for (int at = 0; at < placed; at++) {
    int task = p->topological[at];
    for (int k = in->out_first[task]; k < in->out_first[task + 1]; k++) {
      int to = in->edges[in->out[k]].to;
      if (to != in->end && --waiting[to] == 0) p->topological[placed++] = to;
    }
  }
  mem_free(waiting);
  return placed == p->tasks;
}

static void list_neighbours(Passes *p)
{
  const Instance *in = p->in;
  int before = 0, after = 0;
  for (int t = 0; t < p->tasks; t++) {
    p->before_first[t] = before;
    p->after_first[t] = after;
    for (int k = in->in_first[t]; k < in->in_first[t + 1]; k++) {
      const Edge *e = &in->edges[in->in[k]];
      p->before[before++] = (Near){ e->from, e->minutes };
    }
    for (int k = in->out_first[t]; k < in->out_first[t + 1]; k++) {
      const Edge *e = &in->edges[in->out[k]];
      if (e->to != in->end) p->after[after++] = (Near){ e->to, e->minutes };
    }
  }
  p->before_first[p->tasks] = before;
  p->after_first[p->tasks] = after;
}

/* Gives back all that was taken. */
static void clear(Passes *p)
{
  const Lanes *lanes = &p->in->lanes;
  for (int m = 0; m < p->used; m++)
    for (int w = 0; w < lanes->words; w++) p->level[(int64_t)m * lanes->words + w] = lanes->full[w];
  p->used = 0;
}

bool passes_apply(const Instance *in)
{
  Passes *p = passes_new(in);
  passes_free(p);
  return p != NULL;
}

Passes *passes_new(const Instance *in)
{
  if (!in->plain || !in->forward) return NULL;
  Passes *p = mem_alloc(sizeof *p);
  size_t n = (size_t)in->count;
  p->in = in;
  p->tasks = in->end;
  p->topological = mem_array(n, sizeof *p->topological);
  p->before = mem_array((size_t)in->edge_count, sizeof *p->before);
  p->after = mem_array((size_t)in->edge_count, sizeof *p->after);
  p->before_first = mem_array(n, sizeof *p->before_first);
  p->after_first = mem_array(n, sizeof *p->after_first);
  p->minutes = in->horizon + 1;
  p->level = mem_array((size_t)p->minutes * (size_t)in->lanes.words, sizeof *p->level);
  p->count = mem_array((size_t)p->minutes + 1, sizeof *p->count);
  p->keys = mem_array(n, sizeof *p->keys);
  p->list = mem_array(n, sizeof *p->list);
  p->used = p->minutes;
  clear(p);
  if (!order_topologically(p)) {
    passes_free(p);
    return NULL;
  }
  list_neighbours(p);
  return p;
}

void passes_free(Passes *p)
{
  if (p == NULL) return;
  void *blocks[] = { p->topological, p->before, p->after, p->before_first, p->after_first,
                     p->level, p->count, p->keys, p->list };
  for (size_t k = 0; k < sizeof blocks / sizeof *blocks; k++) mem_free(blocks[k]);
  mem_free(p);
}

int64_t passes_work(const Passes *p) { return p->work; }

static void take(Passes *p, int task, int start)
{
  const Lanes *lanes = &p->in->lanes;
  const uint64_t *demand = lanes_demand(lanes, task);
  int finish = start + p->in->duration[task];
  if (finish > p->used) p->used = finish;
  if (lanes->words == 1) {
    uint64_t amount = *demand, *level = p->level;
    for (int m = start; m < finish; m++) level[m] -= amount;
    return;
  }
  for (int m = start; m < finish; m++) lanes_take(lanes, p->level + (int64_t)m * lanes->words, demand);
}

/* Most problems fit one word: that case is worth loops of its own. */
static int earliest_in_word(const uint64_t *level, uint64_t demand, uint64_t guard, int start, int duration)
{
  for (int m = start + duration - 1; m >= start; m--)
    if (~(level[m] - demand) & guard) {
      start = m + 1;
      m = start + duration;
    }
  return start;
}

static int latest_in_word(const uint64_t *level, uint64_t demand, uint64_t guard, int start, int duration)
{
  for (int m = start; m < start + duration; m++)
    if (~(level[m] - demand) & guard) {
      start = m - duration;
      m = start - 1;
    }
  return start;
}

static int earliest_fit(const Passes *p, int task, int start)
{
  const Lanes *lanes = &p->in->lanes;
  const uint64_t *demand = lanes_demand(lanes, task);
  int duration = p->in->duration[task];
  if (lanes->words == 1) return earliest_in_word(p->level, *demand, lanes->guard, start, duration);
  for (int m = start + duration - 1; m >= start; m--)
    if (!lanes_fit(lanes, p->level + (int64_t)m * lanes->words, demand)) {
      start = m + 1;
      m = start + duration;
    }
  return start;
}

static int latest_fit(const Passes *p, int task, int start)
{
  const Lanes *lanes = &p->in->lanes;
  const uint64_t *demand = lanes_demand(lanes, task);
  int duration = p->in->duration[task];
  if (lanes->words == 1) return latest_in_word(p->level, *demand, lanes->guard, start, duration);
  for (int m = start; m < start + duration; m++)
    if (!lanes_fit(lanes, p->level + (int64_t)m * lanes->words, demand)) {
      start = m - duration;
      m = start - 1;
    }
  return start;
}

int passes_left(Passes *p, const int *list, int *start) { return passes_left_from(p, list, 0, start); }

int passes_left_from(Passes *p, const int *list, int placed, int *start)
{
  int makespan = 0;
  clear(p);
  for (int k = 0; k < placed; k++) {
    int finish = start[list[k]] + p->in->duration[list[k]];
    take(p, list[k], start[list[k]]);
    if (finish > makespan) makespan = finish;
  }
  for (int k = placed; k < p->tasks; k++) {
    int task = list[k], est = p->in->earliest[task];
    for (int b = p->before_first[task]; b < p->before_first[task + 1]; b++) {
      int least = start[p->before[b].task] + p->before[b].minutes;
      if (least > est) est = least;
    }
    start[task] = earliest_fit(p, task, est);
    take(p, task, start[task]);
    int finish = start[task] + p->in->duration[task];
    if (finish > makespan) makespan = finish;
  }
  p->work += 5 * p->tasks - 3 * placed;
  start[p->in->end] = makespan;
  return makespan;
}

/* Latest finish first: what has moved to the right then leaves each task at least its old place. A successor that
 * has not moved yet counts with its old start. Returns the first start. */
static int right(Passes *p, const int *list, int makespan, int *start)
{
  int first = makespan;
  clear(p);
  for (int k = p->tasks - 1; k >= 0; k--) {
    int task = list[k], lst = makespan - p->in->duration[task];
    for (int a = p->after_first[task]; a < p->after_first[task + 1]; a++) {
      int most = start[p->after[a].task] - p->after[a].minutes;
      if (most < lst) lst = most;
    }
    start[task] = latest_fit(p, task, lst);
    take(p, task, start[task]);
    if (start[task] < first) first = start[task];
  }
  p->work += 5 * p->tasks;
  return first;
}

/* Counting sort; equal keys stay in topological order. */
void passes_order_by(const Passes *p, const int *key, int *list)
{
  int largest = 0;
  for (int t = 0; t < p->tasks; t++)
    if (key[t] > largest) largest = key[t];
  memset(p->count, 0, ((size_t)largest + 2) * sizeof *p->count);
  for (int t = 0; t < p->tasks; t++) p->count[key[t] + 1]++;
  for (int k = 0; k < largest; k++) p->count[k + 1] += p->count[k];
  for (int k = 0; k < p->tasks; k++) {
    int task = p->topological[k];
    list[p->count[key[task]]++] = task;
  }
}

int passes_right(Passes *p, int *start, int *list)
{
  int makespan = start[p->in->end];
  for (int t = 0; t < p->tasks; t++) p->keys[t] = start[t] + p->in->duration[t];
  passes_order_by(p, p->keys, list);
  return makespan - right(p, list, makespan, start);
}

int passes_justify(Passes *p, int *start, int *list)
{
  passes_right(p, start, list);
  passes_order_by(p, start, list);
  return passes_left(p, list, start);
}
