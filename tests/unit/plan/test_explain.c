/* test_explain.c - why there is no schedule: the smallest set of what is in the way, each at its place, and what
 * would free it. */
#include "support.h"

#include "unit/plan/made_job.h"

enum { HOUR = 60, START = 7 * HOUR };

static Made *small_job(void)
{
  Made *m = made_new(4);
  made_shift(m, "day", 7, 15, EVERY_DAY);
  return m;
}

/* A reading of so many minutes, that may pause. */
static Step *reading(Made *m, const char *name, double minutes)
{
  Step *s = made_step(m, STEP_CHECK, name);
  s->least_readings = made_figure(1);
  s->minutes_a_reading = made_figure(minutes);
  return s;
}

static const Diag *only_finding(const Made *m)
{
  assert_int_equal(diags_errors(m->diags), 1);
  return diags_get(m->diags, 0);
}

static void assert_error(Made *m, const char *code) { assert_string_equal(only_finding(m)->code, code); }

static bool says(const Made *m, const char *label)
{
  const Diag *diag = diags_get(m->diags, 0);
  for (int i = 0; i < diag->label_count; i++)
    if (strstr(diag->labels[i].text, label)) return true;
  return diag->label_count == 0 && strstr(diag->message, label); /* one alone stands in the message */
}

/* The finding names exactly these, each at a place of its own, and this among what would free it. */
static void assert_named(Made *m, int labels, const char *const *wanted, const char *help)
{
  made_schedule(m);
  const Diag *diag = only_finding(m);
  bool fine = diag->label_count == (labels == 1 ? 0 : labels) && strstr(diag->help, help) != NULL;
  fine = fine && !span_is_nowhere(diag->at) && says(m, wanted[0]);
  for (int i = 0; i < diag->label_count; i++) {
    fine = fine && says(m, wanted[i]) && !span_is_nowhere(diag->labels[i].at);
    for (int k = 0; k < i && fine; k++) fine = diag->labels[i].at.begin != diag->labels[k].at.begin;
  }
  if (!fine) {
    for (int i = 0; i < diag->label_count; i++) print_error("label: %s\n", diag->labels[i].text);
    print_error("help: %s\n", diag->help);
  }
  assert_true(fine);
}

static void a_time_too_early_is_the_only_reason(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "operator", 2, "any", 0);
  made_area(m, "hall", 10, 10);
  reading(m, "survey", 300);
  m->job.finish_by = made_maybe(START + 299);
  m->job.finish_by.at = made_place(m);
  Plan *plan = made_schedule(m);
  assert_int_equal(plan->status, PLAN_INFEASIBLE);
  assert_error(m, "late");
  assert_int_equal(diags_get(m->diags, 0)->at.begin, m->job.finish_by.at.begin);
  assert_non_null(strstr(diags_get(m->diags, 0)->help, "2027-03-01 12:00"));
  made_free(m);
}

static void the_smallest_set_leaves_out_what_is_not_in_the_way(void **state)
{
  (void)state;
  Made *m = small_job();
  Shift site = { .from_min = 0, .until_min = DAY_MIN, .days = EVERY_DAY, .at = made_place(m) };
  m->job.site_hours = &site;
  made_crew(m, "operator", 1, "any", 0);
  made_area(m, "hall", 10, 10);
  made_area(m, "shop", 10, 10);
  reading(m, "survey", 300);
  m->job.areas[1].finish_by = made_maybe(START + 250 + DAY_MIN);
  m->job.finish_by = made_maybe(START + 480);
  m->job.finish_by.at = made_place(m);
  m->job.areas[1].finish_by.at = made_place(m);
  made_schedule(m); /* 600 minutes by one person; the shop alone could be done in time */
  assert_int_equal(diags_errors(m->diags), 0);
  m->job.finish_by.given = false;
  m->job.areas[0].finish_by = made_maybe(START + 480);
  m->job.areas[0].finish_by.at = made_place(m);
  m->job.areas[1].finish_by = made_maybe(START + 480);
  made_schedule(m);
  assert_error(m, "no-schedule");
  assert_true(says(m, "hall must be done by") && says(m, "shop must be done by"));
  assert_true(says(m, "at most 1 with the skill"));
  assert_false(says(m, "the site is open"));
  assert_int_equal(diags_get(m->diags, 0)->label_count, 3);
  assert_non_null(strstr(diags_get(m->diags, 0)->help, "1 more with the skill `any`"));
  made_free(m);
}

static void a_window_across_a_locked_door_is_named_with_the_hours(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "operator", 1, "any", 0);
  Area *hall = made_area(m, "hall", 10, 10);
  hall->has_hours = true;
  hall->hours = (Shift){ .from_min = 7 * HOUR, .until_min = 10 * HOUR, .days = EVERY_DAY, .at = made_place(m) };
  Step *guard = made_step(m, STEP_GUARD, "guard");
  guard->spread_m2_per_l = (Band){ .has_low = true, .low = { 11, 0 } };
  guard->dry_min = (Band){ .has_low = true, .low = { 170, 0 } }; /* fits alone, but 20 min of spreading go before */
  Plan *plan = made_schedule(m);
  assert_int_equal(plan->status, PLAN_INFEASIBLE);
  assert_error(m, "no-schedule");
  assert_true(says(m, "hall may be worked on or wet only 07:00-10:00"));
  assert_true(says(m, "hall/guard/dry starts at once when hall/guard/coat ends, and takes 170 min"));
  assert_non_null(strstr(diags_get(m->diags, 0)->help, "hours of hall until 11:00"));
  made_free(m);
}

/* ---- each kind of thing that can be in the way */

static void done_by(Made *m, int minute)
{
  m->job.finish_by = made_maybe(minute);
  m->job.finish_by.at = made_place(m);
}

static Days away_on(Made *m, int day)
{
  int *days = arena_array(m->arena, 1, sizeof *days);
  days[0] = m->job.start_day + day;
  return (Days){ days, 1, made_place(m) };
}

static void an_absence_is_named_with_its_day(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "operator", 1, "any", 0);
  m->crews[0].away = away_on(m, 0);
  made_area(m, "hall", 10, 10);
  reading(m, "survey", 300);
  done_by(m, DAY_MIN);
  static const char *const wanted[] = { "operator is away on 2027-03-01", "the job must be done by 2027-03-02" };
  assert_named(m, 2, wanted, "operator there on 2027-03-01");
  made_free(m);
}

static void a_closed_day_is_named(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "operator", 1, "any", 0);
  m->job.closed = away_on(m, 1);
  made_area(m, "hall", 10, 10);
  reading(m, "survey", 600);
  done_by(m, 2 * DAY_MIN);
  static const char *const wanted[] = { "the site is closed on 2027-03-02", "shift day is 07:00-15:00",
                                        "the job must be done by" };
  assert_named(m, 3, wanted, "the site open on 2027-03-02, or shift day until 17:00");
  made_free(m);
}

static void a_machine_that_comes_late_is_named(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "operator", 1, "any", 0);
  m->machines[MADE_VACUUM].away = away_on(m, 0);
  made_area(m, "hall", 10, 10);
  made_step(m, STEP_CLEAN, "wash");
  done_by(m, DAY_MIN);
  static const char *const wanted[] = { "vacuum is away on 2027-03-01", "the job must be done by" };
  assert_named(m, 2, wanted, "vacuum there on 2027-03-01");
  made_free(m);
}

static void the_hours_of_a_machine_are_named(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "operator", 1, "any", 0);
  m->machines[MADE_VACUUM].has_hours = true;
  m->machines[MADE_VACUUM].hours =
    (Shift){ .from_min = 14 * HOUR + 50, .until_min = 16 * HOUR, .days = EVERY_DAY, .at = made_place(m) };
  made_area(m, "hall", 10, 10);
  made_step(m, STEP_CLEAN, "wash"); /* 30 minutes: 100 m2 at 5 m2/min, and 10 to set up */
  done_by(m, DAY_MIN);
  static const char *const wanted[] = { "vacuum may run only 14:50-16:00", "shift day is 07:00-15:00",
                                        "the job must be done by" };
  assert_named(m, 3, wanted, "hours of vacuum from 13:50, or shift day until 16:00");
  made_free(m);
}

static void too_few_machines_are_counted(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "operator", 3, "any", 0);
  made_area(m, "hall", 10, 10);
  made_area(m, "shop", 10, 10);
  made_step(m, STEP_CLEAN, "wash");
  done_by(m, START + 40); /* each takes 30 minutes */
  static const char *const wanted[] = { "there is 1 of vacuum", "the job must be done by" };
  assert_named(m, 2, wanted, "1 more of vacuum, or a later finish");
  made_free(m);
}

static void circuits_that_carry_too_little_are_named(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "operator", 3, "any", 0);
  made_area(m, "hall", 10, 10);
  made_area(m, "shop", 10, 10);
  made_step(m, STEP_CLEAN, "wash");
  m->machines[MADE_VACUUM].count = 2;
  m->machines[MADE_VACUUM].amps = made_maybe(10);
  m->machines[MADE_VACUUM].volts = made_maybe(230);
  Supply circuit = { 16, 230, false };
  m->job.supplies = &circuit;
  m->job.supply_count = 1;
  m->job.supplies_at = made_place(m);
  done_by(m, START + 40);
  static const char *const wanted[] = { "the circuits do not carry all of these at the same time: 2 x vacuum, 10 A", "the job must be done by" };
  assert_named(m, 2, wanted, "another circuit of 230 V and 16 A");
  made_free(m);
}

static void a_dwell_that_would_cross_the_night_is_named_with_the_shift(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "operator", 2, "any", 0);
  made_area(m, "hall", 10, 10);
  Step *guard = made_step(m, STEP_GUARD, "guard");
  guard->spread_m2_per_l = (Band){ .has_low = true, .low = { 11, 0 } };
  guard->dry_min = (Band){ true, true, { 540, 0 }, { 560, 0 }, made_place(m) }; /* ends at 17:00 at the latest */
  made_step(m, STEP_CLEAN, "wash");
  static const char *const wanted[] = { "hall/guard/dry starts at once when hall/guard/coat ends",
                                        "hall/wash must start at most 20 min after hall/guard/dry ends",
                                        "shift day is 07:00-15:00" };
  assert_named(m, 3, wanted, "shift day until 17:00");
  made_free(m);
}

static void an_area_that_opens_too_early_is_named(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "operator", 2, "any", 0);
  made_area(m, "hall", 10, 10);
  made_area(m, "shop", 10, 10);
  reading(m, "survey", 100);
  m->job.areas[1].finish_by = made_maybe(START + 90);
  m->job.areas[1].finish_by.at = made_place(m);
  static const char *const wanted[] = { "shop must be done by 2027-03-01 08:30" };
  assert_named(m, 1, wanted, "a later time for shop (it can be done on 2027-03-01 08:40)");
  made_free(m);
}

static void the_hours_of_the_site_are_named(void **state)
{
  (void)state;
  Made *m = small_job();
  Shift site = { .from_min = 9 * HOUR, .until_min = 12 * HOUR, .days = EVERY_DAY, .at = made_place(m) };
  m->job.site_hours = &site;
  made_crew(m, "operator", 1, "any", 0);
  made_area(m, "hall", 10, 10);
  reading(m, "survey", 300);
  done_by(m, DAY_MIN);
  static const char *const wanted[] = { "the site is open only 09:00-12:00", "the job must be done by" };
  assert_named(m, 2, wanted, "hours of the site until 14:00");
  made_free(m);
}

static void a_set_of_many_is_named_whole(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "operator", 1, "any", 0);
  static const char *const names[] = { "a", "b", "c", "d" };
  for (int i = 0; i < 4; i++) made_area(m, names[i], 10, 10);
  reading(m, "survey", 115); /* four in 460 of 480 minutes: done by the evening, not a quarter of an hour sooner */
  for (int i = 0; i < 4; i++) {
    m->job.areas[i].finish_by = made_maybe(START + 445);
    m->job.areas[i].finish_by.at = made_place(m);
  }
  static const char *const wanted[] = { "at most 1 with the skill `any`", "a must be done by", "b must be done by",
                                        "c must be done by", "d must be done by" };
  assert_named(m, 5, wanted, "1 more with the skill `any`, or a later time for a (it can be done on 2027-03-01 14:4");
  made_free(m);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_time_too_early_is_the_only_reason),
    cmocka_unit_test(the_smallest_set_leaves_out_what_is_not_in_the_way),
    cmocka_unit_test(a_window_across_a_locked_door_is_named_with_the_hours),
    cmocka_unit_test(an_absence_is_named_with_its_day),
    cmocka_unit_test(a_closed_day_is_named),
    cmocka_unit_test(a_machine_that_comes_late_is_named),
    cmocka_unit_test(the_hours_of_a_machine_are_named),
    cmocka_unit_test(too_few_machines_are_counted),
    cmocka_unit_test(circuits_that_carry_too_little_are_named),
    cmocka_unit_test(a_dwell_that_would_cross_the_night_is_named_with_the_shift),
    cmocka_unit_test(an_area_that_opens_too_early_is_named),
    cmocka_unit_test(the_hours_of_the_site_are_named),
    cmocka_unit_test(a_set_of_many_is_named_whole),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
