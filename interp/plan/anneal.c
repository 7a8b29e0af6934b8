#include "plan/anneal.h"

#include <math.h>
#include <string.h>

#include "base/mem.h"
#include "plan/dice.h"

/* Heat is in grains: with durations of 1 to 10 a grain is one minute. */
#define HOT 0.5
#define COLD 0.1

enum {
  GRAINS_A_TASK_HALVES = 11, /* of the mean duration */
  HOPE = 4,                  /* grains that the passes to come may still win */
  DRAWS = 8,                 /* of tasks, until one can move */
  CHANCES = 1 << 20
};

typedef struct {
  int *list, *start;
  int makespan;
} Candidate;

/* The pass under way. */
typedef enum { NONE, FIRST_LEFT, RIGHT, LAST_LEFT } Stage;

typedef struct {
  Candidate now, next;
  int best, *best_start;
  int *place; /* of each task on the list of `next` */
  Dice dice;
  Pass *pass;
  Stage stage;
  int most; /* may `next` last */
} Walk;

enum { WALKS = 2 };

struct Anneal {
  const Instance *in;
  int tasks, grain;
  Walk walks[WALKS]; /* side by side */
};

static int grain_of(const Instance *in)
{
  int64_t minutes = 0;
  for (int t = 0; t < in->end; t++) minutes += in->duration[t];
  int64_t grain = in->end > 0 ? 2 * minutes / ((int64_t)GRAINS_A_TASK_HALVES * in->end) : 1;
  return grain > 1 ? (int)grain : 1;
}

static Candidate candidate_new(size_t count)
{
  return (Candidate){ .list = mem_array(count, sizeof(int)), .start = mem_array(count, sizeof(int)) };
}

static Walk walk_new(const Ways *ways, uint64_t seed)
{
  size_t n = (size_t)ways->in->count;
  return (Walk){ .now = candidate_new(n), .next = candidate_new(n), .best = CALENDAR_NEVER,
                 .best_start = mem_array(n, sizeof(int)), .place = mem_array(n, sizeof(int)), .dice = { seed },
                 .pass = pass_new(ways) };
}

static void walk_free(Walk *w)
{
  void *blocks[] = { w->now.list, w->now.start, w->next.list, w->next.start, w->best_start, w->place };
  for (size_t k = 0; k < sizeof blocks / sizeof *blocks; k++) mem_free(blocks[k]);
  pass_free(w->pass);
}

static void note_best(const Anneal *a, Walk *w)
{
  if (w->now.makespan >= w->best) return;
  w->best = w->now.makespan;
  memcpy(w->best_start, w->now.start, (size_t)a->in->count * sizeof(int));
}

static void follow(Anneal *a, Walk *w, const int *start)
{
  pass_order_by(w->pass, start, w->now.list);
  pass_left(w->pass, w->now.list, w->now.start);
  w->now.makespan = pass_justify(w->pass, w->now.start, w->now.list);
  note_best(a, w);
}

Anneal *anneal_new(const Ways *ways, uint64_t seed)
{
  Anneal *a = mem_alloc(sizeof *a);
  *a = (Anneal){ .in = ways->in, .tasks = ways->tasks, .grain = grain_of(ways->in) };
  for (int k = 0; k < WALKS; k++) {
    a->walks[k] = walk_new(ways, seed + ((uint64_t)k << 32));
    follow(a, &a->walks[k], ways->in->latest);
  }
  return a;
}

void anneal_free(Anneal *a)
{
  if (a == NULL) return;
  for (int k = 0; k < WALKS; k++) walk_free(&a->walks[k]);
  mem_free(a);
}

static const Walk *best_walk(const Anneal *a)
{
  const Walk *best = a->walks;
  for (int k = 1; k < WALKS; k++)
    if (a->walks[k].best < best->best) best = &a->walks[k];
  return best;
}

static int worst_walk(const Anneal *a)
{
  int worst = 0;
  for (int k = 1; k < WALKS; k++)
    if (a->walks[k].now.makespan >= a->walks[worst].now.makespan) worst = k;
  return worst;
}

int anneal_best(const Anneal *a, int *start)
{
  const Walk *best = best_walk(a);
  memcpy(start, best->best_start, (size_t)a->in->count * sizeof(int));
  return best->best;
}

int anneal_makespan(const Anneal *a) { return a->walks[worst_walk(a)].now.makespan; }

void anneal_follow(Anneal *a, const int *start) { follow(a, &a->walks[worst_walk(a)], start); }

int64_t anneal_work(const Anneal *a)
{
  int64_t work = 0;
  for (int k = 0; k < WALKS; k++) work += pass_work(a->walks[k].pass);
  return work;
}

/* ---- a step */

/* To another place between those that must come before and after. Returns the first place on the list that changes;
 * with no other place for the task, that after the last. */
static int move(const Anneal *a, Walk *w, int task)
{
  const Instance *in = a->in;
  int *list = w->next.list, from = w->place[task], low = 0, high = a->tasks - 1;
  for (int k = in->in_first[task]; k < in->in_first[task + 1]; k++) {
    int place = w->place[in->edges[in->in[k]].from];
    if (place >= low) low = place + 1;
  }
  for (int k = in->out_first[task]; k < in->out_first[task + 1]; k++) {
    int place = w->place[in->edges[in->out[k]].to];
    if (place <= high) high = place - 1;
  }
  if (low == high) return a->tasks;
  int to = low + dice_roll(&w->dice, high - low);
  if (to >= from) to++;
  int step = from < to ? 1 : -1;
  for (int k = from; k != to; k += step) {
    list[k] = list[k + step];
    w->place[list[k]] = k;
  }
  list[to] = task;
  w->place[task] = to;
  return from < to ? from : to;
}

/* A list like the one at hand, but for a move or two. */
static PassLike change_list(const Anneal *a, Walk *w)
{
  const int *list = w->now.list;
  PassLike like = { a->tasks, a->tasks };
  memcpy(w->next.list, list, (size_t)a->tasks * sizeof(int));
  for (int k = 0; k < a->tasks; k++) w->place[list[k]] = k;
  w->place[a->in->end] = a->tasks;
  for (int moves = 1 + dice_roll(&w->dice, 2); moves > 0; moves--) {
    int first = a->tasks;
    for (int draw = 0; draw < DRAWS && first == a->tasks; draw++)
      first = move(a, w, dice_roll(&w->dice, a->tasks));
    if (first < like.head) like.head = first;
  }
  while (like.tail > like.head && w->next.list[like.tail - 1] == list[like.tail - 1]) like.tail--;
  return like;
}

static void begin_step(const Anneal *a, Walk *w, int chances)
{
  w->most = w->now.makespan;
  while (dice_roll(&w->dice, CHANCES) < chances) w->most += a->grain;
  PassLike like = change_list(a, w);
  memcpy(w->next.start, w->now.start, (size_t)a->tasks * sizeof(int));
  pass_begin_left(w->pass, w->next.list, &like, w->most + HOPE * a->grain, w->next.start);
  w->stage = FIRST_LEFT;
}

static void keep(const Anneal *a, Walk *w)
{
  Candidate swap = w->now;
  w->now = w->next;
  w->next = swap;
  note_best(a, w);
}

/* After a pass. What is as before or far off after the first, or is not there after two, is given up: few of those
 * would come there (on two instances of 120 tasks 5 in 100 of the schedules that were kept). */
static Stage next_stage(const Anneal *a, Walk *w)
{
  Candidate *next = &w->next;
  next->makespan = pass_result(w->pass);
  switch (w->stage) {
  case FIRST_LEFT:
    if (next->makespan == PASS_SAME || next->makespan > w->most + HOPE * a->grain) return NONE;
    pass_begin_right(w->pass, w->most, next->start, next->list);
    return RIGHT;
  case RIGHT:
    if (next->makespan > w->most) return NONE;
    pass_order_by(w->pass, next->start, next->list);
    pass_begin_left(w->pass, next->list, NULL, w->most, next->start);
    return LAST_LEFT;
  case LAST_LEFT:
    if (next->makespan <= w->most) keep(a, w);
    return NONE;
  case NONE: break;
  }
  return NONE;
}

/* Chances, of CHANCES, that a loss of one more grain is borne: of d grains, exp(-d / heat). */
static int chances_at(double gone)
{
  double heat = HOT * pow(COLD / HOT, fmin(fmax(gone, 0), 1));
  return (int)(CHANCES * exp(-1 / heat));
}

/* The walk whose pass is over; NULL: none is under way. */
static Walk *go_on(Anneal *a)
{
  Walk *one = &a->walks[0], *other = &a->walks[1];
  Pass *passes[] = { one->stage == NONE ? NULL : one->pass, other->stage == NONE ? NULL : other->pass };
  if (passes[0] == NULL && passes[1] == NULL) return NULL;
  return pass_go_on(passes[0], passes[1]) == one->pass ? one : other;
}

int anneal_run(Anneal *a, int64_t steps, double gone, int enough)
{
  int chances = chances_at(gone);
  for (int k = 0; k < WALKS && k < steps; k++) begin_step(a, &a->walks[k], chances);
  int64_t left = steps - WALKS;
  for (Walk *w; best_walk(a)->best > enough && (w = go_on(a)) != NULL;) {
    w->stage = next_stage(a, w);
    if (w->stage == NONE && left-- > 0) begin_step(a, w, chances);
  }
  for (int k = 0; k < WALKS; k++) a->walks[k].stage = NONE;
  return best_walk(a)->best;
}
