/* options.h - the command line: one table of options, from which parsing and help are made. */
#ifndef CLI_OPTIONS_H
#define CLI_OPTIONS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/buf.h"
#include "cli/range.h"

struct Command;

/* Those that every command which reads a document takes. */
#define OPTIONS_READING "root strict colour width stdlib seconds "

enum { WITH_MOST = 16, OVER_MOST = 2 };

/* What each option sets is a member here and a row in options.c. */
typedef struct {
  const struct Command *command;
  const char *const *arguments;
  int argument_count;
  /* What is printed, and in which form. */
  bool json, sarif, csv, ics, svg, brief;
  bool bars, slack, load, trade_off, assumptions, diff;
  bool meta, manual, examples;
  bool colour; /* decided: --colour, NO_COLOR, terminal */
  int width;
  /* What is done. */
  bool strict, fix;
  const char *out, *root, *stdlib; /* folders */
  const char *job, *area;
  const char *alternate; /* NULL: the job as written */
  const char *with[WITH_MOST]; /* "NAME=VALUE" */
  int with_count;
  Range over[OVER_MOST];
  int over_count;
  double break_even; /* a price; 0: none is asked about */
  int effort;        /* millions of counted steps for the schedule; 0: the default */
  int trials;        /* of a simulation; 0: what the job says */
  int threads;       /* that a simulation or the search for a schedule may run */
  int seconds;       /* wall-clock limit; 0: the default */
  bool has_epoch;    /* SOURCE_DATE_EPOCH is set: the time that papers are dated by, in seconds since 1970 */
  long long epoch_s;
} Options;

typedef enum { OPTIONS_RUN, OPTIONS_HELP, OPTIONS_WRONG } OptionsVerdict;

/* The flag at this offset: for tables. */
bool options_flag(const Options *options, size_t member);

/* Is the name among those of a list, "json effort"? */
bool options_among(const char *names, const char *name);

/* Reads argv. HELP: *text is to be printed on standard output; WRONG: on standard error. */
OptionsVerdict options_read(int argc, char **argv, Options *options, Buf *text);

#endif
