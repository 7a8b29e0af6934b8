#include "cli/options.h"

#include <getopt.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include "base/text.h"
#include "cli/command.h"
#include "cli/option_rows.h"
#include "cli/version.h"

enum { HELP = 1000 };

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

bool options_flag(const Options *options, size_t member) { return *(const bool *)((const char *)options + member); }

bool options_among(const char *names, const char *name)
{
  size_t length = strlen(name);
  for (const char *at = names ? names : ""; *at; at += strspn(at, " ")) {
    size_t word = strcspn(at, " ");
    if (word == length && strncmp(at, name, length) == 0) return true;
    at += word;
  }
  return false;
}

/* What leaves no blank before the text has a line of its own. */
static void help_option(const OptionRow *row, Buf *out)
{
  enum { TEXT_AT = 18 };
  Buf left = { 0 };
  buf_printf(&left, "  --%s%s%s", row->name, row->value ? "=" : "", row->value ? row->value : "");
  bool is_long = left.length >= TEXT_AT;
  if (is_long) buf_printf(out, "%s\n", buf_text(&left));
  text_left(out, is_long ? "" : buf_text(&left), TEXT_AT);
  text_fold(out, row->says, 80, TEXT_AT);
  buf_putc(out, '\n');
  buf_free(&left);
}

static void help_command(const Command *c, Buf *out)
{
  buf_printf(out, "gritwork %s %s\n\n%s\n", c->name, c->usage, c->help);
  bool head = false;
  for (const OptionRow *row = option_rows; row->name; row++) {
    if (!options_among(c->options, row->name)) continue;
    if (!head) buf_puts(out, "\nOptions:\n");
    head = true;
    help_option(row, out);
  }
}

OptionsVerdict options_wrong(Buf *text, const char *format, ...)
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
  enum { COMMANDS_MOST = 64 };
  const char *names[COMMANDS_MOST], *near[3];
  size_t count = 0;
  for (; count < COMMANDS_MOST && commands[count]; count++) names[count] = commands[count]->name;
  int found = text_near(name, names, count, near, 1);
  if (found) return options_wrong(text, "there is no command `%s`; did you mean `%s`?", name, near[0]);
  return options_wrong(text, "there is no command `%s`; `gritwork help` lists them", name);
}

static OptionsVerdict help_on(const char *name, Buf *text)
{
  const Command *command = command_find(name);
  if (!command) return unknown_command(name, text);
  help_command(command, text);
  return OPTIONS_HELP;
}

static bool is_set(const char *name, const char *off)
{
  const char *value = getenv(name);
  return value && *value && strcmp(value, off) != 0;
}

/* NO_COLOR wins over all but an explicit `always`; see no-color.org. CLICOLOR_FORCE is for what reads our output
 * and shows colours, though it is no terminal; see bixense.com/clicolors. */
static bool colour_by_default(void)
{
  if (is_set("NO_COLOR", "")) return false;
  if (is_set("CLICOLOR_FORCE", "0")) return true;
  return isatty(STDOUT_FILENO) && isatty(STDERR_FILENO) && is_set("TERM", "dumb");
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
  return processors < 1 ? 1 : processors > THREADS_MOST ? THREADS_MOST : (int)processors;
}

static OptionsVerdict unknown_option(const Command *c, const char *given, Buf *text)
{
  const char *names[OPTIONS_MOST], *near[3];
  size_t count = 0;
  for (const OptionRow *row = option_rows; row->name; row++)
    if (options_among(c->options, row->name)) names[count++] = row->name;
  char name[64] = "";
  while (*given == '-') given++;
  strncat(name, given, sizeof name - 1);
  name[strcspn(name, "=")] = '\0';
  if (text_near(name, names, count, near, 1))
    return options_wrong(text, "%s has no option `--%s`; did you mean `--%s`?", c->name, name, near[0]);
  return options_wrong(text, "%s has no option `--%s`; `gritwork help %s` lists them", c->name, name, c->name);
}

static OptionsVerdict read_options(int argc, char **argv, Options *o, Buf *text)
{
  struct option longs[OPTIONS_MOST + 2] = { 0 };
  int n = 0;
  for (int i = 0; option_rows[i].name; i++) {
    const OptionRow *row = &option_rows[i];
    if (options_among(o->command->options, row->name))
      longs[n++] = (struct option){ row->name, row->value ? required_argument : no_argument, NULL, i + 1 };
  }
  longs[n] = (struct option){ "help", no_argument, NULL, HELP };
  opterr = 0;
  optind = 1;
  for (int got, before = optind; (got = getopt_long(argc, argv, ":h", longs, NULL)) != -1; before = optind) {
    if (got == HELP || got == 'h') return help_on(o->command->name, text);
    if (got == ':') return options_wrong(text, "%s needs a value", argv[optind - 1]);
    if (got == '?') return unknown_option(o->command, argv[before < argc ? before : argc - 1], text);
    OptionsVerdict verdict = option_rows[got - 1].read(&option_rows[got - 1], optarg, o, text);
    if (verdict != OPTIONS_RUN) return verdict;
  }
  o->arguments = (const char *const *)argv + optind;
  o->argument_count = argc - optind;
  return OPTIONS_RUN;
}

static OptionsVerdict count_arguments(const Options *o, Buf *text)
{
  const Command *c = o->command;
  if (c->needs_out && !o->out)
    return options_wrong(text, "%s needs --out: gritwork %s %s", c->name, c->name, c->usage);
  if (o->argument_count < c->least_files)
    return options_wrong(text, "%s needs more: gritwork %s %s", c->name, c->name, c->usage);
  if (c->most_files >= 0 && o->argument_count > c->most_files)
    return options_wrong(text, "%s takes no `%s`: gritwork %s %s", c->name, o->arguments[c->most_files], c->name,
                         c->usage);
  if (o->break_even > 0 && o->over_count != 1) return options_wrong(text, "--break-even needs one --over");
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
