/* quantity_scan.h - the reader's lower half: folding to ASCII, a cursor, numbers. For the quantity_*.c files. */
#ifndef BASE_QUANTITY_SCAN_H
#define BASE_QUANTITY_SCAN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/quantity.h"
#include "base/rational.h"

enum { SCAN_MOST = 120, SCAN_ROOM = SCAN_MOST + 24 };

/* A text folded: typographic signs become ASCII ("1½ ft²" is "1 1/2 ft^2"). */
typedef struct {
  char text[SCAN_ROOM];     /* NUL-terminated */
  uint8_t place[SCAN_ROOM]; /* of each folded byte: where it came from */
  size_t length, at;
  UnitRules rules;
  QuantityError *error; /* places in it are folded ones until scan_unfold; may be NULL */
} Scan;

/* False and an error if the text is too long. */
bool scan_open(Scan *scan, const char *text, size_t length, UnitRules rules, QuantityError *error);
/* Turns the places of the error into places of the original text, and returns false. */
bool scan_unfold(Scan *scan);

void scan_spaces(Scan *scan);
bool scan_is_end(const Scan *scan);
bool scan_is_digit(const Scan *scan, size_t at);
/* Takes the character, after spaces, if it is next. */
bool scan_take(Scan *scan, char c);
/* Is a number next: "6", ".5"? */
bool scan_at_number(const Scan *scan);

/* "1,250", ".5", "2e3" without fractions; false and an error if there is none. */
bool scan_decimal(Scan *scan, Number *out);
/* The same and "1/2", "1 1/2", "1-1/2". */
bool scan_number(Scan *scan, Number *out);

/* Sets the message (error_say) or the help (error_help) of an error that may be NULL; always false. */
bool error_say(QuantityError *error, size_t begin, size_t end, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
bool error_help(QuantityError *error, const char *format, ...) __attribute__((format(printf, 2, 3)));

#endif
