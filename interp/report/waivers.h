/* waivers.h - inside the reports: the rules that somebody answers for breaking, so that whoever reads a paper
 * knows. */
#ifndef REPORT_WAIVERS_H
#define REPORT_WAIVERS_H

#include "base/buf.h"
#include "base/json.h"
#include "model/job.h"

/* Those of an area: of its recipe, and of the job where they name it or no area. Nothing where there are none. */
void waivers_of_area(const Job *job, int area, int width, Buf *out);
/* Those of the job and of all its recipes, each once. */
void waivers_of_job(const Job *job, int width, Buf *out);

/* A member "waivers" of the open object. */
void waivers_of_area_json(JsonWriter *j, const Job *job, int area);
void waivers_of_job_json(JsonWriter *j, const Job *job);

#endif
