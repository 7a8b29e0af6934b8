/* supply.h - the texts a worker may have: files named on the command line, standard input, modules below the root
 * and, when it is overridden, of the standard library. For the supervisor. */
#ifndef CLI_SUPPLY_H
#define CLI_SUPPLY_H

#include "cli/replacing.h"
#include "cli/supervisor.h"

typedef struct {
  const SuperviseOptions *options;
  Replacing *replacing;
  Buf input, input_why; /* standard input; why it could not be read */
} Supply;

/* Reads standard input if the command may have it, which can wait for somebody to type. */
void supply_begin(Supply *supply, const SuperviseOptions *options, Replacing *replacing);
void supply_end(Supply *supply);

/* The `read` of PortCalls; `context` is a Supply. What the command may replace is noted as it is given out. */
bool supply_read(void *context, PortFrom from, const char *name, Buf *text, Buf *shown, Buf *why);

#endif
