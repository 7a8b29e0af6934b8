/* fuzz_pattern.c - any bytes as a pattern and a subject: what is found lies inside, and the steps always end it. */
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "lang/pattern.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void must(int condition)
{
  if (!condition) abort();
}

static void check_match(const Pattern *pattern, const PatternMatch *match, const char *subject, size_t length)
{
  const char *end = subject + length;
  must(subject <= match->begin && match->begin <= match->end && match->end <= end);
  for (int i = 0; i < pattern->captures; i++) {
    const PatternCapture *c = &match->captures[i];
    must(subject <= c->begin && c->begin <= end && c->length >= PATTERN_POSITION);
    if (c->length != PATTERN_POSITION) must(c->begin + c->length <= end);
  }
}

/* The first byte says how long the pattern is; the rest is the subject. Both in memory of their exact size. */
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  if (size == 0) return 0;
  size_t pattern_length = data[0] < size - 1 ? data[0] : size - 1, length = size - 1 - pattern_length;
  char *text = malloc(pattern_length + 1), *subject = malloc(length + 1);
  Pattern pattern = { .items = malloc(pattern_room(pattern_length)) };
  memcpy(text, data + 1, pattern_length);
  memcpy(subject, data + 1 + pattern_length, length);
  if (pattern_compile(&pattern, text, pattern_length, true) == NULL) {
    PatternMatch match = { .steps = 100000 };
    bool found = pattern_search(&pattern, subject, length, 0, &match);
    if (found) check_match(&pattern, &match, subject, length);
    else must(match.steps >= -(int64_t)length - 2);
  }
  free(pattern.items);
  free(subject);
  free(text);
  return 0;
}
