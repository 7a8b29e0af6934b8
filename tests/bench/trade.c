/* trade.c - cost of a call of the trade library's busier functions, in nanoseconds on the wall clock. */
#include <stdio.h>
#include <time.h>

#include "trade/acceptance.h"
#include "trade/chemistry.h"
#include "trade/circuits.h"
#include "trade/climate.h"
#include "trade/coverage.h"
#include "trade/dust.h"
#include "trade/film.h"
#include "trade/flatness.h"
#include "trade/grit.h"
#include "trade/limits.h"
#include "trade/noise.h"
#include "trade/packages.h"
#include "trade/planetary.h"
#include "trade/power.h"
#include "trade/removal.h"
#include "trade/room.h"
#include "trade/sheen.h"
#include "trade/slurry.h"
#include "trade/vibration.h"
#include "trade/wear.h"

static double sink; /* keeps the calls from being optimised away */

static double now_s(void)
{
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void look_up_grit(int i)
{
  GritSize size;
  if (grit_size((Grit){ GRIT_PAD, 30 + i % 900 }, &size, NULL)) sink += size.size_um;
}

static void clear_scratch(int i)
{
  RemovalClearing c;
  RemovalStep step = { { GRIT_PAD, 100 }, { GRIT_PAD, 200 + i % 100 }, BOND_RESIN, 4.5, NULL, NULL };
  if (removal_clear(&step, &c, NULL)) sink += c.passes;
}

static void lay_lanes_over_ell(int i)
{
  static const Point ell[] = { { 0, 0 }, { 20, 0 }, { 20, 8 }, { 8, 8 }, { 8, 20 }, { 0, 20 } };
  const Outline outline = { { ell, 6 }, NULL, 0 };
  LanePlan plan;
  if (geometry_best_lanes(&outline, 0.7 + 0.001 * (i % 100), 0.05, &plan, NULL)) sink += plan.travel_m;
}

static void time_step(int i)
{
  const LanePlan plan = { .pieces = 10, .turns = 9, .travel_m = 300 };
  const CoverageStep step = { .speed_m_min = 4 + i % 5, .turn_s = 10, .duty = 0.8, .passes = 4, .crosswise = true };
  CoverageTime t;
  if (coverage_time(&step, &plan, &plan, &t, NULL)) sink += t.total_min;
}

static void expect_sheen(int i)
{
  const SheenStep chain[] = { { BOND_RESIN, 400, true }, { BOND_RESIN, 800 + i % 700, true } };
  SheenExpectation e;
  if (sheen_expect(chain, 2, SHEEN_BURNISHED, NULL, &e, NULL)) sink += e.high_gu;
}

static void quantile_of_t(int i)
{
  double t;
  if (statistics_t_quantile(0.9 + 0.0009 * (i % 100), 2 + i % 50, &t, NULL)) sink += t;
}

static void simulate_head(int i)
{
  const Planetary head = { .orbit_m = 0.22, .planets = 3, .tool_orbit_m = 0.09, .tools = 3, .tool_radius_m = 0.04,
                           .head_rpm = -60, .planet_rpm = 600 + i, .travel_m_min = 6 };
  PlanetaryPass pass;
  if (planetary_pass(&head, &pass, NULL)) sink += pass.mean;
}

static void calibrate_sheen(int i)
{
  SheenReading readings[20];
  SheenCurve curve;
  for (int r = 0; r < 20; r++) readings[r] = (SheenReading){ 100 * (1 + r % 10), 20 + (7 * r + i) % 40 };
  if (sheen_calibrate(readings, 20, &curve, NULL)) sink += curve.gloss_gu[0];
}

static void judge_readings(int i)
{
  double readings[24];
  const AcceptanceRule rule = { 45, 40, 0.95 };
  Acceptance a;
  for (int r = 0; r < 24; r++) readings[r] = 42 + (5 * r + i) % 13;
  if (acceptance_judge(readings, 24, &rule, &a, NULL)) sink += a.lower_bound;
}

static void measure_flatness(int i)
{
  double heights_in[100];
  FlatnessLine line;
  for (int h = 0; h < 100; h++) heights_in[h] = 0.01 * ((7 * h + i) % 11);
  if (flatness_line(heights_in, 100, &line, NULL)) sink += line.ff;
}

static void find_dew_point(int i)
{
  double dew_c;
  if (climate_dew_point(10 + i % 20, 0.5, &dew_c, NULL)) sink += dew_c;
}

static void evaporate(int i)
{
  Evaporation e;
  if (climate_evaporation(15 + i % 20, 20, 0.4, 8, &e, NULL)) sink += e.rate;
}

static void keep_film_wet(int i)
{
  WetLife life;
  if (film_wet_life(80 + i % 100, 1100, 0.85, 0.3, &life, NULL)) sink += life.likely_h;
}

static void dose_until_refusal(int i)
{
  const double absorbed[] = { 0.95, 0.7, 0.4 };
  const AbsorptionTest test = { absorbed, 3, 8 + i % 8, 0.1 };
  RefusalDose dose;
  if (chemistry_until_refusal(&test, &dose, NULL)) sink += dose.coats;
}

static void buy_packages(int i)
{
  const PackageSize sizes[] = { { 18.93, 17500 }, { 3.785, 4200 }, { 208.2, 160000 } };
  PackageMix mix;
  if (packages_cover(100 + i % 400, sizes, 3, &mix, NULL)) sink += mix.packages;
}

static void settle_slurry(int i)
{
  const Solids solids = { 100 + i % 50, 235 };
  Slurry slurry;
  Settled settled;
  if (slurry_mix(&solids, 400, 0.2, &slurry, NULL) && slurry_settle(&slurry, 0.35, &settled, NULL))
    sink += settled.sludge_l;
}

static void wear_tools(int i)
{
  const WearBand *band;
  WearLife life;
  if (wear_band("resin", 400, &band, NULL) && wear_life(band, 3 + 0.1 * (i % 40), true, &life, NULL))
    sink += life.likely;
}

static void dose_of_noise(int i)
{
  const Exposure tasks[] = { { 85 + i % 20, 3 }, { 92, 2 }, { 88, 3 } };
  NoiseDose dose;
  if (noise_dose(noise_criterion_at(0), tasks, 3, &dose, NULL)) sink += dose.dose_percent;
}

static void day_of_vibration(int i)
{
  const Exposure tools[] = { { 2 + i % 5, 3 }, { 4, 2 } };
  double a8_m_s2;
  if (vibration_daily(tools, 2, &a8_m_s2, NULL)) sink += a8_m_s2;
}

static void look_up_dust(int i)
{
  const DustTask task = { "floor grinder", "collector", DUST_INDOORS, 1 + i % 8, 31 };
  DustVerdict verdict;
  if (dust_check(&task, &verdict, NULL)) sink += verdict.finding + 1;
}

static void fill_room(int i)
{
  const Room room = { 1000, 500 + i % 500, 3 };
  RoomAir air;
  if (room_air(&room, 0.1, 4, 0, &air, NULL)) sink += air.end_ppm;
}

static void look_up_limit(int i)
{
  const Limit *limit;
  bool holds;
  if (limit_find("waste.ph", &limit, NULL) && limit_holds(limit, i % 14, &holds, NULL)) sink += limit->high;
}

static void drop_voltage(int i)
{
  const PowerLine line = { POWER_SINGLE_PHASE, 120, 5 + i % 15, 1.93 };
  VoltageDrop drop;
  if (power_drop(&line, 30, &drop, NULL)) sink += drop.volts;
}

static void place_machines(int i)
{
  Machine machines[8];
  const Circuit circuits[] = { { 20, 120, POWER_SINGLE_PHASE }, { 20, 120, POWER_SINGLE_PHASE },
                               { 30, 120, POWER_SINGLE_PHASE } };
  CircuitPlan plan;
  for (int m = 0; m < 8; m++)
    machines[m] = (Machine){ 4 + (3 * m + i) % 9, 120, POWER_SINGLE_PHASE, m % 2 == 0, 1 };
  if (circuits_assign(machines, 8, circuits, 3, &plan, NULL)) sink += plan.running;
}

static const struct { const char *name; void (*call)(int); int times; } rows[] = {
  { "grit_size", look_up_grit, 200000 },
  { "removal_clear", clear_scratch, 200000 },
  { "geometry_best_lanes, 6 corners", lay_lanes_over_ell, 100000 },
  { "coverage_time", time_step, 1000000 },
  { "sheen_expect", expect_sheen, 500000 },
  { "statistics_t_quantile", quantile_of_t, 20000 },
  { "sheen_calibrate, 20 readings", calibrate_sheen, 100000 },
  { "acceptance_judge, 24 readings", judge_readings, 20000 },
  { "flatness_line, 100 points", measure_flatness, 100000 },
  { "planetary_pass", simulate_head, 20 },
  { "climate_dew_point", find_dew_point, 1000000 },
  { "climate_evaporation", evaporate, 500000 },
  { "film_wet_life", keep_film_wet, 1000000 },
  { "chemistry_until_refusal", dose_until_refusal, 200000 },
  { "packages_cover, 3 sizes", buy_packages, 2000 },
  { "slurry_mix and _settle", settle_slurry, 1000000 },
  { "wear_band and _life", wear_tools, 1000000 },
  { "noise_dose, 3 tasks", dose_of_noise, 500000 },
  { "vibration_daily, 2 tools", day_of_vibration, 1000000 },
  { "dust_check", look_up_dust, 1000000 },
  { "room_air", fill_room, 1000000 },
  { "limit_find and _holds", look_up_limit, 500000 },
  { "power_drop", drop_voltage, 1000000 },
  { "circuits_assign, 8 on 3", place_machines, 2000 },
};

int main(void)
{
  for (size_t r = 0; r < sizeof rows / sizeof *rows; r++) {
    double start_s = now_s();
    for (int i = 0; i < rows[r].times; i++) rows[r].call(i);
    printf("%-32s %12.0f ns\n", rows[r].name, (now_s() - start_s) / rows[r].times * 1e9);
  }
  return sink == 0; /* every call refused: nothing was measured */
}
