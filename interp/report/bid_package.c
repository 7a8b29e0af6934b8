/* bid_package.c - everything for the shop: the price to the last line, the work by the day, what to buy, what is
 * assumed. */
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "report/assumptions.h"
#include "report/bid_parts.h"
#include "report/node_words.h"
#include "report/page.h"
#include "report/step_words.h"

/* ---- money */

static void add_line(const Bid *bid, const CostLine *line, Buf *paper)
{
  Text rate = line->share ? bid_percent(bid, line->share_ppm) : bid_money(bid, line->rate);
  Text quantity = line->share ? bid_money(bid, line->quantity) : bid_amount(bid, line->quantity);
  paper_add(paper, PAPER_ROW, line->code, quantity, line->share ? "" : line->unit, rate,
            bid_money(bid, line->amount), NULL);
  paper_add(paper, PAPER_NOTE, line->basis, NULL);
}

/* "profit, 18 % margin" */
static Text build_words(const Bid *bid, const CostLine *line)
{
  if (!line->share) return line->kind == LINE_CONTINGENCY ? "contingency, from risk" : line->what;
  Text rule = line->kind != LINE_PROFIT ? "" : bid->cost->profit_rule == PROFIT_MARGIN ? " margin" : " markup";
  return arena_printf(bid->arena, "%s, %s%s", line->what, bid_percent(bid, line->share_ppm), rule);
}

static void add_lines(const Bid *bid, Buf *paper)
{
  static const char *const kinds[] = { "wages", "premiums",  "burden", "machines",
                                       "tools", "materials", "extras", "tax" };
  const Cost *cost = bid->cost;
  paper_add(paper, PAPER_HEAD, "How the price is made", NULL);
  paper_add(paper, PAPER_TABLE, "l70", "r30", NULL);
  for (int kind = 0; kind < LINE_OVERHEAD; kind++)
    if (cost->kind_total[kind] != 0)
      paper_add(paper, PAPER_ROW, kinds[kind], bid_money(bid, cost->kind_total[kind]), NULL);
  paper_add(paper, PAPER_TOTAL, "direct cost", bid_money(bid, cost->direct), NULL);
  for (int i = 0; i < cost->build_count; i++) {
    const CostLine *line = &cost->build[i];
    if (line->kind == LINE_PROFIT) paper_add(paper, PAPER_TOTAL, "cost", bid_money(bid, cost->cost), NULL);
    paper_add(paper, PAPER_ROW, build_words(bid, line), bid_money(bid, line->amount), NULL);
    paper_add(paper, PAPER_NOTE, line->basis, NULL);
  }
  paper_add(paper, PAPER_TOTAL, "price", bid_money(bid, cost->price), NULL);
  paper_add(paper, PAPER_HEAD, "Line by line", NULL);
  paper_add(paper, PAPER_TABLE, "l36", "r16", "l12", "r16", "r20", NULL);
  paper_add(paper, PAPER_HEADS, "Line", "Quantity", "Unit", "Rate", "Amount", NULL);
  for (int i = 0; i < cost->line_count; i++) add_line(bid, &cost->lines[i], paper);
  paper_add(paper, PAPER_TOTAL, "direct cost", "", "", "", bid_money(bid, cost->direct), NULL);
}

/* ---- work */

typedef struct {
  int activity, start, finish;
  const int *people;
} Piece;

static int compare_pieces(const void *left, const void *right)
{
  const Piece *a = left, *b = right;
  if (a->start != b->start) return a->start < b->start ? -1 : 1;
  return (a->activity > b->activity) - (a->activity < b->activity);
}

static Piece *pieces_of(const Plan *plan, int *count)
{
  int room = 0;
  for (int i = 0; i < plan->activity_count; i++) room += plan->bookings[i].stretch_count;
  Piece *pieces = mem_array((size_t)room + 1, sizeof *pieces);
  *count = 0;
  for (int i = 0; i < plan->activity_count; i++)
    for (int s = 0; s < plan->bookings[i].stretch_count; s++) {
      const Stretch *stretch = &plan->bookings[i].stretches[s];
      pieces[(*count)++] = (Piece){ i, stretch->start, stretch->finish, stretch->people };
    }
  qsort(pieces, (size_t)*count, sizeof *pieces, compare_pieces);
  return pieces;
}

static Text people_of(const Bid *bid, const Piece *piece)
{
  Buf text = { 0 };
  for (int i = 0; piece->people && i < bid->plan->activities[piece->activity].people; i++)
    buf_printf(&text, "%s%s", i > 0 ? ", " : "", bid->plan->persons[piece->people[i]].name);
  return bid_keep(bid, &text);
}

static void add_piece(const Bid *bid, const Piece *piece, Buf *paper)
{
  const Plan *plan = bid->plan;
  const Activity *a = &plan->activities[piece->activity];
  const Step *step = step_of(plan, a);
  const char *word = work_word(a, step);
  Buf time = { 0 };
  page_time(&time, piece->start);
  buf_putc(&time, '-');
  page_time(&time, piece->finish);
  Text what = arena_printf(bid->arena, "%s %s%s%s", step_words[step->word].name, step->name, *word ? ", " : "",
                           word);
  Text machine = a->machine < 0 ? "" : plan->job->machines[a->machine].name;
  paper_add(paper, PAPER_ROW, bid_keep(bid, &time), plan->job->areas[a->area].name, what, people_of(bid, piece),
            machine, NULL);
}

static void add_schedule(const Bid *bid, Buf *paper)
{
  const Plan *plan = bid->plan;
  int count, day = -1;
  Piece *pieces = pieces_of(plan, &count);
  paper_add(paper, PAPER_HEAD, "The work over the days", NULL);
  paper_add(paper, PAPER_FACT, "finish", bid_instant(bid, plan->finish, LANGUAGE_EN), NULL);
  if (plan->status == PLAN_PROVED_BEST)
    paper_add(paper, PAPER_FACT, "quality", "proved best: no schedule of this work finishes earlier", NULL);
  else paper_add(paper, PAPER_FACT, "earliest", bid_instant(bid, plan->lower_bound, LANGUAGE_EN), NULL);
  bid_chart(bid, true, paper);
  for (int i = 0; i < count; i++) {
    if (page_day_of(pieces[i].start) != day) {
      day = page_day_of(pieces[i].start);
      paper_add(paper, PAPER_HEAD, bid_day(bid, pieces[i].start, LANGUAGE_EN), NULL);
      paper_add(paper, PAPER_TABLE, "l15", "l18", "l27", "l22", "l18", NULL);
      paper_add(paper, PAPER_HEADS, "Time", "Area", "Work", "Who", "Machine", NULL);
    }
    add_piece(bid, &pieces[i], paper);
  }
  mem_free(pieces);
}

/* ---- things, and what is assumed */

static void add_purchases(const Bid *bid, Buf *paper)
{
  Purchase *list = arena_array(bid->arena, (size_t)bid->cost->line_count + 1, sizeof *list);
  int count = bid_purchases(bid, list);
  paper_add(paper, PAPER_HEAD, "To buy and to bring", NULL);
  paper_add(paper, PAPER_TABLE, "l40", "r12", "l12", "r16", "r20", NULL);
  paper_add(paper, PAPER_HEADS, "What", "How many", "Of", "Each", "Together", NULL);
  for (int i = 0; i < count; i++) {
    paper_add(paper, PAPER_ROW, list[i].what, arena_printf(bid->arena, "%d", list[i].count), list[i].line->unit,
              bid_money(bid, list[i].each), bid_money(bid, list[i].all), NULL);
    paper_add(paper, PAPER_NOTE, list[i].line->basis, NULL);
  }
}

static void add_finding(const Bid *bid, const Diag *d, Buf *paper)
{
  Buf text = { 0 };
  buf_printf(&text, "%s: %s", d->code, d->message);
  if (!span_is_nowhere(d->at)) {
    buf_puts(&text, "; at ");
    node_place(d->at, bid->sources, &text);
  }
  if (d->help) buf_printf(&text, "; to do: %s", d->help);
  paper_add(paper, PAPER_ITEM, buf_text(&text), NULL);
  buf_free(&text);
}

/* In the order of the sources. */
static void add_findings(const Bid *bid, Buf *paper)
{
  bool head = false;
  for (size_t i = 0; bid->findings && i < diags_count(bid->findings); i++) {
    const Diag *d = diags_get(bid->findings, i);
    if (d->level != DIAG_WARNING) continue;
    if (!head) paper_add(paper, PAPER_HEAD, "Warnings that stand", NULL);
    head = true;
    add_finding(bid, d, paper);
  }
}

static void add_assumption(const char *subject, const char *reason, void *context)
{
  Buf *paper = context, text = { 0 };
  buf_printf(&text, "%s%s%s", subject, *reason ? ": " : "", reason);
  paper_add(paper, PAPER_ITEM, buf_text(&text), NULL);
  buf_free(&text);
}

static void add_sources(const Bid *bid, Buf *paper)
{
  paper_add(paper, PAPER_HEAD, "Made from", NULL);
  for (uint32_t i = 1; i <= sources_count(bid->sources); i++)
    paper_add(paper, PAPER_ITEM, sources_name(bid->sources, i), NULL);
  paper_add(paper, PAPER_FACT, "prices", bid->plan->job->prices->name, NULL);
  paper_add(paper, PAPER_FACT, "fingerprint", bid->fingerprint, NULL);
}

void bid_package(const Bid *bid, Buf *paper)
{
  bid_begin(bid, paper, LANGUAGE_EN, false, "Package", "for the shop: the whole bid, line by line");
  bid_price_block(bid, paper);
  paper_add(paper, PAPER_HEAD, "Areas", NULL);
  bid_areas_table(bid, paper);
  bid_alternates(bid, paper);
  add_lines(bid, paper);
  add_purchases(bid, paper);
  add_schedule(bid, paper);
  add_findings(bid, paper);
  bid_waivers(bid, paper);
  paper_add(paper, PAPER_HEAD, "Assumed: nobody said otherwise", NULL);
  assumptions_each(bid->plan, bid->cost, bid->book, bid->sources, add_assumption, paper);
  paper_add(paper, PAPER_HEAD, "Cautions", NULL);
  bid_cautions(bid, LANGUAGE_EN, paper);
  add_sources(bid, paper);
}
