/* cp_learn.c - from a conflict to a new clause: first unique implication point, minimised.
 *
 * A step is marked with the value needed of it, which may be less than what it set: edges and calendars then give a
 * weaker, more general reason. Several steps of one bound may be marked; the strongest implies the others. */
#include "base/mem.h"
#include "plan/cp_state.h"

static int level_of(const Cp *cp, Atom a)
{
  int at = cp_step_of(cp, a);
  return at < 0 ? 0 : cp->trail[at].level;
}

/* Marks the step that made a true atom true. *open counts marked steps of the current level. */
static void need(Cp *cp, Atom a, int *open)
{
  int at = cp_step_of(cp, a);
  if (at < 0) return;
  bool fresh = cp->mark[at] == UNMARKED;
  if (fresh || a.v > cp->mark[at]) cp->mark[at] = a.v;
  if (!fresh) return;
  order_bump(cp, a);
  if (cp->trail[at].level == cp->level) {
    ++*open;
    cp->open_on[a.x]++;
  } else {
    atoms_add(&cp->learned, (Atom){ at, 0 }); /* steps for now, atoms later */
  }
}

static void need_all(Cp *cp, const Atoms *atoms, int *open)
{
  for (int k = 0; k < atoms->count; k++) need(cp, atoms->atoms[k], open);
}

/* Resolves steps of the current level, latest first, until those left are all of one bound. Returns the last of
 * them. */
static int find_point(Cp *cp)
{
  int open = 0, at = cp->trail_count - 1;
  need_all(cp, &cp->conflict, &open);
  for (;; at--) {
    if (cp->mark[at] == UNMARKED) continue;
    const Move *m = &cp->trail[at];
    if (open == cp->open_on[m->x]) return at;
    open--;
    cp->open_on[m->x]--;
    cp->reason.count = 0;
    if (m->why.kind == WHY_CLAUSE) clauses_bump(cp, m->why.ref);
    cp_explain(cp, m->why, (Atom){ m->x, cp->mark[at] }, &cp->reason);
    cp->mark[at] = UNMARKED;
    need_all(cp, &cp->reason, &open);
    cp->work += cp->reason.count;
  }
}

/* Unmarks what is left of the current level. */
static void clear_level(Cp *cp, int x)
{
  for (int at = cp->last[x]; cp->open_on[x] > 0; at = cp->trail[at].before) {
    if (cp->mark[at] == UNMARKED) continue;
    cp->mark[at] = UNMARKED;
    cp->open_on[x]--;
  }
}

/* ---- minimising */

enum { DEEPEST = 100 };

static bool judge(Cp *cp, int at, int v, bool implied)
{
  if (cp->judged_count == cp->judged_room) {
    cp->judged_room = cp->judged_room ? 2 * cp->judged_room : 256;
    cp->judged = mem_grow(cp->judged, (size_t)cp->judged_room, sizeof *cp->judged);
  }
  cp->judged[cp->judged_count++] = at;
  if (implied) cp->implied[at].yes = v;
  else cp->implied[at].no = v;
  return implied;
}

/* Do the learned atoms imply a true atom? By being it, or through its reasons. A learned atom counts only for its
 * own step: so what proves a step lies before it, and nothing proves itself. */
static bool is_implied(Cp *cp, Atom a, bool itself, int depth)
{
  int at = cp_step_of(cp, a);
  if (at < 0) return true;
  if (!itself && cp->mark[at] >= a.v) return true;
  if (cp->implied[at].yes >= a.v) return true;
  const Move *m = &cp->trail[at];
  if (depth == 0 || m->why.kind == WHY_DECISION || cp->implied[at].no <= a.v) return false;
  int first = cp->reason.count;
  cp_explain(cp, m->why, a, &cp->reason);
  int last = cp->reason.count;
  cp->work += last - first;
  bool implied = true;
  for (int k = first; k < last && implied; k++) implied = is_implied(cp, cp->reason.atoms[k], false, depth - 1);
  cp->reason.count = first;
  return judge(cp, at, a.v, implied);
}

/* Drops atoms that the others imply. On entry and exit the learned atoms are the marked steps. */
static void minimise(Cp *cp)
{
  Atoms *list = &cp->learned;
  int kept = 0;
  cp->reason.count = 0;
  for (int k = 0; k < list->count; k++) {
    int at = list->atoms[k].x;
    Atom a = { cp->trail[at].x, cp->mark[at] };
    if (is_implied(cp, a, true, DEEPEST)) list->atoms[k].v = 1; /* dropped, but still a proof of others */
  }
  for (int k = 0; k < list->count; k++) {
    int at = list->atoms[k].x;
    if (list->atoms[k].v == 0) list->atoms[kept++] = list->atoms[k];
    else cp->mark[at] = UNMARKED;
  }
  list->count = kept;
  while (cp->judged_count > 0)
    cp->implied[cp->judged[--cp->judged_count]] = (Judgement){ UNMARKED, CALENDAR_NEVER };
}

/* ---- the clause */

/* Turns marked steps into atoms, the strongest of each bound only, and unmarks them. */
static void collect(Cp *cp, Atom point)
{
  Atoms *list = &cp->learned;
  cp->strongest[point.x] = CALENDAR_NEVER;
  for (int k = 0; k < list->count; k++) {
    int at = list->atoms[k].x, x = cp->trail[at].x;
    if (cp->mark[at] > cp->strongest[x]) cp->strongest[x] = cp->mark[at];
  }
  int kept = 0;
  for (int k = 0; k < list->count; k++) {
    int at = list->atoms[k].x, x = cp->trail[at].x;
    if (cp->mark[at] == cp->strongest[x]) list->atoms[kept++] = (Atom){ x, cp->mark[at] };
    cp->mark[at] = UNMARKED;
  }
  list->count = kept;
  cp->strongest[point.x] = UNMARKED;
  for (int k = 0; k < kept; k++) cp->strongest[list->atoms[k].x] = UNMARKED;
}

/* How many levels the atoms span; the one of the highest level comes first. */
static int measure(Cp *cp, int *highest)
{
  Atoms *list = &cp->learned;
  int distance = 1;
  *highest = 0;
  cp->stamp++;
  for (int k = 0; k < list->count; k++) {
    int level = level_of(cp, list->atoms[k]);
    if (cp->levels_seen[level] != cp->stamp) {
      cp->levels_seen[level] = cp->stamp;
      distance++;
    }
    if (level <= *highest) continue;
    *highest = level;
    Atom swap = list->atoms[0];
    list->atoms[0] = list->atoms[k];
    list->atoms[k] = swap;
  }
  return distance;
}

static bool set_learned(Cp *cp, Atom point)
{
  Atoms *list = &cp->learned;
  int highest, distance = measure(cp, &highest);
  atoms_add(list, list->count > 0 ? list->atoms[0] : point); /* the point goes first, the highest level second */
  if (list->count > 1) list->atoms[0] = point;
  if (list->count > 2) {
    Atom second = list->atoms[list->count - 1];
    list->atoms[list->count - 1] = list->atoms[1];
    list->atoms[1] = second;
  }
  for (int k = 0; k < list->count; k++) list->atoms[k] = atom_not(list->atoms[k]);
  cp_back_to(cp, highest);
  Why why = { WHY_DECISION, 0 };
  if (list->count > 1) why = (Why){ WHY_CLAUSE, clauses_add(cp, list->atoms, list->count, distance) };
  return cp_set(cp, list->atoms[0], why);
}

/* The level of the latest atom of the conflict. */
static int conflict_level(const Cp *cp)
{
  int level = 0;
  for (int k = 0; k < cp->conflict.count; k++) {
    int of = level_of(cp, cp->conflict.atoms[k]);
    if (of > level) level = of;
  }
  return level;
}

bool learn(Cp *cp)
{
  for (bool set = false; !set;) {
    int level = conflict_level(cp);
    if (level == 0) return false;
    cp_back_to(cp, level);
    cp->learned.count = 0;
    int at = find_point(cp);
    Atom point = { cp->trail[at].x, cp->mark[at] };
    clear_level(cp, point.x);
    minimise(cp);
    collect(cp, point);
    cp->conflicts++;
    set = set_learned(cp, point); /* not if only closed minutes are left: a conflict again */
  }
  return true;
}
