/* cp_search.c - decisions, restarts, limits.
 *
 * The first run branches like a schedule is built: the task that can start earliest, at once. After the first
 * restart the most active question is asked first, answered as in the preferred schedule. Restarts follow M. Luby,
 * A. Sinclair, D. Zuckerman, Inf. Process. Lett. 47 (1993) 173-180. */

#include "plan/cp_state.h"

enum { RESTART_UNIT = 100, ASK_EVERY = 32 };

/* 1 1 2 1 1 2 4 1 1 2 1 1 2 4 8 ... */
static int64_t luby(uint64_t run)
{
  for (uint64_t i = run + 1;;) {
    uint64_t size = 1;
    while (size <= i) size *= 2;
    if (size - 1 == i) return (int64_t)(size / 2);
    i -= size / 2 - 1;
  }
}

/* The unfixed task with the earliest start, ties by the latest one. */
static bool next_by_start(Cp *cp, Atom *decision)
{
  int best = -1;
  for (int t = 0; t < cp->in->count; t++) {
    int est = cp_est(cp, t), lst = cp_lst(cp, t);
    if (est == lst) continue;
    if (best >= 0 && (est > cp_est(cp, best) || (est == cp_est(cp, best) && lst >= cp_lst(cp, best)))) continue;
    best = t;
  }
  cp->work += cp->in->count / 2;
  if (best >= 0) *decision = (Atom){ 2 * best + 1, -cp_est(cp, best) };
  return best >= 0;
}

static bool next_by_activity(Cp *cp, Atom *decision)
{
  int task, k;
  if (!order_next(cp, &task, &k)) return false;
  bool late = cp->has_preferred && cp->restarts % 2 && cp->preferred[task] >= k;
  *decision = late ? (Atom){ 2 * task, k } : (Atom){ 2 * task + 1, -(k - 1) };
  return true;
}

static bool next_decision(Cp *cp, Atom *decision)
{
  if (cp->restarts % 8 != 0 && next_by_activity(cp, decision)) return true;
  return next_by_start(cp, decision);
}

/* The next assumption as a decision. 0: all are made; 1: decided; -1: it is refuted. */
static int assume(Cp *cp, const CpAssumption *assumptions, int count)
{
  while (cp->level < 2 * count) {
    const CpAssumption *a = &assumptions[cp->level / 2];
    Atom atom = cp->level % 2 == 0 ? (Atom){ 2 * a->task, instance_next(cp->in, a->task, a->earliest) }
                                   : (Atom){ 2 * a->task + 1, -instance_previous(cp->in, a->task, a->latest) };
    if (cp_fails(cp, atom)) return -1;
    bool news = !cp_holds(cp, atom);
    cp_decide(cp, atom);
    if (news) return 1;
  }
  return 0;
}

typedef struct {
  CpLimit limit;
  int64_t work, conflicts; /* at which to stop */
  unsigned asked;
} Budget;

/* The clock is asked now and then only. */
static bool is_spent(const Cp *cp, Budget *b)
{
  if (cp->work >= b->work || cp->conflicts >= b->conflicts) return true;
  return b->limit.stop != NULL && ++b->asked % ASK_EVERY == 0 && b->limit.stop(b->limit.context);
}

/* Until a restart is due or the budget is spent (LIMIT), or an answer. */
static CpStatus run(Cp *cp, const CpAssumption *assumptions, int count, int64_t most_conflicts, Budget *budget)
{
  for (int64_t end = cp->conflicts + most_conflicts;;) {
    if (!cp_propagate(cp)) {
      if (!learn(cp)) {
        cp->contradiction = true;
        return CP_REFUTED;
      }
      order_decay(cp);
      clauses_decay(cp);
      continue;
    }
    if (cp->conflicts >= end || clauses_are_too_many(cp) || is_spent(cp, budget)) return CP_LIMIT;
    int assumed = assume(cp, assumptions, count);
    if (assumed < 0) return CP_REFUTED;
    if (assumed > 0) continue;
    Atom decision;
    if (!next_decision(cp, &decision)) return CP_FOUND;
    cp_decide(cp, decision);
  }
}

CpStatus cp_search(Cp *cp, const CpAssumption *assumptions, int count, CpLimit limit, int *start)
{
  Budget budget = { limit, cp->work + limit.work, cp->conflicts + limit.conflicts, 0 };
  CpStatus status = cp->contradiction ? CP_REFUTED : CP_LIMIT;
  while (status == CP_LIMIT) {
    status = run(cp, assumptions, count, RESTART_UNIT * luby(cp->restarts), &budget);
    for (int t = 0; status == CP_FOUND && t < cp->in->count; t++) start[t] = cp_est(cp, t);
    cp_back_to(cp, 0);
    cp->restarts++;
    if (!cp->contradiction && !cp_propagate(cp)) cp->contradiction = true;
    if (cp->contradiction && status == CP_LIMIT) status = CP_REFUTED;
    clauses_reduce(cp);
    if (status == CP_LIMIT && (is_spent(cp, &budget) || (limit.stop != NULL && limit.stop(limit.context)))) break;
  }
  return status;
}
