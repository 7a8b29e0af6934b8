/* sarif_parts.h - what the parts of a SARIF log share: the log itself, and places that outlive their sources. */
#ifndef BASE_SARIF_PARTS_H
#define BASE_SARIF_PARTS_H

#include "base/arena.h"
#include "base/sarif.h"
#include "base/sha256.h"

typedef struct {
  const char *code;
  bool known;
  const char *says, *basis, *help; /* help "": none */
  DiagLevel level;
  bool is_law;
} SarifDescriptor;

typedef struct {
  const char *name;
  size_t length;
  uint8_t digest[SHA256_BYTES];
} SarifArtifact;

/* A region of an artifact. */
typedef struct {
  int artifact; /* -1: nowhere */
  Place begin, end;
} SarifPlace;

typedef struct {
  uint64_t hash;
  int artifact;
} SarifPrint;

/* A condition of the program rather than of a document. */
typedef struct {
  const char *code, *message;
  DiagLevel level;
  SarifPlace at;
} SarifNotice;

struct SarifLog {
  const char *tool;
  JsonWriter json;
  Arena *arena;
  SarifDescriptor *rules; /* in the order of their first result */
  SarifArtifact *artifacts;
  SarifPrint *prints; /* fingerprints without their ordinals */
  SarifNotice *notices;
  size_t rule_count, rule_room, artifact_count, artifact_room, print_count, print_room, notice_count, notice_room;
};

/* The items with room for one more; *room is how many fit. */
void *sarif_room(void *items, size_t count, size_t *room, size_t size);

/* ---- sarif_places.c */

/* Notes every source of the set as an artifact; one that was noted before is as it is now. */
void sarif_note_artifacts(SarifLog *log, const Sources *sources);
SarifPlace sarif_place(const SarifLog *log, const Sources *sources, Span at);

void sarif_put_message(JsonWriter *j, const char *key, const char *text);
void sarif_put_artifact_location(JsonWriter *j, const char *key, const SarifLog *log, int artifact);
void sarif_put_region(JsonWriter *j, const char *key, const SarifPlace *place);
void sarif_put_physical_location(SarifLog *log, const SarifPlace *place); /* the member; nothing for nowhere */
/* An element of an array, or a member: where, and what is said of it (may be NULL). */
void sarif_put_location(JsonWriter *j, const char *key, SarifLog *log, const SarifPlace *place,
                        const char *message);
void sarif_put_artifacts(SarifLog *log); /* the run's member */
void sarif_put_bases(JsonWriter *j);     /* the same: what names are relative to */

#endif
