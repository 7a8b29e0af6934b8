/* report_trade_off.c - finish against cost: the job with fewer people and machines. */
#include "base/json.h"
#include "base/money.h"
#include "report/page.h"
#include "report/report.h"

enum { FINISH = 22, HOURS = 10, DAYS = 10, COST = 14 };

static void number(Buf *out, double value, int digits, int cells)
{
  Buf text = { 0 };
  buf_printf(&text, "%.*f", digits, value);
  page_right(out, buf_text(&text), cells);
  buf_free(&text);
}

static void left_at_home(const Plan *plan, const TradeRow *row, Buf *out)
{
  const Job *job = plan->job;
  for (int i = 0; i < job->crew_count + job->machine_count; i++) {
    bool crew = i < job->crew_count;
    int k = crew ? i : i - job->crew_count;
    int less = crew ? job->crews[k].count - row->crews[k] : job->machines[k].count - row->machines[k];
    if (less == 0) continue;
    buf_puts(out, out->length ? ", " : "without ");
    if (less > 1) buf_printf(out, "%d x ", less);
    buf_puts(out, crew ? job->crews[k].name : job->machines[k].name);
  }
  if (out->length == 0) buf_puts(out, "as written");
}

static void put_row(const Plan *plan, const TradeOff *t, const TradeRow *row, int width, Buf *out)
{
  Buf text = { 0 };
  page_instant(&text, plan->job, row->finish);
  page_left(out, buf_text(&text), FINISH);
  buf_clear(&text);
  number(out, row->people_h, 1, HOURS);
  number(out, row->machine_days, 0, DAYS);
  if (t->priced) {
    money_print(row->direct, plan->job->prices->currency, &text);
    page_right(out, buf_text(&text), COST);
    buf_clear(&text);
  }
  page_end_line(out);
  left_at_home(plan, row, &text);
  page_fold(out, "", buf_text(&text), width, 4);
  buf_free(&text);
}

void report_trade_off_text(const Plan *plan, const TradeOff *t, int width, Buf *out)
{
  page_fold(out, "TRADE-OFF  ", plan->job->name, width, 0);
  page_rule(out, '=', width);
  page_left(out, "Finish", FINISH);
  page_right(out, "People h", HOURS);
  page_right(out, "Mach. d", DAYS);
  if (t->priced) page_right(out, "Direct cost", COST);
  page_end_line(out);
  page_rule(out, '-', width);
  for (int i = 0; i < t->count; i++) put_row(plan, t, &t->rows[i], width, out);
  Buf text = { 0 };
  buf_printf(&text, "Smaller jobs that were scheduled, each with little search: %d. A later finish is shown only "
             "where it costs less.%s", t->tried, t->priced ? "" : " The job has no complete prices: people's hours are compared.");
  buf_putc(out, '\n');
  page_fold(out, "", buf_text(&text), width, 0);
  buf_free(&text);
}

/* ---- JSON */

static void classes_json(JsonWriter *j, const char *key, const Job *job, const int *counts, bool crews)
{
  int count = crews ? job->crew_count : job->machine_count;
  json_array(j, key);
  for (int i = 0; i < count; i++) {
    json_object(j, NULL);
    json_text(j, "class", crews ? job->crews[i].name : job->machines[i].name);
    json_integer(j, "count", counts[i]);
    json_integer(j, "of", crews ? job->crews[i].count : job->machines[i].count);
    json_end(j);
  }
  json_end(j);
}

static void row_json(JsonWriter *j, const Plan *plan, const TradeOff *t, const TradeRow *row)
{
  Buf text = { 0 };
  page_iso(&text, plan->job, row->finish);
  json_object(j, NULL);
  json_text(j, "finish", buf_text(&text));
  json_integer(j, "makespan_min", row->finish - plan->job->start_min);
  json_number(j, "people_h", row->people_h, 2);
  json_number(j, "machine_days", row->machine_days, 2);
  if (t->priced) json_decimal(j, "direct", row->direct / MONEY_CENT, 2);
  classes_json(j, "crews", plan->job, row->crews, true);
  classes_json(j, "machines", plan->job, row->machines, false);
  json_end(j);
  buf_free(&text);
}

void report_trade_off_json(const Plan *plan, const TradeOff *t, Buf *out)
{
  JsonWriter j = json_begin(out);
  json_object(&j, NULL);
  json_text(&j, "format", "gritwork-trade-off");
  json_integer(&j, "version", 1);
  json_text(&j, "job", plan->job->name);
  if (t->priced) json_text(&j, "currency", plan->job->prices->currency);
  json_integer(&j, "tried", t->tried);
  json_array(&j, "rows");
  for (int i = 0; i < t->count; i++) row_json(&j, plan, t, &t->rows[i]);
  json_end(&j);
  json_end(&j);
  json_finish(&j);
}
