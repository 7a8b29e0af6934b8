/* cp_clause.c - learned clauses: storage, two watched atoms each, forgetting. */
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "plan/cp_state.h"

enum {
  HEADER = 3,  /* size, distance, activity */
  STRETCHES = 32, /* in which the watches of one bound are kept apart */
  FIRST_LIMIT = 4000,
  LIMIT_STEP = 1500,
  LARGEST_LIMIT = 40000,
  LARGEST_STORE = 12000000, /* integers: 48 MB */
  KEPT_DISTANCE = 2 /* clauses that span so few levels are not forgotten */
};

static int size_of(const ClauseBase *b, int clause) { return b->store[clause]; }
static int *distance_of(const ClauseBase *b, int clause) { return &b->store[clause + 1]; }
static float *activity_of(const ClauseBase *b, int clause) { return (float *)(void *)&b->store[clause + 2]; }
static Atom *atoms_of(const ClauseBase *b, int clause) { return (Atom *)(void *)&b->store[clause + HEADER]; }

/* A bound moves little at a time: its watches are kept by stretches of values, so that few are looked at. */
void clauses_begin(Cp *cp)
{
  ClauseBase *b = &cp->clauses;
  b->list_count = STRETCHES * cp->bounds;
  b->lists = mem_array((size_t)b->list_count, sizeof *b->lists);
  b->origin = mem_array((size_t)cp->bounds, sizeof *b->origin);
  b->shift = mem_array((size_t)cp->bounds, sizeof *b->shift);
  b->bump = 1;
  b->limit = FIRST_LIMIT;
  for (int x = 0; x < cp->bounds; x++) {
    b->origin[x] = cp->bound[x];
    while ((-cp->bound[x ^ 1] - cp->bound[x]) >> b->shift[x] >= STRETCHES) b->shift[x]++;
  }
}

static int stretch_of(const ClauseBase *b, int x, int value)
{
  int at = value > b->origin[x] ? (value - b->origin[x]) >> b->shift[x] : 0;
  return STRETCHES * x + (at < STRETCHES ? at : STRETCHES - 1);
}

void clauses_free(ClauseBase *b)
{
  mem_free(b->store);
  mem_free(b->refs);
  for (int k = 0; k < b->list_count; k++) mem_free(b->lists[k].watches);
  mem_free(b->origin);
  mem_free(b->shift);
  mem_free(b->lists);
}

static void add_watch(WatchList *list, Watch w)
{
  if (list->count == list->room) {
    list->room = list->room ? 2 * list->room : 16;
    list->watches = mem_grow(list->watches, (size_t)list->room, sizeof *list->watches);
  }
  list->watches[list->count++] = w;
}

/* Wakes the clause when `a` becomes false. */
static void watch(ClauseBase *b, int clause, Atom a, Atom blocker)
{
  int at = 1 - a.v;
  add_watch(&b->lists[stretch_of(b, a.x ^ 1, at)], (Watch){ at, clause, blocker });
}

static void watch_both(ClauseBase *b, int clause)
{
  const Atom *a = atoms_of(b, clause);
  watch(b, clause, a[0], a[1]);
  watch(b, clause, a[1], a[0]);
}

int clauses_add(Cp *cp, const Atom *atoms, int count, int distance)
{
  ClauseBase *b = &cp->clauses;
  int length = HEADER + 2 * count;
  if (b->used + length > b->room) {
    b->room = 2 * (b->room + length);
    b->store = mem_grow(b->store, (size_t)b->room, sizeof *b->store);
  }
  if (b->count == b->refs_room) {
    b->refs_room = b->refs_room ? 2 * b->refs_room : 256;
    b->refs = mem_grow(b->refs, (size_t)b->refs_room, sizeof *b->refs);
  }
  int clause = (int)b->used;
  b->used += length;
  b->refs[b->count++] = clause;
  b->store[clause] = count;
  *distance_of(b, clause) = distance;
  *activity_of(b, clause) = b->bump;
  memcpy(atoms_of(b, clause), atoms, (size_t)count * sizeof *atoms);
  watch_both(b, clause);
  return clause;
}

/* Another atom to watch instead of atoms[1], which is false. */
static bool find_watch(Cp *cp, int clause, Atom *atoms)
{
  ClauseBase *b = &cp->clauses;
  int size = size_of(b, clause);
  for (int k = 2; k < size; k++) {
    if (cp_fails(cp, atoms[k])) continue;
    Atom found = atoms[k];
    atoms[k] = atoms[1];
    atoms[1] = found;
    watch(b, clause, found, atoms[0]);
    return true;
  }
  cp->work += size / 4;
  return false;
}

/* The clause has lost one watched atom. *keep: that watch stays. False: conflict. */
static bool wake(Cp *cp, Watch *w, int x, bool *keep)
{
  Atom *atoms = atoms_of(&cp->clauses, w->clause);
  if (atoms[0].x == (x ^ 1) && 1 - atoms[0].v == w->at) {
    Atom lost = atoms[0];
    atoms[0] = atoms[1];
    atoms[1] = lost;
  }
  *keep = true;
  w->blocker = atoms[0];
  if (cp_holds(cp, atoms[0])) return true;
  *keep = !find_watch(cp, w->clause, atoms);
  return !*keep || cp_set(cp, atoms[0], (Why){ WHY_CLAUSE, w->clause });
}

static bool wake_stretch(Cp *cp, WatchList *list, int x, int old, int value)
{
  bool consistent = true;
  int kept = 0;
  for (int k = 0; k < list->count; k++) { /* the list may grow meanwhile, at its end */
    Watch w = list->watches[k];
    bool keep = true;
    if (consistent && w.at > old && w.at <= value && !cp_holds(cp, w.blocker)) consistent = wake(cp, &w, x, &keep);
    if (keep) list->watches[kept++] = w;
  }
  cp->work += list->count / 4;
  list->count = kept;
  return consistent;
}

bool clauses_wake(Cp *cp, int x, int old, int value)
{
  ClauseBase *b = &cp->clauses;
  int last = stretch_of(b, x, value);
  for (int k = stretch_of(b, x, old + 1); k <= last; k++)
    if (b->lists[k].count > 0 && !wake_stretch(cp, &b->lists[k], x, old, value)) return false;
  return true;
}

void clauses_explain(const Cp *cp, int clause, Atoms *out)
{
  const Atom *atoms = atoms_of(&cp->clauses, clause);
  int size = size_of(&cp->clauses, clause);
  for (int k = 1; k < size; k++) atoms_add(out, atom_not(atoms[k]));
}

void clauses_bump(Cp *cp, int clause)
{
  ClauseBase *b = &cp->clauses;
  float *activity = activity_of(b, clause);
  if ((*activity += b->bump) < 1e20f) return;
  for (int k = 0; k < b->count; k++) *activity_of(b, b->refs[k]) *= 1e-20f;
  b->bump *= 1e-20f;
}

void clauses_decay(Cp *cp) { cp->clauses.bump *= 1.0f / 0.999f; }

/* ---- forgetting */

typedef struct {
  int clause, distance;
  float activity;
} Worth;

static int by_worth(const void *a, const void *b)
{
  const Worth *x = a, *y = b;
  if (x->activity != y->activity) return x->activity > y->activity ? -1 : 1;
  return (x->clause > y->clause) - (x->clause < y->clause);
}

static bool is_true_at_root(const Cp *cp, int clause)
{
  const Atom *atoms = atoms_of(&cp->clauses, clause);
  for (int k = 0; k < size_of(&cp->clauses, clause); k++)
    if (cp_holds(cp, atoms[k])) return true;
  return false;
}

bool clauses_are_too_many(const Cp *cp) { return cp->clauses.used >= LARGEST_STORE; }

/* Marks the clauses to forget with size 0. */
static void choose_forgotten(Cp *cp)
{
  ClauseBase *b = &cp->clauses;
  Worth *worth = mem_array((size_t)b->count, sizeof *worth);
  int count = 0;
  for (int k = 0; k < b->count; k++) {
    int clause = b->refs[k];
    if (is_true_at_root(cp, clause)) b->store[clause] = 0;
    else if (*distance_of(b, clause) > KEPT_DISTANCE || clauses_are_too_many(cp))
      worth[count++] = (Worth){ clause, *distance_of(b, clause), *activity_of(b, clause) };
  }
  qsort(worth, (size_t)count, sizeof *worth, by_worth);
  for (int k = count / 2; k < count; k++) b->store[worth[k].clause] = 0;
  mem_free(worth);
}

void clauses_reduce(Cp *cp)
{
  ClauseBase *b = &cp->clauses;
  if (b->count < b->limit && !clauses_are_too_many(cp)) return;
  if (b->limit < LARGEST_LIMIT) b->limit += LIMIT_STEP;
  choose_forgotten(cp);
  for (int k = 0; k < b->list_count; k++) b->lists[k].count = 0;
  int *old = b->store, live = 0;
  int64_t used = 0;
  for (int k = 0; k < b->count; k++) {
    int length = HEADER + 2 * old[b->refs[k]];
    if (length == HEADER) continue;
    memmove(old + used, old + b->refs[k], (size_t)length * sizeof *old);
    b->refs[live++] = (int)used;
    used += length;
  }
  b->count = live;
  b->used = used;
  for (int k = 0; k < live; k++) watch_both(b, b->refs[k]);
  cp->work += b->used / 4;
}
