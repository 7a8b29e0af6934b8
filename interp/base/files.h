/* files.h - reading and writing whole files. Only the supervisor process uses it. */
#ifndef BASE_FILES_H
#define BASE_FILES_H

#include <stdbool.h>
#include <stddef.h>

#include "base/buf.h"

typedef enum {
  FILES_OK,
  FILES_MISSING,
  FILES_NOT_FOLDER,  /* a file where the path needs a folder */
  FILES_NOT_REGULAR, /* a folder, device, pipe or socket */
  FILES_TOO_LARGE,
  FILES_OUTSIDE, /* leaves the root, or could: there is a symbolic link on the way */
  FILES_DENIED,
  FILES_CHANGED, /* it no longer holds what was expected */
  FILES_FULL,    /* no space on the disk, or past what this user or process may write */
  FILES_FAILED /* errno tells */
} FilesStatus;

const char *files_why(FilesStatus status); /* "no such file", ... */

/* Reads a regular file of at most `largest` bytes, appending to *out. On any error *out is as before. */
FilesStatus files_read(const char *path, size_t largest, Buf *out);
/* The same for a path below `root`, refusing `..`, absolute paths and every symbolic link below it. */
FilesStatus files_read_below(const char *root, const char *path, size_t largest, Buf *out);

/* Writes to a temporary file in the same folder, flushes it and renames it over `path`: after a failure or a
 * kill the old file is whole. Makes missing folders of the path and keeps the permissions of a file that was
 * there. A symbolic link is replaced, not written through; anything else that is not a regular file is refused. */
FilesStatus files_write(const char *path, const char *bytes, size_t length);

/* Puts other bytes in the place of a file that still holds `expected`: a temporary file in its folder with its
 * owner and permissions is renamed over it, so that at every moment the name leads to a whole file. `root` as in
 * files_read_below; NULL: a path as it stands. A symbolic link at the end of the path is refused, and so is a file
 * that holds anything else than expected when the new one is ready. */
FilesStatus files_replace(const char *root, const char *path, const Buf *expected, const Buf *bytes);

#endif
