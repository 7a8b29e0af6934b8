/* vibration.c - daily hand-arm vibration. */
#include "trade/vibration.h"

#include <math.h>

static const double shift_h = 8;
static const double highest_m_s2 = 100;

/* Sum of a^2 T over the tools. */
static bool vibration_sum(const Exposure *tools, int count, double *sum, TradeError *error)
{
  double hours, total = 0;
  if (!exposure_hours(tools, count, &hours, error)) return false;
  for (int i = 0; i < count; i++) {
    if (!trade_in_range(error, "level", tools[i].level, 0, highest_m_s2)) return false;
    total += tools[i].level * tools[i].level * tools[i].hours;
  }
  *sum = total;
  return true;
}

bool vibration_daily(const Exposure *tools, int count, double *a8_m_s2, TradeError *error)
{
  double sum;
  if (!vibration_sum(tools, count, &sum, error)) return false;
  *a8_m_s2 = sqrt(sum / shift_h);
  return true;
}

bool vibration_points(const Exposure *tools, int count, double *points, TradeError *error)
{
  double sum;
  if (!vibration_sum(tools, count, &sum, error)) return false;
  *points = 2 * sum;
  return true;
}

bool vibration_hours_to(double a_m_s2, double goal_a8_m_s2, double *hours, TradeError *error)
{
  if (!trade_positive(error, "a_m_s2", a_m_s2) || !trade_in_range(error, "a_m_s2", a_m_s2, 0, highest_m_s2)
      || !trade_positive(error, "goal_a8_m_s2", goal_a8_m_s2)
      || !trade_in_range(error, "goal_a8_m_s2", goal_a8_m_s2, 0, 50))
    return false;
  double ratio = goal_a8_m_s2 / a_m_s2;
  *hours = shift_h * ratio * ratio;
  return true;
}

const TradeFormula vibration_formulas[] = {
  { "vibration.daily", "A(8) = sqrt(sum(a^2 * T) / 8)", { TRADE_CONFIRMED, "Directive 2002/44/EC, ISO 5349-1" },
    "Daily hand-arm vibration of one or several tools, a in m/s2 over three axes, T in hours." },
  { "vibration.points", "points = sum(2 * a^2 * T)", { TRADE_CONFIRMED, "national regulator's convention" },
    "100 points are the action value, 400 the limit value." },
  { "vibration.hours_to", "T = 8 * (goal / a)^2 h", { TRADE_CONFIRMED, "A(8) solved for time" },
    "Time on one tool until a daily value is reached." },
  { .id = NULL }
};
