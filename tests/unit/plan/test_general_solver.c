/* test_general_solver.c - medium problems against a general solver of integer programs: GLPK's glpsol (Debian's
 * glpk-utils), where it is installed. The program is written minute by minute: one binary unknown for each start of
 * each task, as in Pritsker, Watters, Wolfe, Management Science 16 (1969) 93-108. */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/mem.h"
#include "plan/check.h"
#include "plan/dice.h"
#include "plan/instance.h"
#include "plan/solve.h"

enum { PROBLEMS = 9, TASKS = 10, HORIZON = 48, GROUPS = 2, PEOPLE = 3 };

static bool is_installed(void) { return system("glpsol --version >/dev/null 2>&1") == 0; }

/* Two machines, two skills that share a person, hours with a night between, absences, windows. */
static Problem *problem_of_chance(Dice *d)
{
  static const Interval days[] = { { 0, 14 }, { 18, 30 }, { 34, HORIZON } };
  Problem *p = problem_new(HORIZON);
  problem_add_calendar(p, days, 3);
  for (int r = 0; r < 2; r++) problem_add_resource(p, 1 + dice_roll(d, 3), PROBLEM_ALWAYS);
  for (int g = 0; g < GROUPS; g++) problem_add_group(p, g ? 6 : 3, PROBLEM_ALWAYS);
  for (int t = 0; t < TASKS; t++) {
    problem_add_task(p, 1 + dice_roll(d, 7), dice_roll(d, 3) ? 0 : PROBLEM_ALWAYS, dice_roll(d, 2));
    problem_demand(p, t, dice_roll(d, 4), 1);
    problem_demand(p, t, dice_roll(d, 2), dice_roll(d, 2));
    if (dice_roll(d, 6) == 0) p->tasks[t].deadline = HORIZON / 2 + dice_roll(d, HORIZON / 2);
    if (t == 0) continue;
    int before = t - 1 - dice_roll(d, t < 4 ? t : 4);
    problem_link(p, LINK_FS_MIN, before, t, dice_roll(d, 3));
    if (dice_roll(d, 3) == 0) problem_link(p, LINK_FS_MAX, before, t, 2 + dice_roll(d, 8));
  }
  problem_add_absence(p, 1u << dice_roll(d, PEOPLE), 4, 4 + 1 + dice_roll(d, 8));
  return p;
}

/* ---- the integer program */

static bool may_start(const Instance *in, int task, int start)
{
  const Task *t = &in->problem->tasks[task];
  bool fixed = t->fixed_start == PROBLEM_FREE || t->fixed_start == start;
  return fixed && instance_next(in, task, start) == start && instance_finish(in, task, start) <= t->deadline;
}

/* Sum over the starts of a task of `value` x unknown; its finishes if asked for. */
static void put_sum(FILE *lp, const Instance *in, int task, bool finish, int sign)
{
  for (int s = 0; s < HORIZON; s++) {
    if (!may_start(in, task, s)) continue;
    int at = finish ? instance_finish(in, task, s) : s;
    fprintf(lp, " %s %d x_%d_%d\n", sign < 0 ? "-" : "+", at, task, s);
  }
}

static void put_choices(FILE *lp, const Instance *in)
{
  const Problem *p = in->problem;
  for (int t = 0; t < p->task_count; t++) {
    fprintf(lp, " one_%d:", t);
    for (int s = 0; s < HORIZON; s++)
      if (may_start(in, t, s)) fprintf(lp, " + x_%d_%d", t, s);
    fprintf(lp, " + 0 end = 1\n");
    if (p->tasks[t].absent) continue;
    fprintf(lp, " last_%d: end", t);
    put_sum(lp, in, t, true, -1);
    fprintf(lp, " >= 0\n");
  }
}

static void put_links(FILE *lp, const Instance *in)
{
  for (int k = 0; k < in->problem->link_count; k++) {
    const Link *link = &in->problem->links[k];
    bool least = link->kind == LINK_FS_MIN || link->kind == LINK_SS_MIN;
    fprintf(lp, " link_%d:", k);
    put_sum(lp, in, link->to, false, 1);
    put_sum(lp, in, link->from, link->kind == LINK_FS_MIN || link->kind == LINK_FS_MAX, -1);
    fprintf(lp, " %s %d\n", least ? ">=" : "<=", link->minutes);
  }
}

static bool works(const Instance *in, int task, int start, int minute)
{
  return may_start(in, task, start) && minute >= start && minute < instance_finish(in, task, start) &&
         calendar_is_open(in->working[task], minute);
}

static int asked(const Task *task, int resource)
{
  for (int k = 0; k < task->demand_count; k++)
    if (task->demands[k].resource == resource) return task->demands[k].amount;
  return 0;
}

/* Uses at one minute of the resources of a set, at most `most`. */
static void put_minute(FILE *lp, const Instance *in, unsigned resources, int minute, int most)
{
  const Problem *p = in->problem;
  fprintf(lp, " use_%u_%d: 0 end", resources, minute);
  for (int t = 0; t < p->task_count; t++) {
    int amount = 0;
    for (int r = 0; r < p->resource_count; r++)
      if (resources >> r & 1) amount += asked(&p->tasks[t], r);
    for (int s = 0; amount > 0 && s <= minute; s++)
      if (works(in, t, s, minute)) fprintf(lp, " + %d x_%d_%d\n", amount, t, s);
  }
  fprintf(lp, " <= %d\n", most);
}

static int people_there(const Problem *p, uint64_t people, int minute)
{
  for (int t = 0; t < p->task_count; t++) {
    const Task *task = &p->tasks[t];
    if (task->absent && minute >= task->fixed_start && minute < task->fixed_start + task->duration)
      people &= ~task->absent;
  }
  return __builtin_popcountll(people);
}

static void put_capacities(FILE *lp, const Instance *in)
{
  const Problem *p = in->problem;
  for (int minute = 0; minute < HORIZON; minute++) {
    for (int r = 0; r < 2; r++) put_minute(lp, in, 1u << r, minute, p->resources[r].capacity);
    for (int r = 2; r < 4; r++) put_minute(lp, in, 1u << r, minute, people_there(p, p->resources[r].people, minute));
    put_minute(lp, in, 1u << 2 | 1u << 3, minute, people_there(p, 7, minute));
  }
}

static void write_program(const Instance *in, const char *path)
{
  FILE *lp = fopen(path, "w");
  assert_non_null(lp);
  fprintf(lp, "Minimize\n end\nSubject To\n");
  put_choices(lp, in);
  put_links(lp, in);
  put_capacities(lp, in);
  fprintf(lp, "Binary\n");
  for (int t = 0; t < in->problem->task_count; t++)
    for (int s = 0; s < HORIZON; s++)
      if (may_start(in, t, s)) fprintf(lp, " x_%d_%d\n", t, s);
  fprintf(lp, "End\n");
  fclose(lp);
}

/* The least finish; -1: none; -2: not settled in time. */
static int least_by_glpsol(const Instance *in)
{
  char path[] = P_tmpdir "/gritwork-lp-XXXXXX", command[256], line[256];
  int file = mkstemp(path), least = -2;
  assert_true(file >= 0);
  close(file);
  write_program(in, path);
  snprintf(command, sizeof command, "glpsol --lp %s --cuts --tmlim 3 --output /dev/stdout 2>/dev/null", path);
  FILE *out = popen(command, "r");
  assert_non_null(out);
  bool proved = false;
  while (fgets(line, sizeof line, out)) {
    double value;
    if (strstr(line, "INTEGER OPTIMAL")) proved = true;
    if (strstr(line, "INTEGER EMPTY") || strstr(line, "NO PRIMAL FEASIBLE") || strstr(line, "NO INTEGER FEASIBLE"))
      least = -1;
    if (proved && sscanf(line, "Objective: obj = %lf", &value) == 1) least = (int)(value + 0.5);
  }
  pclose(out);
  unlink(path);
  return least;
}

static void the_general_solver_finds_the_same_finish(void **state)
{
  (void)state;
  if (!is_installed()) {
    print_message("glpsol is not installed (glpk-utils): medium problems are not held against a general solver\n");
    skip();
  }
  Dice dice = { 21 };
  int solved = 0, impossible = 0;
  for (int n = 0; n < PROBLEMS; n++) {
    Problem *p = problem_of_chance(&dice);
    Instance *in = instance_new(p);
    SolveResult r = solve(p, NULL);
    int least = least_by_glpsol(in);
    if (r.schedule) assert_true(check_schedule(p, r.schedule, NULL));
    if (least >= 0) {
      assert_int_equal(r.status, SOLVE_BEST);
      assert_int_equal(r.schedule->makespan, least);
      solved++;
    }
    if (least == -1) {
      assert_int_equal(r.status, SOLVE_INFEASIBLE);
      impossible++;
    }
    solve_free(&r);
    instance_free(in);
    problem_free(p);
  }
  assert_in_range(solved, PROBLEMS / 3, PROBLEMS);
  assert_in_range(impossible, 1, PROBLEMS);
}

int main(void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test(the_general_solver_finds_the_same_finish) };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
