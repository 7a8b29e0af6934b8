/* line_diff.h - two versions of a text, as a unified diff with three lines of context. */
#ifndef BASE_LINE_DIFF_H
#define BASE_LINE_DIFF_H

#include <stdbool.h>
#include <stddef.h>

#include "base/buf.h"

/* Appends the diff under a file's name; false, and nothing, if the texts are the same. What must not reach a
 * terminal is shown escaped, tabs excepted. The least change is found where the lines between the first and the
 * last difference come to at most four million pairs; else all of them are given as changed. */
bool line_diff(const char *name, const Buf *before, const Buf *after, Buf *out);

#endif
