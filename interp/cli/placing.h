/* placing.h - puts files into a folder, all of them or none.
 *
 * A folder that is new, or holds nothing but files of the same names, is made anew beside it and takes its place in
 * one step of the file system: at every moment, whatever is killed, it holds the old files or the new ones. Where
 * that cannot be done (it holds other things, it is a link, `.` or another's), all files are written into it under
 * temporary names first, and then renamed one after the other. */
#ifndef CLI_PLACING_H
#define CLI_PLACING_H

#include <stdbool.h>

#include "base/buf.h"

typedef struct {
  const char *name; /* port_is_name */
  const Buf *bytes;
} PlacedFile;

/* Folders on the way are made. On failure false, with a sentence in *why; no temporary file stays. */
bool placing_write(const char *folder, const PlacedFile *files, int count, Buf *why);

#endif
