/* to_parts.h - the documents' parts, for to_model.c: each reads a Lua table at `index` into the document's
 * arena. */
#ifndef LANG_TO_PARTS_H
#define LANG_TO_PARTS_H

#include "lang/model_reader.h"

void to_recipe(ModelReader *r, int index, Recipe *recipe);
void to_job(ModelReader *r, int index, Job *job);
/* Of a job's record; the defaults where it has no `risk`. */
void to_risk(ModelReader *r, int record, RiskSetting *risk);
void to_prices(ModelReader *r, int index, Prices *prices);

/* The waivers of a recipe or job that cover a finding, or may cover one of the schedule's; their number. */
int to_waivers(ModelReader *r, int index, Waiver **waivers);

/* Pushes the table of a key and returns its stack index. */
int to_table(ModelReader *r, int index, const char *key);
int to_length(ModelReader *r, int index);

#endif
