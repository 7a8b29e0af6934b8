/* pdf.h - inside the press: a page being set, and the blocks that are put on it. Lengths are points, from the
 * top left. */
#ifndef PRESS_PDF_H
#define PRESS_PDF_H

#include <cairo.h>
#include <pango/pangocairo.h>

#include "report/paper.h"

enum { COLUMNS_MOST = 16 };

typedef enum { INK, SOFT, DEEP, TINT, LINE, WAIT, WHITE } Colour;

typedef struct {
  cairo_surface_t *surface;
  cairo_t *cr;
  PangoLayout *layout;
  bool draws;           /* false: only measures and counts pages */
  double width, height; /* of the page */
  double left, right, top, bottom;
  double size;          /* of the text */
  double y;
  int page, pages;      /* pages: 0 while they are counted */
  const char *foot;
  const char *title;    /* the last one put; shown in the foot of a paper that has several */
  bool several;
  double column[COLUMNS_MOST + 1]; /* where the table's columns begin; the last is where they end */
  char side[COLUMNS_MOST];
  int columns;
  const Block *heads; /* of the table at hand; NULL: none */
} Page;

typedef struct {
  double x, width, size;
  bool bold, right;
  Colour colour;
} Words;

/* Puts a text at y; its height. */
double page_words(Page *p, const char *text, double y, Words words);
void page_box(Page *p, double x, double y, double width, double height, Colour colour);
void page_frame(Page *p, double x, double y, double width, double height, double line, Colour colour);

/* Puts a block at p->y and moves that down. */
void page_block(Page *p, const Block *block);

#endif
