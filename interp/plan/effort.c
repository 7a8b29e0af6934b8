#include "plan/effort.h"

#include <math.h>

#include "trade/coverage.h"
#include "trade/geometry.h"

static Figure computed(const Effort *e, const char *what, double value, const char *unit, const char *formula,
                       const Figure *inputs, int count)
{
  const char *full = arena_printf(e->arena, "%s, %s in %s", what, e->step->name, e->area->name);
  return why_computed(e->why, full, value, unit, formula, inputs, count);
}

#define COMPUTED(e, what, value, unit, formula, ...)                                      \
  computed(e, what, value, unit, formula, (const Figure[]){ __VA_ARGS__ },                \
           (int)(sizeof((const Figure[]){ __VA_ARGS__ }) / sizeof(Figure)))

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

bool effort_field(const Effort *e, Figure *minutes)
{
  const Machine *m = e->machine;
  Figure overlap = or_else(e->step->overlap_m, m->overlap_m), travel = or_else(e->step->travel_m_per_min, m->travel_m_per_min);
  CoverageStep step = { .speed_m_min = travel.value, .turn_s = m->turn_min.value * 60, .duty = m->duty.value,
                        .passes = (int)e->step->passes.value, .crosswise = e->step->passes.value > 1,
                        .setup_min = m->set_up_min.value };
  LanePlan along, across;
  CoverageTime time;
  TradeError error;
  if (!lanes_both_ways(e, m->width_m.figure.value, overlap.value, &along, &across, &error)) return refuse(e, &error);
  if (!coverage_time(&step, &along, &across, &time, &error)) return refuse(e, &error);

  Figure lanes = COMPUTED(e, "lanes one way", along.lanes, "", "geometry.lanes", e->area->area_m2, m->width_m.figure, overlap);
  Figure path = COMPUTED(e, "travel of all passes", time.travel_m, "m", "coverage.travel", lanes, e->step->passes);
  Figure moving = COMPUTED(e, "minutes of travel", time.travel_min, "min", "travel / speed", path, travel);
  Figure turning = COMPUTED(e, "minutes of turns", time.turn_min, "min", "turns x time of one", lanes, e->step->passes, m->turn_min);
  Figure pauses = COMPUTED(e, "minutes lost", time.pause_min, "min", "running minutes x (1 / duty - 1)", moving, turning, m->duty);
  *minutes = COMPUTED(e, "field minutes", time.machine_min, "min", "travel + turns + lost + set-up", moving, turning,
                      pauses, m->set_up_min);
  return true;
}

Figure effort_edges(const Effort *e)
{
  Figure set_up = e->machine ? e->machine->set_up_min : (Figure){ 0 };
  double minutes = e->area->edge_m.value / e->step->edge_m_per_min.value + set_up.value;
  return COMPUTED(e, "edge minutes", minutes, "min", "edge length / rate + set-up", e->area->edge_m,
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
  Figure rate = surface_rate(e), set_up = e->machine ? e->machine->set_up_min : (Figure){ 0 };
  double minutes = e->area->area_m2.value / rate.value + set_up.value;
  return COMPUTED(e, "minutes", minutes, "min", "floor / rate + set-up", e->area->area_m2, rate, set_up);
}

static Figure repaired_m2(const Effort *e)
{
  double m2 = e->area->area_m2.value * e->step->share.figure.value;
  return COMPUTED(e, "floor to repair", m2, "m2", "floor x share", e->area->area_m2, e->step->share.figure);
}

Figure effort_apply(const Effort *e)
{
  if (e->step->word == STEP_FILL) {
    Figure rate = e->step->rate_m_per_min.figure;
    return COMPUTED(e, "minutes along joints", e->area->joint_m.value / rate.value, "min", "joint length / rate",
                    e->area->joint_m, rate);
  }
  Figure floor = e->step->word == STEP_PATCH ? repaired_m2(e) : e->area->area_m2;
  Figure rate = e->step->rate_m2_per_min.figure;
  return COMPUTED(e, "minutes to spread a coat", floor.value / rate.value, "min", "floor / rate", floor, rate);
}

Figure effort_readings(const Effort *e, Figure *minutes)
{
  Figure density = e->step->readings_per_m2.figure;
  double count = fmax(ceil(e->area->area_m2.value * density.value - 1e-9), e->step->least_readings.value);
  Figure readings = COMPUTED(e, "readings", count, "", "the larger of floor x density, rounded up, and the least",
                             e->area->area_m2, density, e->step->least_readings);
  *minutes = COMPUTED(e, "minutes of readings", count * e->step->minutes_a_reading.value, "min", "readings x time of one",
                      readings, e->step->minutes_a_reading);
  return readings;
}

static Figure filler_l(const Effort *e)
{
  const Step *s = e->step;
  double litres = e->area->joint_m.value * s->joint_width_m.figure.value * s->joint_depth_m.figure.value * 1000 *
                  (1 + s->waste.value);
  return COMPUTED(e, "filler", litres, "L", "joint length x width x depth x (1 + waste)", e->area->joint_m,
                  s->joint_width_m.figure, s->joint_depth_m.figure, s->waste);
}

static Figure repair_l(const Effort *e)
{
  Figure floor = repaired_m2(e);
  double litres = floor.value * e->step->joint_depth_m.figure.value * 1000 * (1 + e->step->waste.value);
  return COMPUTED(e, "repair material", litres, "L", "floor x depth x (1 + waste)", floor, e->step->joint_depth_m.figure,
                  e->step->waste);
}

Figure effort_material_l(const Effort *e)
{
  if (e->step->word == STEP_FILL) return filler_l(e);
  if (e->step->word == STEP_PATCH) return repair_l(e);
  const Band *spread = &e->step->spread_m2_per_l;
  Figure rate = spread->has_low ? spread->low : spread->high;
  double litres = e->area->area_m2.value / rate.value * (1 + e->step->waste.value);
  return COMPUTED(e, "litres for a coat", litres, "L", "floor / spread (the window's low end: the most) x (1 + waste)",
                  e->area->area_m2, rate, e->step->waste);
}

Figure effort_water_l(const Effort *e)
{
  double litres = e->area->area_m2.value / e->step->water_m2_per_l.value;
  return COMPUTED(e, "water", litres, "L", "floor / floor a litre serves", e->area->area_m2, e->step->water_m2_per_l);
}
