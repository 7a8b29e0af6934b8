/* climate.h - dew point, the surface margin and evaporation from a wet floor.
 *
 * Temperatures in degC (`_c`) unless a name ends in `_f`; relative humidity is a fraction above 0, at most 1.
 *
 *     es = 6.1094 exp(b T / (c + T)) hPa          saturation vapour pressure, Magnus form
 *     g  = ln(rh) + b T / (c + T)                 Td = c g / (b - g)                        dew point
 *
 * b = 17.625, c = 243.04 degC (Alduchov and Eskridge 1996, -40 to 50 degC) is the form this program uses; the
 * others are data, so that a reading made with them can be checked. Confirmed on public reference pages.
 *
 * Evaporation is for a wet surface: it says how fast a film flashes off, never when a slab is dry. Real evaporation
 * may differ by 40 % either way (published symposium abstract). Wind is measured 0.5 m above the floor. Limits on
 * air and surface are rows of trade/limits.h: coat.margin, coat.humidity, evaporation.caution. */
#ifndef TRADE_CLIMATE_H
#define TRADE_CLIMATE_H

#include "trade/trade.h"

typedef struct {
  const char *id;         /* "magnus", "tetens", "wmo 8", "base ten" */
  double b, c_c;          /* natural-log form */
  double low_c, high_c;   /* valid air temperature */
  Basis basis;
} MagnusForm;

/* Ends in a row whose id is NULL; the first row is the one climate_dew_point uses. */
extern const MagnusForm climate_magnus_forms[];

/* T in -40..50 degC. */
bool climate_saturation_pressure(double temperature_c, double *pressure_hpa, TradeError *error);
bool climate_dew_point(double air_c, double rh, double *dew_c, TradeError *error);
bool climate_dew_point_by(const MagnusForm *form, double air_c, double rh, double *dew_c, TradeError *error);

typedef struct {
  double dew_c;
  double margin_k;   /* surface - dew point; negative: water is condensing */
  double required_k;
  bool enough;       /* margin_k >= required_k */
} SurfaceMargin;

/* The rule "surface at least `required_k` above the dew point" (3 K in ISO 8502-4 and ISO 12944-7, written for
 * steel, used for floors by custom). required_k in 0..30. */
bool climate_surface_margin(double air_c, double rh, double surface_c, double required_k, SurfaceMargin *out,
                            TradeError *error);

typedef enum {
  CLIMATE_EVAPORATES, /* the wet surface loses water */
  CLIMATE_CONDENSES   /* the formula is negative, moist air over a cold slab: expect condensation and no drying */
} EvaporationState;

typedef struct {
  EvaporationState state;
  double rate; /* as the formula gives it, negative when condensing; unit of the function */
} Evaporation;

/* Surface and air 0..60 degC, wind 0..100 km/h; rate in kg/m2/h.
 *     rounded  E = 5([Ts + 18]^2.5 - r [Ta + 18]^2.5)(V + 4) 10^-6                      (Uno 1998)
 *     exact    E = 5.275([Ts + 17.778]^2.5 - r [Ta + 17.778]^2.5)(V + 4.02336) 10^-6
 * The rounded form reads about 4 % below the US form; the exact one agrees with it. */
bool climate_evaporation_rounded(double surface_c, double air_c, double rh, double wind_km_h, Evaporation *out,
                                 TradeError *error);
bool climate_evaporation(double surface_c, double air_c, double rh, double wind_km_h, Evaporation *out,
                         TradeError *error);
/* E = (Ts^2.5 - r Ta^2.5)(1 + 0.4 V) 10^-6, lb/ft2/h; 32..140 degF, wind 0..62 mph (the line of ACI 305). */
bool climate_evaporation_us(double surface_f, double air_f, double rh, double wind_mph, Evaporation *out,
                            TradeError *error);

extern const TradeFormula climate_formulas[];

#endif
