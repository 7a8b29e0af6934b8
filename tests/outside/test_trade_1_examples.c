/* test_trade_1_examples.c - worked examples of published sources on optics, appearance, grit, flatness, aggregate
 * and coverage. The rows, with the source of each, are in data/worked_examples.csv; inputs are read from the rows.
 */
#include "support.h"

#include "examples.h"
#include "trade/aggregate.h"
#include "trade/appearance.h"
#include "trade/flatness.h"
#include "trade/geometry.h"
#include "trade/grit.h"
#include "trade/optics.h"

static double fresnel(const char *in)
{
  double r;
  assert_true(optics_fresnel(csv_number(in, "n="), csv_number(in, "angle="), &r, NULL));
  return r;
}

static double mirror_gloss(const char *in)
{
  double gloss_gu;
  assert_true(optics_gloss(1, strtod(in, NULL), &gloss_gu, NULL));
  return gloss_gu;
}

static double rough_share(const char *in)
{
  double share;
  assert_true(optics_rough_share(csv_number(in, "rms roughness="), csv_number(in, "wavelength="),
                                 csv_number(in, "angle="), &share, NULL));
  return share;
}

static double haze(const char *in)
{
  double haze_gu;
  assert_true(appearance_haze(csv_number(in, "G60="), csv_number(in, "G20="), &haze_gu, NULL));
  return haze_gu;
}

static double level(const char *in)
{
  const AppearanceLevel *found;
  assert_true(appearance_level(csv_number(in, "DOI="), &found, NULL));
  return found->level;
}

static double readings(const char *in)
{
  int count;
  assert_true(appearance_readings(csv_number(in, "area="), &count, NULL));
  return count;
}

static GritSize size_of(const char *designation)
{
  Grit grit;
  GritSize size;
  assert_true(grit_read(designation, &grit, NULL));
  assert_true(grit_size(grit, &size, NULL));
  return size;
}

/* "FEPA P P80", "JIS #400", "ASTM E11 No. 200": the standard's name, if it is not part of the grade, goes first. */
static double grain_um(const char *in)
{
  static const char *const standards[] = { "FEPA P ", "ASTM E11 " };
  for (size_t i = 0; i < COUNT_OF(standards); i++)
    if (strncmp(in, standards[i], strlen(standards[i])) == 0) in += strlen(standards[i]);
  return size_of(in).size_um;
}

static const char *diamond_mesh(const char *in)
{
  return size_of(in + strlen("FEPA ")).coarse->mesh;
}

/* "#400 -> #800" */
static double size_ratio(const char *in)
{
  char first[16];
  double ratio;
  Grit coarse, fine;
  assert_int_equal(sscanf(in, "%15s", first), 1);
  assert_true(grit_read(first, &coarse, NULL));
  assert_true(grit_read(strstr(in, "-> ") + 3, &fine, NULL));
  assert_true(grit_size_ratio(coarse, fine, &ratio, NULL));
  return ratio;
}

static double sieve_pitch(const char *in)
{
  double pitch_um;
  assert_true(grit_sieve_pitch(csv_number(in, "mesh "), &pitch_um, NULL));
  return pitch_um;
}

static double flatness(const char *in)
{
  double ff;
  assert_true(flatness_ff(csv_number(in, "Sq="), csv_number(in, "qbar="), &ff, NULL));
  return ff;
}

static double levelness(const char *in)
{
  double fl;
  assert_true(flatness_fl(csv_number(in, "Sz="), csv_number(in, "zbar="), &fl, NULL));
  return fl;
}

static double profile_flatness(const char *in)
{
  double heights_in[64];
  size_t count = 0;
  char *end = NULL;
  for (const char *at = strstr(in, "(in): ") + strlen("(in): "); count < 64; at = end) {
    double height_in = strtod(at, &end);
    if (end == at) break;
    heights_in[count++] = height_in;
  }
  FlatnessLine line;
  assert_true(flatness_line(heights_in, count, &line, NULL));
  return line.ff;
}

static double lanes(const char *in)
{
  int count;
  assert_true(geometry_lane_count(csv_number(in, "bay ") * 0.3048, csv_number(in, "head ") * 0.0254,
                                  csv_number(in, "overlap ") * 0.0254, &count, NULL));
  return count;
}

static const char *class_of_cream(const char *in)
{
  const AggregateClass *found;
  assert_true(aggregate_of_surface(strtod(in, NULL), csv_number(in, "fines; "), 0, &found, NULL));
  return found->letter == 'A' ? "A" : "another";
}

/* The blend is not told apart in the row: half of each. */
static const char *class_of_salt_and_pepper(const char *in)
{
  const AggregateClass *found;
  double blend_pct = csv_number(in, "aggregate; ");
  assert_true(aggregate_of_surface(blend_pct / 2, strtod(in, NULL), blend_pct / 2, &found, NULL));
  return found->letter == 'B' ? "B" : "another";
}

static double old_cut_mm(const char *in)
{
  const AggregateClass *found;
  double cut_mm;
  assert_true(aggregate_find(CHART_BEFORE_2017, in + strlen("older Class "), &found, NULL));
  assert_true(aggregate_cut_depth(found, &cut_mm, NULL));
  return cut_mm;
}

static const Example optics[] = {
  { "OPT-01", fresnel, NULL }, { "OPT-03", fresnel, NULL }, { "OPT-04", fresnel, NULL },
  { "OPT-05", fresnel, NULL }, { "OPT-07", mirror_gloss, NULL }, { "OPT-08", mirror_gloss, NULL },
  { "OPT-09", mirror_gloss, NULL }, { "OPT-11", rough_share, NULL }, { "OPT-12", rough_share, NULL },
  { "OPT-13", rough_share, NULL }, { "OPT-15", haze, NULL },
};

static const Example levels[] = {
  { "DOI-01", level, NULL }, { "DOI-02", level, NULL }, { "DOI-04", level, NULL }, { "DOI-05", level, NULL },
  { "DOI-06", level, NULL }, { "DOI-08", level, NULL }, { "DOI-09", readings, NULL },
  { "DOI-10", readings, NULL }, { "DOI-12", readings, NULL },
};

static const Example grits[] = {
  { "GRT-01", grain_um, NULL }, { "GRT-02", grain_um, NULL }, { "GRT-04", grain_um, NULL },
  { "GRT-05", grain_um, NULL }, { "GRT-06", grain_um, NULL }, { "GRT-08", grain_um, NULL },
  { "GRT-09", grain_um, NULL }, { "GRT-10", NULL, diamond_mesh }, { "GRT-12", size_ratio, NULL },
  { "GRT-13", size_ratio, NULL }, { "GRT-14", sieve_pitch, NULL },
};

static const Example profiles[] = {
  { "FNM-02", flatness, NULL }, { "FNM-03", levelness, NULL }, { "FNM-04", profile_flatness, NULL },
};

static const Example bays[] = {
  { "PRD-02", lanes, NULL },
};

static const Example classes[] = {
  { "AGG-01", NULL, class_of_cream }, { "AGG-02", NULL, class_of_salt_and_pepper },
  { "AGG-04", old_cut_mm, NULL },
};

static void reflection_and_gloss_come_out_as_published(void **state)
{
  (void)state;
  examples_check("OPT-", optics, COUNT_OF(optics));
}

static void levels_and_numbers_of_readings_come_out_as_published(void **state)
{
  (void)state;
  examples_check("DOI-", levels, COUNT_OF(levels));
}

static void grain_sizes_come_out_as_published(void **state)
{
  (void)state;
  examples_check("GRT-", grits, COUNT_OF(grits));
}

static void f_numbers_come_out_as_published(void **state)
{
  (void)state;
  examples_check("FNM-", profiles, COUNT_OF(profiles));
}

static void lanes_come_out_as_published(void **state)
{
  (void)state;
  examples_check("PRD-", bays, COUNT_OF(bays));
}

static void exposure_classes_come_out_as_published(void **state)
{
  (void)state;
  examples_check("AGG-", classes, COUNT_OF(classes));
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(reflection_and_gloss_come_out_as_published),
    cmocka_unit_test(levels_and_numbers_of_readings_come_out_as_published),
    cmocka_unit_test(grain_sizes_come_out_as_published),
    cmocka_unit_test(f_numbers_come_out_as_published),
    cmocka_unit_test(lanes_come_out_as_published),
    cmocka_unit_test(exposure_classes_come_out_as_published),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
