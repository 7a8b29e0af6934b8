/* test_takeoff.c - what the sample job takes, worked out by hand beside each figure. */
#include "support.h"
#include "unit/cost/sample.h"

static Takeoff *count(Sample *s) { return takeoff_count(&s->plan, s->arena, s->why); }

static void hours_are_those_booked_for_each_crew(void **state)
{
  (void)state;
  Sample *s = sample_new();
  const Takeoff *t = count(s);
  assert_int_equal(t->labour_count, 2);
  /* operator 1: 510 + 465 + 80 min, operator 2: 300 + 40 min */
  assert_near(t->labour[OPERATOR].hours.value, 1395.0 / 60, 1e-9);
  assert_near(t->labour[FINISHER].hours.value, 210.0 / 60, 1e-9);
  sample_free(s);
}

static void overtime_is_counted_by_person_and_shift_day(void **state)
{
  (void)state;
  static const struct {
    double after_min, want_min;
  } cases[] = {
    { 480, 30 },        /* operator 1 works 510 minutes on Monday */
    { 460, 50 + 5 },    /* and 465 on Tuesday; 300 of operator 2 on Monday are another person's */
    { 510, 0 }, { 240, 270 + 225 + 60 },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    Sample *s = sample_new();
    s->prices.overtime_after_min.figure.value = cases[i].after_min;
    assert_near(count(s)->labour[OPERATOR].overtime_h.value * 60, cases[i].want_min, 1e-9);
    sample_free(s);
  }
}

static void no_overtime_without_a_limit(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->prices.overtime_after_min.given = false;
  assert_near(count(s)->labour[OPERATOR].overtime_h.value, 0, 0);
  s->job.prices = NULL;
  assert_near(count(s)->labour[OPERATOR].overtime_h.value, 0, 0);
  sample_free(s);
}

static void night_hours_are_those_of_a_shift_marked_night(void **state)
{
  (void)state;
  Sample *s = sample_new();
  const Takeoff *t = count(s);
  assert_near(t->labour[FINISHER].night_h.value, 3.5, 1e-9); /* 22:00-01:00 and 01:10-01:40 */
  assert_near(t->labour[OPERATOR].night_h.value, 0, 0);
  s->shifts[1].night = false;
  assert_near(count(s)->labour[FINISHER].night_h.value, 0, 0);
  sample_free(s);
}

static void standing_time_is_what_lies_between_a_persons_work(void **state)
{
  (void)state;
  Sample *s = sample_new();
  const Takeoff *t = count(s);
  assert_near(t->labour[OPERATOR].standing_h.value * 60, 45, 1e-9); /* Tuesday 08:00-08:45 */
  assert_near(t->labour[FINISHER].standing_h.value * 60, 10, 1e-9); /* 01:00-01:10, one shift over midnight */
  sample_free(s);
}

static void a_minute_booked_twice_for_a_person_counts_once(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->people[OPEN_EDGES] = 0; /* operator 1 is on the field at the same time */
  assert_near(count(s)->labour[OPERATOR].hours.value * 60, 1395 - 300, 1e-9);
  sample_free(s);
}

static void a_shift_past_midnight_counts_for_the_day_it_begins(void **state)
{
  (void)state;
  Sample *s = sample_new();
  const Takeoff *t = count(s);
  assert_near(t->days.value, 3, 0); /* Monday with its night, Tuesday, Wednesday */
  for (int i = 0; i <= SHEEN; i++) s->bookings[i].stretch_count = 0;
  assert_near(count(s)->days.value, 1, 0); /* only the night is left */
  sample_free(s);
}

static void machines_run_by_the_hour_and_stay_from_first_use_to_last(void **state)
{
  (void)state;
  static const struct {
    double minutes, days;
  } want[] = { { 550 + 390 + 180, 3 }, { 300, 1 }, { 40, 1 } };
  Sample *s = sample_new();
  const Takeoff *t = count(s);
  assert_int_equal(t->machine_count, 3);
  for (int i = 0; i < t->machine_count; i++) {
    assert_near(t->machines[i].hours.value * 60, want[i].minutes, 1e-9);
    assert_near(t->machines[i].days.value, want[i].days, 0);
  }
  sample_free(s);
}

static void a_machine_stays_over_days_on_which_only_others_work(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->bookings[FINE].stretches[0] = stretch(WED + CLOCK(7, 0), WED + CLOCK(8, 0));
  s->bookings[FINE].stretch_count = 1; /* Tuesday: no planetary but for the first hour */
  s->bookings[OPEN].stretch_count = 1; /* and now not even that; the site is worked on all the same */
  assert_near(count(s)->machines[PLANETARY].days.value, 3, 0);
  sample_free(s);
}

static void a_machine_that_nobody_uses_is_not_taken(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->activities[COLLECT].machine = -1;
  assert_int_equal(count(s)->machine_count, 2);
  sample_free(s);
}

static void tools_wear_on_fields_and_on_a_strip_along_edges(void **state)
{
  (void)state;
  Sample *s = sample_new();
  const Takeoff *t = count(s);
  assert_int_equal(t->tool_count, 2);
  assert_string_equal(t->tools[0].tool, "resin 100");
  assert_near(t->tools[0].floor_m2.value, 432 + 60 * takeoff_edge_strip_m, 1e-9);
  assert_string_equal(t->tools[1].tool, "resin 400");
  assert_near(t->tools[1].floor_m2.value, 432 + 500 * SQFT_M2, 1e-9);
  assert_int_equal(t->tools[1].behind.count, 2);
  assert_int_equal(t->tools[1].behind.index[0], FINE);
  assert_int_equal(t->tools[1].behind.index[1], BUFF);
  sample_free(s);
}

static void tools_are_named_by_bond_and_grit(void **state)
{
  (void)state;
  static const struct {
    Step step;
    const char *want;
  } cases[] = {
    { { .word = STEP_HONE, .bond = "resin", .grit = 100 }, "resin 100" },
    { { .word = STEP_GRIND, .bond = "metal", .grit = 16.5 }, "metal 16.5" },
    { { .word = STEP_GRIND, .bond = "scraper" }, "scraper" },
    { { .word = STEP_POLISH, .grit = 3000 }, "3000" },
    { { .word = STEP_BURNISH }, "burnish" }, /* named by neither: still a tool, not nothing */
  };
  Arena *arena = arena_new();
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
    assert_string_equal(takeoff_tool_name(&cases[i].step, arena), cases[i].want);
  arena_free(arena);
}

static void materials_are_summed_by_name(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->office[1].with = "lithium silicate";
  const Takeoff *t = count(s);
  assert_int_equal(t->material_count, 1);
  assert_near(t->materials[0].litres.value, 9.8 * GAL_L, 1e-9);
  assert_int_equal(t->materials[0].behind.count, 2);
  sample_free(s);
}

static void a_material_without_a_name_goes_by_its_step(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->shop[3].with = NULL;
  assert_string_equal(count(s)->materials[0].material, "densify");
  sample_free(s);
}

static void the_job_is_counted_as_a_whole(void **state)
{
  (void)state;
  Sample *s = sample_new();
  const Takeoff *t = count(s);
  assert_near(t->areas.value, 2, 0);
  assert_near(t->floor_m2.value, 432 + 500 * SQFT_M2, 1e-9);
  assert_near(t->joint_m.value, 30, 0);
  assert_near(t->slurry_l.value, 50 * GAL_L, 1e-9);
  assert_near(t->water_l.value, 0, 0);
  sample_free(s);
}

static void without_a_schedule_work_counts_and_premiums_do_not(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->plan.bookings = NULL;
  s->activities[GUARD].skill = "guard"; /* only the finisher has it */
  const Takeoff *t = count(s);
  assert_false(t->scheduled);
  assert_near(t->labour[OPERATOR].hours.value * 60, 1395 + 180, 1e-9); /* the first crew buffs as well */
  assert_near(t->labour[FINISHER].hours.value * 60, 30, 1e-9);
  assert_near(t->labour[FINISHER].night_h.value + t->labour[OPERATOR].overtime_h.value, 0, 0);
  assert_near(t->days.value, 2, 0); /* 1575 min, two people, shifts of 510 min */
  assert_int_equal(why_node(s->why, t->days.why)->origin, WHY_DEFAULT);
  sample_free(s);
}

static bool leads_to(const WhyBook *book, Why from, Why to)
{
  if (from == to) return true;
  const WhyNode *node = why_node(book, from);
  for (int i = 0; i < node->input_count; i++)
    if (leads_to(book, node->inputs[i], to)) return true;
  return false;
}

static void quantities_lead_back_to_the_work_behind_them(void **state)
{
  (void)state;
  Sample *s = sample_new();
  const Takeoff *t = count(s);
  assert_true(leads_to(s->why, t->labour[OPERATOR].hours.why, s->activities[FINE].minutes.why));
  assert_false(leads_to(s->why, t->labour[OPERATOR].hours.why, s->activities[BUFF].minutes.why));
  assert_true(leads_to(s->why, t->machines[PLANETARY].hours.why, s->activities[BUFF].minutes.why));
  assert_true(leads_to(s->why, t->tools[0].floor_m2.why, s->areas[SHOP].edge_m.why));
  assert_true(leads_to(s->why, t->materials[0].litres.why, s->activities[HARDEN].material.why));
  sample_free(s);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(hours_are_those_booked_for_each_crew),
    cmocka_unit_test(overtime_is_counted_by_person_and_shift_day),
    cmocka_unit_test(no_overtime_without_a_limit),
    cmocka_unit_test(night_hours_are_those_of_a_shift_marked_night),
    cmocka_unit_test(standing_time_is_what_lies_between_a_persons_work),
    cmocka_unit_test(a_minute_booked_twice_for_a_person_counts_once),
    cmocka_unit_test(a_shift_past_midnight_counts_for_the_day_it_begins),
    cmocka_unit_test(machines_run_by_the_hour_and_stay_from_first_use_to_last),
    cmocka_unit_test(a_machine_stays_over_days_on_which_only_others_work),
    cmocka_unit_test(a_machine_that_nobody_uses_is_not_taken),
    cmocka_unit_test(tools_wear_on_fields_and_on_a_strip_along_edges),
    cmocka_unit_test(tools_are_named_by_bond_and_grit),
    cmocka_unit_test(materials_are_summed_by_name),
    cmocka_unit_test(a_material_without_a_name_goes_by_its_step),
    cmocka_unit_test(the_job_is_counted_as_a_whole),
    cmocka_unit_test(without_a_schedule_work_counts_and_premiums_do_not),
    cmocka_unit_test(quantities_lead_back_to_the_work_behind_them),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
