/* report_compare.c - what differs, for people: changes with places, findings step by step, totals in columns. */
#include <math.h>
#include <string.h>

#include "cost/show.h"
#include "report/node_words.h"
#include "report/page.h"
#include "report/report_compare.h"

enum { WORD = 9, COLUMN = 17 };

/* ---- recipes */

/* "           was 400 sqft/gal at recipes/methods/a.lua:12:30" */
static void put_side(const char *what, const char *value, Span at, const Sources *sources, int width, Buf *out)
{
  Buf text = { 0 };
  buf_printf(&text, "%s%s%s", what, *value ? " " : "", value);
  if (!span_is_nowhere(at)) buf_puts(&text, *what ? " at " : "at ");
  node_place(at, sources, &text);
  page_fold(out, "", buf_text(&text), width, WORD);
  buf_free(&text);
}

static void put_change(const Change *change, const Sources *sources, int width, Buf *out)
{
  Buf head = { 0 };
  buf_puts(&head, change->step);
  if (*change->field) buf_printf(&head, ": %s", change->field);
  page_left(out, change->kind, WORD);
  page_fold_on(out, buf_text(&head), width, WORD);
  buf_free(&head);
  bool was = !span_is_nowhere(change->was_at) || *change->was;
  bool now = !span_is_nowhere(change->now_at) || *change->now;
  if (was) put_side(now ? "was" : "", change->was, change->was_at, sources, width, out);
  if (now) put_side(was ? "now" : "", change->now, change->now_at, sources, width, out);
}

static void put_recipe(const char *which, const Compared *recipe, const Sources *sources, int width, Buf *out)
{
  Buf text = { 0 };
  buf_printf(&text, "%s, ", recipe->name);
  node_place(recipe->at, sources, &text);
  page_fold(out, which, buf_text(&text), width, 0);
  buf_free(&text);
}

static void put_recipes(const Comparison *c, const Sources *sources, int width, Buf *out)
{
  put_recipe("WAS      ", &c->was, sources, width, out);
  put_recipe("NOW      ", &c->now, sources, width, out);
  page_rule(out, '=', width);
  for (int i = 0; i < c->count; i++) put_change(&c->changes[i], sources, width, out);
  if (c->count == 0) buf_puts(out, "the steps and the promises are the same\n");
}

/* ---- findings */

static void put_told(const char *lead, const Told *told, int width, Buf *out)
{
  Buf text = { 0 };
  buf_printf(&text, "%s[%s]: %s", diag_level_name(told->level), told->code, told->message);
  if (*told->place) buf_printf(&text, " at %s", told->place);
  page_fold(out, lead, buf_text(&text), width, 0);
  buf_free(&text);
}

/* One that stayed is told once, unless it says something else now. */
static void put_finding(const ComparedFinding *f, int width, Buf *out)
{
  static const char *const leads[FINDING_FATES] = { "came     ", "went     ", "stayed   " };
  const Told *told = f->now ? f->now : f->was;
  bool stayed = f->was && f->now;
  if (!stayed || (f->was->level == f->now->level && strcmp(f->was->message, f->now->message) == 0)) {
    put_told(leads[finding_fate(f)], told, width, out);
    return;
  }
  put_told("stayed   was ", f->was, width, out);
  put_told("         now ", f->now, width, out);
}

static void put_fates(const ComparedFindings *findings, Buf *out)
{
  int counts[FINDING_FATES] = { 0 };
  for (int i = 0; i < findings->count; i++) counts[finding_fate(&findings->list[i])]++;
  buf_puts(out, "\nFINDINGS");
  for (int fate = 0; fate < FINDING_FATES; fate++)
    if (counts[fate]) buf_printf(out, "  %d %s", counts[fate], finding_fate_names[fate]);
  buf_putc(out, '\n');
}

static void put_findings(const CompareReport *r, int width, Buf *out)
{
  const char *about = NULL;
  if (r->findings.count == 0) return;
  put_fates(&r->findings, out);
  page_rule(out, '-', width);
  for (int i = 0; i < r->findings.count; i++) {
    const ComparedFinding *f = &r->findings.list[i];
    const char *whole = r->was ? "the job" : "the recipe";
    if (!about || strcmp(about, f->about) != 0) page_fold(out, "", *f->about ? f->about : whole, width, 0);
    about = f->about;
    put_finding(f, width, out);
  }
}

/* ---- totals */

static void put_row(const char *what, const char *was, const char *now, const char *difference, int width, Buf *out)
{
  page_left(out, what, width - 3 * COLUMN);
  page_right(out, was, COLUMN);
  page_right(out, now, COLUMN);
  page_right(out, difference, COLUMN);
  page_end_line(out);
}

/* Sums in two currencies have no difference. */
static void put_money_row(const char *what, Money was, Money now, const char *const currency[2], int width,
                          Buf *out)
{
  if (was == 0 && now == 0) return;
  Buf texts[3] = { { 0 } };
  bool differ = now != was && strcmp(currency[0], currency[1]) == 0;
  money_print(was, currency[0], &texts[0]);
  money_print(now, currency[1], &texts[1]);
  if (differ && now > was) buf_putc(&texts[2], '+');
  if (differ) money_print(now - was, currency[1], &texts[2]);
  put_row(what, buf_text(&texts[0]), buf_text(&texts[1]), buf_text(&texts[2]), width, out);
  for (int i = 0; i < 3; i++) buf_free(&texts[i]);
}

static void put_number_row(const char *what, double was, double now, int width, Buf *out)
{
  if (was == 0 && now == 0) return;
  Buf texts[3] = { { 0 } };
  buf_printf(&texts[0], "%.2f", was);
  buf_printf(&texts[1], "%.2f", now);
  if (fabs(now - was) > 0.004) buf_printf(&texts[2], "%+.2f", now - was);
  put_row(what, buf_text(&texts[0]), buf_text(&texts[1]), buf_text(&texts[2]), width, out);
  for (int i = 0; i < 3; i++) buf_free(&texts[i]);
}

/* An instant for people: a blank between day and time. */
static void put_finish_row(const char *was, const char *now, int width, Buf *out)
{
  Buf texts[2] = { { 0 } };
  buf_printf(&texts[0], "%.10s %s", was, was + 11);
  buf_printf(&texts[1], "%.10s %s", now, now + 11);
  put_row("finish", buf_text(&texts[0]), buf_text(&texts[1]), "", width, out);
  for (int i = 0; i < 2; i++) buf_free(&texts[i]);
}

static const AreaTotal *area_called(const JobTotals *job, const char *name)
{
  for (int i = 0; i < job->area_count; i++)
    if (strcmp(job->areas[i].name, name) == 0) return &job->areas[i];
  return NULL;
}

static void put_area(const char *word, const AreaTotal *area, bool metric, int width, Buf *out)
{
  Buf text = { 0 };
  buf_printf(&text, "area \"%s\", ", area->name);
  show_quantity(&text, area->floor_m2, "m2", KIND_AREA, metric);
  buf_printf(&text, ", %s", area->recipe);
  page_left(out, word, WORD);
  page_fold_on(out, buf_text(&text), width, WORD);
  buf_free(&text);
}

static bool same_area(const AreaTotal *a, const AreaTotal *b)
{
  return a->floor_m2 == b->floor_m2 && strcmp(a->recipe, b->recipe) == 0;
}

static void put_areas(const JobTotals *was, const JobTotals *now, int width, Buf *out)
{
  for (int i = 0; i < was->area_count; i++) {
    const AreaTotal *area = &was->areas[i], *other = area_called(now, area->name);
    if (other && same_area(area, other)) continue;
    put_area(other ? "was" : "dropped", area, was->metric, width, out);
    if (other) put_area("now", other, now->metric, width, out);
  }
  for (int i = 0; i < now->area_count; i++)
    if (!area_called(was, now->areas[i].name)) put_area("added", &now->areas[i], now->metric, width, out);
}

static void put_totals(const JobTotals *was, const JobTotals *now, int width, Buf *out)
{
  const char *const currency[2] = { was->currency, now->currency };
  page_rule(out, '-', width);
  put_row("", "was", "now", "difference", width, out);
  for (int kind = 0; kind < LINE_KINDS; kind++)
    put_money_row(line_kind_names[kind], was->kinds[kind], now->kinds[kind], currency, width, out);
  put_money_row("price", was->price, now->price, currency, width, out);
  put_number_row("person-hours", was->person_h, now->person_h, width, out);
  put_number_row("machine-hours", was->machine_h, now->machine_h, width, out);
  put_number_row("hours from start to finish", was->makespan_min / 60.0, now->makespan_min / 60.0, width, out);
  put_finish_row(was->finish, now->finish, width, out);
}

static void put_jobs(const JobTotals *was, const JobTotals *now, int width, Buf *out)
{
  page_fold(out, "JOB      ", was->job, width, 0);
  if (strcmp(was->job, now->job) != 0) page_fold(out, "NOW      ", now->job, width, 0);
  put_areas(was, now, width, out);
  put_totals(was, now, width, out);
  if (!was->complete || !now->complete)
    page_fold(out, "", "something that is used has no price, so the prices are no bids", width, 0);
}

void report_compare_text(const CompareReport *report, const Sources *sources, int width, Buf *out)
{
  if (report->recipes) put_recipes(report->recipes, sources, width, out);
  put_findings(report, width, out);
  if (out->length && report->was) buf_putc(out, '\n');
  if (report->was) put_jobs(report->was, report->now, width, out);
}
