/* paper.h - a document as a list of blocks, written once and set twice: as one HTML file (paper_html) and as a
 * PDF (by the press, interp/press). Each block is a line of cells (base/cells.h) whose first cell names its
 * kind.
 *
 *   paper_add(out, PAPER_FACT, "Price", "$6,124.15", NULL); */
#ifndef REPORT_PAPER_H
#define REPORT_PAPER_H

#include <stdbool.h>

#include "base/cells.h"

typedef enum {
  /* language, page ("letter" or "a4"), text size ("normal" or "large"), title, foot of each page, date */
  PAPER_BEGIN,
  PAPER_TITLE, /* text, text under it */
  PAPER_PRICE, /* label, amount, text under it */
  PAPER_HEAD,
  PAPER_TEXT,
  PAPER_ITEM,
  PAPER_CAUTION, /* text */
  PAPER_FACT,    /* label, value */
  PAPER_TABLE,   /* a cell a column: l or r, then its share of the width ("l30") */
  PAPER_HEADS,
  PAPER_ROW,
  PAPER_TOTAL,  /* cells */
  PAPER_NOTE,   /* small text under a row */
  PAPER_CHART,  /* what it shows, in words */
  PAPER_TICK,   /* a place from 0 to 10000, label */
  PAPER_BAR,    /* label; then place, width, kind ("work" or "wait") as often as needed */
  PAPER_STEP,   /* number, work, name, with what */
  PAPER_HOLD,   /* text */
  PAPER_BLANKS, /* how many boxes to write readings into */
  PAPER_SIGN,   /* a cell for each line to write on */
  PAPER_BREAK,  /* a new page */
  PAPER_KINDS
} PaperKind;

enum { PAPER_SCALE = 10000 };

extern const char *const paper_names[PAPER_KINDS];

/* Appends a block; the last argument is NULL. */
void paper_add(Buf *out, PaperKind kind, ...) __attribute__((sentinel));
void paper_add_list(Buf *out, PaperKind kind, const char *const *cells, int count);

typedef struct {
  PaperKind kind;
  Cells line; /* cell 0 is the kind's name */
} Block;

/* The block at *at, which moves behind it. False at the end, or if what stands there is no block. */
bool paper_next(const char **at, const char *end, Block *block);
const char *block_cell(const Block *block, int index); /* from 0, behind the kind; "" past the last */
int block_cells(const Block *block);

/* The whole paper as one HTML file that needs nothing else. */
void paper_html(const Buf *paper, Buf *out);

#endif
