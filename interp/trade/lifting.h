/* lifting.h - the recommended weight limit for lifting machines, tools and pails by hand.
 *
 *     RWL = 23 kg * HM VM DM AM FM CM            LI = weight / RWL, to stay at or below 1
 *     HM = 25 / H    VM = 1 - 0.003 |V - 75|    DM = 0.82 + 4.5 / D    AM = 1 - 0.0032 A       (cm, degrees)
 *
 * FM and CM are tables. From memory: NIOSH 94-110, applications manual for the revised lifting equation. OSHA has
 * no figure. */
#ifndef TRADE_LIFTING_H
#define TRADE_LIFTING_H

#include "trade/trade.h"

typedef enum { LIFTING_GRIP_GOOD, LIFTING_GRIP_FAIR, LIFTING_GRIP_POOR, LIFTING_GRIPS } LiftingGrip;

typedef struct {
  double weight_kg;     /* above 0, at most 500 */
  double reach_cm;      /* H, hands in front of the ankles, 0..63; under 25 counts as 25 */
  double height_cm;     /* V, hands above the floor at the start, 0..175 */
  double travel_cm;     /* D, up or down, 0..175; under 25 counts as 25 */
  double twist_deg;     /* A, 0..135 */
  double lifts_per_min; /* F, 0..15; under 0.2 counts as 0.2; between rows of the table the faster row */
  double hours;         /* of lifting: up to 1, up to 2, up to 8 */
  LiftingGrip grip;
} Lift;

typedef struct {
  double reach, height, travel, twist, pace, grip; /* HM, VM, DM, AM, FM, CM */
  double limit_kg;
  double index;
} LiftingLimit;

/* A pace that the table forbids leaves a limit of 0 kg: TRADE_NO_ANSWER. */
bool lifting_limit(const Lift *lift, LiftingLimit *out, TradeError *error);

extern const TradeFormula lifting_formulas[];

#endif
