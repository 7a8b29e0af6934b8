/* native_trade_people.c - for scripts: exposure, noise, vibration, silica dust, lifting. */
#include <string.h>

#include "lang/native_trade.h"
#include "trade/dust.h"
#include "trade/exposure.h"
#include "trade/lifting.h"
#include "trade/noise.h"
#include "trade/vibration.h"

static int exposures(const Given *list, Exposure *out)
{
  for (size_t i = 0; i < list->count; i++)
    out[i] = (Exposure){ .level = list->cells[2 * i].x, .hours = list->cells[2 * i + 1].x };
  return (int)list->count;
}

static bool average(const Given *in, Answer *out, TradeError *error)
{
  Exposure tasks[TRADE_ROWS_MOST];
  return exposure_average(tasks, exposures(&in[0], tasks), &out[0].x, error);
}

/* ---- noise */

static const char *criterion_word(size_t i)
{
  const NoiseCriterion *c = noise_criterion_at(i);
  return c ? c->id : NULL;
}

static const NoiseCriterion *criterion_of(Given given, Answer *out)
{
  const NoiseCriterion *c = noise_criterion_at((size_t)given.x);
  out[0].basis = c->basis;
  return c;
}

static bool allowed_hours(const Given *in, Answer *out, TradeError *error)
{
  return noise_allowed_hours(criterion_of(in[0], out), in[1].x, &out[0].x, error);
}

static bool dose(const Given *in, Answer *out, TradeError *error)
{
  Exposure tasks[TRADE_ROWS_MOST];
  NoiseDose d;
  if (!noise_dose(criterion_of(in[0], out), tasks, exposures(&in[1], tasks), &d, error)) return false;
  out[0].x = d.dose_percent;
  out[1].x = d.average_dba;
  out[2].x = d.loudest_dba;
  out[3].x = d.over_highest;
  return true;
}

static bool noise_level(const Given *in, Answer *out, TradeError *error)
{
  return noise_average(criterion_of(in[0], out), in[1].x, &out[0].x, error);
}

/* ---- vibration */

static bool daily(const Given *in, Answer *out, TradeError *error)
{
  Exposure tools[TRADE_ROWS_MOST];
  return vibration_daily(tools, exposures(&in[0], tools), &out[0].x, error);
}

static bool points(const Given *in, Answer *out, TradeError *error)
{
  Exposure tools[TRADE_ROWS_MOST];
  return vibration_points(tools, exposures(&in[0], tools), &out[0].x, error);
}

static bool hours_to(const Given *in, Answer *out, TradeError *error)
{
  return vibration_hours_to(in[0].x, in[1].x, &out[0].x, error);
}

/* ---- dust */

#define DUST_CONTROLS_AS_FLAGS                                                                                     \
  { "water_feed", "flag", "", NULL, .says = "water runs to the cutting surface", ABSENT },                         \
  { "collector", "flag", "", "true", .says = "shroud and collector at the tool maker's airflow", ABSENT },         \
  { "filter_99", "flag", "", "true", .says = "its filter holds back 99 % or more", ABSENT },                       \
  { "filter_cleaning", "flag", "", "true", .says = "the filter is cleaned by a mechanism", ABSENT },               \
  { "hepa_between_passes", "flag", "", "true", .says = "loose dust is taken up by a HEPA vacuum between passes",   \
    ABSENT },                                                                                                      \
  { "airflow_25_cfm_in", "flag", "", NULL, .says = "25 cfm for each inch of wheel, or more", ABSENT },             \
  { "hepa_for_holes", "flag", "", NULL, .says = "holes are cleaned with a HEPA vacuum", ABSENT }
#define ABSENT .may_lack = true

static const DustControl controls[] = { DUST_WATER_FEED,          DUST_COLLECTOR,         DUST_FILTER_99,
                                        DUST_FILTER_CLEANING,     DUST_HEPA_BETWEEN_PASSES, DUST_AIRFLOW_25_CFM_IN,
                                        DUST_HEPA_FOR_HOLES };
enum { CONTROLS = sizeof controls / sizeof *controls };

/* The equipment of the table, each once: its rows stand together. */
static const char *equipment_word(size_t i)
{
  const char *last = "";
  for (size_t r = 0; dust_row_at(r); r++) {
    const char *equipment = dust_row_at(r)->equipment;
    if (strcmp(equipment, last) != 0 && i-- == 0) return equipment;
    last = equipment;
  }
  return NULL;
}

static bool dust_row(const Given *in, Answer *out, TradeError *error)
{
  static const char *const findings[] = { [DUST_ROW_FOLLOWED] = "row followed",
                                          [DUST_ROW_NOT_FOLLOWED] = "row not followed", [DUST_NO_ROW] = "no row" };
  static const char *const methods[] = { "wet", "collector" };
  DustTask task = { equipment_word((size_t)in[0].x), methods[(int)in[1].x], GIVEN_ENUM(DustPlace, in[2]), in[3].x,
                    0 };
  for (int i = 0; i < CONTROLS; i++)
    if (in[4 + i].x > 0) task.controls |= controls[i];
  DustVerdict v;
  if (!dust_check(&task, &v, error)) return false;
  out[0].text = findings[v.finding];
  if (v.finding == DUST_ROW_FOLLOWED) out[1].x = v.respirator.apf;
  for (int i = 0, n = 0; i < CONTROLS; i++)
    if (v.missing & controls[i]) out[2].words[n++] = dust_control_name(controls[i]);
  if (v.row) out[0].basis = v.row->basis;
  return true;
}

static bool shroud_airflow(const Given *in, Answer *out, TradeError *error)
{
  return dust_shroud_airflow(in[0].x, &out[0].x, error);
}

/* ---- lifting */

static bool lifting(const Given *in, Answer *out, TradeError *error)
{
  Lift lift = { in[0].x, in[1].x, in[2].x, in[3].x, in[4].x, in[5].x, in[6].x, GIVEN_ENUM(LiftingGrip, in[7]) };
  LiftingLimit m;
  if (!lifting_limit(&lift, &m, error)) return false;
  out[0].x = m.limit_kg;
  out[1].x = m.index;
  out[2].x = m.reach;
  out[3].x = m.height;
  out[4].x = m.travel;
  out[5].x = m.twist;
  out[6].x = m.pace;
  out[7].x = m.grip;
  return true;
}

/* ---- rows */

#define HOURS(example, says_) { "hours", "time", "h", example, .says = says_ }
#define TOOLS                                                                                                      \
  { "tools", .example = "4 m/s2, 3 h; 2.5 m/s2, 2 h", .says = "each tool of the day", .core = "count",             \
    COLUMNS({ "level", "vibration", "m/s2", "4 m/s2", .says = "frequency-weighted sum of three axes" },            \
            HOURS("3 h", "time with it in the hands")) }
#define CRITERION                                                                                                  \
  { "criterion", "word", "", "osha hearing", .says = "whose figures", .word = criterion_word }

const TradeRow native_trade_people[] = {
  { "exposure.average", average,
    .in = INPUTS({ "tasks", .example = "60, 3 h; 20, 4 h", .says = "each task of the shift", .core = "count",
                   COLUMNS({ "level", "number", "", "60", .says = "in the unit of the limit: ug/m3, ppm" },
                           HOURS("3 h", "time on the task")) }),
    .out = OUTPUTS({ "average", .kind = "number" }) },

  { "noise.allowed_hours", allowed_hours,
    .in = INPUTS(CRITERION, { "level", "sound level", "dBA", "95 dBA", .says = "a steady level" }),
    .out = OUTPUTS({ "allowed", "time", .unit = "h" }) },
  { "noise.dose", dose,
    .in = INPUTS(CRITERION,
                 { "tasks", .example = "95 dBA, 3 h; 88 dBA, 4 h", .says = "each task of the shift",
                   .core = "count",
                   COLUMNS({ "level", "sound level", "dBA", "95 dBA", .says = "at the ear, slow" },
                           HOURS("3 h", "time on the task")) }),
    .out = OUTPUTS({ "dose", "number", .unit = "%" }, { "average", "sound level", .unit = "dBA" },
                   { "loudest", "sound level", .unit = "dBA" }, { "over_highest", .kind = "flag" }) },
  { "noise.average", noise_level,
    .in = INPUTS(CRITERION, { "dose", "number", "%", "94.3", .says = "a dose in percent" }),
    .out = OUTPUTS({ "average", "sound level", .unit = "dBA" }) },

  { "vibration.daily", daily, .in = INPUTS(TOOLS), .out = OUTPUTS({ "a8", "vibration", .unit = "m/s2" }) },
  { "vibration.points", points, .in = INPUTS(TOOLS), .out = OUTPUTS({ "points", .kind = "number" }) },
  { "vibration.hours_to", hours_to,
    .in = INPUTS({ "level", "vibration", "m/s2", "4 m/s2", .says = "of the tool", .core = "a_m_s2" },
                 { "goal", "vibration", "m/s2", "2.5 m/s2", .says = "the daily value to stay under" }),
    .out = OUTPUTS({ "time", "time", .unit = "h" }) },

  { "dust.check", dust_row,
    .in = INPUTS({ "equipment", "word", "", "floor grinder", .says = "as Table 1 names it",
                   .word = equipment_word },
                 { "method", "wet|collector", "", "collector", .says = "what holds the dust" },
                 { "place", "outdoors|indoors", "", "indoors", .says = "where" },
                 HOURS("6 h", "on this row in the shift"), DUST_CONTROLS_AS_FLAGS),
    .out = OUTPUTS({ "finding", .kind = "text" }, { "respirator_apf", .kind = "whole" },
                   { "missing", .kind = "texts" }) },
  { "dust.shroud_airflow", shroud_airflow,
    .in = INPUTS({ "wheel", "length", "mm", "7 in", .says = "diameter of the wheel" }),
    .out = OUTPUTS({ "airflow", "flow", .unit = "L/s", .us = "cfm" }) },

  { "lifting.limit", lifting,
    .in = INPUTS({ "weight", "mass", "kg", "40 lb", .says = "what is lifted" },
                 { "reach", "length", "cm", "12 in", .says = "hands in front of the ankles" },
                 { "height", "length", "cm", "20 in", .says = "hands above the floor at the start" },
                 { "travel", "length", "cm", "30 in", .says = "of the hands, up or down" },
                 { "twist", "number", "degrees", "0", .says = "of the body, in degrees", .otherwise = "0",
                   .basis = "no twist unless said" },
                 { "lifts_per_min", "number", "", "0.2", .says = "pace; under 0.2 counts as 0.2",
                   .otherwise = "0.2",
                   .basis = "a lift now and then" },
                 { "hours", "time", "h", "1 h", .says = "of lifting in the shift" },
                 { "grip", "good|fair|poor", "", "good", .says = "how well it can be held" }),
    .out = OUTPUTS({ "limit", "mass", .unit = "kg" }, { "index", .kind = "number" }, { "reach", .kind = "number" },
                   { "height", .kind = "number" }, { "travel", .kind = "number" }, { "twist", .kind = "number" },
                   { "pace", .kind = "number" }, { "grip", .kind = "number" }) },
  { .name = NULL }
};
