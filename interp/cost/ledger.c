#include "cost/ledger.h"

#include "base/text.h"
#include "model/date.h"

enum { WHOLE_PPM = 1000000 };

static double major(Money money) { return (double)money / MONEY_SCALE; }

Figure ledger_figure(const Ledger *l, Why why)
{
  const WhyNode *node = why_node(l->why, why);
  return (Figure){ node ? node->value : 0, why };
}

static double in_proportion(const double *terms, int count)
{
  (void)count;
  return terms[0] / terms[1] * terms[2];
}

Figure ledger_in_proportion(const Ledger *l, const char *what, const char *unit, const char *formula, double value,
                            Figure to)
{
  const Figure terms[] = { to, { to.value, 0 }, { value, 0 } };
  return why_worked(l->why, what, unit, formula, in_proportion, terms, 3);
}

static Why amount_why(const Ledger *l, const CostLine *line, const char *formula, WhySum sum, const Figure *terms,
                      int count)
{
  double value = major(line->amount);
  Why *inputs = arena_array(l->arena, (size_t)count + 1, sizeof *inputs);
  for (int i = 0; i < count; i++) inputs[i] = terms[i].why;
  WhyNode node = { .origin = WHY_COMPUTED, .what = line->code, .value = value, .low = value, .high = value,
                   .unit = l->cost->currency, .formula = formula, .basis = line->basis, .inputs = inputs,
                   .input_count = count, .sum = sum, .terms = terms, .term_count = count };
  return why_add(l->why, &node);
}

static CostLine *room_for(CostLine **lines, int *count, Ledger *l)
{
  if (lines == &l->cost->lines && *count == l->line_room) {
    l->line_room = l->line_room ? 2 * l->line_room : 32;
    CostLine *more = arena_array(l->arena, (size_t)l->line_room, sizeof *more);
    for (int i = 0; i < *count; i++) more[i] = (*lines)[i];
    *lines = more;
  }
  return &(*lines)[(*count)++];
}

/* Sums first, so that a line that does not fit leaves the cost as it was. */
static bool write_down(Ledger *l, const CostLine *line)
{
  Cost *cost = l->cost;
  bool direct = line->kind < LINE_OVERHEAD;
  Money of_kind, total;
  if (!money_add(cost->kind_total[line->kind], line->amount, &of_kind)) return false;
  if (!money_add(direct ? cost->direct : cost->price, line->amount, &total)) return false;
  cost->kind_total[line->kind] = of_kind;
  if (direct) {
    cost->direct = total;
    *room_for(&cost->lines, &cost->line_count, l) = *line;
  } else {
    cost->price = total;
    cost->build[cost->build_count++] = *line;
  }
  return true;
}

bool ledger_add(Ledger *l, CostLine line, Figure quantity, const Rate *rate)
{
  line.rate = rate->money;
  line.at = rate->at;
  if (!amount_from(quantity.value, 2, &line.quantity) || !money_times(line.rate, line.quantity, &line.amount)) {
    ledger_overflow(l, line.code, line.at);
    return false;
  }
  const Figure terms[] = { quantity, { major(rate->money), rate->why } };
  line.why = amount_why(l, &line, "quantity to two decimals x rate", why_product, terms, 2);
  if (write_down(l, &line)) return true;
  ledger_overflow(l, line.code, line.at);
  return false;
}

static bool profit_by_margin(const CostLine *line, const Ledger *l)
{
  return line->kind == LINE_PROFIT && l->prices->profit_rule == PROFIT_MARGIN;
}

static bool share_amount(const Ledger *l, CostLine *line)
{
  if (!profit_by_margin(line, l)) return money_fraction(line->quantity, line->share_ppm, &line->amount);
  Money price;
  if (!money_for_margin(line->quantity, line->share_ppm, &price)) return false;
  line->amount = price - line->quantity;
  return true;
}

/* The last term is the share, in per cent. */
static double share_of_total(const double *terms, int count)
{
  return why_total(terms, count - 1) * terms[count - 1] / 100;
}

static double share_of_product(const double *terms, int count) { return why_product(terms, count) / 100; }

static double profit_at_margin(const double *terms, int count)
{
  double cost = why_total(terms, count - 1);
  return cost / (1 - terms[count - 1] / 100) - cost;
}

static Why share_why(const Ledger *l, const CostLine *line, LedgerBase made_of, const Why *inputs, int count,
                     const Percent *share)
{
  Figure *terms = arena_array(l->arena, (size_t)count + 1, sizeof *terms);
  for (int i = 0; i < count; i++) terms[i] = ledger_figure(l, inputs[i]);
  terms[count] = (Figure){ (double)share->ppm * 100 / WHOLE_PPM, share->why };
  if (profit_by_margin(line, l))
    return amount_why(l, line, "cost / (1 - margin) - cost", profit_at_margin, terms, count + 1);
  WhySum sum = made_of == BASE_PRODUCT ? share_of_product : share_of_total;
  return amount_why(l, line, "share x base", sum, terms, count + 1);
}

bool ledger_add_share(Ledger *l, CostLine line, Money base, LedgerBase made_of, const Why *inputs, int input_count,
                      const Percent *share)
{
  line.share = true;
  line.quantity = base;
  line.share_ppm = share->ppm;
  line.unit = l->cost->currency;
  line.at = share->at;
  if (profit_by_margin(&line, l) && share->ppm >= WHOLE_PPM) {
    l->cost->complete = false;
    diags_error(l->diags, "profit-margin", line.at, "a margin of 100 %% or more of the price has no price");
    return false;
  }
  if (!share_amount(l, &line)) {
    ledger_overflow(l, line.code, line.at);
    return false;
  }
  line.why = share_why(l, &line, made_of, inputs, input_count, share);
  if (write_down(l, &line)) return true;
  ledger_overflow(l, line.code, line.at);
  return false;
}

bool ledger_add_sum(Ledger *l, CostLine line, Money amount, const char *formula, WhySum sum, const Figure *terms,
                    int count)
{
  line.unit = "job";
  line.quantity = AMOUNT_SCALE;
  line.rate = line.amount = amount;
  line.why = amount_why(l, &line, formula, sum, terms, count);
  if (write_down(l, &line)) return true;
  ledger_overflow(l, line.code, line.at);
  return false;
}

void ledger_round_up(Ledger *l, const Rate *to, Why price)
{
  Money over = l->cost->price % to->money;
  Buf multiple = { 0 };
  money_print(to->money, l->cost->currency, &multiple);
  CostLine line = { .kind = LINE_ROUNDING, .code = "ROUND", .what = "rounding", .at = to->at };
  line.basis = arena_printf(l->arena, "up to a whole multiple of %s", buf_text(&multiple));
  ledger_add_sum(l, line, over ? to->money - over : 0, "what is missing to it", NULL,
                 (Figure[]){ { 0, price }, { 0, to->why } }, 2);
  buf_free(&multiple);
}

bool ledger_adds(const Percent *share) { return share->given && share->ppm != 0; }

void ledger_overflow(Ledger *l, const char *code, Span at)
{
  l->cost->complete = false;
  diags_error(l->diags, "cost-overflow", at, "`%s` does not fit: the quantity or the amount is too large", code);
}

static const char *day_text(Ledger *l, int day)
{
  int y, m, d;
  date_of_day(day, &y, &m, &d);
  return arena_printf(l->arena, "%04d-%02d-%02d", y, m, d);
}

static int last_day(const Ledger *l)
{
  const Plan *plan = l->takeoff->plan;
  return l->job->start_day + (plan->bookings && plan->finish > 0 ? (plan->finish - 1) / DAY_MIN : 0);
}

void ledger_use_price(Ledger *l, const char *what, PriceUse use, const PriceDays *days, Span at)
{
  int start = l->job->start_day, last = use == PRICE_BOUGHT ? start : last_day(l), until = days->until_day;
  bool early = days->from_day != 0 && start < days->from_day;
  bool sooner = l->cost->good_until == 0 || until < l->cost->good_until;
  if (use == PRICE_PAID_ON && until != 0 && sooner) l->cost->good_until = until;
  if (!early && (until == 0 || last <= until)) return;
  const char *holds = early ? "holds from" : "holds until";
  const char *goes = early || start > until ? "starts on" : "goes on to";
  diags_add(l->diags, &(Diag){
    .level = DIAG_WARNING,
    .code = "price-stale",
    .message = arena_printf(l->arena, "%s %s %s, but the job %s %s", what, holds,
                            day_text(l, early ? days->from_day : until), goes,
                            day_text(l, early || start > until ? start : last)),
    .at = at,
    .labels = { { l->job->at, "the job" } },
    .label_count = span_is_nowhere(l->job->at) ? 0 : 1,
    .help = "use a price of that time, or check this one and change its dates",
  });
}

void ledger_missing(Ledger *l, const char *sort, const char *name, Span at, const char *const *known,
                    int known_count)
{
  enum { NEAR_MOST = 3 };
  const char *near[NEAR_MOST];
  int found = text_near(name, known, (size_t)known_count, near, NEAR_MOST);
  Buf help = { 0 };
  for (int i = 0; i < found; i++) buf_printf(&help, "%s`%s`", i == 0 ? "did you mean " : " or ", near[i]);
  if (found > 0) buf_puts(&help, ", which has a price");
  else buf_printf(&help, "add a price for this %s to the price book", sort);
  l->cost->complete = false;
  diags_add(l->diags, &(Diag){
    .level = DIAG_ERROR,
    .code = "price-missing",
    .message = arena_printf(l->arena, "no price for %s `%s` in price book `%s`", sort, name, l->prices->name),
    .at = at,
    .labels = { { l->prices->at, "the price book" } },
    .label_count = span_is_nowhere(l->prices->at) ? 0 : 1,
    .help = buf_text(&help),
  });
  buf_free(&help);
}

int ledger_whys(const Ledger *l, LineKind kind, Why *out)
{
  int count = 0;
  for (int i = 0; i < l->cost->line_count; i++)
    if (l->cost->lines[i].kind == kind) out[count++] = l->cost->lines[i].why;
  return count;
}
