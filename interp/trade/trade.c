/* trade.c - refusals, and the register that gathers the formulas of every module. */
#include "trade/trade.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "trade/acceptance.h"
#include "trade/aggregate.h"
#include "trade/appearance.h"
#include "trade/bond.h"
#include "trade/carbon_monoxide.h"
#include "trade/chemistry.h"
#include "trade/circuits.h"
#include "trade/climate.h"
#include "trade/coverage.h"
#include "trade/dust.h"
#include "trade/exposure.h"
#include "trade/film.h"
#include "trade/flatness.h"
#include "trade/generator.h"
#include "trade/geometry.h"
#include "trade/grit.h"
#include "trade/joints.h"
#include "trade/lifting.h"
#include "trade/moisture.h"
#include "trade/noise.h"
#include "trade/optics.h"
#include "trade/packages.h"
#include "trade/planetary.h"
#include "trade/power.h"
#include "trade/removal.h"
#include "trade/room.h"
#include "trade/sheen.h"
#include "trade/slip.h"
#include "trade/slurry.h"
#include "trade/solvent.h"
#include "trade/statistics.h"
#include "trade/vibration.h"
#include "trade/water.h"
#include "trade/wear.h"

/* One row a module; the order is the order of the printed documentation. */
static const TradeFormula *const modules[] = {
  grit_formulas,
  bond_formulas,
  geometry_formulas,
  coverage_formulas,
  removal_formulas,
  planetary_formulas,
  aggregate_formulas,
  appearance_formulas,
  sheen_formulas,
  optics_formulas,
  flatness_formulas,
  acceptance_formulas,
  statistics_formulas,
  climate_formulas,
  chemistry_formulas,
  film_formulas,
  packages_formulas,
  wear_formulas,
  water_formulas,
  slurry_formulas,
  exposure_formulas,
  noise_formulas,
  vibration_formulas,
  dust_formulas,
  room_formulas,
  solvent_formulas,
  carbon_monoxide_formulas,
  lifting_formulas,
  generator_formulas,
  power_formulas,
  circuits_formulas,
  joints_formulas,
  moisture_formulas,
  slip_formulas,
  NULL
};

const TradeFormula *trade_formula_at(size_t index)
{
  for (size_t m = 0; modules[m]; m++)
    for (const TradeFormula *f = modules[m]; f->id; f++)
      if (index-- == 0) return f;
  return NULL;
}

const TradeFormula *trade_formula(const char *id)
{
  for (size_t m = 0; modules[m]; m++)
    for (const TradeFormula *f = modules[m]; f->id; f++)
      if (strcmp(f->id, id) == 0) return f;
  return NULL;
}

static void set_error(TradeError *error, TradeStatus status, const char *argument, double v, double low,
                      double high)
{
  *error = (TradeError){ .status = status, .argument = argument, .value = v, .low = low, .high = high };
}

static void say_range(TradeError *e)
{
  size_t room = sizeof e->message;
  if (isinf(e->low) && isinf(e->high)) snprintf(e->message, room, "%s must be a finite number", e->argument);
  else if (isinf(e->high))
    snprintf(e->message, room, "%s is %g, must be at least %g", e->argument, e->value, e->low);
  else if (isinf(e->low))
    snprintf(e->message, room, "%s is %g, must be at most %g", e->argument, e->value, e->high);
  else
    snprintf(e->message, room, "%s is %g, must be %g to %g", e->argument, e->value, e->low, e->high);
}

static bool refuse_not_finite(TradeError *error, const char *name, double v)
{
  if (!error) return false;
  set_error(error, TRADE_NOT_FINITE, name, v, -INFINITY, INFINITY);
  say_range(error);
  return false;
}

bool trade_in_range(TradeError *error, const char *name, double v, double low, double high)
{
  if (!isfinite(v)) return refuse_not_finite(error, name, v);
  if (v >= low && v <= high) return true;
  if (!error) return false;
  set_error(error, TRADE_OUT_OF_RANGE, name, v, low, high);
  say_range(error);
  return false;
}

bool trade_positive(TradeError *error, const char *name, double v)
{
  if (!isfinite(v)) return refuse_not_finite(error, name, v);
  if (v > 0) return true;
  if (!error) return false;
  set_error(error, TRADE_OUT_OF_RANGE, name, v, 0, INFINITY);
  snprintf(error->message, sizeof error->message, "%s is %g, must be above 0", name, v);
  return false;
}

bool trade_refuse(TradeError *error, TradeStatus status, const char *argument, double value, const char *format,
                  ...)
{
  if (!error) return false;
  set_error(error, status, argument, value, -INFINITY, INFINITY);
  va_list args;
  va_start(args, format);
  vsnprintf(error->message, sizeof error->message, format, args);
  va_end(args);
  return false;
}

const char *trade_status_name(TradeStatus status)
{
  static const char *const names[] = {
    [TRADE_OK] = "ok",
    [TRADE_NOT_FINITE] = "not finite",
    [TRADE_OUT_OF_RANGE] = "out of range",
    [TRADE_UNKNOWN] = "unknown",
    [TRADE_AMBIGUOUS] = "ambiguous",
    [TRADE_DEGENERATE] = "degenerate",
    [TRADE_TOO_FEW] = "too few",
    [TRADE_NO_ANSWER] = "no answer",
  };
  return names[status];
}

const char *basis_status_name(BasisStatus status)
{
  static const char *const names[] = {
    [TRADE_CONFIRMED] = "confirmed",
    [TRADE_FROM_MEMORY] = "from memory",
    [TRADE_COMMON_PRACTICE] = "common practice",
    [TRADE_COMPUTED] = "computed",
  };
  return names[status];
}
