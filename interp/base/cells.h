/* cells.h - records as lines of text: cells with a tab between them. What one process hands to another is
 * written so.
 *
 * In a cell a backslash, a tab and a line end are written \\, \t and \n; bytes that are not UTF-8 and control
 * characters become U+FFFD, so whatever a script wrote is safe to set. */
#ifndef BASE_CELLS_H
#define BASE_CELLS_H

#include <stdbool.h>
#include <stdarg.h>

#include "base/buf.h"

enum { CELLS_MOST = 256 };

/* Appends a line of texts; the last argument is NULL. */
void cells_add(Buf *out, ...) __attribute__((sentinel));
void cells_add_list(Buf *out, const char *const *cells, int count);

typedef struct {
  Buf text; /* of all cells, each ended by a NUL */
  const char *cell[CELLS_MOST];
  int count;
} Cells;

/* Takes the line at *at, which moves behind it. False at the end, or if the line has too many cells. */
bool cells_next(const char **at, const char *end, Cells *line);
const char *cells_at(const Cells *line, int index); /* "" past the last */
void cells_free(Cells *line);

#endif
