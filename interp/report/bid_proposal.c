/* bid_proposal.c - what the client reads: scope, finish and how it is measured, price, time, what is not in it. */
#include <math.h>
#include <string.h>

#include "report/assumptions.h"
#include "report/bid_parts.h"
#include "report/page.h"
#include "report/step_words.h"

static void add_title(const Bid *bid, Buf *paper)
{
  const Job *job = bid->plan->job;
  Buf whom = { 0 };
  if (job->client) buf_printf(&whom, "for %s", job->client);
  if (job->place) buf_printf(&whom, "%s%s", whom.length ? ", " : "", job->place);
  if (bid->dated) buf_printf(&whom, "%s%s", whom.length ? ", " : "", bid->made);
  bid_begin(bid, paper, LANGUAGE_EN, false, "Proposal", bid_keep(bid, &whom));
}

/* Prices that end before the work does are a warning for the shop, and nothing to promise. */
static void add_until(const Bid *bid, Buf *paper)
{
  int until = bid->cost->good_until;
  if (until == 0 || until < bid->plan->job->start_day + page_day_of(bid->plan->finish - 1)) return;
  Text day = bid_date(bid, until, LANGUAGE_EN);
  paper_add(paper, PAPER_TEXT, arena_printf(bid->arena, "This price is for work done by %s.", day), NULL);
}

static void add_price(const Bid *bid, Buf *paper)
{
  const Job *job = bid->plan->job;
  if (job->contractor)
    paper_add(paper, PAPER_TEXT, arena_printf(bid->arena, "Offered by %s.", job->contractor), NULL);
  bid_price_block(bid, paper);
  add_until(bid, paper);
  paper_add(paper, PAPER_HEAD, "The floors and their prices", NULL);
  bid_areas_table(bid, paper);
  bid_alternates(bid, paper);
  for (int i = 0; i < job->allowance_count; i++) {
    if (i == 0) {
      paper_add(paper, PAPER_HEAD, "Sums carried in the price", NULL);
      paper_add(paper, PAPER_TEXT,
                "They stand for work that cannot be known before it is opened, and are settled against "
                "what is spent.",
                NULL);
    }
    paper_add(paper, PAPER_FACT, job->allowances[i].name, bid_money(bid, job->allowances[i].sum.money), NULL);
  }
}

/* ---- scope */

/* "hone, resin 100, wet" */
static Text step_words_of(const Bid *bid, const Step *step)
{
  Buf text = { 0 };
  Buf tool = { 0 };
  buf_printf(&text, "%s", step_words[step->word].name);
  step_tool(step, LANGUAGE_EN, &tool);
  if (tool.length > 0) buf_printf(&text, ", %s", buf_text(&tool));
  if (step_words[step->word].family == FAMILY_ABRASIVE) buf_puts(&text, step->wet ? ", wet" : ", dry");
  buf_free(&tool);
  return bid_keep(bid, &text);
}

/* The recipe's steps in order, as one sentence. */
static Text chain_of(const Bid *bid, const Recipe *recipe)
{
  Buf chain = { 0 };
  for (int i = 0; i < recipe->step_count; i++)
    if (recipe->steps[i].word != STEP_NOTE)
      buf_printf(&chain, "%s%s", chain.length ? "; " : "", step_words_of(bid, &recipe->steps[i]));
  buf_putc(&chain, '.');
  return bid_keep(bid, &chain);
}

static bool reads_alike(const Bid *bid, const Recipe *a, const Recipe *b)
{
  return strcmp(a->name, b->name) == 0 && strcmp(chain_of(bid, a), chain_of(bid, b)) == 0;
}

static void add_method(const Bid *bid, const Recipe *recipe, Buf *paper)
{
  const Job *job = bid->plan->job;
  Buf where = { 0 };
  for (int a = 0; a < job->area_count; a++)
    if (reads_alike(bid, recipe, &job->recipes[job->areas[a].recipe]))
      buf_printf(&where, "%s%s", where.length ? ", " : "", job->areas[a].name);
  buf_printf(&where, ": by our method \u201c%s\u201d", recipe->name);
  if (recipe->revision) buf_printf(&where, ", revision %s", recipe->revision);
  buf_puts(&where, ", in this order:");
  paper_add(paper, PAPER_TEXT, bid_keep(bid, &where), NULL);
  paper_add(paper, PAPER_TEXT, chain_of(bid, recipe), NULL);
}

/* Areas whose recipes differ only in figures are told together. */
static void add_scope(const Bid *bid, Buf *paper)
{
  const Job *job = bid->plan->job;
  paper_add(paper, PAPER_HEAD, "What we do", NULL);
  for (int r = 0; r < job->recipe_count; r++) {
    int first = 0;
    while (!reads_alike(bid, &job->recipes[first], &job->recipes[r])) first++;
    if (first == r) add_method(bid, &job->recipes[r], paper);
  }
}

/* ---- measuring */

static double readings_of(const Plan *plan, int area, int step)
{
  double readings = 0;
  for (int i = 0; i < plan->activity_count; i++)
    if (plan->activities[i].area == area && plan->activities[i].step == step)
      readings += plan->activities[i].readings.value;
  return readings;
}

static void add_measure(const Bid *bid, int area, int index, Buf *paper)
{
  const Job *job = bid->plan->job;
  const Step *step = &job->recipes[job->areas[area].recipe].steps[index];
  Buf want = { 0 };
  step_want_band(&step->want, LANGUAGE_EN, &want);
  Text count = arena_printf(bid->arena, "%d", (int)ceil(readings_of(bid->plan, area, index) - 1e-9));
  paper_add(paper, PAPER_ROW, job->areas[area].name, step->name, step->measure ? step->measure : "",
            want.length ? bid_keep(bid, &want) : "to be recorded", count, NULL);
  buf_free(&want);
}

static void add_measures(const Bid *bid, Buf *paper)
{
  const Job *job = bid->plan->job;
  bool head = false;
  for (int a = 0; a < job->area_count; a++)
    for (int i = 0; i < job->recipes[job->areas[a].recipe].step_count; i++) {
      if (job->recipes[job->areas[a].recipe].steps[i].word != STEP_CHECK) continue;
      if (!head) {
        paper_add(paper, PAPER_HEAD, "How the finish is measured", NULL);
        paper_add(paper, PAPER_TEXT,
                  "We take these readings as the work goes on and hand them over with the floor.", NULL);
        paper_add(paper, PAPER_TABLE, "l24", "l20", "l22", "l22", "r12", NULL);
        paper_add(paper, PAPER_HEADS, "Area", "When", "What is read", "Wanted", "Readings", NULL);
        head = true;
      }
      add_measure(bid, a, i, paper);
    }
}

/* ---- time */

static void add_time(const Bid *bid, Buf *paper)
{
  const Plan *plan = bid->plan;
  const Job *job = plan->job;
  paper_add(paper, PAPER_HEAD, "When", NULL);
  paper_add(paper, PAPER_FACT, "start", bid_instant(bid, job->start_min, LANGUAGE_EN), NULL);
  paper_add(paper, PAPER_FACT, "finish", bid_instant(bid, plan->finish, LANGUAGE_EN), NULL);
  for (int i = 0; i < job->shift_count; i++) {
    Buf hours = { 0 };
    page_time(&hours, job->shifts[i].from_min);
    buf_puts(&hours, " to ");
    page_time(&hours, job->shifts[i].until_min);
    paper_add(paper, PAPER_FACT, job->shifts[i].name, bid_keep(bid, &hours), NULL);
  }
  bid_chart(bid, false, paper);
}

/* ---- what is not in it, and what it rests on */

static void count_one(const char *subject, const char *reason, void *context)
{
  (void)subject;
  (void)reason;
  (void)context;
}

static void add_conditions(const Bid *bid, Buf *paper)
{
  const Job *job = bid->plan->job;
  paper_add(paper, PAPER_HEAD, "Not in the price", NULL);
  for (int i = 0; i < job->exclude_count; i++) paper_add(paper, PAPER_ITEM, job->excludes[i], NULL);
  paper_add(paper, PAPER_ITEM, "Anything that is not named in this proposal.", NULL);
  paper_add(paper, PAPER_HEAD, "What the price assumes", NULL);
  paper_add(paper, PAPER_ITEM,
            "The floors are empty, swept and free for our work in the hours named, at the sizes named.", NULL);
  paper_add(paper, PAPER_ITEM,
            "The slab is as it was found or described to us; what only opening it can show is agreed before "
            "we go on.",
            NULL);
  int assumed = assumptions_each(bid->plan, bid->cost, bid->book, bid->sources, count_one, NULL);
  if (assumed > 0)
    paper_add(paper, PAPER_ITEM,
              arena_printf(bid->arena,
                           "%d figure%s that nobody has given us %s taken from common practice; we keep the "
                           "list and go through it with you on request.",
                           assumed, assumed == 1 ? "" : "s", assumed == 1 ? "is" : "are"),
              NULL);
}

static void add_terms(const Bid *bid, Buf *paper)
{
  const Job *job = bid->plan->job;
  if (job->term_count > 0) paper_add(paper, PAPER_HEAD, "Terms", NULL);
  for (int i = 0; i < job->term_count; i++) paper_add(paper, PAPER_ITEM, job->terms[i], NULL);
}

void bid_proposal(const Bid *bid, Buf *paper)
{
  add_title(bid, paper);
  add_price(bid, paper);
  add_scope(bid, paper);
  add_measures(bid, paper);
  add_time(bid, paper);
  add_conditions(bid, paper);
  add_terms(bid, paper);
  bid_waivers(bid, paper);
  paper_add(paper, PAPER_HEAD, "Cautions while we work", NULL);
  bid_cautions(bid, LANGUAGE_EN, paper);
  paper_add(paper, PAPER_HEAD, "Agreed", NULL);
  paper_add(paper, PAPER_SIGN, "for the client", "date", NULL);
  paper_add(paper, PAPER_SIGN, "for the contractor", "date", NULL);
}
