/* report_cost_json.c - the cost for programs (docs/json.md). */
#include "base/json.h"
#include "report/assumptions.h"
#include "report/report.h"
#include "report/waivers.h"

/* Amounts are whole cents, and quantities have two decimals at most. */
static void json_cents(JsonWriter *j, const char *key, int64_t value)
{
  json_decimal(j, key, value / MONEY_CENT, 2);
}

static void line_json(JsonWriter *j, const Plan *plan, const CostLine *line)
{
  json_object(j, NULL);
  json_text(j, "code", line->code);
  json_text(j, "kind", line_kind_names[line->kind]);
  json_text(j, "what", line->what);
  json_cents(j, "quantity", line->quantity);
  json_text(j, "unit", line->unit);
  if (line->share) json_decimal(j, "rate", line->share_ppm, 6);
  else json_decimal(j, "rate", line->rate, 4);
  json_cents(j, "amount", line->amount);
  json_text(j, "basis", line->basis);
  json_array(j, "activities");
  for (int i = 0; i < line->behind.count; i++) json_text(j, NULL, plan->activities[line->behind.index[i]].id);
  json_end(j);
  json_end(j);
}

static void lines_json(JsonWriter *j, const char *key, const Plan *plan, const CostLine *list, int count)
{
  json_array(j, key);
  for (int i = 0; i < count; i++) line_json(j, plan, &list[i]);
  json_end(j);
}

void report_cost_json(const Plan *plan, const Cost *cost, const WhyBook *book, const Sources *sources, Buf *out)
{
  static const char *const rules[] = { "none", "margin", "markup" };
  JsonWriter j = json_begin(out);
  json_object(&j, NULL);
  json_text(&j, "format", "gritwork-cost");
  json_integer(&j, "version", 1);
  json_text(&j, "job", plan->job->name);
  json_text(&j, "prices", plan->job->prices->name);
  json_text(&j, "currency", cost->currency);
  json_bool(&j, "complete", cost->complete);
  json_bool(&j, "scheduled", plan->bookings != NULL);
  json_cents(&j, "price", cost->price);
  json_cents(&j, "cost", cost->cost);
  json_cents(&j, "direct", cost->direct);
  json_number(&j, "standing_h", cost->standing_h, 2);
  json_text(&j, "profit_rule", rules[cost->profit_rule]);
  lines_json(&j, "lines", plan, cost->lines, cost->line_count);
  lines_json(&j, "build", plan, cost->build, cost->build_count);
  assumptions_json(&j, plan, cost, book, sources);
  waivers_of_job_json(&j, plan->job);
  json_end(&j);
  json_finish(&j);
}
