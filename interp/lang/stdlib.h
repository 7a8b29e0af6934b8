/* stdlib.h - the standard library's texts, built into the program from stdlib/. */
#ifndef LANG_STDLIB_H
#define LANG_STDLIB_H

/* "core.schema" is stdlib/core/schema.lua. The text runs from begin to end and is not NUL-terminated. */
typedef struct {
  const char *name, *begin, *end;
} StdlibModule;

extern const StdlibModule stdlib_modules[]; /* ended by a row whose name is NULL */

#endif
