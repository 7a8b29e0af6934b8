/* source.h - the texts that were read, and places in them.
 *
 * A Span is a byte range of one source. It is small and copied freely; it packs into one integer so that a script's
 * values can carry it. The set owns a copy of every text, kept NUL-terminated. */
#ifndef BASE_SOURCE_H
#define BASE_SOURCE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Bytes begin..end (end exclusive) of source number `source`, counted from 1; source 0 is "nowhere". */
typedef struct {
  uint32_t source, begin, end;
} Span;

typedef struct Sources Sources;

/* 1-based line and column; `column` counts code points (an invalid byte counts as one), `cell` the display cells
 * with tabs to every 8th and wide characters as two. */
typedef struct {
  int line, column, cell;
} Place;

enum { SOURCE_LARGEST = 1 << 24 }; /* bytes; a longer text is refused by sources_add */

Sources *sources_new(void);
void sources_free(Sources *sources);

/* Adds a text under the name that findings will show. Returns its number, or 0 if it is too long. */
uint32_t sources_add(Sources *sources, const char *name, const char *text, size_t length);
uint32_t sources_count(const Sources *sources);
uint32_t sources_find(const Sources *sources, const char *name); /* 0: no such name */
const char *sources_name(const Sources *sources, uint32_t source);
const char *sources_text(const Sources *sources, uint32_t source, size_t *length);

Place sources_place(const Sources *sources, uint32_t source, uint32_t offset);
int sources_lines(const Sources *sources, uint32_t source);
/* The bytes of a line without its line end. */
const char *sources_line(const Sources *sources, uint32_t source, int line, size_t *length);

/* A Span as one integer of 12 + 25 + 25 bits; 0 is "nowhere". Longer spans are cut at the field's limit. */
int64_t span_pack(Span span);
Span span_unpack(int64_t packed);
bool span_is_nowhere(Span span);

#endif
