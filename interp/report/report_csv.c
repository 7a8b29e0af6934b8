/* report_csv.c - the schedule for spreadsheets: a row a stretch (RFC 4180, UTF-8). */
#include <string.h>

#include "base/mem.h"
#include "base/text.h"
#include "report/page.h"
#include "report/report.h"
#include "report/shifts.h"
#include "report/step_words.h"

/* Quoted. A spreadsheet takes a cell that begins like a formula for one: an apostrophe goes before it. */
static void text_cell(Buf *out, const char *text)
{
  Buf clean = { 0 };
  text_escape(&clean, text, strlen(text));
  const char *c = buf_text(&clean);
  buf_putc(out, '"');
  if (*c && strchr("=+-@", *c)) buf_putc(out, '\'');
  for (; *c; c++) buf_puts(out, *c == '"' ? "\"\"" : (const char[]){ *c, '\0' });
  buf_puts(out, "\",");
  buf_free(&clean);
}

static void instant_cell(Buf *out, const Job *job, int minute)
{
  page_iso(out, job, minute);
  buf_putc(out, ',');
}

static void machine_cells(Buf *out, const Plan *plan, int class, int unit)
{
  text_cell(out, class < 0 ? "" : plan->job->machines[class].name);
  if (class >= 0) buf_printf(out, "%d", unit + 1);
  buf_putc(out, ',');
}

static void people_cell(Buf *out, const Plan *plan, const ShiftEntry *e)
{
  const int *people = plan->bookings[e->activity].stretches[e->stretch].people;
  Buf names = { 0 };
  for (int i = 0; people && i < plan->activities[e->activity].people; i++)
    buf_printf(&names, "%s%s", i > 0 ? "; " : "", plan->persons[people[i]].name);
  text_cell(out, buf_text(&names));
  buf_free(&names);
}

static void row(Buf *out, const Plan *plan, const ShiftEntry *e)
{
  const Activity *a = &plan->activities[e->activity];
  const Booking *b = &plan->bookings[e->activity];
  const Step *step = step_of(plan, a);
  const Shift *shift = e->shift < 0 ? NULL : &plan->job->shifts[e->shift];
  text_cell(out, a->id);
  text_cell(out, plan->job->areas[a->area].name);
  text_cell(out, step->name);
  text_cell(out, step_words[step->word].name);
  text_cell(out, work_name(a->kind));
  text_cell(out, shift && shift->name ? shift->name : "");
  instant_cell(out, plan->job, e->start);
  instant_cell(out, plan->job, e->finish);
  buf_printf(out, "%d,%d,%d,", e->finish - e->start, e->stretch + 1, b->stretch_count);
  people_cell(out, plan, e);
  const Stretch *stretch = &b->stretches[e->stretch];
  machine_cells(out, plan, a->machine, stretch->unit);
  machine_cells(out, plan, plan_runs_along(a) ? a->along.machine : -1, stretch->along_unit);
  buf_printf(out, "%s,%d\r\n", a->hold ? "yes" : "no", b->slack_min);
}

void report_csv(const Plan *plan, Buf *out)
{
  buf_puts(out, "id,area,step,word,work,shift,start,finish,minutes,part,parts,people,machine,number,along machine,"
                "along number,hold,slack minutes\r\n");
  if (plan->bookings == NULL) return;
  int count;
  ShiftEntry *entries = shifts_list(plan, &count);
  for (int i = 0; i < count; i++) row(out, plan, &entries[i]);
  mem_free(entries);
}
