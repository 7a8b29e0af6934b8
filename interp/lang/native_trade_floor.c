/* native_trade_floor.c - for scripts: outlines and lanes, coverage, classes of finish. */
#include <math.h>

#include "lang/native_trade.h"
#include "trade/aggregate.h"
#include "trade/appearance.h"
#include "trade/coverage.h"
#include "trade/geometry.h"

static const char *bond_word(size_t i)
{
  return i < BOND_FAMILIES ? bond_info((BondFamily)i)->name : NULL;
}

/* ---- geometry */

static Ring ring_of(const Given *list, Point *points)
{
  for (size_t i = 0; i < list->count; i++)
    points[i] = (Point){ list->cells[2 * i].x, list->cells[2 * i + 1].x };
  return (Ring){ points, list->count };
}

/* An outline with its columns: room for what the two lists say. */
typedef struct {
  Point corners[TRADE_ROWS_MOST], of_columns[TRADE_ROWS_MOST][4];
  Ring islands[TRADE_ROWS_MOST];
} Floor;

/* Rows of a column: x and y of its corner nearest the origin, its size along x, its size along y. */
static Outline outline_of(const Given *corners, const Given *columns, Floor *floor)
{
  size_t count = columns->lacks ? 0 : columns->count;
  for (size_t i = 0; i < count; i++) {
    const Given *cell = &columns->cells[4 * i];
    floor->islands[i] = geometry_rectangle(cell[2].x, cell[3].x, floor->of_columns[i]);
    for (int k = 0; k < 4; k++) {
      floor->of_columns[i][k].x_m += cell[0].x;
      floor->of_columns[i][k].y_m += cell[1].x;
    }
  }
  return (Outline){ ring_of(corners, floor->corners), floor->islands, count };
}

static bool floor_size(const Given *in, Answer *out, TradeError *error)
{
  Floor floor;
  Outline outline = outline_of(&in[0], &in[1], &floor);
  FloorSize size;
  if (!geometry_size(&outline, &size, error)) return false;
  out[0].x = size.area_m2;
  out[1].x = size.edge_m;
  return true;
}

static void tell_lanes(const LanePlan *plan, Answer *out)
{
  out[0].x = plan->lanes;
  out[1].x = plan->pieces;
  out[2].x = plan->turns;
  out[3].x = plan->travel_m;
  out[4].x = plan->pitch_m;
}

static bool lanes(const Given *in, Answer *out, TradeError *error)
{
  Floor floor;
  Outline outline = outline_of(&in[0], &in[1], &floor);
  LanePlan plan;
  if (!geometry_best_lanes(&outline, in[2].x, in[3].x, &plan, error)) return false;
  tell_lanes(&plan, out);
  return true;
}

static bool lane_count(const Given *in, Answer *out, TradeError *error)
{
  int count;
  if (!geometry_lane_count(in[0].x, in[1].x, in[2].x, &count, error)) return false;
  out[0].x = count;
  return true;
}

/* ---- coverage */

static bool rate(const Given *in, Answer *out, TradeError *error)
{
  return coverage_rate(in[0].x, in[1].x, in[2].x, in[3].x, given_whole(in[4]), &out[0].x, error);
}

/* One pass in one direction, as geometry.lanes tells it. */
static LanePlan plan_of(Given turns, Given travel)
{
  return (LanePlan){ .turns = given_whole(turns), .travel_m = travel.x };
}

static bool step_time(const Given *in, Answer *out, TradeError *error)
{
  LanePlan along = plan_of(in[0], in[1]), across = plan_of(in[2], in[3]);
  bool crosswise = !in[2].lacks && !in[3].lacks;
  CoverageStep step = {
    .speed_m_min = in[4].x, .turn_s = in[5].x, .duty = in[6].x, .passes = given_whole(in[7]),
    .crosswise = crosswise,
    .obstacles = given_whole(in[8]), .obstacle_s = in[9].x, .edge_m = in[10].x, .edge_rate_m_h = in[11].x,
    .hand_m2 = in[12].x, .hand_rate_m2_h = in[13].x, .setup_min = in[14].x,
  };
  CoverageTime t;
  if (!coverage_time(&step, &along, crosswise ? &across : NULL, &t, error)) return false;
  out[0].x = t.total_min;
  out[1].x = t.machine_min;
  out[2].x = t.hand_min;
  out[3].x = t.travel_min;
  out[4].x = t.turn_min;
  out[5].x = t.pause_min;
  out[6].x = t.turns;
  out[7].x = t.travel_m;
  return true;
}

static bool band(const Given *in, Answer *out, TradeError *error)
{
  static const char *const verdicts[] = { [COVERAGE_SLOW] = "slow", [COVERAGE_USUAL] = "usual",
                                          [COVERAGE_FAST] = "fast" };
  CoverageHead head;
  CoverageVerdict verdict;
  if (!coverage_head_class(in[1].x, &head, error)) return false;
  const CoverageBand *b = coverage_band(GIVEN_ENUM(CoverageStepClass, in[0]), head);
  if (!b) return trade_refuse(error, TRADE_NO_ANSWER, "step", 0,
                              "the trade has no figure for it with so small a head");
  if (!in[2].lacks && !coverage_judge(b, in[2].x, &verdict, error)) return false;
  out[0].x = b->low_sqft_h;
  out[1].x = b->high_sqft_h;
  if (!in[2].lacks) out[2].text = verdicts[verdict];
  return true;
}

static bool speed(const Given *in, Answer *out, TradeError *error)
{
  const CoverageSpeed *s = coverage_usual_speed(GIVEN_ENUM(BondFamily, in[0]));
  if (!s) return trade_refuse(error, TRADE_NO_ANSWER, "bond", 0, "the trade has no walking speed for these tools");
  out[0].x = s->low_ft_min;
  out[1].x = s->high_ft_min;
  return true;
}

static const char *other_work(size_t i)
{
  const CoverageOther *other = coverage_other(i);
  return other ? other->work : NULL;
}

static bool other(const Given *in, Answer *out, TradeError *error)
{
  (void)error;
  const CoverageOther *row = coverage_other((size_t)in[0].x);
  out[0].x = row->low;
  out[1].x = row->high;
  out[2].text = row->unit;
  out[0].basis = (Basis)TRADE_RULE_OF_THUMB;
  return true;
}

/* ---- classes of finish */

static void tell_class(const AggregateClass *class, Answer *out)
{
  out[0].text = class->name;
  out[1].x = class->main_high > 0 ? class->main_low : NAN;
  out[2].x = class->main_high > 0 ? class->main_high : NAN;
  out[0].basis = class->basis;
}

static bool of_surface(const Given *in, Answer *out, TradeError *error)
{
  const AggregateClass *class;
  if (!aggregate_of_surface(in[0].x, in[1].x, in[2].x, &class, error)) return false;
  tell_class(class, out);
  return true;
}

#define EDITIONS "current|before 2017"

static bool exposure_class(const Given *in, Answer *out, TradeError *error)
{
  const AggregateClass *class;
  if (!aggregate_find(GIVEN_ENUM(ChartEdition, in[0]), in[1].text, &class, error)) return false;
  tell_class(class, out);
  return true;
}

static bool cut_depth(const Given *in, Answer *out, TradeError *error)
{
  const AggregateClass *class;
  if (!aggregate_find(GIVEN_ENUM(ChartEdition, in[0]), in[1].text, &class, error)) return false;
  out[0].basis = class->basis;
  return aggregate_cut_depth(class, &out[0].x, error);
}

static bool level(const Given *in, Answer *out, TradeError *error)
{
  const AppearanceLevel *row;
  if (!appearance_level(in[0].x, &row, error)) return false;
  out[0].x = row->level;
  out[1].text = row->name;
  out[2].x = row->from_doi;
  out[3].x = row->below_doi;
  return true;
}

static bool image_clarity(const Given *in, Answer *out, TradeError *error)
{
  return appearance_image_clarity(in[0].x, in[1].x, &out[0].x, error);
}

static bool haze(const Given *in, Answer *out, TradeError *error)
{
  return appearance_haze(in[0].x, in[1].x, &out[0].x, error);
}

static bool gloss_angle(const Given *in, Answer *out, TradeError *error)
{
  int angle;
  if (!appearance_gloss_angle(in[0].x, &angle, error)) return false;
  out[0].x = angle;
  return true;
}

static bool readings(const Given *in, Answer *out, TradeError *error)
{
  int count;
  if (!appearance_readings(in[0].x, &count, error)) return false;
  out[0].x = count;
  return true;
}

/* ---- rows */

#define OUTLINE                                                                                                    \
  { "outline", .example = "0 ft, 0 ft; 60 ft, 0 ft; 60 ft, 24 ft; 24 ft, 24 ft; 24 ft, 60 ft; 0 ft, 60 ft",        \
    .says = "corners of the floor, in order",                                                                      \
    COLUMNS({ "x", "length", "m", "60 ft", .says = "of the corner" },                                              \
            { "y", "length", "m", "24 ft", .says = "of the corner" }) }
#define FLOOR_COLUMNS                                                                                              \
  { "columns", .example = "10 ft, 10 ft, 2 ft, 2 ft", .core = "islands", .may_lack = true,                         \
    .says = "rectangular columns that stand clear of the walls",                                                   \
    COLUMNS({ "x", "length", "m", "10 ft", .says = "of the corner nearest the origin" },                           \
            { "y", "length", "m", "10 ft", .says = "of the corner nearest the origin" },                           \
            { "along", "length", "m", "2 ft", .says = "size along x" },                                            \
            { "across", "length", "m", "2 ft", .says = "size along y" }) }
#define HEAD_WIDTH { "head", "length", "m", "28 in", .says = "width of the machine's head" }
#define OVERLAP { "overlap", "length", "m", "3 in", .says = "of neighbouring lanes" }
#define NONE(unit_) .otherwise = unit_, .basis = "none unless said"
#define EDITION                                                                                                    \
  { "edition", EDITIONS, "", "before 2017", .says = "of the chart: a letter changed its meaning in 2017" }
#define EXPOSURE { "exposure", "text", "", "C", .says = "letter or name of the class" }
#define PERCENT(name_, example, says_) { name_, "number", "%", example, .says = says_ }
#define CLASS_OUT                                                                                                  \
  OUTPUTS({ "name", .kind = "text" }, { "least_share", "number", .unit = "%" },                                    \
          { "most_share", "number", .unit = "%" })

const TradeRow native_trade_floor[] = {
  { "geometry.area", floor_size, .in = INPUTS(OUTLINE, FLOOR_COLUMNS),
    .out = OUTPUTS({ "area", "area", .unit = "m2" }, { "edge", "length", .unit = "m" }) },
  { "geometry.lanes", lanes, .in = INPUTS(OUTLINE, FLOOR_COLUMNS, HEAD_WIDTH, OVERLAP),
    .out = OUTPUTS({ "lanes", .kind = "whole" }, { "pieces", .kind = "whole" }, { "turns", .kind = "whole" },
                   { "travel", "length", .unit = "m" }, { "pitch", "length", .unit = "m" }) },
  { "geometry.lane_count", lane_count, .formula = "geometry.lanes",
    .says = "Lanes across a bay: one if the head spans it.",
    .in = INPUTS({ "width", "length", "m", "60 ft", .says = "of the bay" }, HEAD_WIDTH, OVERLAP),
    .out = OUTPUTS({ "lanes", .kind = "whole" }) },

  { "coverage.rate", rate,
    .in = INPUTS(HEAD_WIDTH, OVERLAP, { "speed", "speed", "m/min", "15 ft/min", .says = "of travel" },
                 { "duty", "fraction", "", "80 %", .says = "share of the machine's minutes that is not lost" },
                 { "passes", "whole", "", "4", .says = "over the same floor" }),
    .out = OUTPUTS({ "rate", "production rate", .unit = "m2/h" }) },
  { "coverage.time", step_time,
    .in = INPUTS({ "turns", "whole", "", "11", .says = "of one pass along, from geometry.lanes" },
                 { "travel", "length", "m", "700 ft", .says = "of one pass along, likewise" },
                 { "turns_across", "whole", "", NULL, .says = "of a pass at right angles; then half of them go so",
                   .may_lack = true },
                 { "travel_across", "length", "m", NULL, .says = "of a pass at right angles", .may_lack = true },
                 { "speed", "speed", "m/min", "15 ft/min", .says = "of travel" },
                 { "turn", "time", "s", "10 s", .says = "at the end of each piece" },
                 { "duty", "fraction", "", "80 %", .says = "share of the machine's minutes that is not lost" },
                 { "passes", "whole", "", "4", .says = "over the whole floor" },
                 { "obstacles", "whole", "", "0", .says = "to steer round in each pass", NONE("0") },
                 { "obstacle", "time", "s", "15 s", .says = "for each of them", .core = "obstacle_s", NONE("0 s") },
                 { "edge", "length", "m", "200 ft", .says = "walls done by hand, once", .core = "edge_m",
                   NONE("0 ft") },
                 { "edge_rate", "speed", "m/h", "40 ft/h", .says = "of that", NONE("0 ft/h") },
                 { "hand", "area", "m2", "0 sqft", .says = "floor that the head cannot reach", .core = "hand_m2",
                   NONE("0 sqft") },
                 { "hand_rate", "production rate", "m2/h", "60 sqft/h", .says = "of that", NONE("0 sqft/h") },
                 { "setup", "time", "min", "20 min", .says = "tools on, cords, water", NONE("0 min") }),
    .out = OUTPUTS({ "total", "time", .unit = "min" }, { "machine", "time", .unit = "min" },
                   { "hand", "time", .unit = "min" }, { "travelling", "time", .unit = "min" },
                   { "turning", "time", .unit = "min" }, { "pauses", "time", .unit = "min" },
                   { "turns", .kind = "whole" }, { "travel", "length", .unit = "m" }) },
  { "coverage.band", band,
    .in = INPUTS({ "step", "scrape|first metal|metal|transitional|coarse resin|dry resin|wet resin|grout", "",
                   "wet resin", .says = "kind of step" },
                 HEAD_WIDTH,
                 { "rate", "production rate", "m2/h", "600 sqft/h", .says = "to judge by the band",
                   .may_lack = true }),
    .out = OUTPUTS({ "low", "production rate", .unit = "sqft/h" }, { "high", "production rate", .unit = "sqft/h" },
                   { "verdict", .kind = "text" }) },
  { "coverage.speed", speed,
    .in = INPUTS({ "bond", "word", "", "resin", .says = "of the tools", .word = bond_word }),
    .out = OUTPUTS({ "low", "speed", .unit = "ft/min" }, { "high", "speed", .unit = "ft/min" }) },
  { "coverage.other", other, .formula = "coverage.band",
    .says = "What work that is no pass of the machine usually comes to.",
    .in = INPUTS({ "work", "word", "", "guard, microfibre", .says = "which", .word = other_work }),
    .out = OUTPUTS({ "low", .kind = "number" }, { "high", .kind = "number" }, { "unit_of", .kind = "text" }) },

  { "aggregate.of_surface", of_surface,
    .in = INPUTS(PERCENT("fines", "10", "cement fines, percent of the surface"),
                 PERCENT("fine_aggregate", "88", "fine aggregate, percent"),
                 PERCENT("coarse_aggregate", "2", "coarse aggregate, percent")),
    .out = CLASS_OUT },
  { "aggregate.class", exposure_class,
    .says = "A class of an edition of the chart: a letter means different things in both.",
    .in = INPUTS(EDITION, EXPOSURE), .out = CLASS_OUT },
  { "aggregate.cut_depth", cut_depth, .says = "Approximate cut that reaches a class; the current chart gives none.",
    .in = INPUTS(EDITION, EXPOSURE), .out = OUTPUTS({ "cut", "length", .unit = "mm" }) },

  { "appearance.level", level, .in = INPUTS(PERCENT("doi", "46", "image clarity, 0 to 100")),
    .out = OUTPUTS({ "level", .kind = "whole" }, { "name", .kind = "text" }, { "from", .kind = "number" },
                   { "below", .kind = "number" }) },
  { "appearance.image_clarity", image_clarity,
    .in = INPUTS({ "most", "number", "", "80", .says = "of the light through the comb" },
                 { "least", "number", "", "30", .says = "of it" }),
    .out = OUTPUTS({ "clarity", "number", .unit = "%" }) },
  { "appearance.haze", haze,
    .in = INPUTS({ "gloss60", "gloss", "GU", "78 GU", .says = "at 60 degrees" },
                 { "gloss20", "gloss", "GU", "70 GU", .says = "at 20 degrees" }),
    .out = OUTPUTS({ "haze", "gloss", .unit = "GU" }) },
  { "appearance.gloss_angle", gloss_angle,
    .in = INPUTS({ "gloss60", "gloss", "GU", "45 GU", .says = "at 60 degrees" }),
    .out = OUTPUTS({ "angle", "whole", .unit = "degrees" }) },
  { "appearance.readings", readings,
    .in = INPUTS({ "area", "area", "sqft", "12,000 sqft", .says = "of the floor" }),
    .out = OUTPUTS({ "readings", .kind = "whole" }) },
  { .name = NULL }
};
