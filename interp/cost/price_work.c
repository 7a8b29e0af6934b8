/* price_work.c - people and machines: wages, premiums, burden, running hours, days on site. */
#include <string.h>

#include "cost/ledger.h"
#include "cost/show.h"

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
  if (use->standing_h.value <= 0)
    return arena_printf(l->arena, "%s, %d piece%s of work", how, use->behind.count, plural(use->behind.count));
  return arena_printf(l->arena, "%s, %d piece%s of work; %.2f h of standing between them not charged", how,
                      use->behind.count, plural(use->behind.count), use->standing_h.value);
}

/* Standing time is not in the hours; the assumption hangs on them so that it is listed. */
static Figure charged_hours(const Ledger *l, const LabourUse *use)
{
  if (use->standing_h.value <= 0) return use->hours;
  const Crew *crew = &l->job->crews[use->crew];
  const char *what = arena_printf(l->arena, "standing time charged of crew \"%s\"", crew->name);
  Figure paid = why_default(l->why, what, 0, "h", crew->at,
                            "only booked hours are charged; the schedule shows the gaps");
  return why_computed(l->why, arena_printf(l->arena, "hours charged, %s", crew->name), use->hours.value, "h",
                      "hours booked + standing time charged", (Figure[]){ use->hours, use->standing_h, paid }, 3);
}

static bool add_wages(Ledger *l, const LabourUse *use, const LabourPrice *price)
{
  const char *crew = l->job->crews[use->crew].name;
  CostLine line = { .kind = LINE_LABOUR, .code = arena_printf(l->arena, "LAB-%s", crew), .what = crew, .unit = "h",
                    .basis = hours_basis(l, use), .behind = use->behind };
  return ledger_add(l, line, charged_hours(l, use), &price->per_hour);
}

typedef struct {
  const char *code, *what;
  Figure hours;
  const Percent *premium;
} Premium;

/* A premium is a share of the plain wages of its hours. */
static void add_premium(Ledger *l, const LabourUse *use, const LabourPrice *price, const Premium *p)
{
  if (p->hours.value <= 0 || !ledger_adds(p->premium)) return;
  const char *crew = l->job->crews[use->crew].name;
  Amount hours;
  Money wages;
  CostLine line = { .kind = LINE_PREMIUM, .code = arena_printf(l->arena, "%s-%s", p->code, crew),
                    .what = arena_printf(l->arena, "%s, %s", crew, p->what), .behind = use->behind };
  if (!amount_from(p->hours.value, 2, &hours) || !money_times(price->per_hour.money, hours, &wages)) {
    ledger_overflow(l, line.code, p->premium->at);
    return;
  }
  Buf rate = { 0 };
  money_print(price->per_hour.money, l->cost->currency, &rate);
  line.basis = arena_printf(l->arena, "%.2f h at %s/h", p->hours.value, buf_text(&rate));
  buf_free(&rate);
  ledger_add_share(l, line, wages, (Why[]){ p->hours.why, price->per_hour.why }, 2, p->premium);
}

static void add_premiums(Ledger *l, const LabourUse *use, const LabourPrice *price)
{
  const Premium premiums[] = {
    { "NIGHT", "night premium", use->night_h, &l->prices->night_premium },
    { "OVER", "overtime premium", use->overtime_h, &l->prices->overtime_premium },
  };
  for (size_t i = 0; i < sizeof premiums / sizeof *premiums; i++) add_premium(l, use, price, &premiums[i]);
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
  for (int i = 0; i < t->labour_count; i++)
    if (paid[i]) add_premiums(l, &t->labour[i], paid[i]);
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
