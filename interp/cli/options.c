#include "cli/options.h"

#include <getopt.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include "base/text.h"
#include "cli/command.h"
#include "cli/version.h"

typedef struct {
  OptionBit bit;
  const char *name, *value; /* value NULL: a flag */
  const char *says;
} OptionRow;

static const OptionRow rows[] = {
  { OPTION_JSON, "json", NULL, "print JSON for programs (docs/json.md)" },
  { OPTION_FIX, "fix", NULL, "change the files where the right text is certain; show the other fixes" },
  { OPTION_DIFF, "diff", NULL, "show every fix as a diff, and change nothing" },
  { OPTION_JOB, "job", "JOB", "a job in which both are put in place, to compare hours and price" },
  { OPTION_AREA, "area", "NAME", "the area of that job; else all of them" },
  { OPTION_SARIF, "sarif", NULL, "print a SARIF 2.1.0 log, for editors and code hosts" },
  { OPTION_SHORT, "short", NULL, "one line for each finding" },
  { OPTION_STRICT, "strict", NULL, "warnings are errors" },
  { OPTION_ASSUMPTIONS, "assumptions", NULL, "list every default that a result rests on" },
  { OPTION_BARS, "bars", NULL, "print the schedule as bars over time" },
  { OPTION_SLACK, "slack", NULL, "print the critical steps, and how much later the others can start" },
  { OPTION_LOAD, "load", NULL, "print how busy each person and machine is, day by day" },
  { OPTION_TRADE_OFF, "trade-off", NULL, "try the job with fewer people and machines: when it ends, and what it costs" },
  { OPTION_SVG, "svg", NULL, "print a Gantt chart as SVG" },
  { OPTION_ICS, "ics", NULL, "print an iCalendar file: an event for each shift and each hold point" },
  { OPTION_CSV, "csv", NULL, "print a row for each stretch of work, for spreadsheets" },
  { OPTION_EFFORT, "effort", "N", "millions of steps to look for a better schedule, 1 to 1000000; the default is 200" },
  { OPTION_TRIALS, "trials", "N", "how many trials, 100 to 1000000; the default is what the job says, or 10000" },
  { OPTION_THREADS, "threads", "N", "threads to share the work, 1 to 64; the default is one a processor" },
  { OPTION_WITH, "with", "NAME=VALUE", "a value for this run instead of the one written; may be given again" },
  { OPTION_OVER, "over", "NAME=A..B:STEP", "a table of price and finish over a range; given twice, over two" },
  { OPTION_BREAK_EVEN, "break-even", "PRICE", "the value of --over from which the price is on the other side" },
  { OPTION_META, "meta", NULL, "print a definition file for Lua editors" },
  { OPTION_EXAMPLES, "examples", NULL, "print every rule's examples as whole scripts" },
  { OPTION_MANUAL, "manual", NULL, "print the reference manual of all words" },
  { OPTION_OUT, "out", "DIR", "folder to write into" },
  { OPTION_ROOT, "root", "DIR", "the project's root, where `require` looks; else the nearest folder up with a .gritwork file" },
  { OPTION_COLOUR, "colour", "WHEN", "auto, always or never" },
  { OPTION_WIDTH, "width", "N", "cells a line may take, 40 to 400" },
  { OPTION_LIMIT, "seconds", "N", "stop after so many seconds of wall time, 1 to 3600" },
  { OPTION_STDLIB, "stdlib", "DIR", "read the standard library from a folder, while working on it" },
};

enum { ROWS = sizeof rows / sizeof *rows, HELP = 1000, MOST_THREADS = 64 };

static void list_commands(Buf *out)
{
  buf_puts(out, "gritwork: recipes for polishing concrete floors, checked, scheduled and costed\n\n");
  for (const Command *const *c = commands; *c; c++) {
    buf_puts(out, "  gritwork ");
    text_left(out, (*c)->name, 10);
    buf_printf(out, " %s\n", (*c)->says);
  }
  buf_puts(out, "\n`gritwork help COMMAND` tells more, `gritwork --version` what keeps scripts from this machine.\n"
                "Exit status: 0 fine, 1 findings at error level, 2 wrong usage, 3 cannot read or write, 4 a budget of time,\n"
                "memory or steps ran out, 70 a fault of our own.\n");
}

static void help_command(const Command *c, Buf *out)
{
  buf_printf(out, "gritwork %s %s\n\n%s\n", c->name, c->usage, c->help);
  bool head = false;
  for (int i = 0; i < ROWS; i++) {
    if (!(c->options & rows[i].bit)) continue;
    if (!head) buf_puts(out, "\nOptions:\n");
    head = true;
    Buf left = { 0 };
    buf_printf(&left, "--%s%s%s", rows[i].name, rows[i].value ? "=" : "", rows[i].value ? rows[i].value : "");
    buf_puts(out, "  ");
    text_left(out, buf_text(&left), 16);
    text_fold(out, rows[i].says, 80, 18);
    buf_putc(out, '\n');
    buf_free(&left);
  }
}

static OptionsVerdict wrong(Buf *text, const char *format, ...) __attribute__((format(printf, 2, 3)));

static OptionsVerdict wrong(Buf *text, const char *format, ...)
{
  va_list args;
  va_start(args, format);
  buf_puts(text, "gritwork: ");
  Buf message = { 0 };
  buf_vprintf(&message, format, args);
  va_end(args);
  text_escape(text, buf_text(&message), message.length);
  buf_putc(text, '\n');
  buf_free(&message);
  return OPTIONS_WRONG;
}

static OptionsVerdict unknown_command(const char *name, Buf *text)
{
  const char *names[64], *near[3];
  size_t count = 0;
  for (; commands[count] && count < 64; count++) names[count] = commands[count]->name;
  int found = text_near(name, names, count, near, 1);
  if (found) return wrong(text, "there is no command `%s`; did you mean `%s`?", name, near[0]);
  return wrong(text, "there is no command `%s`; `gritwork help` lists them", name);
}

static OptionsVerdict help_on(const char *name, Buf *text)
{
  const Command *command = command_find(name);
  if (!command) return unknown_command(name, text);
  help_command(command, text);
  return OPTIONS_HELP;
}

/* NO_COLOR set and not empty wins over all but an explicit `always`; see no-color.org. */
static bool colour_by_default(void)
{
  const char *no = getenv("NO_COLOR"), *term = getenv("TERM");
  if (no && no[0]) return false;
  return isatty(STDOUT_FILENO) && isatty(STDERR_FILENO) && term && strcmp(term, "dumb") != 0;
}

/* A whole number of seconds up to the end of the year 9999; anything else is as if it were not set. */
static bool read_epoch(long long *seconds)
{
  static const long long end_of_time = 253402300799;
  const char *text = getenv("SOURCE_DATE_EPOCH");
  char *end = NULL;
  if (!text || !*text) return false;
  long long value = strtoll(text, &end, 10);
  if (*end != '\0' || value < 0 || value > end_of_time) return false;
  *seconds = value;
  return true;
}

static int width_by_default(void)
{
  struct winsize size;
  if (!isatty(STDOUT_FILENO) || ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0) return 80;
  return size.ws_col < 40 ? 80 : size.ws_col > 120 ? 120 : size.ws_col;
}

static int threads_by_default(void)
{
  long processors = sysconf(_SC_NPROCESSORS_ONLN);
  return processors < 1 ? 1 : processors > MOST_THREADS ? MOST_THREADS : (int)processors;
}

/* A whole number from low to high, or -1. */
static int number(const char *text, int low, int high)
{
  char *end;
  long value = strtol(text, &end, 10);
  return *text && *end == '\0' && value >= low && value <= high ? (int)value : -1;
}

static OptionsVerdict take(Options *o, OptionBit bit, const char *value, Buf *text)
{
  char *end;
  o->given |= bit;
  bool is_folder = bit == OPTION_OUT || bit == OPTION_ROOT || bit == OPTION_STDLIB;
  if (is_folder && *value == '\0') return wrong(text, "the name of a folder is empty; `.` is the current one");
  switch (bit) {
  case OPTION_OUT: o->out = value; break;
  case OPTION_ROOT: o->root = value; break;
  case OPTION_JOB: o->job = value; break;
  case OPTION_AREA: o->area = value; break;
  case OPTION_STDLIB: o->stdlib = value; break;
  case OPTION_COLOUR:
    if (strcmp(value, "always") == 0) o->colour = true;
    else if (strcmp(value, "never") == 0) o->colour = false;
    else if (strcmp(value, "auto") != 0) return wrong(text, "--colour is auto, always or never, not `%s`", value);
    break;
  case OPTION_WIDTH:
    o->width = number(value, 40, 400);
    if (o->width < 0) return wrong(text, "--width is a whole number from 40 to 400, not `%s`", value);
    break;
  case OPTION_EFFORT:
    o->effort = number(value, 1, 1000000);
    if (o->effort < 0) return wrong(text, "--effort is a whole number from 1 to 1000000, not `%s`", value);
    break;
  case OPTION_TRIALS:
    o->trials = number(value, 100, 1000000);
    if (o->trials < 0) return wrong(text, "--trials is a whole number from 100 to 1000000, not `%s`", value);
    break;
  case OPTION_THREADS:
    o->threads = number(value, 1, MOST_THREADS);
    if (o->threads < 0) return wrong(text, "--threads is a whole number from 1 to 64, not `%s`", value);
    break;
  case OPTION_WITH:
    if (!strchr(value, '=') || value[0] == '=') return wrong(text, "--with is NAME=VALUE, not `%s`", value);
    if (o->with_count == WITH_MOST) return wrong(text, "--with may be given %d times", WITH_MOST);
    o->with[o->with_count++] = value;
    break;
  case OPTION_OVER:
    if (o->over_count == OVER_MOST) return wrong(text, "--over may be given %d times", OVER_MOST);
    if (!range_read(value, &o->over[o->over_count++]))
      return wrong(text, "--over is NAME=A..B:STEP with at most %d values, as in \"opening passes=4..12:2\", not `%s`",
                   RANGE_MOST, value);
    break;
  case OPTION_BREAK_EVEN:
    o->break_even = strtod(value, &end);
    if (end == value || *end || !(o->break_even > 0)) return wrong(text, "--break-even is a price, not `%s`", value);
    break;
  case OPTION_LIMIT:
    o->seconds = number(value, 1, 3600);
    if (o->seconds < 0) return wrong(text, "--seconds is a whole number from 1 to 3600, not `%s`", value);
    break;
  default: break;
  }
  return OPTIONS_RUN;
}

static OptionsVerdict unknown_option(const Command *c, const char *given, Buf *text)
{
  const char *names[ROWS], *near[3];
  size_t count = 0;
  for (int i = 0; i < ROWS; i++)
    if (c->options & rows[i].bit) names[count++] = rows[i].name;
  char name[64] = "";
  while (*given == '-') given++;
  strncat(name, given, sizeof name - 1);
  name[strcspn(name, "=")] = '\0';
  if (text_near(name, names, count, near, 1))
    return wrong(text, "%s has no option `--%s`; did you mean `--%s`?", c->name, name, near[0]);
  return wrong(text, "%s has no option `--%s`; `gritwork help %s` lists them", c->name, name, c->name);
}

static OptionsVerdict read_options(int argc, char **argv, Options *o, Buf *text)
{
  struct option longs[ROWS + 2] = { 0 };
  int n = 0;
  for (int i = 0; i < ROWS; i++)
    if (o->command->options & rows[i].bit)
      longs[n++] = (struct option){ rows[i].name, rows[i].value ? required_argument : no_argument, NULL, i + 1 };
  longs[n] = (struct option){ "help", no_argument, NULL, HELP };
  opterr = 0;
  optind = 1;
  for (int got, before = optind; (got = getopt_long(argc, argv, ":h", longs, NULL)) != -1; before = optind) {
    if (got == HELP || got == 'h') return help_on(o->command->name, text);
    if (got == ':') return wrong(text, "%s needs a value", argv[optind - 1]);
    if (got == '?') return unknown_option(o->command, argv[before < argc ? before : argc - 1], text);
    OptionsVerdict verdict = take(o, rows[got - 1].bit, optarg, text);
    if (verdict != OPTIONS_RUN) return verdict;
  }
  o->arguments = (const char *const *)argv + optind;
  o->argument_count = argc - optind;
  return OPTIONS_RUN;
}

static OptionsVerdict count_arguments(const Options *o, Buf *text)
{
  const Command *c = o->command;
  for (int i = 0; i < ROWS; i++)
    if (c->needed & ~o->given & rows[i].bit) return wrong(text, "%s needs --%s: gritwork %s %s", c->name, rows[i].name, c->name, c->usage);
  if (o->argument_count < c->least_files)
    return wrong(text, "%s needs more: gritwork %s %s", c->name, c->name, c->usage);
  if (c->most_files >= 0 && o->argument_count > c->most_files)
    return wrong(text, "%s takes no `%s`: gritwork %s %s", c->name, o->arguments[c->most_files], c->name, c->usage);
  if (o->given & OPTION_BREAK_EVEN && o->over_count != 1) return wrong(text, "--break-even needs one --over");
  if (o->given & OPTION_OVER && o->given & OPTION_JSON) return wrong(text, "--over prints a table, not JSON");
  return OPTIONS_RUN;
}

OptionsVerdict options_read(int argc, char **argv, Options *options, Buf *text)
{
  *options = (Options){ .colour = colour_by_default(), .width = width_by_default(),
                        .threads = threads_by_default() };
  options->has_epoch = read_epoch(&options->epoch_s);
  const char *verb = argc > 1 ? argv[1] : NULL;
  if (!verb) {
    list_commands(text);
    return OPTIONS_WRONG;
  }
  if (strcmp(verb, "help") == 0 && argc > 2) return help_on(argv[2], text);
  if (strcmp(verb, "help") == 0 || strcmp(verb, "--help") == 0 || strcmp(verb, "-h") == 0) {
    list_commands(text);
    return OPTIONS_HELP;
  }
  if (strcmp(verb, "--version") == 0) {
    version_print(text);
    return OPTIONS_HELP;
  }
  options->command = command_find(verb);
  if (!options->command) return unknown_command(verb, text);
  OptionsVerdict verdict = read_options(argc - 1, argv + 1, options, text);
  return verdict == OPTIONS_RUN ? count_arguments(options, text) : verdict;
}
