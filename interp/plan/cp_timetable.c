/* cp_timetable.c - time-table propagation of all resources at once, with pointwise explanations.
 *
 * Between its latest start and its earliest finish a task runs for certain. What such parts leave free is kept
 * minute by minute in lanes. A part that does not fit is a conflict; a task that would meet a shortage is pushed
 * past it. Every deduction is explained by one minute: these tasks run then, and take so much. Schutt, Feydy,
 * Stuckey, Wallace, Constraints 16 (2011) 250-282, section 4.3. */
#include <string.h>

#include "base/mem.h"
#include "plan/cp_state.h"

void timetable_begin(Cp *cp)
{
  Timetable *tt = &cp->timetable;
  const Instance *in = cp->in;
  size_t n = (size_t)in->count;
  tt->begin = mem_array(n, sizeof *tt->begin);
  tt->end = mem_array(n, sizeof *tt->end);
  tt->users = mem_array(n, sizeof *tt->users);
  tt->touched = mem_array(n, sizeof *tt->touched);
  tt->is_touched = mem_array(n, sizeof *tt->is_touched);
  tt->moved = mem_array(n, sizeof *tt->moved);
  for (int t = 0; t < in->end; t++) {
    bool uses = false;
    for (int r = 0; r < in->resource_count; r++) uses |= in->need[t * in->resource_count + r] > 0;
    if (!uses) {
      tt->is_touched[t] = true; /* never to be listed */
      continue;
    }
    tt->users[tt->user_count++] = t;
    int finish = instance_finish(in, t, cp_lst(cp, t));
    if (finish > tt->minutes) tt->minutes = finish;
    timetable_touch(cp, t);
  }
  tt->is_touched[in->end] = true;
  int words = in->lanes.words;
  tt->level = mem_array((size_t)tt->minutes * (size_t)words, sizeof *tt->level);
  for (int m = 0; m < tt->minutes; m++)
    memcpy(tt->level + (int64_t)m * words, in->lanes.full, (size_t)words * sizeof *tt->level);
}

void timetable_free(Timetable *tt)
{
  void *blocks[] = { tt->level, tt->begin, tt->end, tt->users, tt->touched, tt->is_touched, tt->moved };
  for (size_t k = 0; k < sizeof blocks / sizeof *blocks; k++) mem_free(blocks[k]);
}

void timetable_touch(Cp *cp, int task)
{
  Timetable *tt = &cp->timetable;
  tt->moved[task] = true;
  if (tt->is_touched[task]) return;
  tt->is_touched[task] = true;
  tt->touched[tt->touched_count++] = task;
}

static uint64_t *level_at(const Cp *cp, int minute)
{
  return cp->timetable.level + (int64_t)minute * cp->in->lanes.words;
}

/* ---- explanations */

/* The earliest start with which a task still runs at a minute of work. */
static int runs_from(const Cp *cp, int task, int minute) { return instance_latest_start(cp->in, task, minute) + 1; }

static bool runs_for_certain(const Cp *cp, int task, int minute)
{
  const Timetable *tt = &cp->timetable;
  return tt->begin[task] <= minute && minute < tt->end[task] &&
         (!cp->in->breakable[task] || calendar_is_open(cp->in->working[task], minute));
}

static int need_of(const Cp *cp, int task, int resource)
{
  return cp->in->need[task * cp->in->resource_count + resource];
}

/* The resource of which the task finds too little at a minute, the shortest of all. */
static int scarce_resource(const Cp *cp, int task, int minute)
{
  const Lanes *lanes = &cp->in->lanes;
  int scarcest = 0, most = 0;
  for (int r = 0; r < cp->in->resource_count; r++) {
    int lack = need_of(cp, task, r) - lanes_free_of(lanes, level_at(cp, minute), r);
    if (lack > most) most = lack, scarcest = r;
  }
  return scarcest;
}

/* The tasks other than this one that run at the minute and together leave it too little. Some may be left out. */
static Why note_users(Cp *cp, int task, int minute)
{
  const Timetable *tt = &cp->timetable;
  int resource = scarce_resource(cp, task, minute);
  int spare = need_of(cp, task, resource) - lanes_free_of(&cp->in->lanes, level_at(cp, minute), resource) - 1;
  Why note = cp_note_begin(cp);
  for (int k = 0; k < tt->user_count; k++) {
    int other = tt->users[k];
    int need = need_of(cp, other, resource);
    if (other == task || need == 0 || !runs_for_certain(cp, other, minute)) continue;
    if (need <= spare) {
      spare -= need;
      continue;
    }
    cp_note_add(cp, note, (Atom){ 2 * other, runs_from(cp, other, minute) });
    cp_note_add(cp, note, (Atom){ 2 * other + 1, -minute });
  }
  cp->work += tt->user_count / 4;
  return note;
}

/* ---- bringing the levels up to date */

static void give(Cp *cp, int task, int begin, int end)
{
  const Lanes *lanes = &cp->in->lanes;
  Pieces pieces = instance_pieces(cp->in, task, begin, end);
  for (Interval piece; pieces_next(&pieces, &piece);)
    for (int m = piece.begin; m < piece.end; m++) lanes_give(lanes, level_at(cp, m), lanes_demand(lanes, task));
  cp->work += (end - begin) / 4 + 1;
}

static bool take_minute(Cp *cp, int task, int minute)
{
  Timetable *tt = &cp->timetable;
  const Lanes *lanes = &cp->in->lanes;
  const uint64_t *demand = lanes_demand(lanes, task);
  uint64_t *level = level_at(cp, minute);
  if (!lanes_fit(lanes, level, demand)) {
    Why note = note_users(cp, task, minute);
    cp->conflict.count = 0;
    cp_explain(cp, note, (Atom){ 0, 0 }, &cp->conflict);
    atoms_add(&cp->conflict, (Atom){ 2 * task, runs_from(cp, task, minute) });
    atoms_add(&cp->conflict, (Atom){ 2 * task + 1, -minute });
    return false;
  }
  lanes_take(lanes, level, demand);
  if (minute < tt->dirty_begin) tt->dirty_begin = minute;
  if (minute >= tt->dirty_end) tt->dirty_end = minute + 1;
  return true;
}

static bool certain_part(const Cp *cp, int task, int *begin, int *end)
{
  *begin = cp_lst(cp, task);
  *end = instance_finish(cp->in, task, cp_est(cp, task));
  return *begin < *end;
}

/* Gives back what is no longer certain. */
static void shrink(Cp *cp, int task)
{
  Timetable *tt = &cp->timetable;
  int *from = &tt->begin[task], *to = &tt->end[task], begin, end;
  if (*from >= *to) return;
  bool certain = certain_part(cp, task, &begin, &end);
  if (certain && begin == *from && end == *to) return;
  if (!certain || begin >= *to || end <= *from || cp->in->breakable[task]) {
    give(cp, task, *from, *to);
    *from = *to = 0;
    return;
  }
  if (begin > *from) give(cp, task, *from, begin), *from = begin;
  if (end < *to) give(cp, task, end, *to), *to = end;
}

/* Takes what has become certain. */
static bool grow(Cp *cp, int task)
{
  Timetable *tt = &cp->timetable;
  int *from = &tt->begin[task], *to = &tt->end[task], begin, end;
  if (!certain_part(cp, task, &begin, &end)) return true;
  if (*from >= *to) *from = *to = begin;
  cp->work += (end - begin - (*to - *from)) / 2 + 1;
  for (; *from > begin; --*from)
    if (!take_minute(cp, task, *from - 1)) return false;
  Pieces pieces = instance_pieces(cp->in, task, *to, end);
  for (Interval piece; pieces_next(&pieces, &piece);)
    for (int m = piece.begin; m < piece.end; m++) {
      if (!take_minute(cp, task, m)) return false;
      *to = m + 1;
    }
  return true;
}

static bool update_levels(Cp *cp)
{
  Timetable *tt = &cp->timetable;
  for (int k = 0; k < tt->touched_count; k++) shrink(cp, tt->touched[k]);
  while (tt->touched_count > 0) {
    int task = tt->touched[tt->touched_count - 1];
    if (!grow(cp, task)) return false;
    tt->is_touched[task] = false;
    tt->touched_count--;
  }
  return true;
}

/* ---- filtering */

/* The last (first) minute of work in [begin, end) that lacks something for the task; -1: none. */
static int last_shortage(const Cp *cp, int task, int begin, int end)
{
  const Lanes *lanes = &cp->in->lanes;
  const uint64_t *demand = lanes_demand(lanes, task);
  if (!cp->in->breakable[task]) {
    for (int m = end - 1; m >= begin; m--)
      if (!lanes_fit(lanes, level_at(cp, m), demand)) return m;
    return -1;
  }
  int last = -1;
  Pieces pieces = instance_pieces(cp->in, task, begin, end);
  for (Interval piece; pieces_next(&pieces, &piece);)
    for (int m = piece.begin; m < piece.end; m++)
      if (!lanes_fit(lanes, level_at(cp, m), demand)) last = m;
  return last;
}

static int first_shortage(const Cp *cp, int task, int begin, int end)
{
  const Lanes *lanes = &cp->in->lanes;
  const uint64_t *demand = lanes_demand(lanes, task);
  Pieces pieces = instance_pieces(cp->in, task, begin, end);
  for (Interval piece; pieces_next(&pieces, &piece);)
    for (int m = piece.begin; m < piece.end; m++)
      if (!lanes_fit(lanes, level_at(cp, m), demand)) return m;
  return -1;
}

static bool filter_early(Cp *cp, int task, int dirty_begin, int dirty_end)
{
  for (bool pushed = cp->timetable.moved[task];; pushed = true) {
    int est = cp_est(cp, task), lst = cp_lst(cp, task);
    int stop = instance_finish(cp->in, task, est);
    if (stop > lst) stop = lst; /* from there on it runs itself */
    if (!pushed && (est >= dirty_end || stop <= dirty_begin)) return true;
    cp->work += (stop - est) / 4;
    int minute = last_shortage(cp, task, est, stop);
    if (minute < 0) return true;
    Why note = note_users(cp, task, minute);
    cp_note_add(cp, note, (Atom){ 2 * task, runs_from(cp, task, minute) });
    if (!cp_set(cp, (Atom){ 2 * task, minute + 1 }, note)) return false;
  }
}

static bool filter_late(Cp *cp, int task, int dirty_begin, int dirty_end)
{
  for (bool pushed = cp->timetable.moved[task];; pushed = true) {
    int est = cp_est(cp, task), lst = cp_lst(cp, task);
    int finish = instance_finish(cp->in, task, lst), begin = instance_finish(cp->in, task, est);
    if (begin < lst) begin = lst;
    if (!pushed && (begin >= dirty_end || finish <= dirty_begin)) return true;
    cp->work += (finish - begin) / 4;
    int minute = first_shortage(cp, task, begin, finish);
    if (minute < 0) return true;
    Why note = note_users(cp, task, minute);
    cp_note_add(cp, note, (Atom){ 2 * task + 1, -minute });
    if (!cp_set(cp, (Atom){ 2 * task + 1, -(runs_from(cp, task, minute) - 1) }, note)) return false;
  }
}

bool timetable_propagate(Cp *cp)
{
  Timetable *tt = &cp->timetable;
  if (tt->touched_count == 0) return true;
  tt->dirty_begin = CALENDAR_NEVER;
  tt->dirty_end = 0;
  if (!update_levels(cp)) return false;
  int begin = tt->dirty_begin, end = tt->dirty_end;
  for (int k = 0; k < tt->user_count; k++) {
    int task = tt->users[k];
    if (cp_est(cp, task) == cp_lst(cp, task)) continue;
    if (!filter_early(cp, task, begin, end) || !filter_late(cp, task, begin, end)) return false;
    tt->moved[task] = false;
  }
  cp->work += tt->user_count / 2;
  return true;
}
