/* lineage.h - where a value of a document came from: sentences, each perhaps with the place it speaks of. */
#ifndef MODEL_LINEAGE_H
#define MODEL_LINEAGE_H

#include "base/source.h"

typedef struct {
  const char *text;
  Span at; /* may be nowhere */
} LineageEntry;

typedef struct {
  const LineageEntry *entries; /* the first says what the value is */
  int count;
  /* Without entries: the part of the path that leads nowhere, the path before it, what could have stood there. */
  const char *part, *within;
  const char *const *names;
  int name_count;
  bool has_figures; /* the document is a job, whose price, lines and activities have names too */
} Lineage;

#endif
