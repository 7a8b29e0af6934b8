/* test_optics.c - reflectance, gloss units, rough surfaces. */
#include "support.h"
#include "trade/optics.h"

static double reflectance(double index, double angle_deg)
{
  double r;
  assert_true(optics_fresnel(index, angle_deg, &r, NULL));
  return r;
}

static void at_the_normal_fresnel_is_the_short_form(void **state)
{
  (void)state;
  for (double n = 1; n <= 4; n += 0.25)
    assert_near(reflectance(n, 0), (n - 1) * (n - 1) / ((n + 1) * (n + 1)), 1e-15);
}

static void half_the_light_is_polarised_away_at_brewsters_angle(void **state)
{
  (void)state;
  double n = 1.5, brewster_deg = atan(n) * 180 / 3.14159265358979323846;
  double across = (n * n - 1) / (n * n + 1); /* the part within the plane vanishes */
  assert_near(reflectance(n, brewster_deg), across * across / 2, 1e-14);
}

static void reflectance_rises_with_the_index_and_towards_grazing(void **state)
{
  (void)state;
  for (double n = 1.3; n < 3; n += 0.1) {
    assert_true(reflectance(n + 0.1, 60) > reflectance(n, 60));
    assert_true(reflectance(n, 85) > reflectance(n, 60));
    assert_true(reflectance(n, 89.9) < 1);
  }
}

static void black_glass_reads_a_hundred_at_each_angle(void **state)
{
  (void)state;
  static const double angles[] = { 20, 60, 85 };
  for (size_t i = 0; i < 3; i++) {
    double gloss_gu;
    assert_true(optics_gloss_ceiling(1.567, angles[i], &gloss_gu, NULL));
    assert_near(gloss_gu, 100, 1e-12);
  }
}

static void a_mirror_reads_what_the_index_says_not_what_one_page_prints(void **state)
{
  (void)state;
  double gloss_gu;
  assert_true(optics_gloss(1, 85, &gloss_gu, NULL));
  assert_near(gloss_gu, 161.5, 0.1); /* not 199 */
}

static void a_bare_floor_cannot_read_far_above_a_hundred(void **state)
{
  (void)state;
  static const struct { double index, gloss60_gu; } cases[] = {
    { 1.33, 59 }, { 1.486, 87 }, { 1.50, 89 }, { 1.544, 96 }, { 1.658, 114 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    double gloss_gu;
    assert_true(optics_gloss_ceiling(cases[i].index, 60, &gloss_gu, NULL));
    assert_near(gloss_gu, cases[i].gloss60_gu, 0.5);
  }
}

static void roughness_shows_least_at_grazing_angles(void **state)
{
  (void)state;
  static const struct { double rms_nm, at[4]; } cases[] = {
    { 5, { 0.987, 0.989, 0.997, 1.000 } },  { 10, { 0.949, 0.955, 0.987, 1.000 } },
    { 20, { 0.812, 0.832, 0.949, 0.998 } }, { 30, { 0.625, 0.660, 0.889, 0.996 } },
    { 50, { 0.271, 0.316, 0.722, 0.990 } }, { 100, { 0.005, 0.010, 0.271, 0.961 } },
  };
  static const double angles[] = { 0, 20, 60, 85 };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    for (size_t k = 0; k < 4; k++) {
      double share;
      assert_true(optics_rough_share(cases[i].rms_nm, 550, angles[k], &share, NULL));
      assert_near(share, cases[i].at[k], 5.1e-4);
    }
}

static void the_rough_form_is_refused_where_it_does_not_hold(void **state)
{
  (void)state;
  static const struct { double rms_nm, wavelength_nm, angle_deg; const char *argument; } cases[] = {
    { 300, 550, 60, "rms_nm" }, /* a floor after early resin */
    { 110.1, 550, 60, "rms_nm" }, { -1, 550, 60, "rms_nm" }, { NAN, 550, 60, "rms_nm" },
    { 50, 1500, 60, "wavelength_nm" }, { 50, 550, 90, "angle_deg" }, { 50, 550, -5, "angle_deg" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    double share = -1;
    TradeError error = { 0 };
    assert_false(optics_rough_share(cases[i].rms_nm, cases[i].wavelength_nm, cases[i].angle_deg, &share, &error));
    assert_string_equal(error.argument, cases[i].argument);
    assert_near(share, -1, 0);
  }
}

static void gloss_is_read_at_the_three_angles_of_the_standard_only(void **state)
{
  (void)state;
  double gloss_gu = -1;
  TradeError error = { 0 };
  assert_false(optics_gloss(0.1, 45, &gloss_gu, &error));
  assert_string_equal(error.argument, "angle_deg");
  assert_false(optics_gloss(1.2, 60, &gloss_gu, &error));
  assert_string_equal(error.argument, "reflectance");
  assert_false(optics_fresnel(0.9, 60, &gloss_gu, &error));
  assert_string_equal(error.argument, "index");
  assert_near(gloss_gu, -1, 0);
}

static void gaussian_and_sine_profiles_have_their_own_ratio(void **state)
{
  (void)state;
  double rms;
  assert_true(optics_rms(1, OPTICS_GAUSSIAN, &rms, NULL));
  assert_near(rms, 1.2533, 1e-4); /* 1.11 is the sine wave's, though one page gives it for a Gaussian */
  assert_true(optics_rms(1, OPTICS_SINE, &rms, NULL));
  assert_near(rms, 1.1107, 1e-4);
  assert_false(optics_rms(-1, OPTICS_SINE, &rms, NULL));
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(at_the_normal_fresnel_is_the_short_form),
    cmocka_unit_test(half_the_light_is_polarised_away_at_brewsters_angle),
    cmocka_unit_test(reflectance_rises_with_the_index_and_towards_grazing),
    cmocka_unit_test(black_glass_reads_a_hundred_at_each_angle),
    cmocka_unit_test(a_mirror_reads_what_the_index_says_not_what_one_page_prints),
    cmocka_unit_test(a_bare_floor_cannot_read_far_above_a_hundred),
    cmocka_unit_test(roughness_shows_least_at_grazing_angles),
    cmocka_unit_test(the_rough_form_is_refused_where_it_does_not_hold),
    cmocka_unit_test(gloss_is_read_at_the_three_angles_of_the_standard_only),
    cmocka_unit_test(gaussian_and_sine_profiles_have_their_own_ratio),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
