/* report_bars.c - the schedule as bars: a row a step, areas as groups, time to the right. */
#include <string.h>

#include "base/mem.h"
#include "report/page.h"
#include "report/report.h"
#include "report/step_words.h"

enum { LABEL = 22, LEAST_CELLS = 10, LEGEND = 20 };

typedef struct {
  const Plan *plan;
  bool utf8;
  int from, scale; /* minutes: of the first cell, of each */
  int cells;
} Chart;

/* Painted in this order; later kinds cover earlier ones. */
static const struct {
  WorkKind kind;
  char ascii;
  const char *utf8, *says;
} marks[] = {
  { WORK_REST, '.', "\u00B7", "drying, waiting" }, { WORK_DWELL, '~', "\u2591", "dwell" },
  { WORK_READ, '?', "\u25C7", "readings" },          { WORK_SURFACE, '=', "\u2592", "collect, clean" },
  { WORK_APPLY, '+', "\u2593", "material goes on" }, { WORK_EDGES, 'o', "\u25AA", "edges" },
  { WORK_FIELD, '#', "\u2588", "machine" },
};
enum { MARKS = sizeof marks / sizeof *marks };

/* The finest scale in whole parts of a day that fits. */
static int scale_for(int minutes, int cells)
{
  static const int scales[] = { 5, 10, 15, 20, 30, 60, 90, 120, 180, 240, 360, 480, 720, DAY_MIN };
  for (size_t i = 0; i < sizeof scales / sizeof *scales; i++)
    if (minutes <= scales[i] * cells) return scales[i];
  int days = (minutes + cells * DAY_MIN - 1) / (cells * DAY_MIN);
  return days * DAY_MIN;
}

static Chart chart_of(const Plan *plan, int width, bool utf8)
{
  int cells = width - LABEL > LEAST_CELLS ? width - LABEL : LEAST_CELLS, from = plan->job->start_min;
  int scale = scale_for(plan->finish - from, cells - 1); /* one cell for where the first begins inside */
  from -= (from % scale + scale) % scale;
  int used = (plan->finish - from + scale - 1) / scale;
  return (Chart){ .plan = plan, .utf8 = utf8, .from = from, .scale = scale, .cells = used < cells ? used : cells };
}

/* ---- rows of cells: a mark's number plus one, or one of these */

enum { CELL_EMPTY = 0, CELL_MIDNIGHT = 100 };

static void clear_cells(const Chart *c, unsigned char *cells)
{
  for (int i = 0; i < c->cells; i++) {
    int at = c->from + i * c->scale;
    cells[i] = i > 0 && c->scale < DAY_MIN && at % DAY_MIN == 0 ? CELL_MIDNIGHT : CELL_EMPTY;
  }
}

static void paint_activity(const Chart *c, int activity, unsigned char mark, unsigned char *cells)
{
  const Booking *b = &c->plan->bookings[activity];
  for (int s = 0; s < b->stretch_count; s++) {
    int first = (b->stretches[s].start - c->from) / c->scale;
    int last = (b->stretches[s].finish - 1 - c->from) / c->scale;
    if (b->stretches[s].finish == b->stretches[s].start) continue;
    for (int i = first < 0 ? 0 : first; i <= last && i < c->cells; i++) cells[i] = mark;
  }
}

static void paint_step(const Chart *c, int area, int step, unsigned char *cells)
{
  for (int m = 0; m < MARKS; m++)
    for (int i = 0; i < c->plan->activity_count; i++) {
      const Activity *a = &c->plan->activities[i];
      if (a->area == area && a->step == step && a->kind == marks[m].kind)
        paint_activity(c, i, (unsigned char)(m + 1), cells);
    }
}

static void put_cells(const Chart *c, const unsigned char *cells, Buf *out)
{
  for (int i = 0; i < c->cells; i++) {
    if (cells[i] == CELL_EMPTY) buf_putc(out, ' ');
    else if (cells[i] == CELL_MIDNIGHT) buf_puts(out, c->utf8 ? "\u2502" : "|");
    else if (c->utf8) buf_puts(out, marks[cells[i] - 1].utf8);
    else buf_putc(out, marks[cells[i] - 1].ascii);
  }
  page_end_line(out);
}

/* ---- the axis */

/* Writes a label at a cell of a line of blanks if it fits there and leaves a blank before it. */
static void label_at(char *line, int cells, int at, const char *label, int *free_from)
{
  int length = (int)strlen(label);
  if (at < *free_from || at + length > cells) return;
  memcpy(line + at, label, (size_t)length);
  *free_from = at + length + 1;
}

static void put_axis_line(const Chart *c, const char *line, Buf *out)
{
  buf_repeat(out, ' ', LABEL);
  buf_add(out, line, (size_t)c->cells);
  page_end_line(out);
}

static bool begins_day(const Chart *c, int cell)
{
  int at = c->from + cell * c->scale;
  return cell == 0 || page_day_of(at) != page_day_of(at - c->scale);
}

static void axis(const Chart *c, Buf *out)
{
  char *days = mem_array((size_t)c->cells + 1, 1), *hours = mem_array((size_t)c->cells + 1, 1);
  memset(days, ' ', (size_t)c->cells);
  memset(hours, ' ', (size_t)c->cells);
  int day_free = 0, hour_free = 0;
  for (int i = 0; i < c->cells; i++) {
    int at = c->from + i * c->scale, minute = (at % DAY_MIN + DAY_MIN) % DAY_MIN;
    Buf label = { 0 };
    page_short_day(&label, c->plan->job, page_day_of(at));
    if (begins_day(c, i)) label_at(days, c->cells, i, buf_text(&label), &day_free);
    buf_clear(&label);
    buf_printf(&label, "%02d", minute / 60);
    if (c->scale < 6 * 60 && minute % 60 == 0) label_at(hours, c->cells, i, buf_text(&label), &hour_free);
    buf_free(&label);
  }
  put_axis_line(c, days, out);
  if (c->scale < 6 * 60) put_axis_line(c, hours, out);
  mem_free(days);
  mem_free(hours);
}

/* ---- the chart */

static bool has_work(const Plan *plan, int area, int step)
{
  for (int i = 0; i < plan->activity_count; i++)
    if (plan->activities[i].area == area && plan->activities[i].step == step) return true;
  return false;
}

static void step_row(const Chart *c, int area, int index, unsigned char *cells, Buf *out)
{
  const Job *job = c->plan->job;
  const Step *step = &job->recipes[job->areas[area].recipe].steps[index];
  Buf label = { 0 };
  buf_printf(&label, "%s %s", step_words[step->word], step->name);
  buf_puts(out, "  ");
  page_left(out, buf_text(&label), LABEL - 3);
  buf_putc(out, ' ');
  clear_cells(c, cells);
  paint_step(c, area, index, cells);
  put_cells(c, cells, out);
  buf_free(&label);
}

static void legend(const Chart *c, int width, Buf *out)
{
  int a_line = width / LEGEND > 1 ? width / LEGEND : 1;
  buf_putc(out, '\n');
  for (int m = MARKS - 1, put = 1; m >= 0; m--, put++) {
    if (c->utf8) buf_puts(out, marks[m].utf8);
    else buf_putc(out, marks[m].ascii);
    buf_putc(out, ' ');
    page_left(out, marks[m].says, LEGEND - 2);
    if (put % a_line == 0 || m == 0) page_end_line(out);
  }
  buf_puts(out, "each mark is ");
  page_minutes(out, c->scale);
  buf_putc(out, '\n');
}

void report_bars_text(const Plan *plan, int width, bool utf8, Buf *out)
{
  if (plan->bookings == NULL) {
    page_fold(out, "", "no schedule to draw", width, 0);
    return;
  }
  Chart c = chart_of(plan, width, utf8);
  unsigned char *cells = mem_array((size_t)c.cells, 1);
  axis(&c, out);
  for (int a = 0; a < plan->job->area_count; a++) {
    const Area *area = &plan->job->areas[a];
    page_fold(out, "", area->name, width, 0);
    for (int s = 0; s < plan->job->recipes[area->recipe].step_count; s++)
      if (has_work(plan, a, s)) step_row(&c, a, s, cells, out);
  }
  mem_free(cells);
  legend(&c, width, out);
}
