/* report_load.c - how busy each person and machine is, day by day, in per cent of the hours they could work. */
#include <string.h>

#include "base/mem.h"
#include "plan/roster.h"
#include "report/page.h"
#include "report/report.h"
#include "report/shifts.h"

enum { NAME = 22, CELL = 5, TOTAL = 7 };

/* Minutes worked of one person or machine, by the day on which the shift begins. */
typedef struct {
  const Plan *plan;
  int first_day, days;
  int *worked, *open; /* by day */
} Load;

static void take(Load *load, const ShiftEntry *e)
{
  load->worked[e->day - load->first_day] += e->finish - e->start;
}

static bool is_at(const Plan *plan, const ShiftEntry *e, int person)
{
  const int *people = plan->bookings[e->activity].stretches[e->stretch].people;
  for (int i = 0; people && i < plan->activities[e->activity].people; i++)
    if (people[i] == person) return true;
  return false;
}

static bool runs(const Plan *plan, const ShiftEntry *e, int class, int unit)
{
  const Activity *a = &plan->activities[e->activity];
  const Stretch *stretch = &plan->bookings[e->activity].stretches[e->stretch];
  return (a->machine == class && stretch->unit == unit) ||
         (plan_runs_along(a) && a->along.machine == class && stretch->along_unit == unit);
}

/* A day's minutes in a calendar: from the shift's first hour to a day later. */
static void count_open(Load *load, const Calendar *calendar, int from_min)
{
  for (int d = 0; d < load->days; d++) {
    int begin = (load->first_day + d) * DAY_MIN + from_min;
    load->open[d] = calendar_work(calendar, begin, begin + DAY_MIN);
  }
}

static void clear(Load *load)
{
  memset(load->worked, 0, (size_t)load->days * sizeof *load->worked);
  memset(load->open, 0, (size_t)load->days * sizeof *load->open);
}

static void percent(Buf *out, int worked, int open, int cells)
{
  Buf text = { 0 };
  if (open > 0) buf_printf(&text, "%lld", (100LL * worked + open / 2) / open);
  else if (worked > 0) buf_puts(&text, "-");
  page_right(out, buf_text(&text), cells);
  buf_free(&text);
}

static void put_row(const Load *load, const char *name, int from, int until, Buf *out)
{
  long long worked = 0, open = 0;
  for (int d = 0; d < load->days; d++) {
    worked += load->worked[d];
    open += load->open[d];
  }
  buf_puts(out, "  ");
  page_left(out, name, NAME - 2);
  percent(out, (int)worked, (int)open, TOTAL);
  for (int d = from; d < until; d++) percent(out, load->worked[d], load->open[d], CELL);
  page_end_line(out);
}

static void put_days(const Load *load, int from, int until, Buf *out)
{
  Buf text = { 0 };
  buf_repeat(out, ' ', NAME);
  page_right(out, "all", TOTAL);
  for (int d = from; d < until; d++) {
    page_short_day(&text, load->plan->job, load->first_day + d); /* "Mon 1 Mar": the day of the month alone */
    char *day = strchr(buf_text(&text), ' ');
    if (day) day[1 + strcspn(day + 1, " ")] = '\0';
    page_right(out, day ? day + 1 : "", CELL);
    buf_clear(&text);
  }
  page_end_line(out);
  buf_free(&text);
}

typedef struct {
  const ShiftEntry *entries;
  int count;
  int from, until; /* days shown */
  int reach;       /* days of the calendars */
} Page;

static void person_row(Load *load, const Page *page, int person, Buf *out)
{
  const Job *job = load->plan->job;
  int shift = job->crews[load->plan->persons[person].crew].shift;
  Calendar *calendar = roster_crew(job, &job->crews[load->plan->persons[person].crew], page->reach);
  clear(load);
  count_open(load, calendar, job->shifts[shift].from_min);
  for (int i = 0; i < page->count; i++)
    if (is_at(load->plan, &page->entries[i], person)) take(load, &page->entries[i]);
  put_row(load, load->plan->persons[person].name, page->from, page->until, out);
  calendar_free(calendar);
}

static void machine_row(Load *load, const Page *page, int class, int unit, Buf *out)
{
  const Machine *machine = &load->plan->job->machines[class];
  Calendar *anybody = roster_team(load->plan->job, &(Team){ .skill = "any", .people = 1 }, page->reach);
  Buf name = { 0 };
  buf_puts(&name, machine->name);
  if (machine->count > 1) buf_printf(&name, " no. %d", unit + 1);
  clear(load);
  count_open(load, anybody, load->plan->job->shift_count > 0 ? load->plan->job->shifts[0].from_min : 0);
  for (int i = 0; i < page->count; i++)
    if (runs(load->plan, &page->entries[i], class, unit)) take(load, &page->entries[i]);
  put_row(load, buf_text(&name), page->from, page->until, out);
  calendar_free(anybody);
  buf_free(&name);
}

static void put_page(Load *load, const Page *page, Buf *out)
{
  const Job *job = load->plan->job;
  put_days(load, page->from, page->until, out);
  for (int p = 0; p < load->plan->person_count; p++) person_row(load, page, p, out);
  for (int m = 0; m < job->machine_count; m++)
    for (int unit = 0; unit < job->machines[m].count; unit++) machine_row(load, page, m, unit, out);
}

static void put_load(const Plan *plan, int width, Buf *out)
{
  int count, a_page = (width - NAME - TOTAL) / CELL;
  ShiftEntry *entries = shifts_list(plan, &count);
  int last = count > 0 ? entries[count - 1].day : 0;
  Load load = { .plan = plan, .first_day = count > 0 ? entries[0].day : 0 };
  load.days = last - load.first_day + 1;
  load.worked = mem_array((size_t)load.days, sizeof *load.worked);
  load.open = mem_array((size_t)load.days, sizeof *load.open);
  if (a_page < 1) a_page = 1;
  for (int from = 0; from < load.days; from += a_page) {
    int until = from + a_page < load.days ? from + a_page : load.days;
    Page page = { entries, count, from, until, last + 2 };
    buf_putc(out, '\n');
    put_page(&load, &page, out);
  }
  mem_free(load.worked);
  mem_free(load.open);
  mem_free(entries);
}

void report_load_text(const Plan *plan, int width, Buf *out)
{
  page_fold(out, "LOAD  ", plan->job->name, width, 0);
  page_rule(out, '=', width);
  if (plan->bookings == NULL) {
    page_fold(out, "", "no schedule", width, 0);
    return;
  }
  page_fold(out, "", "Per cent of a person's shift that is booked, and of the hours of all shifts that a machine "
            "is; by the day on which a shift begins", width, 0);
  put_load(plan, width, out);
}
