/* option_rows.h - the options: one row each, from which parsing and help are made. For options.c. */
#ifndef CLI_OPTION_ROWS_H
#define CLI_OPTION_ROWS_H

#include "cli/options.h"

enum { OPTIONS_MOST = 64, THREADS_MOST = 64 };

typedef struct OptionRow OptionRow;

/* Takes what was given into the member that the row names; WRONG with the reason in `text`. */
typedef OptionsVerdict OptionReader(const OptionRow *row, const char *value, Options *options, Buf *text);

struct OptionRow {
  const char *name, *value; /* value NULL: a flag */
  OptionReader *read;
  size_t member; /* offset in Options */
  int low, high; /* of a number */
  const char *says;
};

extern const OptionRow option_rows[OPTIONS_MOST + 1]; /* ended by a row without a name */

/* "gritwork: ..." as the text, and WRONG. */
OptionsVerdict options_wrong(Buf *text, const char *format, ...) __attribute__((format(printf, 2, 3)));

#endif
