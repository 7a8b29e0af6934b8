#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "plan/instance.h"
#include "plan/temporal.h"

static Problem *tasks_of(const int *durations, int count)
{
  Problem *p = problem_new(1000);
  for (int t = 0; t < count; t++) problem_add_task(p, durations[t], PROBLEM_ALWAYS, false);
  return p;
}

static void windows_follow_both_kinds_of_lag(void **state)
{
  (void)state;
  Problem *p = tasks_of((int[]){ 10, 5, 20 }, 3);
  problem_link(p, LINK_FS_MIN, 0, 1, 3);
  problem_link(p, LINK_SS_MAX, 0, 1, 30);
  problem_link(p, LINK_FS_MIN, 1, 2, 0);
  p->tasks[1].release = 40;
  p->tasks[2].deadline = 100;
  Instance *in = instance_new(p);
  assert_true(temporal_tighten(in, in->earliest, in->latest, NULL));
  static const int earliest[] = { 10, 40, 45, 65 }, latest[] = { 62, 75, 80, 1000 };
  for (int t = 0; t < in->count; t++) {
    assert_int_equal(in->earliest[t], earliest[t]);
    assert_int_equal(in->latest[t], latest[t]);
  }
  instance_free(in);
  problem_free(p);
}

static void a_positive_cycle_is_shown_link_by_link(void **state)
{
  (void)state;
  Problem *p = tasks_of((int[]){ 10, 5, 20 }, 3);
  problem_link(p, LINK_FS_MIN, 0, 2, 0); /* not part of it */
  int wait = problem_link(p, LINK_FS_MIN, 0, 1, 25);
  int recoat = problem_link(p, LINK_FS_MAX, 0, 1, 20);
  Instance *in = instance_new(p);
  Contradiction why = { 0 };
  assert_true(temporal_find_cycle(in, &why));
  assert_int_equal(why.link_count, 2);
  assert_int_equal(why.task_count, 0);
  assert_int_equal(why.links[0] + why.links[1], wait + recoat);
  contradiction_free(&why);
  instance_free(in);
  problem_free(p);
}

static void a_cycle_without_slack_is_no_contradiction(void **state)
{
  (void)state;
  Problem *p = tasks_of((int[]){ 10, 5 }, 2);
  problem_link(p, LINK_FS_MIN, 0, 1, 20);
  problem_link(p, LINK_FS_MAX, 0, 1, 20);
  Instance *in = instance_new(p);
  assert_false(temporal_find_cycle(in, NULL));
  assert_true(temporal_tighten(in, in->earliest, in->latest, NULL));
  assert_int_equal(in->earliest[1], 30);
  instance_free(in);
  problem_free(p);
}

static void a_window_across_a_locked_door_is_explained(void **state)
{
  (void)state;
  static const Interval shifts[] = { { 0, 100 }, { 400, 500 } };
  Problem *p = problem_new(500);
  int day = problem_add_calendar(p, shifts, 2);
  problem_add_task(p, 90, day, false);
  problem_add_task(p, 30, day, false);
  int after = problem_link(p, LINK_FS_MIN, 0, 1, 0), soon = problem_link(p, LINK_FS_MAX, 0, 1, 60);
  Instance *in = instance_new(p);
  Contradiction why = { 0 };
  assert_false(temporal_find_cycle(in, NULL));
  assert_false(temporal_tighten(in, in->earliest, in->latest, &why));
  bool named[2] = { false, false };
  for (int k = 0; k < why.link_count; k++) named[why.links[k]] = true;
  assert_true(named[after] && named[soon]);
  assert_true(why.task_count > 0);
  contradiction_free(&why);
  instance_free(in);
  problem_free(p);
}

/* Every edge kind: what is needed is the least that pushes (pulls) so far. */
static void explanations_of_edges_are_tight(void **state)
{
  (void)state;
  static const Interval shifts[] = { { 3, 7 }, { 9, 10 }, { 14, 22 }, { 30, 41 } };
  Problem *p = problem_new(60);
  int day = problem_add_calendar(p, shifts, 4);
  for (int t = 0; t < 4; t++) problem_add_task(p, 3 + t, t == 3 ? PROBLEM_ALWAYS : day, t < 2);
  for (int kind = LINK_SS_MIN; kind <= LINK_FS_MAX; kind++)
    for (int from = 0; from < 4; from++) problem_link(p, (LinkKind)kind, from, (from + 1) % 4, 2);
  Instance *in = instance_new(p);
  for (int k = 0; k < in->edge_count; k++) {
    const Edge *e = &in->edges[k];
    for (int s = 3; s < 30; s++) {
      int pushed = instance_push(in, e, s), pulled = instance_pull(in, e, s);
      if (pushed < 60) { /* some start is legal */
        int a = instance_push_needs(in, e, pushed);
        assert_true(a <= s && instance_push(in, e, a) >= pushed);
        assert_true(a <= 0 || instance_push(in, e, a - 1) < pushed);
      }
      if (pulled >= 0) {
        int b = instance_pull_needs(in, e, pulled);
        assert_true(b >= s && instance_pull(in, e, b) <= pulled);
        assert_true(b >= 30 || instance_pull(in, e, b + 1) > pulled);
      }
    }
  }
  instance_free(in);
  problem_free(p);
}

static void windows_go_back_to_where_they_were(void **state)
{
  (void)state;
  Problem *p = problem_new(100);
  for (int t = 0; t < 3; t++) problem_add_task(p, 10, PROBLEM_ALWAYS, false);
  for (int t = 0; t < 2; t++) problem_link(p, LINK_FS_MIN, t, t + 1, 0);
  Instance *in = instance_new(p);
  assert_true(temporal_tighten(in, in->earliest, in->latest, NULL));
  Windows *w = windows_new(in);
  windows_reset(w, in->earliest, in->latest);
  windows_raise(w, 0, 5);
  assert_int_equal(windows_settle(w), -1);
  int mark = windows_mark(w);
  windows_raise(w, 1, 40);
  windows_lower(w, 1, 40);
  assert_int_equal(windows_settle(w), -1);
  assert_int_equal(windows_earliest(w)[2], 50);
  assert_int_equal(windows_latest(w)[0], 30);
  bool moved[4] = { false };
  for (int k = mark; k < windows_mark(w); k++) moved[windows_moved(w, k)] = true;
  assert_true(moved[0] && moved[1] && moved[2]);
  windows_back(w, mark);
  assert_int_equal(windows_earliest(w)[2], 25);
  assert_int_equal(windows_latest(w)[0], in->latest[0]);
  assert_int_equal(windows_settle(w), -1);
  assert_int_equal(windows_earliest(w)[2], 25);
  windows_free(w);
  instance_free(in);
  problem_free(p);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(windows_follow_both_kinds_of_lag),
    cmocka_unit_test(a_positive_cycle_is_shown_link_by_link),
    cmocka_unit_test(a_cycle_without_slack_is_no_contradiction),
    cmocka_unit_test(a_window_across_a_locked_door_is_explained),
    cmocka_unit_test(explanations_of_edges_are_tight),
    cmocka_unit_test(windows_go_back_to_where_they_were),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
