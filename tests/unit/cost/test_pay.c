/* test_pay.c - what a price book can say about paying people: least time, weeks, and what burden is made of. */
#include "support.h"
#include "unit/cost/sample.h"

static const CostLine *line_of(const Cost *cost, const char *code)
{
  for (int i = 0; i < cost->line_count; i++)
    if (strcmp(cost->lines[i].code, code) == 0) return &cost->lines[i];
  return NULL;
}

static void a_short_shift_is_paid_as_long_as_the_least_time(void **state)
{
  (void)state;
  static const struct {
    double least_min;
    double operators_min, finisher_min; /* beyond first to last work */
  } cases[] = {
    { 0, 0, 0 },
    { 60, 20, 0 },    /* operator 2 is there for 40 min on Tuesday */
    { 240, 360, 20 }, /* and operator 1 for 80 min on Wednesday; the finisher for 220 */
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Sample *s = sample_new();
    s->prices.call_out_min = sample_maybe(s, "call-out", cases[i].least_min, "min", 43);
    const Takeoff *t = takeoff_count(&s->plan, s->arena, s->why);
    assert_near(t->labour[OPERATOR].call_out_h.value * 60, cases[i].operators_min, 1e-9);
    assert_near(t->labour[FINISHER].call_out_h.value * 60, cases[i].finisher_min, 1e-9);
    sample_free(s);
  }
}

static void least_time_is_a_line_of_its_own(void **state)
{
  (void)state;
  Sample *s = sample_new();
  assert_null(line_of(sample_cost(s), "CALL-operator"));
  s->prices.call_out_min = sample_maybe(s, "call-out", 240, "min", 43);
  assert_int_equal(line_of(sample_cost(s), "CALL-operator")->amount, DOLLARS(372)); /* 6 h at $62 */
  sample_free(s);
}

static void an_hour_past_both_limits_counts_once(void **state)
{
  (void)state;
  static const struct {
    double day_min, week_min, want_min; /* operator 1: 510, 465 and 80 min in one week; operator 2: 300 and 40 */
  } cases[] = {
    { 480, 10080, 30 },
    { 1440, 900, 155 },     /* 1055 in the week */
    { 480, 900, 30 + 125 }, /* 480 + 465 + 80 plain */
    { 480, 320, 30 + 705 + 20 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Sample *s = sample_new();
    s->prices.overtime_after_min.figure.value = cases[i].day_min;
    s->prices.overtime_week_min = sample_maybe(s, "weekly", cases[i].week_min, "min", 43);
    const Takeoff *t = takeoff_count(&s->plan, s->arena, s->why);
    assert_near(t->labour[OPERATOR].overtime_h.value * 60, cases[i].want_min, 1e-9);
    sample_free(s);
  }
}

static void a_week_begins_on_monday(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->prices.overtime_after_min.given = false;
  s->prices.overtime_week_min = sample_maybe(s, "weekly", 900, "min", 43);
  s->job.start_day--; /* the work begins on a Sunday: 510 minutes of it are another week's */
  const Takeoff *t = takeoff_count(&s->plan, s->arena, s->why);
  assert_near(t->labour[OPERATOR].overtime_h.value, 0, 0);
  sample_free(s);
}

/* Fifty hours at 25 USD, 1.5 times past 40: 1375 USD (29 USC 207(a)(1), from memory). The employer's social
 * taxes on it are 6.2 % and 1.45 % (federal rates, confirmed on public payroll pages): 105.19 USD. */
static void a_week_of_fifty_hours_costs_what_the_law_says(void **state)
{
  (void)state;
  Sample *s = sample_new();
  BurdenPart parts[] = { { "social security", { 0 }, sample_percent(s, "social security", 62000, 41) },
                         { "medicare", { 0 }, sample_percent(s, "medicare", 14500, 41) } };
  for (int i = 0; i < ACTIVITIES; i++) s->bookings[i].stretch_count = 0;
  Stretch week[5];
  for (int day = 0; day < 5; day++)
    week[day] = (Stretch){ .start = day * DAY_MIN + CLOCK(7, 0), .finish = day * DAY_MIN + CLOCK(17, 0),
                           .people = &s->people[OPEN] };
  s->bookings[OPEN].stretches = week;
  s->bookings[OPEN].stretch_count = 5;
  s->labour[0].per_hour = sample_rate(s, "an hour", 25, 48);
  s->prices.overtime_after_min.given = false;
  s->prices.overtime_week_min = sample_maybe(s, "weekly", 2400, "min", 43);
  s->prices.burden = (Percent){ .given = true, .ppm = 76500 };
  s->prices.burden_parts = parts;
  s->prices.burden_part_count = 2;
  const Cost *cost = sample_cost(s);
  assert_int_equal(cost->kind_total[LINE_LABOUR] + cost->kind_total[LINE_PREMIUM], DOLLARS(1375));
  assert_int_equal(cost->kind_total[LINE_BURDEN], DOLLARS(105.19)); /* 85.25 and 19.9375 */
  sample_free(s);
}

/* 6.2 + 1.45 + 0.6 + 2.5 + 2.75 % make 13.5 %: a sum printed on a public payroll agent's page, confirmed. */
static void burden_may_be_said_in_parts_that_add_up(void **state)
{
  (void)state;
  static const int64_t ppm[] = { 62000, 14500, 6000, 25000, 27500 };
  Sample *s = sample_new();
  BurdenPart parts[COUNT_OF(ppm)];
  Money whole = line_of(sample_cost(s), "BURDEN")->amount, sum = 0;
  for (size_t i = 0; i < COUNT_OF(ppm); i++)
    parts[i] = (BurdenPart){ arena_printf(s->arena, "part %zu", i), { 0 }, sample_percent(s, "part", ppm[i], 41) };
  s->prices.burden_parts = parts;
  s->prices.burden_part_count = COUNT_OF(parts);
  const Cost *cost = sample_cost(s);
  assert_null(line_of(cost, "BURDEN"));
  for (size_t i = 0; i < COUNT_OF(ppm); i++)
    sum += line_of(cost, arena_printf(s->arena, "BURDEN-part %zu", i))->amount;
  assert_in_range(sum, whole - 3 * MONEY_CENT, whole + 3 * MONEY_CENT); /* each part is rounded to the cent */
  assert_int_equal(sum, cost->kind_total[LINE_BURDEN]);
  sample_free(s);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_short_shift_is_paid_as_long_as_the_least_time),
    cmocka_unit_test(least_time_is_a_line_of_its_own),
    cmocka_unit_test(an_hour_past_both_limits_counts_once),
    cmocka_unit_test(a_week_begins_on_monday),
    cmocka_unit_test(a_week_of_fifty_hours_costs_what_the_law_says),
    cmocka_unit_test(burden_may_be_said_in_parts_that_add_up),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
