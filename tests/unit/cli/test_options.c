/* test_options.c - the command line: what is taken, what is refused and in which words. */
#include "support.h"

#include <string.h>

#include "cli/command.h"
#include "cli/option_rows.h"

enum { WORDS_MOST = 24 };

/* Reads a line of words parted by blanks, which are kept until the next line. */
static OptionsVerdict read_line(const char *line, Options *options, Buf *text)
{
  static char copy[400], *argv[WORDS_MOST + 1];
  int argc = 0;
  assert_true(strlen(line) < sizeof copy);
  strcpy(copy, line);
  for (char *word = strtok(copy, " "); word; word = strtok(NULL, " ")) {
    assert_true(argc < WORDS_MOST);
    argv[argc++] = word;
  }
  argv[argc] = NULL;
  return options_read(argc, argv, options, text);
}

static void every_name_that_a_command_lists_is_an_option(void **state)
{
  (void)state;
  for (const Command *const *c = commands; *c; c++) {
    Buf names = { 0 };
    buf_puts(&names, (*c)->options);
    for (char *name = strtok(names.text, " "); name; name = strtok(NULL, " ")) {
      const OptionRow *row = option_rows;
      while (row->name && strcmp(row->name, name) != 0) row++;
      if (!row->name) fail_msg("%s lists `%s`", (*c)->name, name);
    }
    buf_free(&names);
  }
}

static void every_option_is_taken_by_a_command(void **state)
{
  (void)state;
  for (const OptionRow *row = option_rows; row->name; row++) {
    bool taken = false;
    for (const Command *const *c = commands; *c; c++) taken = taken || options_among((*c)->options, row->name);
    if (!taken) fail_msg("no command takes --%s", row->name);
  }
}

static void a_name_is_found_among_others_only_whole(void **state)
{
  (void)state;
  static const struct {
    const char *names, *name;
    bool wanted;
  } cases[] = {
    { "json", "json", true },    { "csv json", "json", true },     { "json csv", "json", true },
    { "json ", "json", true },   { "jsons", "json", false },       { "js on", "json", false },
    { "a-json", "json", false }, { "trade-off", "trade", false },  { "", "json", false },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_int_equal(options_among(cases[i].names, cases[i].name), cases[i].wanted);
}

static void values_come_to_their_members(void **state)
{
  (void)state;
  Options o;
  Buf text = { 0 };
  assert_int_equal(read_line("gritwork cost --effort=3 --with=a=1 --with b=2 --over x=1..3 --break-even=2.5 --root=r "
                             "--width=50 --colour=always --seconds=7 --strict job.lua", &o, &text), OPTIONS_RUN);
  assert_string_equal(o.command->name, "cost");
  assert_int_equal(o.effort, 3);
  assert_int_equal(o.with_count, 2);
  assert_string_equal(o.with[1], "b=2");
  assert_int_equal(o.over_count, 1);
  assert_near(o.break_even, 2.5, 0);
  assert_string_equal(o.root, "r");
  assert_int_equal(o.width, 50);
  assert_int_equal(o.seconds, 7);
  assert_true(o.colour && o.strict && !o.json);
  assert_int_equal(o.argument_count, 1);
  assert_string_equal(o.arguments[0], "job.lua");
  assert_int_equal(text.length, 0);
}

static void what_is_wrong_is_said(void **state)
{
  (void)state;
  static const struct { const char *line, *said; } cases[] = {
    { "gritwork costs j", "there is no command `costs`; did you mean `cost`?" },
    { "gritwork xyzzy j", "there is no command `xyzzy`; `gritwork help` lists them" },
    { "gritwork cost", "cost needs more: gritwork cost JOB" },
    { "gritwork cost a b", "cost takes no `b`: gritwork cost JOB" },
    { "gritwork bid j", "bid needs --out: gritwork bid --out=DIR JOB" },
    { "gritwork bid --out= j", "the name of a folder is empty; `.` is the current one" },
    { "gritwork sheet --jsno j", "sheet has no option `--jsno`; did you mean `--json`?" },
    { "gritwork sheet --bars j", "sheet has no option `--bars`" },
    { "gritwork sheet --width", "--width needs a value" },
    { "gritwork sheet --width=39 j", "--width is a whole number from 40 to 400, not `39`" },
    { "gritwork sheet --width=401 j", "--width is a whole number from 40 to 400, not `401`" },
    { "gritwork sheet --width=80x j", "--width is a whole number from 40 to 400, not `80x`" },
    { "gritwork sheet --width= j", "--width is a whole number from 40 to 400, not ``" },
    { "gritwork sheet --effort=0 j", "--effort is a whole number from 1 to 1000000, not `0`" },
    { "gritwork risk --trials=99 j", "--trials is a whole number from 100 to 1000000, not `99`" },
    { "gritwork risk --threads=65 j", "--threads is a whole number from 1 to 64, not `65`" },
    { "gritwork cost --seconds=99999999999 j", "--seconds is a whole number from 1 to 3600, not `99999999999`" },
    { "gritwork cost --colour=blue j", "--colour is auto, always or never, not `blue`" },
    { "gritwork cost --with=a j", "--with is NAME=VALUE, not `a`" },
    { "gritwork cost --with==1 j", "--with is NAME=VALUE, not `=1`" },
    { "gritwork cost --over=a=1..2 --over=b=1..2 --over=c=1..2 j", "--over may be given 2 times" },
    { "gritwork cost --over=a=1 j", "--over is NAME=A..B:STEP with at most" },
    { "gritwork cost --break-even=5 j", "--break-even needs one --over" },
    { "gritwork cost --over=a=1..2 --break-even=-5 j", "--break-even is a price, not `-5`" },
    { "gritwork help costs", "there is no command `costs`; did you mean `cost`?" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Options o;
    Buf text = { 0 };
    OptionsVerdict verdict = read_line(cases[i].line, &o, &text);
    bool said = strncmp(buf_text(&text), "gritwork: ", 10) == 0 && strstr(buf_text(&text), cases[i].said);
    if (verdict != OPTIONS_WRONG || !said) fail_msg("%s: %s", cases[i].line, buf_text(&text));
    buf_free(&text);
  }
}

static void help_lists_what_the_command_takes(void **state)
{
  (void)state;
  static const char *const lines[] = { "gritwork sheet --help", "gritwork help sheet", "gritwork sheet -h" };
  for (size_t i = 0; i < COUNT_OF(lines); i++) {
    Options o;
    Buf text = { 0 };
    assert_int_equal(read_line(lines[i], &o, &text), OPTIONS_HELP);
    assert_non_null(strstr(buf_text(&text), "\n  --effort=N "));
    assert_null(strstr(buf_text(&text), "--bars"));
    buf_free(&text);
  }
}

static void a_long_option_stands_on_a_line_of_its_own_in_the_help(void **state)
{
  (void)state;
  static const char *const wanted[] = {
    "\n  --effort=N      millions of steps",
    "\n  --alternate=NAME\n                  the job with this alternate", /* just as wide as the column */
    "\n  --with=NAME=VALUE\n                  a value for this run",
  };
  Options o;
  Buf text = { 0 };
  assert_int_equal(read_line("gritwork help cost", &o, &text), OPTIONS_HELP);
  for (size_t i = 0; i < COUNT_OF(wanted); i++)
    if (!strstr(buf_text(&text), wanted[i])) fail_msg("no%s in%s", wanted[i], buf_text(&text));
  buf_free(&text);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(every_name_that_a_command_lists_is_an_option),
    cmocka_unit_test(every_option_is_taken_by_a_command),
    cmocka_unit_test(a_name_is_found_among_others_only_whole),
    cmocka_unit_test(values_come_to_their_members),
    cmocka_unit_test(what_is_wrong_is_said),
    cmocka_unit_test(help_lists_what_the_command_takes),
    cmocka_unit_test(a_long_option_stands_on_a_line_of_its_own_in_the_help),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
