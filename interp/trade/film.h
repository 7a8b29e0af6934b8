/* film.h - thickness of a liquid film, how long it stays wet, and how often it must be wetted again.
 *
 *     wet film um = 1000 / spread (m2/L)               1 L over 1 m2 is 1 mm
 *     dry film um = wet film * volume solids           and so: spread = 1000 * solids / dry um
 *     US: spread sqft/gal = 1604 * solids / dry mil    confirmed (trade press: 25 % at 1.5 mil is 267)
 *     wet life h  = film mass that may evaporate / evaporation rate (kg/m2/h)
 *
 * The wet life takes the evaporation rate of open water for the liquid; the rate itself is good to +/- 40 %
 * (published symposium abstract), so the life is three figures. What soaks in leaves sooner: the life is an upper
 * view of a film on a closed surface. (our caution) */
#ifndef TRADE_FILM_H
#define TRADE_FILM_H

#include "trade/trade.h"

/* Spread in 0.1..1000 m2/L. */
bool film_wet_thickness(double spread_m2_l, double *wet_um, TradeError *error);
/* Wet film 1..10000 um, volume solids above 0, at most 1. */
bool film_dry_thickness(double wet_um, double volume_solids, double *dry_um, TradeError *error);
/* The spread that leaves `dry_um` (0.1..10000). */
bool film_spread(double volume_solids, double dry_um, double *spread_m2_l, TradeError *error);

typedef struct {
  double early_h, likely_h, late_h; /* rate 40 % higher, as estimated, 40 % lower */
} WetLife;

/* density in 600..2500 kg/m3; volatile_share is the mass fraction that may evaporate before the film is dry, above
 * 0, at most 1; evaporation above 0, at most 10 kg/m2/h. A rate of zero or below never dries the film:
 * TRADE_NO_ANSWER. */
bool film_wet_life(double wet_um, double density_kg_m3, double volatile_share, double evaporation_kg_m2_h,
                   WetLife *out, TradeError *error);

typedef struct {
  int fewest, likely, most; /* by the late, likely and early end of the wet life */
} Rewets;

/* How often a film must be wetted again to stay wet over `dwell_h` (above 0, at most 72): ceil(dwell / life) - 1. A
 * life under one minute is refused: nobody can keep such a film wet. */
bool film_rewets(double dwell_h, const WetLife *life, Rewets *out, TradeError *error);

extern const TradeFormula film_formulas[];

#endif
