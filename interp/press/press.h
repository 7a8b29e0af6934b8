/* press.h - the helper program gritwork-press: reads what a file is to be made from on standard input and writes
 * the file to standard output, which must be a file that can be sought in.
 *
 *   gritwork-press NAME.pdf  < paper (report/paper.h)
 *   gritwork-press NAME.xlsx < workbook (report/workbook.h)
 *
 * A program of its own, so that gritwork starts without cairo, pango and the workbook library. Dates inside the
 * files are those of the text, and the same text on the same machine makes the same bytes. */
#ifndef PRESS_PRESS_H
#define PRESS_PRESS_H

#include <stdbool.h>

#include "base/buf.h"

/* Both write to standard output; false if the text is not what it should be, or writing failed. */
bool press_pdf(const Buf *paper);
bool press_xlsx(const Buf *workbook);

#endif
