/* sarif_places.c - artifacts and places of a SARIF log. */
#include "base/sarif_parts.h"

#include <string.h>

#include "base/mem.h"

static const char base_id[] = "START";

void *sarif_room(void *items, size_t count, size_t *room, size_t size)
{
  if (count < *room) return items;
  *room = *room ? *room * 2 : 32;
  return mem_grow(items, *room, size);
}

void sarif_put_message(JsonWriter *j, const char *key, const char *text)
{
  json_object(j, key);
  json_text(j, "text", text);
  json_end(j);
}

/* ---- artifacts */

static int find_artifact(const SarifLog *log, const char *name)
{
  for (size_t i = 0; i < log->artifact_count; i++)
    if (strcmp(log->artifacts[i].name, name) == 0) return (int)i;
  return -1;
}

static SarifArtifact *artifact_called(SarifLog *log, const char *name)
{
  int known = find_artifact(log, name);
  if (known >= 0) return &log->artifacts[known];
  log->artifacts = sarif_room(log->artifacts, log->artifact_count, &log->artifact_room, sizeof *log->artifacts);
  SarifArtifact *new = &log->artifacts[log->artifact_count++];
  *new = (SarifArtifact){ .name = arena_strdup(log->arena, name) };
  return new;
}

void sarif_note_artifacts(SarifLog *log, const Sources *sources)
{
  for (uint32_t source = 1; source <= sources_count(sources); source++) {
    SarifArtifact *artifact = artifact_called(log, sources_name(sources, source));
    const char *text = sources_text(sources, source, &artifact->length);
    Sha256 sha = sha256_begin();
    sha256_add(&sha, text, artifact->length);
    sha256_end(&sha, artifact->digest);
  }
}

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

static void put_location_of(JsonWriter *j, const char *key, const char *name, int index)
{
  Buf uri = { 0 };
  put_uri(&uri, name);
  json_object(j, key);
  json_text(j, "uri", buf_text(&uri));
  if (*name != '/') json_text(j, "uriBaseId", base_id);
  if (index >= 0) json_integer(j, "index", index);
  json_end(j);
  buf_free(&uri);
}

void sarif_put_artifact_location(JsonWriter *j, const char *key, const SarifLog *log, int artifact)
{
  put_location_of(j, key, log->artifacts[artifact].name, artifact);
}

static void put_artifact(JsonWriter *j, const SarifArtifact *artifact)
{
  Buf digest = { 0 };
  sha256_hex(artifact->digest, &digest);
  json_object(j, NULL);
  put_location_of(j, "location", artifact->name, -1);
  json_integer(j, "length", (int64_t)artifact->length);
  json_text(j, "sourceLanguage", "lua");
  json_object(j, "hashes");
  json_text(j, "sha-256", buf_text(&digest));
  json_end(j);
  json_end(j);
  buf_free(&digest);
}

void sarif_put_artifacts(SarifLog *log)
{
  json_array(&log->json, "artifacts");
  for (size_t i = 0; i < log->artifact_count; i++) put_artifact(&log->json, &log->artifacts[i]);
  json_end(&log->json);
}

void sarif_put_bases(JsonWriter *j)
{
  json_object(j, "originalUriBaseIds");
  json_object(j, base_id);
  sarif_put_message(j, "description", "the folder in which the program was started");
  json_end(j);
  json_end(j);
}

/* ---- places */

SarifPlace sarif_place(const SarifLog *log, const Sources *sources, Span at)
{
  if (span_is_nowhere(at)) return (SarifPlace){ .artifact = -1 };
  return (SarifPlace){ find_artifact(log, sources_name(sources, at.source)),
                       sources_place(sources, at.source, at.begin), sources_place(sources, at.source, at.end) };
}

void sarif_put_region(JsonWriter *j, const char *key, const SarifPlace *place)
{
  json_object(j, key);
  json_integer(j, "startLine", place->begin.line);
  json_integer(j, "startColumn", place->begin.column);
  json_integer(j, "endLine", place->end.line);
  json_integer(j, "endColumn", place->end.column);
  json_end(j);
}

void sarif_put_physical_location(SarifLog *log, const SarifPlace *place)
{
  if (place->artifact < 0) return;
  json_object(&log->json, "physicalLocation");
  sarif_put_artifact_location(&log->json, "artifactLocation", log, place->artifact);
  sarif_put_region(&log->json, "region", place);
  json_end(&log->json);
}

void sarif_put_location(JsonWriter *j, const char *key, SarifLog *log, const SarifPlace *place,
                        const char *message)
{
  json_object(j, key);
  sarif_put_physical_location(log, place);
  if (message) sarif_put_message(j, "message", message);
  json_end(j);
}
