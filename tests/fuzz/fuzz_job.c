/* fuzz_job.c - the example jobs with their literals changed at will: each stage says yes or says why not, what is
 * priced adds up, what is simulated is in order, and every paper can be made.
 *
 * The first byte picks the job. Then three bytes each: which literal of all the files it reads (two bytes), and the
 * value that goes into its place. */
#include <ctype.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/files.h"
#include "base/sarif.h"
#include "cost/price.h"
#include "cost/risk.h"
#include "cost/split.h"
#include "lang/script.h"
#include "plan/plan.h"
#include "report/bid.h"
#include "report/paper.h"
#include "report/report.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const char *const jobs[] = { "jobs.mill_annex", "jobs.north_hall" };
static const char *const values[] = {
  "0", "1", "-1", "2", "60", "200", "8000", "1e15", "0.001", "true", "nil", "{}",
  "\"\"", "\"x\"", "\"0 ft\"", "\"1 ft\"", "\"10000 ft\"", "\"0.1 mm\"", "\"4 ft\"", "\"1 sqft\"", "\"1e9 m2\"",
  "\"0 min\"", "\"1 min\"", "\"200 h\"", "\"90 d\"", "\"0 %\"", "\"100 %\"", "\"1000 %\"", "\"99.99 %\"",
  "\"$0\"", "\"$0.0001\"", "\"$999999999999\"", "\"$900000000000/h\"", "\"1 sqft/set\"", "\"1e9 sqft/set\"",
  "\"0.01 sqft/gal\"", "\"1e6 sqft/gal\"", "\"0.001 gal\"", "\"5000 gal\"", "\"0.5 ft/min\"", "\"400 ft/min\"",
  "\"1 ft2/h\"", "\"1e7 sqft/h\"", "\"0:00 to 24:00\"", "\"23:59 to 0:01\"", "\"12:00 to 12:00\"",
  "\"1970-01-01 00:00\"", "\"9999-12-31 23:59\"", "\"2027-03-06\"", "\"us\"", "\"metric\"", "\"USD\"", "\"JPY\"",
  "\"resin\"", "\"metal\"", "\"lead\"", "\"operator\"", "\"any\"", "\"sun\"", "\"wet\"",
  "between(\"1 min\", \"2 min\")", "between(\"1 h\", \"90 d\")", "at_least(\"30 min\")", "at_most(\"1 min\")",
  "about(\"1 m/min\", \"2 m/min\", \"9 m/min\")", "about(1, 2, 3)",
};

typedef struct {
  const uint8_t *edits;
  size_t count;  /* of three bytes each */
  size_t passed; /* literals so far in this run */
} Edits;

static const char *edit_at(const Edits *edits, size_t literal)
{
  for (size_t i = 0; i < edits->count; i++) {
    const uint8_t *edit = edits->edits + 3 * i;
    if ((size_t)(edit[0] << 8 | edit[1]) % 512 == literal) return values[edit[2] % (sizeof values / sizeof *values)];
  }
  return NULL;
}

/* How long the literal or the comment at `at` is; 0: neither. */
static size_t literal_length(const char *at, const char *begin)
{
  if (*at == '"') return strcspn(at + 1, "\"") + 2;
  if (!isdigit((unsigned char)*at) || (at > begin && (isalnum((unsigned char)at[-1]) || at[-1] == '_'))) return 0;
  return strspn(at, "0123456789.");
}

/* A name that a word is called with, or a module, stays: else nothing would fit together. */
static bool is_name(const char *begin, const char *at)
{
  while (at > begin && at[-1] == ' ') at--;
  return at > begin && (isalnum((unsigned char)at[-1]) || at[-1] == '[');
}

static void add_edited(Edits *edits, const char *text, Buf *out)
{
  for (const char *at = text; *at;) {
    size_t skip = at[0] == '-' && at[1] == '-' ? strcspn(at, "\n") : 0, length = skip ? 0 : literal_length(at, text);
    const char *other = length && !is_name(text, at) ? edit_at(edits, edits->passed++) : NULL;
    size_t taken = skip ? skip : length ? length : 1;
    if (other) buf_puts(out, other);
    else buf_add(out, at, taken);
    at += taken;
  }
}

static bool read_module(void *context, const char *module, Buf *text, Buf *shown, Buf *why)
{
  Buf path = { 0 }, whole = { 0 };
  for (const char *c = module; *c; c++) buf_putc(&path, *c == '.' ? '/' : *c);
  buf_puts(&path, ".lua");
  FilesStatus status = files_read_below("recipes", buf_text(&path), 1 << 20, &whole);
  if (status == FILES_OK) add_edited(context, buf_text(&whole), text);
  buf_puts(status == FILES_OK ? shown : why, status == FILES_OK ? buf_text(&path) : files_why(status));
  buf_free(&whole);
  buf_free(&path);
  return status == FILES_OK;
}

static void must(bool condition, const char *what, const Diags *diags, const Sources *sources)
{
  if (condition) return;
  Buf findings = { 0 };
  diags_print(diags, sources, (DiagStyle){ .width = 80 }, &findings);
  fprintf(stderr, "%s\n%s\n", what, buf_text(&findings));
  abort();
}

static bool adds_up(const Cost *cost)
{
  Money direct = 0, price;
  for (int i = 0; i < cost->line_count; i++)
    if (!money_add(direct, cost->lines[i].amount, &direct)) return false;
  price = direct;
  for (int i = 0; i < cost->build_count; i++)
    if (!money_add(price, cost->build[i].amount, &price)) return false;
  return direct == cost->direct && price == cost->price;
}

/* A time to be met is left out: where it is missed, the solver would spend all that it may, which takes seconds. */
static void forget_deadlines(Job *job)
{
  job->finish_by.given = false;
  for (int i = 0; i < job->area_count; i++) job->areas[i].finish_by.given = false;
}

/* A few trials: quantiles rise, and the same two again on two threads. */
static void check_risk(Document *d, const Plan *plan, const Takeoff *takeoff, const Cost *cost, Diags *diags,
                       const Sources *sources)
{
  RiskOptions once = { .trials = 20, .threads = 1 }, twice = { .trials = 20, .threads = 2 };
  Risk *risk = risk_run(plan, takeoff, cost, d->why, &once, d->arena, diags);
  if (!risk) return;
  for (int i = 1; i < RISK_LEVELS; i++)
    must(risk->finish[i - 1] <= risk->finish[i] && risk->cost[i - 1] <= risk->cost[i], "quantiles fall", diags, sources);
  Risk *again = risk_run(plan, takeoff, cost, d->why, &twice, d->arena, diags);
  must(again && memcmp(risk->cost, again->cost, sizeof risk->cost) == 0, "two threads cost other", diags, sources);
  Buf out = { 0 };
  report_risk_text(plan, risk, 80, &out);
  report_risk_json(plan, risk, sources, &out);
  buf_free(&out);
}

static void check_papers(Document *d, const Plan *plan, const Cost *cost, const Sources *sources)
{
  Money *parts = arena_array(d->arena, (size_t)d->job->area_count + 1, sizeof *parts);
  Money *alternates = arena_array(d->arena, (size_t)d->job->alternate_count + 1, sizeof *alternates);
  split_by_area(plan, cost, d->arena, parts);
  Bid bid = { .plan = plan, .cost = cost, .book = d->why, .sources = sources, .arena = d->arena,
              .fingerprint = bid_fingerprint(sources, d->arena), .made = "2027-03-01", .area_price = parts,
              .alternate_price = alternates };
  Buf paper = { 0 }, html = { 0 };
  bid_proposal(&bid, &paper);
  bid_package(&bid, &paper);
  bid_crew_sheet(&bid, LANGUAGE_ES, &paper);
  paper_html(&paper, &html);
  bid_workbook(&bid, &paper);
  bid_purchases_csv(&bid, &html);
  bid_json(&bid, (const char *const[]){ "bid.xlsx" }, 1, &html);
  buf_free(&paper);
  buf_free(&html);
}

static void check_pictures(const Plan *plan)
{
  void (*const pictures[])(const Plan *, Buf *) = { report_svg, report_ics, report_csv };
  void (*const texts[])(const Plan *, int, Buf *) = { report_slack_text, report_load_text };
  Buf out = { 0 };
  for (size_t i = 0; i < sizeof pictures / sizeof *pictures; i++) pictures[i](plan, &out);
  for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) texts[i](plan, 80, &out);
  report_bars_text(plan, 80, true, &out);
  buf_free(&out);
}

static void check_job(Document *d, Diags *diags, const Sources *sources)
{
  forget_deadlines(d->job);
  Plan *plan = plan_expand(d->job, d->arena, d->why, diags);
  if (diags_errors(diags)) return;
  plan_schedule(plan, &(PlanSearch){ .work = 1 }, d->arena, diags);
  must(plan->bookings || diags_errors(diags), "no schedule and no reason", diags, sources);
  if (!plan->bookings || diags_errors(diags)) return;
  must(plan->lower_bound <= plan->finish, "the bound is past the finish", diags, sources);
  Takeoff *takeoff = takeoff_count(plan, d->arena, d->why);
  Cost *cost = cost_price(takeoff, 1, d->arena, d->why, diags);
  Buf out = { 0 };
  if (cost && diags_errors(diags) == 0) {
    must(adds_up(cost), "the lines do not add up", diags, sources);
    report_cost_json(plan, cost, d->why, sources, &out);
    report_cost_text(plan, cost, 80, &out);
    check_risk(d, plan, takeoff, cost, diags, sources);
    check_papers(d, plan, cost, sources);
  }
  check_pictures(plan);
  report_schedule_json(plan, &out);
  report_schedule_text(plan, 80, &out);
  report_sheet_text(plan, 40, &out);
  buf_free(&out);
}

/* Findings as other programs read them. */
static void check_log(const Diags *diags, const Sources *sources)
{
  Buf out = { 0 };
  SarifLog *log = sarif_begin("fuzz", &out);
  sarif_add(log, diags, sources, NULL, NULL);
  sarif_finish(log, true, 0);
  buf_free(&out);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  if (size == 0) return 0;
  Edits edits = { data + 1, (size - 1) / 3, 0 };
  Sources *sources = sources_new();
  Diags *diags = diags_new();
  Document document = { .arena = arena_new(), .why = why_new() };
  Script *script = script_new(sources, diags, (ScriptReader){ read_module, NULL, &edits });
  Buf text = { 0 }, shown = { 0 }, why = { 0 };
  if (!read_module(&edits, jobs[data[0] % 2], &text, &shown, &why)) abort();
  script_read(script, buf_text(&shown), &text, &document);
  for (size_t i = 0; i < diags_count(diags); i++)
    must(strcmp(diags_get(diags, i)->code, "internal") != 0, "a fault of the standard library", diags, sources);
  if (document.kind == DOCUMENT_JOB && diags_errors(diags) == 0) check_job(&document, diags, sources);
  check_log(diags, sources);
  Buf *all[] = { &text, &shown, &why };
  for (size_t i = 0; i < sizeof all / sizeof *all; i++) buf_free(all[i]);
  script_free(script);
  arena_free(document.arena);
  why_free(document.why);
  diags_free(diags);
  sources_free(sources);
  return 0;
}
