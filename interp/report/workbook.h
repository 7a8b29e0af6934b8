/* workbook.h - a workbook as lines of cells (base/cells.h), which the press makes into a spreadsheet file.
 *
 *   book     title, date          first
 *   sheet    name, "portrait" or "landscape", foot of each printed page
 *   columns  a cell a column: its width in characters
 *   repeat   first and last row that stand on top of each printed page; the last one also stays in view
 *   cell     row, column, style, kind, value, and for a formula the result that it has now
 *
 * Rows and columns count from 0. Kinds: "t" text, "n" number, "f" formula. Styles: workbook_styles. */
#ifndef REPORT_WORKBOOK_H
#define REPORT_WORKBOOK_H

typedef enum {
  STYLE_TEXT,
  STYLE_SMALL,
  STYLE_TITLE,
  STYLE_HEAD,
  STYLE_HEAD_RIGHT,
  STYLE_NUMBER,
  STYLE_MONEY,
  STYLE_RATE,
  STYLE_SHARE,
  STYLE_IN_NUMBER,
  STYLE_IN_RATE,
  STYLE_IN_SHARE,
  STYLE_TOTAL,
  STYLE_TOTAL_MONEY,
  STYLE_PRICE,
  STYLES
} WorkbookStyle;

extern const char *const workbook_styles[STYLES];

#endif
