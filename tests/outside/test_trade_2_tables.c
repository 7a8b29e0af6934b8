/* test_trade_2_tables.c - formulas against every cell of published tables. The publication stands beside each; one
 * that was not seen again is marked "from memory". */
#include "support.h"

#include <gsl/gsl_const_mksa.h>

#include "trade/chemistry.h"
#include "trade/climate.h"
#include "trade/customary.h"
#include "trade/dust.h"
#include "trade/lifting.h"
#include "trade/noise.h"
#include "trade/power.h"
#include "trade/room.h"
#include "trade/slip.h"
#include "trade/vibration.h"
#include "trade/water.h"

static double allowed_hours(const char *id, double level_dba)
{
  const NoiseCriterion *criterion;
  double hours;
  assert_true(noise_criterion(id, &criterion, NULL));
  assert_true(noise_allowed_hours(criterion, level_dba, &hours, NULL));
  return hours;
}

/* 29 CFR 1910.95 Table G-16a, federal regulation text: one decimal, two under an hour, three at 120 dBA. */
static void every_cell_of_table_g16a_is_the_formula_rounded(void **state)
{
  (void)state;
  size_t rows;
  const NoiseTableRow *table = noise_table_g16a(&rows);
  assert_int_equal(rows, 32);
  for (size_t i = 0; i < rows; i++) {
    double last_place = table[i].hours >= 1 ? 0.1 : 0.01;
    assert_near(allowed_hours("osha hearing", table[i].level_dba), table[i].hours, last_place / 2 + 1e-9);
  }
}

/* 29 CFR 1926.52 Table D-2, regulation text: rounded to quarter and half hours. */
static void every_cell_of_table_d2_is_the_formula_within_two_percent(void **state)
{
  (void)state;
  size_t rows;
  const NoiseTableRow *table = noise_table_d2(&rows);
  assert_int_equal(rows, 9);
  for (size_t i = 0; i < rows; i++)
    assert_near(allowed_hours("osha permissible", table[i].level_dba) / table[i].hours, 1, 0.02);
}

/* NIOSH table of allowed times, federal health agency page. */
static void niosh_times_come_out(void **state)
{
  (void)state;
  static const struct { double level_dba, minutes; } cells[] = {
    { 85, 480 }, { 88, 240 }, { 91, 120 }, { 94, 60 }, { 97, 30 }, { 100, 15 }
  };
  for (size_t i = 0; i < COUNT_OF(cells); i++)
    assert_near(allowed_hours("niosh", cells[i].level_dba) * 60, cells[i].minutes, 1e-9);
}

/* 29 CFR 1910.95 appendix A, Table A-1, from memory. */
static void doses_convert_to_averages_as_in_table_a1(void **state)
{
  (void)state;
  static const struct { double dose_percent, average_dba; } cells[] = {
    { 10, 73.4 },  { 25, 80.0 },  { 50, 85.0 },  { 75, 87.9 },   { 100, 90.0 },  { 150, 92.9 },
    { 200, 95.0 }, { 300, 97.9 }, { 400, 100.0 }, { 500, 101.6 }, { 999, 106.6 },
  };
  const NoiseCriterion *criterion;
  assert_true(noise_criterion("osha hearing", &criterion, NULL));
  for (size_t i = 0; i < COUNT_OF(cells); i++) {
    double average_dba;
    assert_true(noise_average(criterion, cells[i].dose_percent, &average_dba, NULL));
    assert_near(average_dba, cells[i].average_dba, 0.051);
  }
}

/* National regulator's ready-reckoner of hand-arm points, whole numbers, from memory. */
static void hand_arm_points_come_out(void **state)
{
  (void)state;
  static const double hours[] = { 0.25, 0.5, 1, 2, 3, 4, 5, 6, 8 };
  static const struct { double a_m_s2; int points[COUNT_OF(hours)]; } rows[] = {
    { 2.5, { 3, 6, 13, 25, 38, 50, 63, 75, 100 } },
    { 3, { 5, 9, 18, 36, 54, 72, 90, 108, 144 } },
    { 5, { 13, 25, 50, 100, 150, 200, 250, 300, 400 } },
    { 10, { 50, 100, 200, 400, 600, 800, 1000, 1200, 1600 } },
  };
  for (size_t r = 0; r < COUNT_OF(rows); r++)
    for (size_t h = 0; h < COUNT_OF(hours); h++) {
      double points;
      assert_true(vibration_points(&(Exposure){ rows[r].a_m_s2, hours[h] }, 1, &points, NULL));
      assert_near(points, rows[r].points[h], 0.5 + 1e-9);
    }
}

/* Menzel 1954 and Lerch 1957, drying-tendency table as reprinted in cement-industry handbooks, from memory. Slab
 * and air at 70 degF. The last figure of a row is the equation's own, computed by hand. */
static void the_drying_table_comes_out(void **state)
{
  (void)state;
  static const struct { double rh, wind_mph, table, formula; } cells[] = {
    { 0.9, 10, 0.020, 0.0205 }, { 0.7, 10, 0.062, 0.0615 }, { 0.5, 10, 0.100, 0.1025 },
    { 0.3, 10, 0.135, 0.1435 }, { 0.1, 10, 0.175, 0.1845 }, { 0.7, 0, 0.015, 0.0123 },
    { 0.7, 5, 0.038, 0.0369 },  { 0.7, 20, 0.110, 0.1107 }, { 0.7, 25, 0.135, 0.1353 },
  };
  for (size_t i = 0; i < COUNT_OF(cells); i++) {
    Evaporation us, si;
    assert_true(climate_evaporation_us(70, 70, cells[i].rh, cells[i].wind_mph, &us, NULL));
    assert_near(us.rate, cells[i].table, 0.012);
    assert_near(us.rate, cells[i].formula, 0.00006);
    assert_true(climate_evaporation(38 / 1.8, 38 / 1.8, cells[i].rh, cells[i].wind_mph * MILE_KM, &si, NULL));
    assert_near(si.rate / us.rate, POUND_KG / SQFT_M2, 0.005); /* the two lines of the trade agree */
  }
}

/* Dew points by three sets of constants: Alduchov and Eskridge 1996, the Tetens type of a university weather
 * network, WMO guide No. 8 (from memory). */
static void dew_points_by_three_sets_of_constants_come_out(void **state)
{
  (void)state;
  static const struct { double air_c, rh, dew_c[3]; } rows[] = {
    { 20, 0.6, { 12.00, 12.00, 12.00 } }, { 25, 0.5, { 13.86, 13.86, 13.85 } },
    { 30, 0.8, { 26.17, 26.17, 26.17 } }, { 10, 0.9, { 8.43, 8.44, 8.43 } },
    { 35, 0.3, { 14.85, 14.83, 14.84 } },
  };
  for (size_t r = 0; r < COUNT_OF(rows); r++)
    for (size_t f = 0; f < 3; f++) {
      double dew_c;
      assert_true(climate_dew_point_by(&climate_magnus_forms[f], rows[r].air_c, rows[r].rh, &dew_c, NULL));
      assert_near(dew_c, rows[r].dew_c[f], 0.0051);
    }
  /* An instrument maker's base-ten constants, instrument page: within 0.02 degC of the first form. */
  const MagnusForm *base_ten = &climate_magnus_forms[3];
  for (size_t r = 0; r < COUNT_OF(rows); r++) {
    double dew_c;
    assert_true(climate_dew_point_by(base_ten, rows[r].air_c, rows[r].rh, &dew_c, NULL));
    assert_near(dew_c, rows[r].dew_c[0], 0.02);
  }
}

/* Vapour pressure of water, any handbook of chemistry and physics, from memory; the Magnus form is within 0.4 %. */
static void saturation_pressures_come_out(void **state)
{
  (void)state;
  static const struct { double temperature_c, hpa; } cells[] = {
    { 0, 6.11 }, { 10, 12.28 }, { 20, 23.39 }, { 30, 42.47 }, { 40, 73.85 }
  };
  for (size_t i = 0; i < COUNT_OF(cells); i++) {
    double hpa;
    assert_true(climate_saturation_pressure(cells[i].temperature_c, &hpa, NULL));
    assert_near(hpa / cells[i].hpa, 1, 0.004);
  }
}

/* NEC chapter 9 table 8, two electrical reference pages: the columns in feet and in metres say the same, and area
 * times resistance is the K of 12.9 of the handbooks within 3 %. */
static void the_columns_of_nec_table_8_agree(void **state)
{
  (void)state;
  static const struct { int awg; double circular_mils, ohm_kft, ohm_km; } printed[] = {
    { 14, 4110, 3.07, 10.07 }, { 12, 6530, 1.93, 6.33 },  { 10, 10380, 1.21, 3.97 }, { 8, 16510, 0.764, 2.51 },
    { 6, 26240, 0.491, 1.61 }, { 4, 41740, 0.308, 1.01 }, { 3, 52620, 0.245, 0.804 }, { 2, 66360, 0.194, 0.636 },
  };
  for (size_t i = 0; i < COUNT_OF(printed); i++) {
    const Conductor *c;
    assert_true(power_conductor(printed[i].awg, &c, NULL));
    assert_near(c->circular_mils, printed[i].circular_mils, 0);
    assert_near(c->ohm_kft, printed[i].ohm_kft, 0);
    assert_near(c->ohm_km, printed[i].ohm_km, 0);
    assert_near(c->ohm_kft / FOOT_M, c->ohm_km, 0.006);
    assert_near(c->circular_mils * c->ohm_kft / 1000 / 12.9, 1, 0.03);
  }
}

/* Worked by hand from the two forms and NEC chapter 9 table 8. */
static void voltage_drops_come_out(void **state)
{
  (void)state;
  static const struct {
    PowerPhases phases;
    double volts, amps, run_ft;
    int awg;
    double drop_v, percent;
  } cases[] = {
    { POWER_SINGLE_PHASE, 120, 20, 100, 12, 7.72, 6.43 },
    { POWER_SINGLE_PHASE, 120, 20, 100, 10, 4.84, 4.03 },
    { POWER_SINGLE_PHASE, 120, 20, 100, 8, 3.06, 2.55 },
    { POWER_THREE_PHASE, 208, 30, 150, 8, 5.95, 2.86 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    const Conductor *c;
    VoltageDrop drop;
    assert_true(power_conductor(cases[i].awg, &c, NULL));
    PowerLine line = { cases[i].phases, cases[i].volts, cases[i].amps, c->ohm_kft };
    assert_true(power_drop(&line, cases[i].run_ft * FOOT_M, &drop, NULL));
    assert_near(drop.volts, cases[i].drop_v, 0.0051);
    assert_near(drop.share * 100, cases[i].percent, 0.0051);
  }
}

/* 29 CFR 1926.1153(c) Table 1: trade-press reproduction and state regulation text, handheld grinders and drills
 * from memory. */
static void every_cell_of_silica_table_1_stands(void **state)
{
  (void)state;
  static const struct { const char *equipment, *method; DustPlace place; int short_apf, long_apf; } rows[] = {
    { "floor grinder", "wet", DUST_OUTDOORS, 0, 0 },
    { "floor grinder", "wet", DUST_INDOORS, 0, 0 },
    { "floor grinder", "collector", DUST_OUTDOORS, 0, 0 },
    { "floor grinder", "collector", DUST_INDOORS, 0, 0 },
    { "handheld grinder", "wet", DUST_OUTDOORS, 0, 0 },
    { "handheld grinder", "collector", DUST_OUTDOORS, 0, 0 },
    { "handheld grinder", "collector", DUST_INDOORS, 0, 10 },
    { "mortar grinder", "collector", DUST_OUTDOORS, 10, 25 },
    { "mortar grinder", "collector", DUST_INDOORS, 10, 25 },
    { "drill", "collector", DUST_OUTDOORS, 0, 0 },
    { "drill", "collector", DUST_INDOORS, 0, 0 },
    { "handheld saw", "wet", DUST_OUTDOORS, 0, 10 },
    { "handheld saw", "wet", DUST_INDOORS, 10, 10 },
    { "walk-behind saw", "wet", DUST_OUTDOORS, 0, 0 },
    { "walk-behind saw", "wet", DUST_INDOORS, 10, 10 },
  };
  for (size_t i = 0; i < COUNT_OF(rows); i++) {
    DustVerdict short_task, long_task;
    DustTask task = { rows[i].equipment, rows[i].method, rows[i].place, 4, ~0u };
    assert_true(dust_check(&task, &short_task, NULL));
    task.hours = 4.01;
    assert_true(dust_check(&task, &long_task, NULL));
    assert_int_equal(short_task.finding, DUST_ROW_FOLLOWED);
    assert_int_equal(short_task.respirator.apf, rows[i].short_apf);
    assert_int_equal(long_task.respirator.apf, rows[i].long_apf);
  }
  assert_null(dust_row_at(COUNT_OF(rows)));
}

/* 29 CFR 1926.1153 Table 1, 25 cfm per inch: trade-press and equipment-rental pages print these wheels. */
static void shroud_airflows_come_out(void **state)
{
  (void)state;
  static const struct { double wheel_in, cfm; } cells[] = { { 4.5, 112.5 }, { 5, 125 }, { 7, 175 } };
  for (size_t i = 0; i < COUNT_OF(cells); i++) {
    double airflow_l_s;
    assert_true(dust_shroud_airflow(cells[i].wheel_in * INCH_MM, &airflow_l_s, NULL));
    assert_near(airflow_l_s / CFM_L_S, cells[i].cfm, 1e-9);
  }
}

static bool is_within(const Chemistry *row, double spread_m2_l)
{
  return row->spread_low_m2_l <= spread_m2_l && spread_m2_l <= row->spread_high_m2_l;
}

/* Both columns of the coverage table as printed; spreads are common practice, the conversion is NIST SP 811.
 * Supplier pages give 400 sqft/gal a coat for acetone dye and 5 L on 30 m2 for acid stain. */
static void coverage_bands_agree_in_both_units(void **state)
{
  (void)state;
  static const struct { const char *name; double low_m2_l, high_m2_l; } cells[] = {
    { "sodium silicate", 3.7, 7.4 },   { "potassium silicate", 4.9, 12.3 }, { "lithium silicate", 9.8, 19.6 },
    { "colloidal silica", 9.8, 19.6 }, { "acetone dye", 7.4, 12.3 },        { "water dye", 6.1, 12.3 },
    { "acid stain", 3.7, 7.4 },        { "guard", 24.5, 61 },
  };
  const Chemistry *row;
  for (size_t i = 0; i < COUNT_OF(cells); i++) {
    assert_true(chemistry_find(cells[i].name, &row, NULL));
    assert_near(row->spread_low_m2_l, cells[i].low_m2_l, 0.051);
    assert_near(row->spread_high_m2_l, cells[i].high_m2_l, cells[i].high_m2_l > 20 ? 0.5 : 0.051);
  }
  assert_true(chemistry_find("acetone dye", &row, NULL));
  assert_true(is_within(row, 400 * SQFT_PER_GALLON_M2_L));
  assert_true(chemistry_find("acid stain", &row, NULL));
  assert_true(is_within(row, 30 / 5.0));
}

/* Trade supplier's case: 125,000 sqft of a wet chain took about 2,200 gal, forty 55 gal drums. */
static void the_measured_wet_job_comes_out(void **state)
{
  (void)state;
  const WaterBand *chain;
  double volume_l;
  TankTrips drums;
  assert_true(water_band("chain", &chain, NULL));
  assert_true(water_by_area(125000 * SQFT_M2, 1, chain->low, &volume_l, NULL));
  assert_near(volume_l / GALLON_L, 2200, 10);
  assert_true(water_trips(2200 * GALLON_L, 55 * GALLON_L, 0, &drums, NULL));
  assert_int_equal(drums.trips, 40);
}

/* ANSI A326.3 (2022): five categories from 0.42 to 0.55, slip-testing firm; single values from memory. */
static void five_uses_of_a_floor_have_their_friction(void **state)
{
  (void)state;
  static const struct { const char *mark; double dcof; } rows[] = {
    { "ID", 0.42 }, { "IW", 0.42 }, { "IW+", 0.50 }, { "EW", 0.55 }, { "O/G", 0.55 }
  };
  for (size_t i = 0; i < COUNT_OF(rows); i++) {
    assert_string_equal(slip_category_at(i)->mark, rows[i].mark);
    assert_near(slip_category_at(i)->least_dcof, rows[i].dcof, 0);
  }
  assert_null(slip_category_at(COUNT_OF(rows)));
}

/* NIOSH 94-110, multiplier tables 1 to 4, two decimals, from memory. */
static void lifting_multipliers_come_out(void **state)
{
  (void)state;
  static const struct { double reach, height, travel, twist, hm, vm, dm, am; } rows[] = {
    { 25, 0, 25, 0, 1.00, 0.78, 1.00, 1.00 },    { 28, 30, 40, 15, 0.89, 0.87, 0.93, 0.95 },
    { 30, 50, 55, 30, 0.83, 0.93, 0.90, 0.90 },  { 40, 75, 100, 45, 0.63, 1.00, 0.87, 0.86 },
    { 50, 100, 115, 60, 0.50, 0.93, 0.86, 0.81 }, { 60, 150, 145, 90, 0.42, 0.78, 0.85, 0.71 },
    { 63, 175, 175, 135, 0.40, 0.70, 0.85, 0.57 },
  };
  for (size_t i = 0; i < COUNT_OF(rows); i++) {
    Lift lift = { .weight_kg = 10, .reach_cm = rows[i].reach, .height_cm = rows[i].height,
                  .travel_cm = rows[i].travel, .twist_deg = rows[i].twist, .lifts_per_min = 0.2, .hours = 1 };
    LiftingLimit limit;
    assert_true(lifting_limit(&lift, &limit, NULL));
    assert_near(limit.reach, rows[i].hm, 0.0051);
    assert_near(limit.height, rows[i].vm, 0.0051);
    assert_near(limit.travel, rows[i].dm, 0.0051);
    assert_near(limit.twist, rows[i].am, 0.0051);
  }
}

/* NIOSH 94-110, table 5, from memory: lifts a minute against hours, hands below 75 cm and from 75 cm up. */
static void lifting_pace_comes_out(void **state)
{
  (void)state;
  static const double hours[] = { 1, 2, 8 };
  static const struct { double lifts_per_min, low[3], high[3]; } rows[] = {
    { 0.2, { 1.00, 0.95, 0.85 }, { 1.00, 0.95, 0.85 } }, { 0.5, { 0.97, 0.92, 0.81 }, { 0.97, 0.92, 0.81 } },
    { 1, { 0.94, 0.88, 0.75 }, { 0.94, 0.88, 0.75 } },   { 2, { 0.91, 0.84, 0.65 }, { 0.91, 0.84, 0.65 } },
    { 3, { 0.88, 0.79, 0.55 }, { 0.88, 0.79, 0.55 } },   { 4, { 0.84, 0.72, 0.45 }, { 0.84, 0.72, 0.45 } },
    { 5, { 0.80, 0.60, 0.35 }, { 0.80, 0.60, 0.35 } },   { 6, { 0.75, 0.50, 0.27 }, { 0.75, 0.50, 0.27 } },
    { 7, { 0.70, 0.42, 0.22 }, { 0.70, 0.42, 0.22 } },   { 8, { 0.60, 0.35, 0.18 }, { 0.60, 0.35, 0.18 } },
    { 9, { 0.52, 0.30, 0 }, { 0.52, 0.30, 0.15 } },      { 10, { 0.45, 0.26, 0 }, { 0.45, 0.26, 0.13 } },
    { 11, { 0.41, 0, 0 }, { 0.41, 0.23, 0 } },           { 12, { 0.37, 0, 0 }, { 0.37, 0.21, 0 } },
    { 13, { 0, 0, 0 }, { 0.34, 0, 0 } },                 { 14, { 0, 0, 0 }, { 0.31, 0, 0 } },
    { 15, { 0, 0, 0 }, { 0.28, 0, 0 } },
  };
  for (size_t r = 0; r < COUNT_OF(rows); r++)
    for (size_t h = 0; h < COUNT_OF(hours); h++)
      for (int high = 0; high < 2; high++) {
        Lift lift = { .weight_kg = 1, .reach_cm = 25, .height_cm = high ? 75 : 74, .travel_cm = 25,
                      .lifts_per_min = rows[r].lifts_per_min, .hours = hours[h] };
        LiftingLimit limit;
        double want = high ? rows[r].high[h] : rows[r].low[h];
        assert_int_equal(lifting_limit(&lift, &limit, NULL), want > 0); /* 0 in the table: not to be done */
        if (want > 0) assert_near(limit.pace, want, 0);
      }
}

/* NIOSH 94-110, table 7, from memory: good, fair, poor grip below and from 75 cm. */
static void lifting_grip_comes_out(void **state)
{
  (void)state;
  static const double want[LIFTING_GRIPS][2] = { { 1, 1 }, { 0.95, 1 }, { 0.9, 0.9 } };
  for (int grip = 0; grip < LIFTING_GRIPS; grip++)
    for (int high = 0; high < 2; high++) {
      Lift lift = { .weight_kg = 1, .height_cm = high ? 75 : 74, .hours = 1, .grip = (LiftingGrip)grip };
      LiftingLimit limit;
      assert_true(lifting_limit(&lift, &limit, NULL));
      assert_near(limit.grip, want[grip][high], 0);
    }
}

/* Physical constants of the GNU Scientific Library. */
static void our_factors_are_those_of_the_scientific_library(void **state)
{
  (void)state;
  const struct { double ours, si; } factors[] = {
    { INCH_MM / 1e3, GSL_CONST_MKSA_INCH },   { FOOT_M, GSL_CONST_MKSA_FOOT },
    { MIL_UM / 1e6, GSL_CONST_MKSA_MIL },     { MILE_KM * 1e3, GSL_CONST_MKSA_MILE },
    { POUND_KG, GSL_CONST_MKSA_POUND_MASS },  { GALLON_L / 1e3, GSL_CONST_MKSA_US_GALLON },
    { SQFT_M2, GSL_CONST_MKSA_FOOT * GSL_CONST_MKSA_FOOT },
    { CUFT_L / 1e3, GSL_CONST_MKSA_FOOT * GSL_CONST_MKSA_FOOT * GSL_CONST_MKSA_FOOT },
  };
  for (size_t i = 0; i < COUNT_OF(factors); i++) assert_near(factors[i].ours / factors[i].si, 1, 1e-8);
  for (double temperature_c = -30; temperature_c <= 60; temperature_c += 15) {
    double litres_mol;
    assert_true(room_molar_volume(temperature_c, &litres_mol, NULL));
    double want_m3 = GSL_CONST_MKSA_MOLAR_GAS * (temperature_c + 273.15) / GSL_CONST_MKSA_STD_ATMOSPHERE;
    assert_near(litres_mol / 1000 / want_m3, 1, 1e-5);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(every_cell_of_table_g16a_is_the_formula_rounded),
    cmocka_unit_test(every_cell_of_table_d2_is_the_formula_within_two_percent),
    cmocka_unit_test(niosh_times_come_out),
    cmocka_unit_test(doses_convert_to_averages_as_in_table_a1),
    cmocka_unit_test(hand_arm_points_come_out),
    cmocka_unit_test(the_drying_table_comes_out),
    cmocka_unit_test(dew_points_by_three_sets_of_constants_come_out),
    cmocka_unit_test(saturation_pressures_come_out),
    cmocka_unit_test(the_columns_of_nec_table_8_agree),
    cmocka_unit_test(voltage_drops_come_out),
    cmocka_unit_test(every_cell_of_silica_table_1_stands),
    cmocka_unit_test(shroud_airflows_come_out),
    cmocka_unit_test(coverage_bands_agree_in_both_units),
    cmocka_unit_test(the_measured_wet_job_comes_out),
    cmocka_unit_test(five_uses_of_a_floor_have_their_friction),
    cmocka_unit_test(lifting_multipliers_come_out),
    cmocka_unit_test(lifting_pace_comes_out),
    cmocka_unit_test(lifting_grip_comes_out),
    cmocka_unit_test(our_factors_are_those_of_the_scientific_library),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
