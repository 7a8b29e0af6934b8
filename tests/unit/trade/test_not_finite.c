/* test_not_finite.c - no number of any function may be a NaN or infinite: each is refused by name, nothing is written.
 *
 * A row holds inputs that are fine; the test puts a NaN and both infinities in the place of each. */
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
  return circuits_gfci(&(Receptacle){ .volts = v[0], .amps = v[1], .is_generator = true, .generator_kw = v[2] }, out,
                       e);
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

static const struct {
  Call *call;
  int inputs;
  double fine[INPUTS];
} rows[] = {
  { saturation, 1, { 20 } },
  { dew_point, 2, { 20, 0.5 } },
  { margin, 4, { 20, 0.5, 18, 3 } },
  { evaporation, 4, { 20, 20, 0.5, 5 } },
  { evaporation_us, 4, { 70, 70, 0.5, 5 } },
  { wet_thickness, 1, { 10 } },
  { dry_thickness, 2, { 100, 0.3 } },
  { spread, 2, { 0.3, 40 } },
  { wet_life, 4, { 100, 1000, 0.8, 0.2 } },
  { rewets, 4, { 1, 0.3, 0.4, 0.6 } },
  { volume, 3, { 100, 10, 0.1 } },
  { refusal, 4, { 0.8, 0.4, 10, 0.3 } },
  { cover, 2, { 10, 4 } },
  { life, 1, { 5 } },
  { band, 1, { 40 } },
  { sets, 3, { 100, 500, 0.2 } },
  { by_feed, 2, { 2, 60 } },
  { by_area, 2, { 100, 3 } },
  { trips, 3, { 100, 30, 10 } },
  { fresh, 2, { 100, 0.8 } },
  { solids, 3, { 100, 500, 2350 } },
  { mix, 4, { 10, 23, 100, 0.1 } },
  { settle, 3, { 100, 10, 0.3 } },
  { drums, 3, { 100, 208, 0.9 } },
  { bags, 3, { 10, 23, 20 } },
  { ph_class, 2, { 11, 0.8 } },
  { average, 2, { 40, 4 } },
  { dose, 2, { 92, 4 } },
  { allowed, 1, { 92 } },
  { noise_level, 1, { 50 } },
  { daily, 2, { 4, 3 } },
  { hours_to, 2, { 4, 2.5 } },
  { dust, 1, { 3 } },
  { shroud, 1, { 125 } },
  { air, 6, { 1000, 500, 2, 0.05, 1, 5 } },
  { clears, 5, { 1000, 500, 2, 100, 50 } },
  { air_needed, 5, { 1000, 500, 2, 0.1, 50 } },
  { solvent, 6, { 4, 20, 0.5, 1000, 2000, 2 } },
  { dilution, 3, { 4, 20, 0.25 } },
  { exhaust, 2, { 50, 20 } },
  { monoxide, 3, { 20, 4, 60 } },
  { lift, 6, { 15, 30, 60, 50, 20, 1 } },
  { lift_pace, 1, { 1 } },
  { drop, 4, { 120, 15, 1.98, 30 } },
  { drop_by_area, 4, { 120, 15, 6530, 30 } },
  { longest, 4, { 120, 15, 1.98, 0.03 } },
  { apparent, 2, { 480, 30 } },
  { generator, 2, { 10, 300 } },
  { assign, 4, { 10, 120, 20, 120 } },
  { gfci, 3, { 120, 20, 4 } },
  { emission, 3, { 2, 0.05, 66 } },
  { tests_of, 1, { 500 } },
  { probe, 1, { 150 } },
  { moisture, 2, { 2, 0.7 } },
  { filler, 4, { 100, 5, 50, 0.1 } },
  { grid, 3, { 30, 20, 5 } },
  { joint_age, 1, { 60 } },
  { slip, 1, { 0.5 } },
  { limit, 1, { 5 } },
};

typedef union {
  unsigned char bytes[OUT_BYTES];
  max_align_t aligned;
} Out;

static void the_inputs_of_every_row_are_fine(void **state)
{
  (void)state;
  for (size_t r = 0; r < COUNT_OF(rows); r++) {
    Out out;
    TradeError error = { .message = "" };
    bool answered = rows[r].call(rows[r].fine, &out, &error);
    if (!answered) print_error("row %zu: %s\n", r, error.message);
    assert_true(answered);
  }
}

static void a_number_that_is_not_finite_is_refused_and_nothing_is_written(void **state)
{
  (void)state;
  static const double bad[] = { NAN, INFINITY, -INFINITY };
  for (size_t r = 0; r < COUNT_OF(rows); r++)
    for (int input = 0; input < rows[r].inputs; input++)
      for (size_t b = 0; b < COUNT_OF(bad); b++) {
        Out out, before;
        TradeError error = { .status = TRADE_OK };
        double v[INPUTS];
        memcpy(v, rows[r].fine, sizeof v);
        memset(&out, 0xA5, sizeof out);
        memcpy(&before, &out, sizeof out);
        v[input] = bad[b];
        bool answered = rows[r].call(v, &out, &error);
        if (answered || error.status != TRADE_NOT_FINITE) print_error("row %zu, input %d\n", r, input);
        assert_false(answered);
        assert_int_equal(error.status, TRADE_NOT_FINITE);
        assert_non_null(error.argument);
        assert_memory_equal(&out, &before, sizeof out);
        assert_false(rows[r].call(v, &out, NULL)); /* nobody has to ask why */
      }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_inputs_of_every_row_are_fine),
    cmocka_unit_test(a_number_that_is_not_finite_is_refused_and_nothing_is_written),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
