/* press.h - makes PDF and spreadsheet files with the helper program gritwork-press, so that gritwork itself starts
 * without their libraries. Only the supervisor uses it, for what a finished worker handed over. */
#ifndef CLI_PRESS_H
#define CLI_PRESS_H

#include <stdbool.h>

#include "base/buf.h"

/* Makes the bytes of NAME (its ending says what it is to be) and appends them to *out. On failure false, with a
 * sentence in *why. The helper lies beside the program or in ../libexec; it may use a minute of processor time. */
bool press_make(const char *name, const Buf *from, Buf *out, Buf *why);

#endif
