/* assumptions.h - inside the reports: the defaults that figures rest on, as a member of a JSON object. */
#ifndef REPORT_ASSUMPTIONS_H
#define REPORT_ASSUMPTIONS_H

#include "base/json.h"
#include "base/source.h"
#include "cost/price.h"

/* An array "assumptions": every default that the plan's figures, and the cost's unless it is NULL, rest on. */
void assumptions_json(JsonWriter *j, const Plan *plan, const Cost *cost, const WhyBook *book,
                      const Sources *sources);

/* Each such default once, alike ones together: what was assumed ("turn = 0.5 min for machine edger"), and why and
 * where it was missing. Answers how many. `sources` may be NULL. */
typedef void (*AssumptionVisit)(const char *subject, const char *reason, void *context);
int assumptions_each(const Plan *plan, const Cost *cost, const WhyBook *book, const Sources *sources,
                     AssumptionVisit visit, void *context);

#endif
