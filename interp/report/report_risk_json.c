/* report_risk_json.c - a simulation for programs: docs/json.md, gritwork-risk. */
#include "base/json.h"
#include "report/node_words.h"
#include "report/page.h"
#include "report/report.h"

static void instant_json(JsonWriter *j, const char *key, const Job *job, int minute)
{
  Buf text = { 0 };
  page_iso(&text, job, minute);
  json_text(j, key, buf_text(&text));
  buf_free(&text);
}

static void money_json(JsonWriter *j, const char *key, const Risk *risk, double value)
{
  if (risk->costed) json_number(j, key, value, 2);
}

static void outcome_json(JsonWriter *j, const char *key, const Plan *plan, const Risk *risk, int finish,
                         double cost)
{
  json_object(j, key);
  instant_json(j, "finish", plan->job, finish);
  money_json(j, "cost", risk, cost);
  json_end(j);
}

static void levels_json(JsonWriter *j, const Plan *plan, const Risk *risk)
{
  json_array(j, "levels");
  for (int i = 0; i < RISK_LEVELS; i++) {
    json_object(j, NULL);
    json_number(j, "share", risk_levels[i], 2);
    instant_json(j, "finish", plan->job, risk->finish[i]);
    money_json(j, "cost", risk, risk->cost[i]);
    json_end(j);
  }
  json_end(j);
}

static void deadlines_json(JsonWriter *j, const Plan *plan, const Risk *risk)
{
  json_array(j, "deadlines");
  for (int i = 0; i < risk->deadline_count; i++) {
    json_object(j, NULL);
    if (risk->deadlines[i].area) json_text(j, "area", risk->deadlines[i].area);
    else json_null(j, "area");
    instant_json(j, "by", plan->job, risk->deadlines[i].by);
    json_number(j, "missed", risk->deadlines[i].late, 6);
    json_end(j);
  }
  json_end(j);
}

static void contingency_json(JsonWriter *j, const Risk *risk)
{
  if (!risk->costed) return;
  json_object(j, "contingency");
  json_number(j, "certainty", risk->certainty, 4);
  json_number(j, "amount", risk->contingency, 2);
  json_number(j, "covered", risk->covered, 6);
  json_end(j);
}

static void driver_json(JsonWriter *j, const Plan *plan, const Risk *risk, const RiskDriver *d,
                        const Sources *sources)
{
  Buf place = { 0 };
  node_place(d->at, sources, &place);
  json_object(j, NULL);
  json_text(j, "what", d->what);
  json_text(j, "at", place.length ? buf_text(&place) : NULL);
  json_text(j, "unit", d->unit);
  json_number(j, "low", d->low, 6);
  json_number(j, "likely", d->likely, 6);
  json_number(j, "high", d->high, 6);
  json_number(j, "finish_rank", d->finish_rank, 4);
  if (risk->costed) json_number(j, "cost_rank", d->cost_rank, 4);
  if (d->swings) {
    outcome_json(j, "at_p10", plan, risk, d->finish_low, d->cost_low);
    outcome_json(j, "at_p90", plan, risk, d->finish_high, d->cost_high);
  }
  json_end(j);
  buf_free(&place);
}

void report_risk_json(const Plan *plan, const Risk *risk, const Sources *sources, Buf *out)
{
  JsonWriter j = json_begin(out);
  json_object(&j, NULL);
  json_text(&j, "format", "gritwork-risk");
  json_integer(&j, "version", 1);
  json_text(&j, "job", plan->job->name);
  if (risk->costed) json_text(&j, "currency", plan->job->prices->currency);
  json_integer(&j, "trials", risk->trials);
  json_integer(&j, "seed", risk->seed);
  json_text(&j, "shape", risk_shape_names[risk->shape]);
  outcome_json(&j, "plan", plan, risk, risk->plan_finish, risk->plan_cost);
  outcome_json(&j, "likely", plan, risk, risk->likely_finish, risk->likely_cost);
  money_json(&j, "mean_cost", risk, risk->mean_cost);
  levels_json(&j, plan, risk);
  deadlines_json(&j, plan, risk);
  contingency_json(&j, risk);
  json_number(&j, "squeezed", risk->squeezed, 6);
  json_array(&j, "drivers");
  for (int i = 0; i < risk->driver_count; i++) driver_json(&j, plan, risk, &risk->drivers[i], sources);
  json_end(&j);
  json_array(&j, "idle");
  for (int i = 0; i < risk->idle_count; i++) json_text(&j, NULL, risk->idle[i]);
  json_end(&j);
  json_end(&j);
  json_finish(&j);
}
