#include "base/diag_excerpt.h"

#include "base/text.h"

static const char DOTS[] = "...";
enum { DOT_CELLS = 3, NARROWEST_ROOM = 20 };

/* First and past-the-last cell of a span in its first line, counted from 0. */
typedef struct {
  int begin, end;
} Cells;

static int line_cells(const char *line, size_t length)
{
  int cell = 1;
  for (size_t at = 0; at < length;) {
    int cells;
    size_t used = text_next(line + at, length - at, &cells);
    cell = source_cell_after(cell, line[at], cells);
    at += used;
  }
  return cell - 1;
}

static Cells span_cells(const Excerpt *excerpt, const Sources *sources, Span span)
{
  Place begin = sources_place(sources, span.source, span.begin);
  Place end = sources_place(sources, span.source, span.end);
  Cells cells = { begin.cell - 1, end.line > begin.line ? excerpt->cells : end.cell - 1 };
  if (cells.end <= cells.begin) cells.end = cells.begin + 1;
  return cells;
}

/* Chooses the window: the line's beginning if the span fits there, else its end, else the span in the middle. */
static void cut_to(Excerpt *excerpt, Cells span, int room)
{
  int one_cut = room - DOT_CELLS, both_cut = room - 2 * DOT_CELLS, cells = span.end - span.begin;
  if (span.end <= one_cut) {
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
  Excerpt excerpt = { 0 };
  int line = sources_place(sources, span.source, span.begin).line;
  excerpt.line = sources_line(sources, span.source, line, &excerpt.length);
  excerpt.cells = excerpt.until = line_cells(excerpt.line, excerpt.length);
  if (room > 0 && room < NARROWEST_ROOM) room = NARROWEST_ROOM;
  if (room > 0 && excerpt.cells > room) cut_to(&excerpt, span_cells(&excerpt, sources, span), room);
  return excerpt;
}

/* A character that the window's edge cuts through leaves its cells blank, so that what follows keeps its place. */
void excerpt_print(const Excerpt *excerpt, Buf *out)
{
  if (excerpt->cut_left) buf_puts(out, DOTS);
  int cell = 0;
  for (size_t at = 0; at < excerpt->length && cell < excerpt->until;) {
    int cells;
    size_t used = text_next(excerpt->line + at, excerpt->length - at, &cells);
    int next = source_cell_after(cell + 1, excerpt->line[at], cells) - 1;
    bool whole = cell >= excerpt->from && next <= excerpt->until;
    if (whole && excerpt->line[at] != '\t') {
      text_escape(out, excerpt->line + at, used);
    } else {
      int from = cell > excerpt->from ? cell : excerpt->from;
      int until = next < excerpt->until ? next : excerpt->until;
      if (until > from) buf_repeat(out, ' ', (size_t)(until - from));
    }
    cell = next;
    at += used;
  }
  if (excerpt->cut_right) buf_puts(out, DOTS);
}

bool excerpt_underline(const Excerpt *excerpt, const Sources *sources, Span span, Underline *out)
{
  Cells cells = span_cells(excerpt, sources, span);
  bool shown = cells.begin >= excerpt->from && (cells.begin < excerpt->until || !excerpt->cut_right);
  if (!shown) return false;
  int until = excerpt->cut_right && cells.end > excerpt->until ? excerpt->until : cells.end;
  *out = (Underline){ cells.begin - excerpt->from + (excerpt->cut_left ? DOT_CELLS : 0), until - cells.begin };
  return true;
}
