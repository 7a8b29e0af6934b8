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

enum {
  SOURCE_LARGEST = 1 << 24, /* bytes; a longer text is refused by sources_add */
  SOURCES_MOST = 4095       /* texts in one set */
};

Sources *sources_new(void);
void sources_free(Sources *sources);

/* Adds a text under the name that findings will show. Returns its number, or 0 if it is too long or
 * one too many. Lines end with LF, CR or CRLF; after the last line end there is one more line, perhaps empty. */
uint32_t sources_add(Sources *sources, const char *name, const char *text, size_t length);
uint32_t sources_count(const Sources *sources);
uint32_t sources_find(const Sources *sources, const char *name); /* 0: no such name */
const char *sources_name(const Sources *sources, uint32_t source);
const char *sources_text(const Sources *sources, uint32_t source, size_t *length); /* `length` may be NULL */

/* An offset past the end counts as the end, one inside a line end or a character as its beginning. */
Place sources_place(const Sources *sources, uint32_t source, uint32_t offset);
/* The other way round: the last character of a line that begins at or before a cell, or the line's end. */
uint32_t sources_offset(const Sources *sources, uint32_t source, int line, int cell, Place *place);
int sources_lines(const Sources *sources, uint32_t source);
/* The bytes of a line without its line end. */
const char *sources_line(const Sources *sources, uint32_t source, int line, size_t *length);

/* The cell after a character that starts with `first_byte` in `cell` and takes `cells`: tabs go to every 8th. */
int source_cell_after(int cell, char first_byte, int cells);

/* A Span as one integer of 12 + 25 + 25 bits; 0 is "nowhere". Longer spans are cut at the field's limit;
 * a source that cannot be is nowhere. */
int64_t span_pack(Span span);
Span span_unpack(int64_t packed);
bool span_is_nowhere(Span span);

#endif
