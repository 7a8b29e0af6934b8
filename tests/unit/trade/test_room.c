/* test_room.c - gas in a well-mixed room, and solvent vapour in it. */
#include "support.h"

#include "refused.h"
#include "trade/room.h"
#include "trade/solvent.h"

static const Room shop = { 1000, 2000, 1 }; /* two air changes an hour */

static void a_long_emission_settles_where_gas_over_air_says(void **state)
{
  (void)state;
  RoomAir air;
  assert_true(room_air(&shop, 0.1, 24, 0, &air, NULL));
  assert_near(air.steady_ppm, 50, 1e-9);
  assert_near(air.end_ppm, 50, 1e-9);
  assert_true(air.average_ppm < air.end_ppm);
}

/* The balance V dC/dt = G - Q C / k stepped in small steps must meet the closed form. */
static void the_closed_form_meets_a_stepped_balance(void **state)
{
  (void)state;
  const Room room = { 800, 1500, 3 };
  const double gas_m3_h = 0.2, hours = 1.5, start_ppm = 30;
  const int steps = 20000;
  double ppm = start_ppm, sum = 0, step_h = hours / steps, air_m3_h = room.fresh_air_m3_h / room.mixing;
  for (int i = 0; i < steps; i++) {
    double rate = (gas_m3_h * 1e6 - air_m3_h * ppm) / room.volume_m3;
    double middle = ppm + rate * step_h / 2;
    ppm += (gas_m3_h * 1e6 - air_m3_h * middle) / room.volume_m3 * step_h;
    sum += middle * step_h;
  }
  RoomAir air;
  assert_true(room_air(&room, gas_m3_h, hours, start_ppm, &air, NULL));
  assert_near(air.end_ppm, ppm, 1e-4);
  assert_near(air.average_ppm, sum / hours, 1e-4);
}

static void without_fresh_air_gas_piles_up_and_never_settles(void **state)
{
  (void)state;
  const Room closed = { 1000, 0, 1 };
  RoomAir air;
  assert_true(room_air(&closed, 0.1, 2, 10, &air, NULL));
  assert_near(air.end_ppm, 210, 1e-9);
  assert_near(air.average_ppm, 110, 1e-9);
  assert_true(isinf(air.steady_ppm));
}

static void poor_mixing_needs_more_air(void **state)
{
  (void)state;
  const Room corners = { 1000, 2000, 4 };
  double well_m3_h, poorly_m3_h;
  assert_true(room_air_needed(&shop, 0.1, 35, &well_m3_h, NULL));
  assert_true(room_air_needed(&corners, 0.1, 35, &poorly_m3_h, NULL));
  assert_near(poorly_m3_h, 4 * well_m3_h, 1e-6);
  RoomAir air;
  assert_true(room_air(&(Room){ 1000, poorly_m3_h, 4 }, 0.1, 8, 0, &air, NULL));
  assert_near(air.steady_ppm, 35, 1e-9); /* the air that was asked for does what was asked */
}

static void airing_out_halves_in_ln_two_air_changes(void **state)
{
  (void)state;
  double hours;
  assert_true(room_clears_in(&shop, 100, 50, &hours, NULL));
  assert_near(hours, log(2) / 2, 1e-12);
  assert_true(room_clears_in(&shop, 40, 50, &hours, NULL));
  assert_near(hours, 0, 0);
}

static void rooms_that_cannot_be_are_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  const Room closed = { 1000, 0, 1 }, nowhere = { 0, 100, 1 }, magic = { 100, 100, 0.5 };
  RoomAir air = { .end_ppm = 7 };
  double x = 7;
  assert_refused(room_air(&nowhere, 1, 1, 0, &air, &error), TRADE_OUT_OF_RANGE, "volume_m3");
  assert_refused(room_air(&magic, 1, 1, 0, &air, &error), TRADE_OUT_OF_RANGE, "mixing");
  assert_refused(room_air(&shop, NAN, 1, 0, &air, &error), TRADE_NOT_FINITE, "gas_m3_h");
  assert_refused(room_air(&closed, 1000, 10, 0, &air, &error), TRADE_NO_ANSWER, "gas_m3_h");
  assert_refused(room_clears_in(&closed, 100, 50, &x, &error), TRADE_NO_ANSWER, "fresh_air_m3_h");
  assert_refused(room_air_needed(&shop, 1, 0, &x, &error), TRADE_OUT_OF_RANGE, "goal_ppm");
  assert_refused(room_molar_volume(200, &x, &error), TRADE_OUT_OF_RANGE, "temperature_c");
  assert_near(air.end_ppm, 7, 0);
  assert_near(x, 7, 0);
}

static void vapour_in_a_closed_room_is_vapour_over_volume(void **state)
{
  (void)state;
  const Solvent *acetone;
  const Room closed = { 1000, 0, 1 };
  SolventAir air;
  double vapour_m3;
  assert_true(solvent_find("acetone", &acetone, NULL));
  assert_true(solvent_vapour(acetone, 10, 22, &vapour_m3, NULL));
  assert_true(solvent_in_room(acetone, 10, 22, 0.5, &closed, &air, NULL));
  assert_near(air.air.end_ppm, vapour_m3 * 1000, 1e-6);
  assert_near(air.lel_share, vapour_m3 / 1000 / 0.025, 1e-12);
}

static void the_dilution_air_brings_the_vapour_to_its_share(void **state)
{
  (void)state;
  const Solvent *acetone = solvent_at(0);
  double air_m3, vapour_m3;
  assert_true(solvent_dilution_air(acetone, 3, 20, 0.25, &air_m3, NULL));
  assert_true(solvent_vapour(acetone, 3, 20, &vapour_m3, NULL));
  assert_near(vapour_m3 / air_m3, 0.25 * 0.025, 1e-12);
}

static void bad_solvents_are_refused(void **state)
{
  (void)state;
  TradeError error = { 0 };
  const Solvent *solvent = NULL;
  double x = 7;
  SolventAir air = { .lel_share = 7 };
  assert_refused(solvent_find("rocket fuel", &solvent, &error), TRADE_UNKNOWN, "name");
  assert_refused(solvent_vapour(solvent_at(0), -1, 20, &x, &error), TRADE_OUT_OF_RANGE, "liquid_l");
  assert_refused(solvent_dilution_air(solvent_at(0), 1, 20, 0, &x, &error), TRADE_OUT_OF_RANGE, "lel_share");
  assert_refused(solvent_in_room(solvent_at(0), 1, 20, 0, &shop, &air, &error), TRADE_OUT_OF_RANGE, "hours");
  assert_null(solvent);
  assert_near(x, 7, 0);
  assert_near(air.lel_share, 7, 0);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_long_emission_settles_where_gas_over_air_says),
    cmocka_unit_test(the_closed_form_meets_a_stepped_balance),
    cmocka_unit_test(without_fresh_air_gas_piles_up_and_never_settles),
    cmocka_unit_test(poor_mixing_needs_more_air),
    cmocka_unit_test(airing_out_halves_in_ln_two_air_changes),
    cmocka_unit_test(rooms_that_cannot_be_are_refused),
    cmocka_unit_test(vapour_in_a_closed_room_is_vapour_over_volume),
    cmocka_unit_test(the_dilution_air_brings_the_vapour_to_its_share),
    cmocka_unit_test(bad_solvents_are_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
