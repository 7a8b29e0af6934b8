/* why.h - where figures come from: a graph from every result down to what somebody wrote.
 *
 * A Figure is a number with a node of that graph. Nodes are only ever added; a node's inputs come before it, so the
 * graph has no cycles. Units are spelled as units.c knows them ("m", "m2/L", "min", "USD"). */
#ifndef BASE_WHY_H
#define BASE_WHY_H

#include <stdbool.h>
#include <stdint.h>

#include "base/source.h"

typedef uint32_t Why; /* 0: nothing is known */

typedef struct {
  double value;
  Why why;
} Figure;

/* A formula as arithmetic, so that a figure can be worked out again from other terms (base/reckon.h). */
typedef double (*WhySum)(const double *terms, int count);

typedef enum {
  WHY_WRITTEN,   /* in a document, at a place */
  WHY_DEFAULT,   /* nobody said: an assumption, listed as one */
  WHY_CATALOGUE, /* an entry of the standard library */
  WHY_COMPUTED   /* by a formula from inputs */
} WhyOrigin;

typedef struct {
  WhyOrigin origin;
  const char *what;    /* "overlap of step open", "field minutes" */
  double value;
  const char *words;   /* DEFAULT: the value where it is no number ("water", "false"); else NULL */
  bool decides;        /* DEFAULT: what is done depends on it, though it enters no formula */
  const char *unit;    /* "" for a plain number */
  double low, high;    /* the range of about(...); low == high == value otherwise */
  Span at;             /* WRITTEN: the value; DEFAULT: the step or document it was missing from */
  const char *formula; /* COMPUTED: id ("coverage.lanes") or a one-line expression */
  const char *basis;   /* source and status, NULL if the value is only what was written */
  const Why *inputs;
  int input_count;
  WhySum sum;          /* the value from the terms, but for rounding; NULL: cannot be worked out again */
  const Figure *terms; /* what `sum` takes, in its order; constants have no node */
  int term_count;
} WhyNode;

typedef struct WhyBook WhyBook;

WhyBook *why_new(void);
void why_free(WhyBook *book);

/* Copies everything. Inputs of value 0 are left out. */
Why why_add(WhyBook *book, const WhyNode *node);

Figure why_written(WhyBook *book, const char *what, double value, const char *unit, Span at);
Figure why_default(WhyBook *book, const char *what, double value, const char *unit, Span at, const char *basis);
Figure why_computed(WhyBook *book, const char *what, double value, const char *unit, const char *formula,
                    const Figure *inputs, int count);
/* The value is the sum of the terms; those with a node are the inputs. */
Figure why_worked(WhyBook *book, const char *what, const char *unit, const char *formula, WhySum sum,
                  const Figure *terms, int count);
double why_total(const double *terms, int count);   /* a + b + ... */
double why_product(const double *terms, int count); /* a x b x ... */
double why_ratio(const double *terms, int count);   /* the first over the second */

const WhyNode *why_node(const WhyBook *book, Why why); /* NULL for 0 */
uint32_t why_count(const WhyBook *book);               /* nodes are 1 .. count */

#endif
