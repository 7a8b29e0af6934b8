/* test_jobs_of_chance.c [JOBS] - small jobs with everything in them, made up by chance: the schedule of each ends
 * exactly when trying every start of every activity says that it can. */
#include "support.h"

#include "plan/check.h"
#include "plan/dice.h"
#include "plan/timetable.h"
#include "unit/plan/job_by_trial.h"
#include "unit/plan/made_job.h"

enum { JOBS = 250, MOST_TRIES = 300000 };

static int jobs = JOBS;

/* What the jobs had in them, and how they came out: a test of nothing would pass too. */
typedef struct {
  int tried, solved, impossible, away, shifts, tanks, protection, circuits, reopening, bays, pauses, closed,
      machine_hours, following, windows;
} Tally;

static Days some_day(Made *m, Dice *d)
{
  int *days = arena_array(m->arena, 1, sizeof *days);
  days[0] = m->job.start_day + dice_roll(d, 2);
  return (Days){ days, 1, made_place(m) };
}

static Shift some_hours(Made *m, Dice *d)
{
  int from = dice_roll(d, 8);
  return (Shift){ .from_min = from, .until_min = from + 8 + dice_roll(d, 10), .days = EVERY_DAY, .at = made_place(m) };
}

static void make_people(Made *m, Dice *d)
{
  static const char *const skills[] = { "any", "machine", "any", "vacuum" };
  int crews = 1 + dice_roll(d, 3);
  for (int i = 0; i < 2; i++) {
    m->shifts[i] = some_hours(m, d);
    m->shifts[i].name = i ? "late" : "early";
    m->job.shift_count++;
  }
  if (dice_roll(d, 6) == 0) m->shifts[1].from_min = DAY_MIN - 5, m->shifts[1].until_min = DAY_MIN + 9;
  for (int i = 0; i < crews; i++) {
    static const char *const names[] = { "a", "b", "c" };
    made_crew(m, names[i], 1 + (dice_roll(d, 3) == 0), i == 0 ? "any" : skills[dice_roll(d, 4)], dice_roll(d, 2));
    if (dice_roll(d, 3) == 0) m->crews[i].away = some_day(m, d);
  }
}

static void make_machines(Made *m, Dice *d)
{
  for (int i = 0; i < MADE_MACHINES; i++) {
    Machine *machine = &m->machines[i];
    machine->set_up_min = made_figure(dice_roll(d, 2));
    machine->turn_min = made_figure(0);
    machine->duty = made_figure(1);
    machine->count = 1 + (dice_roll(d, 4) == 0);
    machine->trip_min = made_figure(1);
    if (dice_roll(d, 5) == 0) machine->tank_l = made_maybe(1);
    if (dice_roll(d, 5) == 0) machine->away = some_day(m, d);
    if ((machine->has_hours = dice_roll(d, 5) == 0)) machine->hours = some_hours(m, d);
    machine->amps = made_maybe(4 + dice_roll(d, 8));
    machine->volts = made_maybe(230);
  }
  if (dice_roll(d, 3)) return;
  m->job.supplies = arena_array(m->arena, 1, sizeof *m->job.supplies);
  m->job.supplies[0] = (Supply){ 15 + dice_roll(d, 12), 230, false };
  m->job.supply_count = 1;
}

static void add_step(Made *m, Dice *d, int number)
{
  static const char *const names[] = { "one", "two", "three" };
  Step *s;
  switch (dice_roll(d, 5)) {
  case 0:
    s = made_hone(m, names[number], true);
    s->edges = dice_roll(d, 2);
    s = made_collect(m, "slurry", 1 + dice_roll(d, 4));
    s->follow = dice_roll(d, 2);
    s->skill = s->follow ? "vacuum" : "any";
    break;
  case 1:
    s = made_densify(m, 1 + dice_roll(d, 2), 3 + dice_roll(d, 4));
    s->rate_m2_per_min = made_maybe(1 + dice_roll(d, 3));
    s->keep_wet = dice_roll(d, 2);
    break;
  case 2:
    s = made_step(m, STEP_CLEAN, names[number]);
    s->dry_min = (Band){ dice_roll(d, 2), dice_roll(d, 2), { 2, 0 }, { 4 + dice_roll(d, 3), 0 }, made_place(m) };
    s->dry_min.has_high = s->dry_min.has_high && s->dry_min.has_low;
    break;
  case 3:
    made_step(m, STEP_WAIT, names[number])->time_min = made_maybe(1 + dice_roll(d, 6));
    break;
  default:
    s = made_step(m, STEP_CHECK, names[number]);
    s->least_readings = made_figure(1 + dice_roll(d, 3));
    s->people = made_figure(1 + (dice_roll(d, 3) == 0));
  }
}

static void make_areas(Made *m, Dice *d)
{
  int areas = 1 + dice_roll(d, 2);
  for (int i = 0; i < areas; i++) {
    Area *a = made_area(m, i ? "shop" : "hall", 2 + dice_roll(d, 3), 2 + dice_roll(d, 2));
    a->edge_m = made_figure(dice_roll(d, 2));
    a->protection_min = made_figure(dice_roll(d, 3) == 0 ? 2 : 0);
    a->clean_up_min = made_figure(dice_roll(d, 3) == 0 ? 1 : 0);
    if ((a->has_hours = dice_roll(d, 4) == 0)) a->hours = some_hours(m, d);
    if (dice_roll(d, 4) == 0) a->finish_by = made_maybe(dice_roll(d, 2) * DAY_MIN + 10 + dice_roll(d, 16));
  }
}

static Made *job_of_chance(Dice *d, Shift *site)
{
  Made *m = made_new(2);
  m->job.start_min = dice_roll(d, 4);
  m->job.move_min = made_figure(dice_roll(d, 2));
  make_people(m, d);
  make_machines(m, d);
  int steps = 1 + dice_roll(d, 3);
  for (int i = 0; i < steps; i++) add_step(m, d, i);
  make_areas(m, d);
  if (dice_roll(d, 4) == 0) m->job.closed = some_day(m, d);
  *site = some_hours(m, d);
  if (dice_roll(d, 5) == 0) m->job.site_hours = site;
  if (dice_roll(d, 6) == 0) m->job.finish_by = made_maybe(dice_roll(d, 2) * DAY_MIN + 12 + dice_roll(d, 16));
  return m;
}

static void count_features(const Made *m, const Plan *plan, Tally *tally)
{
  const Job *job = &m->job;
  bool away = false, tank = false, hours = false;
  for (int i = 0; i < job->crew_count; i++) away = away || job->crews[i].away.count > 0;
  for (int i = 0; i < job->machine_count; i++) {
    tank = tank || job->machines[i].tank_l.given;
    hours = hours || job->machines[i].has_hours || job->machines[i].away.count > 0;
  }
  tally->away += away;
  tally->tanks += tank;
  tally->machine_hours += hours;
  tally->shifts += job->crew_count > 1 && job->crews[0].shift != job->crews[1].shift;
  tally->circuits += job->supply_count > 0;
  tally->closed += job->closed.count > 0;
  for (int i = 0; i < job->area_count; i++) tally->reopening += job->areas[i].finish_by.given;
  for (int i = 0; i < plan->activity_count; i++) {
    tally->protection += strstr(plan->activities[i].id, "protection") != NULL;
    tally->bays += strstr(plan->activities[i].part, "bay 2") != NULL;
    tally->following += plan->activities[i].along.people > 0;
    tally->pauses += plan->bookings && plan->activities[i].breakable && plan->bookings[i].stretch_count > 1;
  }
  for (int i = 0; i < plan->lag_count; i++)
    tally->windows += plan->lags[i].minutes > 0 && plan->lags[i].kind == LAG_SS_MAX;
}

static void assert_sound(const Plan *plan, int number)
{
  int days = timetable_days(plan, plan->job);
  Timetable t = { .plan = plan, .job = plan->job, .days = days, .away_days = days };
  Problem *problem = timetable_problem(&t);
  Schedule *schedule = schedule_new(problem->task_count);
  Buf breaches = { 0 };
  for (int i = 0; i < problem->task_count; i++) {
    const Task *task = &problem->tasks[i];
    bool absence = i >= plan->activity_count;
    schedule->start[i] = absence ? task->fixed_start : plan->bookings[i].start;
    schedule->finish[i] = absence ? task->fixed_start + task->duration : plan->bookings[i].finish;
  }
  schedule->makespan = plan->finish;
  if (!check_schedule(problem, schedule, &breaches)) fail_msg("job %d: %s", number, buf_text(&breaches));
  buf_free(&breaches);
  schedule_free(schedule);
  problem_free(problem);
}

static void try_job(int number, Tally *tally)
{
  Dice dice = { (uint64_t)number };
  Shift site;
  Made *m = job_of_chance(&dice, &site);
  Plan *plan = made_expand(m);
  const PlanSearch search = { .work = 20000000 };
  if (diags_errors(m->diags) > 0 || plan->activity_count > TRIAL_MOST) {
    made_free(m);
    return;
  }
  int wanted = job_by_trial(plan, MOST_TRIES);
  plan_schedule(plan, &search, m->arena, m->diags);
  if (plan->bookings) assert_sound(plan, number);
  if (wanted >= 0 && (plan->status != PLAN_PROVED_BEST || plan->finish != wanted))
    fail_msg("job %d can end at %d; status %d, %d", number, wanted, plan->status, plan->finish);
  if (wanted == TRIAL_NONE && plan->bookings && plan->finish < TRIAL_MINUTES)
    fail_msg("job %d has no schedule by trial, and one that ends at %d", number, plan->finish);
  if (plan->status == PLAN_INFEASIBLE && (diags_errors(m->diags) != 1 || !strstr(diags_get(m->diags, 0)->message, ": ")))
    fail_msg("job %d has no schedule, and nothing says why", number);
  tally->tried += wanted != TRIAL_GAVE_UP;
  tally->solved += wanted >= 0;
  tally->impossible += wanted == TRIAL_NONE && plan->status == PLAN_INFEASIBLE;
  if (wanted != TRIAL_GAVE_UP) count_features(m, plan, tally);
  made_free(m);
}

static void schedules_end_when_trying_everything_says(void **state)
{
  (void)state;
  Tally tally = { 0 };
  for (int number = 1; number <= jobs; number++) try_job(number, &tally);
  const int counts[] = { tally.tried / 4, tally.solved / 4, tally.impossible, tally.away, tally.shifts, tally.tanks,
                         tally.protection, tally.circuits, tally.reopening, tally.bays, tally.pauses, tally.closed,
                         tally.machine_hours, tally.following, tally.windows };
  for (size_t i = 0; i < sizeof counts / sizeof *counts; i++)
    if (counts[i] < jobs / 12) fail_msg("only %d of %d jobs for count %d", counts[i], jobs, (int)i);
}

int main(int argc, char **argv)
{
  if (argc > 1) jobs = atoi(argv[1]);
  const struct CMUnitTest tests[] = { cmocka_unit_test(schedules_end_when_trying_everything_says) };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
