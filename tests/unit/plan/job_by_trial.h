/* job_by_trial.h - the earliest finish of a small expanded job, by trying every start of every activity. Written
 * from what docs/schedule.md promises, minute by minute: it shares no code with calendars, timetables or the
 * solver. */
#ifndef TESTS_UNIT_PLAN_JOB_BY_TRIAL_H
#define TESTS_UNIT_PLAN_JOB_BY_TRIAL_H

#include <stdlib.h>
#include <string.h>

#include "plan/plan.h"

enum { TRIAL_DAYS = 3, TRIAL_MINUTES = TRIAL_DAYS * DAY_MIN, TRIAL_MOST = 12, TRIAL_POSTS = 32, TRIAL_CLASSES = 4 };
enum { TRIAL_GAVE_UP = -2, TRIAL_NONE = -1 };

typedef struct {
  const char *skill;
} TrialPost;

typedef struct {
  const Plan *plan;
  bool open[TRIAL_MOST][TRIAL_MINUTES]; /* when each activity can go on */
  int start[TRIAL_MOST], finish[TRIAL_MOST];
  long tries, most_tries;
  int best;
} JobTrial;

static inline bool trial_is_away(const Job *job, const Days *days, int day)
{
  for (int i = 0; i < days->count; i++)
    if (days->days[i] - job->start_day == day) return true;
  return false;
}

static inline bool trial_in_hours(const Shift *hours, int minute)
{
  int of_day = minute % DAY_MIN;
  return of_day >= hours->from_min && of_day < hours->until_min;
}

/* A shift may go on past midnight; it is missed on the day it begins. */
static inline bool trial_on_shift(const Job *job, const Crew *crew, int minute)
{
  const Shift *s = &job->shifts[crew->shift];
  int day = minute / DAY_MIN, of_day = minute % DAY_MIN;
  bool today = of_day >= s->from_min && of_day < s->until_min && !trial_is_away(job, &crew->away, day);
  bool of_late = of_day + DAY_MIN >= s->from_min && of_day + DAY_MIN < s->until_min &&
                 !trial_is_away(job, &crew->away, day - 1);
  return today || of_late;
}

static inline bool trial_person_can(const Plan *plan, int person, const char *skill)
{
  const Crew *crew = &plan->job->crews[plan->persons[person].crew];
  return strcmp(skill, "any") == 0 || strcmp(crew->skills[0], "any") == 0 || strcmp(crew->skills[0], skill) == 0;
}

/* Somebody else for each post, tried in all ways. */
static inline bool trial_fill(const Plan *plan, const TrialPost *posts, int count, int minute, unsigned taken)
{
  if (count == 0) return true;
  for (int p = 0; p < plan->person_count; p++) {
    bool there = trial_on_shift(plan->job, &plan->job->crews[plan->persons[p].crew], minute);
    if ((taken >> p & 1) || !there || !trial_person_can(plan, p, posts->skill)) continue;
    if (trial_fill(plan, posts + 1, count - 1, minute, taken | 1u << p)) return true;
  }
  return false;
}

static inline int trial_list_posts(const Activity *a, TrialPost *posts)
{
  for (int n = 0; n < a->people; n++) posts[n].skill = n < a->people - a->along.people ? a->skill : a->along.skill;
  return a->people;
}

static inline bool trial_machine_there(const Job *job, int class, int minute)
{
  if (class < 0) return true;
  const Machine *m = &job->machines[class];
  return (!m->has_hours || trial_in_hours(&m->hours, minute)) && !trial_is_away(job, &m->away, minute / DAY_MIN);
}

static inline bool trial_is_open(const Plan *plan, const Activity *a, int minute)
{
  const Job *job = plan->job;
  const Area *area = &job->areas[a->area];
  if (area->has_hours && !trial_in_hours(&area->hours, minute)) return false;
  if (!a->attended) return true;
  if (trial_is_away(job, &job->closed, minute / DAY_MIN)) return false;
  if (job->site_hours && !trial_in_hours(job->site_hours, minute)) return false;
  bool along = a->along.run_min > 0;
  if (!trial_machine_there(job, a->machine, minute)) return false;
  if (along && !trial_machine_there(job, a->along.machine, minute)) return false;
  TrialPost posts[TRIAL_POSTS];
  return trial_fill(plan, posts, trial_list_posts(a, posts), minute, 0);
}

static inline bool trial_works(const JobTrial *t, int i, int minute)
{
  return minute >= t->start[i] && minute < t->finish[i] && t->open[i][minute];
}

/* One circuit at most: what it carries is a sum. */
static inline bool trial_circuit_carries(const Job *job, const int *running)
{
  double amps = 0;
  for (int k = 0; k < job->machine_count; k++) amps += 1.25 * running[k] * job->machines[k].amps.figure.value;
  return job->supply_count == 0 || amps <= job->supplies[0].amps + 1e-9;
}

/* People and machines of the activities up to the n-th, at one minute. */
static inline bool trial_minute_holds(const JobTrial *t, int n, int minute)
{
  const Job *job = t->plan->job;
  TrialPost posts[TRIAL_POSTS];
  int post_count = 0, running[TRIAL_CLASSES] = { 0 };
  for (int i = 0; i <= n; i++) {
    const Activity *a = &t->plan->activities[i];
    if (!a->attended || !trial_works(t, i, minute)) continue;
    if (post_count + a->people > TRIAL_POSTS) return false;
    post_count += trial_list_posts(a, posts + post_count);
    if (a->machine >= 0) running[a->machine]++;
    if (a->along.run_min > 0 && a->along.machine >= 0) running[a->along.machine]++;
  }
  for (int k = 0; k < job->machine_count; k++)
    if (running[k] > job->machines[k].count) return false;
  return trial_circuit_carries(job, running) && trial_fill(t->plan, posts, post_count, minute, 0);
}

/* The finish of an activity begun at its start; -1: it cannot begin there. */
static inline int trial_finish_of(const JobTrial *t, int i, int start)
{
  const Activity *a = &t->plan->activities[i];
  int left = a->duration_min, minute = start;
  for (; left > 0; minute++) {
    if (minute >= TRIAL_MINUTES) return -1;
    if (!t->open[i][minute] && (minute == start || !a->breakable)) return -1;
    left -= t->open[i][minute];
  }
  return minute;
}

static inline bool trial_lags_of(const JobTrial *t, int i, int *from, int *until)
{
  bool free_to_wait = true;
  for (int k = 0; k < t->plan->lag_count; k++) {
    const Lag *lag = &t->plan->lags[k];
    bool greatest = lag->kind == LAG_FS_MAX || lag->kind == LAG_SS_MAX;
    if (greatest && (lag->to == i || lag->from == i)) free_to_wait = false;
    if (lag->to != i || lag->from > i) continue;
    bool to_start = lag->kind == LAG_SS_MIN || lag->kind == LAG_SS_MAX;
    int at = (to_start ? t->start : t->finish)[lag->from] + lag->minutes;
    if (greatest && at < *until) *until = at;
    if (!greatest && at > *from) *from = at;
  }
  return free_to_wait;
}

static inline int trial_deadline(const Job *job, int area)
{
  const Maybe *by = job->areas[area].finish_by.given ? &job->areas[area].finish_by : &job->finish_by;
  return by->given ? (int)by->figure.value : TRIAL_MINUTES;
}

static inline bool trial_fits(const JobTrial *t, int i)
{
  for (int minute = t->start[i]; t->plan->activities[i].attended && minute < t->finish[i]; minute++)
    if (t->open[i][minute] && !trial_minute_holds(t, i, minute)) return false;
  return true;
}

/* Lags lead from lower to higher numbers. The clock alone gains nothing by waiting, unless a window hangs on it. */
static inline void trial_place_from(JobTrial *t, int i, int finish)
{
  const Plan *plan = t->plan;
  if (i == plan->activity_count) {
    t->best = finish;
    return;
  }
  int from = plan->job->start_min, until = TRIAL_MINUTES;
  bool once = trial_lags_of(t, i, &from, &until) && !plan->activities[i].attended;
  for (int start = from; start <= until && start < TRIAL_MINUTES && ++t->tries < t->most_tries; start++) {
    int end = trial_finish_of(t, i, start);
    if (t->best >= 0 && start >= t->best) return;
    if (end < 0 || end > trial_deadline(plan->job, plan->activities[i].area)) continue;
    if (t->best >= 0 && end >= t->best) continue;
    t->start[i] = start;
    t->finish[i] = end;
    if (!trial_fits(t, i)) continue;
    trial_place_from(t, i + 1, end > finish ? end : finish);
    if (once) return;
  }
}

/* The earliest finish within TRIAL_DAYS; TRIAL_NONE, or TRIAL_GAVE_UP after so many tries. */
static inline int job_by_trial(const Plan *plan, long most_tries)
{
  JobTrial *t = calloc(1, sizeof *t);
  t->plan = plan;
  t->most_tries = most_tries;
  t->best = TRIAL_NONE;
  for (int i = 0; i < plan->activity_count; i++)
    for (int minute = 0; minute < TRIAL_MINUTES; minute++)
      t->open[i][minute] = trial_is_open(plan, &plan->activities[i], minute);
  trial_place_from(t, 0, 0);
  int best = t->tries >= most_tries ? TRIAL_GAVE_UP : t->best;
  free(t);
  return best;
}

#endif
