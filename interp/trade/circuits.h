/* circuits.h - which machines may run at once on the circuits there are, and where a GFCI is asked for.
 *
 *     a breaker carries its loads if sum(amps, continuous ones times 1.25) <= rating        NEC 210.20, from memory
 *
 * A load is continuous when it runs 3 h or more. A machine runs on a circuit of its phases and of its voltage
 * within 10 %. The set is exact: the highest sum of worth that fits, tried in the order given, so that the first
 * listed machine wins a tie. */
#ifndef TRADE_CIRCUITS_H
#define TRADE_CIRCUITS_H

#include "trade/power.h"
#include "trade/trade.h"

enum { CIRCUITS_MOST = 16 };

typedef struct {
  double amps;          /* running, above 0, at most 1000 */
  double volts;
  PowerPhases phases;
  bool is_continuous;
  int worth;            /* 1..1000: 1 each counts machines */
} Machine;

typedef struct {
  double breaker_amps;  /* above 0, at most 1000 */
  double volts;
  PowerPhases phases;
} Circuit;

typedef struct {
  int circuit[CIRCUITS_MOST]; /* of each machine, -1: it must wait */
  int running;                /* machines that run */
  int worth;
  double load_amps[CIRCUITS_MOST]; /* of each circuit, continuous loads at 125 % */
} CircuitPlan;

/* 1..CIRCUITS_MOST machines and circuits. Sets so even that two million placings do not settle the matter are
 * refused with TRADE_NO_ANSWER. */
bool circuits_assign(const Machine *machines, int machine_count, const Circuit *circuits, int circuit_count,
                     CircuitPlan *out, TradeError *error);

typedef struct {
  double volts, amps;      /* of the receptacle; 1..1000 */
  PowerPhases phases;
  bool is_permanent;       /* part of the building's permanent wiring */
  bool is_generator;       /* portable or vehicle-mounted generator */
  double generator_kw;     /* 0.1..10000 when is_generator */
  bool is_two_wire;        /* the generator: two-wire, single phase */
  bool is_frame_insulated; /* its conductors insulated from the frame and other grounded surfaces */
} Receptacle;

typedef enum {
  GFCI_NEEDED,           /* or a written assured equipment grounding conductor programme */
  GFCI_EXEMPT_GENERATOR, /* two-wire single-phase generator up to 5 kW, insulated from its frame */
  GFCI_NOT_COVERED       /* this rule is silent: other codes may not be */
} GfciVerdict;

/* 29 CFR 1926.404(b)(1): 120 V single-phase 15 and 20 A receptacles that are not permanent wiring. */
bool circuits_gfci(const Receptacle *receptacle, GfciVerdict *out, TradeError *error);

extern const TradeFormula circuits_formulas[];

#endif
