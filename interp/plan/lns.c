#include "plan/lns.h"

#include <string.h>

#include "base/mem.h"

enum { SMALLEST = 8, FIRST_SIZE = 30, FIRST_CONFLICTS = 150 };

Lns lns_new(const Instance *in, Cp *cp, uint64_t seed)
{
  Lns lns = { .in = in, .cp = cp, .dice = { seed },
            .size = FIRST_SIZE, .step = 1, .conflicts = FIRST_CONFLICTS };
  lns.assumptions = mem_array((size_t)in->count, sizeof *lns.assumptions);
  return lns;
}

void lns_free(Lns *lns) { mem_free(lns->assumptions); }

/* How many tasks run in [from, to). */
static int tasks_within(const Lns *lns, const int *start, int from, int to)
{
  int count = 0;
  for (int t = 0; t < lns->in->end; t++)
    count += start[t] < to && instance_finish(lns->in, t, start[t]) > from;
  return count;
}

/* A stretch [*from, *to) with about `size` tasks in it, centred on a random task. */
static void choose_stretch(Lns *lns, const int *start, int *from, int *to)
{
  int makespan = start[lns->in->end];
  int centre = start[dice_roll(&lns->dice, lns->in->end)];
  int low = 1, high = makespan + 1;
  while (low < high) {
    int half = (low + high) / 2;
    if (tasks_within(lns, start, centre - half, centre + half) >= lns->size) high = half;
    else low = half + 1;
  }
  *from = centre - low;
  *to = centre + low;
}

static int assume_outside(Lns *lns, const int *start, int from, int to)
{
  const Instance *in = lns->in;
  int count = 0;
  lns->assumptions[count++] = (CpAssumption){ in->end, 0, start[in->end] - lns->step };
  for (int t = 0; t < in->end; t++) {
    if (instance_finish(in, t, start[t]) <= from)
      lns->assumptions[count++] = (CpAssumption){ t, start[t], start[t] };
    else if (start[t] >= to && in->plain)
      lns->assumptions[count++] = (CpAssumption){ t, start[t] - lns->step, start[t] - lns->step };
  }
  return count;
}

bool lns_try(Lns *lns, int *start, CpLimit limit)
{
  int from, to;
  choose_stretch(lns, start, &from, &to);
  int count = assume_outside(lns, start, from, to);
  if (limit.conflicts > lns->conflicts) limit.conflicts = lns->conflicts;
  CpStatus status = cp_search(lns->cp, lns->assumptions, count, limit, start);
  lns->step = status == CP_FOUND ? 2 * lns->step : lns->step > 1 ? lns->step / 2 : 1;
  int change = 1 + lns->size / 16;
  if (status == CP_REFUTED && lns->size < lns->in->end) lns->size += change;
  if (status == CP_LIMIT && lns->size - change >= SMALLEST) lns->size -= change;
  return status == CP_FOUND;
}
