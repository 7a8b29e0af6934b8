/* power.h - copper conductors, voltage drop along a cord, apparent power.
 *
 *     single phase  VD = 2 I R L / 1000      three phase  VD = sqrt(3) I R L / 1000      L one way ft, R ohm/kft
 *     by area       VD = 2 K I L / CM            K about 12.9 ohm circular mil/ft for copper (from memory)
 *     apparent      S = V I  or  sqrt(3) V I
 *
 * Resistances: NEC chapter 9 table 8, uncoated copper, direct current at 75 degC (two electrical reference pages);
 * at 20 degC about 82 % of that. Reactance is left out: short cords, small conductors. A licensed electrician
 * decides. */
#ifndef TRADE_POWER_H
#define TRADE_POWER_H

#include "trade/trade.h"

typedef struct {
  int awg;
  double circular_mils;
  double ohm_kft;          /* solid up to AWG 8, stranded from AWG 6 */
  double stranded_ohm_kft;
  double ohm_km;           /* as printed */
} Conductor;

extern const char power_table_edition[];
const Conductor *power_conductor_at(size_t index); /* NULL past the last */
bool power_conductor(int awg, const Conductor **out, TradeError *error);

typedef enum { POWER_SINGLE_PHASE, POWER_THREE_PHASE, POWER_PHASES } PowerPhases;

typedef struct {
  PowerPhases phases;
  double volts;       /* above 0, at most 1000 */
  double amps;        /* 0..1000 */
  double ohm_kft;     /* of one conductor, above 0, at most 10 */
} PowerLine;

typedef struct {
  double volts;
  double share; /* of the line's voltage; 0.03 and 0.05 are the rows power.drop.* of trade/limits.h */
} VoltageDrop;

/* run: one way, 0..3000 m. A drop over the whole voltage is refused with TRADE_NO_ANSWER. */
bool power_drop(const PowerLine *line, double run_m, VoltageDrop *out, TradeError *error);
/* The K form, from the conductor's area; single phase uses 2, three phase sqrt(3). */
bool power_drop_by_area(const PowerLine *line, double circular_mils, double run_m, VoltageDrop *out,
                        TradeError *error);
/* Longest one-way run for a share of the voltage (above 0, at most 0.5); amps must be above 0. */
bool power_longest_run(const PowerLine *line, double share, double *run_m, TradeError *error);

/* Volts above 0..1000, amps 0..10000. */
bool power_apparent(PowerPhases phases, double volts, double amps, double *kva, TradeError *error);

extern const TradeFormula power_formulas[];

#endif
