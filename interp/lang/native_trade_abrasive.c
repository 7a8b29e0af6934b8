/* native_trade_abrasive.c - for scripts: bonds, grits, removal, planetary heads, wear of tools. */
#include <string.h>

#include "lang/native_trade.h"
#include "trade/bond.h"
#include "trade/grit.h"
#include "trade/planetary.h"
#include "trade/removal.h"
#include "trade/wear.h"

static const char *bond_word(size_t i)
{
  return i < BOND_FAMILIES ? bond_info((BondFamily)i)->name : NULL;
}

static bool bond_for(const Given *in, Answer *out, TradeError *error)
{
  const BondChoice *choice;
  if (!bond_for_mohs(in[0].x, &choice, error)) return false;
  out[0].text = choice->bond;
  out[1].text = choice->slab;
  out[0].basis = choice->basis;
  return true;
}

static bool bond_family(const Given *in, Answer *out, TradeError *error)
{
  BondFamily family;
  if (!bond_find(bond_word((size_t)in[0].x), &family, error)) return false;
  const BondInfo *info = bond_info(family);
  out[0].text = info->purpose;
  out[1].count = info->grit_count;
  for (size_t i = 0; i < info->grit_count; i++) out[1].cells[i] = info->grits[i];
  out[0].basis = info->basis;
  return true;
}

/* ---- grits */

static bool size_of_grit(const Given *in, Answer *out, TradeError *error)
{
  Grit grit;
  GritSize size;
  if (!grit_read(in[0].text, &grit, error) || !grit_size(grit, &size, error)) return false;
  out[0].x = size.size_um;
  out[1].x = size.interpolated;
  out[2].text = grit_system_name(size.read_as.system);
  out[3].x = size.read_as.number;
  out[4].text = size.coarse->name;
  out[5].text = size.fine->name;
  out[0].basis = size.basis;
  return true;
}

static bool grit_of_pad(const Given *in, Answer *out, TradeError *error)
{
  Grit grit;
  return grit_read(in[0].text, &grit, error) && grit_as_pad(grit, &out[0].x, error);
}

static bool step(const Given *in, Answer *out, TradeError *error)
{
  static const char *const verdicts[] = { [GRIT_STEP_GOOD] = "good", [GRIT_STEP_LONG] = "long",
                                          [GRIT_STEP_SKIPPED] = "skipped", [GRIT_STEP_REPEAT] = "repeat",
                                          [GRIT_STEP_BACK] = "back" };
  Grit last, next;
  GritStep s;
  if (!grit_read(in[0].text, &last, error) || !grit_read(in[2].text, &next, error) ||
      !grit_step(last, GIVEN_ENUM(BondFamily, in[1]), next, GIVEN_ENUM(BondFamily, in[3]), &s, error))
    return false;
  out[0].text = verdicts[s.verdict];
  out[1].x = s.judged_by;
  out[2].x = s.size_ratio;
  out[3].x = s.family_change;
  return true;
}

static bool sieve_pitch(const Given *in, Answer *out, TradeError *error)
{
  return grit_sieve_pitch(in[0].x, &out[0].x, error);
}

/* ---- removal */

/* Where a function takes a condition, it is the three inputs of CONDITION. */
static RemovalCondition condition_of(const Given *in)
{
  return (RemovalCondition){ in[0].x, in[1].x, in[2].x };
}

static bool depth(const Given *in, Answer *out, TradeError *error)
{
  RemovalReference reference;
  RemovalCondition at = condition_of(&in[3]);
  if (!removal_reference(GIVEN_ENUM(BondFamily, in[0]), &reference, error)) return false;
  return removal_depth(&reference, in[3].lacks ? &reference.at : &at, in[1].x, in[2].x, &out[0].x, error);
}

static bool pressure(const Given *in, Answer *out, TradeError *error)
{
  return removal_pressure(in[0].x, in[1].x, &out[0].x, error);
}

static bool contact(const Given *in, Answer *out, TradeError *error)
{
  return removal_contact(in[0].x, in[1].x, in[2].x, &out[0].x, error);
}

static bool scratch(const Given *in, Answer *out, TradeError *error)
{
  return removal_scratch(in[0].x, in[1].lacks ? removal_scratch_share : in[1].x, &out[0].x, error);
}

static bool passes(const Given *in, Answer *out, TradeError *error)
{
  int count;
  if (!removal_passes(in[0].x, in[1].x, &count, error)) return false;
  out[0].x = count;
  return true;
}

static bool slab_factor(const Given *in, Answer *out, TradeError *error)
{
  return removal_slab_factor(in[0].x, &out[0].x, error);
}

static bool clear(const Given *in, Answer *out, TradeError *error)
{
  RemovalCondition at = condition_of(&in[4]);
  RemovalStep s = { .next_bond = GIVEN_ENUM(BondFamily, in[2]), .mohs = in[3].x, .at = in[4].lacks ? NULL : &at };
  RemovalClearing c;
  if (!grit_read(in[0].text, &s.last, error) || !grit_read(in[1].text, &s.next, error) ||
      !removal_clear(&s, &c, error))
    return false;
  out[0].x = c.passes;
  out[1].x = c.scratch_um;
  out[2].x = c.depth_um;
  out[3].x = c.slab_factor;
  out[4].x = c.last.size_um;
  out[5].x = c.next.size_um;
  return true;
}

static bool calibrate(const Given *in, Answer *out, TradeError *error)
{
  RemovalCondition at = condition_of(&in[3]);
  RemovalReference reference;
  if (!removal_calibrate(&at, in[1].x, in[2].x, in[0].x, &reference, error)) return false;
  out[0].x = reference.share;
  return true;
}

/* ---- planetary heads */

static Planetary head_of(const Given *in)
{
  return (Planetary){ in[0].x, given_whole(in[1]), in[2].x, given_whole(in[3]), in[4].x, in[5].x, in[6].x,
                      in[7].x };
}

static bool density(const Given *in, Answer *out, TradeError *error)
{
  Planetary head = head_of(in);
  PlanetaryPass pass;
  if (!planetary_pass(&head, &pass, error)) return false;
  out[0].x = pass.variation;
  out[1].x = pass.mean;
  out[2].x = pass.swath_m;
  out[3].x = pass.speed_m_s;
  out[4].count = PLANETARY_STRIPS;
  memcpy(out[4].cells, pass.density, sizeof pass.density);
  return true;
}

static bool field(const Given *in, Answer *out, TradeError *error)
{
  Planetary head = head_of(in);
  PlanetaryPass pass;
  PlanetaryField f;
  if (!planetary_pass(&head, &pass, error) || !planetary_field(&pass, in[8].x, &f, error)) return false;
  out[0].x = f.variation;
  out[1].x = f.mean;
  return true;
}

/* ---- wear */

static const char *wear_word(size_t i)
{
  static const char *const words[] = { "metal", "transitional", "resin", "burnish" };
  return i < sizeof words / sizeof *words ? words[i] : NULL;
}

static bool life_of(const char *bond, double grit, double mohs, bool wet, Answer *out, TradeError *error)
{
  const WearBand *row;
  WearLife l;
  if (!wear_band(bond, grit, &row, error) || !wear_life(row, mohs, wet, &l, error)) return false;
  out[0].x = l.likely;
  out[1].x = l.low;
  out[2].x = l.high;
  out[0].basis = row->basis;
  return true;
}

static bool life(const Given *in, Answer *out, TradeError *error)
{
  return life_of(wear_word((size_t)in[0].x), in[1].x, in[2].x, in[3].x > 0, out, error);
}

static bool edge_life(const Given *in, Answer *out, TradeError *error)
{
  return life_of("edge", 0, in[0].x, in[1].x > 0, out, error);
}

static bool sets(const Given *in, Answer *out, TradeError *error)
{
  WearSets s;
  if (!wear_sets(in[0].x, in[1].x, in[2].x, &s, error)) return false;
  out[0].x = s.sets;
  out[1].x = s.share;
  out[2].x = s.worn;
  return true;
}

/* ---- rows */

#define MOHS { "mohs", "number", "", "4.5", .says = "scratch hardness of the paste" }
#define BOND(name_, example, says_) { name_, "word", "", example, .says = says_, .word = bond_word }
#define GRIT(name_, example, says_) { name_, "grit", "", example, .says = says_, .core = "grit" }
#define GRAIN { "grain", "grain size", "um", "35 um", .says = "size of the grain" }
#define FACTOR                                                                                                     \
  { "slab", "number", "", "1", .says = "how much faster than a medium slab this one is cut",                       \
    .core = "slab_factor",                                                                                         \
    .otherwise = "1", .basis = "a medium slab" }
#define CONDITION(...)                                                                                             \
  { "pressure", "pressure", "kPa", "20 kPa", .says = "under the tools", __VA_ARGS__ },                             \
    { "speed", "speed", "m/s", "8 m/s", .says = "of the tools over the floor", __VA_ARGS__ },                      \
    { "contact", "time", "s", "0.5 s", .says = "tools on a point in one pass", __VA_ARGS__ }
#define USUAL .may_lack = true /* left out, all three are those of the bond's reference */
#define HEAD                                                                                                       \
  { "orbit", "length", "m", "22 cm", .says = "planets' axes from the head's" },                                    \
    { "planets", "whole", "", "3", .says = "evenly spaced" },                                                      \
    { "tool_orbit", "length", "m", "9 cm", .says = "tools' centres from their planet's axis" },                    \
    { "tools", "whole", "", "3", .says = "on each planet, evenly spaced" },                                        \
    { "tool_radius", "length", "m", "4 cm", .says = "round tools" },                                               \
    { "head_rpm", "number", "rpm", "-60", .says = "of the head, seen from the floor" },                            \
    { "planet_rpm", "number", "rpm", "600",                                                                        \
      .says = "of the planets, likewise; the other sign turns the other way" },                                    \
    { "travel", "speed", "m/min", "6 m/min", .says = "of the machine" }

#define WET                                                                                                        \
  { "wet", "flag", "", "true", .says = "run with water", .otherwise = "false", .basis = "dry unless said" }
#define LIFE_OUT(kind_, unit_)                                                                                     \
  OUTPUTS({ "likely", kind_, .unit = unit_ }, { "low", kind_, .unit = unit_ }, { "high", kind_, .unit = unit_ })
#define WORN                                                                                                       \
  { "worn", "fraction", "", "0 %", .says = "share of the set in use that is worn already",                         \
    .core = "already_worn",                                                                                        \
    .otherwise = "0 %", .basis = "a new set unless said" }
#define SETS_OUT                                                                                                   \
  OUTPUTS({ "sets", .kind = "whole" }, { "share", .kind = "number" }, { "worn", "fraction", .unit = "" })

const TradeRow native_trade_abrasive[] = {
  { "bond.for_mohs", bond_for, .in = INPUTS(MOHS),
    .out = OUTPUTS({ "bond", .kind = "text" }, { "slab", .kind = "text" }) },
  { "bond.family", bond_family, .says = "A family of tools: what it is for, and the numbers usually printed on it.",
    .in = INPUTS(BOND("bond", "resin", "the family")),
    .out = OUTPUTS({ "purpose", .kind = "text" }, { "grits", "number", .is_list = true }) },

  { "grit.size", size_of_grit, .in = INPUTS(GRIT("grit", "P400", "number or printed grade")),
    .out = OUTPUTS({ "size", "grain size", .unit = "um" }, { "interpolated", .kind = "flag" },
                   { "system", .kind = "text" }, { "number", .kind = "number" }, { "coarse", .kind = "text" },
                   { "fine", .kind = "text" }) },
  { "grit.pad", grit_of_pad, .in = INPUTS(GRIT("grit", "P400", "number or printed grade")),
    .out = OUTPUTS({ "pad", .kind = "number" }) },
  { "grit.step", step,
    .in = INPUTS(GRIT("last", "100", "the abrasive before"), BOND("last_bond", "resin", "its bond"),
                 GRIT("next", "200", "the abrasive after"), BOND("next_bond", "resin", "its bond")),
    .out = OUTPUTS({ "verdict", .kind = "text" }, { "ratio", .kind = "number" }, { "size_ratio", .kind = "number" },
                   { "family_change", .kind = "flag" }) },
  { "grit.sieve_pitch", sieve_pitch,
    .in = INPUTS({ "mesh", "number", "", "200", .says = "meshes an inch" }),
    .out = OUTPUTS({ "pitch", "grain size", .unit = "um" }) },

  { "removal.depth", depth,
    .in = INPUTS(BOND("bond", "resin", "of the tools: gives the reference"), GRAIN, FACTOR, CONDITION(USUAL)),
    .out = OUTPUTS({ "depth", "grain size", .unit = "um" }) },
  { "removal.pressure", pressure,
    .in = INPUTS({ "mass", "mass", "kg", "400 lb", .says = "that rests on the tools" },
                 { "area", "area", "m2", "72 in2", .says = "of all tools", .core = "tool_area_m2" }),
    .out = OUTPUTS({ "pressure", "pressure", .unit = "kPa" }) },
  { "removal.contact", contact,
    .in = INPUTS({ "area", "area", "m2", "72 in2", .says = "of all tools", .core = "tool_area_m2" },
                 { "pitch", "length", "m", "25 in", .says = "of the lanes: head less overlap" },
                 { "travel", "speed", "m/min", "15 ft/min", .says = "of the machine" }),
    .out = OUTPUTS({ "contact", "time", .unit = "s" }) },
  { "removal.scratch", scratch,
    .in = INPUTS(GRAIN, { "share", "number", "", NULL, .says = "scratch depth over grain; else the trade's",
                          .may_lack = true }),
    .out = OUTPUTS({ "scratch", "grain size", .unit = "um" }) },
  { "removal.passes", passes,
    .in = INPUTS({ "cut", "grain size", "um", "30 um", .says = "depth to take off" },
                 { "depth", "grain size", "um", "4 um", .says = "of one pass" }),
    .out = OUTPUTS({ "passes", .kind = "whole" }) },
  { "removal.slab_factor", slab_factor, .in = INPUTS(MOHS), .out = OUTPUTS({ "factor", .kind = "number" }) },
  { "removal.clear", clear, .formula = "removal.passes",
    .says = "Passes for the next abrasive to take out the scratch of the last one on this slab, with every number "
            "that leads to them.",
    .in = INPUTS(GRIT("last", "100", "the abrasive before"), GRIT("next", "200", "the abrasive after"),
                 BOND("bond", "resin", "of the next"), MOHS, CONDITION(USUAL)),
    .out = OUTPUTS({ "passes", .kind = "whole" }, { "scratch", "grain size", .unit = "um" },
                   { "depth", "grain size", .unit = "um" }, { "slab_factor", .kind = "number" },
                   { "last_grain", "grain size", .unit = "um" }, { "next_grain", "grain size", .unit = "um" }) },
  { "removal.calibrate", calibrate, .formula = "removal.depth",
    .says = "A shop's own reference from one measured pass: the share of the grain that it took off on a medium "
            "slab.",
    .in = INPUTS({ "measured", "grain size", "um", "5 um", .says = "depth taken off in one pass",
                   .core = "depth_um" },
                 GRAIN, FACTOR, CONDITION(.may_lack = false)),
    .out = OUTPUTS({ "share", .kind = "number" }) },

  { "planetary.density", density, .in = INPUTS(HEAD),
    .out = OUTPUTS({ "variation", .kind = "number" }, { "mean", "number", .unit = "m/m2" },
                   { "swath", "length", .unit = "m" }, { "speed", "speed", .unit = "m/s" },
                   { "density", "number", .is_list = true }) },
  { "planetary.field", field,
    .in = INPUTS(HEAD, { "pitch", "length", "m", "60 cm", .says = "of the lanes" }),
    .out = OUTPUTS({ "variation", .kind = "number" }, { "mean", "number", .unit = "m/m2" }) },

  { "wear.life", life,
    .in = INPUTS({ "bond", "word", "", "resin", .says = "of the tools", .word = wear_word },
                 { "grit", "number", "", "400", .says = "printed on them; burnishing pads need none",
                   .may_lack = true },
                 MOHS, WET),
    .out = LIFE_OUT("area per count", "m2/set") },
  { "wear.edge_life", edge_life, .formula = "wear.life",
    .says = "Edge a set of hand tools lasts: low, likely, high.",
    .in = INPUTS(MOHS, WET), .out = LIFE_OUT("length per count", "m/set") },
  { "wear.sets", sets,
    .in = INPUTS({ "work", "area", "m2", "12,000 sqft", .says = "floor to be worked" },
                 { "life", "area per count", "m2/set", "9000 sqft/set", .says = "floor that a set lasts" }, WORN),
    .out = SETS_OUT },
  { "wear.edge_sets", sets, .formula = "wear.sets", .says = "The same for edge tools.",
    .in = INPUTS({ "work", "length", "m", "900 ft", .says = "edge to be worked" },
                 { "life", "length per count", "m/set", "1500 ft/set", .says = "edge that a set lasts" }, WORN),
    .out = SETS_OUT },
  { .name = NULL }
};
