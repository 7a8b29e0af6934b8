/* generator.h - how large a generator a set of machines asks for.
 *
 *     running  = sum of running loads, those behind a drive times 1.5 to 2 for their waveform
 *     starting = the worst machine starting while all others run: 3 to 6 times its running load; on a drive 1 to
 *                1.5 times, which the waveform allowance covers
 *     size     = max(running / 0.8, starting) / (1 - 3 to 3.5 % for each 1000 ft of altitude)
 *
 * All common practice: the answer is a span, and the maker's sizing comes first. */
#ifndef TRADE_GENERATOR_H
#define TRADE_GENERATOR_H

#include "trade/trade.h"

typedef struct {
  double running_kva; /* above 0, at most 1000 */
  bool has_drive;     /* fed through a variable-frequency drive */
} GeneratorLoad;

typedef struct {
  double running_low_kva, running_high_kva;
  double starting_low_kva, starting_high_kva;
  double size_low_kva, size_high_kva; /* prime rating at sea level */
} GeneratorSize;

/* 1..32 loads; altitude 0..5000 m. */
bool generator_size(const GeneratorLoad *loads, int count, double altitude_m, GeneratorSize *out,
                    TradeError *error);

extern const TradeFormula generator_formulas[];

#endif
