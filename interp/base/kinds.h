/* kinds.h - the table of kinds, and which kind a product has. For the quantity_*.c files; others use quantity.h. */
#ifndef BASE_KINDS_H
#define BASE_KINDS_H

#include <stdbool.h>

#include "base/quantity.h"

enum {
  KIND_BY_DIMENSION = 1, /* a product of this dimension is of this kind, unless a rule says otherwise */
  KIND_APART = 2,        /* a product with it has a kind only where a rule names one */
  KIND_SHARED_SCALE = 4, /* lengths, films and grains convert into each other's plain units */
};
enum { KIND_UNITS = 3, DIMENSION_MOST = 9 };

typedef struct {
  const char *name;
  Dimension dimension;
  const char *unit[2][KIND_UNITS]; /* by UnitSystem, largest first; display takes the first that gives 1 or more */
  const char *kept;                /* units that display leaves as written: "d,week"; "*" is any */
  const char *example[3];
  int decimals; /* shown by display; more when needed for two figures */
  int flags;
} KindRow;

const KindRow *kind_row(Kind kind);

bool dimension_equal(Dimension a, Dimension b);
bool dimension_is_plain(Dimension d); /* no exponent at all */
/* a * b^sign; false if an exponent goes beyond DIMENSION_MOST. */
bool dimension_combine(Dimension a, Dimension b, int sign, Dimension *out);

/* Kind of a * b or, if divide, a / b; `result` is the dimension of that. KIND_NONE if none is certain. */
Kind kind_of_product(Kind a, Kind b, bool divide, Dimension result);

/* May a quantity of kind `given`, written in `unit`, stand where `field` is wanted? */
bool kind_accepts(Kind field, Kind given, const char *unit);

/* Is `word` one of the comma-separated words of `list`? */
bool kind_has_word(const char *list, const char *word);

#endif
