/* solvent.h - vapour of dyes and cleaners: how much, how much air against fire, what a room comes to.
 *
 *     vapour = liquid * density / molar mass * molar volume          1 US gal acetone: 44.5 ft3 at 25 degC
 *     air to stay at a share of the lower explosive limit = vapour / (share * LEL)
 *
 * Health limits are far lower than fire limits: see the rows acetone.* of trade/limits.h. Vapour heavier than air
 * runs along the floor to any spark. The product data sheet comes first. */
#ifndef TRADE_SOLVENT_H
#define TRADE_SOLVENT_H

#include "trade/room.h"
#include "trade/trade.h"

typedef struct {
  const char *name;
  double density_kg_l;   /* liquid at 20 degC */
  double molar_g;
  double lel, uel;       /* fraction by volume in air */
  double flash_point_c;
  double vapour_density; /* air is 1 */
  Basis basis;
} Solvent;

const Solvent *solvent_at(size_t index); /* NULL past the last */
bool solvent_find(const char *name, const Solvent **out, TradeError *error);

/* liquid 0..1e5 L, all of it evaporated; temperature -30..60 degC. */
bool solvent_vapour(const Solvent *solvent, double liquid_l, double temperature_c, double *vapour_m3,
                    TradeError *error);
/* share of the LEL above 0, at most 1; the rule is 0.25. */
bool solvent_dilution_air(const Solvent *solvent, double liquid_l, double temperature_c, double lel_share,
                          double *air_m3, TradeError *error);

typedef struct {
  RoomAir air;
  double lel_share; /* of the room's highest level; 1 is the lower explosive limit */
} SolventAir;

/* liquid evaporating evenly over `hours` into clean air. */
bool solvent_in_room(const Solvent *solvent, double liquid_l, double temperature_c, double hours, const Room *room,
                     SolventAir *out, TradeError *error);

extern const TradeFormula solvent_formulas[];

#endif
