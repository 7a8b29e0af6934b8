/* limits.c - the table of limits. A row is added here; nothing else needs to know. */
#include "trade/limits.h"

#include <math.h>
#include <string.h>

#include "trade/customary.h"

#define LB_PER_SQFT (POUND_KG / SQFT_M2) /* 1 lb/ft2 in kg/m2 */
#define F_TO_C(f) (((f) - 32) / 1.8)
#define NO_END INFINITY

static const Limit limits[] = {
  /* air and surface */
  { "coat.margin", "surface above the dew point while coating", 3, NO_END, false, "K",
    "ISO 8502-4, ISO 12944-7",
    { TRADE_CONFIRMED, "coating-engineering pages citing both standards; written for steel" } },
  { "coat.humidity",
    "relative humidity while coating, unless the product allows more", -NO_END, 0.85, false, "fraction",
    "ISO 12944-7", { TRADE_CONFIRMED, "coating-engineering pages citing the standard; written for steel" } },
  { "evaporation.caution",
    "evaporation where precautions against drying start", -NO_END, 0.2 * LB_PER_SQFT, false, "kg/m2/h",
    "ACI 305, 0.2 lb/ft2/h", { TRADE_CONFIRMED, "ready-mix technical pages" } },
  { "evaporation.low_bleed", "the same for mixes that bleed little", -NO_END, 0.1 * LB_PER_SQFT, false, "kg/m2/h",
    "0.1 lb/ft2/h", { TRADE_CONFIRMED, "ready-mix technical pages" } },
  { "building.temperature", "building while the slab is placed and finished", F_TO_C(55.0), NO_END, false, "degC",
    "55 degF", { TRADE_CONFIRMED, "contractor page" } },

  /* slab */
  { "f1869.temperature",
    "air for 48 h before and during a moisture-emission test", F_TO_C(65.0), F_TO_C(85.0), false, "degC",
    "ASTM F1869, 75 +/- 10 degF", { TRADE_CONFIRMED, "test supplier's instructions" } },
  { "f1869.humidity", "air for 48 h before and during a moisture-emission test", 0.40, 0.60, false, "fraction",
    "ASTM F1869, 50 +/- 10 %", { TRADE_CONFIRMED, "test supplier's instructions" } },
  { "f1869.exposure", "exposure of the test dish", 60, 72, false, "h",
    "ASTM F1869", { TRADE_CONFIRMED, "federal moisture-control guide and kit instructions" } },
  { "f2170.settle", "wait before an in-slab humidity probe is read", 24, NO_END, false, "h",
    "ASTM F2170 (2018)", { TRADE_FROM_MEMORY, "ASTM F2170" } },
  { "f2170.settle.before_2018", "wait before an in-slab humidity probe is read, editions before 2018", 72, NO_END,
    false, "h", "ASTM F2170, before 2018", { TRADE_FROM_MEMORY, "ASTM F2170" } },
  { "mver.f710", "moisture emission under a resilient floor", -NO_END, 3, false, "lb/1000 sqft/24 h",
    "ASTM F710, unless the finish maker says otherwise", { TRADE_CONFIRMED, "testing-laboratory paper" } },
  { "mver.tile", "moisture emission under vinyl composition tile", -NO_END, 5, false, "lb/1000 sqft/24 h",
    "flooring trade, no edition", { TRADE_CONFIRMED, "flooring contractor page" } },
  { "rh.f710", "relative humidity in a slab under a resilient floor", -NO_END, 0.75, false, "fraction",
    "ASTM F710, unless the finish maker says otherwise", { TRADE_CONFIRMED, "testing-laboratory paper" } },
  { "ph.f710", "surface pH under a resilient floor", 7, 10, false, "pH",
    "ASTM F710", { TRADE_FROM_MEMORY, "ASTM F710" } },
  { "age.polish",
    "age of a slab before polishing, or until the machine dislodges no aggregate", 28, NO_END, false, "d",
    "guide specification", { TRADE_CONFIRMED, "guide specification" } },
  { "age.joint.maker", "age of a slab before joints are filled, least by fillers' makers", 28, NO_END, false, "d",
    "association position statement", { TRADE_CONFIRMED, "association position statement" } },
  { "age.joint.aci", "age of a slab before joints are filled, advised", 90, NO_END, false, "d",
    "ACI 302.1R-15", { TRADE_CONFIRMED, "association position statement quoting it" } },
  { "strength.polish", "compressive strength of a slab to be polished", 3500, NO_END, false, "psi",
    "one guide specification", { TRADE_CONFIRMED, "guide specification" } },
  { "slip.level_interior", "wet DCOF of a level interior floor walked on wet", 0.42, NO_END, false, "DCOF",
    "ANSI A137.1 (2012), now ANSI A326.3", { TRADE_CONFIRMED, "trade press; polishing association April 2015" } },

  /* air that people breathe */
  { "silica.action", "respirable silica, 8 h average, action level", -NO_END, 25, true, "ug/m3",
    "29 CFR 1926.1153 (2016)", { TRADE_CONFIRMED, "federal regulation text, reproduced" } },
  { "silica.pel", "respirable silica, 8 h average, permissible", -NO_END, 50, false, "ug/m3",
    "29 CFR 1926.1153 (2016)", { TRADE_CONFIRMED, "trade press on the final rule, university page" } },
  { "acetone.twa.osha", "acetone, 8 h average", -NO_END, 1000, false, "ppm",
    "OSHA PEL, general and construction", { TRADE_CONFIRMED, "federal agency chemical page" } },
  { "acetone.twa.niosh", "acetone, average", -NO_END, 250, false, "ppm",
    "NIOSH REL", { TRADE_CONFIRMED, "federal agency chemical page" } },
  { "acetone.twa.acgih", "acetone, 8 h average", -NO_END, 250, false, "ppm",
    "ACGIH 2015", { TRADE_FROM_MEMORY, "ACGIH TLV list; 500 before" } },
  { "acetone.short.acgih", "acetone, 15 min", -NO_END, 500, false, "ppm",
    "ACGIH 2015", { TRADE_FROM_MEMORY, "ACGIH TLV list; 750 before" } },
  { "acetone.idlh", "acetone, immediately dangerous", -NO_END, 2500, false, "ppm",
    "NIOSH IDLH", { TRADE_CONFIRMED, "federal agency chemical page" } },
  { "co.twa.osha", "carbon monoxide, 8 h average", -NO_END, 50, false, "ppm",
    "OSHA PEL", { TRADE_CONFIRMED, "public safety pages; it is an 8 h average, not one hour" } },
  { "co.twa.niosh", "carbon monoxide, average", -NO_END, 35, false, "ppm",
    "NIOSH REL", { TRADE_CONFIRMED, "federal criteria-document abstract" } },
  { "co.ceiling.niosh", "carbon monoxide, at any time", -NO_END, 200, false, "ppm",
    "NIOSH REL ceiling", { TRADE_CONFIRMED, "federal criteria-document abstract" } },
  { "co.twa.acgih", "carbon monoxide, 8 h average", -NO_END, 25, false, "ppm",
    "ACGIH TLV", { TRADE_CONFIRMED, "public safety page" } },
  { "co.alarm", "carbon monoxide, where a monitor should alarm", -NO_END, 35, false, "ppm",
    "no edition", { TRADE_COMMON_PRACTICE, "common practice built on the NIOSH figures" } },
  { "co.stop", "carbon monoxide, where work should stop", -NO_END, 200, false, "ppm",
    "no edition", { TRADE_COMMON_PRACTICE, "common practice built on the NIOSH figures" } },
  { "lel.share", "solvent vapour as a share of the lower explosive limit", -NO_END, 0.25, false, "fraction",
    "no edition", { TRADE_FROM_MEMORY, "fire codes; the 25 % rule" } },

  /* noise, vibration, lifting */
  { "noise.action.osha", "daily noise, action level", -NO_END, 85, true, "dBA",
    "29 CFR 1910.95", { TRADE_CONFIRMED, "federal regulation text" } },
  { "noise.pel.osha", "daily noise, permissible", -NO_END, 90, false, "dBA",
    "29 CFR 1926.52, 1910.95", { TRADE_CONFIRMED, "federal regulation text" } },
  { "noise.rel.niosh", "daily noise, recommended", -NO_END, 85, true, "dBA",
    "NIOSH REL", { TRADE_CONFIRMED, "federal health agency page" } },
  { "hand_arm.action", "hand-arm vibration A(8), action value", -NO_END, 2.5, false, "m/s2",
    "Directive 2002/44/EC", { TRADE_CONFIRMED, "European directive text" } },
  { "hand_arm.limit", "hand-arm vibration A(8), limit value", -NO_END, 5.0, false, "m/s2",
    "Directive 2002/44/EC", { TRADE_CONFIRMED, "European directive text" } },
  { "whole_body.action", "whole-body vibration A(8), action value", -NO_END, 0.5, false, "m/s2",
    "Directive 2002/44/EC", { TRADE_CONFIRMED, "safety reference page" } },
  { "whole_body.limit", "whole-body vibration A(8), limit value", -NO_END, 1.15, false, "m/s2",
    "Directive 2002/44/EC", { TRADE_CONFIRMED, "safety reference page" } },
  { "lifting.index", "weight lifted over the recommended weight limit", -NO_END, 1, false, "ratio",
    "NIOSH 94-110", { TRADE_FROM_MEMORY, "NIOSH applications manual" } },

  /* waste and power */
  { "waste.ph", "pH of aqueous waste that is not corrosive waste D002", 2, 12.5, true, "pH",
    "40 CFR 261.22(a)(1)", { TRADE_CONFIRMED, "federal regulation text: corrosive at 2 and at 12.5 themselves" } },
  { "power.drop.branch",
    "voltage drop at the farthest outlet of a branch circuit", -NO_END, 0.03, false, "fraction",
    "NEC 2023, informational note at 210.19(A)",
    { TRADE_CONFIRMED, "electrical engineering page; not enforceable" } },
  { "power.drop.total", "voltage drop of feeder and branch together", -NO_END, 0.05, false, "fraction",
    "NEC 2023, informational note at 215.2(A)",
    { TRADE_CONFIRMED, "electrical engineering page; not enforceable" } },
  { "power.continuous", "continuous load (3 h or more) as a share of the breaker", -NO_END, 0.8, false, "fraction",
    "NEC 210.20", { TRADE_FROM_MEMORY, "NEC 210.20" } },
};

const Limit *limit_at(size_t index)
{
  return index < sizeof limits / sizeof *limits ? &limits[index] : NULL;
}

bool limit_find(const char *id, const Limit **out, TradeError *error)
{
  for (size_t i = 0; limit_at(i); i++)
    if (strcmp(limits[i].id, id) == 0) {
      *out = &limits[i];
      return true;
    }
  return trade_refuse(error, TRADE_UNKNOWN, "id", 0, "no limit is called `%s`", id);
}

bool limit_holds(const Limit *limit, double value, bool *holds, TradeError *error)
{
  if (!trade_in_range(error, "value", value, -INFINITY, INFINITY)) return false;
  *holds = limit->strict ? limit->low < value && value < limit->high : limit->low <= value && value <= limit->high;
  return true;
}
