/* test_expand.c - what a recipe over rooms becomes: activities, minutes, lags, and refusals at their place. */
#include "support.h"

#include "unit/plan/made_job.h"

static Made *one_room(void)
{
  Made *m = made_new(4);
  made_shift(m, "day", 7, 16, EVERY_DAY);
  made_crew(m, "operator", 2, "any", 0);
  made_area(m, "hall", 20, 15);
  return m;
}

static const Activity *found(const Plan *plan, const char *id)
{
  int i = made_find(plan, id);
  if (i < 0) print_error("no activity %s\n", id);
  assert_true(i >= 0);
  return &plan->activities[i];
}

/* The lag between two activities; NULL if there is none of the kind. */
static const Lag *lag(const Plan *plan, LagKind kind, const char *from, const char *to)
{
  for (int i = 0; i < plan->lag_count; i++)
    if (plan->lags[i].kind == kind && plan->lags[i].from == made_find(plan, from) &&
        plan->lags[i].to == made_find(plan, to))
      return &plan->lags[i];
  return NULL;
}

static void assert_refused(Made *m, const char *code, const char *words)
{
  made_expand(m);
  assert_int_equal(diags_errors(m->diags), 1);
  const Diag *diag = diags_get(m->diags, 0);
  assert_string_equal(diag->code, code);
  if (!strstr(diag->message, words)) print_error("want `%s` in: %s\n", words, diag->message);
  assert_non_null(strstr(diag->message, words));
  made_free(m);
}

/* ---- slurry */

static void slurry_that_would_dry_is_picked_up_along_the_way(void **state)
{
  (void)state;
  Made *m = one_room();
  made_hone(m, "100", true);
  made_collect(m, "slurry", 8);
  Plan *plan = made_expand(m);
  const Activity *field = found(plan, "hall/100/field");
  assert_int_equal(plan->activity_count, 1);
  assert_int_equal(field->along.step, 1);
  assert_int_equal(field->along.machine, MADE_VACUUM);
  assert_int_equal(field->along.run_min, 70); /* 300 m2 at 5 m2/min, and 10 min of set-up */
  made_free(m);
}

static void field_and_pick_up_add_up(void **state)
{
  (void)state;
  Made *apart = one_room(), *along = one_room();
  made_hone(apart, "100", true);
  made_collect(apart, "slurry", 600); /* a window longer than the field: one after the other */
  made_hone(along, "100", true);
  made_collect(along, "slurry", 8);
  Plan *two = made_expand(apart), *one = made_expand(along);
  assert_int_equal(two->activity_count, 2);
  assert_near(found(one, "hall/100/field")->minutes.value,
              found(two, "hall/100/field")->minutes.value + found(two, "hall/slurry")->minutes.value, 1e-9);
  assert_int_equal(lag(two, LAG_FS_MAX, "hall/100/field", "hall/slurry")->minutes, 600);
  made_free(apart);
  made_free(along);
}

static void dry_dust_is_collected_after_the_whole_floor(void **state)
{
  (void)state;
  Made *m = one_room();
  made_hone(m, "100", false);
  made_collect(m, "dust", 8);
  Plan *plan = made_expand(m);
  assert_int_equal(found(plan, "hall/100/field")->along.run_min, 0);
  assert_non_null(lag(plan, LAG_FS_MAX, "hall/100/field", "hall/dust"));
  made_free(m);
}

static void who_hones_must_be_able_to_pick_up(void **state)
{
  (void)state;
  Made *m = one_room();
  made_hone(m, "100", true);
  made_collect(m, "slurry", 8)->skill = "slurry";
  assert_refused(m, "crew", "asks for the skill `slurry`");
}

/* ---- bays */

static void a_dwell_window_limits_the_bay_that_is_spread(void **state)
{
  (void)state;
  static const struct {
    double low_min, high_min;
    int bays;
  } cases[] = {
    { 25, 85, 1 }, /* 60 min to spread in are enough for 60 */
    { 25, 84, 2 }, { 25, 55, 2 }, { 25, 45, 3 }, { 25, 26, 60 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Made *m = one_room();
    made_densify(m, cases[i].low_min, cases[i].high_min);
    Plan *plan = made_expand(m);
    int spread = 0;
    double litres = 0, minutes = 0;
    for (int k = 0; k < plan->activity_count; k++) {
      if (plan->activities[k].kind != WORK_APPLY) continue;
      spread++;
      litres += plan->activities[k].material.value;
      minutes += plan->activities[k].minutes.value;
    }
    assert_int_equal(spread, cases[i].bays);
    assert_near(litres, 300.0 / 11, 1e-9);
    assert_near(minutes, 60, 1e-9);
    made_free(m);
  }
}

static void no_part_of_a_bay_lies_longer_than_the_window(void **state)
{
  (void)state;
  Made *m = one_room();
  made_densify(m, 25, 45);
  made_step(m, STEP_CLEAN, "flush");
  Plan *plan = made_expand(m);
  const Lag *window = lag(plan, LAG_SS_MAX, "hall/densify/coat bay 2", "hall/flush/bay 2");
  assert_non_null(window);
  assert_int_equal(window->minutes, 45);
  assert_non_null(lag(plan, LAG_FS_MIN, "hall/flush/bay 1", "hall/densify/coat bay 2"));
  assert_int_equal(lag(plan, LAG_FS_MAX, "hall/densify/coat bay 2", "hall/densify/dwell bay 2")->minutes, 0);
  made_free(m);
}

static void what_dries_is_removed_after_the_last_bay(void **state)
{
  (void)state;
  Made *m = one_room();
  made_densify(m, 25, 45)->dry_min = (Band){ .has_low = true, .low = { 60, 0 } };
  made_step(m, STEP_CLEAN, "flush");
  Plan *plan = made_expand(m);
  assert_non_null(lag(plan, LAG_FS_MIN, "hall/densify/dwell bay 3", "hall/densify/dry bay 3"));
  assert_non_null(lag(plan, LAG_FS_MIN, "hall/densify/dry bay 3", "hall/flush"));
  made_free(m);
}

static void a_window_that_leaves_no_time_to_spread_is_refused(void **state)
{
  (void)state;
  Made *m = one_room();
  made_densify(m, 30, 30);
  assert_refused(m, "bays", "leaves 0 min to spread a bay in");
}

/* ---- repairs */

static void a_patch_takes_time_and_material_for_its_share_of_the_floor(void **state)
{
  (void)state;
  Made *m = one_room();
  Step *s = made_step(m, STEP_PATCH, "patch");
  s->share = made_maybe(0.02);
  s->joint_depth_m = made_maybe(0.01);
  s->waste = made_figure(0.1);
  s->rate_m2_per_min = made_maybe(0.05);
  Plan *plan = made_expand(m);
  assert_int_equal(plan->activity_count, 1);
  assert_near(plan->activities[0].minutes.value, 120, 1e-9); /* 2 % of 300 m2 at 0.05 m2/min */
  assert_near(plan->activities[0].material.value, 66, 1e-9); /* 6 m2, 10 mm deep, and a tenth more */
  made_free(m);
}

/* ---- ways and site work */

static void machines_are_moved_where_there_are_several_areas(void **state)
{
  (void)state;
  Made *one = one_room(), *two = one_room();
  made_area(two, "shop", 20, 15);
  one->job.move_min = two->job.move_min = made_figure(12);
  made_hone(one, "100", false);
  made_hone(two, "100", false);
  Plan *alone = made_expand(one), *both = made_expand(two);
  two->job.machines[MADE_SMALL].does = 0;
  assert_near(found(both, "hall/100/field")->minutes.value,
              found(alone, "hall/100/field")->minutes.value + 12, 1e-9);
  made_free(one);
  made_free(two);
}

static void tanks_make_trips(void **state)
{
  (void)state;
  Made *hose = one_room(), *tank = one_room();
  made_hone(hose, "100", true);
  made_hone(tank, "100", true);
  tank->machines[MADE_PLANETARY].tank_l = made_maybe(50); /* 120 L: three trips of 10 min */
  Plan *without = made_expand(hose), *with = made_expand(tank);
  assert_near(found(with, "hall/100/field")->minutes.value,
              found(without, "hall/100/field")->minutes.value + 30, 1e-9);
  made_free(hose);
  made_free(tank);
}

static void site_work_comes_before_and_after(void **state)
{
  (void)state;
  Made *m = one_room();
  m->job.areas[0].protection_min = made_figure(45);
  m->job.areas[0].clean_up_min = made_figure(20);
  made_hone(m, "100", false);
  Plan *plan = made_expand(m);
  assert_int_equal(found(plan, "hall/protection")->kind, WORK_SITE);
  assert_non_null(lag(plan, LAG_FS_MIN, "hall/protection", "hall/100/field"));
  assert_non_null(lag(plan, LAG_FS_MIN, "hall/100/field", "hall/clean-up"));
  made_free(m);
}

/* ---- machines and people */

static void classes_that_suit_share_the_rooms_and_a_room_keeps_its_class(void **state)
{
  (void)state;
  Made *m = one_room();
  made_area(m, "shop", 20, 15);
  made_area(m, "store", 10, 6);
  made_hone(m, "100", false);
  made_hone(m, "200", false);
  Plan *plan = made_expand(m);
  assert_int_equal(found(plan, "hall/100/field")->machine, MADE_PLANETARY);
  assert_int_equal(found(plan, "shop/100/field")->machine, MADE_SMALL);
  assert_int_equal(found(plan, "shop/200/field")->machine, MADE_SMALL);
  assert_int_equal(found(plan, "store/100/field")->machine, MADE_PLANETARY);
  made_free(m);
}

static void a_class_asked_for_is_taken(void **state)
{
  (void)state;
  Made *m = one_room();
  made_area(m, "shop", 20, 15)->machine = "planetary";
  made_hone(m, "100", false);
  made_hone(m, "200", false)->machine = "small planetary";
  Plan *plan = made_expand(m);
  assert_int_equal(found(plan, "hall/100/field")->machine, MADE_SMALL); /* the other is busy in the shop */
  assert_int_equal(found(plan, "shop/100/field")->machine, MADE_PLANETARY);
  assert_int_equal(found(plan, "shop/200/field")->machine, MADE_SMALL);
  made_free(m);
}

static void what_nobody_and_nothing_can_do_is_refused(void **state)
{
  (void)state;
  Made *m = one_room();
  made_hone(m, "100", false)->machine = "robot";
  assert_refused(m, "machine", "no machine `robot`");

  m = one_room();
  m->machines[MADE_PLANETARY].wet = m->machines[MADE_SMALL].wet = false;
  made_hone(m, "100", true);
  assert_refused(m, "machine", "can hone wet");

  m = one_room();
  m->machines[MADE_PLANETARY].width_m.given = m->machines[MADE_SMALL].width_m.given = false;
  made_hone(m, "100", false);
  assert_refused(m, "machine", "needs a width");

  m = one_room();
  made_hone(m, "100", false)->people = made_figure(3);
  assert_refused(m, "crew", "needs 3 with the skill `machine` at the same time, the job has 2");
}

static void people_of_shifts_that_never_meet_do_not_count_together(void **state)
{
  (void)state;
  Made *m = one_room();
  made_shift(m, "late", 16, 24, EVERY_DAY);
  made_crew(m, "late operator", 1, "any", 1);
  made_hone(m, "100", false)->people = made_figure(3);
  assert_refused(m, "crew", "the job has 2");
}

static void work_in_one_go_must_fit_a_shift_and_the_area(void **state)
{
  (void)state;
  Made *m = one_room();
  made_step(m, STEP_GUARD, "guard")->spread_m2_per_l = (Band){ .has_low = true, .low = { 11, 0 } };
  m->steps[0].rate_m2_per_min = made_maybe(0.5); /* 600 min, and the shift has 540 */
  assert_refused(m, "too-long", "takes 600 min in one go, and no shift leaves more than 540 min");

  m = one_room();
  m->job.areas[0].has_hours = true;
  m->job.areas[0].hours = (Shift){ .from_min = 20 * 60, .until_min = 29 * 60, .days = EVERY_DAY };
  made_step(m, STEP_WAIT, "cure")->time_min = made_maybe(24 * 60);
  assert_refused(m, "too-long", "the area is never closed for more than 540 min");
}

static void every_bay_and_coat_dries_and_has_an_id_of_its_own(void **state)
{
  (void)state;
  Made *m = one_room();
  Step *s = made_densify(m, 25, 45);
  s->dry_min = (Band){ .has_low = true, .low = { 60, 0 } };
  s->coats = why_default(m->why, "coats", 2, "", (Span){ 0 }, "as the test says");
  Plan *plan = made_expand(m);
  assert_non_null(lag(plan, LAG_FS_MAX, "hall/densify/dwell 1 bay 1", "hall/densify/dry 1 bay 1"));
  assert_null(lag(plan, LAG_FS_MIN, "hall/densify/dry 1 bay 1", "hall/densify/coat 1 bay 2"));
  assert_non_null(lag(plan, LAG_FS_MIN, "hall/densify/dry 1 bay 3", "hall/densify/coat 2 bay 1"));
  for (int i = 0; i < plan->activity_count; i++)
    assert_int_equal(made_find(plan, plan->activities[i].id), i);
  made_free(m);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(slurry_that_would_dry_is_picked_up_along_the_way),
    cmocka_unit_test(field_and_pick_up_add_up),
    cmocka_unit_test(dry_dust_is_collected_after_the_whole_floor),
    cmocka_unit_test(who_hones_must_be_able_to_pick_up),
    cmocka_unit_test(a_dwell_window_limits_the_bay_that_is_spread),
    cmocka_unit_test(no_part_of_a_bay_lies_longer_than_the_window),
    cmocka_unit_test(what_dries_is_removed_after_the_last_bay),
    cmocka_unit_test(every_bay_and_coat_dries_and_has_an_id_of_its_own),
    cmocka_unit_test(a_window_that_leaves_no_time_to_spread_is_refused),
    cmocka_unit_test(a_patch_takes_time_and_material_for_its_share_of_the_floor),
    cmocka_unit_test(machines_are_moved_where_there_are_several_areas),
    cmocka_unit_test(tanks_make_trips),
    cmocka_unit_test(site_work_comes_before_and_after),
    cmocka_unit_test(classes_that_suit_share_the_rooms_and_a_room_keeps_its_class),
    cmocka_unit_test(a_class_asked_for_is_taken),
    cmocka_unit_test(what_nobody_and_nothing_can_do_is_refused),
    cmocka_unit_test(people_of_shifts_that_never_meet_do_not_count_together),
    cmocka_unit_test(work_in_one_go_must_fit_a_shift_and_the_area),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
