/* trade.c - cost of a call of the trade library's busier functions, in nanoseconds on the wall clock. */
#include <stdio.h>
#include <time.h>

#include "trade/acceptance.h"
#include "trade/coverage.h"
#include "trade/grit.h"
#include "trade/planetary.h"
#include "trade/removal.h"
#include "trade/sheen.h"

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

static const struct { const char *name; void (*call)(int); int times; } rows[] = {
  { "grit_size", look_up_grit, 200000 },
  { "removal_clear", clear_scratch, 200000 },
  { "geometry_best_lanes, 6 corners", lay_lanes_over_ell, 100000 },
  { "coverage_time", time_step, 1000000 },
  { "sheen_expect", expect_sheen, 500000 },
  { "statistics_t_quantile", quantile_of_t, 20000 },
  { "planetary_pass", simulate_head, 20 },
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
