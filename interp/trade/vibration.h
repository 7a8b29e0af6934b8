/* vibration.h - hand-arm vibration of a day.
 *
 *     A(8) = a sqrt(T / 8)      several tools: A(8) = sqrt(sum A_i(8)^2)
 *     points = 2 a^2 T(h)       100 points are the action value 2.5 m/s2, 400 the limit value 5.0 m/s2
 *     T = 8 (goal / a)^2 h      time to reach a goal
 *
 * a is the frequency-weighted root-sum-of-squares of three axes, m/s2 (ISO 5349-1; Directive 2002/44/EC). The
 * goals are rows of trade/limits.h. United States law has no figure; ANSI/ASA S2.70 takes the same two (from
 * memory). */
#ifndef TRADE_VIBRATION_H
#define TRADE_VIBRATION_H

#include "trade/exposure.h"
#include "trade/trade.h"

/* Levels 0..100 m/s2. */
bool vibration_daily(const Exposure *tools, int count, double *a8_m_s2, TradeError *error);
bool vibration_points(const Exposure *tools, int count, double *points, TradeError *error);
/* a above 0, at most 100; goal above 0, at most 50. May be over 24 h: the day then never reaches the goal. */
bool vibration_hours_to(double a_m_s2, double goal_a8_m_s2, double *hours, TradeError *error);

extern const TradeFormula vibration_formulas[];

#endif
