#include "lang/model_reader.h"

#include <lauxlib.h>
#include <math.h>
#include <string.h>

#include "lang/native.h"

static bool push_from(ModelReader *r, int record, const char *part, const char *key)
{
  lua_State *L = r->L;
  record = lua_absindex(L, record);
  lua_getfield(L, record, part);
  lua_getfield(L, -1, key);
  lua_remove(L, -2);
  if (!lua_isnil(L, -1)) return true;
  lua_pop(L, 1);
  return false;
}

bool reader_value(ModelReader *r, int record, const char *key) { return push_from(r, record, "values", key); }

bool reader_has(ModelReader *r, int record, const char *key)
{
  if (!reader_value(r, record, key)) return false;
  lua_pop(r->L, 1);
  return true;
}

/* A default stands where the whole record does. */
Span reader_at(ModelReader *r, int record, const char *key)
{
  if (!push_from(r, record, "at", key)) return reader_span(r, record, "place");
  Span span = span_unpack(lua_tointeger(r->L, -1));
  lua_pop(r->L, 1);
  return span;
}

const char *reader_keep(ModelReader *r, int index, const char *key)
{
  lua_getfield(r->L, index, key);
  const char *text = lua_tostring(r->L, -1);
  if (text) text = arena_strdup(r->document->arena, text);
  lua_pop(r->L, 1);
  return text;
}

Span reader_span(ModelReader *r, int index, const char *key)
{
  lua_getfield(r->L, index, key);
  Span span = span_unpack(lua_tointeger(r->L, -1));
  lua_pop(r->L, 1);
  return span;
}

/* NULL for a value that was written: only those have places. */
static const char *default_basis(ModelReader *r, int record, const char *key)
{
  bool written = push_from(r, record, "at", key);
  if (written) lua_pop(r->L, 1);
  if (written || !push_from(r, record, "assumed", key)) return NULL;
  const char *basis = arena_strdup(r->document->arena, lua_tostring(r->L, -1));
  lua_pop(r->L, 1);
  return basis;
}

/* A default that is no number. */
static void note_words(ModelReader *r, int record, const char *key, const char *words)
{
  const char *basis = default_basis(r, record, key);
  if (!basis) return;
  WhyNode node = { .origin = WHY_DEFAULT, .words = words, .decides = true, .unit = "",
                   .at = reader_at(r, record, key), .basis = basis,
                   .what = arena_printf(r->document->arena, "%s of %s", key, r->owner) };
  why_add(r->document->why, &node);
}

const char *reader_text(ModelReader *r, int record, const char *key)
{
  if (!reader_value(r, record, key)) return NULL;
  const char *text = lua_tostring(r->L, -1);
  if (text) text = arena_strdup(r->document->arena, text);
  lua_pop(r->L, 1);
  if (text) note_words(r, record, key, text);
  return text;
}

bool reader_flag(ModelReader *r, int record, const char *key)
{
  if (!reader_value(r, record, key)) return false;
  bool flag = lua_toboolean(r->L, -1);
  lua_pop(r->L, 1);
  note_words(r, record, key, flag ? "true" : "false");
  return flag;
}

double reader_number(ModelReader *r, const char *unit)
{
  const Quantity *q = native_quantity_at(r->L, -1);
  double number = q ? q->value : lua_tonumber(r->L, -1);
  QuantityError error;
  if (q && unit[0]) quantity_in(q, unit, &number, &error);
  lua_pop(r->L, 1);
  return number;
}

/* The node of a value in a record: written where it stands, or assumed. */
static Why note(ModelReader *r, int record, const char *key, const char *unit, double value, double low,
                double high)
{
  const char *basis = default_basis(r, record, key);
  WhyNode node = { .origin = basis ? WHY_DEFAULT : WHY_WRITTEN, .decides = basis && r->decides,
                   .value = value, .low = low, .high = high, .unit = unit,
                   .at = reader_at(r, record, key), .basis = basis,
                   .what = arena_printf(r->document->arena, "%s of %s", key, r->owner) };
  return why_add(r->document->why, &node);
}

static double field_number(ModelReader *r, int estimate, const char *key, const char *unit)
{
  lua_getfield(r->L, estimate, key);
  return reader_number(r, unit);
}

Figure reader_figure(ModelReader *r, int record, const char *key, const char *unit)
{
  record = lua_absindex(r->L, record);
  if (!reader_value(r, record, key)) return (Figure){ 0 };
  double value, low, high;
  if (lua_istable(r->L, -1)) { /* about(low, likely, high) */
    int estimate = lua_gettop(r->L);
    low = field_number(r, estimate, "low", unit);
    value = field_number(r, estimate, "likely", unit);
    high = field_number(r, estimate, "high", unit);
    lua_pop(r->L, 1);
  } else {
    value = low = high = reader_number(r, unit);
  }
  return (Figure){ value, note(r, record, key, unit, value, low, high) };
}

Figure reader_deciding(ModelReader *r, int record, const char *key, const char *unit)
{
  r->decides = true;
  Figure figure = reader_figure(r, record, key, unit);
  r->decides = false;
  return figure;
}

Maybe reader_maybe(ModelReader *r, int record, const char *key, const char *unit)
{
  if (!reader_has(r, record, key)) return (Maybe){ 0 };
  return (Maybe){ true, reader_figure(r, record, key, unit), reader_at(r, record, key) };
}

Band reader_band(ModelReader *r, int record, const char *key, const char *unit)
{
  Band band = { 0 };
  record = lua_absindex(r->L, record);
  if (!reader_value(r, record, key)) return band;
  int window = lua_gettop(r->L);
  band.at = reader_at(r, record, key);
  if (lua_getfield(r->L, window, "low") != LUA_TNIL) {
    double low = reader_number(r, unit);
    band.has_low = true;
    band.low = (Figure){ low, note(r, record, key, unit, low, low, low) };
  } else {
    lua_pop(r->L, 1);
  }
  if (lua_getfield(r->L, window, "high") != LUA_TNIL) {
    double high = reader_number(r, unit);
    band.has_high = true;
    band.high = (Figure){ high, note(r, record, key, unit, high, high, high) };
  } else {
    lua_pop(r->L, 1);
  }
  lua_pop(r->L, 1);
  return band;
}

__extension__ typedef __int128 Wide;

/* numerator / denominator * scale as a whole number. */
static bool exact_times(const Quantity *q, int64_t scale, int64_t *out)
{
  if (!q->exact) return false;
  Wide product = (Wide)q->numerator * scale;
  if (product % q->denominator != 0) return false;
  product /= q->denominator;
  if (product > INT64_MAX || product < INT64_MIN) return false;
  *out = (int64_t)product;
  return true;
}

static void too_fine(ModelReader *r, Span at, const char *key, const char *limit)
{
  diags_error(r->diags, "money", at, "`%s` of %s is finer than %s or too large", key, r->owner,
              limit);
}

/* Exact money of the quantity at the top of the stack, per hour where it is a rate of pay. */
static bool exact_money(ModelReader *r, Money *money, bool *hourly)
{
  const Quantity *q = native_quantity_at(r->L, -1);
  *hourly = q && q->dimension.power[DIM_TIME] == -1;
  return q && exact_times(q, *hourly ? MONEY_SCALE * 3600 : MONEY_SCALE, money);
}

Rate reader_rate(ModelReader *r, int record, const char *key)
{
  record = lua_absindex(r->L, record);
  Rate rate = { 0 };
  if (!reader_value(r, record, key)) return rate;
  bool hourly;
  rate.given = exact_money(r, &rate.money, &hourly);
  lua_pop(r->L, 1);
  rate.at = reader_at(r, record, key);
  if (!rate.given) too_fine(r, rate.at, key, "1/10,000 of the currency");
  double value = (double)rate.money / MONEY_SCALE;
  rate.why = note(r, record, key, hourly ? "money/h" : "money", value, value, value);
  return rate;
}

Rate reader_entry_rate(ModelReader *r, int entry)
{
  Rate rate = { .at = reader_span(r, entry, "at") };
  bool hourly;
  lua_getfield(r->L, entry, "value");
  rate.given = exact_money(r, &rate.money, &hourly);
  lua_pop(r->L, 1);
  if (!rate.given) too_fine(r, rate.at, "rate", "1/10,000 of the currency");
  rate.why = why_written(r->document->why, r->owner, (double)rate.money / MONEY_SCALE, "money/h", rate.at).why;
  return rate;
}

Percent reader_entry_percent(ModelReader *r, int entry)
{
  Percent percent = { .at = reader_span(r, entry, "at") };
  lua_getfield(r->L, entry, "value");
  const Quantity *q = native_quantity_at(r->L, -1);
  percent.given = q && exact_times(q, 1000000, &percent.ppm);
  if (!percent.given) too_fine(r, percent.at, "share", "one part in a million");
  lua_pop(r->L, 1);
  percent.why = why_written(r->document->why, r->owner, (double)percent.ppm / 10000, "%", percent.at).why;
  return percent;
}

Percent reader_percent(ModelReader *r, int record, const char *key)
{
  record = lua_absindex(r->L, record);
  Percent percent = { 0 };
  if (!reader_value(r, record, key)) return percent;
  const Quantity *q = native_quantity_at(r->L, -1);
  percent.at = reader_at(r, record, key);
  percent.given = q && exact_times(q, 1000000, &percent.ppm);
  if (!percent.given) too_fine(r, percent.at, key, "one part in a million");
  lua_pop(r->L, 1);
  double value = (double)percent.ppm / 10000;
  percent.why = note(r, record, key, "%", value, value, value);
  return percent;
}
