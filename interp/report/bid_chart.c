/* bid_chart.c - the schedule as bars over the days from the first piece of work to the last. */
#include <stdlib.h>

#include "report/bid_parts.h"
#include "report/page.h"
#include "report/step_words.h"

enum { TICKS_MOST = 8, BARS_MOST = 40, FINEST = 400 };

typedef struct {
  const Bid *bid;
  int from, to; /* minutes: whole days */
} Axis;

static Axis axis_of(const Bid *bid)
{
  const Plan *plan = bid->plan;
  int first = plan->finish;
  for (int i = 0; i < plan->activity_count; i++)
    if (plan->bookings[i].start < first) first = plan->bookings[i].start;
  return (Axis){ bid, page_day_of(first) * DAY_MIN, (page_day_of(plan->finish - 1) + 1) * DAY_MIN };
}

static Text place(const Axis *axis, int minutes)
{
  long long span = axis->to - axis->from;
  return arena_printf(axis->bid->arena, "%d", (int)((long long)minutes * PAPER_SCALE / span));
}

static void add_ticks(const Axis *axis, Buf *paper)
{
  int days = (axis->to - axis->from) / DAY_MIN, every = (days + TICKS_MOST - 1) / TICKS_MOST, count = 0;
  Text cells[2 * TICKS_MOST + 2];
  for (int day = 0; day < days && count < 2 * TICKS_MOST; day += every) {
    Buf label = { 0 };
    page_short_day(&label, axis->bid->plan->job, page_day_of(axis->from) + day);
    cells[count++] = place(axis, day * DAY_MIN);
    cells[count++] = bid_keep(axis->bid, &label);
  }
  paper_add_list(paper, PAPER_TICK, cells, count);
}

typedef struct {
  int start, finish;
} Bar;

static int compare_bars(const void *left, const void *right)
{
  const Bar *a = left, *b = right;
  if (a->start != b->start) return a->start < b->start ? -1 : 1;
  return (a->finish > b->finish) - (a->finish < b->finish);
}

/* All that an area, or a step of it, is booked for: with people, or without. */
static int collect(const Axis *axis, int area, int step, bool work, Bar *bars)
{
  const Plan *plan = axis->bid->plan;
  int count = 0;
  for (int i = 0; i < plan->activity_count; i++) {
    const Activity *a = &plan->activities[i];
    if (a->area != area || (step >= 0 && a->step != step) || a->attended != work) continue;
    for (int s = 0; s < plan->bookings[i].stretch_count; s++) {
      const Stretch *stretch = &plan->bookings[i].stretches[s];
      if (stretch->finish <= stretch->start) continue;
      if (bars) bars[count] = (Bar){ stretch->start, stretch->finish };
      count++;
    }
  }
  return count;
}

/* Bars with less between them than can be drawn become one; wider gaps go too while a row cannot hold so many. */
static int merge(const Axis *axis, Bar *bars, int count)
{
  int kept = count;
  qsort(bars, (size_t)count, sizeof *bars, compare_bars);
  for (int gap = (axis->to - axis->from) / FINEST; kept > 0; gap = gap * 2 + 1) {
    count = kept;
    kept = 1;
    for (int i = 1; i < count; i++) {
      if (bars[i].start - bars[kept - 1].finish > gap) bars[kept++] = bars[i];
      else if (bars[i].finish > bars[kept - 1].finish) bars[kept - 1].finish = bars[i].finish;
    }
    if (kept <= BARS_MOST) break;
  }
  return kept;
}

static int put_bars(const Axis *axis, int area, int step, bool work, Text *cells)
{
  int count = collect(axis, area, step, work, NULL), cell = 0;
  Bar *bars = arena_array(axis->bid->arena, (size_t)count + 1, sizeof *bars);
  collect(axis, area, step, work, bars);
  count = merge(axis, bars, count);
  for (int i = 0; i < count; i++) {
    cells[cell++] = place(axis, bars[i].start - axis->from);
    cells[cell++] = place(axis, bars[i].finish - bars[i].start);
    cells[cell++] = work ? "work" : "wait";
  }
  return cell;
}

/* Waits first, so that work lies on them. */
static void add_row(const Axis *axis, int area, int step, const char *label, Buf *paper)
{
  Text cells[CELLS_MOST] = { label };
  int count = 1;
  count += put_bars(axis, area, step, false, cells + count);
  count += put_bars(axis, area, step, true, cells + count);
  if (count > 1) paper_add_list(paper, PAPER_BAR, cells, count);
}

void bid_chart(const Bid *bid, bool steps, Buf *paper)
{
  const Job *job = bid->plan->job;
  Axis axis = axis_of(bid);
  paper_add(paper, PAPER_CHART, "The work over the days", NULL);
  add_ticks(&axis, paper);
  for (int a = 0; a < job->area_count; a++) {
    const Recipe *recipe = &job->recipes[job->areas[a].recipe];
    if (!steps) add_row(&axis, a, -1, job->areas[a].name, paper);
    for (int i = 0; steps && i < recipe->step_count; i++)
      add_row(&axis, a, i, arena_printf(bid->arena, "%s: %s", job->areas[a].name, recipe->steps[i].name), paper);
  }
  paper_add(paper, PAPER_TEXT,
            "Dark: people at work. Light: a material works or dries, or a wait runs, without them.", NULL);
}
