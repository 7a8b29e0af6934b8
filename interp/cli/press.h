/* press.h - makes PDF and spreadsheet files with the helper program gritwork-press, so that gritwork itself starts
 * without their libraries. Only the supervisor uses it, for what a finished worker handed over. */
#ifndef CLI_PRESS_H
#define CLI_PRESS_H

#include <stdbool.h>

#include "base/buf.h"

typedef enum { PRESS_MADE, PRESS_FAILED, PRESS_ENDED } PressStatus;

/* Makes the bytes of NAME (its ending says what it is to be) and appends them to *out. Else, with a sentence in
 * *why: PRESS_FAILED, or PRESS_ENDED if it took longer than `wall_ms` by the clock or somebody interrupted it
 * (waiting.h). The helper lies beside the program or in ../libexec. */
PressStatus press_make(const char *name, const Buf *from, int wall_ms, Buf *out, Buf *why);

#endif
