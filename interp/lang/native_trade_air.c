/* native_trade_air.c - for scripts: rooms with fresh air, solvent vapour, carbon monoxide, published limits. */
#include <math.h>

#include "lang/native_trade.h"
#include "trade/carbon_monoxide.h"
#include "trade/limits.h"
#include "trade/room.h"
#include "trade/solvent.h"

/* Where a function takes a room, it is the three inputs of ROOM from `in`. */
static Room room_of(const Given *in)
{
  return (Room){ in[0].x, in[1].x, in[2].x };
}

static void tell_air(const RoomAir *air, Answer *out)
{
  out[0].x = air->end_ppm;
  out[1].x = air->average_ppm;
  out[2].x = air->steady_ppm; /* none without fresh air */
}

static bool in_room(const Given *in, Answer *out, TradeError *error)
{
  Room room = room_of(in);
  RoomAir air;
  if (!room_air(&room, in[3].x, in[4].x, in[5].x, &air, error)) return false;
  tell_air(&air, out);
  return true;
}

static bool air_needed(const Given *in, Answer *out, TradeError *error)
{
  Room room = { in[0].x, 0, in[1].x };
  return room_air_needed(&room, in[2].x, in[3].x, &out[0].x, error);
}

static bool clears_in(const Given *in, Answer *out, TradeError *error)
{
  Room room = room_of(in);
  return room_clears_in(&room, in[3].x, in[4].x, &out[0].x, error);
}

static bool molar_volume(const Given *in, Answer *out, TradeError *error)
{
  return room_molar_volume(in[0].x, &out[0].x, error);
}

/* ---- solvents */

static const char *solvent_word(size_t i)
{
  const Solvent *s = solvent_at(i);
  return s ? s->name : NULL;
}

static const Solvent *solvent_of(Given given)
{
  return solvent_at((size_t)given.x);
}

static bool solvent_row(const Given *in, Answer *out, TradeError *error)
{
  const Solvent *s;
  if (!solvent_find(solvent_word((size_t)in[0].x), &s, error)) return false;
  out[0].x = s->density_kg_l;
  out[1].x = s->molar_g;
  out[2].x = s->lel;
  out[3].x = s->uel;
  out[4].x = s->flash_point_c;
  out[5].x = s->vapour_density;
  out[0].basis = s->basis;
  return true;
}

static bool vapour(const Given *in, Answer *out, TradeError *error)
{
  return solvent_vapour(solvent_of(in[0]), in[1].x, in[2].x, &out[0].x, error);
}

static bool dilution_air(const Given *in, Answer *out, TradeError *error)
{
  return solvent_dilution_air(solvent_of(in[0]), in[1].x, in[2].x, in[3].x, &out[0].x, error);
}

static bool solvent_room(const Given *in, Answer *out, TradeError *error)
{
  Room room = room_of(&in[4]);
  SolventAir air;
  if (!solvent_in_room(solvent_of(in[0]), in[1].x, in[2].x, in[3].x, &room, &air, error)) return false;
  tell_air(&air.air, out);
  out[3].x = air.lel_share;
  return true;
}

/* ---- carbon monoxide */

static bool carbon_monoxide(const Given *in, Answer *out, TradeError *error)
{
  return carbon_monoxide_flow(in[0].x, in[1].x, &out[0].x, error);
}

static bool carbon_monoxide_readings(const Given *in, Answer *out, TradeError *error)
{
  Exposure readings[TRADE_ROWS_MOST];
  CarbonMonoxideVerdict v;
  for (size_t i = 0; i < in[0].count; i++)
    readings[i] = (Exposure){ in[0].cells[2 * i].x, in[0].cells[2 * i + 1].x };
  if (!carbon_monoxide_check(readings, (int)in[0].count, in[1].x, &v, error)) return false;
  out[0].x = v.average_ppm;
  out[1].x = v.peak_ppm;
  out[2].x = v.over_osha;
  out[3].x = v.over_niosh;
  out[4].x = v.over_acgih;
  out[5].x = v.over_ceiling;
  return true;
}

/* ---- limits */

static const char *limit_word(size_t i)
{
  const Limit *limit = limit_at(i);
  return limit ? limit->id : NULL;
}

static bool published_limit(const Given *in, Answer *out, TradeError *error)
{
  const Limit *limit;
  if (!limit_find(limit_word((size_t)in[0].x), &limit, error)) return false;
  bool holds = false;
  if (!in[1].lacks && !limit_holds(limit, in[1].x, &holds, error)) return false;
  out[0].x = isfinite(limit->high) ? limit->high : limit->low;
  out[1].x = limit->low;
  out[2].x = limit->high;
  out[3].x = limit->strict;
  out[4].text = limit->unit;
  out[5].text = limit->says;
  out[6].text = limit->edition;
  out[7].x = holds;
  out[0].basis = limit->basis;
  return true;
}

/* ---- rows */

#define VOLUME { "volume", "volume", "m3", "40,000 ft3", .says = "of the room" }
#define FRESH_AIR { "fresh_air", "flow", "m3/h", "2000 cfm", .says = "let in from outdoors" }
#define MIXING                                                                                                     \
  { "mixing", "number", "", "3", .says = "1 for perfect mixing to 10 for dead corners", .otherwise = "3",          \
    .basis = "industrial-hygiene practice, from memory" }
#define ROOM VOLUME, FRESH_AIR, MIXING
#define GAS { "gas", "flow", "m3/h", "0.2 m3/h", .says = "gas or vapour given off" }
#define LEVEL(name, example, says_) { name, "fraction", "ppm", example, .says = says_ }
#define PPM_OUT(name_) { name_, "fraction", .unit = "ppm", .keeps_unit = true }
#define ROOM_AIR_OUT PPM_OUT("end"), PPM_OUT("average"), PPM_OUT("steady")
#define SOLVENT { "solvent", "word", "", "acetone", .says = "which", .word = solvent_word }
#define LIQUID { "liquid", "volume", "L", "1 gal", .says = "what evaporates, all of it" }
#define TEMPERATURE                                                                                                \
  { "temperature", "temperature", "C", "25 C", .says = "of the air", .otherwise = "25 C", .basis = "a warm room" }

const TradeRow native_trade_air[] = {
  { "room.air", in_room,
    .in = INPUTS(ROOM, GAS, { "hours", "time", "h", "4 h", .says = "how long it is given off" },
                 { "start", "fraction", "ppm", "0 ppm", .says = "level at the start", .otherwise = "0 ppm",
                   .basis = "clean air unless said" }),
    .out = OUTPUTS(ROOM_AIR_OUT) },
  { "room.air_needed", air_needed, .in = INPUTS(VOLUME, MIXING, GAS, LEVEL("goal", "25 ppm", "level to stay at")),
    .out = OUTPUTS({ "fresh_air", "flow", .unit = "m3/h", .us = "cfm" }) },
  { "room.clears_in", clears_in,
    .in = INPUTS(ROOM, LEVEL("start", "200 ppm", "level when it stops"), LEVEL("goal", "25 ppm", "level to reach")),
    .out = OUTPUTS({ "time", "time", .unit = "h" }) },
  { "room.molar_volume", molar_volume,
    .in = INPUTS({ "temperature", "temperature", "C", "25 C", .says = "of the gas" }),
    .out = OUTPUTS({ "volume", "volume", .unit = "L", .keeps_unit = true }) },

  { "solvent.properties", solvent_row,
    .says = "What a solvent is, to check a data sheet against: limits of explosion as shares of the air. The data "
            "sheet comes first.",
    .in = INPUTS(SOLVENT),
    .out = OUTPUTS({ "density", "density", .unit = "kg/L" }, { "molar_mass", "number", .unit = "g/mol" },
                   { "lel", "fraction", .unit = "" }, { "uel", "fraction", .unit = "" },
                   { "flash_point", "temperature", .unit = "C" }, { "vapour_density", .kind = "number" }) },
  { "solvent.vapour", vapour, .in = INPUTS(SOLVENT, LIQUID, TEMPERATURE),
    .out = OUTPUTS({ "vapour", "volume", .unit = "m3", .us = "ft3" }) },
  { "solvent.dilution_air", dilution_air,
    .in = INPUTS(SOLVENT, LIQUID, TEMPERATURE,
                 { "share", "fraction", "", "25 %", .says = "of the lower explosive limit to stay at",
                   .core = "lel_share", .otherwise = "25 %", .basis = "fire codes; the 25 % rule, from memory" }),
    .out = OUTPUTS({ "air", "volume", .unit = "m3", .us = "ft3" }) },
  { "solvent.in_room", solvent_room,
    .in = INPUTS(SOLVENT, LIQUID, TEMPERATURE, { "hours", "time", "h", "2 h", .says = "over which it evaporates" },
                 ROOM),
    .out = OUTPUTS(ROOM_AIR_OUT, { "lel_share", "fraction", .unit = "" }) },

  { "carbon_monoxide.flow", carbon_monoxide,
    .in = INPUTS({ "emission", "number", "g/h", "150", .says = "of the engine, g/h" }, TEMPERATURE),
    .out = OUTPUTS({ "gas", "flow", .unit = "m3/h", .keeps_unit = true }) },
  { "carbon_monoxide.check", carbon_monoxide_readings,
    .in = INPUTS({ "readings", .example = "30 ppm, 3 h; 12 ppm, 5 h",
                   .says = "levels with the time each stands for",
                   .core = "count",
                   COLUMNS(LEVEL("level", "30 ppm", "read"),
                           { "hours", "time", "h", "3 h", .says = "it stands for" }) },
                 LEVEL("peak", "60 ppm", "the highest ever read")),
    .out = OUTPUTS(PPM_OUT("average"),
                   PPM_OUT("peak"), { "over_osha", .kind = "flag" },
                   { "over_niosh", .kind = "flag" }, { "over_acgih", .kind = "flag" },
                   { "over_ceiling", .kind = "flag" }) },

  { "limits.find", published_limit,
    .says = "A published limit with its edition, as data; and whether a value, in the unit of the limit, keeps to "
            "it. Meeting a limit is not the same as being safe.",
    .in = INPUTS({ "id", "word", "", "co.twa.osha", .says = "which limit", .word = limit_word },
                 { "value", "number", "", "42", .says = "to hold against it, in its unit", .may_lack = true }),
    .out = OUTPUTS({ "limit", .kind = "number" }, { "low", .kind = "number" }, { "high", .kind = "number" },
                   { "strict", .kind = "flag" }, { "unit_of", .kind = "text" }, { "says", .kind = "text" },
                   { "edition", .kind = "text" }, { "holds", .kind = "flag" }) },
  { .name = NULL }
};
