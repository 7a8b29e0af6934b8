/* bid_chart.c - the schedule as bars over the days from the first piece of work to the last. */
#include <string.h>

#include "report/bid_parts.h"
#include "report/page.h"
#include "report/step_words.h"

enum { TICKS_MOST = 8, BARS_MOST = (CELLS_MOST - 2) / 3 };

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
  bool work;
} Bar;

static void add_bar(Bar *bars, int *count, Bar bar)
{
  Bar *last = *count > 0 ? &bars[*count - 1] : NULL;
  if (bar.finish <= bar.start) return;
  if (last && last->work == bar.work && bar.start <= last->finish) {
    if (bar.finish > last->finish) last->finish = bar.finish;
  } else if (*count < BARS_MOST) {
    bars[(*count)++] = bar;
  } else if (bar.finish > last->finish) {
    last->finish = bar.finish; /* more pieces than a row holds: the last one takes them in */
  }
}

/* A row of all that an area, or a step of it, is booked for. Waits are drawn first, so that work lies on them. */
static void add_row(const Axis *axis, int area, int step, const char *label, Buf *paper)
{
  const Plan *plan = axis->bid->plan;
  Bar bars[BARS_MOST];
  int count = 0;
  for (int work = 0; work <= 1; work++)
    for (int i = 0; i < plan->activity_count; i++) {
      const Activity *a = &plan->activities[i];
      if (a->area != area || (step >= 0 && a->step != step) || a->attended != (work == 1)) continue;
      for (int s = 0; s < plan->bookings[i].stretch_count; s++) {
        const Stretch *stretch = &plan->bookings[i].stretches[s];
        add_bar(bars, &count, (Bar){ stretch->start, stretch->finish, work == 1 });
      }
    }
  Text cells[CELLS_MOST] = { label };
  for (int i = 0; i < count; i++) {
    cells[1 + 3 * i] = place(axis, bars[i].start - axis->from);
    cells[2 + 3 * i] = place(axis, bars[i].finish - bars[i].start);
    cells[3 + 3 * i] = bars[i].work ? "work" : "wait";
  }
  if (count > 0) paper_add_list(paper, PAPER_BAR, cells, 1 + 3 * count);
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
  paper_add(paper, PAPER_TEXT, "Dark: people at work. Light: a material works or dries, or a wait runs, without them.", NULL);
}
