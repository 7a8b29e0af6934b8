/* removal.c - Preston's relation from a reference condition, scratches, and passes to clear them. */
#include "trade/removal.h"

#include <assert.h>
#include <math.h>

const double removal_scratch_share = 0.25;

const TradeFormula removal_formulas[] = {
  { "removal.depth", "depth = share x grain x (P / P_ref) (v / v_ref) (t / t_ref) x slab factor",
    { TRADE_CONFIRMED, "Preston 1927, rate = k P v; the reference shares are common practice" },
    "Mean depth in um that one pass removes, scaled from a reference of the bond family or of the shop. P in "
    "kPa under the tools, v in m/s, t in s of contact. Glazing, loading and worn tools are not in it." },
  { "removal.pressure", "P = mass on the tools x 9.80665 / tool area",
    { TRADE_COMPUTED, "weight over area" },
    "Contact pressure in kPa. The same weight on twice the area halves it." },
  { "removal.contact", "t = tool area / (lane pitch x travel)",
    { TRADE_COMPUTED, "time under a tool, averaged over the floor" },
    "Mean contact time in s of a point of the floor in one pass. Half the travel speed doubles it." },
  { "removal.scratch", "scratch = share x grain", TRADE_RULE_OF_THUMB,
    "Depth in um of the scratches that an abrasive leaves, share 0.25 unless the shop knows better." },
  { "removal.passes", "passes = ceil(depth to cut / depth of a pass)",
    { TRADE_COMPUTED, "each pass adds its depth" },
    "Passes until the scratches of the last abrasive, or a wanted cut, are reached." },
  { "removal.slab_factor", "factor by band of Mohs hardness, 1 for a medium slab", TRADE_RULE_OF_THUMB,
    "How much faster (above 1) or slower a paste of this scratch hardness is cut than a medium one." },
  { 0 }
};

/* 150 kg on the tools of a 30 in head with 2 in of overlap, at 15 ft/min for metal to 27 ft/min for fibre. */
static const RemovalReference references[BOND_FAMILIES] = {
  [BOND_METAL] = { { 200, 8, 0.13 }, 0.50, TRADE_RULE_OF_THUMB },
  [BOND_TRANSITIONAL] = { { 80, 8, 0.25 }, 0.30, TRADE_RULE_OF_THUMB },
  [BOND_RESIN] = { { 36, 8, 0.46 }, 0.15, TRADE_RULE_OF_THUMB },
  [BOND_FIBRE] = { { 10, 8, 1.5 }, 0.05, TRADE_RULE_OF_THUMB },
};

/* Up to each hardness, its end included, as in the bands of bond.h. */
static const struct { double to_mohs, factor; } slabs[] = {
  { 3, 2.0 }, { 4, 1.4 }, { 5, 1.0 }, { 6, 0.7 }, { 7, 0.5 }, { 10, 0.35 },
};

bool removal_reference(BondFamily bond, RemovalReference *out, TradeError *error)
{
  assert(bond < BOND_FAMILIES);
  if (references[bond].share == 0)
    return trade_refuse(error, TRADE_NO_ANSWER, "bond", bond, "a scraper has no grain to reckon its removal from");
  *out = references[bond];
  return true;
}

static bool check_condition(const RemovalCondition *at, double grain_um, double slab_factor, TradeError *error)
{
  return trade_in_range(error, "pressure_kpa", at->pressure_kpa, 0.1, 5000) &&
         trade_in_range(error, "speed_m_s", at->speed_m_s, 0.01, 100) &&
         trade_in_range(error, "contact_s", at->contact_s, 1e-4, 600) &&
         trade_in_range(error, "grain_um", grain_um, 0.1, 5000) &&
         trade_in_range(error, "slab_factor", slab_factor, 0.05, 20);
}

bool removal_calibrate(const RemovalCondition *at, double grain_um, double slab_factor, double depth_um,
                       RemovalReference *out, TradeError *error)
{
  if (!check_condition(at, grain_um, slab_factor, error) || !trade_positive(error, "depth_um", depth_um))
    return false;
  *out = (RemovalReference){ *at, depth_um / (grain_um * slab_factor), { TRADE_COMPUTED, "measured by the shop" } };
  return true;
}

bool removal_pressure(double mass_on_tools_kg, double tool_area_m2, double *pressure_kpa, TradeError *error)
{
  if (!trade_positive(error, "mass_on_tools_kg", mass_on_tools_kg) ||
      !trade_positive(error, "tool_area_m2", tool_area_m2))
    return false;
  *pressure_kpa = mass_on_tools_kg * 9.80665 / tool_area_m2 / 1000;
  return true;
}

bool removal_contact(double tool_area_m2, double pitch_m, double travel_m_min, double *contact_s, TradeError *error)
{
  if (!trade_positive(error, "tool_area_m2", tool_area_m2) || !trade_positive(error, "pitch_m", pitch_m) ||
      !trade_positive(error, "travel_m_min", travel_m_min))
    return false;
  *contact_s = tool_area_m2 / (pitch_m * travel_m_min / 60);
  return true;
}

bool removal_slab_factor(double mohs, double *factor, TradeError *error)
{
  if (!trade_in_range(error, "mohs", mohs, 1, 10)) return false;
  size_t i = 0;
  while (mohs > slabs[i].to_mohs) i++;
  *factor = slabs[i].factor;
  return true;
}

bool removal_depth(const RemovalReference *reference, const RemovalCondition *at, double grain_um,
                   double slab_factor, double *depth_um, TradeError *error)
{
  const RemovalCondition *ref = &reference->at;
  if (!check_condition(at, grain_um, slab_factor, error) || !trade_positive(error, "share", reference->share) ||
      !check_condition(ref, grain_um, slab_factor, error))
    return false;
  *depth_um = reference->share * grain_um * slab_factor * (at->pressure_kpa / ref->pressure_kpa) *
              (at->speed_m_s / ref->speed_m_s) * (at->contact_s / ref->contact_s);
  return true;
}

bool removal_scratch(double grain_um, double share, double *scratch_um, TradeError *error)
{
  if (!trade_in_range(error, "grain_um", grain_um, 0.1, 5000) || !trade_positive(error, "share", share) ||
      !trade_in_range(error, "share", share, 0, 1))
    return false;
  *scratch_um = share * grain_um;
  return true;
}

bool removal_passes(double cut_um, double depth_um, int *passes, TradeError *error)
{
  if (!trade_in_range(error, "cut_um", cut_um, 0, INFINITY) || !trade_positive(error, "depth_um", depth_um))
    return false;
  double exact = cut_um / depth_um;
  double count = fmax(1, ceil(exact - 1e-9 * fmax(1, exact))); /* rounding may not add a pass */
  if (!trade_in_range(error, "passes", count, 1, 10000)) return false;
  *passes = (int)count;
  return true;
}

bool removal_clear(const RemovalStep *step, RemovalClearing *out, TradeError *error)
{
  RemovalClearing c;
  RemovalReference reference = { 0 };
  if (step->reference) reference = *step->reference;
  else if (!removal_reference(step->next_bond, &reference, error)) return false;
  const RemovalCondition *at = step->at ? step->at : &reference.at;
  if (!grit_size(step->last, &c.last, error) || !grit_size(step->next, &c.next, error) ||
      !removal_slab_factor(step->mohs, &c.slab_factor, error) ||
      !removal_scratch(c.last.size_um, removal_scratch_share, &c.scratch_um, error) ||
      !removal_depth(&reference, at, c.next.size_um, c.slab_factor, &c.depth_um, error) ||
      !removal_passes(c.scratch_um, c.depth_um, &c.passes, error))
    return false;
  *out = c;
  return true;
}
