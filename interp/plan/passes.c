#include "plan/passes.h"

#include <limits.h>
#include <string.h>

#include "base/mem.h"
#include "plan/levels.h"

struct Pass {
  const Ways *ways;
  Levels levels;
  int *count; /* for sorting */
  int64_t work;

  const Way *way; /* of the pass under way */
  const int *list;
  int *start; /* in the way's own time */
  int at, tail, changes, makespan, most;
  bool over, given_up;

  int *mirrored, *mirrored_from; /* a pass to the right: its starts; the schedule that was given */
};

static inline int later(int one, int other) { return one > other ? one : other; }

Pass *pass_new(const Ways *ways)
{
  const Instance *in = ways->in;
  Pass *p = mem_alloc(sizeof *p);
  p->ways = ways;
  p->levels = levels_new(in, ways->minutes);
  p->count = mem_array((size_t)later(ways->minutes, in->horizon) + 2, sizeof *p->count);
  p->mirrored = mem_array((size_t)in->count, sizeof *p->mirrored);
  return p;
}

void pass_free(Pass *p)
{
  if (p == NULL) return;
  levels_free(&p->levels);
  mem_free(p->count);
  mem_free(p->mirrored);
  mem_free(p);
}

int64_t pass_work(const Pass *p) { return p->work; }

/* ---- order */

/* Counting sort; equal keys stay in topological order. */
static void sort(Pass *p, const Way *way, const int *key, int *list)
{
  int tasks = p->ways->tasks, *count = p->count, largest = 0;
  for (int t = 0; t < tasks; t++)
    if (key[t] > largest) largest = key[t];
  memset(count, 0, ((size_t)largest + 2) * sizeof *count);
  for (int t = 0; t < tasks; t++) count[key[t] + 1]++;
  for (int k = 0; k < largest; k++) count[k + 1] += count[k];
  for (int k = 0; k < tasks; k++) {
    int task = way->topological[k];
    list[count[key[task]]++] = task;
  }
}

void pass_order_by(Pass *p, const int *key, int *list) { sort(p, &p->ways->left, key, list); }

/* ---- placing */

static void begin(Pass *p, const Way *way, const int *list, int *start, int most)
{
  levels_clear(&p->levels, p->makespan);
  p->way = way;
  p->list = list;
  p->start = start;
  p->most = most;
  p->at = p->makespan = p->changes = 0;
  p->tail = INT_MAX;
  p->over = p->given_up = false;
}

static inline void take(Pass *p, const WayTask *t, int task, int start, bool by_four)
{
  if (by_four) levels_take_by_four(&p->levels, t->demand, start, t->duration);
  else levels_take_by_one(&p->levels, task, start, t->duration);
  p->makespan = later(p->makespan, start + t->duration);
}

static inline int earliest(const Way *way, const WayTask *t, const int *start)
{
  int first = start[t->before[0].task] + t->before[0].minutes;
  int second = start[t->before[1].task] + t->before[1].minutes;
  int third = start[t->before[2].task] + t->before[2].minutes;
  int minute = later(later(t->earliest, first), later(second, third));
  for (int b = t->more; b < t->more_end; b++)
    minute = later(minute, start[way->more[b].task] + way->more[b].minutes);
  return minute;
}

static inline __attribute__((always_inline)) int fit(const Pass *p, const WayTask *t, int task, bool by_four)
{
  int start = earliest(p->way, t, p->start);
  return by_four ? levels_fit_by_four(&p->levels, t->demand, start, t->duration)
                 : levels_fit_by_one(&p->levels, task, start, t->duration);
}

/* Places the next task. */
static inline __attribute__((always_inline)) void place(Pass *p, bool by_four)
{
  int task = p->list[p->at++];
  const WayTask *t = &p->way->tasks[task];
  int start = fit(p, t, task, by_four);
  take(p, t, task, start, by_four);
  p->changes += start != p->start[task];
  p->start[task] = start;
  p->given_up = start + t->rest > p->most;
  p->over = p->given_up | (p->at == p->ways->tasks) | (p->at >= p->tail && p->changes == 0);
}

/* On copies, which nobody else can point to: the compiler keeps them in registers. */
static Pass *go_on(Pass *one, Pass *other, bool by_four)
{
  Pass a = *one, b = *other;
  while (!a.over && !b.over) {
    place(&a, by_four);
    place(&b, by_four);
  }
  *one = a;
  *other = b;
  return a.over ? one : other;
}

static Pass *go_on_alone(Pass *p, bool by_four)
{
  while (!p->over) place(p, by_four);
  return p;
}

Pass *pass_go_on(Pass *one, Pass *other)
{
  Pass *only = one == NULL ? other : other == NULL ? one : NULL;
  if (only != NULL) return only->levels.by_four ? go_on_alone(only, true) : go_on_alone(only, false);
  return one->levels.by_four ? go_on(one, other, true) : go_on(one, other, false);
}

/* ---- to the left */

void pass_begin_left(Pass *p, const int *list, const PassLike *like, int most, int *start)
{
  begin(p, &p->ways->left, list, start, most);
  if (like == NULL) {
    memset(start, 0, (size_t)p->ways->tasks * sizeof *start);
    return;
  }
  p->tail = like->tail;
  for (; p->at < like->head; p->at++) {
    int task = list[p->at];
    take(p, &p->way->tasks[task], task, start[task], p->levels.by_four);
  }
  p->over = p->at == p->ways->tasks;
}

int pass_left(Pass *p, const int *list, int *start)
{
  pass_begin_left(p, list, NULL, INT_MAX / 2, start);
  return pass_result(pass_go_on(p, NULL));
}

/* ---- to the right */

/* Latest finish first: what has moved to the right then leaves each task at least its old place. A successor that has
 * not moved yet counts with its old start. */
void pass_begin_right(Pass *p, int most, int *start, int *list)
{
  const Ways *w = p->ways;
  int makespan = start[w->in->end];
  for (int t = 0; t < w->tasks; t++) p->mirrored[t] = makespan - start[t] - w->in->duration[t];
  sort(p, &w->right, p->mirrored, list);
  begin(p, &w->right, list, p->mirrored, most);
  p->mirrored_from = start;
}

static void mirror_back(Pass *p)
{
  const Ways *w = p->ways;
  for (int t = 0; t < w->tasks; t++) p->mirrored_from[t] = p->makespan - p->mirrored[t] - w->in->duration[t];
}

int pass_right(Pass *p, int *start, int *list)
{
  pass_begin_right(p, INT_MAX / 2, start, list);
  return pass_result(pass_go_on(p, NULL));
}

/* ---- results */

int pass_result(Pass *p)
{
  p->work += 5 * p->at;
  if (p->given_up) return p->most + 1;
  if (p->changes == 0 && p->tail < INT_MAX) return PASS_SAME;
  int *start = p->start;
  if (p->way == &p->ways->right) {
    mirror_back(p);
    start = p->mirrored_from;
  }
  return start[p->ways->in->end] = p->makespan;
}

int pass_justify(Pass *p, int *start, int *list)
{
  pass_right(p, start, list);
  pass_order_by(p, start, list);
  return pass_left(p, list, start);
}
