/* climate.c - Magnus forms and evaporation equations. */
#include "trade/climate.h"

#include <math.h>

/* ln 10: turns the base-ten constants of instrument makers into the natural-log form. */
#define LN_10 2.302585092994046

const MagnusForm climate_magnus_forms[] = {
  { "magnus", 17.625, 243.04, -40, 50, { TRADE_CONFIRMED, "Alduchov and Eskridge 1996" } },
  { "tetens", 17.27, 237.3, 0, 60, { TRADE_CONFIRMED, "Tetens type, university weather network" } },
  { "wmo 8", 17.62, 243.12, -45, 60, { TRADE_FROM_MEMORY, "WMO guide No. 8, over water" } },
  { "base ten", 7.591386 * LN_10, 240.7263, -20, 50, { TRADE_CONFIRMED, "instrument maker's constants" } },
  { .id = NULL }
};

/* Magnus constant a, hPa. */
static const double saturation_at_zero_hpa = 6.1094;

static double exponent(const MagnusForm *form, double temperature_c)
{
  return form->b * temperature_c / (form->c_c + temperature_c);
}

static bool humidity_is_valid(double rh, TradeError *error)
{
  return trade_positive(error, "rh", rh) && trade_in_range(error, "rh", rh, 0, 1);
}

bool climate_saturation_pressure(double temperature_c, double *pressure_hpa, TradeError *error)
{
  const MagnusForm *form = &climate_magnus_forms[0];
  if (!trade_in_range(error, "temperature_c", temperature_c, form->low_c, form->high_c)) return false;
  *pressure_hpa = saturation_at_zero_hpa * exp(exponent(form, temperature_c));
  return true;
}

bool climate_dew_point_by(const MagnusForm *form, double air_c, double rh, double *dew_c, TradeError *error)
{
  if (!trade_in_range(error, "air_c", air_c, form->low_c, form->high_c)
      || !humidity_is_valid(rh, error))
    return false;
  double g = log(rh) + exponent(form, air_c);
  *dew_c = form->c_c * g / (form->b - g);
  return true;
}

bool climate_dew_point(double air_c, double rh, double *dew_c, TradeError *error)
{
  return climate_dew_point_by(&climate_magnus_forms[0], air_c, rh, dew_c, error);
}

bool climate_surface_margin(double air_c, double rh, double surface_c, double required_k, SurfaceMargin *out,
                            TradeError *error)
{
  double dew_c;
  if (!climate_dew_point(air_c, rh, &dew_c, error) || !trade_in_range(error, "surface_c", surface_c, -40, 80)
      || !trade_in_range(error, "required_k", required_k, 0, 30))
    return false;
  const double rounding_k = 1e-9;
  double margin_k = surface_c - dew_c;
  *out = (SurfaceMargin){ dew_c, margin_k, required_k, margin_k >= required_k - rounding_k };
  return true;
}

/* E = scale ([Ts + shift]^2.5 - r [Ta + shift]^2.5)(V + still) 10^-6 */
typedef struct {
  double scale, shift, still;
} EvaporationForm;

static const EvaporationForm uno_rounded = { 5, 18, 4 };
static const EvaporationForm uno_exact = { 5.275, 17.778, 4.02336 };

static Evaporation evaporation_of(double rate)
{
  return (Evaporation){ rate < 0 ? CLIMATE_CONDENSES : CLIMATE_EVAPORATES, rate };
}

static bool evaporation_si(const EvaporationForm *form, double surface_c, double air_c, double rh, double wind_km_h,
                           Evaporation *out, TradeError *error)
{
  if (!trade_in_range(error, "surface_c", surface_c, 0, 60) || !trade_in_range(error, "air_c", air_c, 0, 60)
      || !humidity_is_valid(rh, error) || !trade_in_range(error, "wind_km_h", wind_km_h, 0, 100))
    return false;
  double drive = pow(surface_c + form->shift, 2.5) - rh * pow(air_c + form->shift, 2.5);
  *out = evaporation_of(form->scale * drive * (wind_km_h + form->still) * 1e-6);
  return true;
}

bool climate_evaporation_rounded(double surface_c, double air_c, double rh, double wind_km_h, Evaporation *out,
                                 TradeError *error)
{
  return evaporation_si(&uno_rounded, surface_c, air_c, rh, wind_km_h, out, error);
}

bool climate_evaporation(double surface_c, double air_c, double rh, double wind_km_h, Evaporation *out,
                         TradeError *error)
{
  return evaporation_si(&uno_exact, surface_c, air_c, rh, wind_km_h, out, error);
}

bool climate_evaporation_us(double surface_f, double air_f, double rh, double wind_mph, Evaporation *out,
                            TradeError *error)
{
  if (!trade_in_range(error, "surface_f", surface_f, 32, 140) || !trade_in_range(error, "air_f", air_f, 32, 140)
      || !humidity_is_valid(rh, error) || !trade_in_range(error, "wind_mph", wind_mph, 0, 62))
    return false;
  double drive = pow(surface_f, 2.5) - rh * pow(air_f, 2.5);
  *out = evaporation_of(drive * (1 + 0.4 * wind_mph) * 1e-6);
  return true;
}

const TradeFormula climate_formulas[] = {
  { "climate.saturation_pressure", "es = 6.1094 exp(17.625 T / (243.04 + T)) hPa",
    { TRADE_CONFIRMED, "Alduchov and Eskridge 1996" },
    "Saturation vapour pressure over water from the temperature in degC, -40 to 50." },
  { "climate.dew_point", "Td = c g / (b - g), g = ln(rh) + b T / (c + T), b = 17.625, c = 243.04 degC",
    { TRADE_CONFIRMED, "Alduchov and Eskridge 1996" },
    "Dew point from air temperature (-40 to 50 degC) and relative humidity (a fraction above 0, at most 1)." },
  { "climate.surface_margin", "margin = surface - dew point; enough if at least 3 K",
    { TRADE_CONFIRMED, "ISO 8502-4 and ISO 12944-7, written for steel, used for floors by custom" },
    "Whether the surface is far enough above the dew point for a coating, guard or filler. The product's data "
    "sheet comes first." },
  { "climate.evaporation", "E = 5.275([Ts+17.778]^2.5 - r [Ta+17.778]^2.5)(V+4.02336) 10^-6 kg/m2/h",
    { TRADE_CONFIRMED, "Uno 1998 with exactly converted constants; +/- 40 % by a published symposium abstract" },
    "Evaporation from a wet surface at Ts under air at Ta (degC), relative humidity r and wind V (km/h, 0.5 m "
    "above the floor). Negative: condensation is to be expected. It gives no drying time of the slab itself." },
  { "climate.evaporation_rounded", "E = 5([Ts+18]^2.5 - r [Ta+18]^2.5)(V+4) 10^-6 kg/m2/h",
    { TRADE_CONFIRMED, "Uno 1998" }, "The rounded form as usually printed; about 4 % below the exact one." },
  { "climate.evaporation_us", "E = (Ts^2.5 - r Ta^2.5)(1 + 0.4 V) 10^-6 lb/ft2/h",
    { TRADE_CONFIRMED, "Menzel's line as in ACI 305, ready-mix technical page" },
    "The same in degF and mph." },
  { .id = NULL }
};
