/* solvent.c - vapour volumes, dilution air, vapour in a room. */
#include "trade/solvent.h"

#include <math.h>
#include <string.h>

static const Solvent solvents[] = {
  { "acetone", 0.791, 58.08, 0.025, 0.128, -18, 2.0,
    { TRADE_FROM_MEMORY,
      "NIOSH pocket guide; flash point and vapour density confirmed by a fire-service journal" } },
};

const Solvent *solvent_at(size_t index)
{
  return index < sizeof solvents / sizeof *solvents ? &solvents[index] : NULL;
}

bool solvent_find(const char *name, const Solvent **out, TradeError *error)
{
  for (size_t i = 0; solvent_at(i); i++)
    if (strcmp(solvents[i].name, name) == 0) {
      *out = &solvents[i];
      return true;
    }
  return trade_refuse(error, TRADE_UNKNOWN, "name", 0, "no solvent is called `%s`", name);
}

bool solvent_vapour(const Solvent *solvent, double liquid_l, double temperature_c, double *vapour_m3,
                    TradeError *error)
{
  double litres_mol;
  if (!trade_in_range(error, "liquid_l", liquid_l, 0, 1e5)
      || !room_molar_volume(temperature_c, &litres_mol, error))
    return false;
  double moles = liquid_l * solvent->density_kg_l * 1000 / solvent->molar_g;
  *vapour_m3 = moles * litres_mol / 1000;
  return true;
}

bool solvent_dilution_air(const Solvent *solvent, double liquid_l, double temperature_c, double lel_share,
                          double *air_m3, TradeError *error)
{
  double vapour_m3;
  if (!trade_positive(error, "lel_share", lel_share) || !trade_in_range(error, "lel_share", lel_share, 0, 1)
      || !solvent_vapour(solvent, liquid_l, temperature_c, &vapour_m3, error))
    return false;
  *air_m3 = vapour_m3 / (lel_share * solvent->lel);
  return true;
}

bool solvent_in_room(const Solvent *solvent, double liquid_l, double temperature_c, double hours, const Room *room,
                     SolventAir *out, TradeError *error)
{
  double vapour_m3;
  RoomAir air;
  if (!solvent_vapour(solvent, liquid_l, temperature_c, &vapour_m3, error) || !trade_positive(error, "hours", hours)
      || !room_air(room, vapour_m3 / hours, hours, 0, &air, error))
    return false;
  *out = (SolventAir){ air, air.end_ppm * 1e-6 / solvent->lel };
  return true;
}

const TradeFormula solvent_formulas[] = {
  { "solvent.vapour", "vapour = liquid * density / molar mass * molar volume", { TRADE_COMPUTED, "ideal gas" },
    "Volume of vapour from a volume of liquid that has all evaporated." },
  { "solvent.dilution_air", "air = vapour / (share * LEL)",
    { TRADE_COMPUTED, "dilution; the 25 % share from memory of fire codes" },
    "Fresh air that keeps the vapour at a share of the lower explosive limit. Health limits are far lower." },
  { "solvent.in_room", "even evaporation into a well-mixed room", { TRADE_COMPUTED, "room.air" },
    "Peak, average and steady level of vapour in a room, and the peak as a share of the lower explosive limit." },
  { .id = NULL }
};
