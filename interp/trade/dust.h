/* dust.h - respirable silica: what Table 1 of 29 CFR 1926.1153(c) asks for, by equipment.
 *
 * A row that is followed in full needs no air sampling; one that is not, or a task without a row, does. Rows are
 * named by equipment: their numerals differ between reprints. Hours are the total on that row in the shift.
 * Indoors, exhaust must keep dust from building up besides (paragraph (c)(2), from memory). The regulation itself
 * comes first. */
#ifndef TRADE_DUST_H
#define TRADE_DUST_H

#include "trade/trade.h"

typedef enum { DUST_OUTDOORS, DUST_INDOORS, DUST_PLACES } DustPlace;

/* Parts of a control, added up; a row lists those it needs. */
typedef enum {
  DUST_WATER_FEED = 1,           /* integrated water to the cutting surface */
  DUST_COLLECTOR = 2,            /* shroud or cowl and collector, at the tool maker's airflow or more */
  DUST_FILTER_99 = 4,            /* filter of 99 % or more */
  DUST_FILTER_CLEANING = 8,      /* a cleaning mechanism (or cyclone before it, where the row allows one) */
  DUST_HEPA_BETWEEN_PASSES = 16, /* loose dust taken up by a HEPA vacuum between passes */
  DUST_AIRFLOW_25_CFM_IN = 32,   /* 25 cfm per inch of wheel, or more */
  DUST_HEPA_FOR_HOLES = 64
} DustControl;

typedef struct {
  int apf; /* assigned protection factor of the respirator; 0: none */
  BasisStatus status;
} DustRespirator;

typedef struct {
  const char *equipment; /* "floor grinder" */
  const char *method;    /* "wet", "collector" */
  DustPlace place;
  unsigned needs;        /* DustControl, added up */
  DustRespirator up_to_4h, over_4h;
  Basis basis;           /* of the controls */
} DustRow;

extern const char dust_table_edition[]; /* "29 CFR 1926.1153(c) Table 1 (2016)" */
const DustRow *dust_row_at(size_t index); /* NULL past the last */

typedef struct {
  const char *equipment, *method;
  DustPlace place;
  double hours;      /* on this row in the shift, above 0, at most 24 */
  unsigned controls; /* DustControl that are there, added up */
} DustTask;

typedef enum { DUST_ROW_FOLLOWED, DUST_ROW_NOT_FOLLOWED, DUST_NO_ROW } DustFinding;

typedef struct {
  DustFinding finding;   /* anything but DUST_ROW_FOLLOWED: exposure must be measured */
  const DustRow *row;    /* NULL without a row */
  unsigned missing;      /* controls that the row needs and the task lacks */
  DustRespirator respirator; /* as the row says; only when it is followed */
} DustVerdict;

/* Equipment that no row names is refused with TRADE_UNKNOWN; a known one used in a way without a row is
 * DUST_NO_ROW. */
bool dust_check(const DustTask *task, DustVerdict *out, TradeError *error);
const char *dust_control_name(DustControl control);

/* Airflow a shroud needs: 25 cfm per inch of wheel. wheel 25..600 mm. */
bool dust_shroud_airflow(double wheel_mm, double *airflow_l_s, TradeError *error);

extern const TradeFormula dust_formulas[];

#endif
