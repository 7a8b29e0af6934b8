/* version.h - what `gritwork --version` prints: which program this is, and what keeps a script from this
 * machine. */
#ifndef CLI_VERSION_H
#define CLI_VERSION_H

#include "base/buf.h"

void version_print(Buf *out);

#endif
