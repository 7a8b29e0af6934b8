/* coverage.c - lanes, travel and minutes of a step, and the bands of plausible production. */
#include "trade/coverage.h"

#include <assert.h>
#include <math.h>

static const double M2_PER_SQFT = 0.09290304; /* exact */

const TradeFormula coverage_formulas[] = {
  { "coverage.rate",
    "rate = (head - overlap) x speed x 60 x duty / passes",
    { TRADE_COMPUTED, "area swept in a minute, less lost time, over the passes of the step" },
    "Completed floor in m2/h in open field from head and overlap in m, travel in m/min, duty above 0 to 1." },
  { "coverage.time",
    "time = (travel / speed + turns x turn time) / duty + obstacles + edges + hand areas + set-up",
    { TRADE_COMPUTED, "sum of the parts of the work" },
    "Minutes of one step on one area. Travel and turns are those of the lanes, over all passes; with crosswise "
    "passes half go at right angles, an odd one along. Edges and hand areas are done once, with their own "
    "rates." },
  { "coverage.band", "low <= rate <= high by class of step and head", TRADE_RULE_OF_THUMB,
    "What one operator completes in an hour, in sq ft/h. A rate outside the band deserves a second look, no "
    "more." },
  { "coverage.speed", "10 to 20 ft/min with metals, 15 to 40 ft/min with resins", TRADE_RULE_OF_THUMB,
    "Usual walking speed of a grinder." },
  { 0 }
};

static const CoverageBand bands[COVERAGE_STEP_CLASSES][COVERAGE_HEAD_CLASSES] = {
  /*                           small         medium        large   */
  [COVERAGE_SCRAPE]       = { { 75, 250 },  { 120, 350 }, { 200, 600 } },
  [COVERAGE_FIRST_METAL]  = { { 150, 350 }, { 250, 500 }, { 300, 800 } },
  [COVERAGE_METAL]        = { { 200, 450 }, { 350, 700 }, { 450, 1100 } },
  [COVERAGE_TRANSITIONAL] = { { 250, 500 }, { 400, 800 }, { 500, 1200 } },
  [COVERAGE_RESIN_COARSE] = { { 300, 600 }, { 500, 900 }, { 600, 1400 } },
  [COVERAGE_RESIN_DRY]    = { { 350, 800 }, { 600, 1200 }, { 700, 1800 } },
  [COVERAGE_RESIN_WET]    = { { 200, 500 }, { 350, 800 }, { 450, 1200 } },
  [COVERAGE_GROUT]        = { { 0, 0 },     { 150, 400 }, { 200, 600 } }, /* no figure for a small head */
};

static const CoverageSpeed speeds[BOND_FAMILIES] = { [BOND_METAL] = { 10, 20 }, [BOND_RESIN] = { 15, 40 } };

static const CoverageOther others[] = {
  { "hand edge, metal, per step", 20, 50, "ft/h" },
  { "hand edge, resin, per step", 30, 80, "ft/h" },
  { "densifier spray and work-in", 2000, 6000, "sqft/h" },
  { "dye, pump sprayer", 1000, 3000, "sqft/h" },
  { "guard, microfibre", 1500, 4000, "sqft/h" },
  { "high-speed burnish", 2500, 10000, "sqft/h" },
  { "automatic scrub between steps", 5000, 15000, "sqft/h" },
  { "joint clean and fill, crew of two", 50, 150, "ft/h" },
};

const CoverageBand *coverage_band(CoverageStepClass step, CoverageHead head)
{
  assert(step < COVERAGE_STEP_CLASSES && head < COVERAGE_HEAD_CLASSES);
  const CoverageBand *band = &bands[step][head];
  return band->high_sqft_h > 0 ? band : NULL;
}

CoverageStepClass coverage_step_class(BondFamily bond, double pad_grit, bool wet, bool opening)
{
  switch (bond) {
    case BOND_SCRAPER: return COVERAGE_SCRAPE;
    case BOND_METAL: return opening ? COVERAGE_FIRST_METAL : COVERAGE_METAL;
    case BOND_TRANSITIONAL: return COVERAGE_TRANSITIONAL;
    default: return wet ? COVERAGE_RESIN_WET : pad_grit <= 200 ? COVERAGE_RESIN_COARSE : COVERAGE_RESIN_DRY;
  }
}

const CoverageSpeed *coverage_usual_speed(BondFamily bond)
{
  assert(bond < BOND_FAMILIES);
  return speeds[bond].high_ft_min > 0 ? &speeds[bond] : NULL;
}

const CoverageOther *coverage_other(size_t index)
{
  return index < sizeof others / sizeof *others ? &others[index] : NULL;
}

bool coverage_rate(double head_m, double overlap_m, double speed_m_min, double duty, int passes, double *rate_m2_h,
                   TradeError *error)
{
  if (!geometry_check_head(head_m, overlap_m, error) || !trade_positive(error, "speed_m_min", speed_m_min) ||
      !trade_positive(error, "duty", duty) || !trade_in_range(error, "duty", duty, 0, 1) ||
      !trade_in_range(error, "passes", passes, 1, COVERAGE_PASSES_MAX))
    return false;
  *rate_m2_h = (head_m - overlap_m) * speed_m_min * 60 * duty / passes;
  return true;
}

/* An amount of work and its rate: the rate must be given where there is an amount. */
static bool check_work(const char *amount_name, double amount, const char *rate_name, double rate,
                       TradeError *error)
{
  if (!trade_in_range(error, amount_name, amount, 0, INFINITY)) return false;
  return amount == 0 || trade_positive(error, rate_name, rate);
}

static bool check_step(const CoverageStep *s, TradeError *error)
{
  return trade_positive(error, "speed_m_min", s->speed_m_min) &&
         trade_in_range(error, "turn_s", s->turn_s, 0, 3600) && trade_positive(error, "duty", s->duty) &&
         trade_in_range(error, "duty", s->duty, 0, 1) &&
         trade_in_range(error, "passes", s->passes, 1, COVERAGE_PASSES_MAX) &&
         trade_in_range(error, "obstacles", s->obstacles, 0, 1e6) &&
         trade_in_range(error, "obstacle_s", s->obstacle_s, 0, 3600) &&
         check_work("edge_m", s->edge_m, "edge_rate_m_h", s->edge_rate_m_h, error) &&
         check_work("hand_m2", s->hand_m2, "hand_rate_m2_h", s->hand_rate_m2_h, error) &&
         trade_in_range(error, "setup_min", s->setup_min, 0, INFINITY);
}

/* So many turns in every pass still fit an int. */
static bool check_lanes(const LanePlan *plan, TradeError *error)
{
  return trade_in_range(error, "turns", plan->turns, 0, 1e6) &&
         trade_in_range(error, "travel_m", plan->travel_m, 0, 1e9);
}

static double work_min(double amount, double rate_h)
{
  return amount > 0 ? amount / rate_h * 60 : 0;
}

static void drive(const CoverageStep *s, const LanePlan *along, const LanePlan *across, CoverageTime *t)
{
  t->passes_across = s->crosswise ? s->passes / 2 : 0;
  t->passes_along = s->passes - t->passes_across;
  t->travel_m = t->passes_along * along->travel_m;
  t->turns = t->passes_along * along->turns + s->passes - 1;
  if (t->passes_across > 0) {
    t->travel_m += t->passes_across * across->travel_m;
    t->turns += t->passes_across * across->turns;
  }
}

bool coverage_time(const CoverageStep *step, const LanePlan *along, const LanePlan *across, CoverageTime *out,
                   TradeError *error)
{
  if (!check_step(step, error)) return false;
  if (step->crosswise && step->passes > 1 && !across)
    return trade_refuse(error, TRADE_NO_ANSWER, "across", 0, "crosswise passes need lanes in the second direction");
  if (!check_lanes(along, error) || (step->crosswise && across && !check_lanes(across, error))) return false;
  CoverageTime t = { .setup_min = step->setup_min };
  drive(step, along, across, &t);
  t.travel_min = t.travel_m / step->speed_m_min;
  t.turn_min = t.turns * step->turn_s / 60;
  t.pause_min = (t.travel_min + t.turn_min) * (1 / step->duty - 1);
  t.obstacle_min = (double)step->obstacles * step->passes * step->obstacle_s / 60;
  t.edge_min = work_min(step->edge_m, step->edge_rate_m_h);
  t.hand_area_min = work_min(step->hand_m2, step->hand_rate_m2_h);
  t.machine_min = t.travel_min + t.turn_min + t.pause_min + t.obstacle_min + t.setup_min;
  t.hand_min = t.edge_min + t.hand_area_min;
  t.total_min = t.machine_min + t.hand_min;
  *out = t;
  return true;
}

bool coverage_head_class(double head_m, CoverageHead *out, TradeError *error)
{
  if (!trade_in_range(error, "head_m", head_m, 0.381, 2)) return false;
  *out = head_m < 24 * 0.0254   ? COVERAGE_HEAD_SMALL
         : head_m < 29 * 0.0254 ? COVERAGE_HEAD_MEDIUM
                                : COVERAGE_HEAD_LARGE;
  return true;
}

bool coverage_judge(const CoverageBand *band, double rate_m2_h, CoverageVerdict *out, TradeError *error)
{
  if (!trade_in_range(error, "rate_m2_h", rate_m2_h, 0, INFINITY)) return false;
  double rate_sqft_h = rate_m2_h / M2_PER_SQFT;
  *out = rate_sqft_h < band->low_sqft_h    ? COVERAGE_SLOW
         : rate_sqft_h > band->high_sqft_h ? COVERAGE_FAST
                                           : COVERAGE_USUAL;
  return true;
}
