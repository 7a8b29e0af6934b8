/* exposure.c - sums over the tasks of a shift. */
#include "trade/exposure.h"

#include <math.h>

bool exposure_hours(const Exposure *tasks, int count, double *hours, TradeError *error)
{
  const double day_h = 24, rounding_h = 1e-9;
  double sum_h = 0;
  if (!trade_in_range(error, "count", count, 1, 1000)) return false;
  for (int i = 0; i < count; i++) {
    if (!trade_in_range(error, "hours", tasks[i].hours, 0, day_h)
        || !trade_in_range(error, "level", tasks[i].level, -INFINITY, INFINITY))
      return false;
    sum_h += tasks[i].hours;
  }
  if (!trade_in_range(error, "hours together", sum_h, 0, day_h + rounding_h)) return false;
  *hours = sum_h;
  return true;
}

bool exposure_average(const Exposure *tasks, int count, double *average_8h, TradeError *error)
{
  const double shift_h = 8;
  double hours, sum = 0;
  if (!exposure_hours(tasks, count, &hours, error)) return false;
  for (int i = 0; i < count; i++) {
    if (!trade_in_range(error, "level", tasks[i].level, 0, INFINITY)) return false;
    sum += tasks[i].level * tasks[i].hours;
  }
  *average_8h = sum / shift_h;
  return true;
}

const TradeFormula exposure_formulas[] = {
  { "exposure.average", "E = sum(C * T) / 8 h", { TRADE_CONFIRMED, "29 CFR 1910.1000(d)" },
    "8 h average of what one person met; time without a task counts as zero, a longer shift is still divided by "
    "8." },
  { .id = NULL }
};
