/* bid_workbook.c - the bid as a workbook that reckons: change a quantity, a rate or a share, and the price
 * follows.
 *
 * Amounts are rounded as the engine does it, half-even to the cent, so that both agree. Base of a share is a
 * formula over the lines it is a share of. Cells that are meant to be changed have a style of their own. */
#include <string.h>

#include "report/assumptions.h"
#include "report/bid_parts.h"
#include "report/page.h"
#include "report/step_words.h"
#include "report/workbook.h"

const char *const workbook_styles[STYLES] = { "text",    "small",    "title", "head",        "head right",
                                              "number",  "money",    "rate",  "share",       "in number",
                                              "in rate", "in share", "total", "total money", "price" };

typedef struct {
  const Bid *bid;
  Buf *out;
  int row;
  int first_line, direct_row;     /* rows of the price sheet, counted from 1 as formulas do */
  int kind_first[LINE_OVERHEAD], kind_last[LINE_OVERHEAD];
} Book;

/* Columns of the price sheet. */
enum { CODE, WHAT, QUANTITY, UNIT, RATE, AMOUNT, BASIS };

static void put(Book *b, int column, WorkbookStyle style, const char *kind, const char *value, const char *result)
{
  Text row = arena_printf(b->bid->arena, "%d", b->row), col = arena_printf(b->bid->arena, "%d", column);
  cells_add(b->out, "cell", row, col, workbook_styles[style], kind, value, result, NULL);
}

static void put_text(Book *b, int column, WorkbookStyle style, const char *text)
{
  put(b, column, style, "t", text, NULL);
}

static Text decimal(const Bid *bid, int64_t value, int64_t scale)
{
  int digits = scale == 1000000 ? 6 : 4;
  return arena_printf(bid->arena, "%lld.%0*lld", (long long)(value / scale), digits, (long long)(value % scale));
}

static Text plain(const Bid *bid, int64_t value) { return decimal(bid, value, MONEY_SCALE); }

static void put_number(Book *b, int column, WorkbookStyle style, Text number)
{
  put(b, column, style, "n", number, NULL);
}

static void put_formula(Book *b, int column, WorkbookStyle style, Text formula, Money result)
{
  put(b, column, style, "f", formula, plain(b->bid, result));
}

static void start_sheet(Book *b, const char *name, const char *page, const char *const *widths, int count)
{
  const char *cells[CELLS_MOST] = { "columns" };
  Text foot = arena_printf(b->bid->arena, "%s, %s. Fingerprint of the sources %.16s", b->bid->plan->job->name, name,
                           b->bid->fingerprint);
  cells_add(b->out, "sheet", name, page, foot, NULL);
  for (int i = 0; i < count; i++) cells[i + 1] = widths[i];
  cells_add_list(b->out, cells, count + 1);
  b->row = 0;
}

static void put_heads(Book *b, const char *const *heads, unsigned right, int count)
{
  Text row = arena_printf(b->bid->arena, "%d", b->row);
  cells_add(b->out, "repeat", row, row, NULL);
  for (int i = 0; i < count; i++) put_text(b, i, right >> i & 1 ? STYLE_HEAD_RIGHT : STYLE_HEAD, heads[i]);
  b->row++;
}

/* ---- the price */

/* The formula of a product in cents, half-even: ROUND goes away from zero, so a tie over an even cent goes back. */
static Text half_even(const Bid *bid, Text product)
{
  return arena_printf(bid->arena, "ROUND(%s,2)-IF(MOD(ROUND((%s)*100,6),2)=0.5,0.01,0)", product, product);
}

static Text sum_of_kinds(const Book *b, unsigned kinds)
{
  Buf text = { 0 };
  for (int kind = 0; kind < LINE_OVERHEAD; kind++)
    if (kinds >> kind & 1 && b->kind_first[kind] > 0)
      buf_printf(&text, "%sF%d:F%d", text.length ? "," : "SUM(", b->kind_first[kind], b->kind_last[kind]);
  buf_puts(&text, text.length ? ")" : "0");
  return bid_keep(b->bid, &text);
}

/* What a share is of: wages of some hours at the rate of another line, or the sum of lines. */
static Text base_formula(const Book *b, const CostLine *line)
{
  if (line->on_kinds != 0) return sum_of_kinds(b, line->on_kinds);
  Text wages = arena_printf(b->bid->arena, "%s*E%d", plain(b->bid, line->hours), b->first_line + line->rated);
  return half_even(b->bid, wages);
}

static void put_line_head(Book *b, const CostLine *line)
{
  put_text(b, CODE, STYLE_TEXT, line->code);
  put_text(b, WHAT, STYLE_TEXT, line->what);
  put_text(b, UNIT, STYLE_TEXT, line->unit);
  put_text(b, BASIS, STYLE_SMALL, line->basis);
}

static Text product_of_row(const Book *b) { return arena_printf(b->bid->arena, "C%d*E%d", b->row + 1, b->row + 1); }

static void put_line(Book *b, const CostLine *line)
{
  const Bid *bid = b->bid;
  if (b->kind_first[line->kind] == 0) b->kind_first[line->kind] = b->row + 1;
  b->kind_last[line->kind] = b->row + 1;
  put_line_head(b, line);
  if (line->share) {
    put_formula(b, QUANTITY, STYLE_MONEY, base_formula(b, line), line->quantity);
    put_number(b, RATE, STYLE_IN_SHARE, decimal(bid, line->share_ppm, 1000000));
  } else {
    put_number(b, QUANTITY, STYLE_IN_NUMBER, plain(bid, line->quantity));
    put_number(b, RATE, STYLE_IN_RATE, plain(bid, line->rate));
  }
  put_formula(b, AMOUNT, STYLE_MONEY, half_even(bid, product_of_row(b)), line->amount);
  b->row++;
}

/* Up to a whole multiple; the sixth decimal keeps a whole number of multiples from going one up. */
static Text rounding_formula(const Book *b)
{
  int row = b->row + 1;
  return arena_printf(b->bid->arena, "ROUND(ROUNDUP(ROUND(C%d/E%d,6),0)*E%d-C%d,2)", row, row, row, row);
}

static Text margin_formula(const Book *b)
{
  Text price = arena_printf(b->bid->arena, "C%d/(1-E%d)", b->row + 1, b->row + 1);
  return arena_printf(b->bid->arena, "ROUND(%s-C%d,2)", half_even(b->bid, price), b->row + 1);
}

static Text build_base(const Book *b, LineKind kind)
{
  if (kind == LINE_OVERHEAD || b->row == b->direct_row) return arena_printf(b->bid->arena, "F%d", b->direct_row);
  return arena_printf(b->bid->arena, "SUM(F%d:F%d)", b->direct_row, b->row);
}

/* A contingency from risk: the workbook cannot simulate, so it is a sum to be changed by hand. */
static void put_sum(Book *b, const CostLine *line)
{
  CostLine shown = *line;
  shown.basis = arena_printf(b->bid->arena, "%s. It does not follow what is changed here.", line->basis);
  put_line_head(b, &shown);
  put_number(b, QUANTITY, STYLE_NUMBER, plain(b->bid, line->quantity));
  put_number(b, RATE, STYLE_IN_RATE, plain(b->bid, line->rate));
  put_formula(b, AMOUNT, STYLE_MONEY, half_even(b->bid, product_of_row(b)), line->amount);
  b->row++;
}

static void put_build(Book *b, const CostLine *line, Money so_far)
{
  const Bid *bid = b->bid;
  bool rounding = line->kind == LINE_ROUNDING;
  bool margin = line->kind == LINE_PROFIT && bid->cost->profit_rule == PROFIT_MARGIN;
  put_line_head(b, line);
  put_formula(b, QUANTITY, STYLE_MONEY, build_base(b, line->kind), rounding ? so_far : line->quantity);
  if (rounding) put_number(b, RATE, STYLE_IN_RATE, plain(bid, bid->plan->job->prices->round_to.money));
  else put_number(b, RATE, STYLE_IN_SHARE, decimal(bid, line->share_ppm, 1000000));
  Text formula = rounding ? rounding_formula(b) : margin ? margin_formula(b) : half_even(bid, product_of_row(b));
  put_formula(b, AMOUNT, STYLE_MONEY, formula, line->amount);
  b->row++;
}

static void put_total(Book *b, const char *label, Text formula, Money result)
{
  for (int i = CODE; i <= BASIS; i++)
    if (i != AMOUNT) put_text(b, i, STYLE_TOTAL, i == CODE ? label : "");
  put_formula(b, AMOUNT, STYLE_TOTAL_MONEY, formula, result);
  b->row++;
}

/* Rows over the lines: what it is, the price, how to use it. */
enum { PRICE_ROW = 2, HEADS_ROW = 5 };

static void put_top(Book *b, int price_row)
{
  const Job *job = b->bid->plan->job;
  put_text(b, CODE, STYLE_TITLE, arena_printf(b->bid->arena, "%s%s%s", job->name, job->client ? ", for " : "",
                                              job->client ? job->client : ""));
  b->row = PRICE_ROW;
  put_text(b, CODE, STYLE_TITLE, "Price");
  put_formula(b, AMOUNT, STYLE_PRICE, arena_printf(b->bid->arena, "F%d", price_row), b->bid->cost->price);
  put_text(b, BASIS, STYLE_SMALL, b->bid->cost->currency);
  b->row++;
  put_text(b, CODE, STYLE_SMALL, "Framed cells may be changed: quantities, rates, shares. All else follows.");
  b->row = HEADS_ROW;
}

static void price_sheet(Book *b)
{
  static const char *const widths[] = { "26", "30", "12", "10", "11", "14", "52" };
  static const char *const heads[] = { "Line",   "What", "Quantity or base", "Unit", "Rate or share",
                                       "Amount", "Basis" };
  const Cost *cost = b->bid->cost;
  Money so_far = cost->direct;
  start_sheet(b, "Price", "landscape", widths, 7);
  put_top(b, HEADS_ROW + 1 + cost->line_count + 1 + cost->build_count + 1);
  put_heads(b, heads, 1u << QUANTITY | 1u << RATE | 1u << AMOUNT, 7);
  b->first_line = b->row + 1;
  for (int i = 0; i < cost->line_count; i++) put_line(b, &cost->lines[i]);
  put_total(b, "direct cost", sum_of_kinds(b, (1u << LINE_OVERHEAD) - 1), cost->direct);
  b->direct_row = b->row;
  for (int i = 0; i < cost->build_count; i++) {
    if (cost->build[i].kind == LINE_CONTINGENCY && !cost->build[i].share) put_sum(b, &cost->build[i]);
    else put_build(b, &cost->build[i], so_far);
    so_far += cost->build[i].amount;
  }
  put_total(b, "price", arena_printf(b->bid->arena, "SUM(F%d:F%d)", b->direct_row, b->row), cost->price);
}

/* ---- the other sheets */

static void area_sheet(Book *b)
{
  static const char *const widths[] = { "28", "30", "12", "12", "14", "14" };
  const Bid *bid = b->bid;
  const Job *job = bid->plan->job;
  const char *unit = kind_unit(KIND_AREA, job->metric ? UNITS_METRIC : UNITS_US);
  Text heads[] = { "Area", "Recipe", arena_printf(bid->arena, "Floor, %s", unit), "Share of price", "Price",
                   arena_printf(bid->arena, "Price/%s", unit) };
  start_sheet(b, "Areas", "portrait", widths, 6);
  put_heads(b, heads, 0x3C, 6);
  for (int i = 0; i < job->area_count; i++, b->row++) {
    Quantity floor = quantity_of(job->areas[i].area_m2.value, "m2");
    QuantityError error;
    double in_unit = 0, share = bid->cost->price > 0 ? (double)bid->area_price[i] / (double)bid->cost->price : 0;
    quantity_in(&floor, unit, &in_unit, &error);
    put_text(b, 0, STYLE_TEXT, job->areas[i].name);
    put_text(b, 1, STYLE_TEXT, job->recipes[job->areas[i].recipe].name);
    put_number(b, 2, STYLE_NUMBER, arena_printf(bid->arena, "%.4f", in_unit));
    put_number(b, 3, STYLE_SHARE, arena_printf(bid->arena, "%.10f", share));
    put_formula(b, 4, STYLE_MONEY, arena_printf(bid->arena, "D%d*Price!F%d", b->row + 1, PRICE_ROW + 1),
                bid->area_price[i]);
    put(b, 5, STYLE_MONEY, "f", arena_printf(bid->arena, "IF(C%d>0,E%d/C%d,0)", b->row + 1, b->row + 1, b->row + 1),
        arena_printf(bid->arena, "%.4f", in_unit > 0 ? (double)bid->area_price[i] / MONEY_SCALE / in_unit : 0));
  }
}

static void buy_sheet(Book *b)
{
  static const char *const widths[] = { "34", "10", "10", "12", "14", "52" }, *const heads[] = {
    "What", "How many", "Of", "Each", "Together", "Basis" };
  const Bid *bid = b->bid;
  Purchase *list = arena_array(bid->arena, (size_t)bid->cost->line_count + 1, sizeof *list);
  int count = bid_purchases(bid, list);
  start_sheet(b, "To buy", "landscape", widths, 6);
  put_heads(b, heads, 0x1A, 6);
  for (int i = 0; i < count; i++, b->row++) {
    put_text(b, 0, STYLE_TEXT, list[i].what);
    put_number(b, 1, STYLE_IN_NUMBER, arena_printf(bid->arena, "%d", list[i].count));
    put_text(b, 2, STYLE_TEXT, list[i].line->unit);
    put_number(b, 3, STYLE_IN_RATE, plain(bid, list[i].each));
    put_formula(b, 4, STYLE_MONEY, arena_printf(bid->arena, "B%d*D%d", b->row + 1, b->row + 1), list[i].all);
    put_text(b, 5, STYLE_SMALL, list[i].line->basis);
  }
}

static Text instant(const Bid *bid, int minute)
{
  Buf text = { 0 };
  page_instant(&text, bid->plan->job, minute);
  return bid_keep(bid, &text);
}

static void work_sheet(Book *b)
{
  static const char *const widths[] = { "22", "24", "22", "20", "20", "34", "22" }, *const heads[] = {
    "Area", "Step", "Work", "Start", "Finish", "Who", "Machine" };
  const Plan *plan = b->bid->plan;
  start_sheet(b, "Work", "landscape", widths, 7);
  put_heads(b, heads, 0, 7);
  for (int i = 0; i < plan->activity_count; i++, b->row++) {
    const Activity *a = &plan->activities[i];
    const Booking *booking = &plan->bookings[i];
    Buf who = { 0 };
    for (int p = 0; p < booking->people_count; p++)
      buf_printf(&who, "%s%s", p > 0 ? ", " : "", plan->persons[booking->people[p]].name);
    put_text(b, 0, STYLE_TEXT, plan->job->areas[a->area].name);
    put_text(b, 1, STYLE_TEXT, step_of(plan, a)->name);
    put_text(b, 2, STYLE_TEXT,
             arena_printf(b->bid->arena, "%s, %s", step_words[step_of(plan, a)->word].name, work_name(a->kind)));
    put_text(b, 3, STYLE_TEXT, instant(b->bid, booking->start));
    put_text(b, 4, STYLE_TEXT, instant(b->bid, booking->finish));
    put_text(b, 5, STYLE_TEXT, bid_keep(b->bid, &who));
    put_text(b, 6, STYLE_TEXT, a->machine < 0 ? "" : plan->job->machines[a->machine].name);
  }
}

static void put_assumption(const char *subject, const char *reason, void *context)
{
  Book *b = context;
  put_text(b, 0, STYLE_TEXT, subject);
  put_text(b, 1, STYLE_TEXT, reason);
  b->row++;
}

static void assumed_sheet(Book *b)
{
  static const char *const widths[] = { "60", "70" }, *const heads[] = { "Assumed, since nobody said otherwise",
                                                                         "Why, and where" };
  start_sheet(b, "Assumed", "landscape", widths, 2);
  put_heads(b, heads, 0, 2);
  assumptions_each(b->bid->plan, b->bid->cost, b->bid->book, b->bid->sources, put_assumption, b);
}

void bid_workbook(const Bid *bid, Buf *book)
{
  Book b = { .bid = bid, .out = book };
  cells_add(book, "book", arena_printf(bid->arena, "Bid: %s", bid->plan->job->name), bid->made, NULL);
  price_sheet(&b);
  area_sheet(&b);
  buy_sheet(&b);
  work_sheet(&b);
  assumed_sheet(&b);
}
