#include <string.h>

#include "lang/to_parts.h"

static RiskShape shape_named(const char *name)
{
  for (int i = 0; i < RISK_SHAPES; i++)
    if (strcmp(name, risk_shape_names[i]) == 0) return (RiskShape)i;
  return risk_default.shape;
}

static Figure figure_or(ModelReader *r, int record, const char *key, double otherwise)
{
  return reader_has(r, record, key) ? reader_figure(r, record, key, "") : (Figure){ otherwise, 0 };
}

void to_risk(ModelReader *r, int record, RiskSetting *risk)
{
  *risk = risk_default;
  if (!reader_value(r, record, "risk")) return;
  const char *owner = r->owner;
  int value = lua_gettop(r->L);
  r->owner = arena_printf(r->document->arena, "risk of %s", owner);
  const char *shape = reader_text(r, value, "shape");
  if (shape) risk->shape = shape_named(shape);
  risk->production = reader_maybe(r, value, "production", "");
  risk->hardness = reader_maybe(r, value, "hardness", "");
  risk->drying = reader_maybe(r, value, "drying", "");
  risk->areas = reader_maybe(r, value, "areas", "");
  risk->rework = reader_maybe(r, value, "rework", "");
  risk->lost_days = reader_maybe(r, value, "lost_days", "");
  Figure trials = figure_or(r, value, "trials", risk->trials), seed = figure_or(r, value, "seed", risk->seed);
  risk->trials = (int)trials.value;
  risk->trials_why = trials.why;
  risk->seed = (int)seed.value;
  risk->seed_why = seed.why;
  risk->certainty_given = reader_has(r, value, "certainty");
  risk->certainty = figure_or(r, value, "certainty", risk->certainty).value;
  r->owner = owner;
  lua_pop(r->L, 1);
}
