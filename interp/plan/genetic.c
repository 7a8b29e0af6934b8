#include "plan/genetic.h"

#include <string.h>

#include "base/mem.h"
#include "plan/dice.h"

typedef struct {
  int *list, *start;
  int makespan;
  uint64_t mark; /* of the starts: equal schedules have equal marks */
} Member;

struct Genetic {
  const Instance *in;
  Serial *serial;
  int *before, *before_first; /* tasks that a list names before each task */
  Member *members; /* and one more: the child */
  int population, filled, tasks;
  int best, *best_start;
  bool *on_list, *in_piece;
  int *key;
  double *use; /* by minute: work done in all resources, each as a share of its capacity; running sum */
  double *density; /* of each task */
  Dice dice;
};

/* With maximum lags only edges of a positive length have no cycle. */
static void list_before(Genetic *g)
{
  const Instance *in = g->in;
  g->before = mem_array((size_t)in->edge_count, sizeof *g->before);
  g->before_first = mem_array((size_t)in->count + 1, sizeof *g->before_first);
  int count = 0;
  for (int t = 0; t < in->count; t++) {
    g->before_first[t] = count;
    for (int k = in->in_first[t]; k < in->in_first[t + 1]; k++) {
      const Edge *e = &in->edges[in->in[k]];
      if (instance_orders(in, e)) g->before[count++] = e->from;
    }
  }
  g->before_first[in->count] = count;
}

Genetic *genetic_new(const Instance *in, Serial *serial, int population, uint64_t seed)
{
  Genetic *g = mem_alloc(sizeof *g);
  size_t n = (size_t)in->count;
  g->in = in;
  g->serial = serial;
  list_before(g);
  g->population = population;
  g->tasks = in->end;
  g->members = mem_array((size_t)population + 1, sizeof *g->members);
  for (int k = 0; k <= population; k++) {
    g->members[k].list = mem_array(n, sizeof(int));
    g->members[k].start = mem_array(n, sizeof(int));
  }
  g->best = CALENDAR_NEVER;
  g->best_start = mem_array(n, sizeof(int));
  g->on_list = mem_array(n, sizeof *g->on_list);
  g->in_piece = mem_array(n, sizeof *g->in_piece);
  g->key = mem_array(n, sizeof *g->key);
  g->use = mem_array((size_t)in->horizon + 2, sizeof *g->use);
  g->density = mem_array(n, sizeof *g->density);
  for (int t = 0; t < g->tasks; t++)
    for (int r = 0; r < in->resource_count; r++)
      if (in->capacity[r] > 0) g->density[t] += (double)in->need[t * in->resource_count + r] / in->capacity[r];
  g->dice.state = seed;
  return g;
}

void genetic_free(Genetic *g)
{
  if (g == NULL) return;
  for (int k = 0; k <= g->population; k++) {
    mem_free(g->members[k].list);
    mem_free(g->members[k].start);
  }
  void *blocks[] = { g->before, g->before_first, g->members, g->best_start, g->on_list,
                     g->in_piece, g->key, g->use, g->density };
  for (size_t k = 0; k < sizeof blocks / sizeof *blocks; k++) mem_free(blocks[k]);
  mem_free(g);
}

static uint64_t mark_of(const Genetic *g, const int *start)
{
  uint64_t mark = 0;
  for (int t = 0; t < g->tasks; t++) mark = (mark ^ (uint64_t)start[t]) * UINT64_C(0x9e3779b97f4a7c15);
  return mark;
}

static void clear_list(Genetic *g)
{
  for (int t = 0; t < g->tasks; t++) g->on_list[t] = false;
}

/* ---- members */

static bool is_there(const Genetic *g, const Member *m)
{
  for (int k = 0; k < g->filled; k++)
    if (g->members[k].makespan == m->makespan && g->members[k].mark == m->mark) return true;
  return false;
}

static void note_best(Genetic *g, const Member *m)
{
  if (m->makespan >= g->best) return;
  g->best = m->makespan;
  memcpy(g->best_start, m->start, (size_t)g->in->count * sizeof(int));
}

/* Takes the child in: in a new place, or in that of its rival if it is no worse. One of each kind is enough. */
static void take_in(Genetic *g, int rival)
{
  Member *child = &g->members[g->population];
  child->mark = mark_of(g, child->start);
  note_best(g, child);
  if (is_there(g, child)) return;
  if (g->filled < g->population) rival = g->filled++;
  else if (g->members[rival].makespan < child->makespan) return;
  Member swap = g->members[rival];
  g->members[rival] = *child;
  *child = swap;
}

/* Appends a task to the child's list, after those that come before it and are not on it yet. Returns the length. */
static int append(Genetic *g, int task, int *list, int length)
{
  if (g->on_list[task]) return length;
  g->on_list[task] = true;
  for (int k = g->before_first[task]; k < g->before_first[task + 1]; k++)
    length = append(g, g->before[k], list, length);
  list[length++] = task;
  return length;
}

/* Sorts a list by starts; equal ones stay as they are. */
static void sort_list(const Genetic *g, Member *m)
{
  for (int k = 1; k < g->tasks; k++) {
    int task = m->list[k], at = k;
    for (; at > 0 && m->start[m->list[at - 1]] > m->start[task]; at--) m->list[at] = m->list[at - 1];
    m->list[at] = task;
  }
}

/* From a list to a schedule, and back to the order of its starts. False: no schedule was found. */
static bool build(Genetic *g, Member *m)
{
  for (int k = 0; k < g->tasks; k++) g->key[m->list[k]] = k;
  g->key[g->in->end] = g->tasks;
  if (!serial_run(g->serial, g->key, g->in->count, m->start)) return false;
  m->makespan = m->start[g->in->end];
  sort_list(g, m);
  return true;
}

static void finish_child(Genetic *g, int rival)
{
  if (build(g, &g->members[g->population])) take_in(g, rival);
}

/* Moves tasks of the child to other places on the list, at most `reach` away; predecessors still come first. */
static void shake(Genetic *g, int moves, int reach)
{
  Member *child = &g->members[g->population];
  for (int m = 0; m < moves; m++) {
    int a = dice_roll(&g->dice, g->tasks);
    int low = a > reach ? a - reach : 0, high = a + reach < g->tasks ? a + reach : g->tasks - 1;
    int b = low + dice_roll(&g->dice, high - low + 1);
    int task = child->list[a], step = a < b ? 1 : -1;
    for (int k = a; k != b; k += step) child->list[k] = child->list[k + step];
    child->list[b] = task;
  }
  memcpy(g->key, child->list, (size_t)g->tasks * sizeof *g->key);
  clear_list(g);
  int length = 0;
  for (int k = 0; k < g->tasks; k++) length = append(g, g->key[k], child->list, length);
}

/* A random list: latest starts, blurred. */
static void found(Genetic *g)
{
  Member *child = &g->members[g->population];
  for (int t = 0; t < g->tasks; t++) g->key[t] = t;
  clear_list(g);
  int length = 0;
  for (int k = 0; k < g->tasks; k++) { /* the best of a few tasks drawn, again and again */
    int chosen = -1;
    for (int draw = 0; draw < 4; draw++) {
      int at = k + dice_roll(&g->dice, g->tasks - k);
      if (chosen < 0 || g->in->latest[g->key[at]] < g->in->latest[g->key[chosen]]) chosen = at;
    }
    int task = g->key[chosen];
    g->key[chosen] = g->key[k];
    g->key[k] = task;
    length = append(g, task, child->list, length);
  }
  finish_child(g, 0);
}

/* A member, well shaken: where a schedule is dear, what is known is worth more than chance. */
static void found_near(Genetic *g)
{
  const Member *near = &g->members[dice_roll(&g->dice, g->filled)];
  memcpy(g->members[g->population].list, near->list, (size_t)g->tasks * sizeof *near->list);
  shake(g, 1 + g->tasks / 16, 1 + g->tasks / 8);
  finish_child(g, 0);
}

/* ---- crossing */

/* The stretch of `minutes` in which a schedule works most, of a few drawn. */
static int peak(Genetic *g, const Member *m, int minutes)
{
  int last = m->makespan;
  memset(g->use, 0, ((size_t)last + 2) * sizeof *g->use);
  for (int t = 0; t < g->tasks; t++) {
    g->use[m->start[t] + 1] += g->density[t];
    g->use[m->start[t] + g->in->duration[t] + 1] -= g->density[t];
  }
  for (int pass = 0; pass < 2; pass++) /* use in each minute, then up to each minute */
    for (int k = 1; k <= last; k++) g->use[k] += g->use[k - 1];
  int best = 0;
  for (int draw = 0; draw < 2; draw++) {
    int at = dice_roll(&g->dice, last - minutes + 1);
    if (draw == 0 || g->use[at + minutes] - g->use[at] > g->use[best + minutes] - g->use[best]) best = at;
  }
  return best;
}

static void cross(Genetic *g, const Member *mother, const Member *father)
{
  Member *child = &g->members[g->population];
  int span = father->makespan;
  int minutes = span / 4 + dice_roll(&g->dice, span / 2 + 1);
  int from = peak(g, father, minutes);
  int before = 0, length = 0;
  for (int t = 0; t < g->tasks; t++) {
    g->in_piece[t] = father->start[t] >= from && father->start[t] < from + minutes;
    before += father->start[t] < from;
  }
  clear_list(g);
  int at = 0;
  for (; at < g->tasks && length < before; at++)
    if (!g->in_piece[mother->list[at]])
      length = append(g, mother->list[at], child->list, length);
  for (int k = 0; k < g->tasks; k++)
    if (g->in_piece[father->list[k]])
      length = append(g, father->list[k], child->list, length);
  for (; at < g->tasks; at++) length = append(g, mother->list[at], child->list, length);
}

/* One child in two has a few tasks moved. */
static void mutate(Genetic *g)
{
  if (dice_roll(&g->dice, 2)) shake(g, 1 + dice_roll(&g->dice, 3), g->tasks);
}

int genetic_run(Genetic *g, int64_t children, int enough)
{
  for (; children > 0 && g->best > enough; children--) {
    if (g->filled < g->population) {
      if (g->filled > 0 && dice_roll(&g->dice, 4)) found_near(g);
      else found(g);
      continue;
    }
    int mother = dice_roll(&g->dice, g->filled), father = dice_roll(&g->dice, g->filled);
    cross(g, &g->members[mother], &g->members[father]);
    mutate(g);
    finish_child(g, mother);
  }
  return g->best;
}

int genetic_best(const Genetic *g, int *start)
{
  if (g->best < CALENDAR_NEVER) memcpy(start, g->best_start, (size_t)g->in->count * sizeof(int));
  return g->best;
}

void genetic_add(Genetic *g, const int *start)
{
  Member *child = &g->members[g->population];
  memcpy(child->start, start, (size_t)g->in->count * sizeof(int));
  for (int t = 0; t < g->tasks; t++) child->list[t] = t;
  sort_list(g, child);
  memcpy(g->key, child->list, (size_t)g->tasks * sizeof *g->key);
  clear_list(g);
  int length = 0;
  for (int k = 0; k < g->tasks; k++) length = append(g, g->key[k], child->list, length);
  finish_child(g, dice_roll(&g->dice, g->population));
}
