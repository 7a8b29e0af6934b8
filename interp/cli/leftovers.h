/* leftovers.h - folders and files under names of their own until they take their place; and what a run that was
 * killed left of them, which the next one into the same place removes.
 *
 * A run holds a lock on the folder that it works in, which ends with it. A leftover is what nobody holds and whose
 * process, named in it, is gone. */
#ifndef CLI_LEFTOVERS_H
#define CLI_LEFTOVERS_H

#include <stdbool.h>
#include <sys/types.h>

#include "base/buf.h"

/* Makes a folder beside `folder`, .NAME.PROCESS-CHANCE.part. The descriptor that holds it, and its path appended to
 * *path; -1 if none can be made there. */
int leftovers_make(const char *folder, mode_t mode, Buf *path);

/* A descriptor that holds the folder, for files that are written into it; -1 if it cannot be had. */
int leftovers_hold(const char *folder);

/* FOLDER/.FILE.PROCESS, appended to *path: where the bytes of FILE wait. */
void leftovers_waiting(const char *folder, const char *file, Buf *path);

/* Removes the folder, which leftovers_make made, or which was exchanged for it: its files, then itself. */
void leftovers_remove(const char *path);

/* Removes the leftovers of earlier runs beside the folder and in it: what leftovers_make and files_write made, and
 * what waited for the place of one of `files`. A folder that holds anything but plain files of ours stays. */
void leftovers_clear(const char *folder, const char *const *files, int count);

#endif
