/* test_terminal.c - the program on a terminal: colours, widths, and Ctrl-C. */
#include "support.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <pty.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/buf.h"

enum { PATIENCE_MS = 60000 };

typedef struct {
  const char *name, *value; /* NULL: unset */
} Setting;

/* How a run is started. */
typedef struct {
  const char *arguments[6]; /* behind the program's name */
  Setting settings[3];
  unsigned short columns; /* 0: 80 */
  bool piped;             /* standard error is no terminal, which shows the other one */
} Call;

typedef struct {
  pid_t child;
  int terminal;
  Buf shown;
  int status;
} Run;

/* build/tests/trust/test_terminal -> build/gritwork */
static const char *program(void)
{
  static char path[512];
  ssize_t length = readlink("/proc/self/exe", path, sizeof path - 32);
  path[length > 0 ? length : 0] = '\0';
  for (int up = 0; up < 3; up++) *strrchr(path, '/') = '\0';
  return strcat(path, "/gritwork");
}

static _Noreturn void become_program(const Call *call)
{
  char *argv[8] = { (char *)"gritwork" };
  for (int i = 0; i < 6; i++) argv[i + 1] = (char *)call->arguments[i];
  signal(SIGINT, SIG_DFL); /* a test run in the background has it ignored */
  setenv("TERM", "xterm", 1);
  unsetenv("NO_COLOR");
  unsetenv("CLICOLOR_FORCE");
  for (size_t i = 0; i < COUNT_OF(call->settings) && call->settings[i].name; i++)
    if (call->settings[i].value) setenv(call->settings[i].name, call->settings[i].value, 1);
    else unsetenv(call->settings[i].name);
  if (call->piped && dup2(open("/dev/null", O_WRONLY), STDERR_FILENO) < 0) _exit(127);
  execv(program(), argv);
  _exit(127);
}

static Run start(const Call *call)
{
  Run run = { 0 };
  struct winsize size = { .ws_row = 24, .ws_col = call->columns ? call->columns : 80 };
  run.child = forkpty(&run.terminal, NULL, NULL, &size);
  if (run.child == 0) become_program(call);
  assert_true(run.child > 0);
  return run;
}

/* Takes what the terminal shows until that text is among it, or the run has ended. */
static bool watch(Run *run, const char *until)
{
  char chunk[4096];
  struct pollfd terminal = { .fd = run->terminal, .events = POLLIN };
  while (!until || !strstr(buf_text(&run->shown), until)) {
    if (poll(&terminal, 1, PATIENCE_MS) <= 0) fail_msg("nothing for a minute after: %s", buf_text(&run->shown));
    ssize_t got = read(run->terminal, chunk, sizeof chunk);
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) return false; /* a terminal whose program is gone answers EIO */
    buf_add(&run->shown, chunk, (size_t)got);
  }
  return true;
}

static void end(Run *run)
{
  int status;
  watch(run, NULL);
  assert_int_equal(waitpid(run->child, &status, 0), run->child);
  run->status = WIFEXITED(status) ? WEXITSTATUS(status) : 256 + WTERMSIG(status);
  close(run->terminal);
}

static Run finished(const Call *call)
{
  Run run = start(call);
  end(&run);
  return run;
}

/* ---- colours */

static void colours_are_for_terminals_that_want_them(void **state)
{
  (void)state;
#define VALIDATE .arguments = { "validate", "recipes/mistakes.lua" }
  static const struct {
    Call call;
    bool coloured;
  } cases[] = {
    { { VALIDATE }, true },
    { { VALIDATE, .settings = { { "NO_COLOR", "1" } } }, false },
    { { VALIDATE, .settings = { { "NO_COLOR", "" } } }, true }, /* empty is as if it were not set */
    { { VALIDATE, .settings = { { "TERM", "dumb" } } }, false },
    { { VALIDATE, .settings = { { "TERM", NULL } } }, false },
    { { VALIDATE, .piped = true }, false },
    { { VALIDATE, .piped = true, .settings = { { "CLICOLOR_FORCE", "1" } } }, true },
    { { VALIDATE, .piped = true, .settings = { { "CLICOLOR_FORCE", "0" } } }, false },
    { { VALIDATE, .settings = { { "CLICOLOR_FORCE", "1" }, { "NO_COLOR", "1" } } }, false },
    { { VALIDATE, .settings = { { "CLICOLOR_FORCE", "1" }, { "TERM", "dumb" } } }, true },
    { { .arguments = { "validate", "--colour=never", "recipes/mistakes.lua" } }, false },
    { { .arguments = { "validate", "--colour=always", "recipes/mistakes.lua" },
        .settings = { { "NO_COLOR", "1" }, { "TERM", "dumb" } } }, true },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Run run = finished(&cases[i].call);
    assert_int_equal(run.status, 1);
    if (!strstr(buf_text(&run.shown), "error")) fail_msg("case %zu: %s", i, buf_text(&run.shown));
    bool coloured = strchr(buf_text(&run.shown), '\033') != NULL;
    if (coloured != cases[i].coloured) fail_msg("case %zu: %s", i, buf_text(&run.shown));
    buf_free(&run.shown);
  }
}

/* ---- width */

/* Columns of the longest line; our texts here are of single bytes, or are counted by the bytes that begin a
 * character. */
static int longest_line(const Buf *shown)
{
  int longest = 0, line = 0;
  for (const char *c = buf_text(shown); *c; c++) {
    if (*c == '\n' || *c == '\r') line = 0;
    else if ((*c & 0xc0) != 0x80) line++;
    if (line > longest) longest = line;
  }
  return longest;
}

static void lines_are_as_wide_as_the_terminal(void **state)
{
  (void)state;
  static const struct {
    unsigned short columns;
    int longest;
  } cases[] = { { 40, 40 }, { 60, 60 }, { 80, 80 }, { 110, 110 }, { 300, 120 }, { 10, 80 } };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Call call = { .arguments = { "cost", "--effort=1", "recipes/jobs/mill_annex.lua" }, .columns = cases[i].columns };
    Run run = finished(&call);
    assert_int_equal(run.status, 0);
    int longest = longest_line(&run.shown);
    if (longest != cases[i].longest) fail_msg("%d columns: %d wide\n%s", cases[i].columns, longest, buf_text(&run.shown));
    buf_free(&run.shown);
  }
}

/* ---- Ctrl-C */

static void type(const Run *run, const char *keys)
{
  assert_int_equal(write(run->terminal, keys, strlen(keys)), (ssize_t)strlen(keys));
}

/* A job whose best schedule is not found in an hour. */
static const Call for_ever = { .arguments = { "schedule", "--effort=1000000", "recipes/jobs/north_hall.lua" } };

static void an_interrupt_takes_the_best_schedule_so_far(void **state)
{
  (void)state;
#if defined(GRITWORK_IN_PROCESS)
  skip(); /* there is no supervisor to be asked */
#endif
  Run run = start(&for_ever);
  assert_true(watch(&run, "Ctrl-C takes it as it is"));
  type(&run, "\003");
  end(&run);
  if (run.status != 0) fail_msg("status %d: %s", run.status, buf_text(&run.shown));
  const char *cleared = strstr(buf_text(&run.shown), "\r\033[K");
  assert_non_null(cleared);
  assert_non_null(strstr(cleared, "finish "));
  buf_free(&run.shown);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(colours_are_for_terminals_that_want_them),
    cmocka_unit_test(lines_are_as_wide_as_the_terminal),
    cmocka_unit_test(an_interrupt_takes_the_best_schedule_so_far),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
