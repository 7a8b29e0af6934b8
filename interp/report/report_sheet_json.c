/* report_sheet_json.c - the process sheet for programs: every figure in SI, times in minutes. */
#include "base/json.h"
#include "report/page.h"
#include "report/report.h"
#include "report/step_words.h"
#include "report/waivers.h"

enum { DECIMALS = 6 };

static void figure_json(JsonWriter *j, const char *key, Figure figure, bool said)
{
  if (said) json_number(j, key, figure.value, DECIMALS);
}

static void maybe_json(JsonWriter *j, const char *key, const Maybe *maybe)
{
  figure_json(j, key, maybe->figure, maybe->given);
}

static void band_json(JsonWriter *j, const char *key, const Band *band)
{
  if (!band->has_low && !band->has_high) return;
  json_object(j, key);
  figure_json(j, "low", band->low, band->has_low);
  figure_json(j, "high", band->high, band->has_high);
  json_end(j);
}

static void text_json(JsonWriter *j, const char *key, const char *text)
{
  if (text) json_text(j, key, text);
}

static void abrasive_json(JsonWriter *j, const Step *s, const Machine *machine)
{
  if (step_words[s->word].family != FAMILY_ABRASIVE) return;
  text_json(j, "bond", s->bond);
  if (s->grit > 0) json_number(j, "grit", s->grit, DECIMALS);
  json_bool(j, "wet", s->wet);
  json_number(j, "passes", s->passes.value, DECIMALS);
  Figure overlap = step_overlap(s, machine), travel = step_travel(s, machine);
  figure_json(j, "overlap_m", overlap, overlap.why != 0);
  figure_json(j, "travel_m_per_min", travel, travel.why != 0);
}

static void step_json(JsonWriter *j, const Plan *plan, int area, int index)
{
  const Step *s = &plan->job->recipes[plan->job->areas[area].recipe].steps[index];
  json_object(j, NULL);
  json_integer(j, "number", index + 1);
  json_text(j, "word", step_words[s->word].name);
  json_text(j, "name", s->name);
  abrasive_json(j, s, step_machine(plan, area, index));
  text_json(j, "with", s->with);
  band_json(j, "spread_m2_per_l", &s->spread_m2_per_l);
  maybe_json(j, "within_min", &s->within_min);
  band_json(j, "dwell_min", &s->dwell_min);
  band_json(j, "dry_min", &s->dry_min);
  maybe_json(j, "wait_min", &s->time_min);
  json_bool(j, "keep_wet", s->keep_wet);
  text_json(j, "skill", s->skill);
  text_json(j, "measure", s->measure);
  band_json(j, "want", &s->want);
  json_bool(j, "hold", s->hold);
  text_json(j, "care", s->care);
  text_json(j, "says", s->says);
  json_array(j, "activities");
  for (int i = 0; i < plan->activity_count; i++)
    if (plan->activities[i].area == area && plan->activities[i].step == index)
      json_text(j, NULL, plan->activities[i].id);
  json_end(j);
  json_end(j);
}

static void area_json(JsonWriter *j, const Plan *plan, int index)
{
  const Area *area = &plan->job->areas[index];
  const Recipe *recipe = &plan->job->recipes[area->recipe];
  json_object(j, NULL);
  json_text(j, "name", area->name);
  json_number(j, "area_m2", area->area_m2.value, DECIMALS);
  json_number(j, "edge_m", area->edge_m.value, DECIMALS);
  json_number(j, "joint_m", area->joint_m.value, DECIMALS);
  json_object(j, "recipe");
  json_text(j, "name", recipe->name);
  text_json(j, "revision", recipe->revision);
  text_json(j, "exposure", recipe->exposure);
  text_json(j, "appearance", recipe->appearance);
  band_json(j, "gloss", &recipe->gloss);
  json_end(j);
  waivers_of_area_json(j, plan->job, index);
  json_array(j, "steps");
  for (int i = 0; i < recipe->step_count; i++) step_json(j, plan, index, i);
  json_end(j);
  json_end(j);
}

void report_sheet_json(const Plan *plan, Buf *out)
{
  JsonWriter j = json_begin(out);
  json_object(&j, NULL);
  json_text(&j, "format", "gritwork-sheet");
  json_integer(&j, "version", 1);
  json_text(&j, "job", plan->job->name);
  json_array(&j, "areas");
  for (int i = 0; i < plan->job->area_count; i++) area_json(&j, plan, i);
  json_end(&j);
  json_end(&j);
  json_finish(&j);
}
