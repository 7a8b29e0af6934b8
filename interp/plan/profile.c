#include "plan/profile.h"

#include "base/mem.h"

static void fill(Profile *p, int from, int to)
{
  const Lanes *lanes = &p->in->lanes;
  for (int m = from; m < to; m++)
    for (int w = 0; w < lanes->words; w++) p->level[(int64_t)m * lanes->words + w] = lanes->full[w];
}

static void grow(Profile *p, int minutes)
{
  if (minutes <= p->minutes) return;
  int length = minutes > 2 * p->minutes ? minutes : 2 * p->minutes;
  p->level = mem_grow(p->level, (size_t)length, (size_t)p->in->lanes.words * sizeof *p->level);
  fill(p, p->minutes, length);
  p->minutes = length;
}

Profile profile_new(const Instance *in)
{
  Profile p = { .in = in };
  grow(&p, 256);
  return p;
}

void profile_free(Profile *p) { mem_free(p->level); }

void profile_clear(Profile *p)
{
  fill(p, 0, p->used);
  p->used = 0;
}

/* The last minute of [begin, end) at which the demand does not fit, or -1. Past the last use all is free. */
static int last_shortage(const Profile *p, const uint64_t *demand, int begin, int end)
{
  const Lanes *lanes = &p->in->lanes;
  if (end > p->used) end = p->used;
  for (int m = end - 1; m >= begin; m--)
    if (!lanes_fit(lanes, p->level + (int64_t)m * lanes->words, demand)) return m;
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
  int start = instance_next(p->in, task, from);
  while (start <= latest) {
    int finish = instance_finish(p->in, task, start);
    int shortage = shortage_while_working(p, task, demand, start, finish);
    if (shortage < 0) return start;
    start = instance_next(p->in, task, shortage + 1);
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
      uint64_t *level = p->level + (int64_t)m * lanes->words;
      if (take) lanes_take(lanes, level, demand);
      else lanes_give(lanes, level, demand);
    }
}

void profile_take(Profile *p, int task, int start) { change(p, task, start, true); }

void profile_give(Profile *p, int task, int start) { change(p, task, start, false); }
