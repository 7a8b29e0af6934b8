/* comparison.h - what differs from one recipe to another, step by step and field by field. */
#ifndef MODEL_COMPARISON_H
#define MODEL_COMPARISON_H

#include "base/source.h"

typedef struct {
  const char *kind;      /* "added", "dropped", "renamed", "moved", "changed" */
  const char *step;      /* `hone "200"`; "the recipe" or the name of one of its tables */
  const char *field;     /* "" unless changed */
  const char *was, *now; /* values or names in words; "" where it does not apply */
  Span was_at, now_at;   /* nowhere where there is none */
} Change;

typedef struct {
  const char *name; /* of the recipe */
  Span at;
} Compared;

/* A step of both, or of one: "" where the other has none. */
typedef struct {
  const char *was, *now; /* `hone "200"` */
} ComparedStep;

typedef struct {
  Compared was, now;
  const Change *changes;
  int count;
  const ComparedStep *steps; /* in the order of `now`; what was dropped stands where it was */
  int step_count;
} Comparison;

#endif
