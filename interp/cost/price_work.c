/* price_work.c - people: wages, call-out, standing, premiums, burden. */
#include <stddef.h>
#include <string.h>

#include "cost/ledger.h"

static const char *plural(int count) { return count == 1 ? "" : "s"; }

static const char **names_of_labour(const Ledger *l)
{
  const char **names = arena_array(l->arena, (size_t)l->prices->labour_count + 1, sizeof *names);
  for (int i = 0; i < l->prices->labour_count; i++) names[i] = l->prices->labour[i].name;
  return names;
}

static const LabourPrice *labour_price(const Prices *prices, const char *name)
{
  for (int i = 0; i < prices->labour_count; i++)
    if (strcmp(prices->labour[i].name, name) == 0 && prices->labour[i].per_hour.given) return &prices->labour[i];
  return NULL;
}

static const char *hours_basis(const Ledger *l, const LabourUse *use)
{
  const char *how = l->takeoff->scheduled ? "booked" : "not scheduled";
  const char *pieces = arena_printf(l->arena, "%s, %d piece%s of work", how, use->behind.count,
                                    plural(use->behind.count));
  if (use->standing_h.value <= 0 || ledger_adds(&l->prices->standing)) return pieces;
  return arena_printf(l->arena, "%s; %.2f h of standing between them not charged", pieces, use->standing_h.value);
}

static bool add_wages(Ledger *l, const LabourUse *use, const LabourPrice *price)
{
  const char *crew = l->job->crews[use->crew].name;
  ledger_use_price(l, arena_printf(l->arena, "the wage of `%s`", crew), PRICE_PAID_ON, &price->days, price->at);
  CostLine line = { .kind = LINE_LABOUR, .code = arena_printf(l->arena, "LAB-%s", crew), .what = crew, .unit = "h",
                    .basis = hours_basis(l, use), .behind = use->behind };
  return ledger_add(l, line, use->hours, &price->per_hour);
}

static double first_term(const double *terms, int count)
{
  (void)count;
  return terms[0];
}

/* The least that a person is paid for a shift, where work and standing come to less. */
static void add_call_out(Ledger *l, const LabourUse *use, const LabourPrice *price)
{
  const char *crew = l->job->crews[use->crew].name;
  if (use->call_out_h.value <= 0) return;
  CostLine line = { .kind = LINE_LABOUR, .code = arena_printf(l->arena, "CALL-%s", crew),
                    .what = arena_printf(l->arena, "%s, call-out", crew), .unit = "h", .behind = use->behind,
                    .basis = "shifts shorter than the least time that is paid" };
  Figure terms[] = { use->call_out_h, l->prices->call_out_min.figure };
  Figure hours = why_worked(l->why, line.what, "h", "least time paid - first to last work", first_term, terms, 2);
  ledger_add(l, line, hours, &price->per_hour);
}

/* Paid on top of the wages of work: a share of the plain wages of some hours. */
typedef struct {
  LineKind kind;
  const char *code, *what;
  size_t hours_at; /* in LabourUse */
  size_t share_at; /* in Prices */
} OnWages;

static const OnWages on_wages[] = {
  { LINE_LABOUR, "STAND", "standing between work", offsetof(LabourUse, standing_h), offsetof(Prices, standing) },
  { LINE_PREMIUM, "NIGHT", "night premium", offsetof(LabourUse, night_h), offsetof(Prices, night_premium) },
  { LINE_PREMIUM, "OVER", "overtime premium", offsetof(LabourUse, overtime_h), offsetof(Prices, overtime_premium) },
};

static const char *rated_hours(const Ledger *l, double hours, const Rate *rate)
{
  Buf text = { 0 };
  buf_printf(&text, "%.2f h at ", hours);
  money_print(rate->money, l->cost->currency, &text);
  buf_puts(&text, "/h");
  const char *kept = arena_strdup(l->arena, buf_text(&text));
  buf_free(&text);
  return kept;
}

/* The line of a crew's wages, which has its rate. */
static int wage_line(const Ledger *l, const char *crew)
{
  int i = 0;
  while (l->cost->lines[i].kind != LINE_LABOUR || l->cost->lines[i].share ||
         strcmp(l->cost->lines[i].what, crew) != 0)
    i++;
  return i;
}

static void add_on_wages(Ledger *l, const LabourUse *use, const LabourPrice *price, const OnWages *on)
{
  const Figure *figure = (const Figure *)((const char *)use + on->hours_at);
  const Percent *share = (const Percent *)((const char *)l->prices + on->share_at);
  const char *crew = l->job->crews[use->crew].name;
  Amount hours;
  Money wages;
  if (figure->value <= 0 || !ledger_adds(share)) return;
  CostLine line = { .kind = on->kind, .code = arena_printf(l->arena, "%s-%s", on->code, crew),
                    .what = arena_printf(l->arena, "%s, %s", crew, on->what),
                    .basis = rated_hours(l, figure->value, &price->per_hour), .behind = use->behind };
  line.rated = wage_line(l, crew);
  if (amount_from(figure->value, 2, &hours) && money_times(price->per_hour.money, hours, &wages)) {
    line.hours = hours;
    ledger_add_share(l, line, wages, BASE_PRODUCT, (Why[]){ figure->why, price->per_hour.why }, 2, share);
  } else {
    ledger_overflow(l, line.code, share->at);
  }
}

static void add_burden_line(Ledger *l, CostLine line, const Percent *share)
{
  Money base;
  line.kind = LINE_BURDEN;
  line.basis = "on wages and premiums";
  line.on_kinds = 1u << LINE_LABOUR | 1u << LINE_PREMIUM;
  if (!money_add(l->cost->kind_total[LINE_LABOUR], l->cost->kind_total[LINE_PREMIUM], &base)) {
    ledger_overflow(l, line.code, share->at);
    return;
  }
  Why *inputs = arena_array(l->arena, (size_t)l->cost->line_count + 1, sizeof *inputs);
  int count = ledger_whys(l, LINE_LABOUR, inputs);
  count += ledger_whys(l, LINE_PREMIUM, inputs + count);
  ledger_add_share(l, line, base, BASE_TOTAL, inputs, count, share);
}

static void add_burden(Ledger *l)
{
  const Prices *p = l->prices;
  if (!ledger_adds(&p->burden) || l->takeoff->labour_count == 0) return;
  for (int i = 0; i < p->burden_part_count; i++) {
    const BurdenPart *part = &p->burden_parts[i];
    CostLine line = { .code = arena_printf(l->arena, "BURDEN-%s", part->name), .what = part->name };
    if (ledger_adds(&part->share)) add_burden_line(l, line, &part->share);
  }
  if (p->burden_part_count == 0)
    add_burden_line(l, (CostLine){ .code = "BURDEN", .what = "burden on wages" }, &p->burden);
}

void price_labour(Ledger *l)
{
  const Takeoff *t = l->takeoff;
  const LabourPrice **paid = arena_array(l->arena, (size_t)t->labour_count + 1, sizeof *paid);
  for (int i = 0; i < t->labour_count; i++) {
    const Crew *crew = &l->job->crews[t->labour[i].crew];
    const LabourPrice *price = labour_price(l->prices, crew->name);
    if (price == NULL)
      ledger_missing(l, "crew", crew->name, crew->at, names_of_labour(l), l->prices->labour_count);
    else if (add_wages(l, &t->labour[i], price))
      paid[i] = price;
  }
  for (int i = 0; i < t->labour_count; i++)
    if (paid[i]) add_call_out(l, &t->labour[i], paid[i]);
  for (size_t k = 0; k < sizeof on_wages / sizeof *on_wages; k++)
    for (int i = 0; i < t->labour_count; i++)
      if (paid[i]) add_on_wages(l, &t->labour[i], paid[i], &on_wages[k]);
  add_burden(l);
}
