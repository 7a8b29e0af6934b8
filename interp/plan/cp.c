#include "plan/cp.h"

#include <assert.h>
#include <string.h>

#include "base/mem.h"
#include "plan/cp_state.h"

void atoms_add(Atoms *list, Atom a)
{
  if (list->count == list->room) {
    list->room = list->room ? 2 * list->room : 64;
    list->atoms = mem_grow(list->atoms, (size_t)list->room, sizeof *list->atoms);
  }
  list->atoms[list->count++] = a;
}

/* ---- building */

static Arc arc_of(const Instance *in, int edge, bool upper)
{
  const Edge *e = &in->edges[edge];
  bool curved = e->kind != EDGE_START || in->working[upper ? e->from : e->to] != NULL;
  return (Arc){ upper ? 2 * e->from + 1 : 2 * e->to, e->minutes, edge, curved };
}

static void begin_arcs(Cp *cp)
{
  const Instance *in = cp->in;
  cp->arcs = mem_array(2 * (size_t)in->edge_count, sizeof *cp->arcs);
  cp->arc_first = mem_array((size_t)cp->bounds + 1, sizeof *cp->arc_first);
  int count = 0;
  for (int t = 0; t < in->count; t++) {
    cp->arc_first[2 * t] = count;
    for (int k = in->out_first[t]; k < in->out_first[t + 1]; k++) cp->arcs[count++] = arc_of(in, in->out[k], false);
    cp->arc_first[2 * t + 1] = count;
    for (int k = in->in_first[t]; k < in->in_first[t + 1]; k++) cp->arcs[count++] = arc_of(in, in->in[k], true);
  }
  cp->arc_first[cp->bounds] = count;
}

Cp *cp_new(const Instance *in, const int *earliest, const int *latest)
{
  Cp *cp = mem_alloc(sizeof *cp);
  cp->in = in;
  cp->bounds = 2 * in->count;
  size_t n = (size_t)cp->bounds;
  int **arrays[] = { &cp->bound, &cp->root, &cp->last, &cp->open_on, &cp->strongest };
  for (size_t k = 0; k < sizeof arrays / sizeof *arrays; k++) *arrays[k] = mem_array(n, sizeof(int));
  for (int t = 0; t < in->count; t++) {
    cp->bound[2 * t] = cp->root[2 * t] = earliest[t];
    cp->bound[2 * t + 1] = cp->root[2 * t + 1] = -latest[t];
  }
  for (int x = 0; x < cp->bounds; x++) {
    cp->last[x] = -1;
    cp->strongest[x] = UNMARKED;
  }
  cp->preferred = mem_array((size_t)in->count, sizeof *cp->preferred);
  begin_arcs(cp);
  clauses_begin(cp);
  order_begin(cp);
  timetable_begin(cp);
  energy_begin(cp);
  return cp;
}

void cp_free(Cp *cp)
{
  if (cp == NULL) return;
  void *blocks[] = { cp->bound, cp->root, cp->last, cp->open_on, cp->strongest, cp->preferred, cp->trail,
                     cp->level_start, cp->level_notes, cp->notes, cp->arcs, cp->arc_first, cp->mark,
                     cp->levels_seen, cp->implied, cp->judged, cp->conflict.atoms, cp->learned.atoms,
                     cp->reason.atoms };
  for (size_t k = 0; k < sizeof blocks / sizeof *blocks; k++) mem_free(blocks[k]);
  clauses_free(&cp->clauses);
  order_free(&cp->order);
  timetable_free(&cp->timetable);
  energy_free(&cp->energy);
  mem_free(cp);
}

int64_t cp_work(const Cp *cp) { return cp->work; }
int cp_earliest(const Cp *cp, int task) { return cp->root[2 * task]; }

void cp_prefer(Cp *cp, const int *start)
{
  memcpy(cp->preferred, start, (size_t)cp->in->count * sizeof *start);
  cp->has_preferred = true;
}

/* ---- reasons */

Why cp_note_begin(Cp *cp)
{
  Why note = { WHY_NOTE, cp->notes_count };
  cp_note_add(cp, note, (Atom){ 0, 0 });
  cp->notes[note.ref].x = 0; /* how many atoms follow */
  return note;
}

void cp_note_add(Cp *cp, Why note, Atom a)
{
  if (cp->notes_count == cp->notes_room) {
    cp->notes_room = cp->notes_room ? 2 * cp->notes_room : 1024;
    cp->notes = mem_grow(cp->notes, (size_t)cp->notes_room, sizeof *cp->notes);
  }
  cp->notes[cp->notes_count++] = a;
  cp->notes[note.ref].x++;
}

static Atom edge_reason(const Instance *in, int edge, Atom a)
{
  const Edge *e = &in->edges[edge];
  if (a.x % 2 == 0) return (Atom){ 2 * e->from, instance_push_needs(in, e, a.v) };
  return (Atom){ 2 * e->to + 1, -instance_pull_needs(in, e, -a.v) };
}

/* The weakest bound that has no legal start short of `a`. */
static Atom calendar_reason(const Instance *in, Atom a)
{
  int task = a.x / 2;
  return a.x % 2 == 0 ? (Atom){ a.x, instance_previous(in, task, a.v - 1) + 1 }
                      : (Atom){ a.x, -(instance_next(in, task, -a.v + 1) - 1) };
}

void cp_explain(const Cp *cp, Why why, Atom a, Atoms *out)
{
  switch (why.kind) {
  case WHY_DECISION: break;
  case WHY_CLAUSE: clauses_explain(cp, why.ref, out); break;
  case WHY_EDGE: atoms_add(out, edge_reason(cp->in, why.ref, a)); break;
  case WHY_CALENDAR: atoms_add(out, calendar_reason(cp->in, a)); break;
  case WHY_NOTE:
    for (int k = 1; k <= cp->notes[why.ref].x; k++) atoms_add(out, cp->notes[why.ref + k]);
    break;
  }
}

int cp_step_of(const Cp *cp, Atom a)
{
  int at = cp->last[a.x];
  while (at >= 0 && cp->trail[at].old >= a.v) at = cp->trail[at].before;
  return at;
}

/* ---- the trail */

static void record(Cp *cp, Atom a, Why why)
{
  if (cp->trail_count == cp->trail_room) {
    cp->trail_room = cp->trail_room ? 2 * cp->trail_room : 1024;
    cp->trail = mem_grow(cp->trail, (size_t)cp->trail_room, sizeof *cp->trail);
    cp->mark = mem_grow(cp->mark, (size_t)cp->trail_room, sizeof *cp->mark);
    cp->implied = mem_grow(cp->implied, (size_t)cp->trail_room, sizeof *cp->implied);
  }
  cp->mark[cp->trail_count] = UNMARKED;
  cp->implied[cp->trail_count] = (Judgement){ UNMARKED, CALENDAR_NEVER };
  cp->trail[cp->trail_count] = (Move){ a.x, a.v, cp->bound[a.x], cp->last[a.x], cp->level, why };
  cp->last[a.x] = cp->trail_count++;
  cp->bound[a.x] = a.v;
  timetable_touch(cp, a.x / 2);
}

static bool set_on_calendar(Cp *cp, Atom a)
{
  int task = a.x / 2;
  int legal = a.x % 2 == 0 ? instance_next(cp->in, task, a.v) : -instance_previous(cp->in, task, -a.v);
  return legal == a.v || cp_set(cp, (Atom){ a.x, legal }, (Why){ WHY_CALENDAR, 0 });
}

bool cp_set(Cp *cp, Atom a, Why why)
{
  if (cp->bound[a.x] >= a.v) return true;
  if (cp_fails(cp, a)) {
    cp->conflict.count = 0;
    cp_explain(cp, why, a, &cp->conflict);
    atoms_add(&cp->conflict, (Atom){ a.x ^ 1, 1 - a.v });
    return false;
  }
  record(cp, a, why);
  return cp->in->working[a.x / 2] == NULL || set_on_calendar(cp, a);
}

static void make_level(Cp *cp)
{
  int room = cp->level_room ? 2 * cp->level_room : 256;
  int **arrays[] = { &cp->level_start, &cp->level_notes, &cp->levels_seen };
  for (size_t k = 0; k < sizeof arrays / sizeof *arrays; k++)
    *arrays[k] = mem_grow(*arrays[k], (size_t)room, sizeof **arrays[k]);
  memset(cp->levels_seen + cp->level_room, 0, (size_t)(room - cp->level_room) * sizeof *cp->levels_seen);
  cp->level_room = room;
}

void cp_decide(Cp *cp, Atom a)
{
  if (++cp->level >= cp->level_room) make_level(cp);
  cp->level_start[cp->level] = cp->trail_count;
  cp->level_notes[cp->level] = cp->notes_count;
  bool open = cp_set(cp, a, (Why){ WHY_DECISION, 0 });
  assert(open);
  (void)open;
}

void cp_back_to(Cp *cp, int level)
{
  if (cp->level <= level) return;
  int keep = cp->level_start[level + 1];
  while (cp->trail_count > keep) {
    const Move *m = &cp->trail[--cp->trail_count];
    order_reopen(cp, m);
    cp->bound[m->x] = m->old;
    cp->last[m->x] = m->before;
    timetable_touch(cp, m->x / 2);
  }
  cp->notes_count = cp->level_notes[level + 1];
  cp->head = keep;
  cp->level = level;
}

/* ---- propagation */

static bool follow_arcs(Cp *cp, int x)
{
  const Instance *in = cp->in;
  for (int k = cp->arc_first[x]; k < cp->arc_first[x + 1]; k++) {
    const Arc *arc = &cp->arcs[k];
    int v = cp->bound[x] + arc->minutes;
    if (arc->curved) {
      const Edge *e = &in->edges[arc->edge];
      v = x % 2 == 0 ? instance_push(in, e, cp->bound[x]) : -instance_pull(in, e, -cp->bound[x]);
    }
    if (v > cp->bound[arc->y] && !cp_set(cp, (Atom){ arc->y, v }, (Why){ WHY_EDGE, arc->edge })) return false;
  }
  cp->work += cp->arc_first[x + 1] - cp->arc_first[x];
  return true;
}

static bool follow_step(Cp *cp, int at)
{
  Move m = cp->trail[at];
  if (cp->last[m.x] == at && !follow_arcs(cp, m.x)) return false;
  return clauses_wake(cp, m.x, m.old, m.value);
}

/* What holds without assumptions needs no reasons: the trail is emptied. */
static void settle_root(Cp *cp)
{
  for (int k = 0; k < cp->trail_count; k++) {
    cp->root[cp->trail[k].x] = cp->bound[cp->trail[k].x];
    cp->last[cp->trail[k].x] = -1;
  }
  cp->trail_count = cp->head = cp->notes_count = 0;
}

bool cp_propagate(Cp *cp)
{
  for (;;) {
    while (cp->head < cp->trail_count)
      if (!follow_step(cp, cp->head++)) return false;
    int before = cp->trail_count;
    if (!timetable_propagate(cp)) return false;
    if (cp->trail_count > before) continue;
    if (!energy_propagate(cp)) return false;
    break;
  }
  if (cp->level == 0) settle_root(cp);
  return true;
}

static bool set_root(Cp *cp, Atom a)
{
  cp_back_to(cp, 0);
  if (!cp->contradiction && !cp_holds(cp, a)) cp->contradiction = !cp_set(cp, a, (Why){ WHY_DECISION, 0 }) || !cp_propagate(cp);
  return !cp->contradiction;
}

bool cp_at_least(Cp *cp, int task, int start) { return set_root(cp, (Atom){ 2 * task, start }); }

bool cp_at_most(Cp *cp, int task, int start) { return set_root(cp, (Atom){ 2 * task + 1, -start }); }
