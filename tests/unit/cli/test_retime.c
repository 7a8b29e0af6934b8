/* test_retime.c - the shipped jobs timed again: what the schedule had to keep is kept, whatever the minutes. */
#include "support.h"

#include <stdio.h>
#include <string.h>

#include "base/mem.h"
#include "base/philox.h"
#include "cli/session.h"
#include "plan/check.h"
#include "plan/retime.h"
#include "plan/timetable.h"

static bool read_file(const char *folder, const char *name, const char *ending, Buf *text, Buf *shown)
{
  char path[200], bytes[4096];
  size_t length = (size_t)snprintf(path, sizeof path, "%s%s", folder, name);
  for (size_t i = strlen(folder); i < length; i++)
    if (ending[0] && path[i] == '.') path[i] = '/';
  snprintf(path + length, sizeof path - length, "%s", ending);
  FILE *file = fopen(path, "r");
  if (file == NULL) return false;
  buf_puts(shown, path);
  for (size_t got; (got = fread(bytes, 1, sizeof bytes, file)) > 0;) buf_add(text, bytes, got);
  fclose(file);
  return true;
}

static bool read_recipes(void *context, PortFrom from, const char *name, Buf *text, Buf *shown, Buf *why)
{
  (void)context, (void)why;
  return from == PORT_FILE ? read_file("", name, "", text, shown)
      : read_file("recipes/", name, ".lua", text, shown);
}

static bool send_nothing(void *context, PortWhat what, const char *name, const char *bytes, size_t length)
{
  (void)context, (void)what, (void)name, (void)bytes, (void)length;
  return true;
}

/* From as planned to three times as long and back, by trial; a fifth of the activities each time stay as they are.
 * */
static int minutes_in_trial(const Plan *plan, int activity, uint32_t trial)
{
  PhiloxBlock block = philox(7, (PhiloxBlock){ { trial, (uint32_t)activity, 0, 0 } });
  double most = 1 + trial % 5 * 0.5, times = 0.5 + (most - 0.5) * philox_fraction(block.word[0]);
  int planned = plan->activities[activity].duration_min;
  return trial == 0 || block.word[1] % 5 == 0 ? planned : plan_whole_minutes(planned * times);
}

static Schedule *timed_again(const Plan *plan, const Retiming *r, int *scratch, int *minutes,
                             const Problem *problem,
                             bool *kept)
{
  Schedule *s = schedule_new(problem->task_count);
  *kept = retiming_run(r, minutes, scratch, s->start, s->finish);
  for (int i = plan->activity_count; i < problem->task_count; i++) {
    s->start[i] = problem->tasks[i].fixed_start;
    s->finish[i] = s->start[i] + problem->tasks[i].duration;
  }
  for (int i = 0; i < s->count; i++)
    if (s->finish[i] > s->makespan) s->makespan = s->finish[i];
  return s;
}

/* The same hours, lags, machines and people, with other minutes and without times that must be met. */
static Problem *problem_with(const Plan *plan, const int *minutes)
{
  int days = 2 * timetable_days(plan, plan->job);
  Problem *problem = timetable_problem(&(Timetable){ .plan = plan, .job = plan->job, .days = days,
                                                     .away_days = days });
  for (int i = 0; i < plan->activity_count; i++) {
    problem->tasks[i].duration = minutes[i];
    problem->tasks[i].deadline = problem->horizon;
  }
  return problem;
}

/* Somebody who takes work over in the middle may come late in a trial: then a person is missing for a while. */
static bool only_people_are_short(const char *breaches)
{
  for (const char *line = breaches; *line; line += strcspn(line, "\n") + 1)
    if (strcspn(line, "\n") != 0 && (strstr(line, " asked for ") == NULL ||
                                     strstr(line, " asked for ") > strchr(line, '\n')))
      return false;
  return true;
}

static void times_again(const Plan *plan)
{
  enum { TRIALS = 60 };
  Retiming *r = retiming_new(plan);
  int *scratch = retiming_scratch(r), *minutes = mem_array((size_t)plan->activity_count, sizeof *minutes),
      sound = 0;
  for (uint32_t trial = 0; trial < TRIALS; trial++) {
    bool kept;
    for (int i = 0; i < plan->activity_count; i++) minutes[i] = minutes_in_trial(plan, i, trial);
    Problem *problem = problem_with(plan, minutes);
    Schedule *s = timed_again(plan, r, scratch, minutes, problem, &kept);
    Buf breaches = { 0 };
    bool is_sound = check_schedule(problem, s, &breaches);
    if (kept && !is_sound && !only_people_are_short(buf_text(&breaches)))
      fail_msg("trial %u: %s", trial, buf_text(&breaches));
    if (trial == 0) assert_true(kept && is_sound && s->makespan <= plan->finish);
    sound += kept;
    buf_free(&breaches);
    schedule_free(s);
    problem_free(problem);
  }
  assert_true(sound > TRIALS / 2); /* most trials can be kept in the order of the schedule */
  mem_free(minutes);
  mem_free(scratch);
  retiming_free(r);
}

static void what_a_schedule_keeps_is_kept_with_other_minutes(void **state)
{
  (void)state;
  static const char *const jobs[] = { "recipes/jobs/north_hall.lua", "recipes/jobs/mill_annex.lua" };
  for (size_t i = 0; i < COUNT_OF(jobs); i++) {
    static const PortCalls calls = { read_recipes, send_nothing };
    Port port = { &calls, NULL };
    Options options = { .width = 80, .effort = 1 };
    Session session;
    session_begin(&session, &port, &options);
    assert_true(session_read(&session, jobs[i]) && session_schedule(&session));
    times_again(session.plan);
    session_end(&session);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test(what_a_schedule_keeps_is_kept_with_other_minutes) };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
