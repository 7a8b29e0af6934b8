/* edit.h - changes of a script's text that keep its layout: one field or entry of a table constructor more, or
 * less.
 *
 * What is changed is found by the place of something that stands there. Each function answers false, with *edit as
 * it was, where the change is not plain: nothing stands at that place, or a comment is in the way. */
#ifndef LANG_EDIT_H
#define LANG_EDIT_H

#include "lang/syntax.h"

enum { EDIT_WIDTH = 116 }; /* characters of a line that nothing is added to past them */

/* `text` should stand at `at`, which is empty where something is put in. The caller frees the text. */
typedef struct {
  Span at;
  Buf text;
} Edit;

/* A field behind the last named one of a table constructor; before its first entry if it has no named ones. */
bool edit_add_field(const Tree *tree, Span table, const char *field, Edit *edit);
/* An entry before or after one that stands in a table constructor. */
bool edit_add_before(const Tree *tree, Span entry, const char *text, Edit *edit);
bool edit_add_after(const Tree *tree, Span entry, const char *text, Edit *edit);
/* Takes out an entry, or the field that has its key there, with its separator and its line. */
bool edit_take_out(const Tree *tree, Span entry_or_key, Edit *edit);

#endif
