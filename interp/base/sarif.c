#include "base/sarif.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "base/arena.h"
#include "base/mem.h"
#include "base/text.h"

static const char schema[] = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json";
static const char base_id[] = "START";

typedef struct {
  const char *code, *says, *basis; /* the last two NULL: nothing is known */
} Rule;

struct SarifLog {
  const char *tool;
  JsonWriter json;
  Arena *arena;
  Rule *rules; /* in the order of their first result */
  int rule_count, rule_room;
  uint64_t *seen; /* fingerprints without their ordinals */
  size_t seen_count, seen_room;
};

/* ---- rules */

static const char *kept(SarifLog *log, const Buf *text) { return arena_strdup(log->arena, buf_text(text)); }

static void add_rule(SarifLog *log, const char *code, SarifExplain explain, void *context)
{
  if (log->rule_count == log->rule_room) {
    log->rule_room = log->rule_room ? log->rule_room * 2 : 32;
    log->rules = mem_grow(log->rules, (size_t)log->rule_room, sizeof *log->rules);
  }
  Rule *rule = &log->rules[log->rule_count++];
  Buf says = { 0 }, basis = { 0 };
  bool known = explain && explain(context, code, &says, &basis);
  *rule = (Rule){ arena_strdup(log->arena, code), known ? kept(log, &says) : NULL,
                  known && basis.length ? kept(log, &basis) : NULL };
  buf_free(&says);
  buf_free(&basis);
}

static int rule_index(SarifLog *log, const char *code, SarifExplain explain, void *context)
{
  for (int i = 0; i < log->rule_count; i++)
    if (strcmp(log->rules[i].code, code) == 0) return i;
  add_rule(log, code, explain, context);
  return log->rule_count - 1;
}

static void put_message(JsonWriter *j, const char *key, const char *text)
{
  json_object(j, key);
  json_text(j, "text", text);
  json_end(j);
}

static void put_rule(JsonWriter *j, const Rule *rule)
{
  json_object(j, NULL);
  json_text(j, "id", rule->code);
  if (rule->says) put_message(j, "shortDescription", rule->says);
  if (rule->says) {
    Buf help = { 0 };
    buf_puts(&help, rule->says);
    if (rule->basis) buf_printf(&help, "\nBasis: %s", rule->basis);
    put_message(j, "help", buf_text(&help));
    buf_free(&help);
  }
  json_end(j);
}

/* ---- places */

/* Percent-encoded by RFC 3986: letters, digits, -._~ and the slash stay. */
static void put_uri(Buf *out, const char *name)
{
  if (*name == '/') buf_puts(out, "file://");
  for (const unsigned char *c = (const unsigned char *)name; *c; c++) {
    bool plain = (*c >= 'a' && *c <= 'z') || (*c >= 'A' && *c <= 'Z') || (*c >= '0' && *c <= '9') ||
                 strchr("-._~/", *c);
    buf_printf(out, plain ? "%c" : "%%%02X", *c);
  }
}

static void put_artifact(JsonWriter *j, const char *name)
{
  Buf uri = { 0 };
  put_uri(&uri, name);
  json_object(j, "artifactLocation");
  json_text(j, "uri", buf_text(&uri));
  if (*name != '/') json_text(j, "uriBaseId", base_id);
  json_end(j);
  buf_free(&uri);
}

static void put_region(JsonWriter *j, const char *key, const Sources *sources, Span at)
{
  Place begin = sources_place(sources, at.source, at.begin), end = sources_place(sources, at.source, at.end);
  json_object(j, key);
  json_integer(j, "startLine", begin.line);
  json_integer(j, "startColumn", begin.column);
  json_integer(j, "endLine", end.line);
  json_integer(j, "endColumn", end.column);
  json_end(j);
}

static void put_location(JsonWriter *j, const Sources *sources, Span at, const char *message)
{
  json_object(j, NULL);
  if (!span_is_nowhere(at)) {
    json_object(j, "physicalLocation");
    put_artifact(j, sources_name(sources, at.source));
    put_region(j, "region", sources, at);
    json_end(j);
  }
  if (message) put_message(j, "message", message);
  json_end(j);
}

/* ---- fingerprints: FNV-1a, 64 bits */

static uint64_t mix(uint64_t hash, const char *bytes, size_t length)
{
  for (size_t i = 0; i < length; i++) hash = (hash ^ (unsigned char)bytes[i]) * 0x100000001b3ULL;
  return (hash ^ 0xff) * 0x100000001b3ULL; /* a byte that no text holds ends each part */
}

static uint64_t fingerprint(const Diag *d, const Sources *sources)
{
  uint64_t hash = mix(0xcbf29ce484222325ULL, d->code, strlen(d->code));
  hash = mix(hash, d->message, strlen(d->message));
  if (span_is_nowhere(d->at)) return hash;
  const char *name = sources_name(sources, d->at.source);
  hash = mix(hash, name, strlen(name));
  return mix(hash, sources_text(sources, d->at.source, NULL) + d->at.begin, d->at.end - d->at.begin);
}

static int times_seen(SarifLog *log, uint64_t hash)
{
  int times = 0;
  for (size_t i = 0; i < log->seen_count; i++) times += log->seen[i] == hash;
  if (log->seen_count == log->seen_room) {
    log->seen_room = log->seen_room ? log->seen_room * 2 : 64;
    log->seen = mem_grow(log->seen, log->seen_room, sizeof *log->seen);
  }
  log->seen[log->seen_count++] = hash;
  return times;
}

static void put_fingerprint(SarifLog *log, const Diag *d, const Sources *sources)
{
  char text[40];
  uint64_t hash = fingerprint(d, sources);
  snprintf(text, sizeof text, "%016" PRIx64 ":%d", hash, times_seen(log, hash));
  json_object(&log->json, "partialFingerprints");
  json_text(&log->json, "findingText/v1", text);
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
  buf_puts(&text, d->message);
  for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
    if (parts[i].text) buf_printf(&text, "\n%s: %s", parts[i].what, parts[i].text);
  put_message(j, "message", buf_text(&text));
  buf_free(&text);
}

static void put_related(JsonWriter *j, const Sources *sources, const Diag *d)
{
  if (d->label_count == 0) return;
  json_array(j, "relatedLocations");
  for (int i = 0; i < d->label_count; i++) put_location(j, sources, d->labels[i].at, d->labels[i].text);
  json_end(j);
}

static void put_change(JsonWriter *j, const Sources *sources, const Diag *d)
{
  json_object(j, NULL);
  put_artifact(j, sources_name(sources, d->at.source));
  json_array(j, "replacements");
  json_object(j, NULL);
  put_region(j, "deletedRegion", sources, d->at);
  put_message(j, "insertedContent", d->fix);
  json_end(j);
  json_end(j);
  json_end(j);
}

static void put_fixes(JsonWriter *j, const Sources *sources, const Diag *d)
{
  if (d->fix == NULL || span_is_nowhere(d->at)) return;
  json_array(j, "fixes");
  json_object(j, NULL);
  if (d->help) put_message(j, "description", d->help);
  json_array(j, "artifactChanges");
  put_change(j, sources, d);
  json_end(j);
  json_object(j, "properties");
  json_bool(j, "safe", d->fix_is_safe);
  json_end(j);
  json_end(j);
  json_end(j);
}

static void put_result(SarifLog *log, const Diag *d, const Sources *sources, int rule)
{
  JsonWriter *j = &log->json;
  json_object(j, NULL);
  json_text(j, "ruleId", d->code);
  json_integer(j, "ruleIndex", rule);
  json_text(j, "level", diag_level_name(d->level));
  put_sentences(j, d);
  if (!span_is_nowhere(d->at)) {
    json_array(j, "locations");
    put_location(j, sources, d->at, NULL);
    json_end(j);
  }
  put_related(j, sources, d);
  put_fingerprint(log, d, sources);
  put_fixes(j, sources, d);
  json_end(j);
}

/* ---- the log */

SarifLog *sarif_begin(const char *tool, Buf *out)
{
  SarifLog *log = mem_alloc(sizeof *log);
  *log = (SarifLog){ .tool = tool, .json = json_begin(out), .arena = arena_new() };
  JsonWriter *j = &log->json;
  json_object(j, NULL);
  json_text(j, "$schema", schema);
  json_text(j, "version", "2.1.0");
  json_array(j, "runs");
  json_object(j, NULL);
  json_text(j, "columnKind", "unicodeCodePoints");
  json_object(j, "originalUriBaseIds");
  json_object(j, base_id);
  put_message(j, "description", "the folder in which the program was started");
  json_end(j);
  json_end(j);
  json_array(j, "results");
  return log;
}

void sarif_add(SarifLog *log, const Diags *diags, const Sources *sources, SarifExplain explain, void *context)
{
  for (size_t i = 0; i < diags_count(diags); i++) {
    const Diag *d = diags_get(diags, i);
    put_result(log, d, sources, rule_index(log, d->code, explain, context));
  }
}

static void put_tool(SarifLog *log)
{
  JsonWriter *j = &log->json;
  json_object(j, "tool");
  json_object(j, "driver");
  json_text(j, "name", log->tool);
  json_array(j, "rules");
  for (int i = 0; i < log->rule_count; i++) put_rule(j, &log->rules[i]);
  json_end(j);
  json_end(j);
  json_end(j);
}

static void put_invocation(JsonWriter *j, bool complete)
{
  json_array(j, "invocations");
  json_object(j, NULL);
  json_bool(j, "executionSuccessful", complete);
  json_end(j);
  json_end(j);
}

void sarif_finish(SarifLog *log, bool complete)
{
  JsonWriter *j = &log->json;
  json_end(j); /* results */
  put_tool(log);
  put_invocation(j, complete);
  json_end(j); /* the run */
  json_end(j); /* runs */
  json_end(j);
  json_finish(j);
  arena_free(log->arena);
  mem_free(log->rules);
  mem_free(log->seen);
  mem_free(log);
}
