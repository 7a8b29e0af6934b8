/* test_removal.c - depth of a pass, scratches, and the passes to clear them. */
#include <string.h>

#include "support.h"
#include "trade/removal.h"

static RemovalClearing clearing(double last, BondFamily bond, double next, double mohs)
{
  RemovalClearing c;
  RemovalStep step = { { GRIT_PAD, last }, { GRIT_PAD, next }, bond, mohs, NULL, NULL };
  assert_true(removal_clear(&step, &c, NULL));
  return c;
}

/* On a medium slab, under the family's own reference condition. */
static int passes_to_clear(double last, BondFamily bond, double next)
{
  return clearing(last, bond, next, 4.5).passes;
}

static void usual_chains_clear_their_scratches_in_usual_passes(void **state)
{
  (void)state;
  static const struct { double last; BondFamily bond; double next; int least, most; } cases[] = {
    { 30, BOND_METAL, 60, 1, 4 },         { 60, BOND_METAL, 120, 1, 4 },
    { 80, BOND_METAL, 150, 1, 4 },        { 150, BOND_TRANSITIONAL, 100, 1, 4 },
    { 150, BOND_RESIN, 100, 1, 4 },       { 80, BOND_RESIN, 50, 1, 4 },
    { 50, BOND_RESIN, 100, 2, 8 },        { 100, BOND_RESIN, 200, 2, 8 },
    { 200, BOND_RESIN, 400, 2, 8 },       { 400, BOND_RESIN, 800, 2, 8 },
    { 800, BOND_RESIN, 1500, 2, 8 },      { 1500, BOND_RESIN, 3000, 2, 8 },
    { 400, BOND_FIBRE, 800, 6, 12 }, /* fibre pads: about ten slow passes */
    { 800, BOND_FIBRE, 1500, 6, 12 },     { 1500, BOND_FIBRE, 3000, 6, 12 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    int passes = passes_to_clear(cases[i].last, cases[i].bond, cases[i].next);
    assert_in_range(passes, cases[i].least, cases[i].most);
  }
}

/* 150 kg on the tools of a 30 in head with 2 in of overlap. */
static void the_reference_conditions_are_those_of_a_usual_machine(void **state)
{
  (void)state;
  static const struct { BondFamily bond; double tool_area_m2, travel_ft_min; } cases[] = {
    { BOND_METAL, 0.0072, 15 },        /* nine tools of two segments, 40 by 10 mm */
    { BOND_TRANSITIONAL, 0.0184, 20 }, /* nine tools of 2 in */
    { BOND_RESIN, 0.041, 25 },         /* nine pads of 3 in */
    { BOND_FIBRE, 0.147, 27 },         /* three pads of 10 in */
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    RemovalReference reference;
    double pressure_kpa, contact_s;
    assert_true(removal_reference(cases[i].bond, &reference, NULL));
    assert_true(removal_pressure(150, cases[i].tool_area_m2, &pressure_kpa, NULL));
    assert_true(
        removal_contact(cases[i].tool_area_m2, 28 * 0.0254, cases[i].travel_ft_min * 0.3048, &contact_s, NULL));
    assert_near(reference.at.pressure_kpa / pressure_kpa, 1, 0.03);
    assert_near(reference.at.contact_s / contact_s, 1, 0.03);
    assert_near(reference.at.speed_m_s, 8, 0);
    assert_int_equal(reference.basis.status, TRADE_COMMON_PRACTICE);
  }
}

static void a_pass_takes_off_what_such_a_pass_usually_does(void **state)
{
  (void)state;
  static const struct { BondFamily bond; double grit, least_um, most_um; } cases[] = {
    { BOND_METAL, 16, 400, 800 },         { BOND_METAL, 40, 150, 300 },  { BOND_METAL, 120, 40, 80 },
    { BOND_TRANSITIONAL, 100, 30, 60 },   { BOND_RESIN, 100, 15, 30 },   { BOND_RESIN, 400, 2, 5 },
    { BOND_RESIN, 3000, 0.4, 0.8 },       { BOND_FIBRE, 800, 0.4, 0.8 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    double depth_um = clearing(16, cases[i].bond, cases[i].grit, 4.5).depth_um;
    assert_true(depth_um >= cases[i].least_um && depth_um <= cases[i].most_um);
  }
}

static void a_skipped_grit_takes_more_passes_than_the_grits_between(void **state)
{
  (void)state;
  assert_true(passes_to_clear(100, BOND_RESIN, 800) >
              passes_to_clear(100, BOND_RESIN, 200) + passes_to_clear(200, BOND_RESIN, 400) +
                passes_to_clear(400, BOND_RESIN, 800));
}

static void a_hard_slab_takes_more_passes(void **state)
{
  (void)state;
  double last = INFINITY;
  for (double mohs = 1.5; mohs < 10; mohs++) {
    double factor;
    assert_true(removal_slab_factor(mohs, &factor, NULL));
    assert_true(factor <= last);
    last = factor;
  }
  static const struct { double mohs, factor; } ends[] = { { 3, 2.0 }, { 4, 1.4 }, { 5, 1 }, { 6, 0.7 }, { 7, 0.5 },
                                                          { 10, 0.35 } };
  for (size_t i = 0; i < COUNT_OF(ends); i++) { /* the same ends as the bands of bonds */
    double factor;
    assert_true(removal_slab_factor(ends[i].mohs, &factor, NULL));
    assert_near(factor, ends[i].factor, 0);
  }
  double medium;
  assert_true(removal_slab_factor(4.5, &medium, NULL));
  assert_near(medium, 1, 0);
  assert_true(clearing(100, BOND_RESIN, 200, 6.5).passes > clearing(100, BOND_RESIN, 200, 4.5).passes);
  assert_false(removal_slab_factor(0.9, &medium, NULL));
}

static double depth_with(double mass_kg, double area_m2, double travel_m_min, double speed_m_s)
{
  RemovalReference reference;
  RemovalCondition at = { .speed_m_s = speed_m_s };
  double depth_um;
  assert_true(removal_reference(BOND_METAL, &reference, NULL));
  assert_true(removal_pressure(mass_kg, area_m2, &at.pressure_kpa, NULL));
  assert_true(removal_contact(area_m2, 0.7, travel_m_min, &at.contact_s, NULL));
  assert_true(removal_depth(&reference, &at, 100, 1, &depth_um, NULL));
  return depth_um;
}

static void depth_follows_pressure_speed_and_time(void **state)
{
  (void)state;
  double base_um = depth_with(150, 0.007, 5, 8);
  assert_near(depth_with(150, 0.007, 2.5, 8), 2 * base_um, 1e-9); /* half the walking speed */
  assert_near(depth_with(300, 0.007, 5, 8), 2 * base_um, 1e-9);
  assert_near(depth_with(150, 0.007, 5, 4), base_um / 2, 1e-9);
  /* Twice the segments: half the rate under each, twice the time under one, the same for the floor. */
  assert_near(depth_with(150, 0.014, 5, 8), base_um, 1e-9);
}

static void pressure_is_weight_over_area(void **state)
{
  (void)state;
  double pressure_kpa;
  assert_true(removal_pressure(150, 0.0073549875, &pressure_kpa, NULL));
  assert_near(pressure_kpa, 200, 1e-9);
}

static void a_clearing_shows_every_number_that_leads_to_it(void **state)
{
  (void)state;
  RemovalClearing c = clearing(100, BOND_RESIN, 200, 5.5);
  assert_near(c.last.size_um, 140, 0);
  assert_true(c.next.interpolated);
  assert_near(c.scratch_um, 35, 1e-12);
  assert_near(c.slab_factor, 0.7, 0);
  assert_near(c.depth_um, 0.15 * c.next.size_um * 0.7, 1e-12);
  assert_int_equal(c.passes, 5); /* 35 / 7.8 */
}

static void a_slower_machine_and_a_shops_reference_change_the_clearing(void **state)
{
  (void)state;
  const RemovalCondition slow = { 36, 8, 0.92 };
  RemovalReference own;
  RemovalClearing c;
  RemovalStep step = { { GRIT_PAD, 100 }, { GRIT_PAD, 200 }, BOND_RESIN, 5.5, &slow, NULL };
  assert_true(removal_clear(&step, &c, NULL));
  assert_int_equal(c.passes, 3);
  assert_true(removal_calibrate(&slow, 100, 1, 40, &own, NULL));
  step.reference = &own;
  assert_true(removal_clear(&step, &c, NULL));
  assert_int_equal(c.passes, 2);
}

static void a_clearing_refuses_what_its_parts_refuse(void **state)
{
  (void)state;
  const RemovalCondition still = { 36, 0, 1 };
  const struct { RemovalStep step; const char *argument; } cases[] = {
    { { { GRIT_P, 3000 }, { GRIT_PAD, 200 }, BOND_RESIN, 5, NULL, NULL }, "grit" },
    { { { GRIT_PAD, 100 }, { GRIT_PAD, 200 }, BOND_SCRAPER, 5, NULL, NULL }, "bond" },
    { { { GRIT_PAD, 100 }, { GRIT_PAD, 200 }, BOND_RESIN, 0, NULL, NULL }, "mohs" },
    { { { GRIT_PAD, 100 }, { GRIT_PAD, 200 }, BOND_RESIN, 5, &still, NULL }, "speed_m_s" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    RemovalClearing c = { .passes = -1 };
    TradeError error = { 0 };
    assert_false(removal_clear(&cases[i].step, &c, &error));
    assert_string_equal(error.argument, cases[i].argument);
    assert_int_equal(c.passes, -1);
  }
}

static void a_shops_own_measurement_comes_back_out(void **state)
{
  (void)state;
  const RemovalCondition measured = { 150, 6, 0.2 };
  RemovalReference own;
  double depth_um;
  assert_true(removal_calibrate(&measured, 190, 0.7, 31, &own, NULL));
  assert_int_equal(own.basis.status, TRADE_COMPUTED);
  assert_true(removal_depth(&own, &measured, 190, 0.7, &depth_um, NULL));
  assert_near(depth_um, 31, 1e-12);
  assert_true(
      removal_depth(&own, &measured, 95, 1.4, &depth_um, NULL)); /* half the grain on a slab twice as soft */
  assert_near(depth_um, 31, 1e-12);
}

static void passes_round_up_and_are_never_none(void **state)
{
  (void)state;
  static const struct { double cut_um, depth_um; int passes; } cases[] = {
    { 0, 5, 1 }, { 1, 5, 1 }, { 5, 5, 1 }, { 5.01, 5, 2 }, { 0.3, 0.1, 3 }, { 1587.5, 212.5, 8 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    int passes;
    assert_true(removal_passes(cases[i].cut_um, cases[i].depth_um, &passes, NULL));
    assert_int_equal(passes, cases[i].passes);
  }
}

static void removal_refuses_what_makes_no_sense(void **state)
{
  (void)state;
  TradeError error = { 0 };
  RemovalReference reference = { .share = -1 };
  double out = -1;
  int passes = -1;
  assert_false(removal_reference(BOND_SCRAPER, &reference, &error));
  assert_string_equal(error.argument, "bond");
  assert_near(reference.share, -1, 0);
  assert_true(removal_reference(BOND_RESIN, &reference, NULL));
  static const struct { RemovalCondition at; double grain_um, slab; const char *argument; } cases[] = {
    { { 0, 8, 1 }, 100, 1, "pressure_kpa" }, { { 36, NAN, 1 }, 100, 1, "speed_m_s" },
    { { 36, 8, 0 }, 100, 1, "contact_s" },   { { 36, 8, 1 }, 0, 1, "grain_um" },
    { { 36, 8, 1 }, 100, 0, "slab_factor" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    assert_false(removal_depth(&reference, &cases[i].at, cases[i].grain_um, cases[i].slab, &out, &error));
    assert_string_equal(error.argument, cases[i].argument);
  }
  assert_false(removal_pressure(150, 0, &out, &error));
  assert_string_equal(error.argument, "tool_area_m2");
  assert_false(removal_contact(0.01, 0.7, 0, &out, &error));
  assert_string_equal(error.argument, "travel_m_min");
  assert_false(removal_contact(0, 0.7, 5, &out, &error));
  assert_string_equal(error.argument, "tool_area_m2");
  assert_false(removal_passes(-1, 5, &passes, &error));
  assert_string_equal(error.argument, "cut_um");
  assert_false(removal_passes(1, 0, &passes, &error));
  assert_string_equal(error.argument, "depth_um");
  reference.share = 0;
  assert_false(removal_depth(&reference, &reference.at, 100, 1, &out, &error));
  assert_string_equal(error.argument, "share");
  assert_false(removal_scratch(100, 1.5, &out, &error));
  assert_string_equal(error.argument, "share");
  assert_false(removal_passes(1e6, 0.001, &passes, &error));
  assert_string_equal(error.argument, "passes");
  assert_near(out, -1, 0);
  assert_int_equal(passes, -1);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(usual_chains_clear_their_scratches_in_usual_passes),
    cmocka_unit_test(the_reference_conditions_are_those_of_a_usual_machine),
    cmocka_unit_test(a_pass_takes_off_what_such_a_pass_usually_does),
    cmocka_unit_test(a_skipped_grit_takes_more_passes_than_the_grits_between),
    cmocka_unit_test(a_hard_slab_takes_more_passes),
    cmocka_unit_test(depth_follows_pressure_speed_and_time),
    cmocka_unit_test(pressure_is_weight_over_area),
    cmocka_unit_test(a_clearing_shows_every_number_that_leads_to_it),
    cmocka_unit_test(a_slower_machine_and_a_shops_reference_change_the_clearing),
    cmocka_unit_test(a_clearing_refuses_what_its_parts_refuse),
    cmocka_unit_test(a_shops_own_measurement_comes_back_out),
    cmocka_unit_test(passes_round_up_and_are_never_none),
    cmocka_unit_test(removal_refuses_what_makes_no_sense),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
