/* grit.h - from a printed grit number to the size of the grain.
 *
 * A number means nothing without its system: P400 is 35 um, CAMI 400 is 23 um, JIS #400 is 30 um. Sizes are those
 * of published tables (grit_table.c, each row with its source); a grade is a distribution, the size its median or
 * mean.
 *
 * Between two grades of one system the size is interpolated on logarithms of number and size, and the result says
 * so. Outside a table there is no answer: P3000 and finer have grades but no published figure here. Sieves and
 * diamond codes are names, not a scale: there is no No. 180 sieve, and none is made up.
 *
 * Numbers on floor pads and segments belong to no standard. They are read by the table pad_readings in grit.c:
 * plain numbers in North America are CAMI, which covers 24 to 1000; 1200 and finer read as JIS, 12 to 23 as FEPA P
 * and 6 to 11 as FEPA F, where the systems agree to a tenth; between 1000 and 1200 there is none. Common practice,
 * no source; the result carries both that basis and the standard grade it was read as. */
#ifndef TRADE_GRIT_H
#define TRADE_GRIT_H

#include "trade/bond.h"

typedef enum {
  GRIT_P,         /* FEPA P, coated abrasive, ISO 6344: 12 to 2500 */
  GRIT_F,         /* FEPA F, bonded and loose abrasive, ISO 8486: 4 to 2000 */
  GRIT_JIS,       /* JIS R 6001 precision powder: 240 to 8000 */
  GRIT_CAMI,      /* ANSI B74.18, coated, plain numbers of North America: 24 to 1000 */
  GRIT_SIEVE,     /* ASTM E11 sieve number: its opening */
  GRIT_SIEVE_OLD, /* the superseded inch series that old charts print: 74, 149, 297 um */
  GRIT_DIAMOND,   /* FEPA D, ISO 6106: the middle of its pair of sieves */
  GRIT_PAD,       /* the number on a floor pad or segment: 6 to 1000, 1200 to 8000 */
  GRIT_SYSTEMS
} GritSystem;

typedef struct {
  GritSystem system;
  double number;
} Grit;

/* A row of the published tables. low_um and high_um: the tolerance of the median or the pair of sieves; 0 if the
 * source gives none. mesh: the US sieves of a diamond code, else NULL. */
typedef struct {
  GritSystem system;
  const char *name; /* as the standard prints it: "P80", "#400", "No. 200" */
  double number, size_um, low_um, high_um;
  const char *mesh;
  BasisStatus status;
} GritRow;

typedef struct {
  double size_um;
  Grit read_as; /* the standard grade; differs from what was asked for pads only */
  bool interpolated;
  const GritRow *coarse, *fine; /* the rows it lies between; both are its own row if it was not interpolated */
  Basis basis;
} GritSize;

/* All rows, each system together, coarse to fine, composite diamond codes last. */
extern const GritRow grit_table[];
extern const size_t grit_table_count;

const char *grit_system_name(GritSystem system); /* "FEPA P" */
const char *grit_system_source(GritSystem system);

/* Reads "P400", "F60", "#400", "JIS 400", "CAMI 400", "No. 200", "D126"; a bare "400" is a pad number. */
bool grit_read(const char *text, Grit *out, TradeError *error);

/* Errors name "grit": unknown (no such sieve or code) or out of range of the table. */
bool grit_size(Grit grit, GritSize *out, TradeError *error);

/* The pad number whose grain is nearest, on logarithms, to that of a grade: P400, 35 um, is a pad of 324. Pads are
 * themselves. Errors: those of grit_size; "grit" if no pad is so coarse or so fine. */
bool grit_as_pad(Grit grit, double *pad_number, TradeError *error);

/* How many times the grain of `fine` goes into that of `coarse`. */
bool grit_size_ratio(Grit coarse, Grit fine, double *ratio, TradeError *error);

/* 25,400 / mesh, um: the pitch of a wire cloth, wire and all, not its opening (No. 200: 127 against 75 um). Kept to
 * explain charts that confuse the two. mesh > 0. */
bool grit_sieve_pitch(double mesh, double *pitch_um, TradeError *error);

/* From one abrasive step to the next. */
typedef enum {
  GRIT_STEP_GOOD,    /* up to about twice the number */
  GRIT_STEP_LONG,    /* from 2.5 to 3 times: a warning */
  GRIT_STEP_SKIPPED, /* over 3 times: a grit left out, the scratch will show through */
  GRIT_STEP_REPEAT,  /* the same again */
  GRIT_STEP_BACK     /* coarser than the last, more than a change of family explains */
} GritVerdict;

typedef struct {
  GritVerdict verdict;
  double number_ratio; /* next / last; 0 if their systems differ or do not count up with fineness */
  double size_ratio;   /* grain of the last / grain of the next */
  double judged_by;    /* the one of them that the verdict rests on: numbers within a system, else sizes */
  bool family_change;  /* a later family may step back to half the number, or repeat it: that is good */
} GritStep;

/* The thresholds are common practice. Numbers run with sizes in P, F, JIS, CAMI and on pads only; sieves and
 * diamond codes are judged by size. */
bool grit_step(Grit last, BondFamily last_bond, Grit next, BondFamily next_bond, GritStep *out, TradeError *error);

extern const TradeFormula grit_formulas[];

#endif
