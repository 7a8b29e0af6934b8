/* report_compare_json.c - what differs, for programs (docs/json.md). */
#include "base/json.h"
#include "report/node_words.h"
#include "report/report_compare.h"

/* null for what there is not. */
static void put_text(JsonWriter *j, const char *key, const char *text) { json_text(j, key, *text ? text : NULL); }

static void put_place(JsonWriter *j, const char *key, Span at, const Sources *sources)
{
  Buf place = { 0 };
  node_place(at, sources, &place);
  put_text(j, key, buf_text(&place));
  buf_free(&place);
}

static void put_recipe(JsonWriter *j, const char *key, const Compared *recipe, const Sources *sources)
{
  json_object(j, key);
  json_text(j, "name", recipe->name);
  put_place(j, "at", recipe->at, sources);
  json_end(j);
}

static void put_change(JsonWriter *j, const Change *change, const Sources *sources)
{
  json_object(j, NULL);
  json_text(j, "kind", change->kind);
  json_text(j, "step", change->step);
  put_text(j, "field", change->field);
  put_text(j, "was", change->was);
  put_text(j, "now", change->now);
  put_place(j, "was_at", change->was_at, sources);
  put_place(j, "now_at", change->now_at, sources);
  json_end(j);
}

static void put_recipes(JsonWriter *j, const Comparison *c, const Sources *sources)
{
  json_object(j, "recipes");
  put_recipe(j, "was", &c->was, sources);
  put_recipe(j, "now", &c->now, sources);
  json_array(j, "changes");
  for (int i = 0; i < c->count; i++) put_change(j, &c->changes[i], sources);
  json_end(j);
  json_end(j);
}

static void put_told(JsonWriter *j, const char *key, const Told *told)
{
  if (told == NULL) {
    json_null(j, key);
    return;
  }
  json_object(j, key);
  json_text(j, "level", diag_level_name(told->level));
  json_text(j, "message", told->message);
  put_text(j, "at", told->place);
  json_end(j);
}

static void put_findings(JsonWriter *j, const ComparedFindings *findings)
{
  json_array(j, "findings");
  for (int i = 0; i < findings->count; i++) {
    const ComparedFinding *f = &findings->list[i];
    json_object(j, NULL);
    json_text(j, "fate", finding_fate_names[finding_fate(f)]);
    json_text(j, "code", f->now ? f->now->code : f->was->code);
    put_text(j, "about", f->about);
    put_told(j, "was", f->was);
    put_told(j, "now", f->now);
    json_end(j);
  }
  json_end(j);
}

static void put_areas(JsonWriter *j, const JobTotals *totals)
{
  json_array(j, "areas");
  for (int i = 0; i < totals->area_count; i++) {
    json_object(j, NULL);
    json_text(j, "name", totals->areas[i].name);
    json_text(j, "recipe", totals->areas[i].recipe);
    json_number(j, "floor_m2", totals->areas[i].floor_m2, 2);
    json_end(j);
  }
  json_end(j);
}

static void put_money(JsonWriter *j, const char *key, Money money) { json_decimal(j, key, money / MONEY_CENT, 2); }

static void put_totals(JsonWriter *j, const char *key, const JobTotals *totals)
{
  json_object(j, key);
  json_text(j, "job", totals->job);
  put_areas(j, totals);
  json_object(j, "money");
  for (int kind = 0; kind < LINE_KINDS; kind++) put_money(j, line_kind_names[kind], totals->kinds[kind]);
  json_end(j);
  put_money(j, "price", totals->price);
  json_text(j, "currency", totals->currency);
  json_bool(j, "complete", totals->complete);
  json_number(j, "person_h", totals->person_h, 2);
  json_number(j, "machine_h", totals->machine_h, 2);
  json_integer(j, "makespan_min", totals->makespan_min);
  json_text(j, "finish", totals->finish);
  json_end(j);
}

void report_compare_json(const CompareReport *report, const Sources *sources, Buf *out)
{
  JsonWriter j = json_begin(out);
  json_object(&j, NULL);
  json_text(&j, "format", "gritwork-compare");
  json_integer(&j, "version", 2);
  if (report->recipes) put_recipes(&j, report->recipes, sources);
  put_findings(&j, &report->findings);
  if (report->was) {
    json_object(&j, "jobs");
    put_totals(&j, "was", report->was);
    put_totals(&j, "now", report->now);
    json_end(&j);
  }
  json_end(&j);
  json_finish(&j);
}
