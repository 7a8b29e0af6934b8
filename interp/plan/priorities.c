#include "plan/priorities.h"

/* By how many spreads of the latest starts the last task is put behind the first. */
static const int tilts[PRIORITIES_RULES] = { 0, 0, 3, 8 };

/* From the first to the last of the latest starts of what is not fixed. */
static int spread_of_latest(const Instance *in)
{
  int first = in->horizon, last = 0;
  for (int t = 0; t < in->end; t++) {
    if (in->earliest[t] == in->latest[t]) continue;
    if (in->latest[t] < first) first = in->latest[t];
    if (in->latest[t] > last) last = in->latest[t];
  }
  return last > first ? last - first : 0;
}

void priorities_by_rule(const Instance *in, int rule, int *priority)
{
  const int *start = rule == 1 ? in->earliest : in->latest;
  double each = (double)spread_of_latest(in) * tilts[rule] / in->count;
  for (int t = 0; t < in->count; t++) priority[t] = start[t] + (int)(each * t);
}
