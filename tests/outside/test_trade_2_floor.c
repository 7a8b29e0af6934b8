/* test_trade_2_floor.c - worked examples of published sources on materials, moisture, slurry, power and slip.
 * The source of each row stands in data/worked_examples.csv. */
#include "support.h"

#include "examples.h"
#include "trade/chemistry.h"
#include "trade/circuits.h"
#include "trade/customary.h"
#include "trade/film.h"
#include "trade/moisture.h"
#include "trade/power.h"
#include "trade/slip.h"
#include "trade/slurry.h"

/* The number that stands before `after`: number_before("20 A; 12 AWG", " AWG") is 12. */
static double number_before(const char *text, const char *after)
{
  const char *at = strstr(text, after), *start = at;
  if (!at) print_error("no `%s` in `%s`\n", after, text);
  assert_non_null(at);
  while (start > text && strchr("0123456789.", start[-1])) start--;
  return strtod(start, NULL);
}

/* "1/16 in" after the sign of multiplication. */
static double depth_um(const char *in)
{
  return csv_number(in, "x ") / csv_number(in, "/") * INCH_MM * 1000;
}

static double coverage_sqft_gal(const char *in)
{
  double spread_m2_l;
  assert_true(film_spread(strtod(in, NULL) / 100, csv_number(in, "; ") * MIL_UM, &spread_m2_l, NULL));
  return spread_m2_l / SQFT_PER_GALLON_M2_L;
}

static double gallons(const char *in)
{
  double volume_l;
  assert_true(chemistry_volume(strtod(in, NULL) * SQFT_M2, csv_number(in, "at ") * SQFT_PER_GALLON_M2_L,
                               (int)csv_number(in, "gal; "), 0, &volume_l, NULL));
  return volume_l / GALLON_L;
}

static double spread_m2_l(const char *in)
{
  return strtod(in, NULL) * SQFT_PER_GALLON_M2_L;
}

static double solids_lb(const char *in)
{
  const char *density = strstr(in, " at ");
  Solids solids;
  assert_true(slurry_solids(strtod(in, NULL) * SQFT_M2, depth_um(in),
                            strtod(density + strlen(" at "), NULL) * POUND_KG / CUFT_L * 1000, &solids, NULL));
  return solids.mass_kg / POUND_KG;
}

static double solids_cuft(const char *in)
{
  Solids solids;
  assert_true(slurry_solids(strtod(in, NULL) * SQFT_M2, depth_um(in), SLURRY_CONCRETE_KG_M3, &solids, NULL));
  return solids.volume_l / CUFT_L;
}

static double solids_kg(const char *in)
{
  Solids solids;
  assert_true(slurry_solids(strtod(in, NULL), csv_number(in, "x ") * 1000, csv_number(in, "at "), &solids, NULL));
  return solids.mass_kg;
}

static void materials_come_out(void **state)
{
  (void)state;
  static const Example examples[] = {
    { "MAT-02", coverage_sqft_gal, NULL }, { "MAT-03", gallons, NULL },     { "MAT-04", spread_m2_l, NULL },
    { "MAT-06", solids_lb, NULL },         { "MAT-07", solids_cuft, NULL }, { "MAT-08", solids_kg, NULL },
  };
  examples_check("MAT-", examples, COUNT_OF(examples));
}

static MoistureEmission emission(double gain_g, double sqft, double hours)
{
  MoistureEmission e;
  assert_true(moisture_emission(gain_g, sqft * SQFT_M2, hours, &e, NULL));
  return e;
}

static double mver(const char *in)
{
  return emission(csv_number(in, "mass gain "), csv_number(in, "area "), csv_number(in, "sq ft; ")).mver;
}

static double mver_constant(const char *in)
{
  return emission(strtod(in, NULL), csv_number(in, "over "), csv_number(in, "in ")).mver;
}

static double mver_in_si(const char *in)
{
  MoistureEmission e = emission(2, 0.5, 66);
  return strtod(in, NULL) * e.ug_s_m2 / e.mver;
}

static const char *moisture_verdict(const char *in)
{
  MoistureVerdict v;
  assert_true(moisture_check(csv_number(in, "MVER "), csv_number(in, "RH ") / 100, &v, NULL));
  return v.holds ? "pass" : "fail";
}

static void moisture_comes_out(void **state)
{
  (void)state;
  static const Example examples[] = {
    { "MOI-01", mver, NULL },
    { "MOI-02", mver_constant, NULL },
    { "MOI-03", mver_in_si, NULL },
    { "MOI-05", NULL, moisture_verdict },
  };
  examples_check("MOI-", examples, COUNT_OF(examples));
}

static const char *ph_verdict(const char *in)
{
  SlurryPhClass class;
  assert_true(slurry_ph_class(csv_number(in, "pH="), 0.9, &class, NULL));
  return class == SLURRY_NOT_CORROSIVE ? slurry_ph_class_name(class) : "corrosive";
}

static void corrosivity_comes_out(void **state)
{
  (void)state;
  static const Example examples[] = {
    { "PHW-02", NULL, ph_verdict },
    { "PHW-03", NULL, ph_verdict },
    { "PHW-04", NULL, ph_verdict },
  };
  examples_check("PHW-", examples, COUNT_OF(examples));
}

static double ohm_kft(const char *in)
{
  const Conductor *conductor;
  assert_true(power_conductor((int)csv_number(in, "AWG "), &conductor, NULL));
  return conductor->ohm_kft;
}

static PowerLine line_of(const char *in)
{
  const Conductor *conductor;
  assert_true(power_conductor((int)number_before(in, " AWG"), &conductor, NULL));
  return (PowerLine){ POWER_SINGLE_PHASE, number_before(in, " V"), number_before(in, " A"), conductor->ohm_kft };
}

static VoltageDrop drop_of(const char *in)
{
  PowerLine line = line_of(in);
  VoltageDrop drop;
  assert_true(power_drop(&line, number_before(in, " ft one way") * FOOT_M, &drop, NULL));
  return drop;
}

static double drop_volts(const char *in)
{
  return drop_of(in).volts;
}

static double drop_percent(const char *in)
{
  return drop_of(in).share * 100;
}

static double three_phase_kva(const char *in)
{
  double kva;
  assert_true(power_apparent(POWER_THREE_PHASE, number_before(in, " V"), number_before(in, " A"), &kva, NULL));
  return kva;
}

static double longest_run_ft(const char *in)
{
  PowerLine line = line_of(in);
  double run_m;
  assert_true(power_longest_run(&line, 0.03, &run_m, NULL));
  return run_m / FOOT_M;
}

static void power_comes_out(void **state)
{
  (void)state;
  static const Example examples[] = {
    { "ELC-01", ohm_kft, NULL },      { "ELC-02", ohm_kft, NULL },         { "ELC-04", ohm_kft, NULL },
    { "ELC-05", ohm_kft, NULL },      { "ELC-06", ohm_kft, NULL },         { "ELC-08", drop_volts, NULL },
    { "ELC-09", drop_percent, NULL }, { "ELC-10", drop_percent, NULL },    { "ELC-12", three_phase_kva, NULL },
    { "ELC-13", longest_run_ft, NULL },
  };
  examples_check("ELC-", examples, COUNT_OF(examples));
}

static const char *slip_verdict(const char *in)
{
  const SlipCategory *category;
  bool holds;
  assert_true(slip_category("interior wet", &category, NULL));
  assert_true(slip_check(category, strtod(in, NULL), true, &holds, NULL));
  return holds ? "pass" : "fail";
}

static GfciVerdict gfci(Receptacle receptacle)
{
  GfciVerdict verdict;
  assert_true(circuits_gfci(&receptacle, &verdict, NULL));
  return verdict;
}

static const char *gfci_on_site(const char *in)
{
  GfciVerdict verdict = gfci((Receptacle){ .volts = number_before(in, " V"), .amps = number_before(in, " A ") });
  return verdict == GFCI_NEEDED ? "yes (or written assured grounding programme)" : "no";
}

static const char *gfci_on_generator(const char *in)
{
  GfciVerdict verdict = gfci((Receptacle){ .volts = 120, .amps = 20, .is_generator = true, .is_two_wire = true,
                                           .is_frame_insulated = true, .generator_kw = number_before(in, " kW") });
  return verdict == GFCI_EXEMPT_GENERATOR ? "not required" : "required";
}

static void slip_and_gfci_come_out(void **state)
{
  (void)state;
  static const Example slip[] = { { "SLP-02", NULL, slip_verdict } };
  static const Example ground_fault[] = { { "GFI-01", NULL, gfci_on_site }, { "GFI-02", NULL, gfci_on_generator } };
  examples_check("SLP-", slip, COUNT_OF(slip));
  examples_check("GFI-", ground_fault, COUNT_OF(ground_fault));
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(materials_come_out),
    cmocka_unit_test(moisture_comes_out),
    cmocka_unit_test(corrosivity_comes_out),
    cmocka_unit_test(power_comes_out),
    cmocka_unit_test(slip_and_gfci_come_out),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
