/* diag.h - findings: collected anywhere, ordered, and printed in one of several forms.
 *
 * All strings given in are copied. A finding's code is a rule's id or one of the engine's own (`syntax`, `field`,
 * `unit`, ...). Every byte echoed from a source or a script is escaped on output. */
#ifndef BASE_DIAG_H
#define BASE_DIAG_H

#include <stdbool.h>
#include <stddef.h>

#include "base/buf.h"
#include "base/json.h"
#include "base/source.h"

typedef enum { DIAG_ERROR, DIAG_WARNING, DIAG_NOTE, DIAG_LEVELS } DiagLevel;

typedef struct {
  Span at;
  const char *text; /* not NULL: "the next abrasive is `grit = 100`" */
} DiagLabel;

/* Somebody answers for what a finding says. */
typedef struct {
  Span at;                 /* where that is written */
  const char *reason, *by; /* NULL: nobody does */
  const char *message;     /* what the finding said before it became a note; NULL: it is a regulation's, and stands */
  DiagLevel level;         /* the level that it had then */
} DiagWaiver;

enum { DIAG_LABELS = 32, DIAG_TEXT = 4096, DIAGS_MOST = 1000 };

typedef struct {
  DiagLevel level;
  const char *code;
  const char *message; /* one sentence, no full stop */
  Span at;             /* the primary place; may be nowhere */
  const char *about;   /* the step or part that it is about, `hone "200"`; NULL: a document, or nothing with a name */
  DiagLabel labels[DIAG_LABELS];
  int label_count;
  const char *note, *help, *basis; /* each NULL or one sentence */
  const char *fix;                 /* NULL, or the text that should stand at `fix_at` */
  Span fix_at;                     /* nowhere: at `at`; empty: the text is put in there */
  bool fix_is_safe;
  DiagWaiver waiver;
} Diag;

const char *diag_level_name(DiagLevel level); /* "error" */
Span diag_fix_at(const Diag *diag);           /* the bytes in whose place the fix goes; nowhere without one */

typedef struct Diags Diags;

Diags *diags_new(void);
void diags_free(Diags *diags);

/* Adds a copy, each text cut to DIAG_TEXT bytes. The same code, message and place twice is kept once. Past
 * DIAGS_MOST those that sort first are kept, whatever the order in which they come. */
void diags_add(Diags *diags, const Diag *diag);
/* A short way for the engine's own errors. */
void diags_error(Diags *diags, const char *code, Span at, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

size_t diags_count(const Diags *diags);
int diags_errors(const Diags *diags);
int diags_warnings(const Diags *diags);
int diags_notes(const Diags *diags);
int diags_not_kept(const Diags *diags); /* counted above, but past the cap */
const Diag *diags_get(const Diags *diags, size_t index);
/* Takes back what was added from index `count` on, in the order of adding: not after diags_sort. */
void diags_cut(Diags *diags, size_t count);
/* Orders by source (as read), place, level, code, message. */
void diags_sort(Diags *diags);
void diags_raise_warnings(Diags *diags); /* --strict: warnings become errors */

typedef struct {
  bool colour;
  int width; /* cells a line may take, 0 for no limit; longer source lines are cut to a window round the span */
} DiagStyle;

/* Human form: message, place, excerpt with carets, labels, note, help, basis. */
void diags_print(const Diags *diags, const Sources *sources, DiagStyle style, Buf *out);
/* A place by itself: FILE:LINE:COLUMN, the line, and carets under it. Nothing for nowhere. */
void diags_print_place(const Sources *sources, Span at, DiagStyle style, Buf *out);
/* One line a finding: FILE:LINE:COLUMN: LEVEL[CODE]: MESSAGE (help). */
void diags_print_short(const Diags *diags, const Sources *sources, Buf *out);
/* Members of the object that is open: an array "findings" and the totals "errors", "warnings", "notes",
 * "not_shown". Lines and columns count from 1, columns in code points; the end is exclusive. A finding with no
 * place has nulls (docs/json.md). */
void diags_print_json(const Diags *diags, const Sources *sources, JsonWriter *j);

#endif
