/* native_trade_light.c - for scripts: sheen, what light allows, readings that prove a promise, statistics. */
#include <math.h>

#include "lang/native_trade.h"
#include "trade/acceptance.h"
#include "trade/grit.h"
#include "trade/optics.h"
#include "trade/sheen.h"

static const char *bond_word(size_t i)
{
  return i < BOND_FAMILIES ? bond_info((BondFamily)i)->name : NULL;
}

/* ---- sheen */

static bool band(const Given *in, Answer *out, TradeError *error)
{
  SheenBand b;
  if (!sheen_band(GIVEN_ENUM(BondFamily, in[0]), in[1].x, &b, error)) return false;
  out[0].x = b.low_gu;
  out[1].x = b.high_gu;
  return true;
}

static bool monotone(const Given *in, Answer *out, TradeError *error)
{
  double values[TRADE_ROWS_MOST], weights[TRADE_ROWS_MOST];
  size_t count = in[0].count;
  for (size_t i = 0; i < count; i++) {
    const Given *cell = &in[0].cells[2 * i];
    values[i] = cell[0].x;
    weights[i] = cell[1].lacks ? 1 : cell[1].x;
  }
  if (!sheen_monotone(values, weights, count, out[0].cells, error)) return false;
  out[0].count = count;
  return true;
}

enum { STEP_CELLS = 3, READING_CELLS = 2 };

static bool read_steps(const Given *list, SheenStep *steps, TradeError *error)
{
  for (size_t i = 0; i < list->count; i++) {
    const Given *cell = &list->cells[STEP_CELLS * i];
    Grit grit;
    steps[i].bond = GIVEN_ENUM(BondFamily, cell[1]);
    steps[i].cleared = cell[2].x > 0;
    if (!grit_read(cell[0].text, &grit, error) || !grit_as_pad(grit, &steps[i].grit, error)) return false;
  }
  return true;
}

/* The shop's curve where it has readings; false is a refusal. */
static bool read_curve(const Given *list, SheenCurve *curve, TradeError *error)
{
  SheenReading readings[TRADE_ROWS_MOST];
  for (size_t i = 0; i < list->count; i++)
    readings[i] = (SheenReading){ list->cells[READING_CELLS * i].x, list->cells[READING_CELLS * i + 1].x };
  return sheen_calibrate(readings, list->count, curve, error);
}

static bool expect(const Given *in, Answer *out, TradeError *error)
{
  SheenStep steps[TRADE_ROWS_MOST];
  SheenCurve curve;
  SheenExpectation e;
  bool has_curve = !in[2].lacks;
  if (!read_steps(&in[0], steps, error) || (has_curve && !read_curve(&in[2], &curve, error)) ||
      !sheen_expect(steps, in[0].count, GIVEN_ENUM(SheenFinish, in[1]), has_curve ? &curve : NULL, &e, error))
    return false;
  out[0].x = e.low_gu;
  out[1].x = e.high_gu;
  out[2].x = e.ceiling_gu;
  out[3].x = e.at_ceiling;
  out[4].x = e.from_shop;
  out[0].basis = e.basis;
  return true;
}

static bool curve_at(const Given *in, Answer *out, TradeError *error)
{
  SheenCurve curve;
  if (!read_curve(&in[0], &curve, error) || !sheen_curve_at(&curve, in[1].x, &out[0].x, error)) return false;
  out[1].x = curve.spread_gu;
  return true;
}

/* ---- light */

static bool fresnel(const Given *in, Answer *out, TradeError *error)
{
  return optics_fresnel(in[0].x, in[1].x, &out[0].x, error);
}

static bool gloss(const Given *in, Answer *out, TradeError *error)
{
  return optics_gloss(in[0].x, in[1].x, &out[0].x, error);
}

static bool ceiling(const Given *in, Answer *out, TradeError *error)
{
  return optics_gloss_ceiling(in[0].x, in[1].x, &out[0].x, error);
}

static bool rough_share(const Given *in, Answer *out, TradeError *error)
{
  return optics_rough_share(in[0].x, in[1].x, in[2].x, &out[0].x, error);
}

static bool rms(const Given *in, Answer *out, TradeError *error)
{
  return optics_rms(in[0].x, GIVEN_ENUM(OpticsProfile, in[1]), &out[0].x, error);
}

/* ---- readings and statistics */

static bool judge(const Given *in, Answer *out, TradeError *error)
{
  static const char *const verdicts[] = { [ACCEPTANCE_PASS] = "pass", [ACCEPTANCE_OPEN] = "open",
                                          [ACCEPTANCE_FAIL] = "fail" };
  double readings[TRADE_ROWS_MOST];
  size_t count = given_numbers(&in[0], readings);
  AcceptanceRule rule = { in[1].lacks ? -INFINITY : in[1].x, in[2].lacks ? -INFINITY : in[2].x, in[3].x };
  Acceptance a;
  if (!acceptance_judge(readings, count, &rule, &a, error)) return false;
  out[0].text = verdicts[a.both];
  out[1].x = a.lower_bound;
  out[2].x = a.readings.mean;
  out[3].x = a.readings.spread;
  out[4].x = a.readings.least;
  out[5].x = a.readings.most;
  out[6].text = verdicts[a.mean];
  out[7].text = verdicts[a.each];
  return true;
}

static bool readings_needed(const Given *in, Answer *out, TradeError *error)
{
  int count;
  if (!acceptance_readings(in[0].x, in[1].x, in[2].x, &count, error)) return false;
  out[0].x = count;
  return true;
}

static bool beta(const Given *in, Answer *out, TradeError *error)
{
  return statistics_beta(in[0].x, in[1].x, in[2].x, &out[0].x, error);
}

static bool t_below(const Given *in, Answer *out, TradeError *error)
{
  return statistics_t_below(in[0].x, in[1].x, &out[0].x, error);
}

static bool t_quantile(const Given *in, Answer *out, TradeError *error)
{
  return statistics_t_quantile(in[0].x, in[1].x, &out[0].x, error);
}

static bool summary(const Given *in, Answer *out, TradeError *error)
{
  double values[TRADE_ROWS_MOST];
  Summary s;
  if (!statistics_summary(values, given_numbers(&in[0], values), &s, error)) return false;
  out[0].x = s.mean;
  out[1].x = s.spread;
  out[2].x = s.least;
  out[3].x = s.most;
  out[4].x = (double)s.count;
  out[0].basis = (Basis){ TRADE_COMPUTED, "arithmetic" };
  return true;
}

/* ---- rows */

#define BOND(says_) { "bond", "word", "", "resin", .says = says_, .word = bond_word }
#define INDEX { "index", "number", "", "1.55", .says = "of refraction: 1.50 to 1.60 for paste and quartz" }
#define ANGLE { "angle", "number", "degrees", "60", .says = "from the normal, in degrees" }
#define GLOSS_ANGLE { "angle", "number", "degrees", "60", .says = "20, 60 or 85 degrees from the normal" }
#define FREEDOM { "freedom", "number", "", "9", .says = "degrees of freedom" }
#define CONFIDENCE                                                                                                 \
  { "confidence", "fraction", "", "95 %", .says = "one-sided", .otherwise = "95 %", .basis = "as usual" }
#define SHOP_READINGS(...)                                                                                         \
  { "readings", .example = "400, 28; 400, 31; 800, 44; 1500, 52; 3000, 58",                                        \
    .says = "the shop's own, by the grit of the last step", __VA_ARGS__                                            \
    COLUMNS({ "grit", "number", "", "800", .says = "printed on the pad" },                                         \
            { "gloss", "number", "GU", "44", .says = "at 60 degrees" }) }
#define READ_VALUES                                                                                                \
  COLUMNS({ "", "number", "", "52", .says = "a reading" })

const TradeRow native_trade_light[] = {
  { "sheen.band", band, .in = INPUTS(BOND("of the last step"), { "grit", "number", "", "800", .says = "of it" }),
    .out = OUTPUTS({ "low", "gloss", .unit = "GU" }, { "high", "gloss", .unit = "GU" }) },
  { "sheen.monotone", monotone,
    .in = INPUTS({ "values", .example = "28, 1; 31, 2; 30, 1; 44, 1", .says = "in their order", .core = "y",
                   COLUMNS({ "y", "number", "", "28", .says = "a value" },
                           { "weight", "number", "", "1", .says = "how much it counts", .core = "weights",
                             .otherwise = "1", .basis = "all alike" }) }),
    .out = OUTPUTS({ "fit", "number", .is_list = true }) },
  { "sheen.expect", expect,
    .in = INPUTS({ "steps", .example = "400, resin, true; 800, resin, true", .says = "the chain, coarse to fine",
                   COLUMNS({ "grit", "grit", "", "800", .says = "number or printed grade" }, BOND("of the tools"),
                           { "cleared", "flag", "", "true", .says = "it took out the scratch before it",
                             .otherwise = "true", .basis = "a sound chain unless said" }) },
                 { "finish", "bare|burnished|guarded", "", "burnished", .says = "how the floor is left" },
                 SHOP_READINGS(.may_lack = true, )),
    .out = OUTPUTS({ "low", "gloss", .unit = "GU" }, { "high", "gloss", .unit = "GU" },
                   { "ceiling", "gloss", .unit = "GU" }, { "at_ceiling", .kind = "flag" },
                   { "from_shop", .kind = "flag" }) },
  { "sheen.curve_at", curve_at, .formula = "sheen.monotone",
    .says = "Gloss at a grit on the curve that never falls through the shop's own readings, straight over the "
            "logarithm of the grit; and the spread of the readings about it.",
    .in = INPUTS(SHOP_READINGS(), { "grit", "number", "", "1200", .says = "of the last step" }),
    .out = OUTPUTS({ "gloss", "gloss", .unit = "GU" }, { "spread", "number", .unit = "GU" }) },

  { "optics.fresnel", fresnel, .in = INPUTS(INDEX, ANGLE), .out = OUTPUTS({ "reflectance", .kind = "number" }) },
  { "optics.gloss", gloss,
    .in = INPUTS({ "reflectance", "number", "", "0.09", .says = "share of the light that comes back" },
                 GLOSS_ANGLE),
    .out = OUTPUTS({ "gloss", "gloss", .unit = "GU" }) },
  { "optics.gloss_ceiling", ceiling, .formula = "optics.gloss",
    .says = "The most that a perfectly smooth bare surface of this index can read. A reading far above it points "
            "to a film, to metal or to a fault of the meter.",
    .in = INPUTS(INDEX, GLOSS_ANGLE), .out = OUTPUTS({ "gloss", "gloss", .unit = "GU" }) },
  { "optics.rough_share", rough_share,
    .in = INPUTS({ "rms", "grain size", "nm", "50 nm", .says = "height of the roughness, root mean square" },
                 { "wavelength", "grain size", "nm", "550 nm", .says = "of the light" }, ANGLE),
    .out = OUTPUTS({ "share", .kind = "number" }) },
  { "optics.rms", rms,
    .in = INPUTS({ "ra", "grain size", "um", "0.4 um", .says = "mean roughness" },
                 { "profile", "gaussian|sine", "", "gaussian", .says = "how the heights scatter" }),
    .out = OUTPUTS({ "rms", "grain size", .unit = "um" }) },

  { "acceptance.judge", judge, .formula = "acceptance.lower_bound",
    .in = INPUTS({ "readings", .example = "52; 49; 55; 51; 50; 53", .says = "of one kind, in one unit",
                   READ_VALUES },
                 { "mean_at_least", "number", "", "45", .says = "promised of the floor as a whole",
                   .may_lack = true },
                 { "each_at_least", "number", "", "40", .says = "promised of every spot", .may_lack = true },
                 CONFIDENCE),
    .out = OUTPUTS({ "verdict", .kind = "text" }, { "lower_bound", .kind = "number" }, { "mean", .kind = "number" },
                   { "spread", .kind = "number" }, { "least", .kind = "number" }, { "most", .kind = "number" },
                   { "mean_verdict", .kind = "text" }, { "each_verdict", .kind = "text" }) },
  { "acceptance.readings", readings_needed,
    .in = INPUTS({ "spread", "number", "", "4", .says = "standard deviation to be expected" },
                 { "margin", "number", "", "2", .says = "to which the mean should be known" }, CONFIDENCE),
    .out = OUTPUTS({ "readings", .kind = "whole" }) },

  { "statistics.beta", beta,
    .in = INPUTS({ "a", "number", "", "2", .says = "first parameter" },
                 { "b", "number", "", "3", .says = "second" },
                 { "x", "number", "", "0.4", .says = "where" }),
    .out = OUTPUTS({ "share", .kind = "number" }) },
  { "statistics.t", t_below,
    .in = INPUTS({ "t", "number", "", "1.833", .says = "where" }, FREEDOM),
    .out = OUTPUTS({ "probability", .kind = "number" }) },
  { "statistics.t_quantile", t_quantile, .formula = "statistics.t",
    .says = "The t below which Student's distribution has this probability.",
    .in = INPUTS({ "probability", "number", "", "0.95", .says = "to lie below" }, FREEDOM),
    .out = OUTPUTS({ "t", .kind = "number" }) },
  { "statistics.summary", summary,
    .says = "Mean, sample standard deviation, least and most of some values.",
    .in = INPUTS({ "values", .example = "52; 49; 55; 51", .says = "in one unit", READ_VALUES }),
    .out = OUTPUTS({ "mean", .kind = "number" }, { "spread", .kind = "number" }, { "least", .kind = "number" },
                   { "most", .kind = "number" }, { "count", .kind = "whole" }) },
  { .name = NULL }
};
