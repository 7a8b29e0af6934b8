/* price_machines.c - machines: running hours, days on site, hire at the cheapest mix, and what owning them
 * costs. */
#include <string.h>

#include "cost/ledger.h"
#include "cost/owning.h"
#include "trade/packages.h"

static const char *plural(int count) { return count == 1 ? "" : "s"; }

static bool is_hire(const MachinePrice *p) { return p->per_week.given || p->per_month.given; }

static const MachinePrice *machine_price(const Prices *prices, const char *name)
{
  for (int i = 0; i < prices->machine_count; i++) {
    const MachinePrice *p = &prices->machines[i];
    if (strcmp(p->name, name) == 0 && (p->per_hour.given || p->per_day.given || is_hire(p) || p->owned)) return p;
  }
  return NULL;
}

static const char **names_of_machines(const Ledger *l)
{
  const char **names = arena_array(l->arena, (size_t)l->prices->machine_count + 1, sizeof *names);
  for (int i = 0; i < l->prices->machine_count; i++) names[i] = l->prices->machines[i].name;
  return names;
}

static CostLine machine_line(const Ledger *l, const MachineUse *use, const char *code, const char *how,
                             const char *unit)
{
  const char *name = l->job->machines[use->machine].name;
  return (CostLine){ .kind = LINE_MACHINE, .unit = unit, .behind = use->behind,
                     .code = arena_printf(l->arena, "%s-%s", code, name),
                     .what = arena_printf(l->arena, "%s, %s", name, how) };
}

static void add_running(Ledger *l, const MachineUse *use, const Rate *per_hour)
{
  CostLine line = machine_line(l, use, "RUN", "running", "h");
  line.basis = arena_printf(l->arena, "%d piece%s of work", use->behind.count, plural(use->behind.count));
  ledger_add(l, line, use->hours, per_hour);
}

static void add_days(Ledger *l, const MachineUse *use, const Rate *per_day)
{
  CostLine line = machine_line(l, use, "DAY", "on site", "day");
  line.basis = arena_printf(l->arena, l->takeoff->scheduled ? "%d machine%s, first to last use"
                                                            : "%d machine%s, not scheduled",
                            use->units, plural(use->units));
  ledger_add(l, line, use->days, per_day);
}

/* ---- hire by the calendar */

/* A month of hire is four weeks: common practice, no source. */
static const struct {
  const char *code, *how, *unit;
  double days;
} terms[] = { { "DAY", "hired by the day", "day", 1 },
              { "WEEK", "hired by the week", "week", 7 },
              { "MONTH", "hired by the month", "month", 28 } };
enum { TERMS = sizeof terms / sizeof *terms };

typedef struct {
  const Rate *rates[TERMS]; /* NULL: not offered */
  double count[TERMS];
  bool proved;
} Hire;

static bool cheapest_hire(int days, Hire *hire, TradeError *error)
{
  PackageSize sizes[TERMS];
  int term_of[TERMS], count = 0;
  PackageMix mix;
  for (int t = 0; t < TERMS; t++)
    if (hire->rates[t]) {
      sizes[count] = (PackageSize){ terms[t].days, hire->rates[t]->money };
      term_of[count++] = t;
    }
  if (!packages_cover(days, sizes, count, &mix, error)) return false;
  for (int i = 0; i < count; i++) hire->count[term_of[i]] += mix.count[i];
  hire->proved = hire->proved && mix.least_price == mix.price;
  return true;
}

static void add_term(Ledger *l, const MachineUse *use, const Hire *hire, int term, const char *basis)
{
  if (hire->count[term] <= 0) return;
  CostLine line = machine_line(l, use, terms[term].code, terms[term].how, terms[term].unit);
  line.basis = basis;
  Figure count = ledger_in_proportion(l, line.what, terms[term].unit, "packages.cover", hire->count[term],
                                      use->days);
  ledger_add(l, line, count, hire->rates[term]);
}

static void add_hire(Ledger *l, const MachineUse *use, const MachinePrice *price)
{
  const Rate *all[TERMS] = { &price->per_day, &price->per_week, &price->per_month };
  Hire hire = { .proved = true };
  TradeError error;
  int days = 0;
  for (int t = 0; t < TERMS; t++)
    if (all[t]->given) hire.rates[t] = all[t];
  for (int i = 0; i < use->units; i++) {
    days += use->calendar_days[i];
    if (cheapest_hire(use->calendar_days[i], &hire, &error)) continue;
    ledger_overflow(l, price->name, price->at);
    return;
  }
  const char *basis =
    arena_printf(l->arena, "%d calendar day%s of %d machine%s, cheapest mix%s; a month is 28 days", days,
                 plural(days), use->units, plural(use->units), hire.proved ? "" : " found, not proved cheapest");
  for (int t = 0; t < TERMS; t++) add_term(l, use, &hire, t, basis);
}

/* ---- machines of one's own */

static void bad_owned(Ledger *l, const MachinePrice *price)
{
  l->cost->complete = false;
  diags_error(l->diags, "owned", price->at,
              "owning `%s` cannot be reckoned: its life must be at least the hours of a year, salvage and interest "
              "at most 100 %%", price->name);
}

static double fraction(const Percent *share) { return share->given ? (double)share->ppm / 1e6 : 0; }

static const char *owning_basis(const Ledger *l, const Owning *hour)
{
  Amount depreciation = 0, capital = 0;
  Buf text = { 0 };
  amount_from(hour->depreciation, 4, &depreciation);
  amount_from(hour->capital, 4, &capital);
  buf_puts(&text, "hours on the job; depreciation ");
  money_print(depreciation, l->cost->currency, &text);
  buf_puts(&text, " and capital ");
  money_print(capital, l->cost->currency, &text);
  buf_puts(&text, " an hour");
  const char *kept = arena_strdup(l->arena, buf_text(&text));
  buf_free(&text);
  return kept;
}

static void add_owning(Ledger *l, const MachineUse *use, const MachinePrice *price)
{
  const OwnedPrice *own = &price->own;
  Owned machine = { (double)own->price.money / MONEY_SCALE, fraction(&own->salvage), fraction(&own->capital),
                    own->life_h.figure.value, own->year_h.figure.value };
  Owning hour;
  Amount per_hour;
  if (!owning_hour(&machine, &hour) || !amount_from(hour.depreciation + hour.capital, 4, &per_hour)) {
    bad_owned(l, price);
    return;
  }
  CostLine line = machine_line(l, use, "OWN", "owned", "h");
  line.basis = owning_basis(l, &hour);
  Figure inputs[] = { { 0, own->price.why }, { 0, own->salvage.why }, { 0, own->capital.why }, own->life_h.figure,
                      own->year_h.figure };
  Figure rate =
    why_computed(l->why, arena_printf(l->arena, "owning %s, an hour", price->name), (double)per_hour / AMOUNT_SCALE,
                 l->cost->currency, "depreciation + cost of capital", inputs, 5);
  ledger_add(l, line, use->on_job_h, &(Rate){ true, per_hour, rate.why, price->at });
}

static void add_machine(Ledger *l, const MachineUse *use, const MachinePrice *price)
{
  ledger_use_price(l, arena_printf(l->arena, "the price of `%s`", price->name), PRICE_PAID_ON, &price->days,
                   price->at);
  if (price->per_hour.given) add_running(l, use, &price->per_hour);
  if (is_hire(price)) add_hire(l, use, price);
  else if (price->per_day.given) add_days(l, use, &price->per_day);
  if (price->owned) add_owning(l, use, price);
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
