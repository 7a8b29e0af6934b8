/* test_trade_2_air.c - worked examples of published sources on climate and on what people breathe, hear and feel.
 * The source of each row stands in data/worked_examples.csv. */
#include "support.h"

#include "examples.h"
#include "trade/carbon_monoxide.h"
#include "trade/climate.h"
#include "trade/customary.h"
#include "trade/dust.h"
#include "trade/limits.h"
#include "trade/noise.h"
#include "trade/solvent.h"
#include "trade/vibration.h"

static char verdict_text[64];

static double c_of_f(double f)
{
  return (f - 32) / 1.8;
}

static double dew_point_c(const char *in)
{
  double dew_c;
  assert_true(climate_dew_point(csv_number(in, "T_air="), csv_number(in, "RH=") / 100, &dew_c, NULL));
  return dew_c;
}

static double dew_point_f(const char *in)
{
  double dew_c;
  assert_true(climate_dew_point(c_of_f(csv_number(in, "T_air=")), csv_number(in, "RH=") / 100, &dew_c, NULL));
  return dew_c * 1.8 + 32;
}

static double saturation_hpa(const char *in)
{
  double pressure_hpa;
  assert_true(climate_saturation_pressure(csv_number(in, "T="), &pressure_hpa, NULL));
  return pressure_hpa;
}

static const char *margin_verdict(const char *in)
{
  SurfaceMargin m;
  assert_true(climate_surface_margin(csv_number(in, "T_air="), csv_number(in, "RH=") / 100,
                                     csv_number(in, "T_surface="), csv_number(in, "rule margin "), &m, NULL));
  snprintf(verdict_text, sizeof verdict_text, "%s (margin %.2f degC)", m.enough ? "pass" : "fail", m.margin_k);
  return verdict_text;
}

static void dew_points_come_out(void **state)
{
  (void)state;
  static const Example examples[] = {
    { "DEW-01", dew_point_c, NULL },    { "DEW-02", dew_point_c, NULL }, { "DEW-03", dew_point_c, NULL },
    { "DEW-05", dew_point_c, NULL },    { "DEW-06", dew_point_c, NULL }, { "DEW-07", dew_point_f, NULL },
    { "DEW-09", dew_point_c, NULL },    { "DEW-10", saturation_hpa, NULL },
    { "DEW-11", NULL, margin_verdict },
  };
  examples_check("DEW-", examples, COUNT_OF(examples));
}

static double rate_of(bool (*form)(double, double, double, double, Evaporation *, TradeError *), const char *in)
{
  Evaporation e;
  assert_true(form(csv_number(in, "T_conc="), csv_number(in, "T_air="), csv_number(in, "RH="),
                   csv_number(in, "wind="), &e, NULL));
  assert_int_equal(e.state, CLIMATE_EVAPORATES);
  return e.rate;
}

static double evaporation_rounded(const char *in)
{
  return rate_of(climate_evaporation_rounded, in);
}

static double evaporation_us(const char *in)
{
  return rate_of(climate_evaporation_us, in);
}

/* "T=70 degF=21.111 degC both; RH=0.5; wind=10 mph=16.0934 km/h" */
static double evaporation_exact(const char *in)
{
  Evaporation e;
  double both_c = csv_number(in, "degF=");
  assert_true(climate_evaporation(both_c, both_c, csv_number(in, "RH="), csv_number(in, "mph="), &e, NULL));
  return e.rate;
}

static double caution_rate(const char *in)
{
  const Limit *limit;
  assert_near(strtod(in, NULL), 0.2, 0); /* lb/ft2/h in the row */
  assert_true(limit_find("evaporation.caution", &limit, NULL));
  return limit->high;
}

static void evaporation_rates_come_out(void **state)
{
  (void)state;
  static const Example examples[] = {
    { "EVP-01", evaporation_rounded, NULL }, { "EVP-02", evaporation_rounded, NULL },
    { "EVP-03", evaporation_rounded, NULL }, { "EVP-05", evaporation_us, NULL },
    { "EVP-06", evaporation_us, NULL },      { "EVP-07", evaporation_us, NULL },
    { "EVP-09", evaporation_us, NULL },      { "EVP-10", evaporation_us, NULL },
    { "EVP-11", evaporation_us, NULL },      { "EVP-13", evaporation_us, NULL },
    { "EVP-14", evaporation_us, NULL },      { "EVP-15", evaporation_us, NULL },
    { "EVP-17", evaporation_us, NULL },      { "EVP-18", evaporation_exact, NULL },
    { "EVP-19", caution_rate, NULL },
  };
  examples_check("EVP-", examples, COUNT_OF(examples));
}

/* Reads "LEVEL<between>HOURS" (or the other way round) once for each part between semicolons. A level may have a
 * name before it: "a1=5 m/s2 for 1 h". */
static int read_tasks(const char *in, const char *between, bool hours_first, Exposure *tasks, int room)
{
  int count = 0;
  for (const char *part = in; part && count < room; part = strchr(part, ';')) {
    const char *name_end = hours_first ? NULL : strchr(part, '=');
    double first = strtod(name_end ? name_end + 1 : part + strspn(part, "; "), NULL);
    double second = csv_number(part, between);
    tasks[count++] = hours_first ? (Exposure){ second, first } : (Exposure){ first, second };
    part += *part == ';';
  }
  return count;
}

static const NoiseCriterion *criterion_of(const char *id)
{
  const NoiseCriterion *criterion;
  assert_true(noise_criterion(id, &criterion, NULL));
  return criterion;
}

static double osha_hours(const char *in)
{
  double allowed_h;
  assert_true(noise_allowed_hours(criterion_of("osha hearing"), csv_number(in, "L="), &allowed_h, NULL));
  return allowed_h;
}

static double niosh_minutes(const char *in)
{
  double allowed_h;
  assert_true(noise_allowed_hours(criterion_of("niosh"), csv_number(in, "L="), &allowed_h, NULL));
  return allowed_h * 60;
}

static double dose_of(const Exposure *tasks, int count)
{
  NoiseDose dose;
  assert_true(noise_dose(criterion_of("osha hearing"), tasks, count, &dose, NULL));
  return dose.dose_percent;
}

/* "4 h at 90 dBA; 2 h at 95 dBA" */
static double osha_dose(const char *in)
{
  Exposure tasks[8];
  return dose_of(tasks, read_tasks(in, " h at ", true, tasks, 8));
}

/* "110 dBA 0.25 h (T 0.5); 100 dBA 0.5 h (T 2)" */
static double osha_factor(const char *in)
{
  Exposure tasks[8];
  return dose_of(tasks, read_tasks(in, " dBA ", false, tasks, 8)) / 100;
}

static double osha_average(const char *in)
{
  double average_dba;
  assert_true(noise_average(criterion_of("osha hearing"), csv_number(in, "D="), &average_dba, NULL));
  return average_dba;
}

static void noise_doses_come_out(void **state)
{
  (void)state;
  static const Example examples[] = {
    { "NOI-01", osha_hours, NULL },    { "NOI-02", osha_hours, NULL },    { "NOI-03", osha_hours, NULL },
    { "NOI-05", osha_hours, NULL },    { "NOI-06", osha_hours, NULL },    { "NOI-07", osha_hours, NULL },
    { "NOI-09", osha_hours, NULL },    { "NOI-10", osha_dose, NULL },     { "NOI-11", osha_dose, NULL },
    { "NOI-13", osha_average, NULL },  { "NOI-14", osha_factor, NULL },   { "NOI-15", niosh_minutes, NULL },
    { "NOI-17", niosh_minutes, NULL }, { "NOI-18", niosh_minutes, NULL }, { "NOI-19", niosh_minutes, NULL },
  };
  examples_check("NOI-", examples, COUNT_OF(examples));
}

static double daily_vibration(const char *in)
{
  double a8;
  assert_true(vibration_daily(&(Exposure){ csv_number(in, "a="), csv_number(in, "T=") }, 1, &a8, NULL));
  return a8;
}

static double combined_vibration(const char *in)
{
  Exposure tools[4];
  double a8;
  assert_true(vibration_daily(tools, read_tasks(in, " for ", false, tools, 4), &a8, NULL));
  return a8;
}

static double vibration_score(const char *in)
{
  double points;
  assert_true(vibration_points(&(Exposure){ csv_number(in, "a="), csv_number(in, "T=") }, 1, &points, NULL));
  return points;
}

static double minutes_to(const char *in, const char *name, const char *limit_id)
{
  const Limit *limit;
  double hours;
  assert_true(limit_find(limit_id, &limit, NULL));
  assert_near(limit->high, csv_number(in, name), 0); /* the row and our table name one limit */
  assert_true(vibration_hours_to(csv_number(in, "a="), limit->high, &hours, NULL));
  return hours * 60;
}

static double minutes_to_action(const char *in)
{
  return minutes_to(in, "EAV=", "hand_arm.action");
}

static double minutes_to_limit(const char *in)
{
  return minutes_to(in, "ELV=", "hand_arm.limit");
}

static void vibration_comes_out(void **state)
{
  (void)state;
  static const Example examples[] = {
    { "HAV-01", daily_vibration, NULL }, { "HAV-02", daily_vibration, NULL },
    { "HAV-03", daily_vibration, NULL }, { "HAV-05", daily_vibration, NULL },
    { "HAV-06", combined_vibration, NULL }, { "HAV-07", vibration_score, NULL },
    { "HAV-09", vibration_score, NULL }, { "HAV-10", minutes_to_action, NULL },
    { "HAV-11", minutes_to_limit, NULL },
  };
  examples_check("HAV-", examples, COUNT_OF(examples));
}

static double shroud_cfm(double wheel_in)
{
  double airflow_l_s;
  assert_true(dust_shroud_airflow(wheel_in * INCH_MM, &airflow_l_s, NULL));
  return airflow_l_s / CFM_L_S;
}

static double shroud_airflow(const char *in)
{
  return shroud_cfm(csv_number(in, "wheel diameter "));
}

static const char *shroud_verdict(const char *in)
{
  double needed_cfm = shroud_cfm(strtod(in, NULL)), got_cfm = csv_number(in, "delivers ");
  snprintf(verdict_text, sizeof verdict_text, "%s (%.0f needed)", got_cfm < needed_cfm - 1e-9 ? "fail" : "pass",
           needed_cfm);
  return verdict_text;
}

static double average_of(const char *in)
{
  Exposure tasks[8];
  double average;
  assert_true(exposure_average(tasks, read_tasks(in, " for ", false, tasks, 8), &average, NULL));
  return average;
}

static const char *respirator(const char *equipment, unsigned controls, const char *in)
{
  DustTask task = { equipment, "collector", DUST_INDOORS, csv_number(in, "indoors; "), controls };
  DustVerdict v;
  assert_true(dust_check(&task, &v, NULL));
  assert_int_equal(v.finding, DUST_ROW_FOLLOWED);
  snprintf(verdict_text, sizeof verdict_text, "%d", v.respirator.apf);
  return v.respirator.apf ? verdict_text : "none";
}

static const char *respirator_at_floor_grinder(const char *in)
{
  assert_non_null(strstr(in, "HEPA vacuum of loose dust"));
  return respirator("floor grinder",
                    DUST_COLLECTOR | DUST_FILTER_99 | DUST_FILTER_CLEANING | DUST_HEPA_BETWEEN_PASSES, in);
}

static const char *respirator_at_hand_grinder(const char *in)
{
  return respirator("handheld grinder",
                    DUST_COLLECTOR | DUST_AIRFLOW_25_CFM_IN | DUST_FILTER_99 | DUST_FILTER_CLEANING, in);
}

static void silica_rows_come_out(void **state)
{
  (void)state;
  static const Example examples[] = {
    { "SIL-02", shroud_airflow, NULL },
    { "SIL-03", shroud_airflow, NULL },
    { "SIL-04", average_of, NULL },
    { "SIL-06", NULL, respirator_at_floor_grinder },
    { "SIL-07", NULL, respirator_at_hand_grinder },
    { "SIL-08", NULL, respirator_at_hand_grinder },
    { "SIL-10", NULL, shroud_verdict },
  };
  examples_check("SIL-", examples, COUNT_OF(examples));
}

static double dilution_cuft(const char *in)
{
  const Solvent *acetone;
  double air_m3;
  assert_true(solvent_find("acetone", &acetone, NULL));
  assert_near(acetone->lel, csv_number(in, "LEL ") / 100, 1e-12);
  assert_true(solvent_dilution_air(acetone, strtod(in, NULL) * GALLON_L, 25, 0.25, &air_m3, NULL));
  return air_m3 * 1000 / CUFT_L;
}

static const char *ceiling_verdict(const char *in)
{
  const Limit *ceiling;
  CarbonMonoxideVerdict v;
  assert_true(limit_find("co.ceiling.niosh", &ceiling, NULL));
  assert_true(carbon_monoxide_check(&(Exposure){ 0, 8 }, 1, csv_number(in, "peak reading "), &v, NULL));
  snprintf(verdict_text, sizeof verdict_text, "%s ceiling %g", v.over_ceiling ? "exceeds" : "keeps to",
           ceiling->high);
  return verdict_text;
}

static void solvent_and_carbon_monoxide_come_out(void **state)
{
  (void)state;
  static const Example solvent[] = { { "SOL-02", dilution_cuft, NULL } };
  static const Example carbon_monoxide[] = { { "CO-01", average_of, NULL }, { "CO-02", NULL, ceiling_verdict } };
  examples_check("SOL-", solvent, COUNT_OF(solvent));
  examples_check("CO-", carbon_monoxide, COUNT_OF(carbon_monoxide));
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(dew_points_come_out),
    cmocka_unit_test(evaporation_rates_come_out),
    cmocka_unit_test(noise_doses_come_out),
    cmocka_unit_test(vibration_comes_out),
    cmocka_unit_test(silica_rows_come_out),
    cmocka_unit_test(solvent_and_carbon_monoxide_come_out),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
