/* diag_excerpt.h - one source line as a terminal shows it, with underlines below. Only for the printing of
 * findings.
 *
 * Characters that must not reach a terminal are shown escaped and tabs as spaces, so cells are counted on what
 * is shown. A line wider than the room is cut to a window round the span, with "..." on each side that was cut. */
#ifndef BASE_DIAG_EXCERPT_H
#define BASE_DIAG_EXCERPT_H

#include <stdbool.h>

#include "base/buf.h"
#include "base/source.h"

typedef struct {
  const Sources *sources;
  uint32_t source;
  int line, cells; /* the line's number and width */
  int from, until; /* the cells shown: from <= cell < until, counted from 0 */
  bool cut_left, cut_right;
} Excerpt;

/* The line of `span`'s beginning; `room` is the cells it may take, 20 at least. */
Excerpt excerpt_of(const Sources *sources, Span span, int room);
void excerpt_print(const Excerpt *excerpt, Buf *out);

/* Where a span of the same line stands under the printed excerpt. A span over several lines reaches to the end
 * of the first; an empty one takes one cell. False if its beginning is cut away. */
typedef struct {
  int indent, cells;
} Underline;
bool excerpt_underline(const Excerpt *excerpt, Span span, Underline *out);

#endif
