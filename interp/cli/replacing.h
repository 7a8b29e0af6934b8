/* replacing.h - files that a command wants changed: only ones it was given to read, and only as long as they still
 * hold what it was given. For the supervisor. */
#ifndef CLI_REPLACING_H
#define CLI_REPLACING_H

#include <stdbool.h>
#include <stddef.h>

#include "base/buf.h"

typedef struct Replacing Replacing;

Replacing *replacing_new(void);
void replacing_free(Replacing *replacing);

/* Remembers a text that was given out under the name `shown`, and where it came from: files_replace tells about
 * `root` and `path`. The first text of a name stays. */
void replacing_note(Replacing *replacing, const char *shown, const char *root, const char *path,
                    const char *bytes, size_t length);

/* Takes the bytes that a file should have. False if nothing was given out under that name. */
bool replacing_add(Replacing *replacing, const char *shown, const char *bytes, size_t length);

/* Replaces each file as a whole. False if one could not be, with all those and the reasons in *why; they are as
 * before, and the others have their new text. */
bool replacing_write(const Replacing *replacing, Buf *why);

#endif
