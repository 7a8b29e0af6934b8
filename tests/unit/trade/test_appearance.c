/* test_appearance.c - appearance levels, haze, numbers of readings. */
#include "support.h"
#include "trade/appearance.h"

static void levels_are_half_open_bands_of_image_clarity(void **state)
{
  (void)state;
  static const struct { double doi_pct; int level; } cases[] = {
    { 0, 1 }, { 9, 1 }, { 9.7, 1 }, { 10, 2 }, { 39.99, 2 }, { 40, 3 }, { 69.5, 3 }, { 70, 4 }, { 100, 4 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    const AppearanceLevel *level;
    assert_true(appearance_level(cases[i].doi_pct, &level, NULL));
    assert_int_equal(level->level, cases[i].level);
  }
  const AppearanceLevel *level;
  assert_false(appearance_level(100.1, &level, NULL));
  assert_false(appearance_level(-0.1, &level, NULL));
  assert_false(appearance_level(NAN, &level, NULL));
}

static void haze_is_for_glossy_floors_only(void **state)
{
  (void)state;
  double haze_gu = -1;
  TradeError error = { 0 };
  assert_true(appearance_haze(78, 71, &haze_gu, NULL));
  assert_near(haze_gu, 7, 1e-12);
  assert_false(appearance_haze(70, 65, &haze_gu, &error)); /* above 70, not at it */
  assert_string_equal(error.argument, "gloss60_gu");
  assert_near(haze_gu, 7, 1e-12);
}

static void the_first_reading_chooses_the_angle(void **state)
{
  (void)state;
  static const struct { double gloss60_gu; int angle_deg; } cases[] = {
    { 9.9, 85 }, { 10, 60 }, { 70, 60 }, { 70.1, 20 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    int angle_deg;
    assert_true(appearance_gloss_angle(cases[i].gloss60_gu, &angle_deg, NULL));
    assert_int_equal(angle_deg, cases[i].angle_deg);
  }
}

static void readings_are_three_and_one_for_each_further_thousand_begun(void **state)
{
  (void)state;
  static const struct { double area_sqft; int readings; } cases[] = {
    { 1, 3 }, { 1000, 3 }, { 1001, 4 }, { 2000, 4 }, { 2000.5, 5 }, { 10000, 12 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    int readings;
    assert_true(appearance_readings(cases[i].area_sqft, &readings, NULL));
    assert_int_equal(readings, cases[i].readings);
  }
  int readings = -1;
  assert_false(appearance_readings(0, &readings, NULL));
  assert_false(appearance_readings(INFINITY, &readings, NULL));
  assert_int_equal(readings, -1);
}

static void image_clarity_compares_bright_and_dark(void **state)
{
  (void)state;
  double clarity_pct;
  assert_true(appearance_image_clarity(3, 1, &clarity_pct, NULL));
  assert_near(clarity_pct, 50, 1e-12);
  assert_true(appearance_image_clarity(3, 0, &clarity_pct, NULL));
  assert_near(clarity_pct, 100, 1e-12);
  assert_false(appearance_image_clarity(1, 3, &clarity_pct, NULL)); /* the wrong way round */
  assert_false(appearance_image_clarity(0, 0, &clarity_pct, NULL));
}

static void both_charts_of_levels_run_from_flat_to_highly_polished(void **state)
{
  (void)state;
  for (size_t i = 0; i < 4; i++) {
    assert_int_equal(appearance_level_at(i)->level, i + 1);
    assert_int_equal(appearance_gloss_level_at(i)->level, i + 1);
    if (i > 0)
      assert_true(appearance_gloss_level_at(i)->least_passes > appearance_gloss_level_at(i - 1)->least_passes);
  }
  assert_null(appearance_level_at(4));
  assert_null(appearance_gloss_level_at(4));
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(levels_are_half_open_bands_of_image_clarity),
    cmocka_unit_test(haze_is_for_glossy_floors_only),
    cmocka_unit_test(the_first_reading_chooses_the_angle),
    cmocka_unit_test(readings_are_three_and_one_for_each_further_thousand_begun),
    cmocka_unit_test(image_clarity_compares_bright_and_dark),
    cmocka_unit_test(both_charts_of_levels_run_from_flat_to_highly_polished),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
