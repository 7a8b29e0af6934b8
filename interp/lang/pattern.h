/* pattern.h - Lua's patterns, matched by our own code with a count of steps, so that none can run away.
 *
 * A pattern is compiled into a row of items. Matching backs up over repeated items only; the others are taken in
 * turn, so captures need no undoing: whatever path succeeds has set every one of them. */
#ifndef LANG_PATTERN_H
#define LANG_PATTERN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum {
  PATTERN_LONGEST = 4096, /* bytes */
  PATTERN_CAPTURES = 32,
  PATTERN_REPEATS = 150   /* items with * + - ? ; each may take one level of the C stack */
};

typedef struct PatternItem PatternItem;

typedef struct {
  PatternItem *items; /* the caller's memory, pattern_room bytes */
  int captures;
  bool anchored;
} Pattern;

typedef struct {
  const char *begin;
  ptrdiff_t length; /* PATTERN_POSITION: only the place counts */
} PatternCapture;

enum { PATTERN_POSITION = -1 };

typedef struct {
  int64_t steps; /* in: how many may be taken; out: how many are left, below 0 if they ran out */
  const char *begin, *end; /* the whole match */
  PatternCapture captures[PATTERN_CAPTURES];
} PatternMatch;

size_t pattern_room(size_t length);

/* Returns NULL, or what is wrong with the text. `may_anchor`: a leading ^ ties it to the start of the search. */
const char *pattern_compile(Pattern *pattern, const char *text, size_t length, bool may_anchor);

/* Matches at `at` exactly. False if there is no match or the steps ran out. */
bool pattern_match(const Pattern *pattern, const char *subject, size_t length, size_t at, PatternMatch *match);
/* The first match at `from` or later. */
bool pattern_search(const Pattern *pattern, const char *subject, size_t length, size_t from, PatternMatch *match);

#endif
