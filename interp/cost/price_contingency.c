/* price_contingency.c - a contingency for a certainty: what the job's risk takes on top of the plan's cost. */
#include <math.h>

#include "cost/ledger.h"
#include "cost/risk.h"
#include "cost/show.h"

static const char *money_text(const Ledger *l, Money money)
{
  Buf text = { 0 };
  money_print(money, l->cost->currency, &text);
  const char *kept = arena_strdup(l->arena, buf_text(&text));
  buf_free(&text);
  return kept;
}

/* "10,000" */
static const char *count_text(const Ledger *l, int count)
{
  if (count < 1000) return arena_printf(l->arena, "%d", count);
  return arena_printf(l->arena, "%d,%03d", count / 1000, count % 1000);
}

static void cannot_simulate(Ledger *l, const char *code, const char *message, const char *help)
{
  l->cost->complete = false;
  diags_add(l->diags, &(Diag){
    .level = DIAG_ERROR,
    .code = code,
    .message = message,
    .at = l->prices->certainty.at,
    .labels = { { l->job->at, "the job" } },
    .label_count = span_is_nowhere(l->job->at) ? 0 : 1,
    .help = help,
  });
}

/* How often and from which numbers was drawn: written in the job, or an assumption. */
static Figure said_or_assumed(Ledger *l, const char *what, int value, Why said)
{
  if (said) return (Figure){ value, said };
  return why_default(l->why, what, value, "", l->job->at,
                     "this project's own choice; the job's `risk` may say another");
}

/* The node of the simulated cost, over all that was drawn. */
static Figure level_why(Ledger *l, const RiskCost *level)
{
  const RiskSetting *risk = &l->job->risk;
  Figure *inputs = arena_array(l->arena, (size_t)level->drawn_count + 4, sizeof *inputs);
  int count = 0;
  inputs[count++] = l->prices->certainty.figure;
  inputs[count++] = said_or_assumed(l, "trials of the simulation", risk->trials, risk->trials_why);
  inputs[count++] = said_or_assumed(l, "seed of the simulation", risk->seed, risk->seed_why);
  inputs[count++] = (Figure){ 0, l->cost->planned_why };
  for (int i = 0; i < level->drawn_count; i++) inputs[count++] = (Figure){ 0, level->drawn[i] };
  const char *formula =
    arena_printf(l->arena, "least cost that %g %% of the trials do not exceed, each estimate drawn %s",
                 l->prices->certainty.figure.value * 100, risk_shape_names[risk->shape]);
  return why_computed(l->why, "direct cost and overhead, simulated", level->cost, l->cost->currency, formula,
                      inputs, count);
}

/* "direct cost and overhead come to $31,250.00 or less in 80 % of 10,000 trials (seed 1, pert), planned are
 * $30,000.00" */
static const char *basis_of(const Ledger *l, Money certain)
{
  const RiskSetting *risk = &l->job->risk;
  return arena_printf(l->arena,
                      "direct cost and overhead come to %s or less in %g %% of %s trials (seed %d, %s), "
                      "planned are %s%s",
                      money_text(l, certain), l->prices->certainty.figure.value * 100,
                      count_text(l, risk->trials), risk->seed, risk_shape_names[risk->shape],
                      money_text(l, l->cost->planned), certain > l->cost->planned ? "" : ", which is enough");
}

static double above_or_nothing(const double *terms, int count)
{
  (void)count;
  return fmax(terms[0] - terms[1], 0);
}

static Why add_line(Ledger *l, const RiskCost *level, const char *code, const char *what)
{
  Amount certain;
  if (!amount_from(level->cost, 2, &certain)) {
    ledger_overflow(l, code, l->prices->certainty.at);
    return 0;
  }
  Money amount = certain > l->cost->planned ? certain - l->cost->planned : 0;
  CostLine line = { .kind = LINE_CONTINGENCY, .code = code, .what = what, .basis = basis_of(l, certain),
                    .at = l->prices->certainty.at };
  const Figure terms[] = { level_why(l, level), ledger_figure(l, l->cost->planned_why) };
  const char *formula = "simulated cost - cost of the plan, not below 0";
  if (!ledger_add_sum(l, line, amount, formula, above_or_nothing, terms, 2)) return 0;
  return l->cost->build[l->cost->build_count - 1].why;
}

Why price_contingency(Ledger *l, const char *code, const char *what)
{
  const Plan *plan = l->takeoff->plan;
  RiskCost level;
  if (plan->bookings == NULL) {
    cannot_simulate(l, "risk-schedule", "a contingency from risk needs a schedule, and there is none",
                    "mend what stands in the way of the schedule, or write the contingency as a share");
    return 0;
  }
  if (risk_cost(plan, l->takeoff, l->cost, l->why, l->prices->certainty.figure.value, l->threads, l->arena, &level))
    return add_line(l, &level, code, what);
  cannot_simulate(l, "risk-nothing", "the contingency is taken from risk, but nothing in the job is uncertain",
                  "give the job risk = { production = about(...) }, or write the contingency as a share: \"5 %\"");
  return 0;
}
