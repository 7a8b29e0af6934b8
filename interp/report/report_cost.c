/* report_cost.c - the cost table: price on top, then the lines, then how the price is made of them. */
#include <string.h>

#include "base/json.h"
#include "base/text.h"
#include "cost/show.h"
#include "report/assumptions.h"
#include "report/page.h"
#include "report/report.h"
#include "report/waivers.h"

enum { QUANTITY_CELLS = 10, UNIT_CELLS = 9, RATE_CELLS = 12, AMOUNT_CELLS = 14, FIXED_CELLS = 49 };

static void money_cell(Buf *out, Money money, const char *currency, int cells)
{
  Buf text = { 0 };
  money_print(money, currency, &text);
  page_right(out, buf_text(&text), cells);
  buf_free(&text);
}

static void percent(Buf *out, int64_t ppm)
{
  show_number(out, (double)ppm / 10000, 4);
  buf_puts(out, " %");
}

/* A row of the table whose amount stands in the last column. */
static void amount_row(Buf *out, const char *what, Money amount, const Cost *cost, int width)
{
  page_left(out, what, width - AMOUNT_CELLS - 1);
  buf_putc(out, ' ');
  money_cell(out, amount, cost->currency, AMOUNT_CELLS);
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

static void top(const Plan *plan, const Cost *cost, int width, Buf *out)
{
  Buf text = { 0 };
  top_row(out, "COST", plan->job->name, width);
  page_rule(out, '=', width);
  amount_row(out, cost->complete ? "PRICE" : "SO FAR, NOT A PRICE: something used has no price", cost->price, cost,
             width);
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

static void share_words(const CostLine *line, const Cost *cost, Buf *out)
{
  percent(out, line->share_ppm);
  buf_puts(out, " of ");
  money_print(line->quantity, cost->currency, out);
}

static void line_numbers(const CostLine *line, const Cost *cost, Buf *out)
{
  Buf text = { 0 };
  if (line->share) {
    share_words(line, cost, &text);
    page_right(out, buf_text(&text), QUANTITY_CELLS + UNIT_CELLS + RATE_CELLS + 2);
  } else {
    money_print(line->quantity, "", &text);
    page_right(out, buf_text(&text), QUANTITY_CELLS);
    buf_putc(out, ' ');
    page_left(out, line->unit, UNIT_CELLS);
    buf_putc(out, ' ');
    money_cell(out, line->rate, cost->currency, RATE_CELLS);
  }
  buf_free(&text);
}

static void wide_row(const CostLine *line, const Cost *cost, int width, Buf *out)
{
  page_left(out, line->code, width - FIXED_CELLS);
  buf_putc(out, ' ');
  line_numbers(line, cost, out);
  buf_putc(out, ' ');
  money_cell(out, line->amount, cost->currency, AMOUNT_CELLS);
  page_end_line(out);
  if (!page_fits(line->code, width - FIXED_CELLS)) page_fold(out, "", line->code, width, 4);
}

/* The line, and under it "23.25 h x $62.00" with the amount. */
static void narrow_row(const CostLine *line, const Cost *cost, int width, Buf *out)
{
  Buf text = { 0 };
  page_fold(out, "", line->code, width, 0);
  if (line->share) {
    share_words(line, cost, &text);
  } else {
    money_print(line->quantity, "", &text);
    buf_printf(&text, " %s x ", line->unit);
    money_print(line->rate, cost->currency, &text);
  }
  buf_puts(out, "  ");
  amount_row(out, buf_text(&text), line->amount, cost, width - 2);
  buf_free(&text);
}

static void line_row(const CostLine *line, const Cost *cost, int width, Buf *out)
{
  (width < PAGE_NARROW ? narrow_row : wide_row)(line, cost, width, out);
  page_fold(out, "", line->basis, width, 4);
}

static void heads(int width, Buf *out)
{
  page_left(out, "Line", width - FIXED_CELLS);
  buf_putc(out, ' ');
  page_right(out, "Quantity", QUANTITY_CELLS);
  buf_putc(out, ' ');
  page_left(out, "Unit", UNIT_CELLS);
  buf_putc(out, ' ');
  page_right(out, "Rate", RATE_CELLS);
  buf_putc(out, ' ');
  page_right(out, "Amount", AMOUNT_CELLS);
  page_end_line(out);
}

static void lines(const Cost *cost, int width, Buf *out)
{
  buf_putc(out, '\n');
  if (width >= PAGE_NARROW) heads(width, out);
  page_rule(out, '-', width);
  for (int i = 0; i < cost->line_count; i++) line_row(&cost->lines[i], cost, width, out);
}

/* ---- how the price is made */

static void build_row(const CostLine *line, const Cost *cost, int width, Buf *out)
{
  Buf what = { 0 };
  buf_printf(&what, "  %s, ", line->what);
  if (line->share) percent(&what, line->share_ppm);
  buf_printf(&what, "%s%s", line->share ? " " : "", line->kind == LINE_PROFIT ? "" : line->basis);
  if (line->kind == LINE_PROFIT) buf_puts(&what, cost->profit_rule == PROFIT_MARGIN ? "margin" : "markup");
  amount_row(out, buf_text(&what), line->amount, cost, width);
  buf_free(&what);
}

static void build(const Cost *cost, int width, Buf *out)
{
  static const char *const kinds[] = { "  wages", "  premiums",  "  burden", "  machines",
                                       "  tools", "  materials", "  extras", "  tax" };
  buf_puts(out, "\nHow the price is made\n");
  page_rule(out, '-', width);
  for (int kind = 0; kind < LINE_OVERHEAD; kind++)
    if (cost->kind_total[kind] != 0) amount_row(out, kinds[kind], cost->kind_total[kind], cost, width);
  amount_row(out, "direct cost", cost->direct, cost, width);
  for (int i = 0; i < cost->build_count; i++) {
    if (cost->build[i].kind == LINE_PROFIT) amount_row(out, "cost", cost->cost, cost, width);
    build_row(&cost->build[i], cost, width, out);
  }
  amount_row(out, cost->complete ? "price" : "so far, not a price", cost->price, cost, width);
}

void report_cost_text(const Plan *plan, const Cost *cost, int width, Buf *out)
{
  top(plan, cost, width, out);
  lines(cost, width, out);
  build(cost, width, out);
  waivers_of_job(plan->job, width, out);
}

/* ---- JSON */

/* Amounts are whole cents, and quantities have two decimals at most. */
static void json_cents(JsonWriter *j, const char *key, int64_t value)
{
  json_decimal(j, key, value / MONEY_CENT, 2);
}

static void line_json(JsonWriter *j, const Plan *plan, const CostLine *line)
{
  json_object(j, NULL);
  json_text(j, "code", line->code);
  json_text(j, "kind", line_kind_names[line->kind]);
  json_text(j, "what", line->what);
  json_cents(j, "quantity", line->quantity);
  json_text(j, "unit", line->unit);
  if (line->share) json_decimal(j, "rate", line->share_ppm, 6);
  else json_decimal(j, "rate", line->rate, 4);
  json_cents(j, "amount", line->amount);
  json_text(j, "basis", line->basis);
  json_array(j, "activities");
  for (int i = 0; i < line->behind.count; i++) json_text(j, NULL, plan->activities[line->behind.index[i]].id);
  json_end(j);
  json_end(j);
}

static void lines_json(JsonWriter *j, const char *key, const Plan *plan, const CostLine *list, int count)
{
  json_array(j, key);
  for (int i = 0; i < count; i++) line_json(j, plan, &list[i]);
  json_end(j);
}

void report_cost_json(const Plan *plan, const Cost *cost, const WhyBook *book, const Sources *sources, Buf *out)
{
  static const char *const rules[] = { "none", "margin", "markup" };
  JsonWriter j = json_begin(out);
  json_object(&j, NULL);
  json_text(&j, "format", "gritwork-cost");
  json_integer(&j, "version", 1);
  json_text(&j, "job", plan->job->name);
  json_text(&j, "prices", plan->job->prices->name);
  json_text(&j, "currency", cost->currency);
  json_bool(&j, "complete", cost->complete);
  json_bool(&j, "scheduled", plan->bookings != NULL);
  json_cents(&j, "price", cost->price);
  json_cents(&j, "cost", cost->cost);
  json_cents(&j, "direct", cost->direct);
  json_number(&j, "standing_h", cost->standing_h, 2);
  json_text(&j, "profit_rule", rules[cost->profit_rule]);
  lines_json(&j, "lines", plan, cost->lines, cost->line_count);
  lines_json(&j, "build", plan, cost->build, cost->build_count);
  assumptions_json(&j, plan, cost, book, sources);
  waivers_of_job_json(&j, plan->job);
  json_end(&j);
  json_finish(&j);
}
