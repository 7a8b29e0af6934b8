/* native_trade_slab.c - for scripts: flatness, joints, moisture, slip. */
#include "lang/native_trade.h"
#include "trade/flatness.h"
#include "trade/joints.h"
#include "trade/moisture.h"
#include "trade/slip.h"

/* ---- flatness */

static bool ff(const Given *in, Answer *out, TradeError *error)
{
  return flatness_ff(in[0].x, in[1].x, &out[0].x, error);
}

static bool fl(const Given *in, Answer *out, TradeError *error)
{
  return flatness_fl(in[0].x, in[1].x, &out[0].x, error);
}

static bool line(const Given *in, Answer *out, TradeError *error)
{
  double heights[TRADE_ROWS_MOST];
  FlatnessLine l;
  if (!flatness_line(heights, given_numbers(&in[0], heights), &l, error)) return false;
  out[0].x = l.ff;
  if (l.has_fl) out[1].x = l.fl;
  out[2].x = (double)l.curvatures;
  out[3].x = (double)l.differences;
  return true;
}

static bool combine(const Given *in, Answer *out, TradeError *error)
{
  FlatnessSample samples[TRADE_ROWS_MOST];
  for (size_t i = 0; i < in[0].count; i++)
    samples[i] = (FlatnessSample){ in[0].cells[2 * i].x, in[0].cells[2 * i + 1].x };
  return flatness_combine(samples, in[0].count, &out[0].x, error);
}

static bool least_readings(const Given *in, Answer *out, TradeError *error)
{
  int count;
  if (!flatness_least_readings(in[0].x, &count, error)) return false;
  out[0].x = count;
  return true;
}

static const char *flatness_word(size_t i)
{
  const FlatnessLimit *limit = flatness_limit_at(i);
  return limit ? limit->name : NULL;
}

static bool meets(const Given *in, Answer *out, TradeError *error)
{
  (void)error;
  const FlatnessLimit *limit = flatness_limit_at((size_t)in[0].x);
  out[0].x = flatness_meets(limit, in[1].x, in[2].x);
  out[1].x = limit->ff;
  out[2].x = limit->fl;
  out[0].basis = limit->basis;
  return true;
}

/* ---- joints */

static bool filler(const Given *in, Answer *out, TradeError *error)
{
  return joints_filler(in[0].x, in[1].x, in[2].x, in[3].x, &out[0].x, error);
}

static bool grid(const Given *in, Answer *out, TradeError *error)
{
  JointGrid g;
  if (!joints_grid(in[0].x, in[1].x, in[2].x, &g, error)) return false;
  out[0].x = g.length_m;
  out[1].x = g.lines_along;
  out[2].x = g.lines_across;
  return true;
}

static bool joint_age(const Given *in, Answer *out, TradeError *error)
{
  static const char *const ages[] = { [JOINTS_TOO_EARLY] = "too early", [JOINTS_EARLY] = "early",
                                      [JOINTS_OF_AGE] = "of age" };
  JointsAge age;
  if (!joints_age(in[0].x, &age, error)) return false;
  out[0].text = ages[age];
  return true;
}

/* ---- moisture and slip */

static bool emission(const Given *in, Answer *out, TradeError *error)
{
  MoistureEmission m;
  if (!moisture_emission(in[0].x, in[1].x, in[2].x, &m, error)) return false;
  out[0].x = m.mver;
  out[1].x = m.ug_s_m2;
  out[2].x = m.in_time;
  return true;
}

static bool tests(const Given *in, Answer *out, TradeError *error)
{
  int count;
  if (!moisture_tests(in[0].x, &count, error)) return false;
  out[0].x = count;
  return true;
}

static bool probe_depth(const Given *in, Answer *out, TradeError *error)
{
  return moisture_probe_depth(in[0].x, given_whole(in[1]), &out[0].x, error);
}

static bool moisture(const Given *in, Answer *out, TradeError *error)
{
  MoistureVerdict v;
  if (!moisture_check(in[0].x, in[1].x, &v, error)) return false;
  out[0].x = v.holds;
  out[1].x = v.emission_holds;
  out[2].x = v.humidity_holds;
  return true;
}

static const char *slip_word(size_t i)
{
  const SlipCategory *category = slip_category_at(i);
  return category ? category->id : NULL;
}

static bool slip(const Given *in, Answer *out, TradeError *error)
{
  const SlipCategory *category = slip_category_at((size_t)in[0].x);
  bool holds;
  if (!slip_check(category, in[1].x, in[2].x > 0, &holds, error)) return false;
  out[0].x = holds;
  out[1].x = category->least_dcof;
  out[2].text = category->edition;
  out[0].basis = category->basis;
  return true;
}

/* ---- rows */

#define SPREAD_IN { "spread", "length", "in", "0.045 in", .says = "sample standard deviation" }
#define MEAN_IN { "mean", "length", "in", "-0.005 in", .says = "mean" }
#define MVER_UNIT "lb/1000 sqft/24 h"

const TradeRow native_trade_slab[] = {
  { "flatness.ff", ff, .in = INPUTS(SPREAD_IN, MEAN_IN), .out = OUTPUTS({ "ff", .kind = "number" }) },
  { "flatness.fl", fl, .in = INPUTS(SPREAD_IN, MEAN_IN), .out = OUTPUTS({ "fl", .kind = "number" }) },
  { "flatness.line", line, .formula = "flatness.ff",
    .says = "FF and, from 12 points on, FL of one straight line of elevations, a foot apart.",
    .in = INPUTS({ "heights",
                   .example = "0 in; 0.02 in; 0.05 in; 0.04 in; 0.06 in; 0.1 in; 0.09 in; 0.12 in; 0.11 in; "
                              "0.15 in; 0.14 in; 0.16 in; 0.2 in",
                   .says = "in order, 12 in apart, no line across a joint",
                   COLUMNS({ "", "length", "in", "0.02 in", .says = "an elevation" }) }),
    .out = OUTPUTS({ "ff", .kind = "number" }, { "fl", .kind = "number" }, { "curvatures", .kind = "whole" },
                   { "differences", .kind = "whole" }) },
  { "flatness.combine", combine,
    .in = INPUTS({ "samples", .example = "42, 40; 35, 60", .says = "lines or sections",
                   COLUMNS({ "f", "number", "", "42", .says = "FF or FL" },
                           { "readings", "number", "", "40", .says = "it rests on" }) }),
    .out = OUTPUTS({ "f", .kind = "number" }) },
  { "flatness.least_readings", least_readings,
    .in = INPUTS({ "area", "area", "sqft", "12,000 sqft", .says = "of the section" }),
    .out = OUTPUTS({ "readings", .kind = "whole" }) },
  { "flatness.meets", meets, .says = "Does a floor meet what is specified? The worse of both numbers decides.",
    .in = INPUTS({ "limit", "word", "", "flat", .says = "what is specified", .word = flatness_word },
                 { "ff", "number", "", "38", .says = "measured" },
                 { "fl", "number", "", "26", .says = "measured" }),
    .out = OUTPUTS({ "holds", .kind = "flag" }, { "ff", .kind = "number" }, { "fl", .kind = "number" }) },

  { "joints.filler", filler,
    .in = INPUTS({ "length", "length", "m", "1000 ft", .says = "of all joints" },
                 { "width", "length", "mm", "3/16 in", .says = "of a joint" },
                 { "depth", "length", "mm", "1 in", .says = "of the filler" },
                 { "waste", "fraction", "", "10 %", .says = "material lost on top", .otherwise = "10 %",
                   .basis = "5 to 15 %; common practice, no source" }),
    .out = OUTPUTS({ "volume", "volume", .unit = "L" }) },
  { "joints.grid", grid,
    .in = INPUTS({ "length", "length", "m", "120 ft", .says = "of the bay" },
                 { "width", "length", "m", "80 ft", .says = "of the bay" },
                 { "spacing", "length", "m", "15 ft", .says = "of the joints at the most" }),
    .out = OUTPUTS({ "length", "length", .unit = "m" }, { "along", .kind = "whole" },
                   { "across", .kind = "whole" }) },
  { "joints.age", joint_age, .in = INPUTS({ "age", "time", "d", "60 d", .says = "of the slab" }),
    .out = OUTPUTS({ "verdict", .kind = "text" }) },

  { "moisture.emission", emission,
    .in = INPUTS({ "gain", "mass", "g", "2 g", .says = "of the dish" },
                 { "dome", "area", "m2", "0.5 sqft", .says = "floor under the dome" },
                 { "hours", "time", "h", "72 h", .says = "that the dish was out" }),
    .out = OUTPUTS({ "mver", "evaporation rate", .unit = MVER_UNIT, .keeps_unit = true },
                   { "ug_s_m2", "number", .unit = "ug/s/m2" }, { "in_time", .kind = "flag" }) },
  { "moisture.tests", tests, .in = INPUTS({ "area", "area", "m2", "12,000 sqft", .says = "of the floor" }),
    .out = OUTPUTS({ "tests", .kind = "whole" }) },
  { "moisture.probe_depth", probe_depth,
    .in = INPUTS({ "slab", "length", "mm", "6 in", .says = "its thickness" },
                 { "sides", "whole", "", "1", .says = "it dries from 1 or 2", .core = "drying_sides",
                   .otherwise = "1",
                   .basis = "a slab on the ground" }),
    .out = OUTPUTS({ "depth", "length", .unit = "mm" }) },
  { "moisture.check", moisture,
    .in = INPUTS({ "mver", "evaporation rate", MVER_UNIT, "2.9 lb/1000 sqft/24 h", .says = "moisture emission" },
                 { "humidity", "fraction", "", "78 %", .says = "in the slab", .core = "rh" }),
    .out = OUTPUTS({ "holds", .kind = "flag" }, { "emission_holds", .kind = "flag" },
                   { "humidity_holds", .kind = "flag" }) },

  { "slip.check", slip,
    .in = INPUTS({ "use", "word", "", "interior wet", .says = "of the floor", .word = slip_word },
                 { "dcof", "number", "", "0.45", .says = "reading" },
                 { "wet", "flag", "", "true", .says = "it was taken wet", .core = "taken_wet" }),
    .out = OUTPUTS({ "holds", .kind = "flag" }, { "least", .kind = "number" }, { "edition", .kind = "text" }) },
  { .name = NULL }
};
