/* stdlib.h - the standard library, built into the program from stdlib/. */
#ifndef LANG_STDLIB_H
#define LANG_STDLIB_H

/* "core.record" is stdlib/core/record.lua, compiled; "start.first_job" is the text of a file for `gritwork new`.
 * Either runs from begin to end. */
typedef struct {
  const char *name, *begin, *end;
} StdlibModule;

extern const StdlibModule stdlib_modules[]; /* ended by a row whose name is NULL */

#endif
