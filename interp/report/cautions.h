/* cautions.h - inside the sheet: reminders that the steps of an area call for. They never say that work is safe;
 * product data sheets, local codes and licensed practice come first. */
#ifndef REPORT_CAUTIONS_H
#define REPORT_CAUTIONS_H

#include <stddef.h>

#include "model/recipe.h"
#include "report/say.h"

/* Caution `index`, 0 .. cautions_count() - 1, if a step of the recipe calls for it; NULL if none does. */
const char *caution_for(const Recipe *recipe, size_t index, Language language);
size_t cautions_count(void);
const char *caution_last(Language language); /* stands under every list */

#endif
