/* test_means.c - people who are away, machines with hours, circuits, and others who follow with the vacuum. */
#include "support.h"

#include "unit/plan/made_job.h"

enum { HOUR = 60, START = 7 * HOUR };

static Made *small_job(void)
{
  Made *m = made_new(4);
  made_shift(m, "day", 7, 15, EVERY_DAY);
  return m;
}

static const Booking *booked(const Plan *plan, const char *id)
{
  int i = made_find(plan, id);
  assert_true(i >= 0 && plan->bookings != NULL);
  return &plan->bookings[i];
}

static Step *reading(Made *m, const char *name, double minutes)
{
  Step *s = made_step(m, STEP_CHECK, name);
  s->least_readings = made_figure(1);
  s->minutes_a_reading = made_figure(minutes);
  return s;
}

static Days away_on(Made *m, int day)
{
  int *days = arena_array(m->arena, 1, sizeof *days);
  days[0] = m->job.start_day + day;
  return (Days){ days, 1, { 0 } };
}

static void whoever_is_away_hands_over_and_work_goes_on(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "lead", 1, "any", 0);
  made_crew(m, "operator", 1, "any", 0);
  m->crews[0].away = away_on(m, 1);
  made_area(m, "hall", 10, 10);
  reading(m, "survey", 600);
  Plan *plan = made_schedule(m);
  const Booking *b = booked(plan, "hall/survey");
  assert_int_equal(b->finish, DAY_MIN + 9 * HOUR);
  assert_int_equal(b->stretches[b->stretch_count - 1].people[0], 1);
  made_free(m);
}

static void two_wait_for_the_day_on_which_both_are_there(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "lead", 1, "any", 0);
  made_crew(m, "operator", 1, "any", 0);
  m->crews[1].away = away_on(m, 0);
  made_area(m, "hall", 10, 10);
  reading(m, "survey", 60)->people = made_figure(2);
  Plan *plan = made_schedule(m);
  assert_int_equal(booked(plan, "hall/survey")->start, DAY_MIN + START);
  made_free(m);
}

static void a_shift_that_begins_on_a_day_away_is_missed_past_midnight_too(void **state)
{
  (void)state;
  Made *m = made_new(1);
  made_shift(m, "night", 22, 30, EVERY_DAY);
  made_crew(m, "operator", 1, "any", 0);
  m->crews[0].away = away_on(m, 0);
  made_area(m, "hall", 10, 10);
  reading(m, "survey", 300);
  Plan *plan = made_schedule(m);
  assert_int_equal(booked(plan, "hall/survey")->start, DAY_MIN + 22 * HOUR);
  made_free(m);
}

static void a_machine_runs_in_its_hours_on_the_days_it_is_there(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "operator", 1, "any", 0);
  m->machines[MADE_VACUUM].has_hours = true;
  m->machines[MADE_VACUUM].hours = (Shift){ .from_min = 9 * HOUR, .until_min = 12 * HOUR, .days = EVERY_DAY };
  m->machines[MADE_VACUUM].away = away_on(m, 1);
  made_area(m, "hall", 40, 25); /* 1000 m2 at 5 m2/min, and 10 to set up */
  made_step(m, STEP_CLEAN, "wash");
  Plan *plan = made_schedule(m);
  const Booking *b = booked(plan, "hall/wash");
  assert_int_equal(b->start, 9 * HOUR);
  assert_int_equal(b->finish, 2 * DAY_MIN + 9 * HOUR + 30);
  made_free(m);
}

static void machines_that_one_circuit_does_not_carry_take_turns(void **state)
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
  Supply circuits[] = { { 16, 230, false }, { 16, 230, false } };
  m->job.supplies = circuits;
  m->job.supply_count = 1;
  Plan *plan = made_schedule(m);
  assert_int_equal(plan->finish, START + 60);
  m->job.supply_count = 2;
  plan = made_schedule(m);
  assert_int_equal(plan->finish, START + 30);
  made_free(m);
}

/* ---- slurry picked up by others who follow */

static Made *followed_job(int operators, int helpers)
{
  Made *m = small_job();
  if (operators) made_crew(m, "operator", operators, "machine", 0);
  if (helpers) made_crew(m, "helper", helpers, "vacuum", 0);
  made_area(m, "hall", 12, 10);
  made_hone(m, "100", true);
  Step *collect = made_collect(m, "slurry", 8);
  collect->skill = "vacuum";
  collect->follow = true;
  return m;
}

static void who_follows_has_a_skill_of_their_own(void **state)
{
  (void)state;
  Made *m = followed_job(2, 2);
  Plan *plan = made_schedule(m);
  assert_int_equal(diags_errors(m->diags), 0);
  const Activity *a = &plan->activities[made_find(plan, "hall/100/field")];
  const Booking *b = booked(plan, "hall/100/field");
  assert_int_equal(a->people, 2);
  assert_int_equal(plan->persons[b->stretches[0].people[0]].crew, 0);
  assert_int_equal(plan->persons[b->stretches[0].people[1]].crew, 1);
  assert_true(plan_runs_along(a) && a->along.machine == MADE_VACUUM);
  made_free(m);
}

static void following_takes_a_bay_longer_than_the_field_not_both(void **state)
{
  (void)state;
  Made *m = followed_job(1, 1);
  Plan *plan = made_expand(m);
  const Activity *a = &plan->activities[made_find(plan, "hall/100/field")];
  int bays = (a->along.field_min + 7) / 8;
  assert_true(a->duration_min > a->along.field_min);
  assert_in_range(a->duration_min, a->along.field_min, a->along.field_min + a->along.run_min / bays + 2);
  m->steps[1].follow = false;
  m->steps[1].skill = "any";
  Plan *turns = made_expand(m);
  const Activity *by_turns = &turns->activities[made_find(turns, "hall/100/field")];
  assert_true(by_turns->duration_min >= plan_field_min(by_turns) + by_turns->along.run_min);
  assert_true(a->duration_min < by_turns->duration_min);
  made_free(m);
}

static void nobody_to_follow_is_refused(void **state)
{
  (void)state;
  static const struct { int operators, helpers; } cases[] = { { 2, 0 }, { 0, 2 } };
  for (int i = 0; i < 2; i++) {
    Made *m = followed_job(cases[i].operators, cases[i].helpers);
    made_expand(m);
    assert_int_equal(diags_errors(m->diags), 1);
    assert_string_equal(diags_get(m->diags, 0)->code, "crew");
    made_free(m);
  }
}

static void following_nothing_is_refused(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "operator", 2, "any", 0);
  made_area(m, "hall", 12, 10);
  made_hone(m, "100", false); /* dry: no slurry */
  made_collect(m, "slurry", 8)->follow = true;
  made_expand(m);
  assert_int_equal(diags_errors(m->diags), 1);
  assert_string_equal(diags_get(m->diags, 0)->code, "follow");
  made_free(m);
}

static void in_two_shifts_they_work_while_both_are_there(void **state)
{
  (void)state;
  Made *m = followed_job(1, 1);
  made_shift(m, "late", 10, 18, EVERY_DAY);
  m->crews[1].shift = 1;
  Plan *plan = made_schedule(m);
  const Booking *b = booked(plan, "hall/100/field");
  assert_int_equal(b->start, 10 * HOUR);
  for (int s = 0; s < b->stretch_count; s++) assert_true(b->stretches[s].finish % DAY_MIN <= 15 * HOUR);
  made_free(m);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(whoever_is_away_hands_over_and_work_goes_on),
    cmocka_unit_test(two_wait_for_the_day_on_which_both_are_there),
    cmocka_unit_test(a_shift_that_begins_on_a_day_away_is_missed_past_midnight_too),
    cmocka_unit_test(a_machine_runs_in_its_hours_on_the_days_it_is_there),
    cmocka_unit_test(machines_that_one_circuit_does_not_carry_take_turns),
    cmocka_unit_test(who_follows_has_a_skill_of_their_own),
    cmocka_unit_test(following_takes_a_bay_longer_than_the_field_not_both),
    cmocka_unit_test(nobody_to_follow_is_refused),
    cmocka_unit_test(following_nothing_is_refused),
    cmocka_unit_test(in_two_shifts_they_work_while_both_are_there),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
