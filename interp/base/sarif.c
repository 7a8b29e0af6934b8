#include "base/sarif.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "base/mem.h"
#include "base/sarif_parts.h"

static const char schema[] = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json";

/* ---- rules */

static SarifDescriptor describe(Arena *arena, const char *code, SarifExplain explain, void *context)
{
  SarifRule rule = { .level = DIAG_ERROR };
  SarifDescriptor d = { .code = arena_strdup(arena, code), .known = explain && explain(context, code, &rule) };
  d.says = arena_strdup(arena, buf_text(&rule.says));
  d.basis = arena_strdup(arena, buf_text(&rule.basis));
  d.help = arena_strdup(arena, buf_text(&rule.help));
  d.level = rule.level;
  d.is_law = rule.is_law;
  buf_free(&rule.says);
  buf_free(&rule.basis);
  buf_free(&rule.help);
  return d;
}

static int rule_index(SarifLog *log, const char *code, SarifExplain explain, void *context)
{
  for (size_t i = 0; i < log->rule_count; i++)
    if (strcmp(log->rules[i].code, code) == 0) return (int)i;
  log->rules = sarif_room(log->rules, log->rule_count, &log->rule_room, sizeof *log->rules);
  log->rules[log->rule_count] = describe(log->arena, code, explain, context);
  return (int)log->rule_count++;
}

static void put_full_description(JsonWriter *j, const SarifDescriptor *rule)
{
  static const char law[] = "\nIt comes from a regulation: a waiver acknowledges a finding and does not hide it.";
  Buf text = { 0 };
  buf_printf(&text, "%s\nBasis: %s%s", rule->says, rule->basis, rule->is_law ? law : "");
  sarif_put_message(j, "fullDescription", buf_text(&text));
  buf_free(&text);
}

static void put_rule(JsonWriter *j, const SarifDescriptor *rule)
{
  json_object(j, NULL);
  json_text(j, "id", rule->code);
  if (rule->known) {
    sarif_put_message(j, "shortDescription", rule->says);
    put_full_description(j, rule);
    sarif_put_message(j, "help", *rule->help ? rule->help : rule->says);
    json_object(j, "defaultConfiguration");
    json_text(j, "level", diag_level_name(rule->level));
    json_end(j);
  }
  json_end(j);
}

/* ---- fingerprints: FNV-1a, 64 bits */

static uint64_t mix(uint64_t hash, const char *bytes, size_t length)
{
  for (size_t i = 0; i < length; i++) hash = (hash ^ (unsigned char)bytes[i]) * 0x100000001b3ULL;
  return (hash ^ 0xff) * 0x100000001b3ULL; /* a byte that no text holds ends each part */
}

static const char *message_of(const Diag *d) { return d->waiver.message ? d->waiver.message : d->message; }

static uint64_t fingerprint(const Diag *d, const Sources *sources)
{
  uint64_t hash = mix(0xcbf29ce484222325ULL, d->code, strlen(d->code));
  hash = mix(hash, message_of(d), strlen(message_of(d)));
  if (span_is_nowhere(d->at)) return hash;
  return mix(hash, sources_text(sources, d->at.source, NULL) + d->at.begin, d->at.end - d->at.begin);
}

static int times_seen(SarifLog *log, SarifPrint print)
{
  int times = 0;
  for (size_t i = 0; i < log->print_count; i++)
    times += log->prints[i].hash == print.hash && log->prints[i].artifact == print.artifact;
  log->prints = sarif_room(log->prints, log->print_count, &log->print_room, sizeof *log->prints);
  log->prints[log->print_count++] = print;
  return times;
}

static void put_fingerprint(SarifLog *log, SarifPrint print)
{
  char text[40];
  snprintf(text, sizeof text, "%016" PRIx64 ":%d", print.hash, times_seen(log, print));
  json_object(&log->json, "partialFingerprints");
  json_text(&log->json, "findingText/v2", text);
  json_end(&log->json);
}

/* ---- results */

/* The finding's sentences, as one text for viewers that show nothing else. */
static void put_sentences(JsonWriter *j, const Diag *d)
{
  const struct {
    const char *what, *text;
  } parts[] = { { "Note", d->note }, { "Help", d->help }, { "Basis", d->basis } };
  Buf text = { 0 };
  buf_puts(&text, message_of(d));
  for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
    if (parts[i].text) buf_printf(&text, "\n%s: %s", parts[i].what, parts[i].text);
  sarif_put_message(j, "message", buf_text(&text));
  buf_free(&text);
}

/* Related locations are a set. */
static bool is_label_again(const Diag *d, int label)
{
  const DiagLabel *this = &d->labels[label];
  for (int i = 0; i < label; i++)
    if (d->labels[i].at.source == this->at.source && d->labels[i].at.begin == this->at.begin &&
        d->labels[i].at.end == this->at.end && strcmp(d->labels[i].text, this->text) == 0)
      return true;
  return false;
}

static void put_related(SarifLog *log, const Sources *sources, const Diag *d)
{
  if (d->label_count == 0) return;
  json_array(&log->json, "relatedLocations");
  for (int i = 0; i < d->label_count; i++) {
    if (is_label_again(d, i)) continue;
    SarifPlace at = sarif_place(log, sources, d->labels[i].at);
    sarif_put_location(&log->json, NULL, log, &at, d->labels[i].text);
  }
  json_end(&log->json);
}

static void put_change(SarifLog *log, const SarifPlace *at, const char *text)
{
  JsonWriter *j = &log->json;
  json_object(j, NULL);
  sarif_put_artifact_location(j, "artifactLocation", log, at->artifact);
  json_array(j, "replacements");
  json_object(j, NULL);
  sarif_put_region(j, "deletedRegion", at);
  sarif_put_message(j, "insertedContent", text);
  json_end(j);
  json_end(j);
  json_end(j);
}

static void put_fixes(SarifLog *log, const Sources *sources, const Diag *d)
{
  JsonWriter *j = &log->json;
  SarifPlace at = sarif_place(log, sources, diag_fix_at(d));
  if (at.artifact < 0) return;
  json_array(j, "fixes");
  json_object(j, NULL);
  if (d->help) sarif_put_message(j, "description", d->help);
  json_array(j, "artifactChanges");
  put_change(log, &at, d->fix);
  json_end(j);
  json_object(j, "properties");
  json_bool(j, "safe", d->fix_is_safe);
  json_end(j);
  json_end(j);
  json_end(j);
}

static void put_suppression(SarifLog *log, const SarifPlace *at, const DiagWaiver *waiver)
{
  JsonWriter *j = &log->json;
  json_array(j, "suppressions");
  json_object(j, NULL);
  json_text(j, "kind", "inSource");
  json_text(j, "status", "accepted");
  json_text(j, "justification", waiver->reason);
  sarif_put_location(j, "location", log, at, NULL);
  json_object(j, "properties");
  json_text(j, "by", waiver->by);
  json_end(j);
  json_end(j);
  json_end(j);
}

static void put_acknowledgement(SarifLog *log, const SarifPlace *at, const DiagWaiver *waiver)
{
  JsonWriter *j = &log->json;
  json_object(j, "properties");
  json_object(j, "acknowledged");
  json_text(j, "reason", waiver->reason);
  json_text(j, "by", waiver->by);
  sarif_put_location(j, "location", log, at, NULL);
  json_end(j);
  json_end(j);
}

static void put_waiver(SarifLog *log, const Sources *sources, const DiagWaiver *waiver)
{
  if (waiver->reason == NULL) return;
  SarifPlace at = sarif_place(log, sources, waiver->at);
  if (waiver->message) put_suppression(log, &at, waiver);
  else put_acknowledgement(log, &at, waiver);
}

static void put_primary_location(SarifLog *log, const SarifPlace *at, const char *about)
{
  JsonWriter *j = &log->json;
  json_object(j, NULL);
  sarif_put_physical_location(log, at);
  if (about) {
    json_array(j, "logicalLocations");
    json_object(j, NULL);
    json_text(j, "name", about);
    json_end(j);
    json_end(j);
  }
  json_end(j);
}

static void put_result(SarifLog *log, const Diag *d, const Sources *sources, int rule)
{
  JsonWriter *j = &log->json;
  SarifPlace at = sarif_place(log, sources, d->at);
  json_object(j, NULL);
  json_text(j, "ruleId", d->code);
  json_integer(j, "ruleIndex", rule);
  json_text(j, "level", diag_level_name(d->waiver.message ? d->waiver.level : d->level));
  put_sentences(j, d);
  if (at.artifact >= 0) {
    json_array(j, "locations");
    put_primary_location(log, &at, d->about);
    json_end(j);
  }
  put_related(log, sources, d);
  put_fingerprint(log, (SarifPrint){ fingerprint(d, sources), at.artifact });
  put_fixes(log, sources, d);
  put_waiver(log, sources, &d->waiver);
  json_end(j);
}

/* ---- notifications: what kept the program from looking */

static bool is_notice(const Diag *d)
{
  static const char *const codes[] = { "file", "budget", "internal" };
  for (size_t i = 0; i < sizeof codes / sizeof *codes; i++)
    if (strcmp(codes[i], d->code) == 0) return true;
  return false;
}

static void keep_notice(SarifLog *log, const Diag *d, const Sources *sources)
{
  log->notices = sarif_room(log->notices, log->notice_count, &log->notice_room, sizeof *log->notices);
  log->notices[log->notice_count++] = (SarifNotice){ arena_strdup(log->arena, d->code),
                                                     arena_strdup(log->arena, d->message), d->level,
                                                     sarif_place(log, sources, d->at) };
}

static void put_notice(SarifLog *log, const SarifNotice *notice)
{
  JsonWriter *j = &log->json;
  json_object(j, NULL);
  json_object(j, "descriptor");
  json_text(j, "id", notice->code);
  json_end(j);
  json_text(j, "level", diag_level_name(notice->level));
  sarif_put_message(j, "message", notice->message);
  if (notice->at.artifact >= 0) {
    json_array(j, "locations");
    sarif_put_location(j, NULL, log, &notice->at, NULL);
    json_end(j);
  }
  json_end(j);
}

/* ---- the log */

SarifLog *sarif_begin(const char *tool, Buf *out)
{
  static const char *const line_ends[] = { "\r\n", "\n", "\r" };
  SarifLog *log = mem_alloc(sizeof *log);
  *log = (SarifLog){ .tool = tool, .json = json_begin(out), .arena = arena_new() };
  JsonWriter *j = &log->json;
  json_object(j, NULL);
  json_text(j, "$schema", schema);
  json_text(j, "version", "2.1.0");
  json_array(j, "runs");
  json_object(j, NULL);
  json_text(j, "columnKind", "unicodeCodePoints");
  json_array(j, "newlineSequences");
  for (size_t i = 0; i < sizeof line_ends / sizeof *line_ends; i++) json_text(j, NULL, line_ends[i]);
  json_end(j);
  sarif_put_bases(j);
  json_array(j, "results");
  return log;
}

void sarif_add(SarifLog *log, const Diags *diags, const Sources *sources, SarifExplain explain, void *context)
{
  sarif_note_artifacts(log, sources);
  for (size_t i = 0; i < diags_count(diags); i++) {
    const Diag *d = diags_get(diags, i);
    if (is_notice(d)) keep_notice(log, d, sources);
    else put_result(log, d, sources, rule_index(log, d->code, explain, context));
  }
}

static void put_tool(SarifLog *log)
{
  JsonWriter *j = &log->json;
  json_object(j, "tool");
  json_object(j, "driver");
  json_text(j, "name", log->tool);
  json_array(j, "rules");
  for (size_t i = 0; i < log->rule_count; i++) put_rule(j, &log->rules[i]);
  json_end(j);
  json_end(j);
  json_end(j);
}

static void put_invocation(SarifLog *log, bool complete, int exit_code)
{
  JsonWriter *j = &log->json;
  json_array(j, "invocations");
  json_object(j, NULL);
  json_bool(j, "executionSuccessful", complete);
  json_integer(j, "exitCode", exit_code);
  if (log->notice_count) json_array(j, "toolExecutionNotifications");
  for (size_t i = 0; i < log->notice_count; i++) put_notice(log, &log->notices[i]);
  if (log->notice_count) json_end(j);
  json_end(j);
  json_end(j);
}

static void log_free(SarifLog *log)
{
  arena_free(log->arena);
  mem_free(log->rules);
  mem_free(log->artifacts);
  mem_free(log->prints);
  mem_free(log->notices);
  mem_free(log);
}

void sarif_finish(SarifLog *log, bool complete, int exit_code)
{
  JsonWriter *j = &log->json;
  json_end(j); /* results */
  sarif_put_artifacts(log);
  put_tool(log);
  put_invocation(log, complete, exit_code);
  json_end(j); /* the run */
  json_end(j); /* runs */
  json_end(j);
  json_finish(j);
  log_free(log);
}
