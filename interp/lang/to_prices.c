#include <string.h>

#include "lang/native.h"
#include "lang/to_parts.h"
#include "model/date.h"

static int day(ModelReader *r, int record, const char *key)
{
  if (!reader_value(r, record, key)) return 0;
  int top = lua_gettop(r->L), part[3];
  static const char *const names[] = { "year", "month", "day" };
  for (int i = 0; i < 3; i++) {
    lua_getfield(r->L, top, names[i]);
    part[i] = (int)lua_tointeger(r->L, -1);
    lua_pop(r->L, 1);
  }
  lua_pop(r->L, 1);
  return date_day(part[0], part[1], part[2]);
}

static PriceDays price_days(ModelReader *r, int record)
{
  return (PriceDays){ day(r, record, "from"), day(r, record, "to") };
}

/* A map of the script: a list of { name, value, at }. Pushes nothing; calls `one` with the entry's stack index. */
typedef void (*EntryReader)(ModelReader *r, int entry, int value, void *out);

static int each_entry(ModelReader *r, int record, const char *key, size_t size, void **out, EntryReader one)
{
  if (!reader_value(r, record, key)) return 0;
  const char *owner = r->owner;
  int list = lua_gettop(r->L), count = to_length(r, list);
  char *items = arena_array(r->document->arena, (size_t)count + 1, size);
  for (int i = 0; i < count; i++) {
    lua_rawgeti(r->L, list, i + 1);
    int entry = lua_gettop(r->L), value = to_table(r, entry, "value");
    r->owner = arena_printf(r->document->arena, "%s in the price book", reader_keep(r, entry, "name"));
    one(r, entry, value, items + (size_t)i * size);
    lua_pop(r->L, 2);
  }
  lua_pop(r->L, 1);
  r->owner = owner;
  *out = items;
  return count;
}

/* A plain rate, or a record of it with its days. */
static void wage(ModelReader *r, int entry, LabourPrice *price)
{
  int value = to_table(r, entry, "value");
  if (native_quantity_at(r->L, value)) {
    price->per_hour = reader_entry_rate(r, entry);
  } else {
    price->per_hour = reader_rate(r, value, "rate");
    price->days = price_days(r, value);
  }
  lua_pop(r->L, 1);
}

static void labour(ModelReader *r, int record, Prices *prices)
{
  if (!reader_value(r, record, "labour")) return;
  lua_State *L = r->L;
  int list = lua_gettop(L);
  const char *owner = r->owner;
  prices->labour_count = to_length(r, list);
  prices->labour = arena_array(r->document->arena, (size_t)prices->labour_count + 1, sizeof *prices->labour);
  for (int i = 0; i < prices->labour_count; i++) {
    LabourPrice *price = &prices->labour[i];
    lua_rawgeti(L, list, i + 1);
    int entry = lua_gettop(L);
    price->name = reader_keep(r, entry, "name");
    price->at = reader_span(r, entry, "at");
    r->owner = arena_printf(r->document->arena, "labour %s", price->name);
    wage(r, entry, price);
    lua_pop(L, 1);
  }
  r->owner = owner;
  lua_pop(L, 1);
}

static void burden_part(ModelReader *r, int entry, BurdenPart *part)
{
  part->name = reader_keep(r, entry, "name");
  part->at = reader_span(r, entry, "at");
  part->share = reader_entry_percent(r, entry);
}

/* One share, or a table `parts` of them; the burden is their sum. */
static void burden(ModelReader *r, int record, Prices *prices)
{
  if (!reader_value(r, record, "burden")) return;
  lua_State *L = r->L;
  int value = lua_gettop(L);
  if (native_quantity_at(L, value)) {
    lua_pop(L, 1);
    prices->burden = reader_percent(r, record, "burden");
    return;
  }
  int list = to_table(r, value, "parts");
  prices->burden = (Percent){ .given = true, .at = reader_at(r, record, "burden") };
  prices->burden_part_count = to_length(r, list);
  prices->burden_parts = arena_array(r->document->arena, (size_t)prices->burden_part_count + 1, sizeof(BurdenPart));
  for (int i = 0; i < prices->burden_part_count; i++) {
    lua_rawgeti(L, list, i + 1);
    burden_part(r, lua_gettop(L), &prices->burden_parts[i]);
    prices->burden.ppm += prices->burden_parts[i].share.ppm;
    lua_pop(L, 1);
  }
  lua_pop(L, 2);
}

static void tool(ModelReader *r, int entry, int value, void *out)
{
  ToolPrice *price = out;
  price->name = reader_keep(r, entry, "name");
  price->at = reader_span(r, entry, "at");
  price->per_set = reader_rate(r, value, "price");
  price->life_m2 = reader_maybe(r, value, "life", "m2/set");
  price->days = price_days(r, value);
}

static void package(ModelReader *r, int value, Package *out)
{
  out->price = reader_rate(r, value, "price");
  out->at = reader_at(r, value, "size");
  out->days = price_days(r, value);
  if (!reader_value(r, value, "size")) return;
  const Quantity *q = native_quantity_at(r->L, -1);
  Buf label = { 0 };
  quantity_print(q, &label);
  out->label = arena_strdup(r->document->arena, buf_text(&label));
  buf_free(&label);
  out->measure = q->kind == KIND_VOLUME ? PACK_VOLUME_L : q->kind == KIND_MASS ? PACK_MASS_KG : PACK_COUNT;
  out->size = out->measure == PACK_VOLUME_L ? q->value * 1000 : q->value;
  lua_pop(r->L, 1);
  out->gives_l = reader_maybe(r, value, "gives", "L");
}

static void material(ModelReader *r, int entry, int value, void *out)
{
  MaterialPrice *price = out;
  price->name = reader_keep(r, entry, "name");
  price->at = reader_span(r, entry, "at");
  price->package_count = to_length(r, value);
  price->packages = arena_array(r->document->arena, (size_t)price->package_count + 1, sizeof *price->packages);
  for (int i = 0; i < price->package_count; i++) {
    lua_rawgeti(r->L, value, i + 1);
    package(r, lua_gettop(r->L), &price->packages[i]);
    lua_pop(r->L, 1);
  }
}

static void owned(ModelReader *r, int record, OwnedPrice *own)
{
  own->price = reader_rate(r, record, "price");
  own->salvage = reader_percent(r, record, "salvage");
  own->capital = reader_percent(r, record, "capital");
  own->life_h = reader_maybe(r, record, "life", "h");
  own->year_h = reader_maybe(r, record, "a_year", "h");
}

static void machine(ModelReader *r, int entry, int value, void *out)
{
  MachinePrice *price = out;
  price->name = reader_keep(r, entry, "name");
  price->at = reader_span(r, entry, "at");
  price->days = price_days(r, value);
  price->per_hour = reader_rate(r, value, "hour");
  price->per_day = reader_rate(r, value, "day");
  price->per_week = reader_rate(r, value, "week");
  price->per_month = reader_rate(r, value, "month");
  price->owned = reader_value(r, value, "owned");
  if (price->owned) owned(r, lua_gettop(r->L), &price->own);
  if (price->owned) lua_pop(r->L, 1);
}

static const struct {
  const char *word;
  ExtraPer per;
} extra_pers[] = {
  { "job", PER_JOB }, { "area", PER_AREA }, { "m2", PER_M2 },   { "sqft", PER_SQFT },
  { "m", PER_M },     { "ft", PER_FT },     { "day", PER_DAY }, { "L slurry", PER_LITRE_SLURRY },
  { "gal slurry", PER_GALLON_SLURRY }, { "person day", PER_PERSON_DAY }, { "reading", PER_READING },
};

static void extra(ModelReader *r, int entry, int value, void *out)
{
  ExtraPrice *price = out;
  price->name = reader_keep(r, entry, "name");
  price->at = reader_span(r, entry, "at");
  price->days = price_days(r, value);
  price->price = reader_rate(r, value, "price");
  price->times = reader_maybe(r, value, "times", "");
  const char *per = reader_text(r, value, "per");
  for (size_t i = 0; per && i < sizeof extra_pers / sizeof *extra_pers; i++)
    if (strcmp(per, extra_pers[i].word) == 0) price->per = extra_pers[i].per;
}

static void overtime(ModelReader *r, int record, Prices *prices)
{
  if (!reader_value(r, record, "overtime")) return;
  int value = lua_gettop(r->L);
  prices->overtime_after_min = reader_maybe(r, value, "after", "min");
  prices->overtime_week_min = reader_maybe(r, value, "weekly", "min");
  prices->overtime_premium = reader_percent(r, value, "premium");
  lua_pop(r->L, 1);
}

/* A share, or a table that names a certainty. */
static void contingency(ModelReader *r, int record, Prices *prices)
{
  if (!reader_value(r, record, "contingency")) return;
  int value = lua_gettop(r->L);
  bool share = native_quantity_at(r->L, value) != NULL;
  const char *owner = r->owner;
  r->owner = arena_printf(r->document->arena, "contingency of %s", owner);
  if (!share) prices->certainty = reader_maybe(r, value, "certainty", "");
  r->owner = owner;
  lua_pop(r->L, 1);
  if (share) prices->contingency = reader_percent(r, record, "contingency");
}

static void profit(ModelReader *r, int record, Prices *prices)
{
  if (reader_has(r, record, "margin")) {
    prices->profit_rule = PROFIT_MARGIN;
    prices->profit = reader_percent(r, record, "margin");
  } else if (reader_has(r, record, "markup")) {
    prices->profit_rule = PROFIT_MARKUP;
    prices->profit = reader_percent(r, record, "markup");
  }
}

void to_prices(ModelReader *r, int index, Prices *prices)
{
  const char *owner = r->owner;
  int record = to_table(r, index, "record");
  prices->name = reader_keep(r, index, "name");
  prices->at = reader_span(r, index, "at");
  r->owner = arena_printf(r->document->arena, "prices \"%s\"", prices->name);
  prices->currency = reader_text(r, record, "currency");
  prices->days = price_days(r, record);
  labour(r, record, prices);
  burden(r, record, prices);
  prices->night_premium = reader_percent(r, record, "night");
  overtime(r, record, prices);
  void *items = NULL;
  prices->tool_count = each_entry(r, record, "tools", sizeof(ToolPrice), &items, tool);
  prices->tools = items;
  prices->material_count = each_entry(r, record, "materials", sizeof(MaterialPrice), &items, material);
  prices->materials = items;
  prices->machine_count = each_entry(r, record, "machines", sizeof(MachinePrice), &items, machine);
  prices->machines = items;
  prices->extra_count = each_entry(r, record, "extras", sizeof(ExtraPrice), &items, extra);
  prices->extras = items;
  prices->standing = reader_percent(r, record, "standing");
  prices->call_out_min = reader_maybe(r, record, "call_out", "min");
  prices->material_tax = reader_percent(r, record, "material_tax");
  prices->labour_tax = reader_percent(r, record, "labour_tax");
  prices->machine_tax = reader_percent(r, record, "machine_tax");
  prices->extra_tax = reader_percent(r, record, "extra_tax");
  prices->overhead = reader_percent(r, record, "overhead");
  contingency(r, record, prices);
  profit(r, record, prices);
  prices->round_to = reader_rate(r, record, "round");
  r->owner = owner;
  lua_pop(r->L, 1);
}
