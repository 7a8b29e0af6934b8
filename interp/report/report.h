/* report.h - what gritwork says about a job, as text for people and JSON for programs (docs/json.md).
 *
 * Every function appends to `out`. Text is at most `width` (40 or more) cells wide where no single word is longer;
 * whatever a script wrote is escaped. Quantities are shown in the job's units. No clock, no locale: the same input
 * gives the same bytes. */
#ifndef REPORT_REPORT_H
#define REPORT_REPORT_H

#include <stdbool.h>

#include "base/buf.h"
#include "base/diag.h"
#include "base/quantity.h"
#include "base/source.h"
#include "base/why.h"
#include "cost/price.h"
#include "cost/trade_off.h"
#include "cost/risk.h"
#include "model/lineage.h"
#include "plan/plan.h"

enum { REPORT_WIDTH = 80 };

/* The crew's process sheet, area by area; clock times where the plan is scheduled. */
void report_sheet_text(const Plan *plan, int width, Buf *out);
void report_sheet_json(const Plan *plan, Buf *out);

/* Shift by shift, then the finish and how good it is. Where the plan is not scheduled, one line says so. */
void report_schedule_text(const Plan *plan, int width, Buf *out);
void report_schedule_json(const Plan *plan, Buf *out);

/* The schedule as bars over time. `utf8`: block characters instead of ASCII. */
void report_bars_text(const Plan *plan, int width, bool utf8, Buf *out);

/* Critical steps, then how much later the others can start; how busy people and machines are, day by day. */
void report_slack_text(const Plan *plan, int width, Buf *out);
void report_load_text(const Plan *plan, int width, Buf *out);

/* What fewer people and machines would save, and when the job would end. */
void report_trade_off_text(const Plan *plan, const TradeOff *trade_off, int width, Buf *out);
void report_trade_off_json(const Plan *plan, const TradeOff *trade_off, Buf *out);

/* For other programs: a Gantt chart (SVG 1.1, for an A4 page across), a calendar (RFC 5545: an event a shift and a
 * hold point, in floating local time), and a row a stretch (RFC 4180, a heading first). Empty documents without a
 * schedule. */
void report_svg(const Plan *plan, Buf *out);
void report_ics(const Plan *plan, Buf *out);
/* With the fingerprint of its sources, 64 hexadecimal digits, in the calendar and as a comment of each event. */
void report_ics_of(const Plan *plan, const char *fingerprint, Buf *out);
void report_csv(const Plan *plan, Buf *out);

void report_cost_text(const Plan *plan, const Cost *cost, int width, Buf *out);
void report_cost_json(const Plan *plan, const Cost *cost, const WhyBook *book, const Sources *sources, Buf *out);

void report_risk_text(const Plan *plan, const Risk *risk, int width, Buf *out);
void report_risk_json(const Plan *plan, const Risk *risk, const Sources *sources, Buf *out);

/* How one figure came about, down to what was written, assumed or in a catalogue. Shared parts come once. */
void report_why_text(const WhyBook *book, const Sources *sources, UnitSystem units, Why why, int width, Buf *out);

/* Where a value came from: what it is, then each thing said of it with its place in the source. */
void report_lineage_text(const Lineage *lineage, const Sources *sources, DiagStyle style, Buf *out);

/* Every default that the plan's figures, and the cost's unless it is NULL, rest on. */
void report_assumptions_text(const Plan *plan, const Cost *cost, const WhyBook *book, const Sources *sources,
                             int width, Buf *out);

#endif
