#include "plan/effort.h"

#include <math.h>

#include "trade/coverage.h"
#include "trade/geometry.h"
#include "trade/water.h"

static const char *named(const Effort *e, const char *what)
{
  return arena_printf(e->arena, "%s, %s in %s", what, e->step->name, e->area->name);
}

static Figure computed(const Effort *e, const char *what, double value, const char *unit, const char *formula,
                       const Figure *inputs, int count)
{
  return why_computed(e->why, named(e, what), value, unit, formula, inputs, count);
}

static Figure worked(const Effort *e, const char *what, const char *unit, const char *formula, WhySum sum,
                     const Figure *terms, int count)
{
  return why_worked(e->why, named(e, what), unit, formula, sum, terms, count);
}

#define COUNTED(...) \
  (const Figure[]){ __VA_ARGS__ }, (int)(sizeof((const Figure[]){ __VA_ARGS__ }) / sizeof(Figure))
#define COMPUTED(e, what, value, unit, formula, ...) computed(e, what, value, unit, formula, COUNTED(__VA_ARGS__))
#define WORKED(e, what, unit, formula, sum, ...) worked(e, what, unit, formula, sum, COUNTED(__VA_ARGS__))

static Figure constant(double value) { return (Figure){ value, 0 }; }

static Figure or_else(Figure said, Maybe other) { return said.why ? said : other.figure; }

static bool refuse(const Effort *e, const TradeError *error)
{
  diags_error(e->diags, "coverage", e->step->at, "%s in %s: %s", e->step->name, e->area->name, error->message);
  return false;
}

static Outline outline_of(const Area *area, Point corners[4])
{
  double side = sqrt(area->area_m2.value);
  double length = area->length_m > 0 ? area->length_m : side, width = area->width_m > 0 ? area->width_m : side;
  return (Outline){ .outer = geometry_rectangle(length, width, corners) };
}

static bool lanes_both_ways(const Effort *e, double head_m, double overlap_m, LanePlan *along, LanePlan *across,
                            TradeError *error)
{
  static const double right_angle = 1.57079632679489661923;
  Point corners[4];
  Outline outline = outline_of(e->area, corners);
  if (!geometry_best_lanes(&outline, head_m, overlap_m, along, error)) return false;
  double direction = along->direction_rad < right_angle ? along->direction_rad + right_angle
                                                        : along->direction_rad - right_angle;
  return geometry_lanes(&outline, direction, head_m, overlap_m, across, error);
}

/* What the minutes of a field rest on. The lanes are those of the plan; where floor, head or overlap come out
 * otherwise, travel and turns go in proportion to the floor over the reach of a lane. */
enum {
  FIELD_TRAVEL, FIELD_TURN, FIELD_DUTY, FIELD_SET_UP, FIELD_PASSES, FIELD_FLOOR, FIELD_HEAD, FIELD_OVERLAP,
  FIELD_PLAN_FLOOR, FIELD_PLAN_REACH, FIELD_ALONG_M, FIELD_ALONG_TURNS, FIELD_ACROSS_M, FIELD_ACROSS_TURNS,
  FIELD_TERMS
};

static LanePlan stretched(double travel_m, double turns, double times)
{
  return (LanePlan){ .travel_m = travel_m * times, .turns = (int)(turns * times + 0.5) };
}

static bool field_time(const double *t, CoverageTime *out, TradeError *error)
{
  int passes = (int)(t[FIELD_PASSES] + 0.5);
  CoverageStep step = { .speed_m_min = t[FIELD_TRAVEL], .turn_s = t[FIELD_TURN] * 60,
                        .duty = fmin(t[FIELD_DUTY], 1), .passes = passes, .crosswise = passes > 1,
                        .setup_min = t[FIELD_SET_UP] };
  double reach = t[FIELD_HEAD] - t[FIELD_OVERLAP];
  double times = t[FIELD_FLOOR] / t[FIELD_PLAN_FLOOR] * (t[FIELD_PLAN_REACH] / reach);
  LanePlan along = stretched(t[FIELD_ALONG_M], t[FIELD_ALONG_TURNS], times);
  LanePlan across = stretched(t[FIELD_ACROSS_M], t[FIELD_ACROSS_TURNS], times);
  return coverage_time(&step, &along, &across, out, error);
}

static double field_minutes(const double *terms, int count)
{
  CoverageTime time;
  TradeError error;
  (void)count;
  return field_time(terms, &time, &error) ? time.machine_min : NAN;
}

static Figure note_field(const Effort *e, const Figure *t, const CoverageTime *time, double lanes_one_way)
{
  Figure lanes = COMPUTED(e, "lanes one way", lanes_one_way, "", "geometry.lanes", t[FIELD_FLOOR], t[FIELD_HEAD],
                          t[FIELD_OVERLAP]);
  Figure path = COMPUTED(e, "travel of all passes", time->travel_m, "m", "coverage.travel", lanes, t[FIELD_PASSES]);
  Figure moving = COMPUTED(e, "minutes of travel", time->travel_min, "min", "travel / speed", path,
                           t[FIELD_TRAVEL]);
  Figure turning = COMPUTED(e, "minutes of turns", time->turn_min, "min", "turns x time of one", lanes,
                            t[FIELD_PASSES], t[FIELD_TURN]);
  Figure pauses = COMPUTED(e, "minutes lost", time->pause_min, "min", "running minutes x (1 / duty - 1)", moving,
                           turning, t[FIELD_DUTY]);
  const Why inputs[] = { moving.why, turning.why, pauses.why, t[FIELD_SET_UP].why };
  WhyNode node = { .origin = WHY_COMPUTED, .what = named(e, "field minutes"), .value = time->machine_min,
                   .low = time->machine_min, .high = time->machine_min, .unit = "min",
                   .formula = "travel + turns + lost + set-up", .inputs = inputs,
                   .input_count = sizeof inputs / sizeof *inputs, .sum = field_minutes, .terms = t,
                   .term_count = FIELD_TERMS };
  return (Figure){ time->machine_min, why_add(e->why, &node) };
}

/* ---- ways: to the tap, and from area to area */

static double trip_minutes(const double *terms, int count)
{
  TankTrips trips;
  TradeError error;
  (void)count;
  return water_trips(terms[0], terms[1], terms[2], &trips, &error) ? trips.minutes : NAN;
}

/* Trips of the machine's tank for so much water or slurry; 0 without a tank. */
static bool trips(const Effort *e, Figure volume_l, Figure *minutes)
{
  const Machine *m = e->machine;
  TankTrips found;
  TradeError error;
  *minutes = constant(0);
  if (m == NULL || !m->tank_l.given || volume_l.value <= 0) return true;
  if (!water_trips(volume_l.value, m->tank_l.figure.value, m->trip_min.value, &found, &error))
    return refuse(e, &error);
  *minutes = WORKED(e, "minutes of tank trips", "min", "(volume / tank, rounded up) x time of one", trip_minutes,
                    volume_l, m->tank_l.figure, m->trip_min);
  return true;
}

static bool with_ways(const Effort *e, Figure *minutes)
{
  Figure move = e->job->area_count > 1 ? e->job->move_min : constant(0), tank;
  Figure water = e->step->wet && e->machine->tank_l.given ? effort_water_l(e) : constant(0);
  if (!trips(e, water, &tank)) return false;
  if (move.value + tank.value > 0)
    *minutes = WORKED(e, "field minutes with ways", "min", "field + moving the machine there + tank trips",
                      why_total, *minutes, move, tank);
  return true;
}

bool effort_field(const Effort *e, Figure *minutes)
{
  const Machine *m = e->machine;
  Figure overlap = or_else(e->step->overlap_m, m->overlap_m), head = m->width_m.figure;
  LanePlan along, across;
  CoverageTime time;
  TradeError error;
  if (!lanes_both_ways(e, head.value, overlap.value, &along, &across, &error)) return refuse(e, &error);
  const Figure terms[FIELD_TERMS] = {
    [FIELD_TRAVEL] = or_else(e->step->travel_m_per_min, m->travel_m_per_min), [FIELD_TURN] = m->turn_min,
    [FIELD_DUTY] = m->duty, [FIELD_SET_UP] = m->set_up_min, [FIELD_PASSES] = e->step->passes,
    [FIELD_FLOOR] = e->area->area_m2, [FIELD_HEAD] = head, [FIELD_OVERLAP] = overlap,
    [FIELD_PLAN_FLOOR] = constant(e->area->area_m2.value),
    [FIELD_PLAN_REACH] = constant(head.value - overlap.value),
    [FIELD_ALONG_M] = constant(along.travel_m), [FIELD_ALONG_TURNS] = constant(along.turns),
    [FIELD_ACROSS_M] = constant(across.travel_m), [FIELD_ACROSS_TURNS] = constant(across.turns),
  };
  double values[FIELD_TERMS];
  for (int i = 0; i < FIELD_TERMS; i++) values[i] = terms[i].value;
  if (!field_time(values, &time, &error)) return refuse(e, &error);
  *minutes = note_field(e, terms, &time, along.lanes);
  return with_ways(e, minutes);
}

Figure effort_together(const Effort *e, Figure field, Figure along)
{
  return WORKED(e, "field minutes with slurry picked up", "min", "field + picking up, bay by bay", why_total, field,
                along);
}

/* With n bays the first is honed before anybody follows, and the last is picked up after the field is done. */
static double following(const double *terms, int count)
{
  (void)count;
  double bays = fmax(ceil(terms[0] / terms[2] - 1e-9), 1);
  return fmax(terms[0] + terms[1] / bays, terms[0] / bays + terms[1]);
}

Figure effort_following(const Effort *e, Figure field, Figure along, Figure within)
{
  return WORKED(e, "field minutes with others behind", "min",
                "the longer of field and picking up, and a bay of the other (bays: field / within, rounded up)",
                following, field, along, within);
}

static Figure of_a_bay(const Effort *e, Figure whole, const char *unit)
{
  if (e->bays <= 1) return whole;
  const char *formula = arena_printf(e->arena, "the whole / %d bays", e->bays);
  return WORKED(e, "one bay", unit, formula, why_ratio, whole, constant(e->bays));
}

/* amount / rate + set-up */
static double at_a_rate(const double *terms, int count)
{
  (void)count;
  return terms[0] / terms[1] + terms[2];
}

Figure effort_edges(const Effort *e)
{
  Figure set_up = e->machine ? e->machine->set_up_min : constant(0);
  return WORKED(e, "edge minutes", "min", "edge length / rate + set-up", at_a_rate, e->area->edge_m,
                e->step->edge_m_per_min, set_up);
}

/* A rate that the recipe writes goes first, then the machine's own, then the word's default. */
static Figure surface_rate(const Effort *e)
{
  Figure rate = e->step->rate_m2_per_min.figure;
  const WhyNode *node = why_node(e->why, rate.why);
  bool assumed = node == NULL || node->origin == WHY_DEFAULT;
  if (assumed && e->machine && e->machine->rate_m2_per_min.given) return e->machine->rate_m2_per_min.figure;
  return rate;
}

Figure effort_surface(const Effort *e)
{
  Figure rate = surface_rate(e), set_up = e->machine ? e->machine->set_up_min : constant(0);
  Figure work = WORKED(e, "minutes", "min", "floor / rate + set-up", at_a_rate, e->area->area_m2, rate, set_up);
  Figure tank;
  if (trips(e, e->slurry_l, &tank) && tank.value > 0)
    work = WORKED(e, "minutes with trips", "min", "work + tank trips", why_total, work, tank);
  return of_a_bay(e, work, "min");
}

static Figure repaired_m2(const Effort *e)
{
  return WORKED(e, "floor to repair", "m2", "floor x share", why_product, e->area->area_m2, e->step->share.figure);
}

Figure effort_apply(const Effort *e)
{
  if (e->step->word == STEP_FILL) {
    Figure rate = e->step->rate_m_per_min.figure;
    return WORKED(e, "minutes along joints", "min", "joint length / rate", why_ratio, e->area->joint_m, rate);
  }
  Figure floor = e->step->word == STEP_PATCH ? repaired_m2(e) : e->area->area_m2;
  Figure rate = e->step->rate_m2_per_min.figure;
  return of_a_bay(e, WORKED(e, "minutes to spread a coat", "min", "floor / rate", why_ratio, floor, rate), "min");
}

static double reading_count(const double *terms, int count)
{
  (void)count;
  return fmax(ceil(terms[0] * terms[1] - 1e-9), terms[2]);
}

Figure effort_readings(const Effort *e, Figure *minutes)
{
  Figure readings = WORKED(e, "readings", "", "the larger of floor x density, rounded up, and the least",
                           reading_count, e->area->area_m2, e->step->readings_per_m2.figure,
                           e->step->least_readings);
  *minutes = WORKED(e, "minutes of readings", "min", "readings x time of one", why_product, readings,
                    e->step->minutes_a_reading);
  return readings;
}

/* length x width x depth in m, as litres, and waste on top */
static double litres_in_joints(const double *terms, int count)
{
  (void)count;
  return terms[0] * terms[1] * terms[2] * 1000 * (1 + terms[3]);
}

static Figure filler_l(const Effort *e)
{
  const Step *s = e->step;
  return WORKED(e, "filler", "L", "joint length x width x depth x (1 + waste)", litres_in_joints, e->area->joint_m,
                s->joint_width_m.figure, s->joint_depth_m.figure, s->waste);
}

static double litres_in_repairs(const double *terms, int count)
{
  (void)count;
  return terms[0] * terms[1] * 1000 * (1 + terms[2]);
}

static Figure repair_l(const Effort *e)
{
  return WORKED(e, "repair material", "L", "floor x depth x (1 + waste)", litres_in_repairs, repaired_m2(e),
                e->step->joint_depth_m.figure, e->step->waste);
}

static double litres_of_a_coat(const double *terms, int count)
{
  (void)count;
  return terms[0] / terms[1] * (1 + terms[2]);
}

Figure effort_material_l(const Effort *e)
{
  if (e->step->word == STEP_FILL) return filler_l(e);
  if (e->step->word == STEP_PATCH) return repair_l(e);
  const Band *spread = &e->step->spread_m2_per_l;
  Figure rate = spread->has_low ? spread->low : spread->high;
  Figure coat = WORKED(e, "litres for a coat", "L", "floor / spread (the window's low end: the most) x (1 + waste)",
                       litres_of_a_coat, e->area->area_m2, rate, e->step->waste);
  return of_a_bay(e, coat, "L");
}

Figure effort_water_l(const Effort *e)
{
  return WORKED(e, "water", "L", "floor / floor a litre serves", why_ratio, e->area->area_m2,
                e->step->water_m2_per_l);
}
