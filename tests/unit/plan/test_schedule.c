/* test_schedule.c - whole plans scheduled: shifts, hand-overs, hours, closed days, slack. */
#include "support.h"

#include "plan/check.h"
#include "plan/roster.h"
#include "plan/timetable.h"
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

/* A reading of so many minutes, that may pause. */
static Step *reading(Made *m, const char *name, double minutes)
{
  Step *s = made_step(m, STEP_CHECK, name);
  s->least_readings = made_figure(1);
  s->minutes_a_reading = made_figure(minutes);
  return s;
}

/* ---- shifts */

static void work_goes_on_in_the_next_shift_by_other_people(void **state)
{
  (void)state;
  Made *m = small_job();
  made_shift(m, "late", 15, 23, EVERY_DAY);
  made_crew(m, "early", 1, "any", 0);
  made_crew(m, "late", 1, "any", 1);
  made_area(m, "hall", 10, 10);
  reading(m, "survey", 600);
  Plan *plan = made_schedule(m);
  const Booking *b = booked(plan, "hall/survey");
  assert_int_equal(b->finish, START + 600);
  assert_int_equal(b->stretch_count, 2); /* handed over at 15:00 */
  assert_int_equal(b->stretches[0].finish, 15 * HOUR);
  assert_int_equal(b->stretches[0].people[0], 0);
  assert_int_equal(b->stretches[1].people[0], 1);
  made_free(m);
}

static void nobody_works_outside_their_own_shift(void **state)
{
  (void)state;
  Made *m = small_job();
  made_shift(m, "late", 12, 20, EVERY_DAY);
  made_crew(m, "early", 2, "any", 0);
  made_crew(m, "late", 2, "any", 1);
  for (int i = 0; i < 4; i++) made_area(m, (const char *[]){ "a", "b", "c", "d" }[i], 10, 10);
  reading(m, "first", 200);
  reading(m, "second", 310)->people = made_figure(2);
  Plan *plan = made_schedule(m);
  assert_non_null(plan->bookings);
  for (int i = 0; i < plan->activity_count; i++)
    for (int s = 0; s < plan->bookings[i].stretch_count; s++) {
      const Stretch *stretch = &plan->bookings[i].stretches[s];
      for (int p = 0; p < plan->activities[i].people; p++)
        for (int minute = stretch->start; minute < stretch->finish; minute++)
          assert_true(roster_on_shift(&m->job, &m->crews[plan->persons[stretch->people[p]].crew], minute));
    }
  made_free(m);
}

static void two_people_wait_for_the_hours_they_share(void **state)
{
  (void)state;
  Made *m = small_job();
  made_shift(m, "late", 12, 20, EVERY_DAY);
  made_crew(m, "early", 1, "any", 0);
  made_crew(m, "late", 1, "any", 1);
  made_area(m, "hall", 10, 10);
  reading(m, "survey", 240)->people = made_figure(2);
  Plan *plan = made_schedule(m);
  const Booking *b = booked(plan, "hall/survey");
  assert_int_equal(b->start, 12 * HOUR);
  assert_int_equal(b->finish, DAY_MIN + 13 * HOUR); /* three hours a day are shared */
  made_free(m);
}

static void a_shift_past_midnight_is_one_shift(void **state)
{
  (void)state;
  Made *m = made_new(1);
  made_shift(m, "night", 22, 30, 0x01); /* Mondays */
  made_crew(m, "operator", 1, "any", 0);
  made_area(m, "hall", 10, 10);
  reading(m, "survey", 470);
  Plan *plan = made_schedule(m);
  assert_int_equal(booked(plan, "hall/survey")->finish, 22 * HOUR + 470);
  assert_int_equal(booked(plan, "hall/survey")->stretch_count, 1);
  made_free(m);
}

static void nobody_leaves_work_under_way_for_what_another_can_begin(void **state)
{
  (void)state;
  Made *m = small_job();
  made_shift(m, "late", 14, 22, EVERY_DAY);
  made_crew(m, "lead", 1, "any", 0);
  made_crew(m, "operator", 1, "any", 1);
  Area *shop = made_area(m, "shop", 10, 10);
  shop->has_hours = true;
  shop->hours = (Shift){ .from_min = 14 * HOUR, .until_min = 22 * HOUR, .days = EVERY_DAY };
  made_area(m, "hall", 10, 10);
  reading(m, "survey", 480);
  Plan *plan = made_schedule(m);
  const Booking *hall = booked(plan, "hall/survey"), *begun = booked(plan, "shop/survey");
  assert_int_equal(hall->stretch_count, 1); /* from 7:00 to 15:00, by the lead */
  assert_int_equal(hall->people[0], 0);
  assert_int_equal(begun->start, 14 * HOUR);
  assert_int_equal(begun->stretch_count, 1); /* by the operator, who stays until 22:00 */
  assert_int_equal(begun->people[0], 1);
  made_free(m);
}

static void closed_days_and_site_hours_are_left_out(void **state)
{
  (void)state;
  Made *m = small_job();
  Shift site = { .from_min = 8 * HOUR, .until_min = 14 * HOUR, .days = EVERY_DAY };
  m->job.site_hours = &site;
  m->closed[0] = m->job.start_day + 1;
  m->job.closed.count = 1;
  made_crew(m, "operator", 1, "any", 0);
  made_area(m, "hall", 10, 10);
  reading(m, "survey", 420);
  Plan *plan = made_schedule(m);
  const Booking *b = booked(plan, "hall/survey");
  assert_int_equal(b->start, 8 * HOUR);
  assert_int_equal(b->finish, 2 * DAY_MIN + 9 * HOUR);
  made_free(m);
}

/* ---- floors that open to others */

static void wet_work_and_waits_lie_inside_the_hours_of_the_area(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "operator", 1, "any", 0);
  Area *hall = made_area(m, "hall", 10, 10);
  hall->has_hours = true;
  hall->hours = (Shift){ .from_min = 6 * HOUR, .until_min = 12 * HOUR, .days = EVERY_DAY };
  reading(m, "survey", 240);
  made_step(m, STEP_CLEAN, "wash")->dry_min = (Band){ .has_low = true, .low = { 60, 0 } };
  made_step(m, STEP_WAIT, "cure")->time_min = made_maybe(300);
  Plan *plan = made_schedule(m);
  /* washed by 11:30, it would dry until 12:30: so it waits for the next morning, and the cure for the one after */
  assert_int_equal(booked(plan, "hall/wash")->start, DAY_MIN + 7 * HOUR);
  assert_int_equal(booked(plan, "hall/wash/dry")->finish, DAY_MIN + 8 * HOUR + 30);
  assert_int_equal(booked(plan, "hall/cure")->start, 2 * DAY_MIN + 6 * HOUR);
  made_free(m);
}

/* ---- machines */

static void along_machines_are_booked_with_the_field(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "operator", 3, "any", 0);
  made_area(m, "hall", 12, 10);
  made_area(m, "shop", 12, 10);
  made_hone(m, "100", true);
  made_collect(m, "slurry", 8);
  Plan *plan = made_schedule(m); /* two planetaries, one vacuum */
  const Booking *a = booked(plan, "hall/100/field"), *b = booked(plan, "shop/100/field");
  assert_true(a->finish <= b->start || b->finish <= a->start);
  m->machines[MADE_VACUUM].count = 2;
  plan = made_schedule(m);
  a = booked(plan, "hall/100/field");
  b = booked(plan, "shop/100/field");
  assert_int_equal(a->start, b->start);
  assert_int_not_equal(a->along_unit, b->along_unit);
  made_free(m);
}

/* ---- slack */

static void slack_is_what_the_longer_chain_leaves(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "operator", 2, "any", 0);
  made_area(m, "hall", 40, 10);
  made_area(m, "shop", 10, 10);
  reading(m, "survey", 30);
  Step *wash = made_step(m, STEP_CLEAN, "wash"); /* 400 m2 and 100 m2 at 5 m2/min */
  wash->machine = NULL;
  m->machines[MADE_VACUUM].count = 2;
  Plan *plan = made_schedule(m);
  assert_int_equal(booked(plan, "hall/wash")->slack_min, 0);
  assert_int_equal(booked(plan, "hall/survey")->slack_min, 0);
  assert_int_equal(booked(plan, "shop/wash")->slack_min, 60);
  assert_int_equal(booked(plan, "shop/survey")->slack_min, 60);
  assert_int_equal(booked(plan, "shop/wash")->latest_start, booked(plan, "shop/wash")->start + 60);
  made_free(m);
}

/* ---- the timetable keeps its promise */

static void schedules_pass_the_checker(void **state)
{
  (void)state;
  Made *m = small_job();
  made_shift(m, "late", 13, 21, WEEKDAYS);
  made_crew(m, "early", 2, "machine", 0);
  made_crew(m, "late", 2, "any", 1);
  for (int i = 0; i < 4; i++)
    made_area(m, (const char *[]){ "a", "b", "c", "d" }[i], 10 + i, 9)->edge_m = made_figure(20);
  made_hone(m, "100", true)->edges = true;
  made_collect(m, "slurry", 8);
  made_densify(m, 25, 40);
  made_step(m, STEP_CLEAN, "flush");
  Plan *plan = made_schedule(m);
  assert_non_null(plan->bookings);
  int days = timetable_days(plan, &m->job);
  Timetable t = { .plan = plan, .job = &m->job, .days = days, .away_days = days };
  Problem *problem = timetable_problem(&t);
  Schedule *schedule = schedule_new(problem->task_count);
  Buf breaches = { 0 };
  for (int i = 0; i < problem->task_count; i++) {
    bool absence = i >= plan->activity_count;
    const Task *task = &problem->tasks[i];
    schedule->start[i] = absence ? task->fixed_start : plan->bookings[i].start;
    schedule->finish[i] = absence ? task->fixed_start + task->duration : plan->bookings[i].finish;
  }
  schedule->makespan = plan->finish;
  bool sound = check_schedule(problem, schedule, &breaches);
  if (!sound) print_error("%s", buf_text(&breaches));
  assert_true(sound);
  buf_free(&breaches);
  schedule_free(schedule);
  problem_free(problem);
  made_free(m);
}

static bool stop_at_once(void *context, const PlanProgress *progress)
{
  int *calls = context;
  assert_true(progress->lower_bound <= progress->finish || progress->finish < 0);
  ++*calls;
  return false;
}

static void a_search_that_is_stopped_gives_what_it_has(void **state)
{
  (void)state;
  Made *m = small_job();
  made_crew(m, "operator", 2, "any", 0);
  for (int i = 0; i < 4; i++) made_area(m, (const char *[]){ "a", "b", "c", "d" }[i], 10 + 3 * i, 9);
  made_hone(m, "100", false);
  reading(m, "check", 50);
  made_hone(m, "200", false);
  int calls = 0;
  const PlanSearch search = { .progress = stop_at_once, .context = &calls };
  Plan *plan = made_expand(m);
  plan_schedule(plan, &search, m->arena, m->diags);
  assert_non_null(plan->bookings);
  assert_true(calls <= 1);
  made_free(m);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(work_goes_on_in_the_next_shift_by_other_people),
    cmocka_unit_test(nobody_works_outside_their_own_shift),
    cmocka_unit_test(two_people_wait_for_the_hours_they_share),
    cmocka_unit_test(a_shift_past_midnight_is_one_shift),
    cmocka_unit_test(nobody_leaves_work_under_way_for_what_another_can_begin),
    cmocka_unit_test(closed_days_and_site_hours_are_left_out),
    cmocka_unit_test(wet_work_and_waits_lie_inside_the_hours_of_the_area),
    cmocka_unit_test(along_machines_are_booked_with_the_field),
    cmocka_unit_test(slack_is_what_the_longer_chain_leaves),
    cmocka_unit_test(schedules_pass_the_checker),
    cmocka_unit_test(a_search_that_is_stopped_gives_what_it_has),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
