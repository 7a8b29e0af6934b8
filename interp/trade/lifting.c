/* lifting.c - multipliers and the recommended weight limit. */
#include "trade/lifting.h"

#include <math.h>

/* Pace multiplier by lifts a minute; the pairs are for hands under 75 cm and from 75 cm, up to 1, 2 and 8 h. */
static const struct {
  double lifts_per_min;
  double by_hours[3][2];
} paces[] = {
  { 0.2, { { 1.00, 1.00 }, { 0.95, 0.95 }, { 0.85, 0.85 } } },
  { 0.5, { { 0.97, 0.97 }, { 0.92, 0.92 }, { 0.81, 0.81 } } },
  { 1, { { 0.94, 0.94 }, { 0.88, 0.88 }, { 0.75, 0.75 } } },
  { 2, { { 0.91, 0.91 }, { 0.84, 0.84 }, { 0.65, 0.65 } } },
  { 3, { { 0.88, 0.88 }, { 0.79, 0.79 }, { 0.55, 0.55 } } },
  { 4, { { 0.84, 0.84 }, { 0.72, 0.72 }, { 0.45, 0.45 } } },
  { 5, { { 0.80, 0.80 }, { 0.60, 0.60 }, { 0.35, 0.35 } } },
  { 6, { { 0.75, 0.75 }, { 0.50, 0.50 }, { 0.27, 0.27 } } },
  { 7, { { 0.70, 0.70 }, { 0.42, 0.42 }, { 0.22, 0.22 } } },
  { 8, { { 0.60, 0.60 }, { 0.35, 0.35 }, { 0.18, 0.18 } } },
  { 9, { { 0.52, 0.52 }, { 0.30, 0.30 }, { 0.00, 0.15 } } },
  { 10, { { 0.45, 0.45 }, { 0.26, 0.26 }, { 0.00, 0.13 } } },
  { 11, { { 0.41, 0.41 }, { 0.00, 0.23 }, { 0.00, 0.00 } } },
  { 12, { { 0.37, 0.37 }, { 0.00, 0.21 }, { 0.00, 0.00 } } },
  { 13, { { 0.00, 0.34 }, { 0.00, 0.00 }, { 0.00, 0.00 } } },
  { 14, { { 0.00, 0.31 }, { 0.00, 0.00 }, { 0.00, 0.00 } } },
  { 15, { { 0.00, 0.28 }, { 0.00, 0.00 }, { 0.00, 0.00 } } },
};
enum { PACES = sizeof paces / sizeof *paces };

static const double knuckle_cm = 75; /* where the tables change */

static double pace_multiplier(const Lift *lift)
{
  int hours = lift->hours <= 1 ? 0 : lift->hours <= 2 ? 1 : 2, row = 0;
  while (row < PACES - 1 && paces[row].lifts_per_min < lift->lifts_per_min) row++;
  return paces[row].by_hours[hours][lift->height_cm >= knuckle_cm];
}

static double grip_multiplier(const Lift *lift)
{
  static const double by_grip[LIFTING_GRIPS][2] = { { 1, 1 }, { 0.95, 1 }, { 0.9, 0.9 } };
  return by_grip[lift->grip][lift->height_cm >= knuckle_cm];
}

static bool lift_is_valid(const Lift *lift, TradeError *error)
{
  return trade_positive(error, "weight_kg", lift->weight_kg)
         && trade_in_range(error, "weight_kg", lift->weight_kg, 0, 500)
         && trade_in_range(error, "reach_cm", lift->reach_cm, 0, 63)
         && trade_in_range(error, "height_cm", lift->height_cm, 0, 175)
         && trade_in_range(error, "travel_cm", lift->travel_cm, 0, 175)
         && trade_in_range(error, "twist_deg", lift->twist_deg, 0, 135)
         && trade_in_range(error, "lifts_per_min", lift->lifts_per_min, 0, 15)
         && trade_positive(error, "hours", lift->hours) && trade_in_range(error, "hours", lift->hours, 0, 8)
         && trade_in_range(error, "grip", lift->grip, 0, LIFTING_GRIPS - 1);
}

bool lifting_limit(const Lift *lift, LiftingLimit *out, TradeError *error)
{
  const double load_constant_kg = 23, least_cm = 25;
  if (!lift_is_valid(lift, error)) return false;
  LiftingLimit m = {
    .reach = least_cm / fmax(lift->reach_cm, least_cm),
    .height = 1 - 0.003 * fabs(lift->height_cm - knuckle_cm),
    .travel = 0.82 + 4.5 / fmax(lift->travel_cm, least_cm),
    .twist = 1 - 0.0032 * lift->twist_deg,
    .pace = pace_multiplier(lift),
    .grip = grip_multiplier(lift),
  };
  if (m.pace <= 0)
    return trade_refuse(error, TRADE_NO_ANSWER, "lifts_per_min", lift->lifts_per_min,
                        "no weight may be lifted %g times a minute for %g h", lift->lifts_per_min, lift->hours);
  m.limit_kg = load_constant_kg * m.reach * m.height * m.travel * m.twist * m.pace * m.grip;
  m.index = lift->weight_kg / m.limit_kg;
  *out = m;
  return true;
}

const TradeFormula lifting_formulas[] = {
  { "lifting.limit", "RWL = 23 kg * (25/H)(1 - 0.003|V - 75|)(0.82 + 4.5/D)(1 - 0.0032 A) * FM * CM",
    { TRADE_FROM_MEMORY, "NIOSH 94-110" },
    "Recommended weight limit of one kind of lift and the lifting index (weight over limit); H, V, D in cm, A in "
    "degrees." },
  { .id = NULL }
};
