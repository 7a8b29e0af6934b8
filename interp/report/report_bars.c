/* report_bars.c - the schedule as bars: a row a step, areas as groups, time to the right. Time in which nothing
 * happens at all (nights, weekends) is left out. */
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "report/page.h"
#include "report/report.h"
#include "report/step_words.h"

enum { LABEL = 22, LEAST_CELLS = 10, LEGEND = 20 };

enum { CELL_GAP = -1 };

typedef struct {
  const Plan *plan;
  bool utf8;
  int scale; /* minutes of a cell */
  int *from; /* the minute each cell begins, CELL_GAP where time is left out */
  int cells, room;
} Chart;

/* Painted in this order; later kinds cover earlier ones. */
static const struct {
  WorkKind kind;
  char ascii;
  const char *utf8, *says;
} marks[] = {
  { WORK_REST, '.', "\u00B7", "drying, waiting" }, { WORK_DWELL, '~', "\u2591", "dwell" },
  { WORK_SITE, '-', "\u2013", "site work" },
  { WORK_READ, '?', "\u25C7", "readings" },          { WORK_SURFACE, '=', "\u2592", "collect, clean" },
  { WORK_APPLY, '+', "\u2593", "material goes on" }, { WORK_EDGES, 'o', "\u25AA", "edges" },
  { WORK_FIELD, '#', "\u2588", "machine" },
};
enum { MARKS = sizeof marks / sizeof *marks };

/* ---- time: the parts of it in which anything happens, merged over short breaks */

typedef struct {
  int start, finish;
} Part;

static int compare_parts(const void *left, const void *right)
{
  const Part *a = left, *b = right;
  if (a->start != b->start) return a->start < b->start ? -1 : 1;
  return (a->finish > b->finish) - (a->finish < b->finish);
}

static Part *busy_parts(const Plan *plan, int *count)
{
  int room = 0;
  for (int i = 0; i < plan->activity_count; i++) room += plan->bookings[i].stretch_count;
  Part *parts = mem_array((size_t)room + 1, sizeof *parts);
  *count = 0;
  for (int i = 0; i < plan->activity_count; i++)
    for (int s = 0; s < plan->bookings[i].stretch_count; s++) {
      const Stretch *stretch = &plan->bookings[i].stretches[s];
      if (stretch->finish > stretch->start) parts[(*count)++] = (Part){ stretch->start, stretch->finish };
    }
  qsort(parts, (size_t)*count, sizeof *parts, compare_parts);
  return parts;
}

static int round_down(int minute, int scale) { return minute - ((minute % scale) + scale) % scale; }

/* Lays the parts out in cells of this scale, a gap between them where two cells or an hour are idle. Writes the
 * cells unless `from` is NULL; how many there are. */
static int lay_out(const Part *parts, int count, int scale, int *from)
{
  int cells = 0, next = 0, idle = 2 * scale > 60 ? 2 * scale : 60;
  for (int i = 0; i < count; i++) {
    int start = round_down(parts[i].start, scale);
    if (cells > 0 && start - next >= idle) {
      if (from) from[cells] = CELL_GAP;
      cells++;
    } else if (cells > 0) {
      start = next;
    }
    for (next = start; next < parts[i].finish; next += scale, cells++)
      if (from) from[cells] = next;
  }
  return cells;
}

/* The finest scale at which everything fits. */
static int scale_for(const Part *parts, int count, int cells)
{
  static const int scales[] = { 5, 10, 15, 20, 30, 60, 90, 120, 180, 240, 360, 480, 720, DAY_MIN };
  for (size_t i = 0; i < sizeof scales / sizeof *scales; i++)
    if (lay_out(parts, count, scales[i], NULL) <= cells) return scales[i];
  int scale = 2 * DAY_MIN;
  while (lay_out(parts, count, scale, NULL) > cells) scale += DAY_MIN;
  return scale;
}

static Chart chart_of(const Plan *plan, int width, bool utf8)
{
  int room = width - LABEL > LEAST_CELLS ? width - LABEL : LEAST_CELLS, count;
  Part *parts = busy_parts(plan, &count);
  Chart c = { .plan = plan, .utf8 = utf8, .scale = scale_for(parts, count, room), .room = room };
  c.from = mem_array((size_t)room + 1, sizeof *c.from);
  c.cells = lay_out(parts, count, c.scale, c.from);
  mem_free(parts);
  return c;
}

/* ---- rows of cells: a mark's number plus one, or one of these */

enum { EMPTY = 0, LEFT_OUT = MARKS + 1 };

static void clear_cells(const Chart *c, unsigned char *cells)
{
  for (int i = 0; i < c->cells; i++) cells[i] = c->from[i] == CELL_GAP ? LEFT_OUT : EMPTY;
}

static bool is_in_cell(const Chart *c, int cell, const Stretch *s)
{
  return s->start < s->finish && s->start < c->from[cell] + c->scale && s->finish > c->from[cell];
}

static void paint_activity(const Chart *c, int activity, unsigned char mark, unsigned char *cells)
{
  const Booking *b = &c->plan->bookings[activity];
  for (int s = 0; s < b->stretch_count; s++)
    for (int i = 0; i < c->cells; i++)
      if (cells[i] != LEFT_OUT && is_in_cell(c, i, &b->stretches[s])) cells[i] = mark;
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
    if (cells[i] == EMPTY) buf_putc(out, ' ');
    else if (cells[i] == LEFT_OUT) buf_puts(out, c->utf8 ? "\u2502" : "|");
    else if (c->utf8) buf_puts(out, marks[cells[i] - 1].utf8);
    else buf_putc(out, marks[cells[i] - 1].ascii);
  }
  page_end_line(out);
}

/* ---- the axis */

/* Writes a label at a cell of a line of blanks if it fits there and leaves a blank before it. */
static void label_at(char *line, int room, int at, const char *label, int *free_from)
{
  int length = (int)strlen(label);
  if (at < *free_from || at + length > room) return;
  memcpy(line + at, label, (size_t)length);
  *free_from = at + length + 1;
}

static void put_axis_line(const Chart *c, const char *line, Buf *out)
{
  buf_repeat(out, ' ', LABEL);
  buf_add(out, line, (size_t)c->room);
  page_end_line(out);
}

static bool begins_day(const Chart *c, int cell)
{
  if (c->from[cell] == CELL_GAP) return false;
  if (cell == 0 || c->from[cell - 1] == CELL_GAP) return true;
  return page_day_of(c->from[cell]) != page_day_of(c->from[cell - 1]);
}

static char *blank_line(const Chart *c)
{
  char *line = mem_array((size_t)c->room + 1, 1);
  memset(line, ' ', (size_t)c->room);
  return line;
}

static void axis(const Chart *c, Buf *out)
{
  char *days = blank_line(c), *hours = blank_line(c);
  int day_free = 0, hour_free = 0;
  bool with_hours = c->scale < 6 * 60;
  for (int i = 0; i < c->cells; i++) {
    if (c->from[i] == CELL_GAP) continue;
    Buf label = { 0 };
    page_short_day(&label, c->plan->job, page_day_of(c->from[i]));
    if (begins_day(c, i)) label_at(days, c->room, i, buf_text(&label), &day_free);
    buf_clear(&label);
    page_time(&label, c->from[i]);
    label.text[2] = '\0'; /* the hour alone */
    if (c->from[i] % 60 == 0) label_at(hours, c->room, i, buf_text(&label), &hour_free);
    buf_free(&label);
  }
  put_axis_line(c, days, out);
  if (with_hours) put_axis_line(c, hours, out);
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
  buf_printf(&label, "%s %s", step_words[step->word].name, step->name);
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
  Buf text = { 0 };
  buf_printf(&text, "%s time left out, in which nothing happens; each mark is ", c->utf8 ? "\u2502" : "|");
  page_minutes(&text, c->scale);
  page_fold(out, "", buf_text(&text), width, 0);
  buf_free(&text);
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
  mem_free(c.from);
}
