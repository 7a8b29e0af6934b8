/* test_trade_off.c - what fewer people and machines would save. */
#include "support.h"

#include "cost/trade_off.h"
#include "unit/plan/made_job.h"

/* Three rooms, more people than they can use. */
static Made *wide_job(int people)
{
  Made *m = made_new(3);
  made_shift(m, "day", 7, 15, EVERY_DAY);
  made_crew(m, "operator", people, "any", 0);
  made_area(m, "hall", 18, 12);
  made_area(m, "shop", 12, 12);
  made_area(m, "store", 10, 6);
  made_hone(m, "100", false)->edges = true;
  made_hone(m, "200", false)->edges = true;
  for (int i = 0; i < 3; i++) m->job.areas[i].edge_m = made_figure(20);
  m->machines[MADE_PLANETARY].count = 2;
  return m;
}

static void each_row_is_later_and_costs_less_than_the_one_before(void **state)
{
  (void)state;
  Made *m = wide_job(5);
  Plan *plan = made_schedule(m);
  TradeOff t = trade_off(plan, m->arena, m->why, NULL, NULL);
  assert_true(t.count >= 1 && t.tried > 0 && !t.priced);
  assert_true(t.rows[0].finish <= plan->finish);
  assert_true(t.rows[0].crews[0] < 5); /* five have nothing to do that four could not */
  int latest = plan->finish + (plan->finish - m->job.start_min) / 2;
  for (int i = 1; i < t.count; i++) {
    assert_true(t.rows[i].finish > t.rows[i - 1].finish && t.rows[i].finish <= latest);
    assert_true(t.rows[i].people_h <= t.rows[i - 1].people_h);
  }
  made_free(m);
}

static void a_row_is_a_schedule_of_the_smaller_job(void **state)
{
  (void)state;
  Made *m = wide_job(5);
  TradeOff t = trade_off(made_schedule(m), m->arena, m->why, NULL, NULL);
  const TradeRow *row = &t.rows[t.count - 1];
  m->crews[0].count = row->crews[0];
  for (int i = 0; i < MADE_MACHINES; i++) m->machines[i].count = row->machines[i] > 0 ? row->machines[i] : 1;
  for (int i = 0; i < MADE_MACHINES; i++)
    if (row->machines[i] == 0) m->machines[i].does = 0;
  const PlanSearch more = { .work = 20000000 };
  Plan *plan = made_expand(m);
  plan_schedule(plan, &more, m->arena, m->diags);
  assert_non_null(plan->bookings);
  assert_true(plan->finish <= row->finish);
  made_free(m);
}

static void what_nobody_else_can_do_stays(void **state)
{
  (void)state;
  Made *m = wide_job(1);
  TradeOff t = trade_off(made_schedule(m), m->arena, m->why, NULL, NULL);
  for (int i = 0; i < t.count; i++) {
    assert_int_equal(t.rows[i].crews[0], 1);
    assert_int_equal(t.rows[i].machines[MADE_EDGER], 1);
    assert_true(t.rows[i].machines[MADE_PLANETARY] + t.rows[i].machines[MADE_SMALL] > 0);
  }
  made_free(m);
}

static bool never(void *context) { return ++*(int *)context < 0; }

static void it_can_be_stopped_before_any_job_is_tried(void **state)
{
  (void)state;
  int asked = 0;
  Made *m = wide_job(3);
  Plan *plan = made_schedule(m);
  TradeOff t = trade_off(plan, m->arena, m->why, never, &asked);
  assert_int_equal(t.count, 1);
  assert_int_equal(t.tried, 0);
  assert_int_equal(t.rows[0].finish, plan->finish);
  assert_true(asked > 0);
  made_free(m);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(each_row_is_later_and_costs_less_than_the_one_before),
    cmocka_unit_test(a_row_is_a_schedule_of_the_smaller_job),
    cmocka_unit_test(what_nobody_else_can_do_stays),
    cmocka_unit_test(it_can_be_stopped_before_any_job_is_tried),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
