/* report_risk.c - a simulation for people: quantiles, chances, contingency, and what drives the spread. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "cost/show.h"
#include "report/page.h"
#include "report/report.h"

enum { LABEL = 12, FINISH = 24, MONEY = 16, RANK = 8 };

static void money_text(Buf *out, double value, const char *currency)
{
  Amount amount;
  if (amount_from(value, 2, &amount)) money_print(amount, currency, out);
}

static void percent(Buf *out, double share)
{
  show_number(out, share * 100, 1);
  buf_puts(out, " %");
}

static const char *currency_of(const Plan *plan) { return plan->job->prices ? plan->job->prices->currency : ""; }

/* ---- quantiles */

/* Two columns where there is room, else one under the other. */
static void level_row(const char *label, const char *finish, const char *cost, int width, Buf *out)
{
  page_left(out, label, LABEL);
  if (cost[0] && width >= LABEL + FINISH + MONEY) {
    page_left(out, finish, FINISH);
    page_right(out, cost, MONEY);
  } else {
    page_put(out, finish);
    if (cost[0]) {
      page_end_line(out);
      page_right(out, cost, LABEL + MONEY);
    }
  }
  page_end_line(out);
}

static void level(const Plan *plan, const Risk *risk, const char *label, int finish, double cost, int width,
                  Buf *out)
{
  Buf when = { 0 }, money = { 0 };
  page_instant(&when, plan->job, finish);
  if (risk->costed) money_text(&money, cost, currency_of(plan));
  level_row(label, buf_text(&when), buf_text(&money), width, out);
  buf_free(&when);
  buf_free(&money);
}

static void levels(const Plan *plan, const Risk *risk, int width, Buf *out)
{
  level_row("", "Finish", risk->costed ? "Cost" : "", width, out);
  page_rule(out, '-', width);
  level(plan, risk, "plan", risk->plan_finish, risk->plan_cost, width, out);
  level(plan, risk, "as likely", risk->likely_finish, risk->likely_cost, width, out);
  for (int i = 0; i < RISK_LEVELS; i++) {
    Buf label = { 0 };
    buf_printf(&label, "P%.0f", risk_levels[i] * 100);
    level(plan, risk, buf_text(&label), risk->finish[i], risk->cost[i], width, out);
    buf_free(&label);
  }
  if (risk->costed)
    page_fold(out, "", "Cost is direct cost and overhead: contingency and profit go on top of it.", width, 0);
}

/* ---- what follows */

static void deadlines(const Plan *plan, const Risk *risk, int width, Buf *out)
{
  for (int i = 0; i < risk->deadline_count; i++) {
    const RiskDeadline *d = &risk->deadlines[i];
    Buf text = { 0 };
    page_instant(&text, plan->job, d->by);
    buf_printf(&text, " for %s is missed in ", d->area ? d->area : "the job");
    percent(&text, d->late);
    buf_puts(&text, " of the trials");
    page_fold(out, "deadline    ", buf_text(&text), width, 0);
    buf_free(&text);
  }
}

static void own_contingency(const Prices *prices, Buf *out)
{
  buf_puts(out, "; the price book's ");
  if (prices->certainty.given) {
    buf_puts(out, "contingency, for ");
    percent(out, prices->certainty.figure.value);
    buf_putc(out, ',');
  } else {
    percent(out, prices->contingency.given ? (double)prices->contingency.ppm / 1e6 : 0);
  }
}

static void contingency(const Plan *plan, const Risk *risk, int width, Buf *out)
{
  if (!risk->costed) return;
  Buf text = { 0 };
  percent(&text, risk->certainty);
  buf_puts(&text, " sure of the cost takes ");
  money_text(&text, risk->contingency, currency_of(plan));
  if (risk->plan_cost > 0) {
    buf_puts(&text, ", ");
    percent(&text, risk->contingency / risk->plan_cost);
    buf_puts(&text, " of direct cost and overhead");
  }
  own_contingency(plan->job->prices, &text);
  buf_puts(&text, " covers ");
  percent(&text, risk->covered);
  buf_puts(&text, " of the trials");
  page_fold(out, "contingency ", buf_text(&text), width, 0);
  buf_free(&text);
}

static void squeezed(const Risk *risk, int width, Buf *out)
{
  if (risk->squeezed <= 0) return;
  Buf text = { 0 };
  percent(&text, risk->squeezed);
  buf_puts(&text, " of the trials miss a window or have work that does not fit into its hours in this order: "
                  "there the job would be planned anew");
  page_fold(out, "windows     ", buf_text(&text), width, 0);
  buf_free(&text);
}

/* ---- what drives it */

static void rank_cell(Buf *out, double rank)
{
  Buf text = { 0 };
  buf_printf(&text, "%+.2f", fabs(rank) < 0.005 ? 0.0 : rank);
  page_right(out, buf_text(&text), RANK);
  buf_free(&text);
}

typedef struct {
  double low, high; /* ends of the scale */
  int cells;
} Scale;

static void ends_of(const Risk *risk, const RiskDriver *d, double *low, double *high)
{
  *low = risk->costed ? d->cost_low : d->finish_low;
  *high = risk->costed ? d->cost_high : d->finish_high;
}

static Scale scale_of(const Risk *risk, int cells)
{
  double likely = risk->costed ? risk->likely_cost : risk->likely_finish;
  Scale s = { likely, likely, cells };
  for (int i = 0; i < risk->driver_count; i++) {
    double low, high;
    if (!risk->drivers[i].swings) continue;
    ends_of(risk, &risk->drivers[i], &low, &high);
    s.low = fmin(s.low, fmin(low, high));
    s.high = fmax(s.high, fmax(low, high));
  }
  return s;
}

static int cell_of(const Scale *s, double value)
{
  if (s->high <= s->low) return 0;
  return (int)((value - s->low) / (s->high - s->low) * (s->cells - 1) + 0.5);
}

/* From where the outcome is with the cause at its P10 to where it is at its P90; `|` is where all is as likely. */
static void bar(const Risk *risk, const RiskDriver *d, const Scale *s, Buf *out)
{
  double low, high, likely = risk->costed ? risk->likely_cost : risk->likely_finish;
  if (!d->swings) return;
  ends_of(risk, d, &low, &high);
  int from = cell_of(s, fmin(low, high)), until = cell_of(s, fmax(low, high)), middle = cell_of(s, likely);
  for (int i = 0; i < s->cells; i++)
    buf_putc(out, i == middle ? '|' : i >= from && i <= until && until > from ? '#' : ' ');
}

static void scale_ends(const Plan *plan, const Risk *risk, const Scale *s, int indent, Buf *out)
{
  Buf low = { 0 }, high = { 0 };
  if (risk->costed) {
    money_text(&low, s->low, currency_of(plan));
    money_text(&high, s->high, currency_of(plan));
  } else {
    page_short_day(&low, plan->job, page_day_of((int)s->low));
    page_short_day(&high, plan->job, page_day_of((int)s->high));
  }
  page_left(out, "", indent);
  page_left(out, buf_text(&low), s->cells / 2);
  page_right(out, buf_text(&high), s->cells - s->cells / 2);
  page_end_line(out);
  buf_free(&low);
  buf_free(&high);
}

static void driver_row(const Risk *risk, const RiskDriver *d, const Scale *s, int what_cells, int width, Buf *out)
{
  bool fits = page_fits(d->what, what_cells - 1);
  if (!fits) page_fold(out, "", d->what, width, 0);
  page_left(out, fits ? d->what : "", what_cells);
  rank_cell(out, d->finish_rank);
  if (risk->costed) rank_cell(out, d->cost_rank);
  buf_puts(out, "  ");
  bar(risk, d, s, out);
  page_end_line(out);
}

static void drivers(const Plan *plan, const Risk *risk, int width, Buf *out)
{
  int ranks = RANK * (risk->costed ? 2 : 1) + 2, left = width - ranks;
  Scale s = scale_of(risk, width < PAGE_NARROW ? left : left / 2);
  int what_cells = left - s.cells;
  const char *outcome = risk->costed ? "cost" : "finish";
  buf_puts(out, "\nWhat drives it\n");
  page_left(out, what_cells > 0 ? "Cause" : "", what_cells);
  page_right(out, "Finish", RANK);
  if (risk->costed) page_right(out, "Cost", RANK);
  page_end_line(out);
  page_rule(out, '-', width);
  for (int i = 0; i < risk->driver_count; i++) driver_row(risk, &risk->drivers[i], &s, what_cells, width, out);
  scale_ends(plan, risk, &s, what_cells + ranks, out);
  Buf words = { 0 };
  buf_printf(&words,
             "Rank correlation with finish%s; bars show the %s when a cause alone goes from its P10 to its P90.",
             risk->costed ? " and cost" : "", outcome);
  page_fold(out, "", buf_text(&words), width, 0);
  buf_free(&words);
}

static void idle(const Risk *risk, int width, Buf *out)
{
  for (int i = 0; i < risk->idle_count; i++) {
    if (i == 0) {
      buf_putc(out, '\n');
      page_fold(out, "", "Estimates that no minutes and no cost rest on, held at their likely values:", width, 0);
    }
    page_fold(out, "- ", risk->idle[i], width, 0);
  }
}

void report_risk_text(const Plan *plan, const Risk *risk, int width, Buf *out)
{
  Buf text = { 0 };
  page_fold(out, "RISK        ", plan->job->name, width, 0);
  page_rule(out, '=', width);
  buf_printf(&text, "%d, seed %d, estimates %s", risk->trials, risk->seed, risk_shape_names[risk->shape]);
  page_fold(out, "trials      ", buf_text(&text), width, 0);
  buf_free(&text);
  deadlines(plan, risk, width, out);
  contingency(plan, risk, width, out);
  squeezed(risk, width, out);
  buf_putc(out, '\n');
  levels(plan, risk, width, out);
  drivers(plan, risk, width, out);
  idle(risk, width, out);
}
