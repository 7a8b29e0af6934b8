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

struct Anneal {
  const Instance *in;
  Passes *passes;
  int tasks, grain;
  Candidate now, next;
  int best, *best_start;
  int *place; /* of each task on the list of `next` */
  Dice dice;
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

static void note_best(Anneal *a)
{
  if (a->now.makespan >= a->best) return;
  a->best = a->now.makespan;
  memcpy(a->best_start, a->now.start, (size_t)a->in->count * sizeof(int));
}

Anneal *anneal_new(const Instance *in, Passes *passes, uint64_t seed)
{
  Anneal *a = mem_alloc(sizeof *a);
  size_t n = (size_t)in->count;
  *a = (Anneal){ .in = in, .passes = passes, .tasks = in->end, .grain = grain_of(in), .now = candidate_new(n),
                 .next = candidate_new(n), .best = CALENDAR_NEVER, .best_start = mem_array(n, sizeof(int)),
                 .place = mem_array(n, sizeof(int)), .dice = { seed } };
  anneal_follow(a, in->latest);
  return a;
}

void anneal_free(Anneal *a)
{
  if (a == NULL) return;
  void *blocks[] = { a->now.list, a->now.start, a->next.list, a->next.start, a->best_start, a->place };
  for (size_t k = 0; k < sizeof blocks / sizeof *blocks; k++) mem_free(blocks[k]);
  mem_free(a);
}

void anneal_follow(Anneal *a, const int *start)
{
  passes_order_by(a->passes, start, a->now.list);
  passes_left(a->passes, a->now.list, a->now.start);
  a->now.makespan = passes_justify(a->passes, a->now.start, a->now.list);
  note_best(a);
}

int anneal_best(const Anneal *a, int *start)
{
  memcpy(start, a->best_start, (size_t)a->in->count * sizeof(int));
  return a->best;
}

int anneal_makespan(const Anneal *a) { return a->now.makespan; }

/* ---- a step */

/* To another place between those that must come before and after. Returns the first place on the list that changes;
 * with no other place for the task, that after the last. */
static int move(Anneal *a, int task)
{
  const Instance *in = a->in;
  int *list = a->next.list, from = a->place[task], low = 0, high = a->tasks - 1;
  for (int k = in->in_first[task]; k < in->in_first[task + 1]; k++) {
    int place = a->place[in->edges[in->in[k]].from];
    if (place >= low) low = place + 1;
  }
  for (int k = in->out_first[task]; k < in->out_first[task + 1]; k++) {
    int place = a->place[in->edges[in->out[k]].to];
    if (place <= high) high = place - 1;
  }
  if (low == high) return a->tasks;
  int to = low + dice_roll(&a->dice, high - low);
  if (to >= from) to++;
  int step = from < to ? 1 : -1;
  for (int k = from; k != to; k += step) {
    list[k] = list[k + step];
    a->place[list[k]] = k;
  }
  list[to] = task;
  a->place[task] = to;
  return from < to ? from : to;
}

/* Returns how many tasks stay as they are at the head of the list. */
static int change_list(Anneal *a)
{
  int same = a->tasks;
  memcpy(a->next.list, a->now.list, (size_t)a->tasks * sizeof(int));
  for (int k = 0; k < a->tasks; k++) a->place[a->now.list[k]] = k;
  a->place[a->in->end] = a->tasks;
  for (int moves = 1 + dice_roll(&a->dice, 2); moves > 0; moves--) {
    int first = a->tasks;
    for (int draw = 0; draw < DRAWS && first == a->tasks; draw++)
      first = move(a, dice_roll(&a->dice, a->tasks));
    if (first < same) same = first;
  }
  return same;
}

/* From the list of `next`, of which the head is as before, to its schedule. False: it is the one at hand, or ends
 * after `most`. What is far off after one pass, or is not there after two, is given up: few of those would come there
 * (on two instances of 120 tasks 5 in 100 of the schedules that were kept). */
static bool build(Anneal *a, int same, int most)
{
  Candidate *next = &a->next;
  memcpy(next->start, a->now.start, (size_t)a->tasks * sizeof(int));
  int makespan = passes_left_from(a->passes, next->list, same, next->start);
  if (makespan > most + HOPE * a->grain) return false;
  if (memcmp(next->start, a->now.start, (size_t)a->tasks * sizeof(int)) == 0) return false;
  if (passes_right(a->passes, next->start, next->list) > most) return false;
  passes_order_by(a->passes, next->start, next->list);
  next->makespan = passes_left(a->passes, next->list, next->start);
  return next->makespan <= most;
}

/* Chances, of CHANCES, that a loss of one more grain is borne: of d grains, exp(-d / heat). */
static int chances_at(double gone)
{
  double heat = HOT * pow(COLD / HOT, fmin(fmax(gone, 0), 1));
  return (int)(CHANCES * exp(-1 / heat));
}

int anneal_run(Anneal *a, int64_t steps, double gone, int enough)
{
  int chances = chances_at(gone);
  for (; steps > 0 && a->best > enough; steps--) {
    int most = a->now.makespan;
    while (dice_roll(&a->dice, CHANCES) < chances) most += a->grain;
    if (!build(a, change_list(a), most)) continue;
    Candidate swap = a->now;
    a->now = a->next;
    a->next = swap;
    note_best(a);
  }
  return a->best;
}
