/* delivery.h - what a command printed and wrote, held back until it has finished, then delivered all at once. */
#ifndef CLI_DELIVERY_H
#define CLI_DELIVERY_H

#include "base/port.h"
#include "cli/press.h"

typedef struct Delivery Delivery;

Delivery *delivery_new(void);
void delivery_free(Delivery *delivery);

/* Takes output or a file; false if a name, a size or a number of files is not allowed. The same name replaces. */
bool delivery_add(Delivery *delivery, PortWhat what, const char *name, const char *bytes, size_t length);

/* Makes the files that were handed over with PORT_PRESS, until the first that cannot be made: see press_make. */
PressStatus delivery_press(Delivery *delivery, int wall_ms, Buf *why);

/* Writes all files into the folder, as placing.h says. On failure false, with a sentence in *why. Without files it
 * does nothing. */
bool delivery_write(const Delivery *delivery, const char *folder, Buf *why);

/* Forgets what was printed to standard output. */
void delivery_unsay(Delivery *delivery);

/* Writes both streams. False, and errno, if standard output took less than all; a reader that has gone away is no
 * error. */
bool delivery_print(const Delivery *delivery, int out_fd, int err_fd);

#endif
