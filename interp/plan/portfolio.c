#include "plan/portfolio.h"

#include <pthread.h>
#include <stdatomic.h>
#include <time.h>

#include "base/mem.h"
#include "plan/bounds.h"
#include "plan/member.h"

enum {
  FIRST_ROUND = 100000, /* of work; rounds double up to the last */
  LAST_ROUND = 5000000,
  THREADED_ROUND = 1000000, /* less is not worth a thread */
  CHILD_WORK = 16,          /* of one child in the genetic algorithm, a task */
  CHILDREN_A_MEMBER = 150,
  WORK_A_SECOND = 100000000,
  SELECTIONS = 20, /* in a run, of ANNEAL members: with more of them all soon do the same */
  CLOSE = 2 /* a gap that is worth a proof, in per cent */
};

/* FIRST: the first round. NONE: still no schedule. FAR, NEAR: fast passes apply, and the best schedule is far from or
 * near to the bound. LAGS: calendars or maximum lags. */
typedef enum { FIRST, NONE, FAR, NEAR, LAGS, SITUATIONS } Situation;

/* The members, in the order in which they are taken up, and the share of a round's work that each has. */
static const struct {
  MemberKind kind;
  int shares[SITUATIONS];
} rows[] = {
  { MEMBER_LNS,     { [NEAR] = 10, [LAGS] = 60 } },
  { MEMBER_PROOF,   { [NONE] = 1, [FAR] = 6, [NEAR] = 90, [LAGS] = 30 } },
  { MEMBER_GENETIC, { [FIRST] = 1, [LAGS] = 10 } },
  { MEMBER_ANNEAL,  { [FIRST] = 1, [NONE] = 1, [FAR] = 23, [NEAR] = 8 } },
  { MEMBER_ANNEAL,  { [FAR] = 23, [NEAR] = 8 } },
  { MEMBER_ANNEAL,  { [FAR] = 23, [NEAR] = 8 } },
  { MEMBER_ANNEAL,  { [FAR] = 23, [NEAR] = 8 } },
};
enum { MEMBERS = sizeof rows / sizeof *rows, FIRST_ANNEAL = 3, ANNEALS = MEMBERS - FIRST_ANNEAL };

typedef struct Portfolio Portfolio;

/* A thread's part of a round. */
typedef struct {
  Portfolio *portfolio;
  double begin_s, took_s;
} Worker;

/* A member's part of a round. */
typedef struct {
  Portfolio *portfolio;
  Member *member;
  const Worker *worker;
  int64_t work, done; /* steps it is given; steps it made */
} Part;

struct Portfolio {
  const Instance *in;
  const SolveOptions *options;
  Known known;
  Part parts[MEMBERS];
  bool fast;   /* passes apply */
  double gone; /* part of the run before this round */
  int selections;
  int64_t work;
  double spent_s;     /* before this round */
  atomic_int next;    /* part to be taken up */
  atomic_int closing; /* the first part that closed the problem: those after it are not needed */
};

/* ---- limits */

static double now_s(const Portfolio *p)
{
  struct timespec t;
  clock_gettime(p->options->cpu ? CLOCK_THREAD_CPUTIME_ID : CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static bool must_stop(void *context)
{
  const Part *part = context;
  Portfolio *p = part->portfolio;
  if (part - p->parts > atomic_load(&p->closing)) return true;
  return p->options->seconds > 0 && p->spent_s + now_s(p) - part->worker->begin_s >= p->options->seconds;
}

/* Of the limit in work. */
static int64_t work_left(const Portfolio *p)
{
  if (p->options->seconds > 0) return p->spent_s < p->options->seconds ? INT64_MAX : 0;
  return (p->options->work > 0 ? p->options->work : SOLVE_DEFAULT_WORK) - p->work;
}

static double part_gone(const Portfolio *p)
{
  if (p->options->seconds > 0) return p->spent_s / p->options->seconds;
  return (double)p->work / (double)(p->options->work > 0 ? p->options->work : SOLVE_DEFAULT_WORK);
}

/* ---- one round */

static void *take_parts(void *context)
{
  Worker *w = context;
  Portfolio *p = w->portfolio;
  w->begin_s = now_s(p);
  for (int k; (k = atomic_fetch_add(&p->next, 1)) < MEMBERS;) {
    Part *part = &p->parts[k];
    part->worker = w;
    part->done = 0;
    if (part->work == 0 || must_stop(part)) continue;
    MemberTurn turn = { part->work, p->gone, { must_stop, part } };
    part->done = member_run(part->member, &p->known, &turn);
    if (!member_known(part->member)->closed) continue;
    int first = atomic_load(&p->closing);
    while (k < first && !atomic_compare_exchange_weak(&p->closing, &first, k)) continue;
  }
  w->took_s = now_s(p) - w->begin_s;
  return NULL;
}

/* The first worker works here; so does all for which no thread can be had. */
static void run_parts(Portfolio *p, int64_t work)
{
  int asked = work < THREADED_ROUND ? 1 : p->options->threads;
  int threads = asked < 1 ? 1 : asked > MEMBERS ? MEMBERS : asked;
  Worker workers[MEMBERS];
  pthread_t ids[MEMBERS];
  bool started[MEMBERS] = { false };
  atomic_store(&p->next, 0);
  atomic_store(&p->closing, MEMBERS);
  for (int k = 0; k < threads; k++) {
    workers[k] = (Worker){ .portfolio = p };
    if (k > 0) started[k] = pthread_create(&ids[k], NULL, take_parts, &workers[k]) == 0;
  }
  take_parts(&workers[0]);
  double longest_s = workers[0].took_s;
  for (int k = 1; k < threads; k++) {
    if (!started[k]) continue;
    pthread_join(ids[k], NULL);
    if (workers[k].took_s > longest_s) longest_s = workers[k].took_s;
  }
  p->spent_s += longest_s;
}

/* In fixed order, and no further than the first member that leaves nothing to be found. */
static void tell_each_other(Portfolio *p)
{
  for (int k = 0; k < MEMBERS && !p->known.closed; k++) {
    if (p->parts[k].work == 0) continue;
    p->work += p->parts[k].done + 1;
    known_merge(&p->known, member_known(p->parts[k].member));
  }
}

static void select_anneals(Portfolio *p)
{
  Member *anneal[ANNEALS];
  if (!p->fast || part_gone(p) * SELECTIONS < p->selections + 1) return;
  p->selections++;
  for (int k = 0; k < ANNEALS; k++) anneal[k] = p->parts[FIRST_ANNEAL + k].member;
  members_select(anneal, ANNEALS, &p->known);
}

static int share(const Portfolio *p, int member, Situation situation)
{
  return member_applies(p->parts[member].member) ? rows[member].shares[situation] : 0;
}

static void run_round(Portfolio *p, Situation situation, int64_t work)
{
  int total = 0;
  for (int k = 0; k < MEMBERS; k++) total += share(p, k, situation);
  for (int k = 0; k < MEMBERS; k++) p->parts[k].work = work * share(p, k, situation) / total;
  p->gone = part_gone(p);
  run_parts(p, work);
  tell_each_other(p);
  select_anneals(p);
}

/* ---- all rounds */

static Situation situation_of(const Portfolio *p)
{
  if (p->work == 0) return FIRST;
  if (!p->known.found) return NONE;
  if (!p->fast) return LAGS;
  int makespan = known_makespan(&p->known), gap = makespan - p->known.lower_bound;
  return gap <= 2 || (int64_t)gap * 100 <= (int64_t)CLOSE * makespan ? NEAR : FAR;
}

static bool report(const Portfolio *p)
{
  if (p->options->progress == NULL) return true;
  SolveProgress progress = { p->known.found ? known_makespan(&p->known) : -1, p->known.lower_bound, p->work };
  return p->options->progress(p->options->context, &progress);
}

static void run_rounds(Portfolio *p)
{
  bool go_on = true;
  for (int64_t round = FIRST_ROUND, left; go_on && !p->known.closed && (left = work_left(p)) > 0;) {
    run_round(p, situation_of(p), round < left ? round : left);
    if (round < LAST_ROUND) round *= 2;
    go_on = report(p);
  }
}

/* ---- beginning and end */

/* As many as have time to mix: too many do not come together, too few agree too soon. */
static int population_for(const Portfolio *p)
{
  int64_t work = p->options->work > 0 ? p->options->work : SOLVE_DEFAULT_WORK;
  if (p->options->seconds > 0) work = (int64_t)(p->options->seconds * WORK_A_SECOND);
  int64_t population = work / 2 / ((int64_t)CHILD_WORK * p->in->count) / CHILDREN_A_MEMBER;
  return population < 30 ? 30 : population > 2000 ? 2000 : (int)population;
}

static void begin(Portfolio *p)
{
  known_raise(&p->known, p->in->earliest[p->in->end]);
  known_raise(&p->known, bounds_energy(p->in, p->in->earliest));
  for (int k = 0; k < MEMBERS; k++) {
    MemberPlan plan = { rows[k].kind, population_for(p), p->options->seed + (uint64_t)k };
    p->parts[k] = (Part){ .portfolio = p, .member = member_new(p->in, &plan) };
  }
  p->fast = member_applies(p->parts[FIRST_ANNEAL].member);
}

static void write_result(const Portfolio *p, SolveResult *r)
{
  r->work = p->work;
  r->lower_bound = p->known.lower_bound;
  r->status = p->known.closed ? SOLVE_INFEASIBLE : SOLVE_UNKNOWN;
  if (!p->known.found) return;
  r->status = p->known.closed ? SOLVE_BEST : SOLVE_FEASIBLE;
  r->schedule = instance_schedule(p->in, p->known.start);
}

void portfolio_run(const Instance *in, const SolveOptions *options, SolveResult *result)
{
  Portfolio p = { .in = in, .options = options, .known = known_new(in) };
  double begin_s = now_s(&p);
  begin(&p);
  p.spent_s = now_s(&p) - begin_s;
  run_rounds(&p);
  write_result(&p, result);
  for (int k = 0; k < MEMBERS; k++) member_free(p.parts[k].member);
  known_free(&p.known);
}
