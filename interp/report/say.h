/* say.h - inside the reports: what the crew sheet says, in each language it is written in.
 *
 * A shop's own words (names, care, notes) stay as they were written; the words of the trade that gritwork knows are
 * said in the sheet's language. */
#ifndef REPORT_SAY_H
#define REPORT_SAY_H

#include "model/recipe.h"

typedef enum { LANGUAGE_EN, LANGUAGE_ES, LANGUAGES } Language;

typedef enum {
  SAY_CREW_SHEET,
  SAY_AREA,
  SAY_AREA_OF,
  SAY_SIZE,
  SAY_EDGES,
  SAY_JOINTS,
  SAY_RECIPE,
  SAY_REVISION,
  SAY_PROMISED,
  SAY_GLOSS,
  SAY_GLOSS_UNIT,
  SAY_HOURS,
  SAY_HOURS_ONLY,
  SAY_STEPS,
  SAY_CLOCK,
  SAY_MACHINE,
  SAY_RUN,
  SAY_WET,
  SAY_DRY,
  SAY_PASSES,
  SAY_ONE_PASS,
  SAY_OVERLAP,
  SAY_TRAVEL,
  SAY_BY_HAND,
  SAY_SPREAD,
  SAY_COATS,
  SAY_AT_HAND,
  SAY_START,
  SAY_WITHIN,
  SAY_DWELL,
  SAY_KEEP_WET,
  SAY_DRYING,
  SAY_WAIT,
  SAY_CREW,
  SAY_CARE,
  SAY_NOTE,
  SAY_READINGS,
  SAY_WANTED,
  SAY_HOLD,
  SAY_NAME,
  SAY_TIME,
  SAY_DATE,
  SAY_CAUTIONS,
  SAY_WAIVED,
  SAY_AT_LEAST,
  SAY_AT_MOST,
  SAY_TO,
  SAY_MORE_READINGS,
  SAY_FINGERPRINT,
  SAY_STEP,
  SAY_KEYS
} SayKey;

const char *say(Language language, SayKey key);
const char *say_code(Language language);                    /* "en", "es" */
const char *say_step(Language language, StepWord word);     /* "grind", "desbastar" */
const char *say_weekday(Language language, int weekday);    /* 0 Monday: "Mon", "lun" */
const char *say_month(Language language, int month);        /* 1..12 */
/* A word of the trade ("resin", "lithium silicate", "gloss 60"); itself where there is no other for it. */
const char *say_word(Language language, const char *word);

#endif
