/* report_sheet.c - the crew's process sheet: what to do in each area, in order, with room to write readings in. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "cost/show.h"
#include "report/area_words.h"
#include "report/cautions.h"
#include "report/page.h"
#include "report/report.h"
#include "report/step_words.h"
#include "report/waivers.h"

enum { NUMBER = 6, WORK = 8, NAME = 14, TOOL = 16, WET = 3, PASSES = 6, OVERLAP = 7, TRAVEL = 11, DETAIL = 7 };
enum { NARROW_COLUMNS = 3 };
enum { READING_CELLS = 8, READINGS_MOST = 30 };

typedef struct {
  const Plan *plan;
  const Step *step;
  int area, index; /* of the step */
  int width;
  double edge_m, litres, readings; /* of all activities of the step */
  Buf *out;
} Row;

/* ---- head of an area */

static void labelled(Buf *out, const char *label, const char *text, int width)
{
  Buf lead = { 0 };
  text_left(&lead, label, 10);
  if (*text) page_fold(out, buf_text(&lead), text, width, 0);
  buf_free(&lead);
}

static void hours_words(const Area *area, Buf *out)
{
  if (!area->has_hours) return;
  page_time(out, area->hours.from_min);
  buf_putc(out, '-');
  page_time(out, area->hours.until_min);
  buf_puts(out, ", no work and no wet floor outside them");
}

static void area_head(const Plan *plan, int index, int width, Buf *out)
{
  const Area *area = &plan->job->areas[index];
  const Recipe *recipe = &plan->job->recipes[area->recipe];
  Buf text = { 0 };
  buf_printf(&text, "%s (%d of %d)", area->name, index + 1, plan->job->area_count);
  labelled(out, "AREA", buf_text(&text), width);
  buf_clear(&text);
  area_size(area, plan->job->metric, LANGUAGE_EN, &text);
  labelled(out, "size", buf_text(&text), width);
  buf_clear(&text);
  buf_printf(&text, "%s%s%s", recipe->name, recipe->revision ? ", revision " : "",
             recipe->revision ? recipe->revision : "");
  labelled(out, "recipe", buf_text(&text), width);
  buf_clear(&text);
  area_promise(recipe, LANGUAGE_EN, &text);
  labelled(out, "promised", buf_text(&text), width);
  buf_clear(&text);
  hours_words(area, &text);
  labelled(out, "hours", buf_text(&text), width);
  buf_free(&text);
}

/* ---- one line a step */

static void cell(const Row *r, const char *text, int cells)
{
  page_left(r->out, text, cells);
  buf_putc(r->out, ' ');
}

static void buf_cell(const Row *r, Buf *text, int cells)
{
  cell(r, buf_text(text), cells);
  buf_clear(text);
}

static void table_head(int width, Buf *out)
{
  const Row r = { .width = width, .out = out };
  const struct {
    const char *text;
    int cells;
  } heads[] = { { "    No", NUMBER }, { "Work", WORK },     { "Step", NAME },       { "Tool or material", TOOL },
                { "Wet", WET },       { "Passes", PASSES }, { "Overlap", OVERLAP }, { "Travel", TRAVEL } };
  size_t shown = width < PAGE_NARROW ? NARROW_COLUMNS : sizeof heads / sizeof *heads;
  for (size_t i = 0; i < shown; i++) cell(&r, heads[i].text, heads[i].cells);
  page_end_line(out);
  page_rule(out, '-', width);
}

/* How an abrasive step is run, each in its column. */
static void run_cells(const Row *r)
{
  const Step *s = r->step;
  bool metric = r->plan->job->metric;
  const Machine *machine = step_machine(r->plan, r->area, r->index);
  Buf text = { 0 };
  cell(r, s->wet ? "wet" : "dry", WET);
  show_number(&text, s->passes.value, 1);
  buf_cell(r, &text, PASSES);
  step_length(step_overlap(s, machine), metric, &text);
  buf_cell(r, &text, OVERLAP);
  step_speed(step_travel(s, machine), metric, &text);
  buf_cell(r, &text, TRAVEL);
  buf_free(&text);
}

/* The same as a line of its own, on a narrow page. */
static void run_line(const Row *r)
{
  const Step *s = r->step;
  bool metric = r->plan->job->metric;
  const Machine *machine = step_machine(r->plan, r->area, r->index);
  Buf text = { 0 };
  step_tool(s, LANGUAGE_EN, &text);
  if (step_words[s->word].family == FAMILY_ABRASIVE) {
    buf_puts(&text, s->wet ? ", wet, " : ", dry, ");
    show_number(&text, s->passes.value, 1);
    buf_puts(&text, " passes, overlap ");
    step_length(step_overlap(s, machine), metric, &text);
    buf_puts(&text, ", travel ");
    step_speed(step_travel(s, machine), metric, &text);
  }
  if (text.length > 0) page_fold(r->out, "with: ", buf_text(&text), r->width, DETAIL);
  buf_free(&text);
}

static void step_line(const Row *r)
{
  Buf text = { 0 };
  buf_printf(&text, "[ ] %2d", r->index + 1);
  buf_cell(r, &text, NUMBER);
  cell(r, step_words[r->step->word].name, WORK);
  cell(r, r->step->name, NAME);
  if (r->width >= PAGE_NARROW) {
    step_tool(r->step, LANGUAGE_EN, &text);
    buf_cell(r, &text, TOOL);
    if (step_words[r->step->word].family == FAMILY_ABRASIVE) run_cells(r);
  }
  page_end_line(r->out);
  if (r->width < PAGE_NARROW) run_line(r);
  buf_free(&text);
}

/* ---- the lines below it */

static void detail(const Row *r, const char *lead, const char *text)
{
  if (text && *text) page_fold(r->out, lead, text, r->width, DETAIL);
}

static bool belongs(const Row *r, int activity)
{
  const Activity *a = &r->plan->activities[activity];
  return a->area == r->area && a->step == r->index;
}

static void long_names(const Row *r)
{
  Buf tool = { 0 };
  step_tool(r->step, LANGUAGE_EN, &tool);
  if (!page_fits(r->step->name, NAME)) detail(r, "step: ", r->step->name);
  if (r->width >= PAGE_NARROW && !page_fits(buf_text(&tool), TOOL)) detail(r, "with: ", buf_text(&tool));
  buf_free(&tool);
}

/* "edges Wed 7 Apr 15:27-16:00, Thu 8 Apr 07:00-10:10"; a hand-over to another person does not end a span. */
static void spans_of(const Row *r, int activity, Buf *out)
{
  const Booking *b = &r->plan->bookings[activity];
  const char *word = work_word(&r->plan->activities[activity], r->step), *between = out->length ? "; " : "";
  for (int first = 0, last; first < b->stretch_count; first = last + 1) {
    for (last = first; last + 1 < b->stretch_count; last++)
      if (b->stretches[last].finish != b->stretches[last + 1].start) break;
    if (b->stretches[first].start == b->stretches[last].finish) continue;
    buf_printf(out, "%s%s%s", between, word, *word ? " " : "");
    page_span(out, r->plan->job, b->stretches[first].start, b->stretches[last].finish);
    between = ", ";
    word = "";
  }
}

/* The activity that the step is done along with; NULL: it is done by itself. */
static const Activity *done_along_with(const Row *r)
{
  for (int i = 0; i < r->plan->activity_count; i++) {
    const Activity *a = &r->plan->activities[i];
    if (a->area == r->area && a->along.run_min > 0 && a->along.step == r->index) return a;
  }
  return NULL;
}

static void along_line(const Row *r)
{
  const Activity *a = done_along_with(r);
  if (a == NULL) return;
  Buf text = { 0 };
  const Step *step = step_of(r->plan, a);
  buf_printf(&text, "along with %s %s, bay by bay, by %s", step_words[step->word].name, step->name,
             a->along.people > 0 ? "others who follow" : "the same people");
  if (plan_runs_along(a)) buf_printf(&text, ", %s", r->plan->job->machines[a->along.machine].name);
  detail(r, "work: ", buf_text(&text));
  buf_free(&text);
}

static void clock_line(const Row *r)
{
  Buf text = { 0 };
  for (int i = 0; i < r->plan->activity_count && r->plan->bookings; i++)
    if (belongs(r, i)) spans_of(r, i, &text);
  detail(r, "clock: ", buf_text(&text));
  buf_free(&text);
}

static void machine_line(const Row *r)
{
  const Plan *plan = r->plan;
  Buf text = { 0 };
  for (int i = 0; i < plan->activity_count; i++) {
    const Activity *a = &plan->activities[i];
    if (!belongs(r, i) || a->machine < 0 || a->kind == WORK_EDGES) continue;
    buf_printf(&text, "%s%s", text.length ? "; " : "", plan->job->machines[a->machine].name);
  }
  detail(r, "machine: ", buf_text(&text));
  buf_free(&text);
}

static void edges_line(const Row *r)
{
  const Plan *plan = r->plan;
  if (r->edge_m <= 0) return;
  Buf text = { 0 };
  show_quantity(&text, r->edge_m, "m", KIND_LENGTH, plan->job->metric);
  buf_puts(&text, " by hand");
  for (int i = 0; i < plan->activity_count; i++) {
    const Activity *a = &plan->activities[i];
    if (belongs(r, i) && a->kind == WORK_EDGES && a->machine >= 0)
      buf_printf(&text, ", %s", plan->job->machines[a->machine].name);
  }
  detail(r, "edges: ", buf_text(&text));
  buf_free(&text);
}

static void spread_line(const Row *r)
{
  const Step *s = r->step;
  bool metric = r->plan->job->metric;
  Buf text = { 0 };
  step_spread_band(&s->spread_m2_per_l, metric, LANGUAGE_EN, &text);
  if (s->coats.value > 1) {
    buf_puts(&text, text.length ? ", " : "");
    show_number(&text, s->coats.value, 1);
    buf_puts(&text, " coats");
  }
  if (r->litres > 0) {
    buf_puts(&text, text.length ? "; have " : "have ");
    show_quantity(&text, r->litres, "L", KIND_VOLUME, metric);
    buf_puts(&text, " at hand");
  }
  detail(r, "spread: ", buf_text(&text));
  buf_free(&text);
}

static void times_line(const Row *r)
{
  const Step *s = r->step;
  Buf text = { 0 };
  if (s->within_min.given) {
    buf_puts(&text, "start within ");
    page_minutes(&text, (int)floor(s->within_min.figure.value + 1e-9));
    buf_puts(&text, " of the step before");
  }
  detail(r, "time: ", buf_text(&text));
  buf_clear(&text);
  step_minutes_band(&s->dwell_min, LANGUAGE_EN, &text);
  if (s->keep_wet) buf_puts(&text, text.length ? ", keep wet" : "keep wet");
  detail(r, "dwell: ", buf_text(&text));
  buf_clear(&text);
  step_minutes_band(&s->dry_min, LANGUAGE_EN, &text);
  detail(r, "dry: ", buf_text(&text));
  buf_clear(&text);
  if (s->time_min.given) page_minutes(&text, (int)ceil(s->time_min.figure.value - 1e-9));
  detail(r, "wait: ", buf_text(&text));
  buf_free(&text);
}

/* Who does it, by name once that is known. */
static void names_of(const Row *r, int activity, Buf *out)
{
  const Booking *b = &r->plan->bookings[activity];
  const char *word = work_word(&r->plan->activities[activity], r->step);
  if (b->people_count == 0) return;
  buf_printf(out, "%s%s%s", out->length ? "; " : "", word, *word ? " " : "");
  for (int i = 0; i < b->people_count; i++)
    buf_printf(out, "%s%s", i > 0 ? ", " : "", r->plan->persons[b->people[i]].name);
}

static void skill_words(const Step *step, Buf *out)
{
  if (step->people.value > 1) {
    show_number(out, step->people.value, 1);
    buf_puts(out, " people");
  }
  if (step->skill && strcmp(step->skill, "any") != 0)
    buf_printf(out, "%swith the skill \"%s\"", out->length ? " " : "", step->skill);
}

static void people_line(const Row *r)
{
  Buf text = { 0 };
  if (r->plan->bookings == NULL) skill_words(r->step, &text);
  for (int i = 0; i < r->plan->activity_count && r->plan->bookings; i++)
    if (belongs(r, i)) names_of(r, i, &text);
  detail(r, "crew: ", buf_text(&text));
  buf_free(&text);
}

static void blanks(const Row *r, int count)
{
  int a_line = (r->width - DETAIL) / READING_CELLS, shown = count < READINGS_MOST ? count : READINGS_MOST;
  for (int i = 0; i < shown; i++) {
    if (i % a_line == 0) buf_repeat(r->out, ' ', DETAIL);
    buf_puts(r->out, "______");
    if (i % a_line == a_line - 1 || i == shown - 1) page_end_line(r->out);
    else buf_puts(r->out, "  ");
  }
  if (count > shown) {
    Buf text = { 0 };
    buf_printf(&text, "and %d more on a sheet of their own", count - shown);
    detail(r, "", buf_text(&text));
    buf_free(&text);
  }
}

static void readings_lines(const Row *r)
{
  int count = (int)ceil(r->readings - 1e-9);
  if (step_words[r->step->word].family != FAMILY_CHECK) return;
  Buf text = { 0 };
  buf_printf(&text, "%d", count);
  if (r->step->want.has_low || r->step->want.has_high) {
    buf_puts(&text, ", wanted ");
    step_want_band(&r->step->want, LANGUAGE_EN, &text);
  }
  detail(r, "readings: ", buf_text(&text));
  blanks(r, count);
  buf_free(&text);
}

static void step_rows(const Row *r)
{
  step_line(r);
  long_names(r);
  along_line(r);
  clock_line(r);
  machine_line(r);
  edges_line(r);
  spread_line(r);
  times_line(r);
  people_line(r);
  detail(r, "care: ", r->step->care);
  detail(r, "note: ", r->step->says);
  readings_lines(r);
  if (r->step->hold) detail(r, "HOLD: ", "stop here until signed. Name ________________ time ____________");
}

static Row row_of(const Plan *plan, int area, int step, int width, Buf *out)
{
  const Recipe *recipe = &plan->job->recipes[plan->job->areas[area].recipe];
  Row r = { .plan = plan, .step = &recipe->steps[step], .area = area, .index = step, .width = width, .out = out };
  for (int i = 0; i < plan->activity_count; i++) {
    if (!belongs(&r, i)) continue;
    r.edge_m += plan->activities[i].edge_m.value;
    r.litres += plan->activities[i].material.value;
    r.readings += plan->activities[i].readings.value;
  }
  return r;
}

/* ---- the whole sheet */

static void area_cautions(const Recipe *recipe, int width, Buf *out)
{
  buf_puts(out, "\nCautions\n");
  for (size_t i = 0; i < cautions_count(); i++) {
    const char *text = caution_for(recipe, i, LANGUAGE_EN);
    if (text) page_fold(out, "- ", text, width, 2);
  }
  page_fold(out, "- ", caution_last(LANGUAGE_EN), width, 2);
}

void report_sheet_text(const Plan *plan, int width, Buf *out)
{
  const Job *job = plan->job;
  for (int a = 0; a < job->area_count; a++) {
    const Recipe *recipe = &job->recipes[job->areas[a].recipe];
    if (a > 0) buf_putc(out, '\n');
    labelled(out, "SHEET", job->name, width);
    page_rule(out, '=', width);
    area_head(plan, a, width, out);
    buf_putc(out, '\n');
    table_head(width, out);
    for (int i = 0; i < recipe->step_count; i++) {
      Row row = row_of(plan, a, i, width, out);
      if (i > 0) buf_putc(out, '\n');
      step_rows(&row);
    }
    waivers_of_area(job, a, width, out);
    area_cautions(recipe, width, out);
  }
}
