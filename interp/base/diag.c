/* diag.c - collecting findings: copied, each kept once, ordered. */
#include "base/diag.h"

#include <assert.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "base/mem.h"

struct Diags {
  Arena *arena;
  Diag *entries[DIAGS_MOST];
  size_t count;
  size_t last; /* once all places are taken: the index of the entry that sorts behind all others */
  int totals[DIAG_LEVELS];
};

Diags *diags_new(void)
{
  Diags *diags = mem_alloc(sizeof *diags);
  diags->arena = arena_new();
  return diags;
}

void diags_free(Diags *diags)
{
  if (diags == NULL) return;
  arena_free(diags->arena);
  mem_free(diags);
}

static bool same_span(Span a, Span b) { return a.source == b.source && a.begin == b.begin && a.end == b.end; }

static bool is_known(const Diags *diags, const Diag *diag)
{
  for (size_t i = 0; i < diags->count; i++) {
    const Diag *d = diags->entries[i];
    if (same_span(d->at, diag->at) && strcmp(d->code, diag->code) == 0 && strcmp(d->message, diag->message) == 0)
      return true;
  }
  return false;
}

/* At most DIAG_TEXT bytes, not cutting a UTF-8 sequence. */
static const char *copy(Diags *diags, const char *text)
{
  if (text == NULL) return NULL;
  size_t length = strnlen(text, DIAG_TEXT + 1);
  if (length > DIAG_TEXT)
    for (length = DIAG_TEXT; length > 0 && ((unsigned char)text[length] & 0xC0) == 0x80;) length--;
  return arena_strndup(diags->arena, text, length);
}

static Diag *copy_diag(Diags *diags, const Diag *diag)
{
  Diag *d = arena_alloc(diags->arena, sizeof *d);
  *d = *diag;
  d->code = copy(diags, diag->code);
  d->message = copy(diags, diag->message);
  d->about = copy(diags, diag->about);
  d->note = copy(diags, diag->note);
  d->help = copy(diags, diag->help);
  d->basis = copy(diags, diag->basis);
  d->fix = copy(diags, diag->fix);
  d->waiver.reason = copy(diags, diag->waiver.reason);
  d->waiver.by = copy(diags, diag->waiver.by);
  d->waiver.message = copy(diags, diag->waiver.message);
  for (int i = 0; i < diag->label_count; i++) d->labels[i].text = copy(diags, diag->labels[i].text);
  return d;
}

static int order_of(uint64_t a, uint64_t b) { return (a > b) - (a < b); }

static int compare(const Diag *a, const Diag *b)
{
  int order = order_of(a->at.source, b->at.source);
  if (order == 0) order = order_of(a->at.begin, b->at.begin);
  if (order == 0) order = order_of(a->at.end, b->at.end);
  if (order == 0) order = order_of(a->level, b->level);
  if (order == 0) order = strcmp(a->code, b->code);
  return order ? order : strverscmp(a->message, b->message); /* step 9 before step 10 */
}

static void find_last(Diags *diags)
{
  diags->last = 0;
  for (size_t i = 1; i < diags->count; i++)
    if (compare(diags->entries[i], diags->entries[diags->last]) > 0) diags->last = i;
}

static void keep(Diags *diags, const Diag *diag)
{
  Diag *copied = copy_diag(diags, diag);
  size_t index = diags->count < DIAGS_MOST ? diags->count++ : diags->last;
  diags->entries[index] = copied;
  if (diags->count == DIAGS_MOST) find_last(diags);
}

void diags_add(Diags *diags, const Diag *diag)
{
  assert(diag->code && diag->message);
  assert(diag->label_count >= 0 && diag->label_count <= DIAG_LABELS);
  if (is_known(diags, diag)) return;
  if (diags->count < DIAGS_MOST || compare(diag, diags->entries[diags->last]) < 0) keep(diags, diag);
  diags->totals[diag->level]++;
}

void diags_error(Diags *diags, const char *code, Span at, const char *format, ...)
{
  Buf message = { 0 };
  va_list args;
  va_start(args, format);
  buf_vprintf(&message, format, args);
  va_end(args);
  diags_add(diags, &(Diag){ .level = DIAG_ERROR, .code = code, .at = at, .message = buf_text(&message) });
  buf_free(&message);
}

Span diag_fix_at(const Diag *diag)
{
  if (diag->fix == NULL) return (Span){ 0 };
  return span_is_nowhere(diag->fix_at) ? diag->at : diag->fix_at;
}

size_t diags_count(const Diags *diags) { return diags->count; }

int diags_errors(const Diags *diags) { return diags->totals[DIAG_ERROR]; }

int diags_warnings(const Diags *diags) { return diags->totals[DIAG_WARNING]; }

int diags_notes(const Diags *diags) { return diags->totals[DIAG_NOTE]; }

int diags_not_kept(const Diags *diags)
{
  return diags_errors(diags) + diags_warnings(diags) + diags_notes(diags) - (int)diags->count;
}

const Diag *diags_get(const Diags *diags, size_t index)
{
  assert(index < diags->count);
  return diags->entries[index];
}

void diags_cut(Diags *diags, size_t count)
{
  while (diags->count > count) diags->totals[diags->entries[--diags->count]->level]--;
}

static int compare_entries(const void *a, const void *b) { return compare(*(Diag *const *)a, *(Diag *const *)b); }

void diags_sort(Diags *diags)
{
  if (diags->count == 0) return;
  qsort(diags->entries, diags->count, sizeof *diags->entries, compare_entries);
  diags->last = diags->count - 1;
}

void diags_raise_warnings(Diags *diags)
{
  for (size_t i = 0; i < diags->count; i++)
    if (diags->entries[i]->level == DIAG_WARNING) diags->entries[i]->level = DIAG_ERROR;
  diags->totals[DIAG_ERROR] += diags->totals[DIAG_WARNING];
  diags->totals[DIAG_WARNING] = 0;
}
