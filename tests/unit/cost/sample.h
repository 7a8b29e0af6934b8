/* sample.h - a small invented job, booked by hand, for the tests of cost and report. Include after support.h.
 *
 * A bakery: the shop floor by two operators on day shifts, the office by a finisher at night. All times, people and
 * figures are set here, so that what the tests expect can be worked out on paper. */
#ifndef TESTS_UNIT_COST_SAMPLE_H
#define TESTS_UNIT_COST_SAMPLE_H

#include <string.h>

#include "base/arena.h"
#include "base/diag.h"
#include "base/why.h"
#include "cost/price.h"
#include "cost/risk.h"
#include "cost/takeoff.h"
#include "model/date.h"
#include "plan/plan.h"


enum { OPERATOR, FINISHER };
enum { PLANETARY, EDGER, SCRUBBER };
enum { SHOP, OFFICE };
enum { MON = 0, TUE = DAY_MIN, WED = 2 * DAY_MIN };

/* The activities, in the plan's order. */
enum { SURVEY, OPEN, OPEN_EDGES, COLLECT, HARDEN, KEEP_WET, FINE, SHEEN, BUFF, GUARD, DRY, ACTIVITIES };

#define SQFT_M2 0.09290304
#define GAL_L 3.785411784
#define CLOCK(hour, minute) ((hour) * 60 + (minute))
#define DOLLARS(dollars) ((Money)((dollars) * 10000 + 0.5))

typedef struct {
  Arena *arena;
  WhyBook *why;
  Diags *diags;
  Sources *sources;
  uint32_t source;
  Job job;
  Prices prices;
  Plan plan;
  Shift shifts[2];
  Crew crews[2];
  Machine machines[3];
  Area areas[2];
  Recipe recipes[2];
  Step shop[6], office[3];
  Activity activities[ACTIVITIES];
  Booking bookings[ACTIVITIES];
  Stretch stretches[ACTIVITIES][2];
  int people[ACTIVITIES];
  Person persons[3];
  LabourPrice labour[2];
  ToolPrice tools[2];
  MaterialPrice materials[2];
  Package silicate[2], guard[1];
  MachinePrice machine_prices[3];
  ExtraPrice extras[3];
} Sample;

/* A place on a line of the sample's only source. */
static Span sample_at(const Sample *s, int line)
{
  return (Span){ s->source, (uint32_t)(line - 1) * 8, (uint32_t)(line - 1) * 8 + 7 };
}

static Figure sample_written(Sample *s, const char *what, double value, const char *unit, int line)
{
  return why_written(s->why, what, value, unit, sample_at(s, line));
}

static Rate sample_rate(Sample *s, const char *what, double dollars, int line)
{
  Figure figure = sample_written(s, what, dollars, "USD", line);
  return (Rate){ true, DOLLARS(dollars), figure.why, sample_at(s, line) };
}

static Percent sample_percent(Sample *s, const char *what, int64_t ppm, int line)
{
  Figure figure = sample_written(s, what, (double)ppm / 10000, "%", line);
  return (Percent){ true, ppm, figure.why, sample_at(s, line) };
}

static Maybe sample_maybe(Sample *s, const char *what, double value, const char *unit, int line)
{
  return (Maybe){ true, sample_written(s, what, value, unit, line), sample_at(s, line) };
}

static void sample_sources(Sample *s)
{
  Buf text = { 0 };
  for (int line = 1; line <= 60; line++) buf_printf(&text, "line %02d\n", line);
  s->sources = sources_new();
  s->source = sources_add(s->sources, "jobs/bakery.lua", text.text, text.length);
  buf_free(&text);
}

static void sample_recipes(Sample *s)
{
  Figure three_in = sample_written(s, "overlap", 0.0762, "m", 20);
  Figure travel = sample_written(s, "travel", 6.096, "m/min", 20);
  Figure two = sample_written(s, "passes", 2, "", 20), one = { 1, 0 };
  Band dwell = { .has_low = true, .has_high = true, .low = { 25, 0 }, .high = { 45, 0 } };
  Band spread = { true, true, { 450 * SQFT_M2 / GAL_L, 0 }, { 650 * SQFT_M2 / GAL_L, 0 }, { 0 } };
  Step shop[] = {
    { .word = STEP_CHECK, .name = "survey", .measure = "mohs hardness", .hold = true },
    { .word = STEP_HONE, .name = "open", .grit = 100, .bond = "resin", .wet = true, .passes = two,
      .overlap_m = three_in, .travel_m_per_min = travel, .edges = true,
      .care = "rinse the tools before the slurry sets" },
    { .word = STEP_COLLECT, .name = "slurry", .within_min = { true, { 40, 0 }, { 0 } } },
    { .word = STEP_DENSIFY, .name = "harden", .with = "lithium silicate", .spread_m2_per_l = spread, .coats = one,
      .dwell_min = dwell, .keep_wet = true },
    { .word = STEP_POLISH, .name = "fine", .grit = 400, .bond = "resin", .wet = true, .passes = two,
      .overlap_m = three_in, .travel_m_per_min = travel },
    { .word = STEP_CHECK, .name = "sheen", .measure = "gloss 60", .hold = true,
      .want = { .has_low = true, .low = { 45, 0 } } },
  };
  Step office[] = {
    { .word = STEP_POLISH, .name = "buff", .grit = 400, .bond = "resin", .passes = { 1, 0 }, .overlap_m = three_in,
      .travel_m_per_min = travel },
    { .word = STEP_GUARD, .name = "protect", .with = "guard", .coats = { 2, 0 }, .skill = "guard", .people = one,
      .dry_min = { .has_low = true, .low = { 60, 0 } } },
    { .word = STEP_NOTE, .name = "doors", .says = "leave the doors to the shop closed until the morning" },
  };
  memcpy(s->shop, shop, sizeof shop);
  memcpy(s->office, office, sizeof office);
  for (int i = 0; i < (int)COUNT_OF(shop); i++) s->shop[i].at = sample_at(s, 20 + i);
  for (int i = 0; i < (int)COUNT_OF(office); i++) s->office[i].at = sample_at(s, 30 + i);
  s->recipes[SHOP] = (Recipe){ .name = "cream, wet", .revision = "4", .exposure = "cream", .appearance = "polished",
                               .gloss = { .has_low = true, .low = { 45, 0 } }, .steps = s->shop,
                               .step_count = (int)COUNT_OF(shop) };
  s->recipes[OFFICE] = (Recipe){ .name = "buff and guard", .steps = s->office,
                                 .step_count = (int)COUNT_OF(office) };
}

static void sample_job(Sample *s)
{
  s->shifts[0] = (Shift){ .name = "day", .from_min = CLOCK(7, 0), .until_min = CLOCK(15, 30), .days = 0x1F };
  s->shifts[1] = (Shift){ .name = "night", .from_min = CLOCK(22, 0), .until_min = CLOCK(30, 0), .days = 0x1F,
                          .night = true };
  static const char *any[] = { "grind", "guard" };
  s->crews[OPERATOR] = (Crew){ .name = "operator", .count = 2, .shift = 0, .skills = any, .skill_count = 1 };
  s->crews[FINISHER] = (Crew){ .name = "finisher", .count = 1, .shift = 1, .skills = any, .skill_count = 2 };
  static const char *const machines[] = { "planetary 32 in", "edger", "scrubber" };
  for (int i = 0; i < (int)COUNT_OF(machines); i++)
    s->machines[i] = (Machine){ .name = machines[i], .count = 1, .at = sample_at(s, 10 + i) };
  for (int i = 0; i < (int)COUNT_OF(s->crews); i++) s->crews[i].at = sample_at(s, 6 + i);
  s->areas[SHOP] = (Area){ .name = "shop", .recipe = SHOP,
                           .area_m2 = sample_written(s, "floor, shop", 432, "m2", 14),
                           .edge_m = sample_written(s, "edges, shop", 60, "m", 14), .joint_m = { 30, 0 } };
  s->areas[OFFICE] = (Area){ .name = "office", .recipe = OFFICE,
                             .area_m2 = sample_written(s, "floor, office", 500 * SQFT_M2, "m2", 15) };
  s->job = (Job){ .name = "Harbour Street bakery", .currency = "USD", .start_day = date_day(2026, 11, 30),
                  .at = sample_at(s, 1), .start_min = CLOCK(7, 0), .shifts = s->shifts, .shift_count = 2,
                  .crews = s->crews, .crew_count = 2, .machines = s->machines, .machine_count = 3,
                  .areas = s->areas, .area_count = 2, .recipes = s->recipes, .recipe_count = 2,
                  .prices = &s->prices };
  s->job.finish_by = (Maybe){ true, { WED + CLOCK(12, 0), 0 }, { 0 } };
}

static void sample_prices(Sample *s)
{
  s->prices = (Prices){
    .name = "shop 2026", .currency = "USD", .at = sample_at(s, 40), .labour = s->labour, .labour_count = 2,
    .burden = sample_percent(s, "burden", 135000, 41),
    .night_premium = sample_percent(s, "night premium", 150000, 42),
    .overtime_premium = sample_percent(s, "overtime premium", 500000, 43),
    .overtime_after_min = sample_maybe(s, "overtime after", 480, "min", 43), .tools = s->tools, .tool_count = 2,
    .materials = s->materials, .material_count = 2, .machines = s->machine_prices, .machine_count = 3,
    .extras = s->extras, .extra_count = 3, .overhead = sample_percent(s, "overhead", 120000, 44),
    .contingency = sample_percent(s, "contingency", 50000, 45), .profit = sample_percent(s, "profit", 200000, 46),
    .material_tax = sample_percent(s, "tax on materials", 82500, 47), .profit_rule = PROFIT_MARGIN,
  };
  s->labour[0] = (LabourPrice){ "operator", { 0 }, sample_rate(s, "operator, an hour", 62, 48), { 0 } };
  s->labour[1] = (LabourPrice){ "finisher", { 0 }, sample_rate(s, "finisher, an hour", 58.50, 49), { 0 } };
  s->tools[0] = (ToolPrice){ "resin 100", sample_at(s, 50), sample_rate(s, "resin 100, a set", 420, 50),
                             sample_maybe(s, "life of resin 100", 5000 * SQFT_M2, "m2", 50), { 0 } };
  s->tools[1] = (ToolPrice){ "resin 400", sample_at(s, 51), sample_rate(s, "resin 400, a set", 380, 51),
                             sample_maybe(s, "life of resin 400", 12000 * SQFT_M2, "m2", 51), { 0 } };
  s->silicate[0] =
    (Package){ "1 gal", PACK_VOLUME_L, GAL_L, sample_rate(s, "silicate, 1 gal", 42, 52), { 0 }, { 0 }, { 0 } };
  s->silicate[1] = (Package){ "5 gal", PACK_VOLUME_L, 5 * GAL_L, sample_rate(s, "silicate, 5 gal", 185, 52),
                              { 0 }, { 0 }, { 0 } };
  s->guard[0] = (Package){ "1 gal", PACK_VOLUME_L, GAL_L, sample_rate(s, "guard, 1 gal", 96, 53), { 0 },
                           { 0 }, { 0 } };
  s->materials[0] = (MaterialPrice){ "lithium silicate", sample_at(s, 52), s->silicate, 2 };
  s->materials[1] = (MaterialPrice){ "guard", sample_at(s, 53), s->guard, 1 };
  s->machine_prices[0] = (MachinePrice){ .name = "planetary 32 in", .at = sample_at(s, 54),
                                         .per_hour = sample_rate(s, "planetary, an hour", 28, 54),
                                         .per_day = sample_rate(s, "planetary, a day", 150, 54) };
  s->machine_prices[1] = (MachinePrice){ .name = "edger", .per_hour = sample_rate(s, "edger, an hour", 6, 55) };
  s->machine_prices[2] = (MachinePrice){ .name = "scrubber", .per_day = sample_rate(s, "scrubber, a day", 40, 56) };
  s->extras[0] = (ExtraPrice){ "mobilisation", { 0 }, sample_rate(s, "mobilisation", 450, 57), PER_JOB, { 0 },
                               { 0 } };
  s->extras[1] = (ExtraPrice){ "slurry disposal", { 0 }, sample_rate(s, "disposal", 1.10, 58), PER_GALLON_SLURRY,
                                { 0 }, { 0 } };
  s->extras[2] = (ExtraPrice){ "floor protection", { 0 }, sample_rate(s, "protection", 0.08, 59), PER_SQFT, { 0 },
                               { 0 } };
}

static Stretch stretch(int start, int finish) { return (Stretch){ .start = start, .finish = finish }; }

/* Books an activity: person -1 for nobody, machine -1 for none, a second stretch where it has a length. */
static void sample_book(Sample *s, int activity, const char *id, WorkKind kind, int area, int step, int person,
                        int machine, Stretch first, Stretch second)
{
  int minutes = first.finish - first.start + second.finish - second.start;
  s->stretches[activity][0] = first;
  s->stretches[activity][1] = second;
  s->people[activity] = person;
  if (person >= 0) s->stretches[activity][0].people = s->stretches[activity][1].people = &s->people[activity];
  s->activities[activity] = (Activity){
    .id = id, .area = area, .step = step, .kind = kind,
    .minutes = why_computed(s->why, id, minutes, "min", "sample", NULL, 0), .duration_min = minutes,
    .attended = person >= 0, .people = person >= 0, .machine = machine,
    .at = s->recipes[s->areas[area].recipe].steps[step].at,
  };
  bool two = second.finish > second.start;
  s->bookings[activity] = (Booking){ .stretches = s->stretches[activity], .stretch_count = two ? 2 : 1,
                                     .start = first.start, .finish = two ? second.finish : first.finish,
                                     .people = &s->people[activity], .people_count = person >= 0,
                                     .unit = machine < 0 ? -1 : 0 };
}

static void sample_plan(Sample *s)
{
  const Stretch none = stretch(0, 0);
  sample_book(s, SURVEY, "shop/survey", WORK_READ, SHOP, 0, 0, -1, stretch(CLOCK(7, 0), CLOCK(7, 20)), none);
  sample_book(s, OPEN, "shop/open/field", WORK_FIELD, SHOP, 1, 0, PLANETARY,
              stretch(CLOCK(7, 20), CLOCK(15, 30)), stretch(TUE + CLOCK(7, 0), TUE + CLOCK(8, 0)));
  sample_book(s, OPEN_EDGES, "shop/open/edges", WORK_EDGES, SHOP, 1, 1, EDGER,
              stretch(CLOCK(7, 20), CLOCK(12, 20)), none);
  sample_book(s, COLLECT, "shop/slurry", WORK_SURFACE, SHOP, 2, 1, SCRUBBER,
              stretch(TUE + CLOCK(8, 0), TUE + CLOCK(8, 40)), none);
  sample_book(s, HARDEN, "shop/harden/apply", WORK_APPLY, SHOP, 3, 0, -1,
              stretch(TUE + CLOCK(8, 45), TUE + CLOCK(9, 30)), none);
  sample_book(s, KEEP_WET, "shop/harden/dwell", WORK_DWELL, SHOP, 3, 0, -1,
              stretch(TUE + CLOCK(9, 30), TUE + CLOCK(10, 0)), none);
  sample_book(s, FINE, "shop/fine/field", WORK_FIELD, SHOP, 4, 0, PLANETARY,
              stretch(TUE + CLOCK(10, 0), TUE + CLOCK(15, 30)),
              stretch(WED + CLOCK(7, 0), WED + CLOCK(8, 0)));
  sample_book(s, SHEEN, "shop/sheen", WORK_READ, SHOP, 5, 0, -1, stretch(WED + CLOCK(8, 0), WED + CLOCK(8, 20)),
              none);
  sample_book(s, BUFF, "office/buff/field", WORK_FIELD, OFFICE, 0, 2, PLANETARY,
              stretch(CLOCK(22, 0), TUE + CLOCK(1, 0)), none);
  sample_book(s, GUARD, "office/protect/apply", WORK_APPLY, OFFICE, 1, 2, -1,
              stretch(TUE + CLOCK(1, 10), TUE + CLOCK(1, 40)), none);
  sample_book(s, DRY, "office/protect/rest", WORK_REST, OFFICE, 1, -1, -1,
              stretch(TUE + CLOCK(1, 40), TUE + CLOCK(2, 40)), none);
  s->activities[OPEN].floor_m2 = s->activities[FINE].floor_m2 = s->areas[SHOP].area_m2;
  s->activities[OPEN_EDGES].edge_m = s->areas[SHOP].edge_m;
  s->activities[BUFF].floor_m2 = s->areas[OFFICE].area_m2;
  s->activities[OPEN].slurry_l = sample_written(s, "slurry of open", 50 * GAL_L, "L", 21);
  s->activities[HARDEN].material = sample_written(s, "lithium silicate", 9.3 * GAL_L, "L", 23);
  s->activities[GUARD].material = sample_written(s, "guard", 0.5 * GAL_L, "L", 31);
  s->activities[SURVEY].readings = why_default(s->why, "readings of step survey", 5, "", sample_at(s, 20),
                                               "common practice, no source");
  s->activities[SHEEN].readings = why_default(s->why, "readings of step sheen", 10, "", sample_at(s, 25),
                                              "common practice, no source");
  static const Person persons[] = { { "operator 1", OPERATOR },
                                    { "operator 2", OPERATOR },
                                    { "finisher 1", FINISHER } };
  memcpy(s->persons, persons, sizeof persons);
  s->plan = (Plan){ .job = &s->job, .activities = s->activities, .activity_count = ACTIVITIES,
                    .persons = s->persons, .person_count = 3, .status = PLAN_FEASIBLE, .bookings = s->bookings,
                    .finish = WED + CLOCK(8, 20), .lower_bound = WED + CLOCK(7, 40) };
}

static Sample *sample_new(void)
{
  Arena *arena = arena_new();
  Sample *s = arena_alloc(arena, sizeof *s);
  s->arena = arena;
  s->why = why_new();
  s->diags = diags_new();
  sample_sources(s);
  sample_recipes(s);
  sample_job(s);
  sample_prices(s);
  sample_plan(s);
  return s;
}

static void sample_free(Sample *s)
{
  sources_free(s->sources);
  diags_free(s->diags);
  why_free(s->why);
  arena_free(s->arena);
}

static inline Cost *sample_cost(Sample *s)
{
  return cost_price(takeoff_count(&s->plan, s->arena, s->why), 1, s->arena, s->why, s->diags);
}

/* Makes the sample fit to be timed again, in so many trials; what is uncertain is the caller's. */
static inline void sample_uncertain(Sample *s, int trials)
{
  s->job.risk = risk_default;
  s->job.risk.trials = trials;
  for (int i = 0; i < ACTIVITIES; i++) {
    if (s->activities[i].attended) s->activities[i].skill = "any";
    s->activities[i].breakable = s->activities[i].kind == WORK_FIELD;
  }
}

static inline Maybe sample_estimate(Sample *s, const char *what, double low, double likely, double high)
{
  WhyNode node = { .origin = WHY_WRITTEN, .what = what, .unit = "", .low = low, .value = likely, .high = high,
                   .at = sample_at(s, 3) };
  return (Maybe){ true, { likely, why_add(s->why, &node) }, node.at };
}

static inline Risk *sample_risk(Sample *s, int threads)
{
  Takeoff *takeoff = takeoff_count(&s->plan, s->arena, s->why);
  Cost *cost = s->job.prices ? cost_price(takeoff, 1, s->arena, s->why, s->diags) : NULL;
  return risk_run(&s->plan, takeoff, cost, s->why, &(RiskOptions){ .threads = threads }, s->arena, s->diags);
}

#endif
