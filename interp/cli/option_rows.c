#include "cli/option_rows.h"

#include <stdlib.h>
#include <string.h>

static void *member_of(Options *options, const OptionRow *row) { return (char *)options + row->member; }

static OptionsVerdict read_flag(const OptionRow *row, const char *value, Options *options, Buf *text)
{
  (void)value;
  (void)text;
  *(bool *)member_of(options, row) = true;
  return OPTIONS_RUN;
}

static OptionsVerdict read_text(const OptionRow *row, const char *value, Options *options, Buf *text)
{
  (void)text;
  *(const char **)member_of(options, row) = value;
  return OPTIONS_RUN;
}

static OptionsVerdict read_folder(const OptionRow *row, const char *value, Options *options, Buf *text)
{
  if (*value == '\0') return options_wrong(text, "the name of a folder is empty; `.` is the current one");
  return read_text(row, value, options, text);
}

static OptionsVerdict read_number(const OptionRow *row, const char *value, Options *options, Buf *text)
{
  char *end;
  long number = strtol(value, &end, 10);
  if (*value == '\0' || *end != '\0' || number < row->low || number > row->high)
    return options_wrong(text, "--%s is a whole number from %d to %d, not `%s`", row->name, row->low, row->high,
                         value);
  *(int *)member_of(options, row) = (int)number;
  return OPTIONS_RUN;
}

static OptionsVerdict read_price(const OptionRow *row, const char *value, Options *options, Buf *text)
{
  char *end;
  double price = strtod(value, &end);
  if (end == value || *end || !(price > 0))
    return options_wrong(text, "--%s is a price, not `%s`", row->name, value);
  *(double *)member_of(options, row) = price;
  return OPTIONS_RUN;
}

static OptionsVerdict read_colour(const OptionRow *row, const char *value, Options *options, Buf *text)
{
  bool always = strcmp(value, "always") == 0, never = strcmp(value, "never") == 0;
  if (always || never) *(bool *)member_of(options, row) = always;
  else if (strcmp(value, "auto") != 0)
    return options_wrong(text, "--%s is auto, always or never, not `%s`", row->name, value);
  return OPTIONS_RUN;
}

static OptionsVerdict read_with(const OptionRow *row, const char *value, Options *options, Buf *text)
{
  if (!strchr(value, '=') || value[0] == '=')
    return options_wrong(text, "--%s is NAME=VALUE, not `%s`", row->name, value);
  if (options->with_count == WITH_MOST)
    return options_wrong(text, "--%s may be given %d times", row->name, WITH_MOST);
  options->with[options->with_count++] = value;
  return OPTIONS_RUN;
}

static OptionsVerdict read_over(const OptionRow *row, const char *value, Options *options, Buf *text)
{
  if (options->over_count == OVER_MOST)
    return options_wrong(text, "--%s may be given %d times", row->name, OVER_MOST);
  if (!range_read(value, &options->over[options->over_count++]))
    return options_wrong(text,
                         "--%s is NAME=A..B:STEP with at most %d values, as in \"opening passes=4..12:2\", not `%s`",
                         row->name, RANGE_MOST, value);
  return OPTIONS_RUN;
}

#define MEMBER(name) offsetof(Options, name)

const OptionRow option_rows[OPTIONS_MOST + 1] = {
  { "json", NULL, read_flag, MEMBER(json), .says = "print JSON for programs (docs/json.md)" },
  { "fix", NULL, read_flag, MEMBER(fix),
    .says = "change the files where the right text is certain; show the other fixes" },
  { "diff", NULL, read_flag, MEMBER(diff), .says = "show every fix as a diff, and change nothing" },
  { "job", "JOB", read_text, MEMBER(job),
    .says = "a job in which both are put in place, to compare hours and price" },
  { "area", "NAME", read_text, MEMBER(area), .says = "the area of that job; else all of them" },
  { "sarif", NULL, read_flag, MEMBER(sarif), .says = "print a SARIF 2.1.0 log, for editors and code hosts" },
  { "short", NULL, read_flag, MEMBER(brief), .says = "one line for each finding" },
  { "strict", NULL, read_flag, MEMBER(strict), .says = "warnings are errors" },
  { "assumptions", NULL, read_flag, MEMBER(assumptions), .says = "list every default that a result rests on" },
  { "bars", NULL, read_flag, MEMBER(bars), .says = "print the schedule as bars over time" },
  { "slack", NULL, read_flag, MEMBER(slack),
    .says = "print the critical steps, and how much later the others can start" },
  { "load", NULL, read_flag, MEMBER(load), .says = "print how busy each person and machine is, day by day" },
  { "trade-off", NULL, read_flag, MEMBER(trade_off),
    .says = "try the job with fewer people and machines: when it ends, and what it costs" },
  { "svg", NULL, read_flag, MEMBER(svg), .says = "print a Gantt chart as SVG" },
  { "ics", NULL, read_flag, MEMBER(ics),
    .says = "print an iCalendar file: an event for each shift and each hold point" },
  { "csv", NULL, read_flag, MEMBER(csv), .says = "print a row for each stretch of work, for spreadsheets" },
  { "effort", "N", read_number, MEMBER(effort), .low = 1, .high = 1000000,
    .says = "millions of steps to look for a better schedule, 1 to 1000000; the default is 200" },
  { "trials", "N", read_number, MEMBER(trials), .low = 100, .high = 1000000,
    .says = "how many trials, 100 to 1000000; the default is what the job says, or 10000" },
  { "threads", "N", read_number, MEMBER(threads), .low = 1, .high = THREADS_MOST,
    .says = "threads to share the work, 1 to 64; the default is one a processor" },
  { "with", "NAME=VALUE", read_with, MEMBER(with),
    .says = "a value for this run instead of the one written; may be given again" },
  { "alternate", "NAME", read_text, MEMBER(alternate),
    .says = "the job with this alternate in the place of its area" },
  { "over", "NAME=A..B:STEP", read_over, MEMBER(over),
    .says = "a table of price and finish over a range; given twice, over two" },
  { "break-even", "PRICE", read_price, MEMBER(break_even),
    .says = "the value of --over from which the price is on the other side" },
  { "meta", NULL, read_flag, MEMBER(meta), .says = "print a definition file for Lua editors" },
  { "examples", NULL, read_flag, MEMBER(examples), .says = "print every rule's examples as whole scripts" },
  { "manual", NULL, read_flag, MEMBER(manual), .says = "print the reference manual of all words" },
  { "out", "DIR", read_folder, MEMBER(out), .says = "folder to write into" },
  { "root", "DIR", read_folder, MEMBER(root),
    .says = "the project's root, where `require` looks; else the nearest folder up with a .gritwork file" },
  { "colour", "WHEN", read_colour, MEMBER(colour), .says = "auto, always or never" },
  { "width", "N", read_number, MEMBER(width), .low = 40, .high = 400, .says = "cells a line may take, 40 to 400" },
  { "seconds", "N", read_number, MEMBER(seconds), .low = 1, .high = 3600,
    .says = "stop after so many seconds of wall time, 1 to 3600" },
  { "stdlib", "DIR", read_folder, MEMBER(stdlib),
    .says = "read the standard library from a folder, while working on it" },
};
