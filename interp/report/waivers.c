#include "report/waivers.h"

#include <string.h>

#include "report/page.h"

/* Called for each waiver that counts; `context` is passed on. */
typedef void (*WaiverVisit)(const Waiver *waiver, void *context);

static void visit(const Waiver *list, int count, const char *area, WaiverVisit each, void *context)
{
  for (int i = 0; i < count; i++)
    if (!area || !list[i].area || strcmp(list[i].area, area) == 0) each(&list[i], context);
}

static void visit_area(const Job *job, int area, WaiverVisit each, void *context)
{
  const Recipe *recipe = &job->recipes[job->areas[area].recipe];
  visit(recipe->waivers, recipe->waiver_count, NULL, each, context);
  visit(job->waivers, job->waiver_count, job->areas[area].name, each, context);
}

static void visit_job(const Job *job, WaiverVisit each, void *context)
{
  visit(job->waivers, job->waiver_count, NULL, each, context);
  for (int i = 0; i < job->recipe_count; i++)
    visit(job->recipes[i].waivers, job->recipes[i].waiver_count, NULL, each, context);
}

typedef struct {
  int width, shown;
  Buf *out;
} Paper;

static void print(const Waiver *w, void *context)
{
  Paper *paper = context;
  Buf text = { 0 };
  if (paper->shown++ == 0) buf_puts(paper->out, "\nWaived\n");
  if (w->step) buf_printf(&text, "step %s", w->step);
  if (w->area) buf_printf(&text, "%sarea %s", text.length ? ", " : "", w->area);
  buf_printf(&text, "%s%s (%s)", text.length ? ": " : "", w->reason, w->by);
  Buf lead = { 0 };
  buf_printf(&lead, "%s: ", w->rule);
  page_fold(paper->out, buf_text(&lead), buf_text(&text), paper->width, 2);
  buf_free(&lead);
  buf_free(&text);
}

void waivers_of_area(const Job *job, int area, int width, Buf *out)
{
  visit_area(job, area, print, &(Paper){ width, 0, out });
}

void waivers_of_job(const Job *job, int width, Buf *out) { visit_job(job, print, &(Paper){ width, 0, out }); }

static void text_json(JsonWriter *j, const char *key, const char *text)
{
  if (text) json_text(j, key, text);
}

static void print_json(const Waiver *w, void *context)
{
  JsonWriter *j = context;
  json_object(j, NULL);
  json_text(j, "rule", w->rule);
  text_json(j, "step", w->step);
  text_json(j, "area", w->area);
  json_text(j, "reason", w->reason);
  json_text(j, "by", w->by);
  json_end(j);
}

void waivers_of_area_json(JsonWriter *j, const Job *job, int area)
{
  json_array(j, "waivers");
  visit_area(job, area, print_json, j);
  json_end(j);
}

void waivers_of_job_json(JsonWriter *j, const Job *job)
{
  json_array(j, "waivers");
  visit_job(job, print_json, j);
  json_end(j);
}
