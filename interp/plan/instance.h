/* instance.h - a problem in the solver's own form.
 *
 * Links become edges between starts; maximum lags become edges backwards. With S a start, F the finish that belongs
 * to it, an edge says
 *   EDGE_START        S(to) >= S(from) + minutes
 *   EDGE_FROM_FINISH  S(to) >= F(from) + minutes
 *   EDGE_TO_FINISH    F(to) >= S(from) + minutes
 * The last two are left only for work that may pause: otherwise F = S + duration and the edge is one between
 * starts. F is monotone in S, so each edge turns a bound on one start into a bound on the other; that is all the
 * propagation of lags needs. One event is added after all tasks: the end (index `end`), whose start is the
 * makespan.
 *
 * Demands are packed into lanes (lanes.h). Groups that share people bring one more resource for each connected
 * union of groups: by Hall's theorem (P. Hall, J. London Math. Soc. 10 (1935) 26-30) distinct people for all
 * demands exist at a minute exactly if no union of groups is asked for more people than it has. */
#ifndef PLAN_INSTANCE_H
#define PLAN_INSTANCE_H

#include "plan/lanes.h"
#include "plan/problem.h"

typedef enum { EDGE_START, EDGE_FROM_FINISH, EDGE_TO_FINISH } EdgeKind;

typedef struct {
  int from, to, minutes;
  EdgeKind kind;
  int link; /* of the problem; -1: to the end */
} Edge;

typedef struct {
  const Problem *problem;
  int count, end; /* tasks and the end event; end == count - 1 */
  int horizon;
  int *duration;
  const Calendar **working; /* NULL: always; shared, owned in `calendars` */
  bool *breakable;          /* only where there is a calendar to pause for */
  int *earliest, *latest;   /* starts that the task's own release, deadline and calendar leave */

  Edge *edges;
  int edge_count;
  int *out, *out_first; /* edges leaving task t: out[out_first[t]] .. out[out_first[t + 1] - 1] */
  int *in, *in_first;

  int resource_count; /* those of the problem, then the unions of groups */
  int *capacity;
  int *need; /* need[task * resource_count + resource] */
  Lanes lanes;

  Calendar **calendars;
  int calendar_count;
  bool plain;   /* no calendars */
  bool forward; /* no maximum lag, no deadline: no edge goes backwards */
  int hopeless; /* a task that asks for more than there is; -1: none */
} Instance;

Instance *instance_new(const Problem *problem);
void instance_free(Instance *instance);

/* Of a task begun at the first legal start >= `start`: its finish. CALENDAR_NEVER if there is none. */
int instance_finish_on_calendar(const Instance *in, int task, int start);
int instance_latest_start_on_calendar(const Instance *in, int task, int finish);
int instance_next_on_calendar(const Instance *in, int task, int start);
int instance_previous_on_calendar(const Instance *in, int task, int start);

static inline int instance_finish(const Instance *in, int task, int start)
{
  return in->working[task] == NULL ? start + in->duration[task] : instance_finish_on_calendar(in, task, start);
}

/* The latest legal start that finishes at or before `finish`; CALENDAR_BEFORE if there is none. */
static inline int instance_latest_start(const Instance *in, int task, int finish)
{
  return in->working[task] == NULL ? finish - in->duration[task]
                                   : instance_latest_start_on_calendar(in, task, finish);
}

/* The first (last) legal start >= (<=) `start`. */
static inline int instance_next(const Instance *in, int task, int start)
{
  return in->working[task] == NULL ? start : instance_next_on_calendar(in, task, start);
}
static inline int instance_previous(const Instance *in, int task, int start)
{
  return in->working[task] == NULL ? start : instance_previous_on_calendar(in, task, start);
}

/* The least start of `to` when `from` starts at `start` or later; the greatest start of `from` when `to` starts at
 * `start` or earlier. */
int instance_push(const Instance *in, const Edge *edge, int start);
int instance_pull(const Instance *in, const Edge *edge, int start);
/* The least start of `from` that pushes `to` to at least `start`; the greatest start of `to` that pulls `from` to
 * at most `start`: what explains a push or a pull. */
int instance_push_needs(const Instance *in, const Edge *edge, int start);
int instance_pull_needs(const Instance *in, const Edge *edge, int start);

/* Does an edge put its tasks in order? Only edges that keep a positive distance do; they have no cycle. */
static inline bool instance_orders(const Instance *in, const Edge *e)
{
  return e->kind == EDGE_START ? e->minutes > 0
                               : e->kind == EDGE_FROM_FINISH && e->minutes + in->duration[e->from] > 0;
}

/* Visits the minutes in [begin, end) at which a task that runs then works: one piece, or, if it may pause, the open
 * ones, earliest first. */
typedef struct {
  const Calendar *working;
  int begin, end;
} Pieces;

static inline Pieces instance_pieces(const Instance *in, int task, int begin, int end)
{
  return (Pieces){ in->breakable[task] ? in->working[task] : NULL, begin, end };
}
bool pieces_next(Pieces *pieces, Interval *piece);

/* A schedule of the problem from the starts of its tasks. */
Schedule *instance_schedule(const Instance *in, const int *start);

#endif
