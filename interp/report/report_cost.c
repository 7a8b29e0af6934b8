/* report_cost.c - the cost table: price on top, then the lines, then how the price is made of them. */
#include <string.h>

#include "base/text.h"
#include "cost/show.h"
#include "report/page.h"
#include "report/report.h"
#include "report/waivers.h"

enum { QUANTITY_CELLS = 10, UNIT_CELLS = 10, RATE_CELLS = 12, AMOUNT_CELLS = 14, CODE_CELLS = 14, GAPS = 4 };

/* Cells of the columns, as wide as the widest of their numbers; the code has what is left. */
typedef struct {
  int width, code, quantity, rate, amount;
  bool narrow; /* numbers leave no room for the code: they stand in a row of their own */
} Columns;

static void money_cell(Buf *out, Money money, const char *currency, int cells)
{
  Buf text = { 0 };
  money_print(money, currency, &text);
  page_right(out, buf_text(&text), cells);
  buf_free(&text);
}

static void widen(int *cells, Money money, const char *currency)
{
  Buf text = { 0 };
  money_print(money, currency, &text);
  int wanted = text_width(buf_text(&text), text.length);
  if (wanted > *cells) *cells = wanted;
  buf_free(&text);
}

static void percent(Buf *out, int64_t ppm)
{
  show_number(out, (double)ppm / 10000, 4);
  buf_puts(out, " %");
}

static void share_words(const CostLine *line, const Cost *cost, Buf *out)
{
  percent(out, line->share_ppm);
  buf_puts(out, " of ");
  money_print(line->quantity, cost->currency, out);
}

/* The words of a share stand in the place of quantity, unit and rate. */
static void widen_for_share(Columns *c, const CostLine *line, const Cost *cost)
{
  Buf text = { 0 };
  share_words(line, cost, &text);
  int wanted = text_width(buf_text(&text), text.length) - c->quantity - UNIT_CELLS - 2;
  if (wanted > c->rate) c->rate = wanted;
  buf_free(&text);
}

static Columns columns_of(const Cost *cost, int width)
{
  Columns c = { .width = width, .quantity = QUANTITY_CELLS, .rate = RATE_CELLS, .amount = AMOUNT_CELLS };
  widen(&c.amount, cost->price, cost->currency); /* no line is above it but a credit's */
  for (int i = 0; i < cost->line_count; i++) {
    const CostLine *line = &cost->lines[i];
    widen(&c.amount, line->amount, cost->currency);
    if (line->share) continue;
    widen(&c.quantity, line->quantity, "");
    widen(&c.rate, line->rate, cost->currency);
  }
  for (int i = 0; i < cost->line_count; i++)
    if (cost->lines[i].share) widen_for_share(&c, &cost->lines[i], cost);
  c.code = width - c.quantity - UNIT_CELLS - c.rate - c.amount - GAPS;
  c.narrow = width < PAGE_NARROW || c.code < CODE_CELLS;
  return c;
}

/* A row of the table whose amount stands in the last column. */
static void amount_row(Buf *out, const char *what, Money amount, const Cost *cost, const Columns *c)
{
  int cells = c->width - c->amount - 1;
  bool fits = page_fits(what, cells);
  int indent = (int)strspn(what, " ");
  if (!fits) page_fold(out, "", what + indent, c->width, indent);
  page_left(out, fits ? what : "", cells);
  buf_putc(out, ' ');
  money_cell(out, amount, cost->currency, c->amount);
  page_end_line(out);
}

/* ---- on top */

static void profit_words(const Cost *cost, Buf *out)
{
  static const char *const words[] = {
    [PROFIT_NONE] = "no profit is added: the price book names none",
    [PROFIT_MARGIN] = "margin, a share of the price",
    [PROFIT_MARKUP] = "markup, a share of the cost",
  };
  for (int i = 0; i < cost->build_count && cost->profit_rule != PROFIT_NONE; i++)
    if (cost->build[i].kind == LINE_PROFIT) {
      percent(out, cost->build[i].share_ppm);
      buf_putc(out, ' ');
    }
  buf_puts(out, words[cost->profit_rule]);
}

/* Money per unit of floor, to the cent, for a first look only. */
static void per_floor(const Plan *plan, const Cost *cost, Buf *out)
{
  double floor_m2 = 0;
  for (int i = 0; i < plan->job->area_count; i++) floor_m2 += plan->job->areas[i].area_m2.value;
  const char *unit = kind_unit(KIND_AREA, plan->job->metric ? UNITS_METRIC : UNITS_US);
  Quantity floor = quantity_of(floor_m2, "m2");
  QuantityError error;
  double in_unit;
  Amount each;
  if (floor_m2 <= 0 || !quantity_in(&floor, unit, &in_unit, &error)) return;
  if (!amount_from((double)cost->price / MONEY_SCALE / in_unit, 2, &each)) return;
  show_quantity(out, floor_m2, "m2", KIND_AREA, plan->job->metric);
  buf_puts(out, ", ");
  money_print(each, cost->currency, out);
  buf_printf(out, "/%s", unit);
}

static void hours_words(const Plan *plan, const Cost *cost, Buf *out)
{
  buf_puts(out, plan->bookings ? "as booked" : "not scheduled: no premium hours, days assumed");
  if (cost->standing_h <= 0) return;
  buf_printf(out, "; %.2f h of standing between them are ", cost->standing_h);
  const Percent *paid = &plan->job->prices->standing;
  if (paid->given && paid->ppm > 0) {
    buf_puts(out, "charged at ");
    percent(out, paid->ppm);
  } else {
    buf_puts(out, "not charged");
  }
}

static void top_row(Buf *out, const char *label, const char *text, int width)
{
  Buf lead = { 0 };
  text_left(&lead, label, 10);
  page_fold(out, buf_text(&lead), text, width, 0);
  buf_free(&lead);
}

static void top(const Plan *plan, const Cost *cost, const Columns *c, Buf *out)
{
  Buf text = { 0 };
  int width = c->width;
  top_row(out, "COST", plan->job->name, width);
  page_rule(out, '=', width);
  const char *what = cost->complete ? "PRICE" : "SO FAR, NOT A PRICE: something used has no price";
  amount_row(out, what, cost->price, cost, c);
  per_floor(plan, cost, &text);
  top_row(out, "floor", buf_text(&text), width);
  buf_clear(&text);
  profit_words(cost, &text);
  top_row(out, "profit", buf_text(&text), width);
  top_row(out, "prices", plan->job->prices->name, width);
  buf_clear(&text);
  hours_words(plan, cost, &text);
  top_row(out, "hours", buf_text(&text), width);
  buf_free(&text);
}

/* ---- lines */

static void line_numbers(const CostLine *line, const Cost *cost, const Columns *c, Buf *out)
{
  Buf text = { 0 };
  if (line->share) {
    share_words(line, cost, &text);
    page_right(out, buf_text(&text), c->quantity + UNIT_CELLS + c->rate + 2);
  } else {
    money_print(line->quantity, "", &text);
    page_right(out, buf_text(&text), c->quantity);
    buf_putc(out, ' ');
    page_left(out, line->unit, UNIT_CELLS);
    buf_putc(out, ' ');
    money_cell(out, line->rate, cost->currency, c->rate);
  }
  buf_free(&text);
}

static void wide_row(const CostLine *line, const Cost *cost, const Columns *c, Buf *out)
{
  page_left(out, line->code, c->code);
  buf_putc(out, ' ');
  line_numbers(line, cost, c, out);
  buf_putc(out, ' ');
  money_cell(out, line->amount, cost->currency, c->amount);
  page_end_line(out);
  if (!page_fits(line->code, c->code)) page_fold(out, "", line->code, c->width, 4);
}

/* The line, and under it "23.25 h x $62.00" with the amount. */
static void narrow_row(const CostLine *line, const Cost *cost, const Columns *c, Buf *out)
{
  Buf text = { 0 };
  page_fold(out, "", line->code, c->width, 0);
  buf_puts(&text, "  ");
  if (line->share) {
    share_words(line, cost, &text);
  } else {
    money_print(line->quantity, "", &text);
    buf_printf(&text, " %s x ", line->unit);
    money_print(line->rate, cost->currency, &text);
  }
  amount_row(out, buf_text(&text), line->amount, cost, c);
  buf_free(&text);
}

static void line_row(const CostLine *line, const Cost *cost, const Columns *c, Buf *out)
{
  (c->narrow ? narrow_row : wide_row)(line, cost, c, out);
  page_fold(out, "", line->basis, c->width, 4);
}

static void heads(const Columns *c, Buf *out)
{
  page_left(out, "Line", c->code);
  buf_putc(out, ' ');
  page_right(out, "Quantity", c->quantity);
  buf_putc(out, ' ');
  page_left(out, "Unit", UNIT_CELLS);
  buf_putc(out, ' ');
  page_right(out, "Rate", c->rate);
  buf_putc(out, ' ');
  page_right(out, "Amount", c->amount);
  page_end_line(out);
}

static void lines(const Cost *cost, const Columns *c, Buf *out)
{
  buf_putc(out, '\n');
  if (!c->narrow) heads(c, out);
  page_rule(out, '-', c->width);
  for (int i = 0; i < cost->line_count; i++) line_row(&cost->lines[i], cost, c, out);
}

/* ---- how the price is made */

static void build_row(const CostLine *line, const Cost *cost, const Columns *c, Buf *out)
{
  bool from_risk = line->kind == LINE_CONTINGENCY && !line->share;
  Buf what = { 0 };
  buf_printf(&what, "  %s, ", line->what);
  if (line->share) percent(&what, line->share_ppm);
  if (line->kind == LINE_PROFIT) buf_puts(&what, cost->profit_rule == PROFIT_MARGIN ? " margin" : " markup");
  else buf_printf(&what, "%s%s", line->share ? " " : "", from_risk ? "from risk" : line->basis);
  amount_row(out, buf_text(&what), line->amount, cost, c);
  if (from_risk) page_fold(out, "", line->basis, c->width, 4);
  buf_free(&what);
}

static void build(const Cost *cost, const Columns *c, Buf *out)
{
  static const char *const kinds[] = { "  wages", "  premiums",  "  burden", "  machines",
                                       "  tools", "  materials", "  extras", "  tax" };
  buf_puts(out, "\nHow the price is made\n");
  page_rule(out, '-', c->width);
  for (int kind = 0; kind < LINE_OVERHEAD; kind++)
    if (cost->kind_total[kind] != 0) amount_row(out, kinds[kind], cost->kind_total[kind], cost, c);
  amount_row(out, "direct cost", cost->direct, cost, c);
  for (int i = 0; i < cost->build_count; i++) {
    if (cost->build[i].kind == LINE_PROFIT) amount_row(out, "cost", cost->cost, cost, c);
    build_row(&cost->build[i], cost, c, out);
  }
  amount_row(out, cost->complete ? "price" : "so far, not a price", cost->price, cost, c);
}

void report_cost_text(const Plan *plan, const Cost *cost, int width, Buf *out)
{
  const Columns c = columns_of(cost, width);
  top(plan, cost, &c, out);
  lines(cost, &c, out);
  build(cost, &c, out);
  waivers_of_job(plan->job, width, out);
}
