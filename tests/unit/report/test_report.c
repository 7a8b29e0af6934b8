/* test_report.c - the reports as people read them. Whole texts of the sample are in golden/. */
#include "support.h"

#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "report/report.h"
#include "unit/cost/sample.h"

/* ---- writing each report of a sample */

typedef void (*Writer)(Sample *s, int width, Buf *out);

static void write_sheet(Sample *s, int width, Buf *out) { report_sheet_text(&s->plan, width, out); }
static void write_schedule(Sample *s, int width, Buf *out) { report_schedule_text(&s->plan, width, out); }
static void write_bars(Sample *s, int width, Buf *out) { report_bars_text(&s->plan, width, false, out); }
static void write_bars_utf8(Sample *s, int width, Buf *out) { report_bars_text(&s->plan, width, true, out); }
static void write_cost(Sample *s, int width, Buf *out) { report_cost_text(&s->plan, sample_cost(s), width, out); }
static void write_assumed(Sample *s, int width, Buf *out)
{
  report_assumptions_text(&s->plan, sample_cost(s), s->why, s->sources, width, out);
}
static void write_why(Sample *s, int width, Buf *out)
{
  report_why_text(s->why, s->sources, UNITS_US, sample_cost(s)->why, width, out);
}

static void write_risk(Sample *s, int width, Buf *out)
{
  sample_uncertain(s, 1000);
  s->job.finish_by = (Maybe){ true, { 2 * DAY_MIN + 10 * 60, 0 }, { 0 } };
  s->job.risk.production = sample_estimate(s, "production", 0.8, 1, 1.1);
  s->job.risk.areas = sample_estimate(s, "areas", 0.9, 1, 1.2);
  s->job.risk.rework = sample_estimate(s, "rework", 0.1, 0.1, 0.1);
  sample_estimate(s, "an estimate of nothing", 1, 2, 3);
  report_risk_text(&s->plan, sample_risk(s, 1), width, out);
}

static const struct {
  const char *name;
  Writer write;
} reports[] = {
  { "sheet", write_sheet },         { "schedule", write_schedule }, { "bars", write_bars },
  { "bars_utf8", write_bars_utf8 }, { "cost", write_cost },         { "assumed", write_assumed },
  { "why", write_why },             { "risk", write_risk },
};

static Buf written(Sample *s, Writer write)
{
  Buf out = { 0 };
  write(s, REPORT_WIDTH, &out);
  return out;
}

#define assert_says(s, write, text) says_check(s, write, text, true, __FILE__, __LINE__)
#define assert_silent(s, write, text) says_check(s, write, text, false, __FILE__, __LINE__)

static void says_check(Sample *s, Writer write, const char *text, bool wanted, const char *file, int line)
{
  Buf out = written(s, write);
  bool found = strstr(buf_text(&out), text) != NULL;
  if (found != wanted) print_error("%s `%s` in:\n%s", wanted ? "want" : "do not want", text, buf_text(&out));
  buf_free(&out);
  if (found != wanted) _fail(file, line);
}

/* ---- whole texts */

static Buf golden(const char *name)
{
  char path[100], bytes[4096];
  Buf text = { 0 };
  snprintf(path, sizeof path, "tests/unit/report/golden/%s.txt", name);
  FILE *file = fopen(path, "rb");
  assert_non_null(file);
  for (size_t got; (got = fread(bytes, 1, sizeof bytes, file)) > 0;) buf_add(&text, bytes, got);
  fclose(file);
  return text;
}

static void the_sample_reads_as_it_did(void **state)
{
  (void)state;
  for (size_t i = 0; i < COUNT_OF(reports); i++) {
    Sample *s = sample_new();
    Buf got = written(s, reports[i].write), want = golden(reports[i].name);
    assert_string_equal(buf_text(&got), buf_text(&want));
    buf_free(&got);
    buf_free(&want);
    sample_free(s);
  }
}

/* ---- what holds for all of them */

static void name_everything(Sample *s, const char *name)
{
  s->job.name = s->prices.name = name;
  for (int i = 0; i < 2; i++) {
    s->areas[i].name = s->recipes[i].name = s->crews[i].name = s->labour[i].name = name;
    s->materials[i].name = name;
  }
  for (int i = 0; i < 3; i++) s->machines[i].name = s->machine_prices[i].name = s->persons[i].name = name;
  for (int i = 0; i < (int)COUNT_OF(s->shop); i++) s->shop[i].name = s->shop[i].care = s->shop[i].says = name;
  s->shop[3].with = s->office[1].with = s->shop[1].bond = s->tools[0].name = name;
}

static int widest_line(const char *text);

static void a_very_large_price_is_not_cut_and_widens_no_line(void **state)
{
  (void)state;
  static const int widths[] = { 40, 60, 80, 120 };
  for (size_t i = 0; i < COUNT_OF(widths); i++) {
    Sample *s = sample_new();
    s->labour[0].per_hour = sample_rate(s, "operator, an hour", 62000000, 48);
    Buf out = { 0 };
    const Cost *cost = sample_cost(s);
    report_cost_text(&s->plan, cost, widths[i], &out);
    assert_true(widest_line(buf_text(&out)) <= widths[i]);
    for (int k = 0; k < cost->line_count; k++) {
      Buf amount = { 0 };
      money_print(cost->lines[k].amount, cost->currency, &amount);
      assert_non_null(strstr(buf_text(&out), buf_text(&amount)));
      buf_free(&amount);
    }
    assert_non_null(strstr(buf_text(&out), "$1,441,500,000.00"));
    buf_free(&out);
    sample_free(s);
  }
}

static int widest_line(const char *text)
{
  int widest = 0;
  for (const char *line = text; *line; line += strcspn(line, "\n") + 1) {
    int width = text_width(line, strcspn(line, "\n"));
    if (width > widest) widest = width;
  }
  return widest;
}

static void no_line_is_wider_than_asked_for(void **state)
{
  (void)state;
  static const int widths[] = { 40, 60, 80, 132 };
  static const char *const names[] = { NULL, "a name that somebody made far too long for any table to hold whole" };
  for (size_t w = 0; w < COUNT_OF(widths); w++)
    for (size_t n = 0; n < COUNT_OF(names); n++)
      for (size_t i = 0; i < COUNT_OF(reports); i++) {
        Sample *s = sample_new();
        Buf out = { 0 };
        if (names[n]) name_everything(s, names[n]);
        reports[i].write(s, widths[w], &out);
        int widest = widest_line(buf_text(&out));
        if (widest > widths[w]) print_error("%s at %d:\n%s", reports[i].name, widths[w], buf_text(&out));
        assert_true(widest <= widths[w]);
        buf_free(&out);
        sample_free(s);
      }
}

static void what_a_script_wrote_cannot_reach_the_terminal_raw(void **state)
{
  (void)state;
  for (size_t i = 0; i < COUNT_OF(reports); i++) {
    Sample *s = sample_new();
    name_everything(s, "a\x1b]0;b\nZc\xC2\x9B\xE2\x80\xAE\xFF");
    Buf out = written(s, reports[i].write);
    assert_true(text_is_utf8(buf_text(&out), out.length));
    assert_null(strstr(buf_text(&out), "\nZ"));
    assert_null(strstr(buf_text(&out), "\xC2\x9B"));
    assert_null(strstr(buf_text(&out), "\xE2\x80\xAE"));
    for (size_t k = 0; k < out.length; k++) assert_true((unsigned char)out.text[k] >= ' ' || out.text[k] == '\n');
    buf_free(&out);
    sample_free(s);
  }
}

static void ascii_is_all_that_the_plain_bars_need(void **state)
{
  (void)state;
  Sample *s = sample_new();
  Buf out = written(s, write_bars);
  for (size_t i = 0; i < out.length; i++) assert_true((unsigned char)out.text[i] < 0x80);
  buf_free(&out);
  sample_free(s);
}

static void figures_follow_the_units_of_the_job(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->job.metric = true;
  assert_says(s, write_sheet, "432 m2");
  assert_says(s, write_sheet, "76.2 mm");
  assert_says(s, write_cost, "35.2 L -> 2 x 5 gal; 2.65 L left");
  assert_silent(s, write_sheet, "sqft");
  sample_free(s);
}

/* ---- sheet */

static void cautions_follow_the_steps_and_promise_nothing(void **state)
{
  (void)state;
  static const struct {
    StepWord word;
    const char *caution;
  } cases[] = {
    { STEP_GRIND, "Silica dust" },  { STEP_POLISH, "Silica dust" }, { STEP_DENSIFY, "Alkaline densifier" },
    { STEP_DYE, "Dye or stain" },   { STEP_STAIN, "Dye or stain" }, { STEP_BURNISH, "carbon monoxide" },
    { STEP_COLLECT, "Wet floor" },  { STEP_GUARD, "Guard, grout and filler" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Sample *s = sample_new();
    Step step = { .word = cases[i].word, .name = "only" };
    s->recipes[SHOP].steps = s->recipes[OFFICE].steps = &step;
    s->recipes[SHOP].step_count = s->recipes[OFFICE].step_count = 1;
    assert_says(s, write_sheet, cases[i].caution);
    assert_says(s, write_sheet, "Product data sheets");
    assert_silent(s, write_sheet, "safe");
    for (size_t k = 0; k < COUNT_OF(cases); k++)
      if (strcmp(cases[k].caution, cases[i].caution) != 0) assert_silent(s, write_sheet, cases[k].caution);
    sample_free(s);
  }
}

static void a_check_has_a_blank_for_every_reading(void **state)
{
  (void)state;
  static const struct {
    double readings;
    int blanks;
    const char *rest; /* NULL: none */
  } cases[] = {
    { 1, 1, NULL }, { 9, 9, NULL }, { 10, 10, NULL }, { 30, 30, NULL }, { 42, 30, "and 12 more on a sheet" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Sample *s = sample_new();
    s->activities[SURVEY].readings.value = cases[i].readings;
    s->shop[0].hold = s->shop[5].hold = false;
    s->shop[5].word = STEP_NOTE;
    Buf out = written(s, write_sheet);
    int blanks = 0;
    for (const char *at = buf_text(&out); (at = strstr(at, "______")); at += 6) blanks++;
    assert_int_equal(blanks, cases[i].blanks);
    if (cases[i].rest) assert_non_null(strstr(buf_text(&out), cases[i].rest));
    buf_free(&out);
    sample_free(s);
  }
}

static void only_a_hold_asks_for_a_signature(void **state)
{
  (void)state;
  Sample *s = sample_new();
  assert_says(s, write_sheet, "HOLD: stop here until signed");
  s->shop[0].hold = s->shop[5].hold = false;
  assert_silent(s, write_sheet, "HOLD");
  sample_free(s);
}

static void a_sheet_without_a_schedule_has_no_clock(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->plan.bookings = NULL;
  assert_silent(s, write_sheet, "clock:");
  assert_says(s, write_sheet, "[ ]  2 hone     open");
  sample_free(s);
}

static void what_the_step_leaves_to_the_machine_is_the_machines(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->shop[4].overlap_m = s->shop[4].travel_m_per_min = (Figure){ 0, 0 };
  s->machines[PLANETARY].overlap_m = sample_maybe(s, "overlap", 0.1016, "m", 10);
  s->machines[PLANETARY].travel_m_per_min = sample_maybe(s, "travel", 4.572, "m/min", 10);
  assert_says(s, write_sheet, "5 polish   fine           resin 400        wet 2      4 in    15 ft/min");
  sample_free(s);
}

static void a_hand_over_does_not_end_a_span_of_work(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->stretches[FINE][0].finish = s->stretches[FINE][1].start = TUE + CLOCK(12, 0);
  s->stretches[FINE][1].finish = TUE + CLOCK(15, 0);
  assert_says(s, write_sheet, "clock: Tue 1 Dec 10:00-15:00\n");
  sample_free(s);
}

static void the_sheet_names_people_once_they_are_booked_and_skills_before(void **state)
{
  (void)state;
  Sample *s = sample_new();
  assert_says(s, write_sheet, "crew: operator 1; edges operator 2\n");
  assert_silent(s, write_sheet, "skill");
  s->plan.bookings = NULL;
  s->shop[0].skill = "any"; /* asks for nothing */
  assert_says(s, write_sheet, "crew: with the skill \"guard\"\n");
  assert_silent(s, write_sheet, "\"any\"");
  sample_free(s);
}

/* ---- schedule */

static void a_schedule_says_how_far_from_best_it_can_be(void **state)
{
  (void)state;
  static const struct {
    PlanStatus status;
    int lower_bound;
    const char *want;
  } cases[] = {
    { PLAN_FEASIBLE, WED + CLOCK(7, 40), "at most 2 % from best" },          /* 40 of 2920 min */
    { PLAN_FEASIBLE, CLOCK(7, 0) + 1480, "at most 100 % from best" },
    { PLAN_FEASIBLE, WED + CLOCK(8, 20), "proved best" },                    /* it meets the bound */
    { PLAN_PROVED_BEST, WED + CLOCK(7, 40), "proved best" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Sample *s = sample_new();
    s->plan.status = cases[i].status;
    s->plan.lower_bound = cases[i].lower_bound;
    assert_says(s, write_schedule, cases[i].want);
    sample_free(s);
  }
}

static void a_deadline_is_met_or_missed_by_so_much(void **state)
{
  (void)state;
  Sample *s = sample_new();
  assert_says(s, write_schedule, "met with 3 h 40 min to spare");
  s->job.finish_by.figure.value = TUE + CLOCK(8, 20);
  assert_says(s, write_schedule, "missed by 1 d");
  s->job.finish_by.given = false;
  assert_silent(s, write_schedule, "wanted by");
  s->areas[0].finish_by = (Maybe){ true, { MON + CLOCK(7, 1), 0 }, { 0 } };
  Buf wanted = { 0 };
  buf_printf(&wanted, "for %s, missed by", s->areas[0].name);
  assert_says(s, write_schedule, buf_text(&wanted));
  buf_free(&wanted);
  sample_free(s);
}

static void without_a_schedule_the_reports_say_so(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->plan.bookings = NULL;
  s->plan.status = PLAN_UNKNOWN;
  assert_says(s, write_schedule, "no schedule found");
  assert_says(s, write_bars, "no schedule to draw");
  s->plan.status = PLAN_INFEASIBLE;
  assert_says(s, write_schedule, "no schedule: this work cannot be done");
  sample_free(s);
}

static void one_of_several_machines_is_told_by_its_number(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->machines[EDGER].count = 2;
  s->stretches[OPEN_EDGES][0].unit = 1;
  assert_says(s, write_schedule, "operator 2; edger no. 2");
  sample_free(s);
}

/* ---- bars */

static void bars_fit_jobs_of_any_length(void **state)
{
  (void)state;
  static const struct {
    int finish;
    const char *scale;
  } cases[] = {
    { WED, "each mark is 1 h" },          { 4 * DAY_MIN, "each mark is 1 h 30 min" },
    { 60 * DAY_MIN, "each mark is 2 d" }, { 400 * DAY_MIN, "each mark is 7 d" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Sample *s = sample_new();
    s->stretches[DRY][0].finish = cases[i].finish;
    Buf out = written(s, write_bars);
    assert_true(widest_line(buf_text(&out)) <= REPORT_WIDTH);
    assert_non_null(strstr(buf_text(&out), cases[i].scale));
    buf_free(&out);
    sample_free(s);
  }
}

static void bars_leave_out_time_in_which_nothing_happens(void **state)
{
  (void)state;
  Sample *s = sample_new();
  for (int i = 0; i < ACTIVITIES; i++) s->bookings[i].stretch_count = 0;
  s->bookings[SURVEY].stretch_count = 1; /* 07:00-07:20 on Monday */
  s->bookings[SHEEN].stretch_count = 1;  /* 08:00-08:20 on Wednesday */
  assert_says(s, write_bars, "  check survey        ????|\n");
  assert_says(s, write_bars, "  check sheen             |????\n");
  sample_free(s);
}

static void a_minute_of_work_still_has_a_mark(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->stretches[SURVEY][0].finish = CLOCK(7, 1);
  assert_says(s, write_bars, "check survey        ?");
  sample_free(s);
}

/* ---- cost */

static void a_cost_with_something_unpriced_is_not_called_a_price(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->tools[0].name = "resin 110";
  assert_says(s, write_cost, "SO FAR, NOT A PRICE");
  assert_silent(s, write_cost, "\nPRICE ");
  sample_free(s);
}

static void profit_is_said_with_its_rule(void **state)
{
  (void)state;
  static const struct {
    ProfitRule rule;
    const char *top, *row;
  } cases[] = {
    { PROFIT_MARGIN, "20 % margin, a share of the price", "profit, 20 % margin " },
    { PROFIT_MARKUP, "20 % markup, a share of the cost", "profit, 20 % markup " },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Sample *s = sample_new();
    s->prices.profit_rule = cases[i].rule;
    assert_says(s, write_cost, cases[i].top);
    assert_says(s, write_cost, cases[i].row);
    sample_free(s);
  }
  Sample *s = sample_new();
  s->prices.profit.given = false;
  assert_says(s, write_cost, "no profit is added");
  sample_free(s);
}

static void standing_time_is_said_on_top(void **state)
{
  (void)state;
  Sample *s = sample_new();
  assert_says(s, write_cost, "as booked; 0.92 h of standing between them are not charged");
  s->prices.standing = sample_percent(s, "standing", 500000, 43);
  assert_says(s, write_cost, "as booked; 0.92 h of standing between them are charged at 50 %");
  sample_free(s);
}

static void an_unscheduled_cost_says_that_its_hours_are_not_booked(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->plan.bookings = NULL;
  assert_says(s, write_cost, "not scheduled: no premium hours, days assumed");
  sample_free(s);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_very_large_price_is_not_cut_and_widens_no_line),
    cmocka_unit_test(the_sample_reads_as_it_did),
    cmocka_unit_test(no_line_is_wider_than_asked_for),
    cmocka_unit_test(what_a_script_wrote_cannot_reach_the_terminal_raw),
    cmocka_unit_test(ascii_is_all_that_the_plain_bars_need),
    cmocka_unit_test(figures_follow_the_units_of_the_job),
    cmocka_unit_test(cautions_follow_the_steps_and_promise_nothing),
    cmocka_unit_test(a_check_has_a_blank_for_every_reading),
    cmocka_unit_test(only_a_hold_asks_for_a_signature),
    cmocka_unit_test(a_sheet_without_a_schedule_has_no_clock),
    cmocka_unit_test(what_the_step_leaves_to_the_machine_is_the_machines),
    cmocka_unit_test(a_hand_over_does_not_end_a_span_of_work),
    cmocka_unit_test(the_sheet_names_people_once_they_are_booked_and_skills_before),
    cmocka_unit_test(a_schedule_says_how_far_from_best_it_can_be),
    cmocka_unit_test(a_deadline_is_met_or_missed_by_so_much),
    cmocka_unit_test(without_a_schedule_the_reports_say_so),
    cmocka_unit_test(one_of_several_machines_is_told_by_its_number),
    cmocka_unit_test(bars_fit_jobs_of_any_length),
    cmocka_unit_test(bars_leave_out_time_in_which_nothing_happens),
    cmocka_unit_test(a_minute_of_work_still_has_a_mark),
    cmocka_unit_test(a_cost_with_something_unpriced_is_not_called_a_price),
    cmocka_unit_test(profit_is_said_with_its_rule),
    cmocka_unit_test(standing_time_is_said_on_top),
    cmocka_unit_test(an_unscheduled_cost_says_that_its_hours_are_not_booked),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
