/* test_hire.c - machines that are hired by the calendar or owned, and extras counted by people and readings. */
#include "cost/owning.h"
#include "support.h"
#include "unit/cost/sample.h"

static const CostLine *line_of(const Cost *cost, const char *code)
{
  for (int i = 0; i < cost->line_count; i++)
    if (strcmp(cost->lines[i].code, code) == 0) return &cost->lines[i];
  return NULL;
}

static double count_of(const Cost *cost, const char *code)
{
  const CostLine *line = line_of(cost, code);
  return line ? (double)line->quantity / AMOUNT_SCALE : 0;
}

/* Moves the end of the planetary's last stretch, so that it is on site for so many calendar days. */
static void keep_planetary(Sample *s, int days)
{
  s->stretches[FINE][1] = (Stretch){ .start = (days - 1) * DAY_MIN + CLOCK(7, 0),
                                     .finish = (days - 1) * DAY_MIN + CLOCK(8, 0), .people = &s->people[FINE] };
}

static void hire_is_the_cheapest_mix_of_days_weeks_and_months(void **state)
{
  (void)state;
  static const struct {
    int calendar_days;
    double days, weeks, months; /* at $100, $350 and $900 */
  } cases[] = {
    { 3, 3, 0, 0 }, { 4, 0, 1, 0 },  /* four days cost more than a week */
    { 9, 2, 1, 0 }, { 17, 3, 2, 0 }, /* $1,000 for 17 days; but then $900 for a month: */
    { 20, 0, 0, 1 }, { 36, 1, 1, 1 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Sample *s = sample_new();
    keep_planetary(s, cases[i].calendar_days);
    s->machine_prices[0].per_day = sample_rate(s, "a day", 100, 54);
    s->machine_prices[0].per_week = sample_rate(s, "a week", 350, 54);
    s->machine_prices[0].per_month = sample_rate(s, "a month", cases[i].calendar_days == 17 ? 1001 : 900, 54);
    const Cost *cost = sample_cost(s);
    assert_near(count_of(cost, "DAY-planetary 32 in"), cases[i].days, 0);
    assert_near(count_of(cost, "WEEK-planetary 32 in"), cases[i].weeks, 0);
    assert_near(count_of(cost, "MONTH-planetary 32 in"), cases[i].months, 0);
    sample_free(s);
  }
}

/* 30,000 USD, 15 % salvage, 5 years of 1,200 h, 6 % a year: depreciation 4.25 (confirmed), average value factor
 * 0.66 and capital 0.99 (from memory), by the method of US Army Corps of Engineers EP 1110-1-8. */
static const Owned worked = { 30000, 0.15, 0.06, 6000, 1200 };

static void owning_follows_the_public_method(void **state)
{
  (void)state;
  Owning hour;
  assert_true(owning_hour(&worked, &hour));
  assert_near(hour.depreciation, 4.25, 0.005);
  assert_near(hour.average_value, 0.66, 0.0001);
  assert_near(hour.capital, 0.99, 0.002);
}

static void what_cannot_be_owned_is_refused(void **state)
{
  (void)state;
  static const Owned cases[] = {
    { 0, 0.15, 0.06, 6000, 1200 },     { 30000, 1.01, 0.06, 6000, 1200 }, { 30000, 0.15, -0.01, 6000, 1200 },
    { 30000, 0.15, 0.06, 1199, 1200 }, { 30000, 0.15, 0.06, 6000, 0 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Owning hour = { 1, 2, 3 };
    assert_false(owning_hour(&cases[i], &hour));
    assert_near(hour.depreciation, 1, 0);
  }
}

static void own(Sample *s, double life_h)
{
  s->machine_prices[0].owned = true;
  s->machine_prices[0].own = (OwnedPrice){
    .price = sample_rate(s, "price", 30000, 54), .salvage = sample_percent(s, "salvage", 150000, 54),
    .capital = sample_percent(s, "capital", 60000, 54), .life_h = sample_maybe(s, "life", life_h, "h", 54),
    .year_h = sample_maybe(s, "a year", 1200, "h", 54),
  };
}

static void an_owned_machine_is_charged_for_all_hours_on_the_job(void **state)
{
  (void)state;
  Sample *s = sample_new();
  own(s, 6000);
  const CostLine *line = line_of(sample_cost(s), "OWN-planetary 32 in");
  assert_int_equal(line->rate, DOLLARS(5.24));
  assert_int_equal(line->quantity, DOLLARS(25.5)); /* three days of work, 8.5 h the longest shift */
  assert_int_equal(line->amount, DOLLARS(133.62));
  sample_free(s);
}

static void a_life_shorter_than_a_year_is_a_finding(void **state)
{
  (void)state;
  Sample *s = sample_new();
  own(s, 600);
  assert_false(sample_cost(s)->complete);
  assert_string_equal(diags_get(s->diags, 0)->code, "owned");
  sample_free(s);
}

static void extras_may_be_counted_by_people_and_readings(void **state)
{
  (void)state;
  static const struct {
    ExtraPer per;
    double times, want;
  } cases[] = {
    { PER_PERSON_DAY, 0, 6 },  /* operator 1 three days, operator 2 two, the finisher one */
    { PER_PERSON_DAY, 2, 12 },
    { PER_READING, 0, 15 },    /* 5 at the survey, 10 of the sheen */
    { PER_DAY, 60, 180 },      /* miles a day, say */
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Sample *s = sample_new();
    s->extras[0].per = cases[i].per;
    if (cases[i].times > 0) s->extras[0].times = sample_maybe(s, "times", cases[i].times, "", 57);
    assert_near(count_of(sample_cost(s), "EXTRA-mobilisation"), cases[i].want, 0);
    sample_free(s);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(hire_is_the_cheapest_mix_of_days_weeks_and_months),
    cmocka_unit_test(owning_follows_the_public_method),
    cmocka_unit_test(what_cannot_be_owned_is_refused),
    cmocka_unit_test(an_owned_machine_is_charged_for_all_hours_on_the_job),
    cmocka_unit_test(a_life_shorter_than_a_year_is_a_finding),
    cmocka_unit_test(extras_may_be_counted_by_people_and_readings),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
