/* source.c - texts with their line starts, computed once. */
#include "base/source.h"

#include <assert.h>
#include <limits.h>
#include <string.h>

#include "base/mem.h"
#include "base/text.h"

enum { TAB_CELLS = 8, MARK_BYTES = 1024 };

/* The place of one byte; a long line has one every MARK_BYTES, so that no question costs a walk over all of it. */
typedef struct {
  uint32_t offset;
  Place place;
} Mark;

typedef struct {
  char *name, *text;
  size_t length;
  uint32_t *line_starts;
  int lines;
  Mark *marks;
  size_t mark_count;
} Source;

struct Sources {
  Source *items;
  uint32_t count, room;
};

Sources *sources_new(void) { return mem_alloc(sizeof(Sources)); }

void sources_free(Sources *sources)
{
  if (sources == NULL) return;
  for (uint32_t i = 0; i < sources->count; i++) {
    mem_free(sources->items[i].name);
    mem_free(sources->items[i].text);
    mem_free(sources->items[i].line_starts);
    mem_free(sources->items[i].marks);
  }
  mem_free(sources->items);
  mem_free(sources);
}

/* Bytes of the line end at `at`: LF, CR or CRLF; 0 if there is none. */
static size_t line_end(const char *text, size_t length, size_t at)
{
  if (at >= length) return 0;
  if (text[at] == '\n') return 1;
  if (text[at] != '\r') return 0;
  return at + 1 < length && text[at + 1] == '\n' ? 2 : 1;
}

/* Writes where each line starts, if `starts` is there to take it; returns how many lines there are. */
static int find_lines(const char *text, size_t length, uint32_t *starts)
{
  int lines = 0;
  if (starts) starts[0] = 0;
  for (size_t at = 0; at < length;) {
    size_t end = line_end(text, length, at);
    at += end ? end : 1;
    if (end == 0) continue;
    lines++;
    if (starts) starts[lines] = (uint32_t)at;
  }
  return lines + 1;
}

uint32_t sources_count(const Sources *sources) { return sources->count; }

uint32_t sources_find(const Sources *sources, const char *name)
{
  for (uint32_t i = 0; i < sources->count; i++)
    if (strcmp(sources->items[i].name, name) == 0) return i + 1;
  return 0;
}

static const Source *get(const Sources *sources, uint32_t source)
{
  assert(source >= 1 && source <= sources->count);
  return &sources->items[source - 1];
}

const char *sources_name(const Sources *sources, uint32_t source) { return get(sources, source)->name; }

const char *sources_text(const Sources *sources, uint32_t source, size_t *length)
{
  const Source *s = get(sources, source);
  if (length) *length = s->length;
  return s->text;
}

int sources_lines(const Sources *sources, uint32_t source) { return get(sources, source)->lines; }

/* The end of a line's bytes, before its line end. */
static size_t line_limit(const Source *s, int line)
{
  size_t begin = s->line_starts[line - 1], end = line < s->lines ? s->line_starts[line] : s->length;
  while (end > begin && line_end(s->text, s->length, end - 1)) end--;
  return end;
}

const char *sources_line(const Sources *sources, uint32_t source, int line, size_t *length)
{
  const Source *s = get(sources, source);
  assert(line >= 1 && line <= s->lines);
  *length = line_limit(s, line) - s->line_starts[line - 1];
  return s->text + s->line_starts[line - 1];
}

/* The last line that starts at or before the offset. */
static int line_at(const Source *s, uint32_t offset)
{
  int low = 0, high = s->lines;
  while (high - low > 1) {
    int middle = low + (high - low) / 2;
    if (s->line_starts[middle] <= offset)
      low = middle;
    else
      high = middle;
  }
  return low + 1;
}

int source_cell_after(int cell, char first_byte, int cells)
{
  return first_byte == '\t' ? (cell - 1) / TAB_CELLS * TAB_CELLS + TAB_CELLS + 1 : cell + cells;
}

/* Moves over one character, unless it reaches past `limit`. */
static bool step(const Source *s, Mark *at, size_t limit)
{
  int cells;
  if (at->offset >= limit) return false;
  size_t used = text_next(s->text + at->offset, s->length - at->offset, &cells);
  if (at->offset + used > limit) return false;
  at->place.column++;
  at->place.cell = source_cell_after(at->place.cell, s->text[at->offset], cells);
  at->offset += (uint32_t)used;
  return true;
}

static Mark line_start(const Source *s, int line)
{
  return (Mark){ s->line_starts[line - 1], { .line = line, .column = 1, .cell = 1 } };
}

/* Writes the marks, if `marks` is there to take them; returns how many there are. */
static size_t find_marks(const Source *s, Mark *marks)
{
  size_t count = 0;
  for (int line = 1; line <= s->lines; line++) {
    Mark at = line_start(s, line);
    size_t next = at.offset + MARK_BYTES, limit = line_limit(s, line);
    if (next >= limit) continue;
    while (step(s, &at, limit)) {
      if (at.offset < next) continue;
      if (marks) marks[count] = at;
      count++;
      next = at.offset + MARK_BYTES;
    }
  }
  return count;
}

/* How many marks lie at or before the offset. */
static size_t marks_until(const Source *s, size_t offset)
{
  size_t low = 0, high = s->mark_count;
  while (low < high) {
    size_t middle = low + (high - low) / 2;
    if (s->marks[middle].offset <= offset)
      low = middle + 1;
    else
      high = middle;
  }
  return low;
}

/* The last mark on the line at or before both the offset and the cell, else the line's start. */
static Mark mark_before(const Source *s, int line, size_t offset, int cell)
{
  size_t count = marks_until(s, offset);
  while (count > 0 && s->marks[count - 1].place.line == line && s->marks[count - 1].place.cell > cell) count--;
  bool is_on_line = count > 0 && s->marks[count - 1].place.line == line;
  return is_on_line ? s->marks[count - 1] : line_start(s, line);
}

Place sources_place(const Sources *sources, uint32_t source, uint32_t offset)
{
  const Source *s = get(sources, source);
  int line = line_at(s, offset);
  size_t limit = line_limit(s, line);
  if (limit > offset) limit = offset;
  Mark at = mark_before(s, line, limit, INT_MAX);
  while (step(s, &at, limit)) continue;
  return at.place;
}

uint32_t sources_offset(const Sources *sources, uint32_t source, int line, int cell, Place *place)
{
  const Source *s = get(sources, source);
  assert(line >= 1 && line <= s->lines);
  size_t limit = line_limit(s, line);
  Mark at = mark_before(s, line, limit, cell);
  for (Mark next = at; step(s, &next, limit) && next.place.cell <= cell;) at = next;
  *place = at.place;
  return at.offset;
}

uint32_t sources_add(Sources *sources, const char *name, const char *text, size_t length)
{
  if (length > SOURCE_LARGEST || sources->count == SOURCES_MOST) return 0;
  if (sources->count == sources->room) {
    sources->room = sources->room ? 2 * sources->room : 8;
    sources->items = mem_grow(sources->items, sources->room, sizeof *sources->items);
  }
  Source source = { .name = mem_strdup(name), .text = mem_strndup(text, length), .length = length };
  source.lines = find_lines(source.text, length, NULL);
  source.line_starts = mem_array((size_t)source.lines, sizeof *source.line_starts);
  find_lines(source.text, length, source.line_starts);
  source.mark_count = find_marks(&source, NULL);
  source.marks = mem_array(source.mark_count, sizeof *source.marks);
  find_marks(&source, source.marks);
  sources->items[sources->count] = source;
  return ++sources->count;
}

/* ---- packed spans */

enum { OFFSET_BITS = 25 };
static const uint32_t OFFSET_MOST = (1u << OFFSET_BITS) - 1;

static uint32_t cut(uint32_t offset) { return offset < OFFSET_MOST ? offset : OFFSET_MOST; }

int64_t span_pack(Span span)
{
  if (span.source == 0 || span.source > SOURCES_MOST) return 0;
  return (int64_t)span.source << (2 * OFFSET_BITS) | (int64_t)cut(span.begin) << OFFSET_BITS | cut(span.end);
}

Span span_unpack(int64_t packed)
{
  return (Span){
    .source = (uint32_t)(packed >> (2 * OFFSET_BITS)) & SOURCES_MOST,
    .begin = (uint32_t)(packed >> OFFSET_BITS) & OFFSET_MOST,
    .end = (uint32_t)packed & OFFSET_MOST,
  };
}

bool span_is_nowhere(Span span) { return span.source == 0; }
