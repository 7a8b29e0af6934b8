/* area_words.h - inside the reports: an area and its promised finish in words. What is not said appends nothing. */
#ifndef REPORT_AREA_WORDS_H
#define REPORT_AREA_WORDS_H

#include "base/buf.h"
#include "model/job.h"
#include "report/say.h"

/* "2,000 sqft (50 ft x 40 ft), edges 180 ft" */
void area_size(const Area *area, bool metric, Language language, Buf *out);
/* "cream, polished, gloss at least 45 GU at 60 degrees" */
void area_promise(const Recipe *recipe, Language language, Buf *out);

#endif
