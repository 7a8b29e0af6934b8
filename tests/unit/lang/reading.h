/* reading.h - a text read by our reader, for its tests. Include after cmocka.h. */
#ifndef TESTS_LANG_READING_H
#define TESTS_LANG_READING_H

#include <stdio.h>
#include <string.h>

#include "lang/syntax.h"

typedef struct {
  Sources *sources;
  Diags *diags;
  Tree *tree;
  const char *text;
  uint32_t source;
  Buf rewritten; /* empty if the tree is not sound */
} Reading;

static inline Reading reading_of(const char *text, size_t length)
{
  Reading r = { .sources = sources_new(), .diags = diags_new(), .text = text };
  r.source = sources_add(r.sources, "t.lua", text, length);
  r.tree = tree_parse(r.sources, r.source, r.diags);
  if (tree_sound(r.tree)) tree_rewrite(r.tree, &r.rewritten);
  diags_sort(r.diags);
  return r;
}

static inline void reading_free(Reading *r)
{
  buf_free(&r->rewritten);
  tree_free(r->tree);
  diags_free(r->diags);
  sources_free(r->sources);
}

/* What was complained about: a line `LINE:COLUMN+BYTES MESSAGE` each. */
static inline Buf reading_complaints(const Reading *r)
{
  Buf out = { 0 };
  for (size_t i = 0; i < diags_count(r->diags); i++) {
    const Diag *d = diags_get(r->diags, i);
    Place place = sources_place(r->sources, r->source, d->at.begin);
    assert_string_equal(d->code, "syntax");
    buf_printf(&out, "%s%d:%d+%u %s", i ? "\n" : "", place.line, place.column, d->at.end - d->at.begin, d->message);
  }
  return out;
}

static inline void assert_complaints(const char *text, size_t length, const char *want)
{
  Reading r = reading_of(text, length);
  Buf got = reading_complaints(&r);
  if (strcmp(buf_text(&got), want) != 0) fail_msg("\n%s\n-- want:\n%s\n-- got:\n%s", text, want, buf_text(&got));
  assert_int_equal(tree_sound(r.tree), *want == '\0');
  buf_free(&got);
  reading_free(&r);
}

static inline void assert_span_text(const Reading *r, Span span, const char *want)
{
  char got[400];
  snprintf(got, sizeof got, "%.*s", (int)(span.end - span.begin), r->text + span.begin);
  if (strcmp(got, want) != 0) fail_msg("%s\nwant `%s`, got `%s`", r->text, want, got);
}

/* The finding's fix put into the text, as an editor would. */
static inline void assert_fixed(const char *text, const char *want)
{
  Reading r = reading_of(text, strlen(text));
  const Diag *d = diags_get(r.diags, 0);
  if (d->fix == NULL) fail_msg("%s\nhas no fix: %s", text, d->message);
  Buf got = { 0 };
  buf_add(&got, text, d->at.begin);
  buf_puts(&got, d->fix);
  buf_puts(&got, text + d->at.end);
  assert_string_equal(buf_text(&got), want);
  buf_free(&got);
  reading_free(&r);
}

#endif
