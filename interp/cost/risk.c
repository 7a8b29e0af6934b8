#include "cost/risk.h"

#include <math.h>
#include <pthread.h>
#include <stdlib.h>

#include "base/mem.h"
#include "cost/ranks.h"
#include "cost/risk_trial.h"

const double risk_levels[RISK_LEVELS] = { 0.1, 0.5, 0.8, 0.9 };

static const double SWING_LOW = 0.1, SWING_HIGH = 0.9;

enum { MOST_THREADS = 64, TRIALS_A_REPORT = 500 };

/* Outcomes by trial. */
typedef struct {
  const RiskModel *m;
  const RiskOptions *options;
  int trials;
  int *finish, *reworked, *lost_days;
  double *cost;
  bool *squeezed;
  int *area_finish; /* trials x deadlines of areas */
  const int *areas; /* those with a deadline of their own */
  int area_count;
} Results;

/* ---- trials, shared out among threads */

typedef struct {
  Results *results;
  int from, until;
  bool reports;
} Part;

static void keep(Results *r, int trial, const RiskOutcome *out, const RiskTrial *t)
{
  r->finish[trial] = out->finish;
  r->cost[trial] = out->cost;
  r->reworked[trial] = out->reworked;
  r->lost_days[trial] = out->lost_days;
  r->squeezed[trial] = out->squeezed;
  for (int i = 0; i < r->area_count; i++)
    r->area_finish[(size_t)trial * (size_t)r->area_count + (size_t)i] = risk_trial_area_finish(t, r->areas[i]);
}

static void *run_part(void *context)
{
  const Part *part = context;
  Results *r = part->results;
  RiskTrial *t = risk_trial_new(r->m);
  for (int trial = part->from; trial < part->until; trial++) {
    risk_trial_draw(t, (uint32_t)trial);
    RiskOutcome out = risk_trial_run(t);
    keep(r, trial, &out, t);
    int done = trial - part->from + 1;
    if (part->reports && done % TRIALS_A_REPORT == 0)
      r->options->progress(r->options->context, (int)((int64_t)done * r->trials / (part->until - part->from)),
                           r->trials);
  }
  risk_trial_free(t);
  return NULL;
}

/* The first part runs here, and so does any part for which no thread can be had. */
static void run_trials(Results *r)
{
  int asked = r->options->threads, threads = asked < 1 ? 1 : asked > MOST_THREADS ? MOST_THREADS : asked;
  Part parts[MOST_THREADS];
  pthread_t ids[MOST_THREADS];
  bool started[MOST_THREADS] = { false };
  for (int i = 0; i < threads; i++) {
    parts[i] = (Part){ .results = r, .from = (int)((int64_t)r->trials * i / threads),
                       .until = (int)((int64_t)r->trials * (i + 1) / threads) };
    parts[i].reports = i == 0 && r->options->progress != NULL;
    if (i > 0) started[i] = pthread_create(&ids[i], NULL, run_part, &parts[i]) == 0;
  }
  for (int i = 0; i < threads; i++)
    if (!started[i]) run_part(&parts[i]);
  for (int i = 0; i < threads; i++)
    if (started[i]) pthread_join(ids[i], NULL);
}

/* ---- what came out */

static int compare_int(const void *left, const void *right)
{
  int a = *(const int *)left, b = *(const int *)right;
  return (a > b) - (a < b);
}

static int compare_double(const void *left, const void *right)
{
  double a = *(const double *)left, b = *(const double *)right;
  return (a > b) - (a < b);
}

static int *sorted_finishes(const Results *r)
{
  int *sorted = mem_array((size_t)r->trials, sizeof *sorted);
  for (int i = 0; i < r->trials; i++) sorted[i] = r->finish[i];
  qsort(sorted, (size_t)r->trials, sizeof *sorted, compare_int);
  return sorted;
}

static double *sorted_costs(const Results *r)
{
  double *sorted = mem_array((size_t)r->trials, sizeof *sorted);
  for (int i = 0; i < r->trials; i++) sorted[i] = r->cost[i];
  qsort(sorted, (size_t)r->trials, sizeof *sorted, compare_double);
  return sorted;
}

static double share_up_to(const double *values, int count, double limit)
{
  int within = 0;
  for (int i = 0; i < count; i++) within += values[i] <= limit;
  return (double)within / count;
}

static void take_levels(const Results *r, const Cost *cost, Risk *out)
{
  int *finishes = sorted_finishes(r), certain = ranks_quantile(r->trials, out->certainty);
  double *costs = sorted_costs(r), sum = 0;
  for (int i = 0; i < RISK_LEVELS; i++) {
    out->finish[i] = finishes[ranks_quantile(r->trials, risk_levels[i])];
    out->cost[i] = costs[ranks_quantile(r->trials, risk_levels[i])];
  }
  out->certain_finish = finishes[certain];
  out->certain_cost = costs[certain];
  for (int i = 0; i < r->trials; i++) sum += costs[i];
  out->mean_cost = sum / r->trials;
  for (int i = 0; i < r->trials; i++) out->squeezed += r->squeezed[i];
  out->squeezed /= r->trials;
  if (cost) {
    double own = (double)cost->kind_total[LINE_CONTINGENCY] / MONEY_SCALE;
    out->plan_cost = (double)cost->planned / MONEY_SCALE;
    out->contingency = fmax(out->certain_cost - out->plan_cost, 0);
    out->covered = share_up_to(r->cost, r->trials, out->plan_cost + own);
  }
  mem_free(finishes);
  mem_free(costs);
}

static double late_share(const int *finish, int step, int trials, int by)
{
  int late = 0;
  for (int i = 0; i < trials; i++) late += finish[(size_t)i * (size_t)step] > by;
  return (double)late / trials;
}

static void take_deadlines(const Results *r, const Job *job, Arena *arena, Risk *out)
{
  out->deadlines = arena_array(arena, (size_t)r->area_count + 1, sizeof *out->deadlines);
  if (job->finish_by.given) {
    int by = (int)job->finish_by.figure.value;
    out->deadlines[out->deadline_count++] = (RiskDeadline){ NULL, by, late_share(r->finish, 1, r->trials, by) };
  }
  for (int i = 0; i < r->area_count; i++) {
    const Area *area = &job->areas[r->areas[i]];
    int by = (int)area->finish_by.figure.value;
    out->deadlines[out->deadline_count++] =
      (RiskDeadline){ area->name, by, late_share(r->area_finish + i, r->area_count, r->trials, by) };
  }
}

/* ---- what drives it */

typedef struct {
  const Results *results;
  Risk *out;
  uint64_t *keys;
  double *ranks, *finish_ranks, *cost_ranks;
} Ranking;

static void add_driver(Ranking *x, RiskDriver driver)
{
  int trials = x->results->trials;
  ranks_of(x->keys, trials, x->ranks);
  driver.finish_rank = ranks_correlation(x->ranks, x->finish_ranks, trials);
  driver.cost_rank = ranks_correlation(x->ranks, x->cost_ranks, trials);
  x->out->drivers[x->out->driver_count++] = driver;
}

static void swing(const RiskModel *m, RiskTrial *t, int input, RiskDriver *driver)
{
  const RiskInput *in = &m->inputs[input];
  risk_trial_likely(t);
  risk_trial_set(t, input, spread_at(in->spread, SWING_LOW));
  RiskOutcome low = risk_trial_run(t);
  risk_trial_set(t, input, spread_at(in->spread, SWING_HIGH));
  RiskOutcome high = risk_trial_run(t);
  driver->swings = true;
  driver->finish_low = low.finish;
  driver->finish_high = high.finish;
  driver->cost_low = low.cost;
  driver->cost_high = high.cost;
}

static void rank_inputs(Ranking *x, RiskTrial *t)
{
  const RiskModel *m = x->results->m;
  for (int i = 0; i < m->input_count; i++) {
    const RiskInput *in = &m->inputs[i];
    if (in->spread == NULL) continue;
    RiskDriver driver = { .what = in->what, .unit = in->unit, .at = in->at, .low = in->low, .likely = in->likely,
                          .high = in->high };
    swing(m, t, i, &driver);
    for (int trial = 0; trial < x->results->trials; trial++)
      x->keys[trial] = risk_trial_word(m, (uint32_t)trial, i);
    add_driver(x, driver);
  }
}

static void rank_counts(Ranking *x, const char *what, const Maybe *chance, const int *counts)
{
  if (!chance->given) return;
  double value = chance->figure.value;
  for (int trial = 0; trial < x->results->trials; trial++) x->keys[trial] = (uint64_t)counts[trial];
  add_driver(x, (RiskDriver){ .what = what, .unit = "", .at = chance->at, .low = value, .likely = value,
                              .high = value });
}

static double strength(const RiskDriver *d) { return fmax(fabs(d->finish_rank), fabs(d->cost_rank)); }

static void strongest_first(Risk *out)
{
  for (int i = 1; i < out->driver_count; i++) {
    RiskDriver driver = out->drivers[i];
    int k = i;
    for (; k > 0 && strength(&out->drivers[k - 1]) < strength(&driver); k--) out->drivers[k] = out->drivers[k - 1];
    out->drivers[k] = driver;
  }
}

static void take_drivers(const Results *r, RiskTrial *t, Arena *arena, Risk *out)
{
  size_t trials = (size_t)r->trials;
  Ranking x = { .results = r, .out = out, .keys = mem_array(trials, sizeof *x.keys),
                .ranks = mem_array(trials, sizeof *x.ranks),
                .finish_ranks = mem_array(trials, sizeof *x.finish_ranks),
                .cost_ranks = mem_array(trials, sizeof *x.cost_ranks) };
  out->drivers = arena_array(arena, (size_t)r->m->input_count + 2, sizeof *out->drivers);
  for (size_t i = 0; i < trials; i++) x.keys[i] = (uint64_t)r->finish[i];
  ranks_of(x.keys, r->trials, x.finish_ranks);
  for (size_t i = 0; i < trials; i++) x.keys[i] = ranks_key(r->cost[i]);
  ranks_of(x.keys, r->trials, x.cost_ranks);
  rank_inputs(&x, t);
  rank_counts(&x, "fields done a second time", &r->m->setting->rework, r->reworked);
  rank_counts(&x, "days lost", &r->m->setting->lost_days, r->lost_days);
  strongest_first(out);
  mem_free(x.keys);
  mem_free(x.ranks);
  mem_free(x.finish_ranks);
  mem_free(x.cost_ranks);
}

/* ---- the whole */

static void nothing_uncertain(const Job *job, Diags *diags)
{
  diags_add(diags, &(Diag){
    .level = DIAG_ERROR,
    .code = "risk-nothing",
    .message = "nothing in this job is uncertain, so there is nothing to simulate",
    .at = job->at,
    .help = "write a figure as about(low, likely, high), or give the job risk = { production = about(...) }",
  });
}

static bool is_certain(const RiskModel *m)
{
  for (int i = 0; i < m->input_count; i++)
    if (m->inputs[i].spread) return false;
  return !m->setting->rework.given && !m->setting->lost_days.given;
}

static Results new_results(const RiskModel *m, const RiskOptions *options, const Job *job, Arena *arena)
{
  int *areas = arena_array(arena, (size_t)job->area_count + 1, sizeof *areas);
  Results r = { .m = m, .options = options, .trials = options->trials > 0 ? options->trials : job->risk.trials,
                .areas = areas };
  for (int i = 0; i < job->area_count; i++)
    if (job->areas[i].finish_by.given) areas[r.area_count++] = i;
  size_t trials = (size_t)r.trials;
  r.finish = mem_array(trials, sizeof *r.finish);
  r.reworked = mem_array(trials, sizeof *r.reworked);
  r.lost_days = mem_array(trials, sizeof *r.lost_days);
  r.cost = mem_array(trials, sizeof *r.cost);
  r.squeezed = mem_array(trials, sizeof *r.squeezed);
  r.area_finish = mem_array(trials * (size_t)r.area_count, sizeof *r.area_finish);
  return r;
}

static void free_results(Results *r)
{
  mem_free(r->finish);
  mem_free(r->reworked);
  mem_free(r->lost_days);
  mem_free(r->cost);
  mem_free(r->squeezed);
  mem_free(r->area_finish);
}

/* What the job says, else what the price book asks for, else the default. */
static double certainty_of(const Job *job)
{
  bool book = !job->risk.certainty_given && job->prices && job->prices->certainty.given;
  return book ? job->prices->certainty.figure.value : job->risk.certainty;
}

static Risk *simulate(const RiskModel *m, const Cost *cost, const RiskOptions *options, Arena *arena)
{
  const Job *job = m->plan->job;
  Results r = new_results(m, options, job, arena);
  RiskTrial *t = risk_trial_new(m);
  Risk *out = arena_alloc(arena, sizeof *out);
  risk_trial_likely(t);
  RiskOutcome likely = risk_trial_run(t);
  *out = (Risk){ .trials = r.trials, .seed = m->setting->seed, .shape = m->setting->shape, .costed = cost != NULL,
                 .plan_finish = m->plan->finish, .likely_finish = likely.finish, .likely_cost = likely.cost,
                 .certainty = certainty_of(job), .idle = m->idle, .idle_count = m->idle_count };
  run_trials(&r);
  take_levels(&r, cost, out);
  take_deadlines(&r, job, arena, out);
  take_drivers(&r, t, arena, out);
  risk_trial_free(t);
  free_results(&r);
  return out;
}

static void take_drawn(const RiskModel *m, Arena *arena, RiskCost *out)
{
  const Maybe *chances[] = { &m->setting->rework, &m->setting->lost_days };
  out->drawn = arena_array(arena, (size_t)m->input_count + 2, sizeof *out->drawn);
  out->drawn_count = 0;
  for (int i = 0; i < m->input_count; i++) {
    bool again = i > 0 && m->inputs[i].why == m->inputs[i - 1].why; /* one estimate for each of the areas */
    if (m->inputs[i].spread && !again) out->drawn[out->drawn_count++] = m->inputs[i].why;
  }
  for (int i = 0; i < 2; i++)
    if (chances[i]->given) out->drawn[out->drawn_count++] = chances[i]->figure.why;
}

bool risk_cost(const Plan *plan, const Takeoff *takeoff, const Cost *cost, const WhyBook *why, double share,
               int threads, Arena *arena, RiskCost *out)
{
  RiskModel *m = risk_model_new(plan, takeoff, cost, why, arena);
  bool uncertain = !is_certain(m);
  if (uncertain) {
    const RiskOptions options = { .threads = threads };
    Results r = new_results(m, &options, plan->job, arena);
    run_trials(&r);
    double *costs = sorted_costs(&r);
    out->cost = costs[ranks_quantile(r.trials, share)];
    take_drawn(m, arena, out);
    mem_free(costs);
    free_results(&r);
  }
  risk_model_free(m);
  return uncertain;
}

Risk *risk_run(const Plan *plan, const Takeoff *takeoff, const Cost *cost, const WhyBook *why,
               const RiskOptions *options, Arena *arena, Diags *diags)
{
  RiskModel *m = risk_model_new(plan, takeoff, cost, why, arena);
  Risk *out = NULL;
  if (is_certain(m)) nothing_uncertain(plan->job, diags);
  else out = simulate(m, cost, options, arena);
  risk_model_free(m);
  return out;
}
