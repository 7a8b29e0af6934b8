#include "cost/price.h"

#include <stddef.h>
#include <string.h>

#include "cost/ledger.h"

const char *const line_kind_names[LINE_KINDS] = {
  "labour", "premium", "burden", "machine", "tool", "material", "extra", "tax", "overhead", "contingency", "profit",
  "rounding",
};

enum { BUILD_MOST = LINE_KINDS - LINE_OVERHEAD };

/* ---- the price book itself */

static void check_currency(Ledger *l)
{
  if (l->job->currency == NULL || strcmp(l->job->currency, l->prices->currency) == 0) return;
  l->cost->complete = false;
  diags_error(l->diags, "price-currency", l->prices->at, "price book `%s` is in %s, but the job is in %s",
              l->prices->name, l->prices->currency, l->job->currency);
}

static void no_prices(const Job *job, Diags *diags)
{
  diags_add(diags, &(Diag){
    .level = DIAG_ERROR,
    .code = "prices-missing",
    .message = "the job names no price book, so it cannot be costed",
    .at = job->at,
    .help = "add `prices = require \"prices.NAME\"` to the job",
  });
}

/* ---- from direct cost to price */

/* Where a share comes to nothing: what says so, or, where the book is silent, an assumption. */
static Why nothing_added(Ledger *l, const Percent *share, const char *what)
{
  if (share->given) return share->why;
  return why_default(l->why, what, 0, "", l->prices->at, "not in the price book: nothing is added").why;
}

typedef struct {
  LineKind kind;
  const char *code, *what, *basis;
  const Percent *share;
} BuildStep;

static Why money_why(Ledger *l, const char *what, Money money, const char *formula, const Why *inputs, int count)
{
  double value = (double)money / MONEY_SCALE;
  Figure *terms = arena_array(l->arena, (size_t)count + 1, sizeof *terms);
  for (int i = 0; i < count; i++) terms[i] = ledger_figure(l, inputs[i]);
  WhyNode node = { .origin = WHY_COMPUTED, .what = what, .value = value, .low = value, .high = value,
                   .unit = l->cost->currency, .formula = formula, .inputs = inputs, .input_count = count,
                   .sum = why_total, .terms = terms, .term_count = count };
  return why_add(l->why, &node);
}

static bool has_hours(const Takeoff *t, size_t hours_at)
{
  for (int i = 0; i < t->labour_count; i++)
    if (((const Figure *)((const char *)&t->labour[i] + hours_at))->value > 0) return true;
  return false;
}

static Why direct_why(Ledger *l)
{
  Cost *cost = l->cost;
  const Prices *p = l->prices;
  const Takeoff *t = l->takeoff;
  const struct {
    const Percent *share;
    const char *what;
    bool applies;
  } shares[] = {
    { &p->burden, "burden on wages", t->labour_count > 0 },
    { &p->standing, "standing time", has_hours(t, offsetof(LabourUse, standing_h)) },
    { &p->night_premium, "night premium", has_hours(t, offsetof(LabourUse, night_h)) },
    { &p->overtime_premium, "overtime premium", has_hours(t, offsetof(LabourUse, overtime_h)) },
    { &p->material_tax, "tax on tools and materials", t->tool_count + t->material_count > 0 },
  };
  Why *inputs = arena_array(l->arena, (size_t)cost->line_count + sizeof shares / sizeof *shares, sizeof *inputs);
  int count = 0;
  for (; count < cost->line_count; count++) inputs[count] = cost->lines[count].why;
  for (size_t i = 0; i < sizeof shares / sizeof *shares; i++)
    if (shares[i].applies && !ledger_adds(shares[i].share))
      inputs[count++] = nothing_added(l, shares[i].share, shares[i].what);
  return money_why(l, "direct cost", cost->direct, "sum of the lines", inputs, count);
}

/* What the price has come to after a step. */
static const char *const so_far_names[] = { [LINE_OVERHEAD] = "direct cost and overhead",
                                            [LINE_CONTINGENCY] = "cost",
                                            [LINE_PROFIT] = "cost and profit" };

/* Adds each step on top of what the price has come to; `so_far` follows. */
static Why add_build_step(Ledger *l, const BuildStep *step, Why so_far)
{
  Cost *cost = l->cost;
  if (!ledger_adds(step->share)) {
    Why inputs[] = { so_far, nothing_added(l, step->share, step->what) };
    return money_why(l, so_far_names[step->kind], cost->price, "nothing added", inputs, 2);
  }
  bool on_direct = step->kind == LINE_OVERHEAD;
  CostLine line = { .kind = step->kind, .code = step->code, .what = step->what, .basis = step->basis };
  line.on_kinds = (1u << (on_direct ? LINE_OVERHEAD : step->kind)) - 1; /* all that stands before it */
  Money base = on_direct ? cost->direct : cost->price;
  if (!ledger_add_share(l, line, base, BASE_TOTAL, &so_far, 1, step->share)) return so_far;
  Why inputs[] = { so_far, cost->build[cost->build_count - 1].why };
  return money_why(l, so_far_names[step->kind], cost->price, "sum", inputs, 2);
}

/* What stands between overhead and profit. */
static Why add_contingency(Ledger *l, const BuildStep *step, Why so_far)
{
  if (!l->prices->certainty.given) return add_build_step(l, step, so_far);
  Why contingency = price_contingency(l, step->code, step->what);
  return money_why(l, so_far_names[step->kind], l->cost->price, "sum", (Why[]){ so_far, contingency }, 2);
}

static void build_price(Ledger *l)
{
  const Prices *p = l->prices;
  Cost *cost = l->cost;
  const char *by_margin = "margin: share of the price, price = cost / (1 - margin)";
  const char *by_markup = "markup: share of the cost, price = cost x (1 + markup)";
  const BuildStep steps[] = {
    { LINE_OVERHEAD, "OVERHEAD", "overhead", "on direct cost", &p->overhead },
    { LINE_CONTINGENCY, "CONTINGENCY", "contingency", "on direct cost and overhead", &p->contingency },
    { LINE_PROFIT, "PROFIT", "profit", p->profit_rule == PROFIT_MARGIN ? by_margin : by_markup, &p->profit },
  };
  cost->build = arena_array(l->arena, BUILD_MOST, sizeof *cost->build);
  cost->price = cost->direct;
  Why why = cost->planned_why = add_build_step(l, &steps[0], direct_why(l));
  cost->planned = cost->price;
  why = add_contingency(l, &steps[1], why);
  cost->cost = cost->price;
  why = add_build_step(l, &steps[2], why);
  if (p->round_to.given && p->round_to.money > 0) {
    ledger_round_up(l, &p->round_to, why);
    why = cost->build[cost->build_count - 1].why;
  }
  cost->why = money_why(l, "price", cost->price, "cost + profit", &why, 1);
}

static void price_direct(Ledger *l)
{
  const Takeoff *t = l->takeoff;
  *l->cost = (Cost){ .currency = l->prices->currency, .complete = true };
  for (int i = 0; i < t->labour_count; i++) l->cost->standing_h += t->labour[i].standing_h.value;
  l->cost->profit_rule = l->prices->profit.given ? l->prices->profit_rule : PROFIT_NONE;
  ledger_use_price(l, arena_printf(l->arena, "price book `%s`", l->prices->name), PRICE_PAID_ON,
                   &l->prices->days, l->prices->at);
  check_currency(l);
  price_labour(l);
  price_machines(l);
  price_tools(l);
  price_materials(l);
  price_extras(l);
  price_taxes(l);
}

static Cost *cost_of(const Takeoff *takeoff, bool whole, int threads, Arena *arena, WhyBook *why, Diags *diags)
{
  const Job *job = takeoff->plan->job;
  if (job->prices == NULL) {
    no_prices(job, diags);
    return NULL;
  }
  Ledger l = { .takeoff = takeoff, .job = job, .prices = job->prices, .arena = arena, .why = why, .diags = diags,
               .cost = arena_alloc(arena, sizeof *l.cost), .threads = threads };
  price_direct(&l);
  if (whole) build_price(&l);
  return l.cost;
}

Cost *cost_price(const Takeoff *takeoff, int threads, Arena *arena, WhyBook *why, Diags *diags)
{
  return cost_of(takeoff, true, threads, arena, why, diags);
}

Cost *cost_direct(const Takeoff *takeoff, Arena *arena, WhyBook *why, Diags *diags)
{
  return cost_of(takeoff, false, 1, arena, why, diags);
}
