/* complain.h - syntax errors on their way to the findings: places in bytes of one source, advice, quoted text. */
#ifndef LANG_COMPLAIN_H
#define LANG_COMPLAIN_H

#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>

#include "base/diag.h"
#include "base/source.h"

typedef struct {
  uint32_t begin, end;
} Range;

/* What goes with an error: all of it optional. A label without text is not there. */
typedef struct {
  const char *help, *fix;
  bool fix_is_safe;
  struct {
    Range at;
    const char *text;
  } labels[DIAG_LABELS];
} Advice;

typedef struct {
  uint32_t source;
  const char *text;
  uint32_t length;
  Diags *diags;
  int count;
} Complaints;

/* A piece of the source short enough for a message. */
typedef struct {
  char text[48];
} Quote;

void complain_v(Complaints *c, Range at, const Advice *advice, const char *format, va_list args)
    __attribute__((format(printf, 4, 0)));
void complain(Complaints *c, Range at, Advice advice, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
Quote complain_quote(const Complaints *c, Range at);

#endif
