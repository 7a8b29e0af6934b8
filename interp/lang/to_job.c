#include <string.h>

#include "lang/to_parts.h"
#include "model/date.h"

static int integer_field(ModelReader *r, int index, const char *key)
{
  lua_getfield(r->L, index, key);
  int value = (int)lua_tointeger(r->L, -1);
  lua_pop(r->L, 1);
  return value;
}

static int day_of(ModelReader *r, int index)
{
  return date_day(integer_field(r, index, "year"), integer_field(r, index, "month"), integer_field(r, index, "day"));
}

/* An instant of the script in minutes since the job's first midnight. */
static Maybe instant(ModelReader *r, int record, const char *key, int start_day)
{
  if (!reader_value(r, record, key)) return (Maybe){ 0 };
  int top = lua_gettop(r->L);
  double minutes = (double)(day_of(r, top) - start_day) * DAY_MIN + integer_field(r, top, "minute");
  lua_pop(r->L, 1);
  Span at = reader_at(r, record, key);
  const char *what = arena_printf(r->document->arena, "%s of %s", key, r->owner);
  return (Maybe){ true, why_written(r->document->why, what, minutes, "min", at), at };
}

enum { EVERY_DAY = (1 << WEEK_DAYS) - 1 };

static unsigned weekdays(ModelReader *r, int record, const char *key)
{
  static const char *const names[WEEK_DAYS] = { "mon", "tue", "wed", "thu", "fri", "sat", "sun" };
  if (!reader_value(r, record, key)) return EVERY_DAY;
  unsigned days = 0;
  int list = lua_gettop(r->L);
  for (int i = 1; i <= to_length(r, list); i++) {
    lua_rawgeti(r->L, list, i);
    for (int d = 0; d < WEEK_DAYS; d++)
      if (strcmp(lua_tostring(r->L, -1), names[d]) == 0) days |= 1u << d;
    lua_pop(r->L, 1);
  }
  lua_pop(r->L, 1);
  return days;
}

static bool hours(ModelReader *r, int record, const char *key, Shift *shift)
{
  if (!reader_value(r, record, key)) return false;
  int top = lua_gettop(r->L);
  shift->from_min = integer_field(r, top, "from");
  shift->until_min = integer_field(r, top, "till");
  shift->days = EVERY_DAY;
  shift->at = reader_at(r, record, key);
  lua_pop(r->L, 1);
  return true;
}

static void shifts(ModelReader *r, int record, Job *job)
{
  if (!reader_value(r, record, "shifts")) return;
  int list = lua_gettop(r->L);
  job->shift_count = to_length(r, list);
  job->shifts = arena_array(r->document->arena, (size_t)job->shift_count + 1, sizeof *job->shifts);
  for (int i = 0; i < job->shift_count; i++) {
    Shift *shift = &job->shifts[i];
    lua_rawgeti(r->L, list, i + 1);
    int entry = lua_gettop(r->L), value = to_table(r, entry, "value");
    hours(r, value, "hours", shift);
    shift->name = reader_keep(r, entry, "name");
    shift->days = weekdays(r, value, "days");
    shift->night = reader_flag(r, value, "night");
    shift->at = reader_span(r, entry, "at");
    lua_pop(r->L, 2);
  }
  lua_pop(r->L, 1);
}

static Days dates_of(ModelReader *r, int record, const char *key)
{
  if (!reader_value(r, record, key)) return (Days){ 0 };
  int list = lua_gettop(r->L);
  Days dates = { .count = to_length(r, list), .at = reader_at(r, record, key) };
  dates.days = arena_array(r->document->arena, (size_t)dates.count + 1, sizeof *dates.days);
  for (int i = 0; i < dates.count; i++) {
    lua_rawgeti(r->L, list, i + 1);
    dates.days[i] = day_of(r, lua_gettop(r->L));
    lua_pop(r->L, 1);
  }
  lua_pop(r->L, 1);
  return dates;
}

static bool is_three_phase(ModelReader *r, int record)
{
  const char *phases = reader_text(r, record, "phases");
  return phases && strcmp(phases, "three") == 0;
}

static void circuits(ModelReader *r, int site, Job *job)
{
  if (!reader_value(r, site, "circuits")) return;
  int list = lua_gettop(r->L);
  job->supply_count = to_length(r, list);
  job->supplies = arena_array(r->document->arena, (size_t)job->supply_count + 1, sizeof *job->supplies);
  job->supplies_at = reader_at(r, site, "circuits");
  for (int i = 0; i < job->supply_count; i++) {
    lua_rawgeti(r->L, list, i + 1);
    int record = lua_gettop(r->L);
    job->supplies[i] = (Supply){ reader_maybe(r, record, "amps", "A").figure.value,
                                 reader_maybe(r, record, "volts", "V").figure.value, is_three_phase(r, record) };
    lua_pop(r->L, 1);
  }
  lua_pop(r->L, 1);
}

static void site(ModelReader *r, int record, Job *job)
{
  if (!reader_value(r, record, "site")) return;
  int value = lua_gettop(r->L);
  Shift open = { 0 };
  if (hours(r, value, "hours", &open)) {
    open.days = weekdays(r, value, "days");
    job->site_hours = arena_alloc(r->document->arena, sizeof open);
    *job->site_hours = open;
  }
  job->closed = dates_of(r, value, "closed");
  circuits(r, value, job);
  lua_pop(r->L, 1);
}

static void crew(ModelReader *r, int record, Crew *crew_out, const Job *job)
{
  crew_out->count = (int)reader_deciding(r, record, "count", "").value;
  if (reader_value(r, record, "skills")) {
    int list = lua_gettop(r->L);
    crew_out->skill_count = to_length(r, list);
    crew_out->skills = arena_array(r->document->arena, (size_t)crew_out->skill_count + 1, sizeof *crew_out->skills);
    for (int i = 0; i < crew_out->skill_count; i++) {
      lua_rawgeti(r->L, list, i + 1);
      crew_out->skills[i] = arena_strdup(r->document->arena, lua_tostring(r->L, -1));
      lua_pop(r->L, 1);
    }
    lua_pop(r->L, 1);
  }
  const char *shift = reader_text(r, record, "shift");
  for (int i = 0; shift && i < job->shift_count; i++)
    if (strcmp(job->shifts[i].name, shift) == 0) crew_out->shift = i;
  crew_out->away = dates_of(r, record, "away");
}

static void does(ModelReader *r, int record, Machine *machine)
{
  if (!reader_value(r, record, "does")) return;
  int list = lua_gettop(r->L);
  for (int i = 1; i <= to_length(r, list); i++) {
    StepWord word;
    lua_rawgeti(r->L, list, i);
    if (step_word_find(lua_tostring(r->L, -1), &word)) machine->does |= 1u << word;
    else machine->edger = true; /* "edges": the one entry that is no step word */
    lua_pop(r->L, 1);
  }
  lua_pop(r->L, 1);
}

static void machine(ModelReader *r, int record, Machine *out)
{
  out->count = (int)reader_deciding(r, record, "count", "").value;
  does(r, record, out);
  out->wet = reader_flag(r, record, "wet");
  out->width_m = reader_maybe(r, record, "width", "m");
  out->overlap_m = reader_maybe(r, record, "overlap", "m");
  out->travel_m_per_min = reader_maybe(r, record, "travel", "m/min");
  out->rate_m2_per_min = reader_maybe(r, record, "rate", "m2/min");
  out->turn_min = reader_figure(r, record, "turn", "min");
  out->duty = reader_figure(r, record, "duty", "");
  out->set_up_min = reader_figure(r, record, "set_up", "min");
  out->tank_l = reader_maybe(r, record, "tank", "L");
  out->trip_min = reader_figure(r, record, "trip", "min");
  out->has_hours = hours(r, record, "hours", &out->hours);
  out->away = dates_of(r, record, "away");
  const char *fuel = reader_has(r, record, "amps") ? reader_text(r, record, "fuel") : NULL;
  if (!fuel || strcmp(fuel, "electric") != 0) return;
  out->amps = reader_maybe(r, record, "amps", "A");
  out->volts = reader_maybe(r, record, "volts", "V");
  out->three_phase = is_three_phase(r, record);
}

/* Each recipe once, however many areas use it: found again by the Lua table it came from. */
typedef struct {
  const void *tables[256];
  int count;
} Seen;

static int recipe_of(ModelReader *r, int part, Job *job, Seen *seen)
{
  int recipe = to_table(r, part, "recipe");
  const void *identity = lua_topointer(r->L, recipe);
  int found = 0;
  while (found < seen->count && seen->tables[found] != identity) found++;
  if (found == seen->count && found < 256) {
    seen->tables[seen->count++] = identity;
    to_recipe(r, recipe, &job->recipes[found]);
    job->recipe_count = seen->count;
  }
  lua_pop(r->L, 1);
  return found;
}

static Figure outline(ModelReader *r, const Area *area, Figure length, Figure width)
{
  double edge = 2 * (area->length_m + area->width_m);
  const char *what = arena_printf(r->document->arena, "edges of %s", r->owner);
  Figure inputs[] = { length, width };
  return why_computed(r->document->why, what, edge, "m", "2 x (length + width)", inputs, 2);
}

static void size(ModelReader *r, int record, Area *area)
{
  Figure length = reader_figure(r, record, "length", "m"), width = reader_figure(r, record, "width", "m");
  Maybe edges = reader_maybe(r, record, "edges", "m");
  area->edge_m = edges.figure;
  if (reader_has(r, record, "area")) {
    area->area_m2 = reader_figure(r, record, "area", "m2");
    return;
  }
  area->length_m = length.value;
  area->width_m = width.value;
  const char *what = arena_printf(r->document->arena, "floor of %s", r->owner);
  area->area_m2 = why_computed(r->document->why, what, length.value * width.value, "m2", "length x width",
                               (Figure[]){ length, width }, 2);
  if (!edges.given) area->edge_m = outline(r, area, length, width);
}

static void area(ModelReader *r, int part, int record, Area *out, Job *job, Seen *seen)
{
  const char *owner = r->owner;
  size(r, record, out);
  out->joint_m = reader_deciding(r, record, "joints", "m");
  out->machine = reader_text(r, record, "machine");
  out->has_hours = hours(r, record, "hours", &out->hours);
  out->finish_by = instant(r, record, "finish_by", job->start_day);
  out->protection_min = reader_deciding(r, record, "protection", "min");
  out->clean_up_min = reader_deciding(r, record, "clean_up", "min");
  out->recipe = recipe_of(r, part, job, seen);
  r->owner = owner;
}

typedef void (*PartReader)(ModelReader *r, int part, int record, int i, Job *job, Seen *seen);

static void one_crew(ModelReader *r, int part, int record, int i, Job *job, Seen *seen)
{
  (void)seen;
  job->crews[i].name = reader_keep(r, part, "name");
  job->crews[i].at = reader_span(r, part, "at");
  crew(r, record, &job->crews[i], job);
}

static void one_machine(ModelReader *r, int part, int record, int i, Job *job, Seen *seen)
{
  (void)seen;
  job->machines[i].name = reader_keep(r, part, "name");
  job->machines[i].at = reader_span(r, part, "at");
  machine(r, record, &job->machines[i]);
}

static void one_area(ModelReader *r, int part, int record, int i, Job *job, Seen *seen)
{
  job->areas[i].name = reader_keep(r, part, "name");
  job->areas[i].at = reader_span(r, part, "at");
  area(r, part, record, &job->areas[i], job, seen);
}

static void each_part(ModelReader *r, int list, PartReader reader, Job *job, Seen *seen)
{
  for (int i = 0; i < to_length(r, list); i++) {
    lua_rawgeti(r->L, list, i + 1);
    int part = lua_gettop(r->L), record = to_table(r, part, "record");
    const char *word = reader_keep(r, part, "word"), *name = reader_keep(r, part, "name");
    r->owner = arena_printf(r->document->arena, "%s \"%s\"", word, name);
    reader(r, part, record, i, job, seen);
    lua_pop(r->L, 2);
  }
}

static void one_alternate(ModelReader *r, int part, int record, int i, Job *job, Seen *seen)
{
  Alternate *alternate = &job->alternates[i];
  const char *area = reader_text(r, record, "area");
  alternate->name = reader_keep(r, part, "name");
  alternate->at = reader_span(r, part, "at");
  alternate->says = reader_text(r, record, "says");
  while (strcmp(job->areas[alternate->area].name, area) != 0) alternate->area++;
  alternate->recipe = recipe_of(r, part, job, seen);
}

/* After the areas, whose recipes come first and alone are counted. */
static void alternates(ModelReader *r, int index, Job *job, Seen *seen)
{
  int list = to_table(r, index, "alternates"), of_areas = job->recipe_count;
  job->alternate_count = to_length(r, list);
  job->alternates = arena_array(r->document->arena, (size_t)job->alternate_count + 1, sizeof *job->alternates);
  each_part(r, list, one_alternate, job, seen);
  job->recipe_count = of_areas;
  lua_pop(r->L, 1);
}

static int to_count(ModelReader *r, int index, const char *key)
{
  int count = to_length(r, to_table(r, index, key));
  lua_pop(r->L, 1);
  return count;
}

static void parts(ModelReader *r, int index, Job *job)
{
  Arena *arena = r->document->arena;
  int crews = to_table(r, index, "crews"), machines = to_table(r, index, "machines"), areas = to_table(r, index, "areas");
  Seen seen = { .count = 0 };
  job->crew_count = to_length(r, crews);
  job->crews = arena_array(arena, (size_t)job->crew_count + 1, sizeof *job->crews);
  job->machine_count = to_length(r, machines);
  job->machines = arena_array(arena, (size_t)job->machine_count + 1, sizeof *job->machines);
  job->area_count = to_length(r, areas);
  job->areas = arena_array(arena, (size_t)job->area_count + 1, sizeof *job->areas);
  size_t recipes = (size_t)job->area_count + (size_t)to_count(r, index, "alternates");
  job->recipes = arena_array(arena, recipes + 1, sizeof *job->recipes);
  each_part(r, crews, one_crew, job, &seen);
  each_part(r, machines, one_machine, job, &seen);
  each_part(r, areas, one_area, job, &seen);
  alternates(r, index, job, &seen);
  lua_pop(r->L, 3);
}

/* A list of texts; how many. */
static int texts(ModelReader *r, int record, const char *key, const char ***out)
{
  if (!reader_value(r, record, key)) return 0;
  int list = lua_gettop(r->L), count = to_length(r, list);
  const char **kept = arena_array(r->document->arena, (size_t)count + 1, sizeof *kept);
  for (int i = 0; i < count; i++) {
    lua_rawgeti(r->L, list, i + 1);
    kept[i] = arena_strdup(r->document->arena, lua_tostring(r->L, -1));
    lua_pop(r->L, 1);
  }
  lua_pop(r->L, 1);
  *out = kept;
  return count;
}

static void allowances(ModelReader *r, int record, Job *job)
{
  if (!reader_value(r, record, "allowances")) return;
  int list = lua_gettop(r->L);
  const char *owner = r->owner;
  job->allowance_count = to_length(r, list);
  job->allowances = arena_array(r->document->arena, (size_t)job->allowance_count + 1, sizeof *job->allowances);
  for (int i = 0; i < job->allowance_count; i++) {
    lua_rawgeti(r->L, list, i + 1);
    int entry = lua_gettop(r->L);
    Allowance *allowance = &job->allowances[i];
    *allowance = (Allowance){ .name = reader_keep(r, entry, "name"), .at = reader_span(r, entry, "at") };
    r->owner = arena_printf(r->document->arena, "allowance for %s", allowance->name);
    allowance->sum = reader_entry_rate(r, entry);
    lua_pop(r->L, 1);
  }
  r->owner = owner;
  lua_pop(r->L, 1);
}

static void dates(ModelReader *r, int record, Job *job)
{
  if (reader_value(r, record, "start")) {
    int start = lua_gettop(r->L);
    job->start_day = day_of(r, start);
    job->start_min = integer_field(r, start, "minute");
    lua_pop(r->L, 1);
  }
  if (reader_value(r, record, "dated")) {
    job->dated_day = day_of(r, lua_gettop(r->L));
    lua_pop(r->L, 1);
  }
  job->finish_by = instant(r, record, "finish_by", job->start_day);
}

static void price_book(ModelReader *r, int record, Job *job)
{
  if (!reader_value(r, record, "prices")) return;
  job->prices = arena_alloc(r->document->arena, sizeof *job->prices);
  to_prices(r, lua_gettop(r->L), job->prices);
  lua_pop(r->L, 1);
}

void to_job(ModelReader *r, int index, Job *job)
{
  job->name = reader_keep(r, index, "name");
  job->at = reader_span(r, index, "at");
  r->owner = arena_printf(r->document->arena, "job \"%s\"", job->name);
  int record = to_table(r, index, "record");
  const char *units = reader_text(r, record, "units");
  job->metric = units && strcmp(units, "metric") == 0;
  job->currency = reader_text(r, record, "currency");
  job->client = reader_text(r, record, "client");
  job->place = reader_text(r, record, "place");
  job->contractor = reader_text(r, record, "contractor");
  job->exclude_count = texts(r, record, "excludes", &job->excludes);
  job->term_count = texts(r, record, "terms", &job->terms);
  allowances(r, record, job);
  dates(r, record, job);
  job->move_min = reader_figure(r, record, "move", "min");
  shifts(r, record, job);
  site(r, record, job);
  price_book(r, record, job);
  to_risk(r, record, &job->risk);
  parts(r, index, job);
  job->waiver_count = to_waivers(r, index, &job->waivers);
  lua_pop(r->L, 1);
}
