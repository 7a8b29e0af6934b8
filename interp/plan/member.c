#include "plan/member.h"

#include <string.h>

#include "base/mem.h"
#include "plan/anneal.h"
#include "plan/cp.h"
#include "plan/genetic.h"
#include "plan/lns.h"
#include "plan/priorities.h"

enum {
  STEPS_AT_ONCE = 100, /* between two looks at the clock */
  SERIAL_RESTARTS = 4, /* a task */
  LEAP_CONFLICTS = 400, /* for an aim more than one below the best */
  SLICE = 4000000 /* of work, before the other way of a proof has its turn */
};

/* ---- what is known */

Known known_new(const Instance *in)
{
  return (Known){ .in = in, .start = mem_array((size_t)in->count, sizeof(int)) };
}

void known_free(Known *k) { mem_free(k->start); }

int known_makespan(const Known *k) { return k->found ? k->start[k->in->end] : CALENDAR_NEVER; }

void known_raise(Known *k, int bound)
{
  if (bound > k->lower_bound) k->lower_bound = bound;
  if (known_makespan(k) <= k->lower_bound || k->lower_bound > k->in->horizon) k->closed = true;
}

bool known_offer(Known *k, const int *start)
{
  int makespan = start[k->in->end];
  if (makespan >= known_makespan(k) || makespan > k->in->horizon) return false;
  memcpy(k->start, start, (size_t)k->in->count * sizeof *start);
  k->found = true;
  known_raise(k, k->lower_bound);
  return true;
}

void known_merge(Known *k, const Known *other)
{
  if (other->found) known_offer(k, other->start);
  known_raise(k, other->lower_bound);
  k->closed |= other->closed;
}

/* ---- members */

struct Member {
  const Instance *in;
  MemberPlan plan;
  Known known;
  int *trial; /* room for a schedule */
  int *list;
  Ways *ways; /* NULL where passes do not apply */
  Pass *pass;
  Serial *serial;
  Genetic *genetic;
  Anneal *anneal;
  Cp *cp; /* made with the first turn */
  Lns lns;
  int below_step, bound_step; /* how far to aim below the best, above the bound */
  int64_t below_used, bound_used;
  MemberTurn turn;
};

Member *member_new(const Instance *in, const MemberPlan *plan)
{
  Member *m = mem_alloc(sizeof *m);
  m->in = in;
  m->plan = *plan;
  m->known = known_new(in);
  m->below_step = m->bound_step = 1;
  m->trial = mem_array((size_t)in->count, sizeof *m->trial);
  m->list = mem_array((size_t)in->count, sizeof *m->list);
  m->serial = serial_new(in, in->earliest, in->latest);
  m->ways = ways_new(in);
  if (m->ways != NULL) m->pass = pass_new(m->ways);
  if (!member_applies(m)) return m;
  if (plan->kind == MEMBER_GENETIC) m->genetic = genetic_new(in, m->serial, plan->population, plan->seed);
  if (plan->kind == MEMBER_ANNEAL) m->anneal = anneal_new(m->ways, plan->seed);
  return m;
}

void member_free(Member *m)
{
  if (m == NULL) return;
  if (m->cp != NULL) lns_free(&m->lns);
  cp_free(m->cp);
  genetic_free(m->genetic);
  anneal_free(m->anneal);
  pass_free(m->pass);
  ways_free(m->ways);
  serial_free(m->serial);
  mem_free(m->trial);
  mem_free(m->list);
  known_free(&m->known);
  mem_free(m);
}

bool member_applies(const Member *m)
{
  if (m->plan.kind == MEMBER_GENETIC) return m->ways == NULL;
  return m->plan.kind != MEMBER_ANNEAL || m->ways != NULL;
}

const Known *member_known(const Member *m) { return &m->known; }

static int64_t schedule_work(const Member *m)
{
  return serial_work(m->serial) + (m->pass ? pass_work(m->pass) : 0) + (m->anneal ? anneal_work(m->anneal) : 0);
}

static int64_t work_of(const Member *m) { return schedule_work(m) + (m->cp ? cp_work(m->cp) : 0); }

static bool is_over(const Member *m, int64_t end_work)
{
  return m->known.closed || work_of(m) >= end_work || m->turn.stop.asked(m->turn.stop.context);
}

static CpLimit limit_until(const Member *m, int64_t end_work)
{
  return (CpLimit){ .work = end_work - work_of(m), .conflicts = INT64_MAX / 2, .stop = m->turn.stop.asked,
                    .context = m->turn.stop.context };
}

/* ---- the genetic algorithm */

/* The first schedules where passes do not apply: by each rule of priority. */
static void try_serial(Member *m)
{
  for (int rule = 0; rule < PRIORITIES_RULES; rule++) {
    priorities_by_rule(m->in, rule, m->list);
    if (serial_run(m->serial, m->list, SERIAL_RESTARTS * m->in->count, m->trial)) known_offer(&m->known, m->trial);
  }
  if (m->known.found) genetic_add(m->genetic, m->known.start);
}

static void run_genetic(Member *m, int64_t end_work)
{
  if (!m->known.found) {
    try_serial(m);
    return;
  }
  if (known_makespan(&m->known) < genetic_best(m->genetic, m->trial)) genetic_add(m->genetic, m->known.start);
  while (!is_over(m, end_work)) {
    genetic_run(m->genetic, 1, m->known.lower_bound);
    if (genetic_best(m->genetic, m->trial) < CALENDAR_NEVER) known_offer(&m->known, m->trial);
  }
}

/* ---- annealing */

static void run_anneal(Member *m, int64_t end_work)
{
  while (!is_over(m, end_work)) {
    anneal_run(m->anneal, STEPS_AT_ONCE, m->turn.gone, m->known.lower_bound);
    anneal_best(m->anneal, m->trial);
    known_offer(&m->known, m->trial);
  }
}

void members_select(Member *const *anneal, int count, const Known *known)
{
  Anneal *worst = anneal[0]->anneal;
  for (int k = 1; k < count; k++)
    if (anneal_makespan(anneal[k]->anneal) >= anneal_makespan(worst)) worst = anneal[k]->anneal;
  if (anneal_makespan(worst) > known_makespan(known)) anneal_follow(worst, known->start);
}

/* ---- search with learning */

/* Starts again from the order of a found schedule: what the search left loose moves up. */
static void offer_tightened(Member *m)
{
  known_offer(&m->known, m->trial);
  if (m->pass != NULL) pass_justify(m->pass, m->trial, m->list);
  else {
    memcpy(m->list, m->trial, (size_t)m->in->count * sizeof *m->list);
    if (!serial_run(m->serial, m->list, m->in->count, m->trial)) return;
  }
  known_offer(&m->known, m->trial);
}

/* The search looks for better schedules only. */
static void aim_below_best(Member *m)
{
  Known *k = &m->known;
  int end = m->in->end;
  if (!k->found || k->closed) return;
  bool open = cp_at_least(m->cp, end, k->lower_bound) && cp_at_most(m->cp, end, known_makespan(k) - 1);
  known_raise(k, open ? cp_earliest(m->cp, end) : known_makespan(k));
  cp_prefer(m->cp, k->start);
}

static void run_lns(Member *m, int64_t end_work)
{
  while (!is_over(m, end_work)) {
    aim_below_best(m);
    memcpy(m->trial, m->known.start, (size_t)m->in->count * sizeof *m->trial);
    if (!m->known.closed && lns_try(&m->lns, m->trial, limit_until(m, end_work))) offer_tightened(m);
  }
}

/* Looks for a schedule that ends by `makespan`. */
static CpStatus search_by(Member *m, int makespan, CpLimit limit)
{
  CpAssumption by = { m->in->end, m->known.lower_bound, makespan };
  CpStatus status = cp_search(m->cp, &by, 1, limit, m->trial);
  if (status == CP_FOUND) offer_tightened(m);
  if (status == CP_REFUTED) known_raise(&m->known, makespan + 1);
  return status;
}

static void search_any(Member *m, int64_t end_work)
{
  CpStatus status = cp_search(m->cp, NULL, 0, limit_until(m, end_work), m->trial);
  if (status == CP_FOUND) offer_tightened(m);
  if (status == CP_REFUTED) m->known.closed = true;
}

/* From the best schedule down. */
static void search_below(Member *m, int64_t end_work)
{
  int aim = known_makespan(&m->known) - m->below_step;
  CpLimit limit = limit_until(m, end_work);
  if (m->below_step > 1) limit.conflicts = LEAP_CONFLICTS;
  CpStatus status = search_by(m, aim > m->known.lower_bound ? aim : m->known.lower_bound, limit);
  if (status == CP_FOUND) m->below_step *= 2;
  else if (m->below_step > 1) m->below_step /= 2;
}

/* From the lower bound up. */
static void search_bound(Member *m, int64_t end_work)
{
  int aim = m->known.lower_bound + m->bound_step - 1, most = known_makespan(&m->known) - 1;
  CpStatus status = search_by(m, aim < most ? aim : most, limit_until(m, end_work));
  if (status == CP_REFUTED) m->bound_step *= 2;
  else if (m->bound_step > 1) m->bound_step /= 2;
}

/* Two parts of three of the work are for the bound. */
static void run_proof(Member *m, int64_t end_work)
{
  while (!is_over(m, end_work)) {
    aim_below_best(m);
    if (m->known.closed) break;
    int64_t begin = work_of(m), slice = begin + SLICE < end_work ? begin + SLICE : end_work;
    if (!m->known.found) {
      search_any(m, end_work);
    } else if (2 * m->below_used <= m->bound_used) {
      search_below(m, slice);
      m->below_used += work_of(m) - begin;
    } else {
      search_bound(m, slice);
      m->bound_used += work_of(m) - begin;
    }
  }
}

/* The search's windows end with the best schedule known so far. */
static bool begin_search(Member *m)
{
  const Instance *in = m->in;
  size_t bytes = (size_t)in->count * sizeof(int);
  int *earliest = m->trial, *latest = m->list;
  memcpy(earliest, in->earliest, bytes);
  memcpy(latest, in->latest, bytes);
  if (m->known.found) latest[in->end] = known_makespan(&m->known);
  if (!temporal_tighten(in, earliest, latest, NULL)) return false;
  m->cp = cp_new(in, earliest, latest);
  m->lns = lns_new(in, m->cp, m->plan.seed);
  if (m->known.found) m->below_step = 1 + (known_makespan(&m->known) - m->known.lower_bound) / 8;
  return true;
}

int64_t member_run(Member *m, const Known *known, const MemberTurn *turn)
{
  static void (*const ways[])(Member *, int64_t) = {
    [MEMBER_GENETIC] = run_genetic, [MEMBER_ANNEAL] = run_anneal, [MEMBER_LNS] = run_lns,
    [MEMBER_PROOF] = run_proof
  };
  int64_t begin = work_of(m);
  m->turn = *turn;
  known_merge(&m->known, known);
  bool searches = m->plan.kind == MEMBER_LNS || m->plan.kind == MEMBER_PROOF;
  if (searches && m->cp == NULL && !m->known.closed && !begin_search(m)) m->known.closed = true;
  ways[m->plan.kind](m, begin + turn->work);
  return work_of(m) - begin;
}
