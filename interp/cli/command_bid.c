/* command_bid.c - the papers of a bid, all made from one costed plan. */
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "cli/command.h"
#include "cli/supervisor.h"
#include "cost/split.h"
#include "model/date.h"
#include "report/bid.h"
#include "report/paper.h"
#include "report/report.h"

enum { DAY_S = 86400 };

/* How a file is handed over: as it is, or to the press. */
typedef bool (*Hand)(Port *port, const char *name, const char *bytes, size_t length);

static void crew_en(const Bid *bid, Buf *paper) { bid_crew_sheet(bid, LANGUAGE_EN, paper); }
static void crew_es(const Bid *bid, Buf *paper) { bid_crew_sheet(bid, LANGUAGE_ES, paper); }

static void schedule_ics(const Bid *bid, Buf *out) { report_ics_of(bid->plan, bid->fingerprint, out); }

static const struct {
  const char *name;
  void (*write)(const Bid *bid, Buf *out);
  Hand hand;
  bool html; /* what is written is a paper, to be set as HTML */
} papers[] = {
  { "proposal.html", bid_proposal, port_write, true },    { "proposal.pdf", bid_proposal, port_press, false },
  { "package.html", bid_package, port_write, true },      { "crew_sheet.html", crew_en, port_write, true },
  { "crew_sheet.pdf", crew_en, port_press, false },       { "crew_sheet_es.html", crew_es, port_write, true },
  { "crew_sheet_es.pdf", crew_es, port_press, false },    { "bid.xlsx", bid_workbook, port_press, false },
  { "purchase_list.csv", bid_purchases_csv, port_write, false },
  { "schedule.ics", schedule_ics, port_write, false },
};
enum { PAPERS = sizeof papers / sizeof *papers };

static const char bid_json_name[] = "bid.json";

/* The date inside the files: the job's own, SOURCE_DATE_EPOCH (reproducible-builds.org), or the day the job
 * starts. */
static const char *date_made(const Session *session)
{
  const Options *o = session->options;
  const Job *job = session->document.job;
  int y, m, d, otherwise = o->has_epoch ? (int)(o->epoch_s / DAY_S) : job->start_day;
  date_of_day(job->dated_day ? job->dated_day : otherwise, &y, &m, &d);
  return arena_printf(session->document.arena, "%04d-%02d-%02d", y, m, d);
}

static Bid bid_of(Session *session, const Money *alternate_price)
{
  Document *d = &session->document;
  Money *parts = arena_array(d->arena, (size_t)d->job->area_count + 1, sizeof *parts);
  split_by_area(session->plan, session->cost, d->arena, parts);
  return (Bid){ .plan = session->plan, .cost = session->cost, .book = d->why, .sources = session->sources,
                .findings = session->diags,
                .arena = d->arena, .fingerprint = bid_fingerprint(session->sources, d->arena),
                .made = date_made(session), .dated = session->options->has_epoch || d->job->dated_day != 0,
                .area_price = parts,
                .alternate_price = alternate_price };
}

static bool hand_over(Session *session, const char *name, Hand hand, const Buf *bytes)
{
  if (hand(session->port, name, buf_text(bytes), bytes->length)) return true;
  diags_error(session->diags, "file", (Span){ 0 }, "%s is too large to write", name);
  return false;
}

static bool write_paper(Session *session, const Bid *bid, int i)
{
  Buf written = { 0 }, html = { 0 };
  papers[i].write(bid, &written);
  if (papers[i].html) paper_html(&written, &html);
  bool fine = hand_over(session, papers[i].name, papers[i].hand, papers[i].html ? &html : &written);
  buf_free(&written);
  buf_free(&html);
  return fine;
}

static bool write_json(Session *session, const Bid *bid)
{
  const char *names[PAPERS];
  Buf out = { 0 };
  for (int i = 0; i < PAPERS; i++) names[i] = papers[i].name;
  bid_json(bid, names, PAPERS, &out);
  bool fine = hand_over(session, bid_json_name, port_write, &out);
  buf_free(&out);
  return fine;
}

static void say_done(Session *session, const Bid *bid)
{
  Buf out = { 0 };
  const char *name = session->document.job->name;
  text_escape(&out, name, strlen(name));
  buf_puts(&out, ": ");
  money_print(bid->cost->price, bid->cost->currency, &out);
  buf_printf(&out, "\nfingerprint of the sources %.16s\n", bid->fingerprint);
  for (int i = 0; i < PAPERS; i++) buf_printf(&out, "%s/%s\n", session->options->out, papers[i].name);
  buf_printf(&out, "%s/%s\n", session->options->out, bid_json_name);
  session_print(session, &out);
}

static void write_all(Session *session)
{
  Money *prices = arena_array(session->document.arena, (size_t)session->document.job->alternate_count + 1,
                              sizeof *prices);
  bool fine = session_alternates(session, prices);
  if (!fine) return;
  diags_sort(session->diags);
  Bid bid = bid_of(session, prices);
  for (int i = 0; i < PAPERS && fine; i++) fine = write_paper(session, &bid, i);
  if (fine && write_json(session, &bid)) say_done(session, &bid);
}

static int run(Session *session) { return session_report(session, session_cost, write_all); }

const Command command_bid = {
  .name = "bid",
  .says = "write the papers of a bid",
  .usage = "--out=DIR JOB",
  .help = "  gritwork bid --out=bid recipes/jobs/north_hall.lua\n\n"
          "A workbook that reckons, a proposal for the client, the package for the shop, crew sheets in English\n"
          "and Spanish, the purchase list, the calendar, and bid.json (docs/bid.md). Nothing is written while\n"
          "errors stand. The same sources give the same bytes; the date inside is the job's `dated`, else\n"
          "SOURCE_DATE_EPOCH, else its start.",
  .options = OPTIONS_READING "effort threads out",
  .needs_out = true,
  .least_files = 1,
  .most_files = 1,
  .arguments_are_files = true,
  .run = run,
};
