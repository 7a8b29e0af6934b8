/* diag_json.c - findings for programs. */
#include "base/diag.h"

static void put_line_column(JsonWriter *j, const char *line_key, const char *column_key, Place place)
{
  json_integer(j, line_key, place.line);
  json_integer(j, column_key, place.column);
}

static void put_nowhere(JsonWriter *j)
{
  static const char *const keys[] = { "file", "line", "column", "end_line", "end_column" };
  for (size_t i = 0; i < sizeof keys / sizeof *keys; i++) json_null(j, keys[i]);
}

static void put_span(JsonWriter *j, const Sources *sources, Span at)
{
  if (span_is_nowhere(at)) {
    put_nowhere(j);
    return;
  }
  json_text(j, "file", sources_name(sources, at.source));
  put_line_column(j, "line", "column", sources_place(sources, at.source, at.begin));
  put_line_column(j, "end_line", "end_column", sources_place(sources, at.source, at.end));
}

static void put_labels(JsonWriter *j, const Sources *sources, const Diag *d)
{
  json_array(j, "labels");
  for (int i = 0; i < d->label_count; i++) {
    json_object(j, NULL);
    json_text(j, "text", d->labels[i].text);
    put_span(j, sources, d->labels[i].at);
    json_end(j);
  }
  json_end(j);
}

static void put_fix(JsonWriter *j, const Sources *sources, const Diag *d)
{
  if (d->fix == NULL || span_is_nowhere(diag_fix_at(d))) {
    json_null(j, "fix");
    return;
  }
  json_object(j, "fix");
  json_text(j, "text", d->fix);
  json_bool(j, "safe", d->fix_is_safe);
  put_span(j, sources, diag_fix_at(d));
  json_end(j);
}

static void put_waiver(JsonWriter *j, const Sources *sources, const DiagWaiver *waiver)
{
  if (waiver->reason == NULL) {
    json_null(j, "waiver");
    return;
  }
  json_object(j, "waiver");
  json_text(j, "reason", waiver->reason);
  json_text(j, "by", waiver->by);
  json_bool(j, "hides", waiver->message != NULL);
  put_span(j, sources, waiver->at);
  json_end(j);
}

static void put_finding(JsonWriter *j, const Sources *sources, const Diag *d)
{
  json_object(j, NULL);
  json_text(j, "level", diag_level_name(d->level));
  json_text(j, "code", d->code);
  json_text(j, "message", d->message);
  put_span(j, sources, d->at);
  json_text(j, "about", d->about);
  put_labels(j, sources, d);
  json_text(j, "note", d->note);
  json_text(j, "help", d->help);
  json_text(j, "basis", d->basis);
  put_fix(j, sources, d);
  put_waiver(j, sources, &d->waiver);
  json_end(j);
}

void diags_print_json(const Diags *diags, const Sources *sources, JsonWriter *j)
{
  json_array(j, "findings");
  for (size_t i = 0; i < diags_count(diags); i++) put_finding(j, sources, diags_get(diags, i));
  json_end(j);
  json_integer(j, "errors", diags_errors(diags));
  json_integer(j, "warnings", diags_warnings(diags));
  json_integer(j, "notes", diags_notes(diags));
  json_integer(j, "not_shown", diags_not_kept(diags));
}
