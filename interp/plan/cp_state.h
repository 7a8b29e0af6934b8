/* cp_state.h - what the parts of the search with learning share: bounds, the trail, reasons. Not for other files.
 *
 * Bound x = 2 * task is the earliest start; x = 2 * task + 1 is minus the latest. So every bound only grows, the
 * atom {x, v} says "bound x is at least v", its opposite is {x ^ 1, 1 - v}, and a window is empty once the two
 * bounds of a task add up to more than 0. */
#ifndef PLAN_CP_STATE_H
#define PLAN_CP_STATE_H

#include "plan/cp.h"

typedef struct {
  int x, v;
} Atom;

static inline Atom atom_not(Atom a) { return (Atom){ a.x ^ 1, 1 - a.v }; }

typedef enum {
  WHY_DECISION,
  WHY_CLAUSE,  /* ref: the clause; its first atom is the one set */
  WHY_EDGE,    /* ref: the edge */
  WHY_NOTE,    /* ref: atoms written down when the bound moved */
  WHY_CALENDAR /* no legal start between */
} WhyKind;

typedef struct {
  WhyKind kind;
  int ref;
} Why;

/* A bound's step from `old` to `value`, on the trail. */
typedef struct {
  int x, value, old;
  int before; /* the trail's index of the step before of the same bound; -1: none */
  int level;
  Why why;
} Move;

typedef struct {
  Atom *atoms;
  int count, room;
} Atoms;

void atoms_add(Atoms *list, Atom a);

/* Of a step: the learned atoms imply values up to `yes`, and none from `no` on. */
typedef struct {
  int yes, no;
} Judgement;

/* Learned clauses, in one array of integers: size, distance of levels, activity, then the atoms. */
typedef struct {
  int at;       /* the clause wakes when the bound reaches this */
  int clause;
  Atom blocker; /* an atom of the clause: if it holds, nothing is to be done */
} Watch;

typedef struct {
  Watch *watches;
  int count, room;
} WatchList;

typedef struct {
  int *store;
  int64_t used, room;
  int *refs; /* of live clauses, oldest first */
  int count, refs_room;
  WatchList *lists; /* some for each bound, by stretches of values from origin[] on, 2^shift[] wide */
  int *origin, *shift;
  float bump;
  int list_count;
  int limit; /* of clauses, before a reduction */
} ClauseBase;

/* Activities of the questions "does the task start at or after k?", the most active in front. */
typedef struct {
  int *first;      /* of each task in the arrays below */
  int *origin;     /* smallest k of each task */
  int scale;       /* neighbouring k that share an entry, where horizons are long */
  int *task, *k;   /* of each question; k is the one asked for last */
  double *activity;
  int *heap, *place, heap_count; /* place -1: not in the heap */
  double bump;
} Order;

/* What the fixed parts of the tasks leave free. */
typedef struct {
  uint64_t *level;
  int first, minutes;   /* minutes first .. first + minutes - 1 */
  int *begin, *end;     /* the part of each task that is in `level`; empty if begin >= end */
  int *users, user_count; /* tasks that need resources */
  int *touched, touched_count; /* their windows changed: `level` is to be brought up to date */
  bool *is_touched;
  bool *moved;          /* their windows changed since they were filtered */
  int dirty_begin, dirty_end; /* minutes where something was taken since the last filtering */
} Timetable;

typedef struct {
  int task, est, lst, lct;
  int uncertain; /* work besides the certain part */
  int need;
  int reach;     /* to end before some minute, at least what is after `reach` lies before it */
} EnergyTask;

typedef struct {
  EnergyTask *tasks; /* of the resource looked at, latest earliest start first */
  int *ends, task_count, end_count;
  int *certain;      /* use of certain parts before each minute */
  int every, least, calls, quiet; /* looked at in one of `every` calls */
} Energy;

/* One way in which a bound carries another along: bound y >= bound x + minutes, or by an edge that needs a
 * calendar. */
typedef struct {
  int y, minutes, edge;
  bool curved;
} Arc;

struct Cp {
  const Instance *in;
  int bounds; /* 2 * in->count */
  int *bound, *root;
  int *last; /* index of each bound's last step, -1 */
  Move *trail;
  int trail_count, trail_room, head;
  int *level_start, *level_notes, level, level_room;
  Atom *notes;
  int notes_count, notes_room;
  Arc *arcs;
  int *arc_first;
  bool contradiction; /* proved without assumptions */
  Atoms conflict;     /* true atoms that cannot be true together */

  int *mark; /* per step: the value needed of it, or UNMARKED */
  Judgement *implied;
  int *judged, judged_count, judged_room; /* steps with a judgement to be forgotten */
  int *open_on, *strongest;
  Atoms learned, reason;
  int *levels_seen, stamp;

  ClauseBase clauses;
  Order order;
  Timetable timetable;
  Energy energy;
  int *preferred;
  bool has_preferred;
  uint64_t restarts;
  int64_t work, conflicts;
};

enum { UNMARKED = -(1 << 30) };

static inline int cp_est(const Cp *cp, int task) { return cp->bound[2 * task]; }
static inline int cp_lst(const Cp *cp, int task) { return -cp->bound[2 * task + 1]; }
static inline bool cp_holds(const Cp *cp, Atom a) { return cp->bound[a.x] >= a.v; }
static inline bool cp_fails(const Cp *cp, Atom a) { return cp->bound[a.x ^ 1] >= 1 - a.v; }

/* cp.c: moves a bound. False: its task's window would be empty; then cp->conflict says why. */
bool cp_set(Cp *cp, Atom a, Why why);
/* Atoms that imply `a`, which the step with this reason made true. Appended. */
void cp_explain(const Cp *cp, Why why, Atom a, Atoms *out);
/* The step that made a true atom true; -1: it holds from the start. */
int cp_step_of(const Cp *cp, Atom a);
void cp_decide(Cp *cp, Atom a);
void cp_back_to(Cp *cp, int level);
/* Until nothing more follows. False: conflict. */
bool cp_propagate(Cp *cp);
/* Writing down a reason: begin, add, then use the reason. */
Why cp_note_begin(Cp *cp);
void cp_note_add(Cp *cp, Why note, Atom a);

/* cp_clause.c */
void clauses_begin(Cp *cp);
void clauses_free(ClauseBase *base);
int clauses_add(Cp *cp, const Atom *atoms, int count, int distance);
bool clauses_wake(Cp *cp, int x, int old, int value);
void clauses_bump(Cp *cp, int clause);
void clauses_decay(Cp *cp);
/* Do they fill the room they may have? Then a restart is due. */
bool clauses_are_too_many(const Cp *cp);
/* Forgets the worse half when there are too many; only at level 0. */
void clauses_reduce(Cp *cp);
void clauses_explain(const Cp *cp, int clause, Atoms *out);

/* cp_learn.c: from cp->conflict to a clause; jumps back and sets what follows. False: contradiction without
 * assumptions. */
bool learn(Cp *cp);

/* cp_order.c */
void order_begin(Cp *cp);
void order_free(Order *order);
void order_bump(Cp *cp, Atom a);
void order_decay(Cp *cp);
/* The questions that a step taken back asks again. */
void order_reopen(Cp *cp, const Move *move);
/* The most active open question; false: none has been active. */
bool order_next(Cp *cp, int *task, int *k);

/* cp_timetable.c */
void timetable_begin(Cp *cp);
void timetable_free(Timetable *tt);
void timetable_touch(Cp *cp, int task);
bool timetable_propagate(Cp *cp);

/* cp_energy.c: after the time table found nothing more. */
void energy_begin(Cp *cp);
void energy_free(Energy *energy);
bool energy_propagate(Cp *cp);

#endif
