/* wear.h - how much floor a set of tools lasts, and how many sets an area takes.
 *
 * Bands of life are data rows, common practice without a source. Where in its band a tool sits is ours: soft,
 * abrasive slabs sit at the low end for metals, hard slabs at the low end for resins (common practice); in between
 * the place is linear in Mohs from 3 to 7 and level outside; grinding metal wet or resin dry takes another fifth
 * of the band off, never below its low end. Transitional tools and pads have no stated direction and sit in the
 * middle.
 *
 *     sets worn = work / life          whole sets = ceil(worn already + worn now) */
#ifndef TRADE_WEAR_H
#define TRADE_WEAR_H

#include "trade/trade.h"

typedef enum { WEAR_BY_AREA, WEAR_BY_EDGE } WearBy;

typedef struct {
  const char *bond;            /* "metal", "transitional", "resin", "edge", "burnish" */
  double grit_low, grit_high;  /* trade numbers; 0, 0 for any */
  WearBy by;
  double life_low, life_high;  /* m2 a set, or m of edge a set */
  int soft_slab_wears;         /* 1: soft slabs at the low end; -1: hard slabs; 0: not stated */
  Basis basis;
} WearBand;

const WearBand *wear_band_at(size_t index); /* NULL past the last */

/* The band of a bond at a grit number. A grit between two bands of its bond takes the coarser, shorter-lived one;
 * one outside them all is refused with the range. Bonds without grits ignore `grit`. */
bool wear_band(const char *bond, double grit, const WearBand **out, TradeError *error);

typedef struct {
  double low, likely, high; /* m2 or m a set */
} WearLife;

/* mohs of the slab in 1..10. */
bool wear_life(const WearBand *band, double mohs, bool wet, WearLife *out, TradeError *error);

typedef struct {
  double share;  /* sets worn by this work, 0.25 is a quarter of a set */
  int sets;      /* whole sets to have at hand, counting what was worn before */
  double worn;   /* share worn of the last set when the work is done, 0..1 */
} WearSets;

/* work and life in the same unit (m2 or m), work 0..1e8, life above 0, at most a million sets; already_worn 0..1
 * of the set in use. */
bool wear_sets(double work, double life, double already_worn, WearSets *out, TradeError *error);

extern const TradeFormula wear_formulas[];

#endif
