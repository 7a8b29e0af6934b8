/* bid_files.c - the bid for other programs: what to buy as CSV, and the whole of it as JSON. */
#include <string.h>

#include "base/json.h"
#include "report/assumptions.h"
#include "report/bid_parts.h"
#include "report/page.h"
#include "report/waivers.h"

/* ---- CSV: RFC 4180, with a line end of CR LF */

/* A cell that a spreadsheet would take for a formula gets an apostrophe in front. */
static void csv_cell(Buf *out, const char *text, bool last)
{
  buf_putc(out, '"');
  if (*text && strchr("=+-@\t\r", *text)) buf_putc(out, '\'');
  for (; *text; text++) {
    if (*text == '"') buf_putc(out, '"');
    buf_putc(out, (unsigned char)*text < 0x20 ? ' ' : *text);
  }
  buf_puts(out, last ? "\"\r\n" : "\",");
}

static void csv_money(Buf *out, Money money, bool last)
{
  bool whole = money % MONEY_CENT == 0;
  buf_printf(out, "%lld.%0*lld%s", (long long)(money / MONEY_SCALE), whole ? 2 : 4,
             (long long)(money % MONEY_SCALE / (whole ? MONEY_CENT : 1)), last ? "\r\n" : ",");
}

void bid_purchases_csv(const Bid *bid, Buf *out)
{
  Purchase *list = arena_array(bid->arena, (size_t)bid->cost->line_count + 1, sizeof *list);
  int count = bid_purchases(bid, list);
  buf_puts(out, "kind,what,count,unit,price_each,price_all,charged,currency,basis,fingerprint\r\n");
  for (int i = 0; i < count; i++) {
    const CostLine *line = list[i].line;
    csv_cell(out, line_kind_names[line->kind], false);
    csv_cell(out, list[i].what, false);
    buf_printf(out, "%d,", list[i].count);
    csv_cell(out, line->unit, false);
    csv_money(out, list[i].each, false);
    csv_money(out, list[i].all, false);
    csv_money(out, line->amount, false);
    csv_cell(out, bid->cost->currency, false);
    csv_cell(out, line->basis, false);
    csv_cell(out, bid->fingerprint, true);
  }
}

/* ---- JSON */

static void cents(JsonWriter *j, const char *key, int64_t value) { json_decimal(j, key, value / MONEY_CENT, 2); }

static void areas_json(JsonWriter *j, const Bid *bid)
{
  const Job *job = bid->plan->job;
  json_array(j, "areas");
  for (int i = 0; i < job->area_count; i++) {
    json_object(j, NULL);
    json_text(j, "name", job->areas[i].name);
    json_text(j, "recipe", job->recipes[job->areas[i].recipe].name);
    json_number(j, "area_m2", job->areas[i].area_m2.value, 6);
    cents(j, "price", bid->area_price[i]);
    json_end(j);
  }
  json_end(j);
}

static void build_json(JsonWriter *j, const Cost *cost)
{
  json_array(j, "build");
  for (int kind = 0; kind < LINE_OVERHEAD; kind++)
    if (cost->kind_total[kind] != 0) {
      json_object(j, NULL);
      json_text(j, "kind", line_kind_names[kind]);
      cents(j, "amount", cost->kind_total[kind]);
      json_end(j);
    }
  for (int i = 0; i < cost->build_count; i++) {
    json_object(j, NULL);
    json_text(j, "kind", line_kind_names[cost->build[i].kind]);
    cents(j, "amount", cost->build[i].amount);
    json_end(j);
  }
  json_end(j);
}

static void purchases_json(JsonWriter *j, const Bid *bid)
{
  Purchase *list = arena_array(bid->arena, (size_t)bid->cost->line_count + 1, sizeof *list);
  int count = bid_purchases(bid, list);
  json_array(j, "purchases");
  for (int i = 0; i < count; i++) {
    json_object(j, NULL);
    json_text(j, "kind", line_kind_names[list[i].line->kind]);
    json_text(j, "what", list[i].what);
    json_integer(j, "count", list[i].count);
    json_text(j, "unit", list[i].line->unit);
    json_decimal(j, "each", list[i].each, 4);
    cents(j, "all", list[i].all);
    json_end(j);
  }
  json_end(j);
}

static void schedule_json(JsonWriter *j, const Bid *bid)
{
  const Plan *plan = bid->plan;
  Buf start = { 0 }, finish = { 0 }, bound = { 0 };
  page_iso(&start, plan->job, plan->job->start_min);
  page_iso(&finish, plan->job, plan->finish);
  page_iso(&bound, plan->job, plan->lower_bound);
  json_text(j, "start", buf_text(&start));
  json_text(j, "finish", buf_text(&finish));
  json_text(j, "no_finish_before", buf_text(&bound));
  buf_free(&start);
  buf_free(&finish);
  buf_free(&bound);
}

static void texts_json(JsonWriter *j, const char *key, const char *const *texts, int count)
{
  json_array(j, key);
  for (int i = 0; i < count; i++) json_text(j, NULL, texts[i]);
  json_end(j);
}

static void allowances_json(JsonWriter *j, const Job *job)
{
  json_array(j, "allowances");
  for (int i = 0; i < job->allowance_count; i++) {
    json_object(j, NULL);
    json_text(j, "name", job->allowances[i].name);
    json_decimal(j, "sum", job->allowances[i].sum.money, 4);
    json_end(j);
  }
  json_end(j);
}

static void alternates_json(JsonWriter *j, const Bid *bid)
{
  const Job *job = bid->plan->job;
  json_array(j, "alternates");
  for (int i = 0; i < job->alternate_count; i++) {
    const Alternate *a = &job->alternates[i];
    json_object(j, NULL);
    json_text(j, "name", a->name);
    json_text(j, "area", job->areas[a->area].name);
    json_text(j, "recipe", job->recipes[a->recipe].name);
    cents(j, "price", bid->alternate_price[i]);
    json_end(j);
  }
  json_end(j);
}

void bid_json(const Bid *bid, const char *const *files, int file_count, Buf *out)
{
  const Job *job = bid->plan->job;
  JsonWriter j = json_begin(out);
  json_object(&j, NULL);
  json_text(&j, "format", "gritwork-bid");
  json_integer(&j, "version", 1);
  json_text(&j, "job", job->name);
  if (job->client) json_text(&j, "client", job->client);
  if (job->place) json_text(&j, "place", job->place);
  if (job->contractor) json_text(&j, "contractor", job->contractor);
  json_text(&j, "prices", job->prices->name);
  json_text(&j, "fingerprint", bid->fingerprint);
  json_text(&j, "currency", bid->cost->currency);
  cents(&j, "price", bid->cost->price);
  cents(&j, "cost", bid->cost->cost);
  cents(&j, "direct", bid->cost->direct);
  build_json(&j, bid->cost);
  areas_json(&j, bid);
  schedule_json(&j, bid);
  purchases_json(&j, bid);
  alternates_json(&j, bid);
  allowances_json(&j, job);
  texts_json(&j, "excludes", job->excludes, job->exclude_count);
  if (job->term_count > 0) texts_json(&j, "terms", job->terms, job->term_count);
  waivers_of_job_json(&j, job);
  assumptions_json(&j, bid->plan, bid->cost, bid->book, bid->sources);
  texts_json(&j, "files", files, file_count);
  json_end(&j);
  json_finish(&j);
}
