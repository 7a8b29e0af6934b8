/* price_work.c - people and machines: wages, standing, premiums, burden, running hours, days on site. */
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
  CostLine line = { .kind = LINE_LABOUR, .code = arena_printf(l->arena, "LAB-%s", crew), .what = crew, .unit = "h",
                    .basis = hours_basis(l, use), .behind = use->behind };
  return ledger_add(l, line, use->hours, &price->per_hour);
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
  if (amount_from(figure->value, 2, &hours) && money_times(price->per_hour.money, hours, &wages))
    ledger_add_share(l, line, wages, (Why[]){ figure->why, price->per_hour.why }, 2, share);
  else
    ledger_overflow(l, line.code, share->at);
}

static void add_burden(Ledger *l)
{
  const Percent *burden = &l->prices->burden;
  Money base;
  if (!ledger_adds(burden) || l->takeoff->labour_count == 0) return;
  CostLine line = { .kind = LINE_BURDEN, .code = "BURDEN", .what = "burden on wages",
                    .basis = "on wages and premiums" };
  if (!money_add(l->cost->kind_total[LINE_LABOUR], l->cost->kind_total[LINE_PREMIUM], &base)) {
    ledger_overflow(l, line.code, burden->at);
    return;
  }
  Why *inputs = arena_array(l->arena, (size_t)l->cost->line_count + 1, sizeof *inputs);
  int count = ledger_whys(l, LINE_LABOUR, inputs);
  count += ledger_whys(l, LINE_PREMIUM, inputs + count);
  ledger_add_share(l, line, base, inputs, count, burden);
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
  for (size_t k = 0; k < sizeof on_wages / sizeof *on_wages; k++)
    for (int i = 0; i < t->labour_count; i++)
      if (paid[i]) add_on_wages(l, &t->labour[i], paid[i], &on_wages[k]);
  add_burden(l);
}

/* ---- machines */

static const MachinePrice *machine_price(const Prices *prices, const char *name)
{
  for (int i = 0; i < prices->machine_count; i++) {
    const MachinePrice *p = &prices->machines[i];
    if (strcmp(p->name, name) == 0 && (p->per_hour.given || p->per_day.given)) return p;
  }
  return NULL;
}

static const char **names_of_machines(const Ledger *l)
{
  const char **names = arena_array(l->arena, (size_t)l->prices->machine_count + 1, sizeof *names);
  for (int i = 0; i < l->prices->machine_count; i++) names[i] = l->prices->machines[i].name;
  return names;
}

static void add_machine(Ledger *l, const MachineUse *use, const MachinePrice *price)
{
  const char *name = l->job->machines[use->machine].name;
  CostLine line = { .kind = LINE_MACHINE, .behind = use->behind };
  if (price->per_hour.given) {
    line.code = arena_printf(l->arena, "RUN-%s", name);
    line.what = arena_printf(l->arena, "%s, running", name);
    line.unit = "h";
    line.basis = arena_printf(l->arena, "%d piece%s of work", use->behind.count, plural(use->behind.count));
    ledger_add(l, line, use->hours, &price->per_hour);
  }
  if (price->per_day.given) {
    line.code = arena_printf(l->arena, "DAY-%s", name);
    line.what = arena_printf(l->arena, "%s, on site", name);
    line.unit = "day";
    line.basis = arena_printf(l->arena, l->takeoff->scheduled ? "%d machine%s, first to last use"
                                                              : "%d machine%s, not scheduled",
                              use->units, plural(use->units));
    ledger_add(l, line, use->days, &price->per_day);
  }
}

void price_machines(Ledger *l)
{
  for (int i = 0; i < l->takeoff->machine_count; i++) {
    const MachineUse *use = &l->takeoff->machines[i];
    const Machine *machine = &l->job->machines[use->machine];
    const MachinePrice *price = machine_price(l->prices, machine->name);
    if (price) add_machine(l, use, price);
    else ledger_missing(l, "machine", machine->name, machine->at, names_of_machines(l), l->prices->machine_count);
  }
}
