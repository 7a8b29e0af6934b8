/* test_coverage.c - minutes of a step and the bands of plausible production. */
#include <string.h>

#include "support.h"
#include "trade/coverage.h"

static const double M2_PER_SQFT = 0.09290304, M_PER_FT = 0.3048, M_PER_IN = 0.0254;

/* Ten lanes of 30 m one way, thirty of 10 m the other. */
static const LanePlan along = { .lanes = 10, .pieces = 10, .turns = 9, .travel_m = 300 };
static const LanePlan across = { .lanes = 30, .pieces = 30, .turns = 29, .travel_m = 300 };

static void the_rate_is_swept_width_times_speed_over_passes(void **state)
{
  (void)state;
  double rate_m2_h;
  assert_true(coverage_rate(32 * M_PER_IN, 2 * M_PER_IN, 12 * M_PER_FT, 0.8, 2, &rate_m2_h, NULL));
  assert_near(rate_m2_h / M2_PER_SQFT, 720, 1e-9); /* 32 in head, 2 in overlap, 12 ft/min, 80 %, 2 passes */
}

static void the_parts_of_a_step_add_up(void **state)
{
  (void)state;
  const CoverageStep step = { .speed_m_min = 4, .turn_s = 10, .duty = 0.8, .passes = 3, .obstacles = 2,
                              .obstacle_s = 20, .edge_m = 80, .edge_rate_m_h = 10, .hand_m2 = 1,
                              .hand_rate_m2_h = 2, .setup_min = 20 };
  CoverageTime t;
  assert_true(coverage_time(&step, &along, NULL, &t, NULL));
  assert_near(t.travel_m, 900, 1e-9);
  assert_int_equal(t.turns, 3 * 9 + 2);
  assert_near(t.travel_min, 225, 1e-9);
  assert_near(t.turn_min, 29 * 10 / 60.0, 1e-9);
  assert_near(t.pause_min, (225 + 29 * 10 / 60.0) * 0.25, 1e-9);
  assert_near(t.obstacle_min, 2, 1e-9);
  assert_near(t.edge_min, 480, 1e-9);
  assert_near(t.hand_area_min, 30, 1e-9);
  assert_near(t.machine_min, t.travel_min + t.turn_min + t.pause_min + 2 + 20, 1e-9);
  assert_near(t.total_min, t.machine_min + 510, 1e-9);
}

static void crosswise_passes_alternate_and_an_odd_one_goes_along(void **state)
{
  (void)state;
  static const struct { int passes, along, across, turns; } cases[] = {
    { 1, 1, 0, 9 }, { 2, 1, 1, 9 + 29 + 1 }, { 5, 3, 2, 3 * 9 + 2 * 29 + 4 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    CoverageStep step = { .speed_m_min = 4, .duty = 1, .passes = cases[i].passes, .crosswise = true };
    CoverageTime t;
    assert_true(coverage_time(&step, &along, &across, &t, NULL));
    assert_int_equal(t.passes_along, cases[i].along);
    assert_int_equal(t.passes_across, cases[i].across);
    assert_int_equal(t.turns, cases[i].turns);
  }
}

static void a_real_floor_is_slower_than_open_field_by_its_turns_alone(void **state)
{
  (void)state;
  Point points[4];
  Outline outline = { geometry_rectangle(40, 9.1, points), NULL, 0 };
  LanePlan plan;
  assert_true(geometry_best_lanes(&outline, 1, 0.1, &plan, NULL)); /* ten lanes that fit exactly, but for 0.1 m */
  CoverageStep step = { .speed_m_min = 5, .turn_s = 0, .duty = 0.8, .passes = 2 };
  CoverageTime t;
  double rate_m2_h;
  assert_true(coverage_time(&step, &plan, NULL, &t, NULL));
  assert_true(coverage_rate(1, 0.1, 5, 0.8, 2, &rate_m2_h, NULL));
  assert_near(40 * 9 / (t.total_min / 60), rate_m2_h, 1e-9);
}

static void a_bad_step_is_refused_by_field_and_nothing_is_set(void **state)
{
  (void)state;
  static const struct { CoverageStep step; const char *argument; } cases[] = {
    { { .speed_m_min = 0, .duty = 1, .passes = 1 }, "speed_m_min" },
    { { .speed_m_min = NAN, .duty = 1, .passes = 1 }, "speed_m_min" },
    { { .speed_m_min = 4, .duty = 0, .passes = 1 }, "duty" },
    { { .speed_m_min = 4, .duty = 1.1, .passes = 1 }, "duty" },
    { { .speed_m_min = 4, .duty = 1, .passes = 0 }, "passes" },
    { { .speed_m_min = 4, .duty = 1, .passes = 1, .turn_s = -1 }, "turn_s" },
    { { .speed_m_min = 4, .duty = 1, .passes = 1, .obstacles = -1 }, "obstacles" },
    { { .speed_m_min = 4, .duty = 1, .passes = 1, .edge_m = 10 }, "edge_rate_m_h" }, /* walls, but no rate */
    { { .speed_m_min = 4, .duty = 1, .passes = 1, .hand_m2 = 10 }, "hand_rate_m2_h" },
    { { .speed_m_min = 4, .duty = 1, .passes = 1, .setup_min = -5 }, "setup_min" },
    { { .speed_m_min = 4, .duty = 1, .passes = 2, .crosswise = true }, "across" }, /* no second plan */
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    TradeError error = { 0 };
    CoverageTime t = { .total_min = -1 };
    assert_false(coverage_time(&cases[i].step, &along, NULL, &t, &error));
    assert_string_equal(error.argument, cases[i].argument);
    assert_near(t.total_min, -1, 0);
  }
}

static void lanes_that_no_floor_has_are_refused(void **state)
{
  (void)state;
  static const struct { LanePlan plan; const char *argument; } cases[] = {
    { { .turns = -1, .travel_m = 100 }, "turns" },
    { { .turns = 1000001, .travel_m = 100 }, "turns" }, /* times a thousand passes it would leave an int */
    { { .turns = 9, .travel_m = -1 }, "travel_m" },
    { { .turns = 9, .travel_m = INFINITY }, "travel_m" },
  };
  const CoverageStep step = { .speed_m_min = 4, .duty = 1, .passes = 4, .crosswise = true };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    TradeError error = { 0 };
    CoverageTime t = { .total_min = -1 };
    assert_false(coverage_time(&step, &cases[i].plan, &along, &t, &error));
    assert_string_equal(error.argument, cases[i].argument);
    assert_false(coverage_time(&step, &along, &cases[i].plan, &t, &error));
    assert_string_equal(error.argument, cases[i].argument);
    assert_near(t.total_min, -1, 0);
  }
}

static void heads_fall_into_the_three_classes_of_the_trade(void **state)
{
  (void)state;
  static const struct { double head_in; CoverageHead want; } cases[] = {
    { 20, COVERAGE_HEAD_SMALL }, { 22, COVERAGE_HEAD_SMALL }, { 26, COVERAGE_HEAD_MEDIUM },
    { 28, COVERAGE_HEAD_MEDIUM }, { 30, COVERAGE_HEAD_LARGE }, { 38, COVERAGE_HEAD_LARGE },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    CoverageHead got;
    assert_true(coverage_head_class(cases[i].head_in * M_PER_IN, &got, NULL));
    assert_int_equal(got, cases[i].want);
  }
  CoverageHead got;
  TradeError error;
  assert_false(coverage_head_class(7 * M_PER_IN, &got, &error)); /* a hand grinder has no band */
  assert_string_equal(error.argument, "head_m");
}

static void bands_hold_both_of_their_ends(void **state)
{
  (void)state;
  const CoverageBand *band = coverage_band(COVERAGE_METAL, COVERAGE_HEAD_LARGE);
  static const struct { double rate_sqft_h; CoverageVerdict want; } cases[] = {
    { 449.9, COVERAGE_SLOW }, { 450.0001, COVERAGE_USUAL }, { 720, COVERAGE_USUAL }, { 1099.9999, COVERAGE_USUAL },
    { 1100.1, COVERAGE_FAST },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    CoverageVerdict got;
    assert_true(coverage_judge(band, cases[i].rate_sqft_h * M2_PER_SQFT, &got, NULL));
    assert_int_equal(got, cases[i].want);
  }
  assert_null(coverage_band(COVERAGE_GROUT, COVERAGE_HEAD_SMALL)); /* the trade gives none */
  CoverageVerdict got;
  assert_false(coverage_judge(band, -1, &got, NULL));
}

static void a_step_belongs_to_a_class_by_its_tool(void **state)
{
  (void)state;
  static const struct { BondFamily bond; double grit; bool wet, opening; CoverageStepClass want; } cases[] = {
    { BOND_SCRAPER, 0, false, true, COVERAGE_SCRAPE },
    { BOND_METAL, 30, false, true, COVERAGE_FIRST_METAL },
    { BOND_METAL, 80, false, false, COVERAGE_METAL },
    { BOND_TRANSITIONAL, 100, false, false, COVERAGE_TRANSITIONAL },
    { BOND_RESIN, 200, false, false, COVERAGE_RESIN_COARSE },
    { BOND_RESIN, 400, false, false, COVERAGE_RESIN_DRY },
    { BOND_RESIN, 100, true, true, COVERAGE_RESIN_WET }, /* a resin that opens a floor is no metal */
    { BOND_FIBRE, 3000, false, false, COVERAGE_RESIN_DRY },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_int_equal(coverage_step_class(cases[i].bond, cases[i].grit, cases[i].wet, cases[i].opening),
                     cases[i].want);
}

static void walking_speeds_are_known_for_metals_and_resins(void **state)
{
  (void)state;
  assert_near(coverage_usual_speed(BOND_METAL)->high_ft_min, 20, 0);
  assert_near(coverage_usual_speed(BOND_RESIN)->low_ft_min, 15, 0);
  assert_null(coverage_usual_speed(BOND_FIBRE));
}

static void larger_heads_are_never_slower_in_the_bands(void **state)
{
  (void)state;
  for (int step = 0; step < COVERAGE_STEP_CLASSES; step++)
    for (int head = COVERAGE_HEAD_MEDIUM; head < COVERAGE_HEAD_CLASSES; head++) {
      const CoverageBand *small = coverage_band((CoverageStepClass)step, (CoverageHead)(head - 1));
      const CoverageBand *large = coverage_band((CoverageStepClass)step, (CoverageHead)head);
      assert_true(large->low_sqft_h < large->high_sqft_h);
      if (small) assert_true(small->low_sqft_h < large->low_sqft_h && small->high_sqft_h < large->high_sqft_h);
    }
  for (size_t i = 0; coverage_other(i); i++) assert_true(coverage_other(i)->low < coverage_other(i)->high);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_rate_is_swept_width_times_speed_over_passes),
    cmocka_unit_test(the_parts_of_a_step_add_up),
    cmocka_unit_test(crosswise_passes_alternate_and_an_odd_one_goes_along),
    cmocka_unit_test(a_real_floor_is_slower_than_open_field_by_its_turns_alone),
    cmocka_unit_test(a_bad_step_is_refused_by_field_and_nothing_is_set),
    cmocka_unit_test(lanes_that_no_floor_has_are_refused),
    cmocka_unit_test(heads_fall_into_the_three_classes_of_the_trade),
    cmocka_unit_test(bands_hold_both_of_their_ends),
    cmocka_unit_test(a_step_belongs_to_a_class_by_its_tool),
    cmocka_unit_test(walking_speeds_are_known_for_metals_and_resins),
    cmocka_unit_test(larger_heads_are_never_slower_in_the_bands),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
