/* test_planetary.c - density of sliding under a planetary head. */
#include <string.h>

#include "support.h"
#include "trade/planetary.h"

static const double pi = 3.14159265358979323846;

/* One point on one ring of 0.25 m, 100 rpm, hardly travelling. */
static const Planetary ring = {
  .planets = 1, .tool_orbit_m = 0.25, .tools = 1, .planet_rpm = 100, .travel_m_min = 0.1
};
/* A usual head: three planets against the head's turn, three tools each. */
static const Planetary usual = { .orbit_m = 0.22, .planets = 3, .tool_orbit_m = 0.09, .tools = 3,
                                 .tool_radius_m = 0.04, .head_rpm = -60, .planet_rpm = 700, .travel_m_min = 6 };

static PlanetaryPass pass_of(const Planetary *head)
{
  PlanetaryPass pass;
  assert_true(planetary_pass(head, &pass, NULL));
  return pass;
}

/* A point on a ring of radius R spends its time as 1 / (pi sqrt(R^2 - x^2)) across it, so a strip holds the
 * difference of the arc sines of its edges. */
static void a_single_ring_has_its_closed_form(void **state)
{
  (void)state;
  PlanetaryPass pass = pass_of(&ring);
  double radius_m = 0.25, speed_m_s = 2 * pi * radius_m * 100 / 60, travel_m_s = 0.1 / 60;
  assert_near(pass.swath_m, 0.5, 1e-12);
  assert_near(pass.speed_m_s, speed_m_s, 1e-5);
  for (int i = 0; i < PLANETARY_STRIPS; i++) {
    double left_m = -radius_m + i * pass.strip_m;
    double share = (asin((left_m + pass.strip_m) / radius_m * (1 - 1e-15)) - asin(left_m / radius_m)) / pi;
    double want = share * speed_m_s / (travel_m_s * pass.strip_m);
    assert_near(pass.density[i] / want, 1, 0.01);
  }
}

static void the_density_adds_up_to_the_path_of_all_tools(void **state)
{
  (void)state;
  PlanetaryPass pass = pass_of(&usual);
  double sum = 0;
  for (int i = 0; i < PLANETARY_STRIPS; i++) sum += pass.density[i] * pass.strip_m;
  assert_near(sum, 9 * pass.speed_m_s / (6 / 60.0), 1e-6 * sum); /* nine tools; per metre of travel */
  assert_near(pass.mean * pass.swath_m, sum, 1e-9 * sum);
}

static void slower_travel_lays_more_path_and_leaves_its_shape(void **state)
{
  (void)state;
  Planetary slow = usual;
  slow.travel_m_min = usual.travel_m_min / 2;
  PlanetaryPass fast_pass = pass_of(&usual), slow_pass = pass_of(&slow);
  assert_near(slow_pass.mean / fast_pass.mean, 2, 0.001);
  assert_near(slow_pass.variation, fast_pass.variation, 0.005);
}

static void both_sides_of_the_swath_get_nearly_the_same(void **state)
{
  (void)state;
  PlanetaryPass pass = pass_of(&usual);
  double left = 0, right = 0;
  for (int i = 0; i < PLANETARY_STRIPS / 2; i++) {
    left += pass.density[i];
    right += pass.density[PLANETARY_STRIPS - 1 - i];
  }
  assert_near(left / right, 1, 0.02); /* travel adds to the speed on one side and takes from it on the other */
}

static void more_motion_is_more_even_than_a_plain_ring(void **state)
{
  (void)state;
  PlanetaryPass plain = pass_of(&ring), planets = pass_of(&usual);
  assert_true(planets.variation < plain.variation);
}

static void the_mean_speed_of_a_plain_plate_is_two_thirds_of_its_rim(void **state)
{
  (void)state;
  const Planetary plate = {
    .planets = 1, .tools = 1, .tool_radius_m = 0.25, .planet_rpm = 100, .travel_m_min = 0.1
  };
  PlanetaryPass pass = pass_of(&plate);
  assert_near(pass.speed_m_s / (2 * pi * 0.25 * 100 / 60), 2 / 3.0, 0.01); /* three rings stand for the face */
}

static void a_tool_on_the_heads_own_arm_is_a_ring_of_that_arm(void **state)
{
  (void)state;
  const Planetary arm = { .orbit_m = 0.25, .planets = 1, .tools = 1, .head_rpm = 100, .travel_m_min = 0.1 };
  PlanetaryPass by_head = pass_of(&arm), by_planet = pass_of(&ring);
  assert_near(by_head.speed_m_s, by_planet.speed_m_s, 1e-9);
  assert_near(by_head.variation, by_planet.variation, 1e-9);
}

/* Planet and head locked: of two tools, one runs on a ring of twice the arm and one stays on the axis. */
static void tools_stand_evenly_round_their_planet(void **state)
{
  (void)state;
  const Planetary locked = { .orbit_m = 0.1, .planets = 1, .tool_orbit_m = 0.1, .tools = 2, .head_rpm = 100,
                             .planet_rpm = 100, .travel_m_min = 0.001 };
  PlanetaryPass pass = pass_of(&locked);
  assert_near(pass.speed_m_s, 2 * pi * 0.2 * 100 / 60 / 2, 1e-4);
}

static void lanes_side_by_side_superpose(void **state)
{
  (void)state;
  PlanetaryPass pass = pass_of(&usual);
  PlanetaryField whole, half;
  assert_true(planetary_field(&pass, pass.swath_m, &whole, NULL));
  assert_near(whole.mean, pass.mean, 1e-9 * pass.mean); /* touching lanes are one pass each */
  assert_near(whole.variation, pass.variation, 1e-9);
  assert_true(planetary_field(&pass, pass.swath_m / 2, &half, NULL));
  assert_near(half.mean, 2 * pass.mean, 1e-9 * pass.mean);
  double squares = 0;
  for (int i = 0; i < PLANETARY_STRIPS / 2; i++) {
    double both = pass.density[i] + pass.density[i + PLANETARY_STRIPS / 2];
    squares += (both / half.mean - 1) * (both / half.mean - 1);
  }
  assert_near(half.variation, sqrt(squares / (PLANETARY_STRIPS / 2)), 1e-9);
}

static void the_mean_of_a_field_is_the_path_over_the_pitch(void **state)
{
  (void)state;
  PlanetaryPass pass = pass_of(&usual);
  for (double pitch_m = 0.05; pitch_m < pass.swath_m; pitch_m += 0.0613) {
    PlanetaryField field;
    assert_true(planetary_field(&pass, pitch_m, &field, NULL));
    assert_near(field.mean, pass.mean * pass.swath_m / pitch_m, 1e-9 * field.mean);
  }
}

static void the_same_head_gives_the_same_bytes(void **state)
{
  (void)state;
  PlanetaryPass one = pass_of(&usual), other = pass_of(&usual);
  assert_memory_equal(one.density, other.density, sizeof one.density);
}

static void a_head_that_cannot_be_is_refused_by_field(void **state)
{
  (void)state;
  Planetary heads[9];
  for (size_t i = 0; i < 9; i++) heads[i] = usual;
  heads[0].planets = 0;
  heads[1].tools = 25;
  heads[2].orbit_m = -0.1;
  heads[3].travel_m_min = 0;
  heads[4].head_rpm = NAN;
  heads[5].head_rpm = heads[5].planet_rpm = 0;
  heads[6].orbit_m = heads[6].tool_orbit_m = heads[6].tool_radius_m = 0;
  heads[7].planet_rpm = 6000;
  heads[8].travel_m_min = INFINITY;
  static const char *const arguments[] = { "planets", "tools", "orbit_m", "travel_m_min", "head_rpm",
                                           "head_rpm", "swath_m", "planet_rpm", "travel_m_min" };
  for (size_t i = 0; i < 9; i++) {
    TradeError error = { 0 };
    PlanetaryPass pass = { .mean = -1 };
    assert_false(planetary_pass(&heads[i], &pass, &error));
    assert_string_equal(error.argument, arguments[i]);
    assert_near(pass.mean, -1, 0);
  }
  PlanetaryPass pass = pass_of(&usual);
  PlanetaryField field;
  TradeError error = { 0 };
  assert_false(planetary_field(&pass, pass.swath_m * 1.01, &field, &error)); /* strips left bare */
  assert_string_equal(error.argument, "pitch_m");
  assert_false(planetary_field(&pass, 0, &field, NULL));
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_single_ring_has_its_closed_form),
    cmocka_unit_test(the_density_adds_up_to_the_path_of_all_tools),
    cmocka_unit_test(slower_travel_lays_more_path_and_leaves_its_shape),
    cmocka_unit_test(both_sides_of_the_swath_get_nearly_the_same),
    cmocka_unit_test(more_motion_is_more_even_than_a_plain_ring),
    cmocka_unit_test(the_mean_speed_of_a_plain_plate_is_two_thirds_of_its_rim),
    cmocka_unit_test(a_tool_on_the_heads_own_arm_is_a_ring_of_that_arm),
    cmocka_unit_test(tools_stand_evenly_round_their_planet),
    cmocka_unit_test(lanes_side_by_side_superpose),
    cmocka_unit_test(the_mean_of_a_field_is_the_path_over_the_pitch),
    cmocka_unit_test(the_same_head_gives_the_same_bytes),
    cmocka_unit_test(a_head_that_cannot_be_is_refused_by_field),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
