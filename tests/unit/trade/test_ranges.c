/* test_ranges.c - the range of every input of the functions on materials, people, power and slab.
 *
 * A row holds inputs that are fine together, each with its range. In turn each is moved just outside, and replaced
 * by a NaN and the infinities: it must be refused by name and nothing written. */
#include "support.h"

#include <string.h>

#include "trade/carbon_monoxide.h"
#include "trade/chemistry.h"
#include "trade/circuits.h"
#include "trade/climate.h"
#include "trade/dust.h"
#include "trade/film.h"
#include "trade/generator.h"
#include "trade/joints.h"
#include "trade/lifting.h"
#include "trade/limits.h"
#include "trade/moisture.h"
#include "trade/noise.h"
#include "trade/packages.h"
#include "trade/power.h"
#include "trade/slip.h"
#include "trade/slurry.h"
#include "trade/solvent.h"
#include "trade/vibration.h"
#include "trade/water.h"
#include "trade/wear.h"

enum { INPUTS = 6, OUT_BYTES = 512 };

/* v: the inputs; out: room for whatever the function answers. */
typedef bool Call(const double *v, void *out, TradeError *e);

static bool saturation(const double *v, void *out, TradeError *e)
{
  return climate_saturation_pressure(v[0], out, e);
}

static bool dew_point(const double *v, void *out, TradeError *e)
{
  return climate_dew_point(v[0], v[1], out, e);
}

static bool margin(const double *v, void *out, TradeError *e)
{
  return climate_surface_margin(v[0], v[1], v[2], v[3], out, e);
}

static bool evaporation(const double *v, void *out, TradeError *e)
{
  return climate_evaporation(v[0], v[1], v[2], v[3], out, e);
}

static bool evaporation_us(const double *v, void *out, TradeError *e)
{
  return climate_evaporation_us(v[0], v[1], v[2], v[3], out, e);
}

static bool wet_thickness(const double *v, void *out, TradeError *e)
{
  return film_wet_thickness(v[0], out, e);
}

static bool dry_thickness(const double *v, void *out, TradeError *e)
{
  return film_dry_thickness(v[0], v[1], out, e);
}

static bool spread(const double *v, void *out, TradeError *e)
{
  return film_spread(v[0], v[1], out, e);
}

static bool wet_life(const double *v, void *out, TradeError *e)
{
  return film_wet_life(v[0], v[1], v[2], v[3], out, e);
}

static bool rewets(const double *v, void *out, TradeError *e)
{
  return film_rewets(v[0], &(WetLife){ v[1], v[2], v[3] }, out, e);
}

static bool volume(const double *v, void *out, TradeError *e)
{
  return chemistry_volume(v[0], v[1], 2, v[2], out, e);
}

static bool refusal(const double *v, void *out, TradeError *e)
{
  return chemistry_until_refusal(&(AbsorptionTest){ v, 2, v[2], v[3] }, out, e);
}

static bool cover(const double *v, void *out, TradeError *e)
{
  return packages_cover(v[0], &(PackageSize){ v[1], 100 }, 1, out, e);
}

static bool life(const double *v, void *out, TradeError *e)
{
  return wear_life(wear_band_at(0), v[0], false, out, e);
}

static bool band(const double *v, void *out, TradeError *e)
{
  return wear_band("metal", v[0], out, e);
}

static bool sets(const double *v, void *out, TradeError *e)
{
  return wear_sets(v[0], v[1], v[2], out, e);
}

static bool by_feed(const double *v, void *out, TradeError *e)
{
  return water_by_feed(v[0], v[1], out, e);
}

static bool by_area(const double *v, void *out, TradeError *e)
{
  return water_by_area(v[0], 3, v[1], out, e);
}

static bool trips(const double *v, void *out, TradeError *e)
{
  return water_trips(v[0], v[1], v[2], out, e);
}

static bool fresh(const double *v, void *out, TradeError *e)
{
  return water_fresh(v[0], v[1], out, e);
}

static bool solids(const double *v, void *out, TradeError *e)
{
  return slurry_solids(v[0], v[1], v[2], out, e);
}

static bool mix(const double *v, void *out, TradeError *e)
{
  return slurry_mix(&(Solids){ v[0], v[1] }, v[2], v[3], out, e);
}

static bool settle(const double *v, void *out, TradeError *e)
{
  return slurry_settle(&(Slurry){ .volume_l = v[0], .solids_l = v[1] }, v[2], out, e);
}

static bool drums(const double *v, void *out, TradeError *e)
{
  return slurry_drums(v[0], v[1], v[2], out, e);
}

static bool bags(const double *v, void *out, TradeError *e)
{
  return slurry_dust(&(Solids){ v[0], v[1] }, v[2], out, e);
}

static bool ph_class(const double *v, void *out, TradeError *e)
{
  return slurry_ph_class(v[0], v[1], out, e);
}

static bool average(const double *v, void *out, TradeError *e)
{
  return exposure_average(&(Exposure){ v[0], v[1] }, 1, out, e);
}

static bool dose(const double *v, void *out, TradeError *e)
{
  return noise_dose(noise_criterion_at(0), &(Exposure){ v[0], v[1] }, 1, out, e);
}

static bool allowed(const double *v, void *out, TradeError *e)
{
  return noise_allowed_hours(noise_criterion_at(0), v[0], out, e);
}

static bool noise_level(const double *v, void *out, TradeError *e)
{
  return noise_average(noise_criterion_at(0), v[0], out, e);
}

static bool daily(const double *v, void *out, TradeError *e)
{
  return vibration_daily(&(Exposure){ v[0], v[1] }, 1, out, e);
}

static bool hours_to(const double *v, void *out, TradeError *e)
{
  return vibration_hours_to(v[0], v[1], out, e);
}

static bool dust(const double *v, void *out, TradeError *e)
{
  return dust_check(&(DustTask){ "drill", "collector", DUST_INDOORS, v[0], 0 }, out, e);
}

static bool shroud(const double *v, void *out, TradeError *e)
{
  return dust_shroud_airflow(v[0], out, e);
}

static bool air(const double *v, void *out, TradeError *e)
{
  return room_air(&(Room){ v[0], v[1], v[2] }, v[3], v[4], v[5], out, e);
}

static bool clears(const double *v, void *out, TradeError *e)
{
  return room_clears_in(&(Room){ v[0], v[1], v[2] }, v[3], v[4], out, e);
}

static bool air_needed(const double *v, void *out, TradeError *e)
{
  return room_air_needed(&(Room){ v[0], v[1], v[2] }, v[3], v[4], out, e);
}

static bool solvent(const double *v, void *out, TradeError *e)
{
  return solvent_in_room(solvent_at(0), v[0], v[1], v[2], &(Room){ v[3], v[4], v[5] }, out, e);
}

static bool dilution(const double *v, void *out, TradeError *e)
{
  return solvent_dilution_air(solvent_at(0), v[0], v[1], v[2], out, e);
}

static bool exhaust(const double *v, void *out, TradeError *e)
{
  return carbon_monoxide_flow(v[0], v[1], out, e);
}

static bool monoxide(const double *v, void *out, TradeError *e)
{
  return carbon_monoxide_check(&(Exposure){ v[0], v[1] }, 1, v[2], out, e);
}

static bool lift(const double *v, void *out, TradeError *e)
{
  return lifting_limit(&(Lift){ v[0], v[1], v[2], v[3], v[4], 1, v[5], LIFTING_GRIP_FAIR }, out, e);
}

static bool lift_pace(const double *v, void *out, TradeError *e)
{
  return lifting_limit(&(Lift){ 10, 30, 75, 50, 0, v[0], 1, LIFTING_GRIP_FAIR }, out, e);
}

static bool drop(const double *v, void *out, TradeError *e)
{
  return power_drop(&(PowerLine){ POWER_SINGLE_PHASE, v[0], v[1], v[2] }, v[3], out, e);
}

static bool drop_by_area(const double *v, void *out, TradeError *e)
{
  return power_drop_by_area(&(PowerLine){ POWER_SINGLE_PHASE, v[0], v[1], 1 }, v[2], v[3], out, e);
}

static bool longest(const double *v, void *out, TradeError *e)
{
  return power_longest_run(&(PowerLine){ POWER_SINGLE_PHASE, v[0], v[1], v[2] }, v[3], out, e);
}

static bool apparent(const double *v, void *out, TradeError *e)
{
  return power_apparent(POWER_THREE_PHASE, v[0], v[1], out, e);
}

static bool generator(const double *v, void *out, TradeError *e)
{
  return generator_size(&(GeneratorLoad){ v[0], true }, 1, v[1], out, e);
}

static bool assign(const double *v, void *out, TradeError *e)
{
  Machine machine = { .amps = v[0], .volts = v[1], .worth = 1 };
  return circuits_assign(&machine, 1, &(Circuit){ v[2], v[3], POWER_SINGLE_PHASE }, 1, out, e);
}

static bool gfci(const double *v, void *out, TradeError *e)
{
  Receptacle receptacle = { .volts = v[0], .amps = v[1], .is_generator = true, .generator_kw = v[2] };
  return circuits_gfci(&receptacle, out, e);
}

static bool emission(const double *v, void *out, TradeError *e)
{
  return moisture_emission(v[0], v[1], v[2], out, e);
}

static bool tests_of(const double *v, void *out, TradeError *e)
{
  return moisture_tests(v[0], out, e);
}

static bool probe(const double *v, void *out, TradeError *e)
{
  return moisture_probe_depth(v[0], 1, out, e);
}

static bool moisture(const double *v, void *out, TradeError *e)
{
  return moisture_check(v[0], v[1], out, e);
}

static bool filler(const double *v, void *out, TradeError *e)
{
  return joints_filler(v[0], v[1], v[2], v[3], out, e);
}

static bool grid(const double *v, void *out, TradeError *e)
{
  return joints_grid(v[0], v[1], v[2], out, e);
}

static bool joint_age(const double *v, void *out, TradeError *e)
{
  return joints_age(v[0], out, e);
}

static bool slip(const double *v, void *out, TradeError *e)
{
  return slip_check(slip_category_at(0), v[0], false, out, e);
}

static bool limit(const double *v, void *out, TradeError *e)
{
  return limit_holds(limit_at(0), v[0], out, e);
}

typedef struct {
  double fine, low, high;
  bool is_open; /* low itself is refused */
} Input;

#define IN(fine, low, high) { fine, low, high, false }
#define ABOVE_0(fine, high) { fine, 0, high, true }

static const struct {
  Call *call;
  int inputs;
  Input input[INPUTS];
} rows[] = {
  { saturation, 1, { IN(20, -40, 50) } },
  { dew_point, 2, { IN(20, -40, 50), ABOVE_0(0.5, 1) } },
  { margin, 4, { IN(20, -40, 50), ABOVE_0(0.5, 1), IN(18, -40, 80), IN(3, 0, 30) } },
  { evaporation, 4, { IN(20, 0, 60), IN(20, 0, 60), ABOVE_0(0.5, 1), IN(5, 0, 100) } },
  { evaporation_us, 4, { IN(70, 32, 140), IN(70, 32, 140), ABOVE_0(0.5, 1), IN(5, 0, 62) } },
  { wet_thickness, 1, { IN(10, 0.1, 1000) } },
  { dry_thickness, 2, { IN(100, 1, 10000), ABOVE_0(0.3, 1) } },
  { spread, 2, { ABOVE_0(0.3, 1), IN(40, 0.1, 10000) } },
  { wet_life, 4, { IN(100, 1, 10000), IN(1000, 600, 2500), ABOVE_0(0.8, 1), IN(0.2, -10, 10) } },
  { rewets, 4, { ABOVE_0(1, 72), IN(0.3, 1.0/60, INFINITY), IN(0.4, 0.3, INFINITY), IN(0.6, 0.4, INFINITY) } },
  { volume, 3, { ABOVE_0(100, 1e7), IN(10, 0.1, 1000), IN(0.1, 0, 1) } },
  { refusal, 4, { IN(0.8, 0.2, 1), IN(0.25, 0, 0.85), IN(10, 0.1, 1000), IN(0.3, 0.001, 0.999) } },
  { cover, 2, { ABOVE_0(10, 1e6), IN(100, 1e-4, 1e6) } },
  { life, 1, { IN(5, 1, 10) } },
  { band, 1, { IN(40, 16, 150) } },
  { sets, 3, { IN(100, 0, 1e8), IN(500, 1e-4, INFINITY), IN(0.2, 0, 1) } },
  { by_feed, 2, { IN(2, 0, 100), IN(60, 0, 1e5) } },
  { by_area, 2, { IN(100, 0, 1e7), IN(3, 0.01, 1000) } },
  { trips, 3, { IN(100, 0, 1e9), IN(2000, 1e-4, 1e6), IN(10, 0, 1440) } },
  { fresh, 2, { IN(100, 0, 1e9), IN(0.8, 0, 1) } },
  { solids, 3, { IN(100, 0, 1e7), IN(500, 0, 20000), IN(2350, 1000, 4000) } },
  { mix, 4, { IN(10, 0, 1e9), IN(23, 0, 1e10), IN(100, 0, 1e9), IN(0.1, 0, 1) } },
  { settle, 3, { IN(100, 10, 2e9), IN(10, 0, 100), IN(0.3, 0.05, 0.7) } },
  { drums, 3, { IN(100, 0, 1e9), IN(208, 1, 2000), IN(0.9, 0.1, 1) } },
  { bags, 3, { IN(10, 0, 1e9), IN(23, 0, 1e10), IN(20, 1, 1000) } },
  { ph_class, 2, { IN(11, -2, 16), IN(0.8, 0, 1) } },
  { average, 2, { IN(40, 0, INFINITY), IN(4, 0, 24) } },
  { dose, 2, { IN(92, 30, 140), IN(4, 0, 24) } },
  { allowed, 1, { IN(92, 70, 140) } },
  { noise_level, 1, { ABOVE_0(50, 1e5) } },
  { daily, 2, { IN(4, 0, 100), IN(3, 0, 24) } },
  { hours_to, 2, { ABOVE_0(4, 100), ABOVE_0(2.5, 50) } },
  { dust, 1, { ABOVE_0(3, 24) } },
  { shroud, 1, { IN(125, 25, 600) } },
  { air, 6, { ABOVE_0(1000, 1e7), IN(500, 0, 1e8), IN(2, 1, 10), IN(0.05, 0, 1e5), ABOVE_0(1, 1000),
              IN(5, 0, 1e6) } },
  { clears, 5, { ABOVE_0(1000, 1e7), IN(500, 0, 1e8), IN(2, 1, 10), IN(100, 0, 1e5), ABOVE_0(50, 1e5) } },
  { air_needed, 5, { ABOVE_0(1000, 1e7), IN(500, 0, 1e8), IN(2, 1, 10), IN(0.1, 0, 1e5), ABOVE_0(50, 1e5) } },
  { solvent, 6, { IN(4, 0, 1e5), IN(20, -30, 60), ABOVE_0(0.5, 1000), ABOVE_0(1000, 1e7), IN(2000, 0, 1e8),
                  IN(2, 1, 10) } },
  { dilution, 3, { IN(4, 0, 1e5), IN(20, -30, 60), ABOVE_0(0.25, 1) } },
  { exhaust, 2, { IN(50, 0, 1e6), IN(20, -30, 60) } },
  { monoxide, 3, { IN(20, 0, 60), IN(4, 0, 24), IN(60, 20, 1e6) } },
  { lift, 6, { ABOVE_0(15, 500), IN(30, 0, 63), IN(60, 0, 175), IN(50, 0, 175), IN(20, 0, 135), ABOVE_0(1, 8) } },
  { lift_pace, 1, { IN(1, 0, 15) } },
  { drop, 4, { ABOVE_0(120, 1000), IN(15, 0, 1000), ABOVE_0(1.98, 10), IN(30, 0, 3000) } },
  { drop_by_area, 4, { ABOVE_0(120, 1000), IN(15, 0, 1000), IN(6530, 1000, 2e6), IN(30, 0, 3000) } },
  { longest, 4, { ABOVE_0(120, 1000), ABOVE_0(15, 1000), ABOVE_0(1.98, 10), ABOVE_0(0.03, 0.5) } },
  { apparent, 2, { ABOVE_0(480, 1000), IN(30, 0, 10000) } },
  { generator, 2, { ABOVE_0(10, 1000), IN(300, 0, 5000) } },
  { assign, 4, { ABOVE_0(10, 1000), IN(120, 1, 1000), ABOVE_0(20, 1000), IN(120, 1, 1000) } },
  { gfci, 3, { IN(120, 1, 1000), ABOVE_0(20, 1000), IN(4, 0.1, 10000) } },
  { emission, 3, { IN(2, 0, 1000), IN(0.05, 0.001, 1), ABOVE_0(66, 1000) } },
  { tests_of, 1, { ABOVE_0(500, 1e7) } },
  { probe, 1, { IN(150, 10, 2000) } },
  { moisture, 2, { IN(2, 0, 1000), IN(0.7, 0, 1) } },
  { filler, 4, { IN(100, 0, 1e6), IN(5, 0.5, 100), IN(50, 1, 500), IN(0.1, 0, 1) } },
  { grid, 3, { ABOVE_0(30, 10000), ABOVE_0(20, 10000), IN(5, 0.5, 50) } },
  { joint_age, 1, { IN(60, 0, 1e5) } },
  { slip, 1, { IN(0.5, 0, 2) } },
  { limit, 1, { IN(5, -INFINITY, INFINITY) } },
};

typedef union {
  unsigned char bytes[OUT_BYTES];
  max_align_t aligned;
} Out;

/* Row r with one input replaced. *untouched tells whether the answer's room was left alone. */
static bool call_with(size_t r, int input, double value, TradeError *error, bool *untouched)
{
  double v[INPUTS];
  Out out, before;
  for (int i = 0; i < rows[r].inputs; i++) v[i] = i == input ? value : rows[r].input[i].fine;
  memset(&out, 0xA5, sizeof out);
  memcpy(&before, &out, sizeof out);
  bool answered = rows[r].call(v, &out, error);
  *untouched = memcmp(&out, &before, sizeof out) == 0;
  return answered;
}

static void check_refused(size_t r, int input, double value, TradeStatus status)
{
  TradeError error = { .status = TRADE_OK };
  bool untouched;
  bool answered = call_with(r, input, value, &error, &untouched);
  if (answered || error.status != status)
    print_error("row %zu, input %d = %.9g: answered %d, %s\n", r, input, value, answered, error.message);
  assert_false(answered);
  assert_int_equal(error.status, status);
  assert_non_null(error.argument);
  assert_true(untouched);
  assert_false(call_with(r, input, value, NULL, &untouched)); /* nobody has to ask why */
}

static void the_inputs_of_every_row_are_fine(void **state)
{
  (void)state;
  for (size_t r = 0; r < COUNT_OF(rows); r++) {
    TradeError error = { .message = "" };
    bool untouched, answered = call_with(r, 0, rows[r].input[0].fine, &error, &untouched);
    if (!answered) print_error("row %zu: %s\n", r, error.message);
    assert_true(answered);
    assert_false(untouched);
  }
}

static void a_number_that_is_not_finite_is_refused_and_nothing_is_written(void **state)
{
  (void)state;
  static const double bad[] = { NAN, INFINITY, -INFINITY };
  for (size_t r = 0; r < COUNT_OF(rows); r++)
    for (int input = 0; input < rows[r].inputs; input++)
      for (size_t b = 0; b < COUNT_OF(bad); b++) check_refused(r, input, bad[b], TRADE_NOT_FINITE);
}

/* A thousandth past a limit of 0, a millionth of any other. */
static double past(double limit, double direction)
{
  return limit + direction * (limit == 0 ? 1e-3 : fabs(limit) * 1e-6);
}

static void just_outside_its_range_every_input_is_refused(void **state)
{
  (void)state;
  for (size_t r = 0; r < COUNT_OF(rows); r++)
    for (int i = 0; i < rows[r].inputs; i++) {
      Input in = rows[r].input[i];
      if (isfinite(in.low)) check_refused(r, i, past(in.low, -1), TRADE_OUT_OF_RANGE);
      if (in.is_open) check_refused(r, i, in.low, TRADE_OUT_OF_RANGE);
      if (isfinite(in.high)) check_refused(r, i, past(in.high, 1), TRADE_OUT_OF_RANGE);
    }
}

/* The ends may leave no answer, but they are not out of range. */
static void the_ends_of_a_range_belong_to_it(void **state)
{
  (void)state;
  for (size_t r = 0; r < COUNT_OF(rows); r++)
    for (int i = 0; i < rows[r].inputs; i++)
      for (int end = 0; end < 2; end++) {
        Input in = rows[r].input[i];
        TradeError error = { .status = TRADE_OK };
        bool untouched;
        double value = end ? in.high : in.low;
        if (!isfinite(value) || (!end && in.is_open)) continue;
        call_with(r, i, value, &error, &untouched);
        if (error.status == TRADE_OUT_OF_RANGE) print_error("row %zu, input %d: %s\n", r, i, error.message);
        assert_int_not_equal(error.status, TRADE_OUT_OF_RANGE);
      }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_inputs_of_every_row_are_fine),
    cmocka_unit_test(a_number_that_is_not_finite_is_refused_and_nothing_is_written),
    cmocka_unit_test(just_outside_its_range_every_input_is_refused),
    cmocka_unit_test(the_ends_of_a_range_belong_to_it),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
