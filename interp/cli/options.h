/* options.h - the command line: one table of options, from which parsing and help are made. */
#ifndef CLI_OPTIONS_H
#define CLI_OPTIONS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/buf.h"
#include "cli/range.h"

struct Command;

typedef enum {
  OPTION_JSON = 1 << 0,
  OPTION_SHORT = 1 << 1,
  OPTION_STRICT = 1 << 2,
  OPTION_OUT = 1 << 3,
  OPTION_ROOT = 1 << 4,
  OPTION_COLOUR = 1 << 5,
  OPTION_WIDTH = 1 << 6,
  OPTION_STDLIB = 1 << 7,
  OPTION_BARS = 1 << 8,
  OPTION_ASSUMPTIONS = 1 << 9,
  OPTION_META = 1 << 10,
  OPTION_MANUAL = 1 << 11,
  OPTION_LIMIT = 1 << 12,
  OPTION_EFFORT = 1 << 13,
  OPTION_SARIF = 1 << 14,
  OPTION_FIX = 1 << 15,
  OPTION_DIFF = 1 << 16,
  OPTION_JOB = 1 << 17,
  OPTION_AREA = 1 << 18,
  OPTION_EXAMPLES = 1 << 19,
  OPTION_SVG = 1 << 20,
  OPTION_ICS = 1 << 21,
  OPTION_CSV = 1 << 22,
  OPTION_LOAD = 1 << 23,
  OPTION_SLACK = 1 << 24,
  OPTION_TRADE_OFF = 1 << 25,
  OPTION_TRIALS = 1 << 26,
  OPTION_THREADS = 1 << 27,
  OPTION_WITH = 1 << 28,
  OPTION_OVER = 1 << 29,
  OPTION_BREAK_EVEN = 1 << 30
} OptionBit;

/* Those that every command which reads a document takes. */
enum { OPTIONS_READING = OPTION_ROOT | OPTION_STRICT | OPTION_COLOUR | OPTION_WIDTH | OPTION_STDLIB | OPTION_LIMIT };

enum { WITH_MOST = 16, OVER_MOST = 2 };

typedef struct {
  const struct Command *command;
  const char *const *arguments;
  int argument_count;
  unsigned given; /* bits of OptionBit */
  const char *out, *root, *stdlib;
  const char *job, *area;
  bool colour;    /* decided: --colour, NO_COLOR, terminal */
  int width;
  bool has_epoch; /* SOURCE_DATE_EPOCH is set: the time that papers are dated by, in seconds since 1970 */
  long long epoch_s;
  int seconds;    /* wall-clock limit; 0: the default */
  int effort;     /* millions of counted steps for the schedule; 0: the default */
  int trials;     /* of a simulation; 0: what the job says */
  int threads;    /* that a simulation may run */
  const char *with[WITH_MOST]; /* "NAME=VALUE" */
  int with_count;
  Range over[OVER_MOST];
  int over_count;
  double break_even; /* a price */
} Options;

typedef enum { OPTIONS_RUN, OPTIONS_HELP, OPTIONS_WRONG } OptionsVerdict;

/* Reads argv. HELP: *text is to be printed on standard output; WRONG: on standard error. */
OptionsVerdict options_read(int argc, char **argv, Options *options, Buf *text);

#endif
