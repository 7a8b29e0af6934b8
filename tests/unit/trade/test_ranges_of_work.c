/* test_ranges_of_work.c - from coverage to acceptance: each stated range holds its ends and nothing beyond them;
 * nothing that is no number gets in. */
#include "support.h"

#include "trade/acceptance.h"
#include "trade/aggregate.h"
#include "trade/appearance.h"
#include "trade/coverage.h"
#include "trade/flatness.h"
#include "trade/optics.h"
#include "trade/planetary.h"
#include "trade/removal.h"
#include "trade/sheen.h"

static double out;
static int count;
static TradeError error;

static bool head_speed(double v) { return coverage_rate(v, 0, 5, 1, 1, &out, &error); }
static bool overlap(double v) { return coverage_rate(0.8, v, 5, 1, 1, &out, &error); }
static bool travel(double v) { return coverage_rate(0.8, 0, v, 1, 1, &out, &error); }
static bool duty(double v) { return coverage_rate(0.8, 0, 5, v, 1, &out, &error); }
static bool passes(double v) { return coverage_rate(0.8, 0, 5, 1, (int)v, &out, &error); }

static bool step_with(CoverageStep step)
{
  static const LanePlan plan = { .pieces = 10, .turns = 9, .travel_m = 300 };
  CoverageTime t;
  step.speed_m_min = 5;
  step.passes = 1;
  step.duty = 1;
  return coverage_time(&step, &plan, NULL, &t, &error);
}
static bool turn(double v) { return step_with((CoverageStep){ .turn_s = v }); }
static bool obstacle(double v) { return step_with((CoverageStep){ .obstacle_s = v }); }
static bool obstacles(double v) { return step_with((CoverageStep){ .obstacles = (int)v }); }
static bool setup(double v) { return step_with((CoverageStep){ .setup_min = v }); }
static bool edge(double v) { return step_with((CoverageStep){ .edge_m = v, .edge_rate_m_h = 10 }); }
static bool head_class(double v) { CoverageHead h; return coverage_head_class(v, &h, &error); }

static bool lanes_at(double v)
{
  Point points[4];
  Outline outline = { geometry_rectangle(10, 5, points), NULL, 0 };
  LanePlan plan;
  return geometry_lanes(&outline, v, 0.8, 0.05, &plan, &error);
}

static bool condition(RemovalCondition at, double grain_um, double slab)
{
  RemovalReference ref;
  return removal_reference(BOND_RESIN, &ref, &error) && removal_depth(&ref, &at, grain_um, slab, &out, &error);
}
static bool pressure(double v) { return condition((RemovalCondition){ v, 8, 1 }, 100, 1); }
static bool tool_speed(double v) { return condition((RemovalCondition){ 36, v, 1 }, 100, 1); }
static bool contact(double v) { return condition((RemovalCondition){ 36, 8, v }, 100, 1); }
static bool grain(double v) { return condition((RemovalCondition){ 36, 8, 1 }, v, 1); }
static bool slab(double v) { return condition((RemovalCondition){ 36, 8, 1 }, 100, v); }
static bool scratch_grain(double v) { return removal_scratch(v, 0.25, &out, &error); }
static bool scratch_share(double v) { return removal_scratch(100, v, &out, &error); }
static bool slab_mohs(double v) { return removal_slab_factor(v, &out, &error); }
static bool cut(double v) { return removal_passes(v, 1, &count, &error); }
static bool bond_mohs(double v) { const BondChoice *c; return bond_for_mohs(v, &c, &error); }
static bool pad(double v) { GritSize s; return grit_size((Grit){ GRIT_PAD, v }, &s, &error); }

static bool index_of_refraction(double v) { return optics_fresnel(v, 60, &out, &error); }
static bool angle(double v) { return optics_fresnel(1.5, v, &out, &error); }
static bool reflectance(double v) { return optics_gloss(v, 60, &out, &error); }
static bool wavelength(double v) { return optics_rough_share(10, v, 60, &out, &error); }
static bool rms(double v) { return optics_rough_share(v, 550, 60, &out, &error); }
static bool mean_roughness(double v) { return optics_rms(v, OPTICS_SINE, &out, &error); }

static bool doi(double v) { const AppearanceLevel *l; return appearance_level(v, &l, &error); }
static bool haze60(double v) { return appearance_haze(v, 60, &out, &error); }
static bool haze20(double v) { return appearance_haze(80, v, &out, &error); }
static bool first_gloss(double v) { return appearance_gloss_angle(v, &count, &error); }
static bool reading_area(double v) { return appearance_readings(v, &count, &error); }
static bool flat_area(double v) { return flatness_least_readings(v, &count, &error); }
static bool dark(double v) { return appearance_image_clarity(5, v, &out, &error); }
static bool sum_of_shares(double v)
{
  const AggregateClass *c;
  return aggregate_of_surface(90, v - 90, 0, &c, &error);
}
static bool gloss_reading(double v)
{
  SheenCurve curve;
  SheenReading reading = { 400, v };
  return sheen_calibrate(&reading, 1, &curve, &error);
}
static bool metal_grit(double v) { SheenBand b; return sheen_band(BOND_METAL, v, &b, &error); }
static bool transitional_grit(double v) { SheenBand b; return sheen_band(BOND_TRANSITIONAL, v, &b, &error); }
static bool resin_grit(double v) { SheenBand b; return sheen_band(BOND_RESIN, v, &b, &error); }
static bool fibre_grit(double v) { SheenBand b; return sheen_band(BOND_FIBRE, v, &b, &error); }

static bool beta_a(double v) { return statistics_beta(v, 1, 0.5, &out, &error); }
static bool beta_b(double v) { return statistics_beta(1, v, 0.5, &out, &error); }
static bool beta_x(double v) { return statistics_beta(1, 1, v, &out, &error); }
static bool freedom(double v) { return statistics_t_below(1, v, &out, &error); }
static bool t_value(double v) { return statistics_t_below(v, 5, &out, &error); }
static bool probability(double v) { return statistics_t_quantile(v, 5, &out, &error); }
static bool confidence(double v) { return acceptance_readings(1, 10, v, &count, &error); }

static bool planetary(Planetary head)
{
  PlanetaryPass pass;
  if (head.planets == 0) head.planets = 1;
  if (head.tools == 0) head.tools = 1;
  if (head.travel_m_min == 0) head.travel_m_min = 6;
  if (head.head_rpm == 0) head.head_rpm = 60;
  return planetary_pass(&head, &pass, &error);
}
static bool orbit(double v) { return planetary((Planetary){ .orbit_m = v, .tool_radius_m = 0.1 }); }
static bool tool_orbit(double v) { return planetary((Planetary){ .tool_orbit_m = v, .tool_radius_m = 0.1 }); }
static bool tool_radius(double v) { return planetary((Planetary){ .orbit_m = 0.1, .tool_radius_m = v }); }
static bool head_rpm(double v) { return planetary((Planetary){ .orbit_m = 0.1, .head_rpm = v }); }
static bool planet_rpm(double v) { return planetary((Planetary){ .orbit_m = 0.1, .planet_rpm = v }); }
static bool head_travel(double v) { return planetary((Planetary){ .orbit_m = 0.1, .travel_m_min = v }); }

enum { LOW_OPEN = 1, HIGH_OPEN = 2 }; /* that end does not belong to the range */

static const struct { const char *name; bool (*call)(double); double low, high; int open; } ranges[] = {
  { "head_m", head_speed, 0, INFINITY, LOW_OPEN },
  { "overlap_m", overlap, 0, 0.8, HIGH_OPEN },
  { "speed_m_min", travel, 0, INFINITY, LOW_OPEN },
  { "duty", duty, 0, 1, LOW_OPEN },
  { "turn_s", turn, 0, 3600, 0 },
  { "obstacle_s", obstacle, 0, 3600, 0 },
  { "setup_min", setup, 0, INFINITY, 0 },
  { "edge_m", edge, 0, INFINITY, 0 },
  { "head class", head_class, 0.381, 2, 0 },
  { "direction_rad", lanes_at, -1e6, 1e6, 0 },
  { "pressure_kpa", pressure, 0.1, 5000, 0 },
  { "tool speed", tool_speed, 0.01, 100, 0 },
  { "contact_s", contact, 1e-4, 600, 0 },
  { "grain_um", grain, 0.1, 5000, 0 },
  { "slab_factor", slab, 0.05, 20, 0 },
  { "scratch grain", scratch_grain, 0.1, 5000, 0 },
  { "scratch share", scratch_share, 0, 1, LOW_OPEN },
  { "slab mohs", slab_mohs, 1, 10, 0 },
  { "cut_um", cut, 0, INFINITY, 0 },
  { "bond mohs", bond_mohs, 1, 10, 0 },
  { "pad", pad, 6, 8000, 0 },
  { "index", index_of_refraction, 1, 4, 0 },
  { "angle_deg", angle, 0, 90, HIGH_OPEN },
  { "reflectance", reflectance, 0, 1, 0 },
  { "wavelength_nm", wavelength, 380, 780, 0 },
  { "rms_nm", rms, 0, 110, 0 },
  { "ra", mean_roughness, 0, INFINITY, 0 },
  { "doi_pct", doi, 0, 100, 0 },
  { "haze, gloss60", haze60, 70, 1000, LOW_OPEN },
  { "haze, gloss20", haze20, 0, 2100, 0 },
  { "first gloss", first_gloss, 0, 1000, 0 },
  { "reading area", reading_area, 0, 1e9, LOW_OPEN },
  { "flatness area", flat_area, 0, 1e9, LOW_OPEN },
  { "least light", dark, 0, 5, 0 },
  { "sum of shares", sum_of_shares, 99.5, 100.5, 0 },
  { "gloss reading", gloss_reading, 0, 1000, 0 },
  { "metal grit", metal_grit, 16, 300, 0 },
  { "transitional grit", transitional_grit, 16, 300, 0 },
  { "resin grit", resin_grit, 50, 3000, 0 },
  { "fibre grit", fibre_grit, 400, 3000, 0 },
  { "beta a", beta_a, 0.1, 1e4, 0 },
  { "beta b", beta_b, 0.1, 1e4, 0 },
  { "beta x", beta_x, 0, 1, 0 },
  { "freedom", freedom, 1, 1e4, 0 },
  { "t", t_value, -1e150, 1e150, 0 },
  { "probability", probability, 1e-12, 1 - 1e-12, 0 },
  { "confidence", confidence, 0.5, 0.9999, 0 },
  { "orbit_m", orbit, 0, 5, 0 },
  { "tool_orbit_m", tool_orbit, 0, 5, 0 },
  { "tool_radius_m", tool_radius, 0, 5, 0 },
  { "head_rpm", head_rpm, -5000, 5000, 0 },
  { "planet_rpm", planet_rpm, -5000, 5000, 0 },
  { "head travel", head_travel, 0, 1000, 0 },
};

static void expect_answer(size_t i, double v, bool want)
{
  error = (TradeError){ 0 };
  bool got = ranges[i].call(v);
  if (got != want) print_error("%s = %.17g: %s\n", ranges[i].name, v, got ? "accepted" : error.message);
  assert_int_equal(got, want);
  if (!got) assert_true(error.status != TRADE_OK && error.argument && error.message[0]);
}

static void each_range_holds_its_ends_and_nothing_beyond(void **state)
{
  (void)state;
  for (size_t i = 0; i < COUNT_OF(ranges); i++) {
    bool zero_means_default = ranges[i].call == head_travel; /* planetary() fills it in */
    if (!zero_means_default) expect_answer(i, ranges[i].low, !(ranges[i].open & LOW_OPEN));
    expect_answer(i, nextafter(ranges[i].low, -INFINITY), false);
    if (isinf(ranges[i].high)) continue;
    expect_answer(i, ranges[i].high, !(ranges[i].open & HIGH_OPEN));
    expect_answer(i, nextafter(ranges[i].high, INFINITY), false);
  }
}

static void no_range_admits_what_is_no_number(void **state)
{
  (void)state;
  for (size_t i = 0; i < COUNT_OF(ranges); i++) {
    expect_answer(i, NAN, false);
    expect_answer(i, INFINITY, false);
    expect_answer(i, -INFINITY, false);
  }
}

static void counts_hold_their_ends_too(void **state)
{
  (void)state;
  assert_true(passes(1) && passes(COVERAGE_PASSES_MAX));
  assert_false(passes(0) || passes(COVERAGE_PASSES_MAX + 1));
  assert_true(obstacles(0) && obstacles(1e6));
  assert_false(obstacles(-1) || obstacles(1e6 + 1));
  assert_true(planetary((Planetary){ .orbit_m = 1, .planets = 12, .tools = 24 }));
  assert_false(planetary((Planetary){ .orbit_m = 1, .planets = 13 }));
  assert_false(planetary((Planetary){ .orbit_m = 1, .tools = -1 }));
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(each_range_holds_its_ends_and_nothing_beyond),
    cmocka_unit_test(no_range_admits_what_is_no_number),
    cmocka_unit_test(counts_hold_their_ends_too),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
