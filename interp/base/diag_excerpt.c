#include "base/diag_excerpt.h"

#include <limits.h>

#include "base/text.h"

static const char DOTS[] = "...";
enum { DOT_CELLS = 3, NARROWEST_ROOM = 20 };

/* First and past-the-last cell of a span in its first line, counted from 0. */
typedef struct {
  int begin, end;
} Cells;

static Cells span_cells(const Excerpt *excerpt, Span span)
{
  Place begin = sources_place(excerpt->sources, span.source, span.begin);
  Place end = sources_place(excerpt->sources, span.source, span.end > span.begin ? span.end : span.begin);
  Cells cells = { begin.cell - 1, end.line > begin.line ? excerpt->cells : end.cell - 1 };
  if (cells.end <= cells.begin) cells.end = cells.begin + 1;
  return cells;
}

/* Chooses the window: the line's beginning if the span fits there (or fits nowhere but begins early), else the
 * line's end, else the span in the middle. */
static void cut_to(Excerpt *excerpt, Cells span, int room)
{
  int one_cut = room - DOT_CELLS, both_cut = room - 2 * DOT_CELLS, cells = span.end - span.begin;
  if (span.end <= one_cut || (cells >= both_cut && span.begin < one_cut / 2)) {
    excerpt->until = one_cut;
  } else if (span.begin >= excerpt->cells - one_cut) {
    excerpt->from = excerpt->cells - one_cut;
  } else {
    excerpt->from = cells >= both_cut ? span.begin : span.begin - (both_cut - cells) / 2;
    excerpt->until = excerpt->from + both_cut;
  }
  excerpt->cut_left = excerpt->from > 0;
  excerpt->cut_right = excerpt->until < excerpt->cells;
}

Excerpt excerpt_of(const Sources *sources, Span span, int room)
{
  Place begin = sources_place(sources, span.source, span.begin), end;
  sources_offset(sources, span.source, begin.line, INT_MAX, &end);
  Excerpt excerpt = { .sources = sources, .source = span.source, .line = begin.line, .cells = end.cell - 1 };
  excerpt.until = excerpt.cells;
  if (room < NARROWEST_ROOM) room = NARROWEST_ROOM;
  if (excerpt.cells > room) cut_to(&excerpt, span_cells(&excerpt, span), room);
  return excerpt;
}

/* One character that begins in `cell` and ends before `next`. One that the window's edge cuts through leaves its
 * cells blank, so that what follows keeps its place. */
static void put_character(const Excerpt *excerpt, const char *bytes, size_t length, int cell, int next, Buf *out)
{
  bool is_whole = cell >= excerpt->from && next <= excerpt->until;
  if (is_whole && *bytes != '\t') {
    text_escape(out, bytes, length);
    return;
  }
  int from = cell > excerpt->from ? cell : excerpt->from, until = next < excerpt->until ? next : excerpt->until;
  if (until > from) buf_repeat(out, ' ', (size_t)(until - from));
}

void excerpt_print(const Excerpt *excerpt, Buf *out)
{
  size_t length;
  Place place;
  const char *line = sources_line(excerpt->sources, excerpt->source, excerpt->line, &length), *end = line + length;
  const char *at = sources_text(excerpt->sources, excerpt->source, NULL) +
                   sources_offset(excerpt->sources, excerpt->source, excerpt->line, excerpt->from + 1, &place);
  if (excerpt->cut_left) buf_puts(out, DOTS);
  for (int cell = place.cell - 1, next; at < end && (cell < excerpt->until || !excerpt->cut_right); cell = next) {
    int cells;
    size_t used = text_next(at, (size_t)(end - at), &cells);
    next = source_cell_after(cell + 1, *at, cells) - 1;
    put_character(excerpt, at, used, cell, next, out);
    at += used;
  }
  if (excerpt->cut_right) buf_puts(out, DOTS);
}

bool excerpt_underline(const Excerpt *excerpt, Span span, Underline *out)
{
  Cells cells = span_cells(excerpt, span);
  bool is_shown = cells.begin >= excerpt->from && (cells.begin < excerpt->until || !excerpt->cut_right);
  if (!is_shown) return false;
  int until = excerpt->cut_right && cells.end > excerpt->until ? excerpt->until : cells.end;
  *out = (Underline){ cells.begin - excerpt->from + (excerpt->cut_left ? DOT_CELLS : 0), until - cells.begin };
  return true;
}
