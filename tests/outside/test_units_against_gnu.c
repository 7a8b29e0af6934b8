/* Conversions against GNU units (Debian package `units`), one process for all pairs. */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/quantity.h"

enum { GROUP_MOST = 16, PAIRS_LEAST = 300 };

/* Units of one kind: as we write them, and as GNU units does where that differs. */
typedef struct {
  const char *ours, *theirs;
} Name;

static const Name groups[][GROUP_MOST] = {
  { { "m", 0 }, { "km", 0 }, { "cm", 0 }, { "mm", 0 }, { "in", "inch" }, { "ft", 0 }, { "yd", 0 }, { "mi", "mile" },
    { "mil", 0 }, { "um", 0 }, { "nm", 0 }, { "uin", "microinch" } },
  { { "m2", "m^2" }, { "sqft", "ft^2" }, { "in2", "in^2" }, { "yd2", "yd^2" }, { "acre", "4840 yd^2" } },
  { { "m3", "m^3" }, { "L", 0 }, { "mL", 0 }, { "in3", "in^3" }, { "ft3", "ft^3" }, { "yd3", "yd^3" },
    { "usgal", "usgallon" }, { "impgal", "brgallon" }, { "qt", "usquart" }, { "pt", "uspint" },
    { "fl oz", "usfloz" } },
  { { "kg", 0 }, { "g", 0 }, { "mg", 0 }, { "ug", 0 }, { "t", "tonne" }, { "lb", 0 }, { "oz av", "ounce" },
    { "short ton", "shortton" }, { "long ton", "longton" } },
  { { "s", 0 }, { "min", 0 }, { "h", "hour" }, { "d", "day" }, { "week", 0 } },
  { { "ft/min", 0 }, { "m/min", 0 }, { "mph", 0 }, { "km/h", "km/hour" }, { "m/s", 0 }, { "fpm", "ft/min" } },
  { { "cfm", "ft^3/min" }, { "gpm", "usgallon/min" }, { "L/s", 0 }, { "m3/h", "m^3/hour" }, { "L/min", 0 } },
  { { "sqft/gal", "ft^2/usgallon" }, { "m2/L", "m^2/L" }, { "sqft/qt", "ft^2/usquart" },
    { "sqft/impgal", "ft^2/brgallon" } },
  { { "sqft/h", "ft^2/hour" }, { "m2/h", "m^2/hour" }, { "sqft/min", "ft^2/min" } },
  { { "Pa", 0 }, { "hPa", 0 }, { "kPa", 0 }, { "MPa", 0 }, { "bar", 0 }, { "psi", 0 }, { "ksi", 0 },
    { "psf", "lbf/ft^2" } },
  { { "N", 0 }, { "kN", 0 }, { "lbf", 0 } },
  { { "W", 0 }, { "kW", 0 }, { "hp", "550 ft lbf/s" } },
  { { "J", 0 }, { "kJ", 0 }, { "MJ", 0 }, { "Wh", "W hour" }, { "kWh", "kW hour" } },
  { { "lb/ft3", "lb/ft^3" }, { "kg/m3", "kg/m^3" }, { "lb/gal", "lb/usgallon" }, { "kg/L", 0 } },
  { { "lb/ft2/h", "lb/ft^2/hour" }, { "kg/m2/h", "kg/m^2/hour" },
    { "lb/1000 sqft/24 h", "lb/(1000 ft^2)/(24 hour)" },
    { "ug/s/m2", "ug/s/m^2" } },
  { { "m/s2", "m/s^2" }, { "ft/s2", "ft/s^2" }, { "in/s2", "in/s^2" } },
  { { "delta C", "degC" }, { "delta F", "degF" }, { "delta K", "K" } },
  { { "%", "percent" }, { "ppm", "ppm" } },
  { { "V", 0 }, { "mV", 0 }, { "kV", 0 } },
  { { "ohm", 0 }, { "mohm", "milliohm" }, { "kohm", "kiloohm" }, { "Mohm", "megaohm" } },
  { { "A", 0 }, { "mA", 0 } },
};

/* Amounts that take turns, so that not only the factor is tried. */
static const double amounts[] = { 1, 2.5, 0.35, 450, 12000 };

static const char *theirs(const Name *name) { return name->theirs ? name->theirs : name->ours; }

/* Calls `use` with every ordered pair of units of a group; returns how many there are. */
static size_t each_pair(void (*use)(const Name *from, const Name *to, double amount, void *with), void *with)
{
  size_t count = 0;
  for (size_t g = 0; g < COUNT_OF(groups); g++)
    for (int i = 0; i < GROUP_MOST && groups[g][i].ours; i++)
      for (int j = 0; j < GROUP_MOST && groups[g][j].ours; j++)
        if (i != j) use(&groups[g][i], &groups[g][j], amounts[count++ % COUNT_OF(amounts)], with);
  return count;
}

static void ask(const Name *from, const Name *to, double amount, void *command)
{
  buf_printf(command, "%.17g (%s)\n%s\n", amount, theirs(from), theirs(to));
}

static void check(const Name *from, const Name *to, double amount, void *answers)
{
  char line[200], *end;
  assert_non_null(fgets(line, sizeof line, answers));
  double want = strtod(line, &end), got = NAN;
  if (*end != '\n') print_error("units says `%s` of %s to %s\n", line, theirs(from), theirs(to));
  assert_true(*end == '\n');
  Quantity q = quantity_of(amount, from->ours);
  assert_true(q.exact);
  assert_true(quantity_in(&q, to->ours, &got, NULL));
  if (!(fabs(got - want) <= 1e-12 * fabs(want))) print_error("%g %s in %s\n", amount, from->ours, to->ours);
  assert_near(got, want, 1e-12 * fabs(want));
}

static void conversions_agree_with_gnu_units(void **state)
{
  (void)state;
  Buf command = { 0 };
  buf_puts(&command, "units -t -o %.17g <<'END'\n");
  assert_true(each_pair(ask, &command) >= PAIRS_LEAST);
  buf_puts(&command, "END\n");
  FILE *answers = popen(buf_text(&command), "r");
  assert_non_null(answers);
  each_pair(check, answers);
  assert_int_equal(pclose(answers), 0);
  buf_free(&command);
}

static void temperatures_agree_with_gnu_units(void **state)
{
  (void)state;
  const char *command = "printf 'tempC(18)\\ntempF\\ntempF(-4)\\ntempC\\ntempF(70)\\nK\\n' | units -t -o %.17g";
  FILE *answers = popen(command, "r");
  static const struct { const char *text, *unit; } cases[] = { { "18 C", "F" }, { "-4 F", "C" }, { "70 F", "K" } };
  assert_non_null(answers);
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    char line[200];
    double got = NAN;
    Quantity q;
    assert_non_null(fgets(line, sizeof line, answers));
    assert_true(quantity_read(cases[i].text, strlen(cases[i].text), (UnitRules){ 0 }, &q, NULL));
    assert_true(quantity_in(&q, cases[i].unit, &got, NULL));
    assert_near(got, strtod(line, NULL), 1e-12 * fabs(got));
  }
  pclose(answers);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(conversions_agree_with_gnu_units),
    cmocka_unit_test(temperatures_agree_with_gnu_units),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
