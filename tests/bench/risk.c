/* risk.c - 10,000 trials of a job of 200 activities: the simulation on one thread and on two, and a bare loop
 * written for this one job that does the same arithmetic. All three must agree; the time of one thread over that of
 * the loop is what it costs to simulate any job.
 *
 * The job: four people, each with a machine, go through ten rooms of twenty steps on day shifts. Uncertain are
 * twenty rates, production, hardness, a factor of each room, rework and lost days. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/philox.h"
#include "cost/ranks.h"
#include "cost/risk.h"
#include "cost/spread.h"
#include "plan/calendar.h"

enum {
  ROOMS = 10, STEPS = 20, PEOPLE = 4, ACTIVITIES = ROOMS * STEPS, TRIALS = 10000,
  SHIFT_FROM = 7 * 60, SHIFT_MIN = 480,
  PRODUCTION = STEPS, HARDNESS, ROOM, INPUTS = ROOM + ROOMS, DAYS = 400, RUNS = 5
};

static const double WAGE = 40, MACHINE_HOUR = 20, DAY_PRICE = 100, BURDEN = 0.3, OVERHEAD = 0.1, SET_UP_MIN = 10;
static const double REWORK = 0.03, LOST = 0.02;
static const double FACTOR[3] = { 0.85, 1, 1.2 };

static double floor_of(int room) { return 60 + 15 * room; }
static double rate_of(int step) { return 0.9 + 0.05 * step; }
static bool is_field(int step) { return step % 2 == 0; }

/* One thread and the loop are held against each other by processor time: other work disturbs that less. */
static double seconds(clockid_t clock)
{
  struct timespec now;
  clock_gettime(clock, &now);
  return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

/* ---- the job, scheduled by hand: everybody goes through their rooms one after the other */

typedef struct {
  Arena *arena;
  WhyBook *why;
  Diags *diags;
  Job job;
  Prices prices;
  Plan plan;
  Takeoff *takeoff;
  Cost *cost;
} Bench;

static Figure estimate(Bench *b, const char *what, double low, double likely, double high)
{
  WhyNode node = { .origin = WHY_WRITTEN, .what = what, .unit = "", .low = low, .value = likely, .high = high };
  return (Figure){ likely, why_add(b->why, &node) };
}

static Maybe factor(Bench *b, const char *what)
{
  return (Maybe){ true, estimate(b, what, FACTOR[0], FACTOR[1], FACTOR[2]), { 0 } };
}

static Maybe chance(Bench *b, const char *what, double value)
{
  return (Maybe){ true, why_written(b->why, what, value, "", (Span){ 0 }), { 0 } };
}

static Rate rate(Bench *b, const char *what, double major)
{
  return (Rate){ true, (Money)(major * MONEY_SCALE), why_written(b->why, what, major, "USD", (Span){ 0 }).why,
                 { 0 } };
}

static Percent percent(Bench *b, const char *what, double share)
{
  Why why = why_written(b->why, what, share * 100, "%", (Span){ 0 }).why;
  return (Percent){ true, (int64_t)(share * 1e6 + 0.5), why, { 0 } };
}

static void make_job(Bench *b)
{
  Job *job = &b->job;
  *job = (Job){ .name = "bench", .currency = "USD", .start_min = SHIFT_FROM, .shift_count = 1, .crew_count = 1,
                .machine_count = 1, .area_count = ROOMS, .recipe_count = 1, .prices = &b->prices };
  static const char *skills[] = { "any" };
  job->shifts = arena_alloc(b->arena, sizeof *job->shifts);
  job->shifts[0] = (Shift){ "day", SHIFT_FROM, SHIFT_FROM + SHIFT_MIN, 127, false, { 0 } };
  job->crews = arena_alloc(b->arena, sizeof *job->crews);
  job->crews[0] = (Crew){ .name = "operator", .count = PEOPLE, .skills = skills, .skill_count = 1 };
  job->machines = arena_alloc(b->arena, sizeof *job->machines);
  job->machines[0] = (Machine){ .name = "planetary", .count = PEOPLE };
  job->areas = arena_array(b->arena, ROOMS, sizeof *job->areas);
  for (int i = 0; i < ROOMS; i++)
    job->areas[i] = (Area){ .name = arena_printf(b->arena, "room %d", i + 1),
                            .area_m2 = why_written(b->why, "floor", floor_of(i), "m2", (Span){ 0 }) };
  job->recipes = arena_alloc(b->arena, sizeof *job->recipes);
  Step *steps = arena_array(b->arena, STEPS, sizeof *steps);
  for (int i = 0; i < STEPS; i++)
    steps[i] = (Step){ .word = is_field(i) ? STEP_HONE : STEP_CLEAN,
                       .name = arena_printf(b->arena, "step %d", i + 1) };
  job->recipes[0] = (Recipe){ .name = "bench", .steps = steps, .step_count = STEPS };
  job->risk = risk_default;
  job->risk.trials = TRIALS;
  job->risk.production = factor(b, "production");
  job->risk.hardness = factor(b, "hardness");
  job->risk.areas = factor(b, "areas");
  job->risk.rework = chance(b, "rework", REWORK);
  job->risk.lost_days = chance(b, "lost days", LOST);
}

static void make_prices(Bench *b)
{
  Prices *p = &b->prices;
  *p = (Prices){ .name = "bench", .currency = "USD", .labour_count = 1, .machine_count = 1, .extra_count = 1,
                 .tool_count = 1 };
  p->labour = arena_alloc(b->arena, sizeof *p->labour);
  p->labour[0] = (LabourPrice){ .name = "operator", .per_hour = rate(b, "wage", WAGE) };
  p->machines = arena_alloc(b->arena, sizeof *p->machines);
  p->machines[0] = (MachinePrice){ .name = "planetary", .per_hour = rate(b, "machine", MACHINE_HOUR) };
  p->extras = arena_alloc(b->arena, sizeof *p->extras);
  p->extras[0] = (ExtraPrice){ .name = "power", .price = rate(b, "power", DAY_PRICE), .per = PER_DAY };
  p->tools = arena_alloc(b->arena, sizeof *p->tools);
  p->tools[0] = (ToolPrice){ .name = "hone", .per_set = rate(b, "set", 200) };
  p->burden = percent(b, "burden", BURDEN);
  p->overhead = percent(b, "overhead", OVERHEAD);
}

/* amount / rate + set-up */
static double at_a_rate(const double *terms, int count)
{
  (void)count;
  return terms[0] / terms[1] + terms[2];
}

static void add_activity(Bench *b, int room, int step, const Figure *rates, const int *person, int *free_at,
                         const Calendar *hours)
{
  Plan *plan = &b->plan;
  int i = plan->activity_count++;
  Figure minutes = why_worked(b->why, "minutes", "min", "floor / rate + set-up", at_a_rate,
                              (Figure[]){ b->job.areas[room].area_m2, rates[step], { SET_UP_MIN, 0 } }, 3);
  Activity *a = &plan->activities[i];
  *a = (Activity){ .id = arena_printf(b->arena, "%d/%d", room, step), .area = room, .step = step,
                   .minutes = minutes, .kind = is_field(step) ? WORK_FIELD : WORK_SURFACE,
                   .duration_min = plan_whole_minutes(minutes.value),
                   .breakable = true, .attended = true, .people = 1, .skill = "any" };
  if (is_field(step)) a->floor_m2 = b->job.areas[room].area_m2;
  int start = calendar_next_open(hours, *free_at), finish = calendar_finish(hours, start, a->duration_min),
      count = 0;
  Stretch *stretches = arena_array(b->arena, DAYS, sizeof *stretches);
  for (int at = start, end; at < finish; at = calendar_next_open(hours, end)) {
    end = calendar_next_closed(hours, at) < finish ? calendar_next_closed(hours, at) : finish;
    stretches[count++] = (Stretch){ .start = at, .finish = end, .people = person, .unit = *person,
                                    .along_unit = -1 };
  }
  plan->bookings[i] = (Booking){ .stretches = stretches, .stretch_count = count, .start = start, .finish = finish,
                                 .people = (int *)(uintptr_t)person, .people_count = 1, .unit = *person,
                                 .along_unit = -1 };
  if (step > 0) plan->lags[plan->lag_count++] = (Lag){ .from = i - 1, .to = i, .kind = LAG_FS_MIN };
  *free_at = finish;
  if (finish > plan->finish) plan->finish = finish;
}

static void make_plan(Bench *b, const Calendar *hours)
{
  static const int people[PEOPLE] = { 0, 1, 2, 3 };
  Plan *plan = &b->plan;
  Figure rates[STEPS];
  int free_at[PEOPLE] = { 0 };
  *plan = (Plan){ .job = &b->job, .status = PLAN_FEASIBLE, .person_count = PEOPLE };
  plan->activities = arena_array(b->arena, ACTIVITIES, sizeof *plan->activities);
  plan->lags = arena_array(b->arena, ACTIVITIES, sizeof *plan->lags);
  plan->bookings = arena_array(b->arena, ACTIVITIES, sizeof *plan->bookings);
  plan->persons = arena_array(b->arena, PEOPLE, sizeof *plan->persons);
  for (int i = 0; i < PEOPLE; i++) plan->persons[i] = (Person){ "operator", 0 };
  for (int i = 0; i < STEPS; i++)
    rates[i] = estimate(b, "rate", FACTOR[0] * rate_of(i), rate_of(i), FACTOR[2] * rate_of(i));
  for (int room = 0; room < ROOMS; room++)
    for (int step = 0; step < STEPS; step++)
      add_activity(b, room, step, rates, &people[room % PEOPLE], &free_at[room % PEOPLE], hours);
}

static Calendar *day_shifts(void)
{
  Interval open[DAYS];
  for (int i = 0; i < DAYS; i++) {
    int from = i * DAY_MIN + SHIFT_FROM;
    open[i] = (Interval){ from, from + SHIFT_MIN };
  }
  return calendar_new(open, DAYS);
}

/* ---- the bare loop */

typedef struct {
  double floor[ROOMS], tools;
  Spread *spreads[INPUTS];
  const Calendar *hours;
  double costs[TRIALS];
  int finishes[TRIALS];
} Bare;

static PhiloxBlock words(uint32_t trial, int block, uint32_t stream)
{
  return philox(1, (PhiloxBlock){ { trial, (uint32_t)block, stream, 0 } });
}

static void bare_trial(Bare *bare, uint32_t trial)
{
  double x[INPUTS + PHILOX_WORDS], hours_min = 0;
  bool again[ACTIVITIES], seen[DAYS] = { false };
  int free_at[PEOPLE] = { 0 }, finish = 0, days = 0, field = 0;
  for (int i = 0; i < INPUTS; i += PHILOX_WORDS) {
    PhiloxBlock block = words(trial, i / PHILOX_WORDS, 0);
    for (int k = 0; k < PHILOX_WORDS && i + k < INPUTS; k++)
      x[i + k] = spread_at(bare->spreads[i + k], philox_fraction(block.word[k]));
  }
  for (int i = 0; i < ACTIVITIES / 2; i += PHILOX_WORDS) {
    PhiloxBlock block = words(trial, i / PHILOX_WORDS, 1);
    for (int k = 0; k < PHILOX_WORDS; k++) again[i + k] = philox_fraction(block.word[k]) < REWORK;
  }
  for (int room = 0; room < ROOMS; room++)
    for (int step = 0; step < STEPS; step++) {
      double minutes = (bare->floor[room] / x[step] + SET_UP_MIN) / x[PRODUCTION];
      if (is_field(step)) minutes *= x[HARDNESS];
      minutes *= x[ROOM + room];
      if (is_field(step) && again[field++]) minutes *= 2;
      int whole = (int)ceil(minutes - 1e-9), *at = &free_at[room % PEOPLE];
      int start = calendar_next_open(bare->hours, *at);
      *at = calendar_finish(bare->hours, start, whole);
      hours_min += whole;
      for (int now = start, closed;; now = calendar_next_open(bare->hours, closed)) {
        days += !seen[now / DAY_MIN];
        seen[now / DAY_MIN] = true;
        closed = calendar_next_closed(bare->hours, now);
        if (closed >= *at) break;
      }
      if (*at > finish) finish = *at;
    }
  int last = (finish - 1) / DAY_MIN, moved = 0;
  for (int place = 0; place <= last; place++, moved++)
    while (philox_fraction(words(trial, moved / PHILOX_WORDS, 2).word[moved % PHILOX_WORDS]) < LOST) moved++;
  bare->finishes[trial] = finish + (moved - 1 - last) * DAY_MIN;
  double hours = hours_min / 60;
  bare->costs[trial] = (hours * WAGE * (1 + BURDEN) + hours * MACHINE_HOUR + bare->tools + days * DAY_PRICE) *
                       (1 + OVERHEAD);
}

static Bare *bare_new(const Bench *b, const Calendar *hours)
{
  Bare *bare = arena_alloc(b->arena, sizeof *bare);
  bare->hours = hours;
  bare->tools = (double)b->cost->kind_total[LINE_TOOL] / MONEY_SCALE;
  for (int i = 0; i < ROOMS; i++) bare->floor[i] = floor_of(i);
  for (int i = 0; i < INPUTS; i++) {
    double scale = i < STEPS ? rate_of(i) : 1;
    bare->spreads[i] = spread_new(&(Estimate){ RISK_PERT, FACTOR[0] * scale, FACTOR[1] * scale,
                                               FACTOR[2] * scale }, NULL);
  }
  return bare;
}

static double run_bare(Bare *bare)
{
  double begin = seconds(CLOCK_PROCESS_CPUTIME_ID);
  for (uint32_t trial = 0; trial < TRIALS; trial++) bare_trial(bare, trial);
  return seconds(CLOCK_PROCESS_CPUTIME_ID) - begin;
}

static int compare(const void *left, const void *right)
{
  double a = *(const double *)left, b = *(const double *)right;
  return (a > b) - (a < b);
}

/* ---- */

static double run_risk(Bench *b, int threads, Risk **risk)
{
  clockid_t clock = threads > 1 ? CLOCK_MONOTONIC : CLOCK_PROCESS_CPUTIME_ID;
  double begin = seconds(clock);
  *risk = risk_run(&b->plan, b->takeoff, b->cost, b->why, &(RiskOptions){ .threads = threads }, b->arena, b->diags);
  return seconds(clock) - begin;
}

static bool agree(const Risk *a, const Risk *b, Bare *bare)
{
  qsort(bare->costs, TRIALS, sizeof *bare->costs, compare);
  for (int i = 0; i < RISK_LEVELS; i++) {
    double want = bare->costs[ranks_quantile(TRIALS, risk_levels[i])];
    if (a->cost[i] != b->cost[i] || fabs(a->cost[i] - want) > 0.01) {
      printf("risk: P%.0f is %.2f on one thread, %.2f on two, %.2f by the bare loop\n", risk_levels[i] * 100,
             a->cost[i],
             b->cost[i], want);
      return false;
    }
  }
  return true;
}

static double least(double a, double b) { return a < b ? a : b; }

int main(void)
{
  Bench b = { .arena = arena_new(), .why = why_new(), .diags = diags_new() };
  Calendar *hours = day_shifts();
  make_job(&b);
  make_prices(&b);
  make_plan(&b, hours);
  b.takeoff = takeoff_count(&b.plan, b.arena, b.why);
  b.cost = cost_price(b.takeoff, 1, b.arena, b.why, b.diags);
  Bare *bare = bare_new(&b, hours);
  Risk *one, *two;
  double one_s = 1e9, two_s = 1e9, bare_s = 1e9;
  for (int i = 0; i < RUNS; i++) {
    bare_s = least(bare_s, run_bare(bare));
    one_s = least(one_s, run_risk(&b, 1, &one));
    two_s = least(two_s, run_risk(&b, 2, &two));
  }
  printf("risk: %d trials of %d activities, least of %d runs\n", TRIALS, ACTIVITIES, RUNS);
  printf("  bare loop    %6.3f s\n"
         "  one thread   %6.3f s, %.2f of the loop (at most 1.5)\n"
         "  two threads  %6.3f s by the clock (below 1)\n",
         bare_s, one_s, one_s / bare_s, two_s);
  if (!agree(one, two, bare)) return 1;
  return one_s / bare_s <= 1.5 && two_s < 1 ? 0 : 1;
}
