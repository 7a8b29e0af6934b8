/* report_svg.c - the schedule as a Gantt chart, for an A4 page across. Kinds of work differ in luminance and
 * pattern, so that it reads in print and without colours. Time in which nothing happens is cut out; shifts are
 * shaded. */
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "base/text.h"
#include "report/page.h"
#include "report/report.h"
#include "report/shifts.h"
#include "report/step_words.h"

/* Units are a quarter of a millimetre: 297 mm are 1188. */
enum { WIDE = 1188, MARGIN = 24, LABEL = 210, TOP = 84, ROW = 15, BAR = 9, HALF = 5, AREA_ROW = 20 };
enum { LEGEND_ROWS = 2, LEGEND_ROW = 20 };
enum { CUT = 9, IDLE = 90, LABEL_LETTERS = 36 };

/* Painted in this order; later kinds lie over earlier ones, edges over the lower half of the field beside them. */
static const struct {
  WorkKind kind;
  const char *class, *says;
} kinds[] = {
  { WORK_REST, "rest", "drying, waiting" },      { WORK_DWELL, "dwell", "dwell, keep wet" },
  { WORK_SITE, "site", "protection, clean-up" }, { WORK_READ, "read", "readings" },
  { WORK_SURFACE, "surface", "collect, clean" }, { WORK_APPLY, "apply", "material goes on" },
  { WORK_FIELD, "field", "machine" },            { WORK_EDGES, "edges", "edges by hand" },
};
enum { KINDS = sizeof kinds / sizeof *kinds };

static const char STYLE[] =
  "<style>text{font:10px sans-serif;fill:#000}.head{font:bold 15px sans-serif}.area{font:bold 11px sans-serif}"
  ".small{font-size:8px}.axis{stroke:#000;stroke-width:.6}.cut{stroke:#777;stroke-width:.6;stroke-dasharray:2 2}"
  ".row{stroke:#ccc;stroke-width:.4}.shift{fill:#f1f1f1}.bar{stroke:#000;stroke-width:.6}.field{fill:#222}"
  ".edges{fill:url(#edges)}.apply{fill:url(#apply)}.surface{fill:url(#surface)}.read{fill:#fff;stroke-width:1.4}"
  ".site{fill:url(#site)}.dwell{fill:url(#dwell)}.rest{fill:#fff;stroke-dasharray:2 1.5}.hold{fill:#fff;stroke:#000;"
  "stroke-width:1.2}.critical{stroke:#000;stroke-width:1.8}</style>\n";

static const char PATTERNS[] =
  "<defs>"
  "<pattern id=\"edges\" width=\"4\" height=\"4\" patternUnits=\"userSpaceOnUse\"><rect width=\"4\" height=\"4\" "
  "fill=\"#fff\"/><path d=\"M-1,1 l2,-2 M0,4 l4,-4 M3,5 l2,-2\" stroke=\"#000\" stroke-width=\"1.1\"/></pattern>"
  "<pattern id=\"apply\" width=\"4\" height=\"3\" patternUnits=\"userSpaceOnUse\"><rect width=\"4\" height=\"3\" "
  "fill=\"#fff\"/><rect width=\"4\" height=\"1.5\" fill=\"#333\"/></pattern>"
  "<pattern id=\"surface\" width=\"4\" height=\"4\" patternUnits=\"userSpaceOnUse\"><rect width=\"4\" height=\"4\" "
  "fill=\"#999\"/></pattern>"
  "<pattern id=\"site\" width=\"4\" height=\"4\" patternUnits=\"userSpaceOnUse\"><rect width=\"4\" height=\"4\" "
  "fill=\"#fff\"/><path d=\"M0,2 h4 M2,0 v4\" stroke=\"#000\" stroke-width=\".7\"/></pattern>"
  "<pattern id=\"dwell\" width=\"4\" height=\"4\" patternUnits=\"userSpaceOnUse\"><rect width=\"4\" height=\"4\" "
  "fill=\"#fff\"/><circle cx=\"1\" cy=\"1\" r=\".8\"/><circle cx=\"3\" cy=\"3\" r=\".8\"/></pattern>"
  "</defs>\n";

/* ---- time across the page: the parts in which something happens, with a cut between them */

typedef struct {
  int start, finish;
  double x;
} Part;

typedef struct {
  const Plan *plan;
  Buf *out;
  Part *parts;
  int part_count;
  double scale; /* units a minute */
  int bottom;
  ShiftEntry *entries;
  int entry_count;
} Chart;

static int compare_parts(const void *left, const void *right)
{
  const Part *a = left, *b = right;
  if (a->start != b->start) return a->start < b->start ? -1 : 1;
  return (a->finish > b->finish) - (a->finish < b->finish);
}

static void find_parts(Chart *c)
{
  c->parts = mem_array((size_t)c->entry_count + 1, sizeof *c->parts);
  for (int i = 0; i < c->entry_count; i++) c->parts[i] = (Part){ c->entries[i].start, c->entries[i].finish, 0 };
  qsort(c->parts, (size_t)c->entry_count, sizeof *c->parts, compare_parts);
  for (int i = 0; i < c->entry_count; i++) {
    Part *last = &c->parts[c->part_count - 1];
    if (c->part_count > 0 && c->parts[i].start - last->finish < IDLE) {
      if (c->parts[i].finish > last->finish) last->finish = c->parts[i].finish;
    } else c->parts[c->part_count++] = c->parts[i];
  }
}

static void place_parts(Chart *c)
{
  int minutes = 0;
  double room = WIDE - 2 * MARGIN - LABEL - CUT * (c->part_count > 0 ? c->part_count - 1 : 0), x = MARGIN + LABEL;
  for (int i = 0; i < c->part_count; i++) minutes += c->parts[i].finish - c->parts[i].start;
  if (room < 100) room = 100;
  c->scale = minutes > 0 ? room / minutes : 1;
  for (int i = 0; i < c->part_count; i++) {
    c->parts[i].x = x;
    x += c->scale * (c->parts[i].finish - c->parts[i].start) + CUT;
  }
}

/* Of a minute of work, or the next one. */
static double x_of(const Chart *c, int minute)
{
  int i = 0;
  while (i + 1 < c->part_count && minute > c->parts[i].finish) i++;
  const Part *p = &c->parts[i];
  return minute < p->start ? p->x : p->x + c->scale * (minute - p->start);
}

/* ---- text */

static void put_escaped(Buf *out, const char *text)
{
  Buf clean = { 0 };
  text_escape(&clean, text, strlen(text));
  for (const char *c = buf_text(&clean); *c; c++) {
    if (*c == '&') buf_puts(out, "&amp;");
    else if (*c == '<') buf_puts(out, "&lt;");
    else if (*c == '>') buf_puts(out, "&gt;");
    else if (*c == '"') buf_puts(out, "&quot;");
    else buf_putc(out, *c);
  }
  buf_free(&clean);
}

static void put_text(Buf *out, double x, double y, const char *class, const char *text)
{
  buf_printf(out, "<text x=\"%.1f\" y=\"%.1f\" class=\"%s\">", x, y, class);
  put_escaped(out, text);
  buf_puts(out, "</text>\n");
}

static void put_label(Buf *out, double x, double y, const char *class, const char *text)
{
  Buf cut = { 0 };
  if (page_fits(text, LABEL_LETTERS)) buf_puts(&cut, text);
  else page_left(&cut, text, LABEL_LETTERS);
  put_text(out, x, y, class, buf_text(&cut));
  buf_free(&cut);
}

static void put_line(Buf *out, const char *class, double x1, double y1, double x2, double y2)
{
  buf_printf(out, "<line class=\"%s\" x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" y2=\"%.1f\"/>\n", class, x1, y1, x2, y2);
}

static void put_diamond(Buf *out, double x, double y)
{
  buf_printf(out, "<path class=\"hold\" d=\"M%.1f,%.1f l5,-6 5,6 -5,6 z\"/>\n", x - 5, y);
}

/* ---- the axis: shifts shaded, days and hours named */

static void put_shifts(const Chart *c)
{
  for (int from = 0, to; from < c->entry_count; from = to) {
    int start = c->entries[from].start, finish = 0;
    for (to = from; to < c->entry_count && shifts_same(&c->entries[to], &c->entries[from]); to++)
      if (c->entries[to].finish > finish && c->plan->bookings[c->entries[to].activity].people_count > 0)
        finish = c->entries[to].finish;
    if (finish > start)
      buf_printf(c->out, "<rect class=\"shift\" x=\"%.1f\" y=\"%d\" width=\"%.1f\" height=\"%d\"/>\n",
                 x_of(c, start), TOP - 8, x_of(c, finish) - x_of(c, start), c->bottom - TOP + 8);
  }
}

static int hour_step(const Chart *c)
{
  static const int steps[] = { 60, 120, 180, 360, 720 };
  for (size_t i = 0; i < sizeof steps / sizeof *steps; i++)
    if (steps[i] * c->scale >= 14) return steps[i];
  return DAY_MIN;
}

static void put_hours(const Chart *c, const Part *part)
{
  int step = hour_step(c);
  Buf text = { 0 };
  int first = (part->start + step - 1) / step * step;
  for (int minute = first; minute < part->finish && step < DAY_MIN; minute += step) {
    double x = x_of(c, minute);
    put_line(c->out, "axis", x, TOP - 12, x, TOP - 8);
    page_time(&text, minute);
    buf_cut(&text, 2);
    put_text(c->out, x - 4, TOP - 14, "small", buf_text(&text));
    buf_clear(&text);
  }
  buf_free(&text);
}

static void put_axis(const Chart *c)
{
  Buf text = { 0 };
  int told = -1;
  double free_from = 0;
  for (int i = 0; i < c->part_count; i++) {
    const Part *p = &c->parts[i];
    put_line(c->out, "axis", p->x, TOP - 8, x_of(c, p->finish), TOP - 8);
    if (i > 0) put_line(c->out, "cut", p->x - CUT / 2.0, TOP - 30, p->x - CUT / 2.0, c->bottom);
    put_hours(c, p);
    int day = page_day_of(p->start);
    if (day == told || p->x < free_from) continue;
    page_short_day(&text, c->plan->job, day);
    free_from = p->x + 6.0 * (double)text.length;
    if (free_from < WIDE) put_text(c->out, p->x, TOP - 26, "", buf_text(&text));
    told = day;
    buf_clear(&text);
  }
  buf_free(&text);
}

/* ---- rows */

static bool has_work(const Plan *plan, int area, int step)
{
  for (int i = 0; i < plan->activity_count; i++)
    if (plan->activities[i].area == area && plan->activities[i].step == step) return true;
  return false;
}

static void put_title(const Chart *c, int activity, const Stretch *s)
{
  const Activity *a = &c->plan->activities[activity];
  Buf text = { 0 };
  buf_printf(&text, "%s ", a->id);
  page_span(&text, c->plan->job, s->start, s->finish);
  for (int i = 0; s->people && i < a->people; i++)
    buf_printf(&text, "%s%s", i > 0 ? ", " : " ", c->plan->persons[s->people[i]].name);
  buf_puts(c->out, "<title>");
  put_escaped(c->out, buf_text(&text));
  buf_puts(c->out, "</title>");
  buf_free(&text);
}

static void put_bars(const Chart *c, int activity, const char *class, double y)
{
  const Booking *b = &c->plan->bookings[activity];
  bool half = c->plan->activities[activity].kind == WORK_EDGES;
  for (int s = 0; s < b->stretch_count; s++) {
    const Stretch *stretch = &b->stretches[s];
    if (stretch->start == stretch->finish) continue;
    double x = x_of(c, stretch->start), width = x_of(c, stretch->finish) - x;
    buf_printf(c->out, "<rect class=\"bar %s\" x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%d\">", class, x,
               half ? y + BAR - HALF : y, width < 1 ? 1 : width, half ? HALF : BAR);
    put_title(c, activity, stretch);
    buf_puts(c->out, "</rect>\n");
    if (b->slack_min == 0) put_line(c->out, "critical", x, y + BAR + 2, x + width, y + BAR + 2);
  }
  if (c->plan->activities[activity].hold) put_diamond(c->out, x_of(c, b->finish), y + BAR / 2.0);
}

static void put_step(const Chart *c, int area, int step, double y)
{
  const Job *job = c->plan->job;
  const Step *s = &job->recipes[job->areas[area].recipe].steps[step];
  Buf label = { 0 };
  buf_printf(&label, "%s %s", step_words[s->word].name, s->name);
  put_line(c->out, "row", MARGIN, y + ROW - 1, WIDE - MARGIN, y + ROW - 1);
  put_label(c->out, MARGIN + 8, y + 10, "", buf_text(&label));
  for (int k = 0; k < KINDS; k++)
    for (int i = 0; i < c->plan->activity_count; i++) {
      const Activity *a = &c->plan->activities[i];
      if (a->area == area && a->step == step && a->kind == kinds[k].kind) put_bars(c, i, kinds[k].class, y + 3);
    }
  buf_free(&label);
}

static void put_area(const Chart *c, const Area *area, int y)
{
  put_label(c->out, MARGIN, y + 14, "area", area->name);
  if (!area->finish_by.given) return;
  Buf text = { 0 };
  buf_puts(&text, "wanted by ");
  page_instant(&text, c->plan->job, (int)area->finish_by.figure.value);
  put_text(c->out, MARGIN + LABEL + 4, y + 14, "small", buf_text(&text));
  buf_free(&text);
}

/* With out NULL only measures: the y below the last row. */
static int put_areas(const Chart *c, bool paint)
{
  const Job *job = c->plan->job;
  int y = TOP;
  for (int a = 0; a < job->area_count; a++) {
    if (paint) put_area(c, &job->areas[a], y);
    y += AREA_ROW;
    for (int s = 0; s < job->recipes[job->areas[a].recipe].step_count; s++) {
      if (!has_work(c->plan, a, s)) continue;
      if (paint) put_step(c, a, s, y);
      y += ROW;
    }
  }
  return y;
}

/* ---- legend and page */

static void put_legend(const Chart *c)
{
  enum { A_ROW = 5, CELL = (WIDE - 2 * MARGIN) / A_ROW };
  for (int k = 0; k < KINDS + 2; k++) {
    double x = MARGIN + k % A_ROW * CELL, y = c->bottom + 14 + k / A_ROW * LEGEND_ROW;
    if (k < KINDS)
      buf_printf(c->out, "<rect class=\"bar %s\" x=\"%.1f\" y=\"%.1f\" width=\"24\" height=\"%d\"/>\n",
                 kinds[KINDS - 1 - k].class, x, y, BAR);
    else if (k == KINDS) put_diamond(c->out, x + 12, y + BAR / 2.0);
    else put_line(c->out, "critical", x, y + BAR / 2.0, x + 24, y + BAR / 2.0);
    const char *mark = k == KINDS ? "hold point: wait for a signature" : "below a bar: critical";
    put_text(c->out, x + 30, y + 8, "", k < KINDS ? kinds[KINDS - 1 - k].says : mark);
  }
}

static void put_head(const Chart *c, int height)
{
  const Job *job = c->plan->job;
  Buf text = { 0 };
  buf_printf(c->out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
             "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"297mm\" height=\"%.2fmm\" viewBox=\"0 0 %d %d\">\n<title>", height / 4.0, WIDE, height);
  put_escaped(c->out, job->name);
  buf_puts(c->out, "</title>\n");
  buf_puts(c->out, STYLE);
  buf_puts(c->out, PATTERNS);
  buf_printf(c->out, "<rect width=\"%d\" height=\"%d\" fill=\"#fff\"/>\n", WIDE, height);
  put_text(c->out, MARGIN, 28, "head", job->name);
  page_instant(&text, job, job->start_min);
  if (c->plan->bookings) {
    buf_puts(&text, " to ");
    page_instant(&text, job, c->plan->finish);
    buf_puts(&text, "; shaded: shifts; dashed: time cut out in which nothing happens");
  } else buf_puts(&text, ": no schedule");
  put_text(c->out, MARGIN, 43, "", buf_text(&text));
  buf_free(&text);
}

void report_svg(const Plan *plan, Buf *out)
{
  Chart c = { .plan = plan, .out = out, .bottom = TOP };
  if (plan->bookings) {
    c.entries = shifts_list(plan, &c.entry_count);
    find_parts(&c);
    place_parts(&c);
    c.bottom = put_areas(&c, false);
  }
  put_head(&c, c.bottom + 14 + LEGEND_ROWS * LEGEND_ROW + MARGIN);
  if (plan->bookings) {
    put_shifts(&c);
    put_axis(&c);
    put_areas(&c, true);
    put_legend(&c);
  }
  buf_puts(out, "</svg>\n");
  mem_free(c.parts);
  mem_free(c.entries);
}
