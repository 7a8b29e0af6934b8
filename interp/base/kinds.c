/* kinds.c - what each kind is: name, dimension, units shown, spellings offered; and the rules of products. */
#include "base/kinds.h"

#include <assert.h>
#include <string.h>

/* Exponents in the order of DimBase: length, mass, time, current, temperature, money, count. */
#define DIM(...) { { __VA_ARGS__ } }
#define US(...) { { __VA_ARGS__ }
#define METRIC(...) { __VA_ARGS__ } }
#define SAME(...) { { __VA_ARGS__ }, { __VA_ARGS__ } }

/* A unit may name `each` where the counted thing goes and `$` where the currency goes. */
static const KindRow kinds[KIND_COUNT_LAST] = {
  [KIND_NONE] = { "plain number", DIM(0), SAME(""), "", { "3", "2.5", "1/2" }, 3, 0 },
  [KIND_LENGTH] = { "length", DIM(1), US("ft", "in"), METRIC("m", "mm"), "", { "3 in", "12' 6\"", "75 mm" }, 2,
                    KIND_SHARED_SCALE },
  [KIND_FILM] = { "film thickness", DIM(1), US("mil"), METRIC("um"), "", { "3 mil", "75 um", "0.08 mm" }, 1,
                  KIND_SHARED_SCALE },
  [KIND_GRAIN] = { "grain size", DIM(1), SAME("um"), "uin,mil", { "18 um", "40 uin", "0.1 mm" }, 1,
                   KIND_SHARED_SCALE },
  [KIND_AREA] = { "area", DIM(2), US("sqft"), METRIC("m2"), "", { "12,000 sqft", "1100 m2", "250 sq ft" }, 0,
                  KIND_BY_DIMENSION },
  [KIND_VOLUME] = { "volume", DIM(3), US("gal"), METRIC("L", "mL"), "yd3,ft3,m3,qt",
                    { "5 gal", "20 L", "3 yd3" }, 1, KIND_BY_DIMENSION },
  [KIND_MASS] = { "mass", DIM(0, 1), US("lb"), METRIC("kg", "g"), "t,short ton", { "50 lb", "25 kg", "400 g" }, 1,
                  KIND_BY_DIMENSION },
  [KIND_TIME] = { "time", DIM(0, 0, 1), SAME("h", "min", "s"), "d,week",
                  { "20 min", "1 h 30 min", "28 d" }, 2, 0 },
  [KIND_LABOUR] = { "labour", DIM(0, 0, 1), SAME("person-h"), "",
                    { "3 person-h", "0.5 person-h", "90 person-min" }, 1, KIND_APART },
  [KIND_MACHINE_TIME] = { "machine time", DIM(0, 0, 1), SAME("machine-h"), "",
                          { "3 machine-h", "0.5 machine-h", "90 machine-min" }, 1, KIND_APART },
  [KIND_SPEED] = { "speed", DIM(1, 0, -1), US("ft/min"), METRIC("m/min"), "mph,km/h,m/s",
                   { "12 ft/min", "4 m/min", "10 mph" }, 1, 0 },
  [KIND_ROTATION] = { "rotation speed", DIM(0, 0, -1), SAME("rpm"), "", { "700 rpm", "1,200 rpm", "300 rpm" }, 0,
                      KIND_APART },
  [KIND_PRODUCTION] = { "production rate", DIM(2, 0, -1), US("sqft/h"), METRIC("m2/h"), "",
                        { "400 sqft/h", "40 m2/h", "8 sqft/min" }, 0, KIND_BY_DIMENSION },
  [KIND_SPREAD] = { "spread rate", DIM(-1), US("sqft/gal"), METRIC("m2/L"), "",
                    { "450 sqft/gal", "10 m2/L", "110 sqft/qt" }, 1, 0 },
  [KIND_FLOW] = { "flow", DIM(3, 0, -1), US("gal/min"), METRIC("L/min"), "cfm,m3/h,L/s",
                  { "0.5 gal/min", "25 cfm", "2 L/min" }, 2, KIND_BY_DIMENSION },
  [KIND_TEMPERATURE] = { "temperature", DIM(0, 0, 0, 0, 1), US("F"), METRIC("C"), "", { "65 F", "18 C", "291 K" },
                         0, KIND_APART },
  [KIND_TEMPERATURE_DIFFERENCE] = { "temperature difference", DIM(0, 0, 0, 0, 1), US("delta F"), METRIC("delta C"),
                                    "", { "5 delta F", "3 delta C", "2 delta K" }, 1, 0 },
  [KIND_FRACTION] = { "fraction", DIM(0), SAME("%"), "ppm", { "80 %", "0.8", "250 ppm" }, 1, 0 },
  [KIND_SOUND] = { "sound level", DIM(0), SAME("dBA"), "", { "85 dBA", "90 dBA", "94.5 dBA" }, 1, KIND_APART },
  [KIND_GLOSS] = { "gloss", DIM(0), SAME("GU"), "", { "45 GU", "60 GU", "12.5 GU" }, 0, KIND_APART },
  [KIND_PRESSURE] = { "pressure", DIM(-1, 1, -2), US("psi"), METRIC("MPa", "kPa", "Pa"), "ksi,bar",
                      { "4000 psi", "30 MPa", "20 kPa" }, 1, KIND_BY_DIMENSION },
  [KIND_FORCE] = { "force", DIM(1, 1, -2), US("lbf"), METRIC("N"), "kN", { "300 lbf", "1300 N", "1.3 kN" }, 0,
                   KIND_BY_DIMENSION },
  [KIND_POWER] = { "power", DIM(2, 1, -3), SAME("kW", "W"), "hp", { "7.5 kW", "10 hp", "1500 W" }, 1,
                   KIND_BY_DIMENSION },
  [KIND_ENERGY] = { "energy", DIM(2, 1, -2), SAME("kWh", "Wh"), "J,kJ,MJ", { "12 kWh", "500 Wh", "3.6 MJ" }, 1,
                    KIND_BY_DIMENSION },
  [KIND_VOLTAGE] = { "voltage", DIM(2, 1, -3, -1), SAME("V"), "kV,mV", { "480 V", "230 V", "120 V" }, 0,
                     KIND_BY_DIMENSION },
  [KIND_CURRENT] = { "current", DIM(0, 0, 0, 1), SAME("A", "mA"), "", { "30 A", "16 A", "500 mA" }, 1,
                     KIND_BY_DIMENSION },
  [KIND_RESISTANCE] = { "resistance", DIM(2, 1, -3, -2), SAME("ohm"), "kohm,Mohm,mohm",
                        { "0.5 ohm", "2 kohm", "1 Mohm" }, 2, KIND_BY_DIMENSION },
  [KIND_DENSITY] = { "density", DIM(-3, 1), US("lb/ft3"), METRIC("kg/m3"), "lb/gal,kg/L,g/mL",
                     { "145 lb/ft3", "2320 kg/m3", "9 lb/gal" }, 1, KIND_BY_DIMENSION },
  [KIND_ACCELERATION] = { "vibration", DIM(1, 0, -2), SAME("m/s2"), "", { "2.5 m/s2", "5 m/s2", "4 ft/s2" }, 1,
                          KIND_BY_DIMENSION },
  [KIND_EVAPORATION] = { "evaporation rate", DIM(-2, 1, -1), US("lb/ft2/h"), METRIC("kg/m2/h"), "lb/1000 sqft/24 h",
                         { "0.2 lb/ft2/h", "1 kg/m2/h", "3 lb/1000 sqft/24 h" }, 2, KIND_BY_DIMENSION },
  [KIND_CONCENTRATION] = { "concentration", DIM(-3, 1), SAME("mg/m3", "ug/m3"), "g/m3",
                           { "0.05 mg/m3", "50 ug/m3", "1 mg/m3" }, 1, 0 },
  [KIND_MONEY] = { "money", DIM(0, 0, 0, 0, 0, 1), SAME("$"), "", { "$1,250", "EUR 900", "62.50 USD" }, 2,
                   KIND_BY_DIMENSION },
  [KIND_PAY_RATE] = { "pay rate", DIM(0, 0, -1, 0, 0, 1), SAME("$/h"), "$/d,$/week",
                      { "$62/h", "EUR 55/h", "$450/d" }, 2, KIND_BY_DIMENSION },
  [KIND_PRICE_PER_AREA] = { "price per area", DIM(-2, 0, 0, 0, 0, 1), US("$/sqft"), METRIC("$/m2"), "",
                            { "$0.35/sqft", "EUR 4/m2", "$350/1000 sqft" }, 2, KIND_BY_DIMENSION },
  [KIND_PRICE_PER_LENGTH] = { "price per length", DIM(-1, 0, 0, 0, 0, 1), US("$/ft"), METRIC("$/m"), "",
                              { "$1.20/ft", "EUR 4/m", "$120/100 ft" }, 2, KIND_BY_DIMENSION },
  [KIND_PRICE_PER_VOLUME] = { "price per volume", DIM(-3, 0, 0, 0, 0, 1), US("$/gal"), METRIC("$/L"), "$/yd3,$/m3",
                              { "$38/gal", "EUR 9/L", "$160/yd3" }, 2, KIND_BY_DIMENSION },
  [KIND_PRICE_PER_MASS] = { "price per mass", DIM(0, -1, 0, 0, 0, 1), US("$/lb"), METRIC("$/kg"), "",
                            { "$0.80/lb", "EUR 2/kg", "$40/50 lb" }, 2, KIND_BY_DIMENSION },
  [KIND_PRICE_PER_COUNT] = { "price each", DIM(0, 0, 0, 0, 0, 1, -1), SAME("$/each"), "",
                             { "$18/pail", "EUR 240/set", "$3/each" }, 2, KIND_BY_DIMENSION },
  [KIND_COUNT] = { "count", DIM(0, 0, 0, 0, 0, 0, 1), SAME("each"), "", { "2 pails", "3 sets", "12 readings" }, 2,
                   KIND_BY_DIMENSION },
  [KIND_COUNT_PER_AREA] = { "count per area", DIM(-2, 0, 0, 0, 0, 0, 1), US("each/1000 sqft"),
                            METRIC("each/100 m2"), "*", { "1 per 500 sqft", "3 per area", "2 readings/100 m2" }, 2,
                            KIND_BY_DIMENSION },
  [KIND_AREA_PER_COUNT] = { "area per count", DIM(2, 0, 0, 0, 0, 0, -1), US("sqft/each"), METRIC("m2/each"), "",
                            { "9000 sqft/set", "800 m2/set", "2500 sqft/pad" }, 0, KIND_BY_DIMENSION },
  [KIND_VOLUME_PER_COUNT] = { "volume per count", DIM(3, 0, 0, 0, 0, 0, -1), US("gal/each"), METRIC("L/each"), "",
                              { "5 gal/pail", "20 L/pail", "55 gal/drum" }, 1, KIND_BY_DIMENSION },
  [KIND_MASS_PER_COUNT] = { "mass per count", DIM(0, 1, 0, 0, 0, 0, -1), US("lb/each"), METRIC("kg/each"), "",
                            { "50 lb/bag", "25 kg/bag", "10 lb/box" }, 1, KIND_BY_DIMENSION },
  [KIND_LENGTH_PER_COUNT] = { "length per count", DIM(1, 0, 0, 0, 0, 0, -1), US("ft/each"), METRIC("m/each"), "",
                              { "60 ft/cartridge", "30 m/roll", "100 ft/box" }, 1, KIND_BY_DIMENSION },
};

/* Products whose dimension alone does not tell the kind. Multiplication is read both ways round. */
typedef struct {
  Kind left;
  char operator;
  Kind right, result;
} ProductRule;

static const ProductRule product_rules[] = {
  { KIND_VOLUME, '/', KIND_AREA, KIND_FILM },
  { KIND_AREA, '/', KIND_VOLUME, KIND_SPREAD },
  { KIND_AREA, '/', KIND_LENGTH, KIND_LENGTH },
  { KIND_LENGTH, '/', KIND_TIME, KIND_SPEED },
  { KIND_LENGTH, '/', KIND_SPEED, KIND_TIME },
  { KIND_SPEED, '*', KIND_TIME, KIND_LENGTH },
  { KIND_AREA, '/', KIND_PRODUCTION, KIND_TIME },
  { KIND_PRODUCTION, '/', KIND_LENGTH, KIND_SPEED },
  { KIND_PRODUCTION, '/', KIND_SPEED, KIND_LENGTH },
  { KIND_VOLUME, '/', KIND_FLOW, KIND_TIME },
  { KIND_FLOW, '/', KIND_AREA, KIND_SPEED },
  { KIND_ENERGY, '/', KIND_POWER, KIND_TIME },
  { KIND_SPEED, '/', KIND_ACCELERATION, KIND_TIME },
  { KIND_ACCELERATION, '*', KIND_TIME, KIND_SPEED },
  { KIND_FORCE, '*', KIND_LENGTH, KIND_NONE }, /* a torque or work: not told apart by dimension */
  { KIND_COUNT, '*', KIND_LENGTH_PER_COUNT, KIND_LENGTH },
  { KIND_PAY_RATE, '*', KIND_LABOUR, KIND_MONEY },
  { KIND_PAY_RATE, '*', KIND_MACHINE_TIME, KIND_MONEY },
  { KIND_MONEY, '/', KIND_LABOUR, KIND_PAY_RATE },
  { KIND_MONEY, '/', KIND_MACHINE_TIME, KIND_PAY_RATE },
  { KIND_MONEY, '/', KIND_PAY_RATE, KIND_TIME },
  { KIND_MONEY, '/', KIND_PRICE_PER_LENGTH, KIND_LENGTH },
};

/* Spellings that several kinds share: a field of the first kind takes the second if written in one of the units
 * ("*" is any). */
typedef struct {
  Kind field, given;
  const char *units;
} Acceptance;

static const Acceptance acceptances[] = {
  { KIND_FILM, KIND_GRAIN, "um" },
  { KIND_FILM, KIND_LENGTH, "mm" },
  { KIND_GRAIN, KIND_FILM, "mil" },
  { KIND_GRAIN, KIND_LENGTH, "mm" },
  { KIND_FRACTION, KIND_NONE, "*" },
  { KIND_COUNT, KIND_NONE, "*" },
  { KIND_COUNT_PER_AREA, KIND_COUNT, "per area,per pour,per room,per shift" },
  { KIND_CONCENTRATION, KIND_DENSITY, "g/m3" },
};

enum {
  RULES = sizeof product_rules / sizeof *product_rules,
  ACCEPTANCES = sizeof acceptances / sizeof *acceptances
};

const KindRow *kind_row(Kind kind)
{
  assert(kind >= KIND_NONE && kind < KIND_COUNT_LAST);
  return &kinds[kind];
}

const char *kind_name(Kind kind) { return kind_row(kind)->name; }

bool kind_find(const char *name, Kind *out)
{
  for (int k = 0; k < KIND_COUNT_LAST; k++) {
    if (strcmp(kinds[k].name, name) != 0) continue;
    *out = (Kind)k;
    return true;
  }
  return false;
}

const char *kind_example(Kind kind, int which)
{
  assert(which >= 0 && which < 3);
  return kind_row(kind)->example[which];
}

const char *kind_unit(Kind kind, UnitSystem system) { return kind_row(kind)->unit[system][0]; }

bool dimension_equal(Dimension a, Dimension b) { return memcmp(&a, &b, sizeof a) == 0; }

bool dimension_is_plain(Dimension d) { return dimension_equal(d, (Dimension){ { 0 } }); }

bool dimension_combine(Dimension a, Dimension b, int sign, Dimension *out)
{
  for (int i = 0; i < DIM_BASES; i++) {
    int power = a.power[i] + sign * b.power[i];
    if (power < -DIMENSION_MOST || power > DIMENSION_MOST) return false;
    a.power[i] = (int8_t)power;
  }
  *out = a;
  return true;
}

static bool rule_matches(const ProductRule *rule, Kind a, Kind b, char operator)
{
  if (rule->operator != operator) return false;
  if (rule->left == a && rule->right == b) return true;
  return operator == '*' && rule->left == b && rule->right == a;
}

Kind kind_of_product(Kind a, Kind b, bool divide, Dimension result)
{
  for (int i = 0; i < RULES; i++)
    if (rule_matches(&product_rules[i], a, b, divide ? '/' : '*')) return product_rules[i].result;
  if ((kinds[a].flags | kinds[b].flags) & KIND_APART) return KIND_NONE;
  for (int k = 0; k < KIND_COUNT_LAST; k++)
    if ((kinds[k].flags & KIND_BY_DIMENSION) && dimension_equal(kinds[k].dimension, result)) return (Kind)k;
  return KIND_NONE;
}

bool kind_has_word(const char *list, const char *word)
{
  size_t length = strlen(word);
  if (!length) return false;
  for (const char *at = list; (at = strstr(at, word)); at += length) {
    bool starts = at == list || at[-1] == ',', ends = at[length] == ',' || at[length] == '\0';
    if (starts && ends) return true;
  }
  return false;
}

bool kind_accepts(Kind field, Kind given, const char *unit)
{
  if (field == given) return true;
  for (int i = 0; i < ACCEPTANCES; i++) {
    const Acceptance *row = &acceptances[i];
    if (row->field != field || row->given != given) continue;
    if (row->units[0] == '*' || kind_has_word(row->units, unit)) return true;
  }
  return false;
}

static const char *const dimension_names[DIM_BASES] = {
  "length", "mass", "time", "current", "temperature", "money", "count"
};

void dimension_print(Dimension d, Buf *out)
{
  const char *gap = "";
  for (int i = 0; i < DIM_BASES; i++) {
    if (!d.power[i]) continue;
    buf_printf(out, "%s%s", gap, dimension_names[i]);
    if (d.power[i] != 1) buf_printf(out, "^%d", d.power[i]);
    gap = " ";
  }
  if (!*gap) buf_puts(out, "none");
}
