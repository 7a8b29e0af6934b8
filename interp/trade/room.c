/* room.c - well-mixed room: steady level, rise, decay. */
#include "trade/room.h"

#include <math.h>

static const double ppm = 1e6, most_ppm = 1e5;

static bool room_is_valid(const Room *room, TradeError *error)
{
  return trade_positive(error, "volume_m3", room->volume_m3)
         && trade_in_range(error, "volume_m3", room->volume_m3, 0, 1e7)
         && trade_in_range(error, "fresh_air_m3_h", room->fresh_air_m3_h, 0, 1e8)
         && trade_in_range(error, "mixing", room->mixing, 1, 10);
}

/* Without fresh air the gas only piles up. */
static RoomAir piling_up(const Room *room, double gas_m3_h, double hours, double start_ppm)
{
  double risen_ppm = gas_m3_h * hours / room->volume_m3 * ppm;
  return (RoomAir){ gas_m3_h > 0 ? INFINITY : start_ppm, start_ppm + risen_ppm, start_ppm + risen_ppm / 2 };
}

static RoomAir diluted(const Room *room, double gas_m3_h, double hours, double start_ppm)
{
  double air_m3_h = room->fresh_air_m3_h / room->mixing;
  double steady_ppm = gas_m3_h / air_m3_h * ppm, changes = air_m3_h * hours / room->volume_m3;
  double away_ppm = start_ppm - steady_ppm;
  return (RoomAir){ steady_ppm, steady_ppm + away_ppm * exp(-changes),
                    steady_ppm + away_ppm * -expm1(-changes) / changes };
}

bool room_air(const Room *room, double gas_m3_h, double hours, double start_ppm, RoomAir *out, TradeError *error)
{
  if (!room_is_valid(room, error) || !trade_in_range(error, "gas_m3_h", gas_m3_h, 0, 1e5)
      || !trade_positive(error, "hours", hours) || !trade_in_range(error, "hours", hours, 0, 1000)
      || !trade_in_range(error, "start_ppm", start_ppm, 0, ppm))
    return false;
  RoomAir air = room->fresh_air_m3_h > 0 ? diluted(room, gas_m3_h, hours, start_ppm)
                                         : piling_up(room, gas_m3_h, hours, start_ppm);
  if (fmax(air.end_ppm, air.average_ppm) > most_ppm)
    return trade_refuse(error, TRADE_NO_ANSWER, "gas_m3_h", gas_m3_h,
                        "the air would reach %g ppm, more than a dilute balance can tell", air.end_ppm);
  *out = air;
  return true;
}

bool room_air_needed(const Room *room, double gas_m3_h, double goal_ppm, double *fresh_air_m3_h, TradeError *error)
{
  if (!room_is_valid(room, error) || !trade_in_range(error, "gas_m3_h", gas_m3_h, 0, 1e5)
      || !trade_positive(error, "goal_ppm", goal_ppm) || !trade_in_range(error, "goal_ppm", goal_ppm, 0, most_ppm))
    return false;
  *fresh_air_m3_h = gas_m3_h * room->mixing / goal_ppm * ppm;
  return true;
}

bool room_clears_in(const Room *room, double start_ppm, double goal_ppm, double *hours, TradeError *error)
{
  if (!room_is_valid(room, error) || !trade_in_range(error, "start_ppm", start_ppm, 0, most_ppm)
      || !trade_positive(error, "goal_ppm", goal_ppm) || !trade_in_range(error, "goal_ppm", goal_ppm, 0, most_ppm))
    return false;
  bool is_clear = start_ppm <= goal_ppm;
  if (!is_clear && room->fresh_air_m3_h <= 0)
    return trade_refuse(error, TRADE_NO_ANSWER, "fresh_air_m3_h", 0, "without fresh air the room does not clear");
  *hours = is_clear ? 0 : room->mixing * room->volume_m3 / room->fresh_air_m3_h * log(start_ppm / goal_ppm);
  return true;
}

bool room_molar_volume(double temperature_c, double *litres_mol, TradeError *error)
{
  const double at_zero_l = 22.414, zero_k = 273.15;
  if (!trade_in_range(error, "temperature_c", temperature_c, -30, 60)) return false;
  *litres_mol = at_zero_l * (temperature_c + zero_k) / zero_k;
  return true;
}

const TradeFormula room_formulas[] = {
  { "room.air", "C(t) = Cs + (C0 - Cs) exp(-Q t / (k V)), Cs = G k / Q",
    { TRADE_COMPUTED, "mass balance of dilute gas" },
    "Level in a well-mixed room when the emission ends, its average and where it would settle. Mixing factor 1 to "
    "10. Near the source the air is worse: measure." },
  { "room.air_needed", "Q = G k / goal", { TRADE_COMPUTED, "steady mass balance" },
    "Fresh air that keeps the steady level at a goal." },
  { "room.clears_in", "t = k V / Q * ln(start / goal)", { TRADE_COMPUTED, "decay of a mixed room" },
    "Hours of airing once the emission has stopped." },
  { "room.molar_volume", "Vm = 22.414 * (T + 273.15) / 273.15 L/mol", { TRADE_FROM_MEMORY, "ideal gas at 1 atm" },
    "Volume of a mole of vapour; 24.47 L at 25 degC." },
  { .id = NULL }
};
