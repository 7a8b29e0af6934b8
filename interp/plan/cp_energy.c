/* cp_energy.c - is there an interval that cannot hold the work that must be done in it?
 *
 * Time-table edge-finding's overload check: for every interval from an earliest start to a latest finish, the work
 * of tasks that must lie inside, of those that must reach into it, and the certain parts of all others. P. Vilim,
 * CPAIOR 2011, LNCS 6697, 230-245; A. Schutt, T. Feydy, P. Stuckey, CPAIOR 2013, LNCS 7874, 234-250. An overload is
 * explained by the least work of every task in the interval, weakened as far as the overload allows.
 *
 * O(tasks^2) for a resource: so it is called less often while it finds nothing. Work that may pause counts only
 * where it is certain. */
#include <string.h>

#include "base/mem.h"
#include "plan/cp_state.h"

enum { RAREST = 64 };

void energy_begin(Cp *cp)
{
  Energy *e = &cp->energy;
  size_t n = (size_t)cp->in->count;
  e->tasks = mem_array(n, sizeof *e->tasks);
  e->ends = mem_array(n, sizeof *e->ends);
  e->certain = mem_array((size_t)cp->timetable.minutes + 1, sizeof *e->certain);
  /* A long horizon costs more than it gives. */
  e->least = e->every = 1 + cp->timetable.minutes / (32 * cp->in->count);
}

void energy_free(Energy *e)
{
  mem_free(e->tasks);
  mem_free(e->ends);
  mem_free(e->certain);
}

static int need_of(const Cp *cp, int task, int resource)
{
  return cp->in->need[task * cp->in->resource_count + resource];
}

/* Use of the resource by certain parts before each minute. */
static void sum_certain(Cp *cp, int resource)
{
  Energy *e = &cp->energy;
  const Lanes *lanes = &cp->in->lanes;
  int capacity = cp->in->capacity[resource];
  for (int m = 0; m < cp->timetable.minutes; m++) {
    const uint64_t *level = cp->timetable.level + (int64_t)m * lanes->words;
    e->certain[m + 1] = e->certain[m] + capacity - lanes_free_of(lanes, level, resource);
  }
}

/* Tasks of the resource with work that is not certain yet, latest earliest start first, and their distinct ends. */
static void list_tasks(Cp *cp, int resource)
{
  Energy *e = &cp->energy;
  const Instance *in = cp->in;
  e->task_count = e->end_count = 0;
  for (int k = 0; k < cp->timetable.user_count; k++) {
    int t = cp->timetable.users[k], need = need_of(cp, t, resource);
    int est = cp_est(cp, t), lst = cp_lst(cp, t), span = in->duration[t];
    if (need == 0 || in->breakable[t] || est == lst) continue;
    int certain = est + span > lst ? est + span - lst : 0;
    EnergyTask of = { t, est, lst, lst + span, need * (span - certain), need, certain > 0 ? est + span : lst };
    int at = e->task_count++;
    for (; at > 0 && e->tasks[at - 1].est < est; at--) e->tasks[at] = e->tasks[at - 1];
    e->tasks[at] = of;
    at = e->end_count++;
    for (; at > 0 && e->ends[at - 1] < of.lct; at--) e->ends[at] = e->ends[at - 1];
    e->ends[at] = of.lct;
  }
}

/* The start of an overloaded interval that ends at `end`; -1: none. */
static int overload_before(const Cp *cp, int end, int capacity)
{
  const Energy *e = &cp->energy;
  int64_t work = 0;
  for (int k = 0; k < e->task_count; k++) {
    const EnergyTask *t = &e->tasks[k];
    if (t->est >= end) continue;
    if (t->lct <= end) work += t->uncertain;
    else if (t->reach < end) work += (int64_t)t->need * (end - t->reach);
    else continue;
    if (work > (int64_t)capacity * (end - t->est) - (e->certain[end] - e->certain[t->est])) return t->est;
  }
  return -1;
}

/* The least time in [begin, end) that a task works, whatever its start in its window. */
static int least_inside(const Cp *cp, int task, int begin, int end)
{
  int span = cp->in->duration[task];
  int inside = span < end - begin ? span : end - begin;
  if (cp_est(cp, task) + span - begin < inside) inside = cp_est(cp, task) + span - begin;
  if (end - cp_lst(cp, task) < inside) inside = end - cp_lst(cp, task);
  return inside > 0 ? inside : 0;
}

/* False if only certain parts of work that may pause overload the interval: they are not explained here. */
static bool explain_overload(Cp *cp, int resource, int begin, int end)
{
  const Timetable *tt = &cp->timetable;
  int64_t spare = -(int64_t)cp->in->capacity[resource] * (end - begin) - 1;
  for (int k = 0; k < tt->user_count; k++)
    if (!cp->in->breakable[tt->users[k]])
      spare += (int64_t)need_of(cp, tt->users[k], resource) * least_inside(cp, tt->users[k], begin, end);
  if (spare < 0) return false;
  cp->conflict.count = 0;
  for (int k = 0; k < tt->user_count; k++) {
    int t = tt->users[k], need = need_of(cp, t, resource), span = cp->in->duration[t];
    int inside = need > 0 && !cp->in->breakable[t] ? least_inside(cp, t, begin, end) : 0;
    if (inside == 0) continue;
    int less = spare / need < inside ? (int)(spare / need) : inside;
    spare -= (int64_t)less * need;
    inside -= less;
    if (inside == 0) continue;
    atoms_add(&cp->conflict, (Atom){ 2 * t, begin + inside - span });
    atoms_add(&cp->conflict, (Atom){ 2 * t + 1, -(end - inside) });
  }
  cp->work += tt->user_count;
  return true;
}

static bool check_resource(Cp *cp, int resource)
{
  Energy *e = &cp->energy;
  sum_certain(cp, resource);
  list_tasks(cp, resource);
  cp->work += e->task_count * e->end_count / 8 + cp->timetable.minutes / 4;
  for (int k = 0; k < e->end_count; k++) {
    if (k > 0 && e->ends[k] == e->ends[k - 1]) continue;
    int begin = overload_before(cp, e->ends[k], cp->in->capacity[resource]);
    if (begin >= 0 && explain_overload(cp, resource, begin, e->ends[k])) return false;
  }
  return true;
}

bool energy_propagate(Cp *cp)
{
  Energy *e = &cp->energy;
  if (++e->calls < e->every && (cp->level > 1 || e->least > 1)) return true;
  e->calls = 0;
  for (int r = 0; r < cp->in->resource_count; r++) {
    if (check_resource(cp, r)) continue;
    e->every = e->every / 2 > e->least ? e->every / 2 : e->least;
    e->quiet = 0;
    return false;
  }
  if (++e->quiet < 16) return true;
  e->quiet = 0;
  if (e->every < RAREST * e->least) e->every *= 2;
  return true;
}
