#include <string.h>

#include "lang/to_parts.h"

static void abrasive(ModelReader *r, int record, Step *step)
{
  step->grit = reader_figure(r, record, "grit", "").value;
  step->bond = reader_text(r, record, "bond");
  step->wet = reader_flag(r, record, "wet");
  step->passes = reader_deciding(r, record, "passes", "");
  step->overlap_m = reader_figure(r, record, "overlap", "m");
  step->travel_m_per_min = reader_figure(r, record, "travel", "m/min");
  step->edges = reader_flag(r, record, "edges");
  step->edge_m_per_min = reader_figure(r, record, "edge_rate", "m/min");
  if (step->wet) step->water_m2_per_l = reader_figure(r, record, "water", "m2/L");
}

static void material(ModelReader *r, int record, Step *step)
{
  step->spread_m2_per_l = reader_band(r, record, "spread", "m2/L");
  step->coats = reader_deciding(r, record, "coats", "");
  step->waste = reader_figure(r, record, "waste", "");
  step->rate_m_per_min = reader_maybe(r, record, "joint_rate", "m/min");
  step->joint_width_m = reader_maybe(r, record, "joint_width", "m");
  step->joint_depth_m = reader_maybe(r, record, step->word == STEP_PATCH ? "depth" : "joint_depth", "m");
  step->share = reader_maybe(r, record, "share", "");
  step->dwell_min = reader_band(r, record, "dwell", "min");
  const char *keep = step->dwell_min.has_low ? reader_text(r, record, "keep") : NULL;
  step->keep_wet = keep && strcmp(keep, "wet") == 0;
}

static void check(ModelReader *r, int record, Step *step)
{
  step->measure = reader_text(r, record, "measure");
  step->want = reader_band(r, record, "want", "");
  step->readings_per_m2 = reader_maybe(r, record, "readings", "1/m2");
  step->least_readings = reader_figure(r, record, "least", "");
  step->minutes_a_reading = reader_figure(r, record, "each", "min");
  step->hold = reader_flag(r, record, "hold");
}

static void to_step(ModelReader *r, int index, Step *step)
{
  int record = to_table(r, index, "record");
  const char *word = reader_keep(r, index, "word");
  step_word_find(word, &step->word);
  step->name = reader_keep(r, index, "name");
  step->at = reader_span(r, index, "at");
  step->name_at = reader_span(r, index, "name_at");
  r->owner = arena_printf(r->document->arena, "%s \"%s\"", word, step->name);

  abrasive(r, record, step);
  material(r, record, step);
  check(r, record, step);
  step->with = reader_text(r, record, "with");
  step->machine = reader_text(r, record, "machine");
  step->rate_m2_per_min = reader_maybe(r, record, "rate", "m2/min");
  step->within_min = reader_maybe(r, record, "within", "min");
  step->follow = reader_flag(r, record, "follow");
  step->dry_min = reader_band(r, record, "dry", "min");
  step->time_min = reader_maybe(r, record, "time", "min");
  step->people = reader_deciding(r, record, "people", "");
  step->skill = reader_text(r, record, "skill");
  step->care = reader_text(r, record, "care");
  step->says = reader_text(r, record, "says");
  lua_pop(r->L, 1);
}

static void head(ModelReader *r, int record, Recipe *recipe)
{
  recipe->revision = reader_text(r, record, "revision");
  if (!reader_value(r, record, "finish")) return;
  int finish = lua_gettop(r->L);
  recipe->exposure = reader_text(r, finish, "exposure");
  recipe->appearance = reader_text(r, finish, "appearance");
  recipe->gloss = reader_band(r, finish, "gloss", "");
  lua_pop(r->L, 1);
}

void to_recipe(ModelReader *r, int index, Recipe *recipe)
{
  recipe->name = reader_keep(r, index, "name");
  recipe->at = reader_span(r, index, "at");
  r->owner = arena_printf(r->document->arena, "recipe \"%s\"", recipe->name);
  head(r, to_table(r, index, "record"), recipe);
  recipe->waiver_count = to_waivers(r, index, &recipe->waivers);
  int steps = to_table(r, index, "steps");
  recipe->step_count = to_length(r, steps);
  recipe->steps = arena_array(r->document->arena, (size_t)recipe->step_count + 1, sizeof *recipe->steps);
  for (int i = 0; i < recipe->step_count; i++) {
    lua_rawgeti(r->L, steps, i + 1);
    to_step(r, lua_gettop(r->L), &recipe->steps[i]);
    lua_pop(r->L, 1);
  }
  lua_pop(r->L, 2);
}
