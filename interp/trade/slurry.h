/* slurry.h - what comes off the floor: solids, slurry, settled sludge, clear water, drums, dust bags, pH class.
 *
 *     solids: V = area * depth, m = V * density               1000 sqft * 1/16 in * 145 lb/ft3 = 755 lb
 *     slurry: volume = water left + solids volume
 *     settled: sludge volume = solids volume / solids share of the sludge; the rest is clear water
 *     dry dust in bags: 1.5 to 2 times the solid volume (common practice)
 *
 * Normal-weight concrete: 2300..2400 kg/m3 (from memory). Never to a storm drain; local rules decide. */
#ifndef TRADE_SLURRY_H
#define TRADE_SLURRY_H

#include "trade/trade.h"

#define SLURRY_CONCRETE_KG_M3 2350.0
#define SLURRY_DRUM_L 208.19764812 /* 55 US gal */

typedef struct {
  double volume_l, mass_kg;
} Solids;

/* area 0..1e7 m2, depth 0..20000 um, density 1000..4000 kg/m3. */
bool slurry_solids(double area_m2, double depth_um, double density_kg_m3, Solids *out, TradeError *error);

typedef struct {
  double volume_l, mass_kg;
  double solids_l, water_l;
  double solids_mass_share;  /* of the slurry's mass */
  double free_water_share;   /* water by volume */
} Slurry;

/* water_l 0..1e9 put down; water_lost 0..1 is the share that dried off or soaked in. At least something must be
 * left: TRADE_DEGENERATE otherwise. */
bool slurry_mix(const Solids *solids, double water_l, double water_lost, Slurry *out, TradeError *error);

typedef struct {
  double sludge_l, clear_l;
} Settled;

/* sludge_solids: solids share by volume of the settled sludge, 0.05..0.7. A slurry already thicker than that
 * settles no further: all of it is sludge and clear_l is 0. */
bool slurry_settle(const Slurry *slurry, double sludge_solids, Settled *out, TradeError *error);

/* Drums of `drum_l` filled to `fill` (0.1..1) of their volume. */
bool slurry_drums(double volume_l, double drum_l, double fill, int *drums, TradeError *error);

typedef struct {
  double low_l, high_l; /* loose volume */
  int bags_low, bags_high;
} DustBags;

/* Dry dust: solids bulk up 1.5 to 2 times; bags hold 1..1000 L. */
bool slurry_dust(const Solids *solids, double bag_l, DustBags *out, TradeError *error);

typedef enum {
  SLURRY_NOT_CORROSIVE,      /* aqueous, 2 < pH < 12.5 */
  SLURRY_CORROSIVE_ACID,     /* D002: pH 2 or below */
  SLURRY_CORROSIVE_ALKALINE, /* D002: pH 12.5 or above */
  SLURRY_NOT_AQUEOUS         /* under 20 % free water: the pH rule is for aqueous waste; states may add their own */
} SlurryPhClass;

/* 40 CFR 261.22(a)(1), limits inclusive: pH <= 2 or >= 12.5 is corrosive waste D002. pH in -2..16, free water 0..1
 * by volume (aqueous from 20 %: federal agency memorandum). By pH alone: the steel test is not in it. */
bool slurry_ph_class(double ph, double free_water_share, SlurryPhClass *out, TradeError *error);
const char *slurry_ph_class_name(SlurryPhClass class);

extern const TradeFormula slurry_formulas[];

#endif
