/* test_trade_2_bands.c - rows of data against what was published: limits with their editions, and the trade's
 * bands.
 *
 * Each group names its publication; "common practice" has no source and is here so that a slip of the pen shows. */
#include "support.h"

#include <string.h>

#include "trade/chemistry.h"
#include "trade/customary.h"
#include "trade/limits.h"
#include "trade/solvent.h"
#include "trade/water.h"
#include "trade/wear.h"

#define UP_TO(high) -INFINITY, (high)
#define FROM(low) (low), INFINITY

static const struct { const char *id; double low, high; BasisStatus status; } limits[] = {
  /* ISO 8502-4 and ISO 12944-7; ACI 305 practice; contractor page (55 degF) */
  { "coat.margin", FROM(3), TRADE_CONFIRMED },
  { "coat.humidity", UP_TO(0.85), TRADE_CONFIRMED },
  { "evaporation.caution", UP_TO(0.9765), TRADE_CONFIRMED },
  { "evaporation.low_bleed", UP_TO(0.4882), TRADE_CONFIRMED },
  { "building.temperature", FROM(12.778), TRADE_CONFIRMED },
  /* ASTM F1869 (federal guide, kit and supplier instructions), F2170 and F710 (testing-laboratory paper) */
  { "f1869.temperature", 18.333, 29.444, TRADE_CONFIRMED },
  { "f1869.humidity", 0.40, 0.60, TRADE_CONFIRMED },
  { "f1869.exposure", 60, 72, TRADE_CONFIRMED },
  { "f2170.settle", FROM(24), TRADE_FROM_MEMORY },
  { "f2170.settle.before_2018", FROM(72), TRADE_FROM_MEMORY },
  { "mver.f710", UP_TO(3), TRADE_CONFIRMED },
  { "mver.tile", UP_TO(5), TRADE_CONFIRMED },
  { "rh.f710", UP_TO(0.75), TRADE_CONFIRMED },
  { "ph.f710", 7, 10, TRADE_FROM_MEMORY },
  /* guide specifications; association position statement quoting ACI 302.1R-15; ANSI A137.1 */
  { "age.polish", FROM(28), TRADE_CONFIRMED },
  { "age.joint.maker", FROM(28), TRADE_CONFIRMED },
  { "age.joint.aci", FROM(90), TRADE_CONFIRMED },
  { "strength.polish", FROM(3500), TRADE_CONFIRMED },
  { "slip.level_interior", FROM(0.42), TRADE_CONFIRMED },
  /* 29 CFR 1926.1153 */
  { "silica.action", UP_TO(25), TRADE_CONFIRMED },
  { "silica.pel", UP_TO(50), TRADE_CONFIRMED },
  /* federal agency chemical pages, NIOSH criteria document, ACGIH */
  { "acetone.twa.osha", UP_TO(1000), TRADE_CONFIRMED },
  { "acetone.twa.niosh", UP_TO(250), TRADE_CONFIRMED },
  { "acetone.twa.acgih", UP_TO(250), TRADE_FROM_MEMORY },
  { "acetone.short.acgih", UP_TO(500), TRADE_FROM_MEMORY },
  { "acetone.idlh", UP_TO(2500), TRADE_CONFIRMED },
  { "co.twa.osha", UP_TO(50), TRADE_CONFIRMED },
  { "co.twa.niosh", UP_TO(35), TRADE_CONFIRMED },
  { "co.ceiling.niosh", UP_TO(200), TRADE_CONFIRMED },
  { "co.twa.acgih", UP_TO(25), TRADE_CONFIRMED },
  { "co.alarm", UP_TO(35), TRADE_COMMON_PRACTICE },
  { "co.stop", UP_TO(200), TRADE_COMMON_PRACTICE },
  { "lel.share", UP_TO(0.25), TRADE_FROM_MEMORY },
  /* 29 CFR 1910.95 and 1926.52; NIOSH; Directive 2002/44/EC; NIOSH 94-110 */
  { "noise.action.osha", UP_TO(85), TRADE_CONFIRMED },
  { "noise.pel.osha", UP_TO(90), TRADE_CONFIRMED },
  { "noise.rel.niosh", UP_TO(85), TRADE_CONFIRMED },
  { "hand_arm.action", UP_TO(2.5), TRADE_CONFIRMED },
  { "hand_arm.limit", UP_TO(5), TRADE_CONFIRMED },
  { "whole_body.action", UP_TO(0.5), TRADE_CONFIRMED },
  { "whole_body.limit", UP_TO(1.15), TRADE_CONFIRMED },
  { "lifting.index", UP_TO(1), TRADE_FROM_MEMORY },
  /* 40 CFR 261.22; NEC 2023 informational notes; NEC 210.20 */
  { "waste.ph", 2, 12.5, TRADE_CONFIRMED },
  { "power.drop.branch", UP_TO(0.03), TRADE_CONFIRMED },
  { "power.drop.total", UP_TO(0.05), TRADE_CONFIRMED },
  { "power.continuous", UP_TO(0.8), TRADE_FROM_MEMORY },
};

/* 40 CFR 261.22 and the action levels of 29 CFR 1926.1153 and 1910.95 say "at"; NIOSH calls 85 dBA itself hazardous
 * (98-126, from memory). */
static bool is_strict(const char *id)
{
  static const char *const strict[] = { "waste.ph", "silica.action", "noise.action.osha", "noise.rel.niosh" };
  for (size_t i = 0; i < COUNT_OF(strict); i++)
    if (strcmp(strict[i], id) == 0) return true;
  return false;
}

static void assert_end(double got, double want)
{
  if (isinf(want)) assert_true(got == want);
  else assert_near(got, want, 0.0006);
}

static void every_limit_is_the_published_one(void **state)
{
  (void)state;
  for (size_t i = 0; i < COUNT_OF(limits); i++) {
    const Limit *limit;
    assert_true(limit_find(limits[i].id, &limit, NULL));
    assert_end(limit->low, limits[i].low);
    assert_end(limit->high, limits[i].high);
    assert_int_equal(limit->basis.status, limits[i].status);
    assert_int_equal(limit->strict, is_strict(limit->id));
  }
  assert_null(limit_at(COUNT_OF(limits)));
}

/* Tool life, sqft a set (ft of edge a set), common practice. */
static void tool_life_bands_stand(void **state)
{
  (void)state;
  static const struct { const char *bond; double grit_low, grit_high, low, high; WearBy by; } rows[] = {
    { "metal", 16, 30, 3000, 12000, WEAR_BY_AREA },
    { "metal", 40, 80, 6000, 20000, WEAR_BY_AREA },
    { "metal", 120, 150, 8000, 25000, WEAR_BY_AREA },
    { "transitional", 30, 200, 4000, 15000, WEAR_BY_AREA },
    { "resin", 50, 200, 3000, 10000, WEAR_BY_AREA },
    { "resin", 400, 400, 8000, 20000, WEAR_BY_AREA },
    { "resin", 800, 3000, 12000, 40000, WEAR_BY_AREA },
    { "edge", 0, 0, 500, 3000, WEAR_BY_EDGE },
    { "burnish", 0, 0, 15000, 60000, WEAR_BY_AREA },
  };
  for (size_t i = 0; i < COUNT_OF(rows); i++) {
    const WearBand *band = wear_band_at(i);
    double unit = rows[i].by == WEAR_BY_AREA ? SQFT_M2 : FOOT_M;
    assert_string_equal(band->bond, rows[i].bond);
    assert_near(band->grit_low, rows[i].grit_low, 0);
    assert_near(band->grit_high, rows[i].grit_high, 0);
    assert_int_equal(band->by, rows[i].by);
    assert_near(band->life_low / unit, rows[i].low, 1e-6);
    assert_near(band->life_high / unit, rows[i].high, 1e-6);
  }
  assert_null(wear_band_at(COUNT_OF(rows)));
}

/* Times of liquids, minutes, common practice; water dye 2 to 4 h and acid stain to 24 h by trade reference pages;
 * pH of silicates 10.5 to 12.5, trade press letter. */
static void times_of_liquids_stand(void **state)
{
  (void)state;
  static const struct {
    const char *name;
    double low_sqft_gal, high_sqft_gal, dwell[2], dry[2];
    bool caustic;
  } rows[] = {
    { "sodium silicate", 150, 300, { 30, 60 }, { 0, 0 }, true },
    { "potassium silicate", 200, 500, { 30, 60 }, { 0, 0 }, true },
    { "lithium silicate", 400, 800, { 0, 0 }, { 30, 60 }, true },
    { "colloidal silica", 400, 800, { 0, 0 }, { 15, 60 }, false },
    { "acetone dye", 300, 500, { 0, 0 }, { 5, 30 }, false },
    { "water dye", 250, 500, { 0, 0 }, { 60, 240 }, false },
    { "acid stain", 150, 300, { 240, 1440 }, { 0, 0 }, false },
    { "guard", 1000, 2500, { 0, 0 }, { 20, 60 }, false },
  };
  for (size_t i = 0; i < COUNT_OF(rows); i++) {
    const Chemistry *row = chemistry_at(i);
    assert_string_equal(row->name, rows[i].name);
    assert_near(row->spread_low_m2_l / SQFT_PER_GALLON_M2_L, rows[i].low_sqft_gal, 1e-9);
    assert_near(row->spread_high_m2_l / SQFT_PER_GALLON_M2_L, rows[i].high_sqft_gal, 1e-9);
    assert_near(row->dwell_low_min, rows[i].dwell[0], 0);
    assert_near(row->dwell_high_min, rows[i].dwell[1], 0);
    assert_near(row->dry_low_min, rows[i].dry[0], 0);
    assert_near(row->dry_high_min, rows[i].dry[1], 0);
    if (rows[i].caustic) assert_true(row->ph_low == 10.5 && row->ph_high == 12.5);
    else assert_true(isnan(row->ph_low) && isnan(row->ph_high));
  }
  assert_null(chemistry_at(COUNT_OF(rows)));
}

/* Hours after the last coat of guard, common practice. */
static void hours_to_traffic_stand(void **state)
{
  (void)state;
  static const struct { const char *traffic; double low_h, high_h; } rows[] = {
    { "light foot", 2, 4 }, { "full foot and water", 24, 24 }, { "wheels and forks", 48, 72 },
    { "wet cleaning with chemicals", 7 * 24, 7 * 24 },
  };
  for (size_t i = 0; i < COUNT_OF(rows); i++) {
    const ReturnToService *row;
    assert_true(chemistry_opens_after(rows[i].traffic, &row, NULL));
    assert_near(row->low_h, rows[i].low_h, 0);
    assert_near(row->high_h, rows[i].high_h, 0);
  }
}

/* Water: feed and coverage of a step by common practice; the chain and its reuse by a trade supplier's case. */
static void water_bands_stand(void **state)
{
  (void)state;
  static const struct { const char *id; double low, high, unit; } rows[] = {
    { "feed", 0.25, 1, GALLON_L },
    { "step", 50, 250, SQFT_PER_GALLON_M2_L },
    { "chain", 57, 57, SQFT_PER_GALLON_M2_L },
    { "reusable", 0.8, 0.8, 1 },
  };
  for (size_t i = 0; i < COUNT_OF(rows); i++) {
    const WaterBand *band;
    assert_true(water_band(rows[i].id, &band, NULL));
    assert_near(band->low / rows[i].unit, rows[i].low, 1e-9);
    assert_near(band->high / rows[i].unit, rows[i].high, 1e-9);
  }
}

/* Acetone: NIOSH pocket guide from memory; flash point and vapour density by a fire-service journal; 44.5 ft3 of
 * vapour from a gallon at 25 degC. */
static void acetone_stands(void **state)
{
  (void)state;
  const Solvent *acetone;
  double vapour_m3;
  assert_true(solvent_find("acetone", &acetone, NULL));
  assert_near(acetone->lel, 0.025, 0);
  assert_near(acetone->uel, 0.128, 0);
  assert_near(acetone->flash_point_c * 1.8 + 32, 0, 0.5);
  assert_near(acetone->vapour_density, 2.0, 0);
  assert_true(solvent_vapour(acetone, GALLON_L, 25, &vapour_m3, NULL));
  assert_near(vapour_m3 * 1000 / CUFT_L, 44.5, 0.05);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(every_limit_is_the_published_one),
    cmocka_unit_test(tool_life_bands_stand),
    cmocka_unit_test(times_of_liquids_stand),
    cmocka_unit_test(hours_to_traffic_stand),
    cmocka_unit_test(water_bands_stand),
    cmocka_unit_test(acetone_stands),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
