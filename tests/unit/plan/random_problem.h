/* random_problem.h - small random problems for the plan tests, and their optimum by trying everything. */
#ifndef TESTS_RANDOM_PROBLEM_H
#define TESTS_RANDOM_PROBLEM_H

#include <stdint.h>
#include <string.h>

#include "base/mem.h"
#include "plan/dice.h"
#include "plan/problem.h"

enum { RANDOM_MAX_LAGS = 1, RANDOM_CALENDARS = 2, RANDOM_WINDOWS = 4, RANDOM_GROUPS = 8, RANDOM_ALL = 15 };

static inline int random_calendar(Problem *p, Dice *d)
{
  Interval open[8];
  int count = 0;
  for (int at = dice_roll(d, 3); at < p->horizon && count < 8; count++) {
    open[count] = (Interval){ at, at + 2 + dice_roll(d, 6) };
    at = open[count].end + 1 + dice_roll(d, 4);
  }
  return problem_add_calendar(p, open, (size_t)count);
}

static inline void random_link(Problem *p, Dice *d, int features, int from, int to)
{
  LinkKind kind = dice_roll(d, 2) ? LINK_FS_MIN : LINK_SS_MIN;
  int minutes = dice_roll(d, 4) - 1;
  problem_link(p, kind, from, to, minutes);
  if (!(features & RANDOM_MAX_LAGS) || dice_roll(d, 2)) return;
  int most = dice_roll(d, 6) + (kind == LINK_FS_MIN ? 0 : 2);
  problem_link(p, kind == LINK_FS_MIN ? LINK_FS_MAX : LINK_SS_MAX, from, to, most);
}

static inline Problem *random_problem(Dice *d, int tasks, int horizon, int features)
{
  Problem *p = problem_new(horizon);
  int calendars = features & RANDOM_CALENDARS ? 2 : 0;
  for (int k = 0; k < calendars; k++) random_calendar(p, d);
  for (int k = 0; k < 2; k++) {
    int calendar = calendars ? dice_roll(d, 3) - 1 : PROBLEM_ALWAYS;
    problem_add_resource(p, 1 + dice_roll(d, 3), calendar);
  }
  if (features & RANDOM_GROUPS) {
    problem_add_group(p, 3, PROBLEM_ALWAYS);
    problem_add_group(p, 6, PROBLEM_ALWAYS);
  }
  for (int t = 0; t < tasks; t++) {
    int calendar = calendars ? dice_roll(d, 3) - 1 : PROBLEM_ALWAYS;
    problem_add_task(p, dice_roll(d, 5), calendar, calendars && dice_roll(d, 2));
    for (int r = 0; r < p->resource_count; r++)
      if (dice_roll(d, 2)) problem_demand(p, t, r, 1 + dice_roll(d, p->resources[r].capacity));
    if (features & RANDOM_WINDOWS && dice_roll(d, 4) == 0) p->tasks[t].release = dice_roll(d, 6);
    if (features & RANDOM_WINDOWS && dice_roll(d, 4) == 0)
      p->tasks[t].deadline = horizon / 2 + dice_roll(d, horizon / 2);
    if (features & RANDOM_WINDOWS && dice_roll(d, 8) == 0) p->tasks[t].fixed_start = dice_roll(d, horizon / 2);
  }
  for (int to = 1; to < tasks; to++)
    for (int from = 0; from < to; from++)
      if (dice_roll(d, 3) == 0) random_link(p, d, features, from, to);
  return p;
}

/* ---- trying everything */

typedef struct {
  const Problem *problem;
  Calendar *working[8];
  int start[8], finish[8];
  int use[64][4]; /* by minute and resource */
  int best;       /* -1: none so far */
} Trial;

static inline bool trial_links_hold(const Trial *t, int placed)
{
  for (int k = 0; k < t->problem->link_count; k++) {
    const Link *l = &t->problem->links[k];
    if (l->from > placed || l->to > placed) continue;
    int from = l->kind == LINK_FS_MIN || l->kind == LINK_FS_MAX ? t->finish[l->from] : t->start[l->from];
    int slack = t->start[l->to] - from - l->minutes;
    if (l->kind == LINK_FS_MIN || l->kind == LINK_SS_MIN ? slack < 0 : slack > 0) return false;
  }
  return true;
}

/* The finish when begun at `start`; -1: not allowed. */
static inline int trial_finish(const Trial *t, int task, int start)
{
  const Task *of = &t->problem->tasks[task];
  if (of->duration == 0) return start;
  int left = of->duration, minute = start;
  for (; left > 0; minute++) {
    if (minute >= t->problem->horizon) return -1;
    bool open = calendar_is_open(t->working[task], minute);
    if (!open && (minute == start || !of->breakable)) return -1;
    left -= open;
  }
  return minute;
}

static inline bool trial_use(Trial *t, int task, int sign)
{
  const Task *of = &t->problem->tasks[task];
  bool fits = true;
  for (int m = t->start[task]; m < t->finish[task]; m++) {
    if (!calendar_is_open(t->working[task], m)) continue;
    for (int k = 0; k < of->demand_count; k++) {
      int r = of->demands[k].resource;
      t->use[m][r] += sign * of->demands[k].amount;
      if (t->use[m][r] > t->problem->resources[r].capacity) fits = false;
    }
    /* the two groups, {0, 1} and {1, 2}, are three people */
    if (t->problem->resource_count == 4 && t->use[m][2] + t->use[m][3] > 3) fits = false;
  }
  return fits;
}

static inline void trial_place(Trial *t, int task, int makespan)
{
  const Problem *p = t->problem;
  if (task == p->task_count) {
    t->best = makespan;
    return;
  }
  const Task *of = &p->tasks[task];
  for (int start = of->release; start <= p->horizon; start++) {
    if (of->fixed_start != PROBLEM_FREE && start != of->fixed_start) continue;
    int finish = trial_finish(t, task, start);
    if (finish < 0 || finish > of->deadline) continue;
    if (t->best >= 0 && finish >= t->best) break;
    t->start[task] = start;
    t->finish[task] = finish;
    if (!trial_links_hold(t, task)) continue;
    if (trial_use(t, task, 1)) trial_place(t, task + 1, finish > makespan ? finish : makespan);
    trial_use(t, task, -1);
  }
}

/* The least makespan; -1: there is no schedule. At most 8 tasks and 4 resources, a horizon under 64. */
static inline int best_by_trial(const Problem *p)
{
  Trial t = { .problem = p, .best = -1 };
  for (int k = 0; k < p->task_count; k++) t.working[k] = problem_working_time(p, k);
  trial_place(&t, 0, 0);
  for (int k = 0; k < p->task_count; k++) calendar_free(t.working[k]);
  return t.best;
}

#endif
