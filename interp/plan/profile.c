#include "plan/profile.h"

#include "base/mem.h"

enum { BLOCK = 64 };

static uint64_t *level_at(const Profile *p, int minute) { return p->level + (int64_t)minute * p->in->lanes.words; }
static uint64_t *most_of(const Profile *p, int block) { return p->most + (int64_t)block * p->in->lanes.words; }

static void set_full(const Lanes *lanes, uint64_t *level)
{
  for (int w = 0; w < lanes->words; w++) level[w] = lanes->full[w];
}

static void fill(Profile *p, int from, int to)
{
  const Lanes *lanes = &p->in->lanes;
  for (int m = from; m < to; m++) set_full(lanes, level_at(p, m));
  for (int block = from / BLOCK; block * BLOCK < to; block++) set_full(lanes, most_of(p, block));
}

static void grow(Profile *p, int minutes)
{
  if (minutes <= p->minutes) return;
  size_t each = (size_t)p->in->lanes.words * sizeof *p->level;
  int blocks = ((minutes > 2 * p->minutes ? minutes : 2 * p->minutes) + BLOCK - 1) / BLOCK;
  p->level = mem_grow(p->level, (size_t)blocks * BLOCK, each);
  p->most = mem_grow(p->most, (size_t)blocks, each);
  fill(p, p->minutes, blocks * BLOCK);
  p->minutes = blocks * BLOCK;
}

Profile profile_new(const Instance *in)
{
  Profile p = { .in = in };
  grow(&p, 256);
  return p;
}

void profile_free(Profile *p)
{
  mem_free(p->level);
  mem_free(p->most);
}

void profile_clear(Profile *p)
{
  fill(p, 0, p->used);
  p->used = 0;
}

/* ---- a start for a task */

/* Lowers what a block holds at most to what it holds. */
static void look_through(Profile *p, int block)
{
  const Lanes *lanes = &p->in->lanes;
  uint64_t *most = most_of(p, block);
  for (int w = 0; w < lanes->words; w++) most[w] = lanes->guard;
  for (int m = block * BLOCK; m < (block + 1) * BLOCK; m++) lanes_raise(lanes, most, level_at(p, m));
}

/* The first minute at or after `minute` at which the demand fits. */
static int next_fit(Profile *p, const uint64_t *demand, int minute)
{
  const Lanes *lanes = &p->in->lanes;
  while (minute < p->used) {
    int block = minute / BLOCK, from = minute, end = (block + 1) * BLOCK;
    bool in_vain = !lanes_fit(lanes, most_of(p, block), demand);
    for (minute = in_vain ? end : minute; minute < end; minute++)
      if (lanes_fit(lanes, level_at(p, minute), demand)) return minute;
    if (!in_vain && from == block * BLOCK) look_through(p, block);
  }
  return minute;
}

/* The first start at or after `minute` that the calendar leaves and at which the demand fits. */
static int next_start(Profile *p, int task, const uint64_t *demand, int minute)
{
  int start = instance_next(p->in, task, minute);
  while (start < p->used) {
    minute = next_fit(p, demand, start);
    if (minute == start) break;
    start = instance_next(p->in, task, minute);
  }
  return start;
}

/* The last minute of [begin, end) at which the demand does not fit, or -1. Past the last use all is free. */
static int last_shortage(const Profile *p, const uint64_t *demand, int begin, int end)
{
  const Lanes *lanes = &p->in->lanes;
  if (end > p->used) end = p->used;
  for (int m = end - 1; m >= begin; m--)
    if (!lanes_fit(lanes, level_at(p, m), demand)) return m;
  return -1;
}

static int shortage_while_working(const Profile *p, int task, const uint64_t *demand, int start, int finish)
{
  if (!p->in->breakable[task]) return last_shortage(p, demand, start, finish);
  Pieces pieces = instance_pieces(p->in, task, start, finish);
  Interval piece;
  int last = -1;
  while (pieces_next(&pieces, &piece)) {
    int at = last_shortage(p, demand, piece.begin, piece.end);
    if (at >= 0) last = at;
  }
  return last;
}

int profile_earliest(Profile *p, int task, int from, int latest)
{
  const uint64_t *demand = lanes_demand(&p->in->lanes, task);
  int start = next_start(p, task, demand, from);
  while (start <= latest) {
    int finish = instance_finish(p->in, task, start);
    int shortage = shortage_while_working(p, task, demand, start, finish);
    if (shortage < 0) return start;
    start = next_start(p, task, demand, shortage + 1);
  }
  return CALENDAR_NEVER;
}

static void change(Profile *p, int task, int start, bool take)
{
  const Lanes *lanes = &p->in->lanes;
  const uint64_t *demand = lanes_demand(lanes, task);
  int finish = instance_finish(p->in, task, start);
  grow(p, finish);
  if (finish > p->used) p->used = finish;
  Pieces pieces = instance_pieces(p->in, task, start, finish);
  Interval piece;
  while (pieces_next(&pieces, &piece))
    for (int m = piece.begin; m < piece.end; m++) {
      uint64_t *level = level_at(p, m);
      if (take) lanes_take(lanes, level, demand);
      else lanes_give(lanes, level, demand);
      if (!take) lanes_raise(lanes, most_of(p, m / BLOCK), level);
    }
}

void profile_take(Profile *p, int task, int start) { change(p, task, start, true); }

void profile_give(Profile *p, int task, int start) { change(p, task, start, false); }
