/* native_trade_liquid.c - for scripts: climate, chemistry, films, packages, water, slurry. */
#include <math.h>

#include "base/money.h"
#include "lang/native_trade.h"
#include "trade/chemistry.h"
#include "trade/climate.h"
#include "trade/film.h"
#include "trade/packages.h"
#include "trade/slurry.h"
#include "trade/water.h"

/* ---- climate */

#define AIR { "air", "temperature", "C", "68 F", .says = "temperature of the air" }
#define HUMIDITY { "humidity", "fraction", "", "45 %", .says = "relative humidity of the air", .core = "rh" }
#define SURFACE { "surface", "temperature", "C", "60 F", .says = "temperature of the floor's surface" }
#define WIND(unit) { "wind", "speed", unit, "10 mph", .says = "speed of the air half a metre above the floor" }

static bool saturation_pressure(const Given *in, Answer *out, TradeError *error)
{
  return climate_saturation_pressure(in[0].x, &out[0].x, error);
}

static bool dew_point(const Given *in, Answer *out, TradeError *error)
{
  return climate_dew_point(in[0].x, in[1].x, &out[0].x, error);
}

static bool surface_margin(const Given *in, Answer *out, TradeError *error)
{
  SurfaceMargin m;
  if (!climate_surface_margin(in[0].x, in[1].x, in[2].x, in[3].x, &m, error)) return false;
  out[0].x = m.margin_k;
  out[1].x = m.enough;
  out[2].x = m.dew_c;
  return true;
}

typedef bool (*Evaporate)(double surface, double air, double rh, double wind, Evaporation *out, TradeError *error);

static bool evaporate(Evaporate formula, const Given *in, Answer *out, TradeError *error)
{
  Evaporation e;
  if (!formula(in[0].x, in[1].x, in[2].x, in[3].x, &e, error)) return false;
  out[0].x = e.rate;
  out[1].x = e.state == CLIMATE_CONDENSES;
  return true;
}

static bool evaporation(const Given *in, Answer *out, TradeError *error)
{
  return evaporate(climate_evaporation, in, out, error);
}

static bool evaporation_rounded(const Given *in, Answer *out, TradeError *error)
{
  return evaporate(climate_evaporation_rounded, in, out, error);
}

static bool evaporation_us(const Given *in, Answer *out, TradeError *error)
{
  return evaporate(climate_evaporation_us, in, out, error);
}

/* ---- chemistry */

static const char *traffic_word(size_t i)
{
  return chemistry_return_to_service[i].traffic;
}

static const char *liquid_word(size_t i)
{
  const Chemistry *row = chemistry_at(i);
  return row ? row->name : NULL;
}

static double stated(double low, double high, double figure)
{
  return low == 0 && high == 0 ? NAN : figure;
}

static bool liquid(const Given *in, Answer *out, TradeError *error)
{
  const Chemistry *c;
  if (!chemistry_find(liquid_word((size_t)in[0].x), &c, error)) return false;
  const double figures[] = {
    c->spread_low_m2_l,
    c->spread_high_m2_l,
    stated(c->dwell_low_min, c->dwell_high_min, c->dwell_low_min),
    stated(c->dwell_low_min, c->dwell_high_min, c->dwell_high_min),
    stated(c->dry_low_min, c->dry_high_min, c->dry_low_min),
    stated(c->dry_low_min, c->dry_high_min, c->dry_high_min),
    c->ph_low,
    c->ph_high,
    c->must_be_removed,
    c->must_be_neutralised,
    c->needs_dry_floor,
    c->is_flammable,
  };
  const size_t count = sizeof figures / sizeof *figures;
  for (size_t i = 0; i < count; i++) out[i].x = figures[i];
  out[count].text = c->care;
  out[0].basis = c->basis;
  return true;
}

static bool volume(const Given *in, Answer *out, TradeError *error)
{
  return chemistry_volume(in[0].x, in[1].x, given_whole(in[2]), in[3].x, &out[0].x, error);
}

static bool until_refusal(const Given *in, Answer *out, TradeError *error)
{
  double shares[TRADE_ROWS_MOST];
  AbsorptionTest test = { shares, (int)given_numbers(&in[0], shares), in[1].x, in[2].x };
  RefusalDose dose;
  if (!chemistry_until_refusal(&test, &dose, error)) return false;
  out[0].x = dose.coats;
  out[1].x = dose.applied_l_m2;
  out[2].x = dose.absorbed_l_m2;
  out[3].x = dose.excess_l_m2;
  out[4].x = dose.extrapolated;
  return true;
}

static bool opens_after(const Given *in, Answer *out, TradeError *error)
{
  const ReturnToService *row;
  if (!chemistry_opens_after(traffic_word((size_t)in[0].x), &row, error)) return false;
  out[0].x = row->low_h;
  out[1].x = row->high_h;
  out[0].basis = row->basis;
  return true;
}

/* ---- films */

static bool wet_thickness(const Given *in, Answer *out, TradeError *error)
{
  return film_wet_thickness(in[0].x, &out[0].x, error);
}

static bool dry_thickness(const Given *in, Answer *out, TradeError *error)
{
  return film_dry_thickness(in[0].x, in[1].x, &out[0].x, error);
}

static bool spread(const Given *in, Answer *out, TradeError *error)
{
  return film_spread(in[0].x, in[1].x, &out[0].x, error);
}

static bool wet_life(const Given *in, Answer *out, TradeError *error)
{
  WetLife life;
  if (!film_wet_life(in[0].x, in[1].x, in[2].x, in[3].x, &life, error)) return false;
  out[0].x = life.likely_h;
  out[1].x = life.early_h;
  out[2].x = life.late_h;
  return true;
}

static bool rewets(const Given *in, Answer *out, TradeError *error)
{
  WetLife life = { in[1].x, in[2].x, in[3].x };
  Rewets r;
  if (!film_rewets(in[0].x, &life, &r, error)) return false;
  out[0].x = r.likely;
  out[1].x = r.fewest;
  out[2].x = r.most;
  return true;
}

/* ---- packages */

/* Prices are told to four decimals, as in base/money.h. */
static bool cover(const Given *in, Answer *out, TradeError *error)
{
  PackageSize sizes[PACKAGE_SIZES];
  PackageMix mix;
  int count = (int)in[1].count;
  if (!trade_in_range(error, "sizes", count, 1, PACKAGE_SIZES)) return false;
  for (int i = 0; i < count; i++) {
    Amount price;
    const Given *size = &in[1].cells[2 * i];
    if (!amount_from(size[1].x, 4, &price))
      return trade_refuse(error, TRADE_OUT_OF_RANGE, "price", size[1].x, "such a price does not fit");
    sizes[i] = (PackageSize){ size[0].x, price };
  }
  if (!packages_cover(in[0].x, sizes, count, &mix, error)) return false;
  out[0].x = (double)mix.price / MONEY_SCALE;
  out[1].count = (size_t)count;
  for (int i = 0; i < count; i++) out[1].cells[i] = mix.count[i];
  out[2].x = mix.packages;
  out[3].x = mix.left_over;
  out[4].x = (double)mix.least_price / MONEY_SCALE;
  return true;
}

/* ---- water */

static const char *water_word(size_t i)
{
  const WaterBand *band = water_band_at(i);
  return band ? band->id : NULL;
}

static bool usual_water(const Given *in, Answer *out, TradeError *error)
{
  const WaterBand *band;
  if (!water_band(water_word((size_t)in[0].x), &band, error)) return false;
  out[0].x = band->low;
  out[1].x = band->high;
  out[2].text = band->unit;
  out[3].text = band->says;
  out[0].basis = band->basis;
  return true;
}

static bool by_feed(const Given *in, Answer *out, TradeError *error)
{
  return water_by_feed(in[0].x, in[1].x, &out[0].x, error);
}

static bool by_area(const Given *in, Answer *out, TradeError *error)
{
  return water_by_area(in[0].x, given_whole(in[1]), in[2].x, &out[0].x, error);
}

static bool trips(const Given *in, Answer *out, TradeError *error)
{
  TankTrips t;
  if (!water_trips(in[0].x, in[1].x, in[2].x, &t, error)) return false;
  out[0].x = t.trips;
  out[1].x = t.minutes;
  out[2].x = t.last_load_l;
  return true;
}

static bool fresh(const Given *in, Answer *out, TradeError *error)
{
  return water_fresh(in[0].x, in[1].x, &out[0].x, error);
}

/* ---- slurry */

static bool solids(const Given *in, Answer *out, TradeError *error)
{
  Solids s;
  if (!slurry_solids(in[0].x, in[1].x, in[2].x, &s, error)) return false;
  out[0].x = s.mass_kg;
  out[1].x = s.volume_l;
  return true;
}

static bool mix(const Given *in, Answer *out, TradeError *error)
{
  Solids s = { in[0].x, in[1].x };
  Slurry slurry;
  if (!slurry_mix(&s, in[2].x, in[3].x, &slurry, error)) return false;
  out[0].x = slurry.volume_l;
  out[1].x = slurry.mass_kg;
  out[2].x = slurry.water_l;
  out[3].x = slurry.solids_mass_share;
  out[4].x = slurry.free_water_share;
  return true;
}

static bool settle(const Given *in, Answer *out, TradeError *error)
{
  Slurry slurry = { .volume_l = in[0].x, .solids_l = in[1].x };
  Settled s;
  if (!slurry_settle(&slurry, in[2].x, &s, error)) return false;
  out[0].x = s.sludge_l;
  out[1].x = s.clear_l;
  return true;
}

static bool drums(const Given *in, Answer *out, TradeError *error)
{
  int count;
  if (!slurry_drums(in[0].x, in[1].x, in[2].x, &count, error)) return false;
  out[0].x = count;
  return true;
}

static bool dust(const Given *in, Answer *out, TradeError *error)
{
  Solids s = { .volume_l = in[0].x };
  DustBags d;
  if (!slurry_dust(&s, in[1].x, &d, error)) return false;
  out[0].x = d.bags_high;
  out[1].x = d.bags_low;
  out[2].x = d.low_l;
  out[3].x = d.high_l;
  return true;
}

static bool ph_class(const Given *in, Answer *out, TradeError *error)
{
  SlurryPhClass class;
  if (!slurry_ph_class(in[0].x, in[1].x, &class, error)) return false;
  out[0].text = slurry_ph_class_name(class);
  return true;
}

/* ---- rows */

#define EVAPORATION_OUT(unit_)                                                                                     \
  OUTPUTS({ "rate", "evaporation rate", .unit = unit_ }, { "condenses", .kind = "flag" })
#define SOLIDS_VOLUME { "solids", "volume", "L", "5.2 ft3",                                                        \
                        .says = "concrete taken off, without pores filled by water",                               \
                        .core = "volume_l" }
#define PACKAGE_PRICE { "price", "money", "", "$42", .says = "its price" }
#define PACKAGES_OUT(kind_, unit_)                                                                                 \
  OUTPUTS({ "price", "money", .unit = "" }, { "counts", "whole", .is_list = true },                                \
          { "packages", .kind = "whole" }, { "left_over", kind_, .unit = unit_ },                                  \
          { "least_price", "money", .unit = "" })
#define PRACTICE "common practice, no source"

const TradeRow native_trade_liquid[] = {
  { "climate.saturation_pressure", saturation_pressure,
    .in = INPUTS({ "temperature", "temperature", "C", "20 C", .says = "temperature of the air" }),
    .out = OUTPUTS({ "pressure", "pressure", .unit = "hPa" }) },
  { "climate.dew_point", dew_point, .in = INPUTS(AIR, HUMIDITY),
    .out = OUTPUTS({ "dew_point", "temperature", .unit = "C" }) },
  { "climate.surface_margin", surface_margin,
    .in = INPUTS(AIR, HUMIDITY, SURFACE,
                 { "required", "temperature difference", "delta C", "3 delta C",
                   .says = "the least margin asked for",
                   .otherwise = "3 delta C", .basis = "ISO 8502-4, written for steel" }),
    .out = OUTPUTS({ "margin", "temperature difference", .unit = "delta C" }, { "enough", .kind = "flag" },
                   { "dew_point", "temperature", .unit = "C" }) },
  { "climate.evaporation", evaporation, .in = INPUTS(SURFACE, AIR, HUMIDITY, WIND("km/h")),
    .out = EVAPORATION_OUT("kg/m2/h") },
  { "climate.evaporation_rounded", evaporation_rounded, .in = INPUTS(SURFACE, AIR, HUMIDITY, WIND("km/h")),
    .out = EVAPORATION_OUT("kg/m2/h") },
  { "climate.evaporation_us", evaporation_us,
    .in = INPUTS({ "surface", "temperature", "F", "60 F", .says = "temperature of the floor's surface" },
                 { "air", "temperature", "F", "68 F", .says = "temperature of the air" }, HUMIDITY, WIND("mph")),
    .out = EVAPORATION_OUT("lb/ft2/h") },

  { "chemistry.liquid", liquid,
    .says = "What the trade says of a kind of liquid, never of a product: its data sheet comes first. Spread "
            "is per coat; what nobody states is nil.",
    .in = INPUTS({ "name", "word", "", "lithium silicate", .says = "the kind of liquid", .word = liquid_word }),
    .out = OUTPUTS({ "spread_low", "spread rate", .unit = "m2/L" },
                   { "spread_high", "spread rate", .unit = "m2/L" },
                   { "dwell_low", "time", .unit = "min" }, { "dwell_high", "time", .unit = "min" },
                   { "dry_low", "time", .unit = "min" }, { "dry_high", "time", .unit = "min" },
                   { "ph_low", .kind = "number" }, { "ph_high", .kind = "number" },
                   { "must_be_removed", .kind = "flag" }, { "must_be_neutralised", .kind = "flag" },
                   { "needs_dry_floor", .kind = "flag" }, { "is_flammable", .kind = "flag" },
                   { "care", .kind = "text" }) },
  { "chemistry.volume", volume,
    .in = INPUTS({ "area", "area", "m2", "12,000 sqft", .says = "floor to be covered" },
                 { "spread", "spread rate", "m2/L", "450 sqft/gal", .says = "floor a volume covers in one coat" },
                 { "coats", "whole", "", "1", .says = "coats, one after the other", .otherwise = "1",
                   .basis = "one coat unless said" },
                 { "waste", "fraction", "", "5 %", .says = "material lost on top", .otherwise = "5 %",
                   .basis = PRACTICE }),
    .out = OUTPUTS({ "volume", "volume", .unit = "L" }) },
  { "chemistry.until_refusal", until_refusal,
    .in = INPUTS({ "absorbed", .example = "95 %; 60 %; 30 %; 8 %", .core = "coats",
                   .says = "share of each coat of a trial patch that soaked in, coat 1 first",
                   COLUMNS({ "", "fraction", "", "95 %", .says = "share of the coat" }) },
                 { "spread", "spread rate", "m2/L", "400 sqft/gal", .says = "floor a volume covers in one coat" },
                 { "refusal", "fraction", "", "10 %",
                   .says = "the floor rejects the first coat of which it takes less than this" }),
    .out = OUTPUTS({ "coats", .kind = "whole" }, { "applied", "number", .unit = "L/m2" },
                   { "absorbed", "number", .unit = "L/m2" }, { "excess", "number", .unit = "L/m2" },
                   { "extrapolated", .kind = "flag" }) },
  { "chemistry.opens_after", opens_after,
    .in = INPUTS({ "traffic", "word", "", "light foot", .says = "who comes back", .word = traffic_word }),
    .out = OUTPUTS({ "low", "time", .unit = "h" }, { "high", "time", .unit = "h" }) },

  { "film.wet_thickness", wet_thickness,
    .in = INPUTS({ "spread", "spread rate", "m2/L", "400 sqft/gal", .says = "floor a volume covers in one coat" }),
    .out = OUTPUTS({ "wet", "film thickness", .unit = "um" }) },
  { "film.dry_thickness", dry_thickness,
    .in = INPUTS({ "wet", "film thickness", "um", "4 mil", .says = "thickness of the wet film" },
                 { "solids", "fraction", "", "25 %", .says = "solids by volume", .core = "volume_solids" }),
    .out = OUTPUTS({ "dry", "film thickness", .unit = "um" }) },
  { "film.spread", spread,
    .in = INPUTS({ "solids", "fraction", "", "25 %", .says = "solids by volume", .core = "volume_solids" },
                 { "dry", "film thickness", "um", "1.5 mil", .says = "thickness that is to stay" }),
    .out = OUTPUTS({ "spread", "spread rate", .unit = "m2/L" }) },
  { "film.wet_life", wet_life,
    .in = INPUTS({ "wet", "film thickness", "um", "4 mil", .says = "thickness of the wet film" },
                 { "density", "density", "kg/m3", "1.1 kg/L", .says = "of the liquid", .otherwise = "1 kg/L",
                   .basis = "as water" },
                 { "volatile", "fraction", "", "85 %", .says = "share of the mass that may evaporate" },
                 { "evaporation", "evaporation rate", "kg/m2/h", "0.1 lb/ft2/h",
                   .says = "of open water, for instance from climate.evaporation" }),
    .out = OUTPUTS({ "likely", "time", .unit = "h" }, { "early", "time", .unit = "h" },
                   { "late", "time", .unit = "h" }) },
  { "film.rewets", rewets,
    .in = INPUTS({ "dwell", "time", "h", "30 min", .says = "how long the film must stay wet" },
                 { "early", "time", "h", "10 min", .says = "wet life at the least" },
                 { "likely", "time", "h", "14 min", .says = "wet life as estimated" },
                 { "late", "time", "h", "23 min", .says = "wet life at the most" }),
    .out = OUTPUTS({ "likely", .kind = "whole" }, { "fewest", .kind = "whole" }, { "most", .kind = "whole" }) },

  { "packages.cover", cover,
    .in = INPUTS({ "need", "volume", "L", "31 gal", .says = "how much is needed" },
                 { "sizes", .example = "5 gal, $175; 1 gal, $42", .says = "packages on sale, 8 at most",
                   .core = "size_count",
                   COLUMNS({ "holds", "volume", "L", "5 gal", .says = "what one holds" }, PACKAGE_PRICE) }),
    .out = PACKAGES_OUT("volume", "L") },
  { "packages.cover_mass", cover, .formula = "packages.cover",
    .in = INPUTS({ "need", "mass", "kg", "420 lb", .says = "how much is needed" },
                 { "sizes", .example = "50 lb, $38; 10 lb, $11", .says = "packages on sale, 8 at most",
                   .core = "size_count",
                   COLUMNS({ "holds", "mass", "kg", "50 lb", .says = "what one holds" }, PACKAGE_PRICE) }),
    .out = PACKAGES_OUT("mass", "kg") },

  { "water.usual", usual_water, .says = "What wet work usually takes, to hold a plan against.",
    .in = INPUTS({ "of", "word", "", "feed", .says = "which figure", .word = water_word }),
    .out = OUTPUTS({ "low", .kind = "number" }, { "high", .kind = "number" }, { "unit_of", .kind = "text" },
                   { "says", .kind = "text" }) },
  { "water.by_feed", by_feed,
    .in = INPUTS({ "feed", "flow", "L/min", "0.5 gal/min", .says = "water feed of the machine" },
                 { "running", "time", "min", "6 h", .says = "time that the water runs" }),
    .out = OUTPUTS({ "volume", "volume", .unit = "L" }) },
  { "water.by_area", by_area,
    .in = INPUTS({ "area", "area", "m2", "10,000 sqft", .says = "floor worked" },
                 { "passes", "whole", "", "1", .says = "passes over it", .otherwise = "1",
                   .basis = "a spread rate of the whole step" },
                 { "covers", "spread rate", "m2/L", "100 sqft/gal", .says = "floor a volume serves in a pass" }),
    .out = OUTPUTS({ "volume", "volume", .unit = "L" }) },
  { "water.trips", trips,
    .in = INPUTS({ "volume", "volume", "L", "180 gal", .says = "water to bring or slurry to take away" },
                 { "tank", "volume", "L", "50 gal", .says = "what the tank holds" },
                 { "each", "time", "min", "12 min", .says = "minutes of one trip", .core = "minutes_each" }),
    .out = OUTPUTS({ "trips", .kind = "whole" }, { "time", "time", .unit = "min" },
                   { "last_load", "volume", .unit = "L" }) },
  { "water.fresh", fresh,
    .in = INPUTS({ "volume", "volume", "L", "2200 gal", .says = "water used" },
                 { "reusable", "fraction", "", "80 %", .says = "share that comes back clean" }),
    .out = OUTPUTS({ "fresh", "volume", .unit = "L" }) },

  { "slurry.solids", solids,
    .in = INPUTS({ "area", "area", "m2", "1000 sqft", .says = "floor worked" },
                 { "depth", "grain size", "um", "62.5 mil", .says = "depth of concrete taken off" },
                 { "density", "density", "kg/m3", "145 lb/ft3", .says = "of the concrete",
                   .otherwise = "2350 kg/m3",
                   .basis = "normal-weight concrete 2300 to 2400 kg/m3, from memory" }),
    .out = OUTPUTS({ "mass", "mass", .unit = "kg" }, { "volume", "volume", .unit = "L" }) },
  { "slurry.mix", mix,
    .in = INPUTS(SOLIDS_VOLUME, { "mass", "mass", "kg", "755 lb", .says = "their mass" },
                 { "water", "volume", "L", "100 gal", .says = "water put down" },
                 { "lost", "fraction", "", "20 %", .says = "share of it that dried off or soaked in",
                   .core = "water_lost" }),
    .out = OUTPUTS({ "volume", "volume", .unit = "L" }, { "mass", "mass", .unit = "kg" },
                   { "water", "volume", .unit = "L" }, { "solids_share", "fraction", .unit = "" },
                   { "free_water_share", "fraction", .unit = "" }) },
  { "slurry.settle", settle,
    .in = INPUTS({ "volume", "volume", "L", "119 gal", .says = "the slurry" }, SOLIDS_VOLUME,
                 { "sludge_solids", "fraction", "", "35 %", .says = "share of solids in the settled sludge" }),
    .out = OUTPUTS({ "sludge", "volume", .unit = "L" }, { "clear", "volume", .unit = "L" }) },
  { "slurry.drums", drums,
    .in = INPUTS({ "volume", "volume", "L", "119 gal", .says = "what goes into drums" },
                 { "drum", "volume", "L", "55 gal", .says = "what a drum holds", .otherwise = "55 gal",
                   .basis = "the usual steel drum" },
                 { "fill", "fraction", "", "90 %", .says = "how full it is filled", .otherwise = "90 %",
                   .basis = PRACTICE }),
    .out = OUTPUTS({ "drums", .kind = "whole" }) },
  { "slurry.dust", dust,
    .in = INPUTS(SOLIDS_VOLUME, { "bag", "volume", "L", "30 L", .says = "what a dust bag holds" }),
    .out = OUTPUTS({ "bags_high", .kind = "whole" }, { "bags_low", .kind = "whole" },
                   { "low", "volume", .unit = "L" }, { "high", "volume", .unit = "L" }) },
  { "slurry.ph_class", ph_class,
    .in = INPUTS({ "ph", "number", "", "12.6", .says = "pH of the waste" },
                 { "free_water", "fraction", "", "80 %", .says = "share of free water by volume",
                   .core = "free_water_share" }),
    .out = OUTPUTS({ "class", .kind = "text" }) },
  { .name = NULL }
};
