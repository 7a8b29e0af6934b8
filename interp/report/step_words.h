/* step_words.h - inside the reports: how a step's figures read on paper. What is not said appends nothing. */
#ifndef REPORT_STEP_WORDS_H
#define REPORT_STEP_WORDS_H

#include "base/buf.h"
#include "plan/plan.h"
#include "report/say.h"

const Step *step_of(const Plan *plan, const Activity *activity);

/* The machine that does the field of a step; NULL for none. */
const Machine *step_machine(const Plan *plan, int area, int step);
/* The step's own figures, or the machine's where the step leaves them to it. */
Figure step_overlap(const Step *step, const Machine *machine);
Figure step_travel(const Step *step, const Machine *machine);

void step_tool(const Step *step, Language language, Buf *out); /* "resin 400", "lithium silicate", "gloss 60" */
void step_length(Figure figure, bool metric, Buf *out);    /* "3 in" */
void step_speed(Figure figure, bool metric, Buf *out);     /* "20 ft/min" */
void step_minutes_band(const Band *band, Language language, Buf *out); /* "25 min to 45 min", "at least 25 min" */
void step_spread_band(const Band *band, bool metric, Language language, Buf *out);
void step_want_band(const Band *band, Language language, Buf *out); /* "at least 45" */

/* What an activity is to the crew beside its step: "edges", "dwell"; "" for the main work. */
const char *work_word(const Activity *activity, const Step *step);
/* "hone 200", "hone 200, collect along", "protection". */
void activity_words(const Plan *plan, const Activity *activity, Buf *out);
const char *work_name(WorkKind kind); /* "field", "edges", ...: as in the JSON */

#endif
