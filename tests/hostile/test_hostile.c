/* test_hostile.c - every script of tests/hostile ends as its first line expects, soon, in bounded memory.
 *
 * The first line is `-- expect: CODE STATUS [TEXT]`: the code of a finding there must be, the exit status, and a
 * part of what is printed. The code `clock` stands for a script that only the wall clock can end. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <glob.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#include "base/files.h"
#include "cli/supervisor.h"
#include "lang/host.h"
#include "lang/native.h"

enum { STEPS = 5000000, MEMORY = 64 << 20, ADDRESS_SPACE = 256 << 20, WALL_MS = 20000, CLOCK_MS = 300 };

/* ---- one script, as the program runs it but with small budgets */

static bool read_module(void *context, const char *module, Buf *text, Buf *shown, Buf *why)
{
  return port_read(context, PORT_MODULE, module, text, shown, why);
}

static int evaluate(Port *port, void *context)
{
  Buf text = { 0 }, shown = { 0 }, why = { 0 }, out = { 0 };
  if (!port_read(port, PORT_FILE, context, &text, &shown, &why)) return STATUS_FILES;
  Sources *sources = sources_new();
  Diags *diags = diags_new();
  HostBudget budget = { .instructions = STEPS, .memory_bytes = MEMORY };
  Host *host = host_new(budget, sources, diags, read_module, port);
  native_register(host);
  if (host_run(host, "hostile.lua", buf_text(&text), text.length) == HOST_FINE) {
    lua_pushinteger(host_lua(host), 0);
    host_call(host, "core.main", "finish", 2, 1);
  }
  diags_print_short(diags, sources, &out);
  port_print(port, buf_text(&out), out.length);
  if (host_status(host) != HOST_FINE) return STATUS_BUDGET;
  return diags_errors(diags) ? STATUS_FINDINGS : STATUS_FINE;
}

typedef struct {
  int status;
  Buf printed;
} Outcome;

static Outcome run(const char *file, int wall_ms)
{
  const char *files[] = { file };
  int fd = memfd_create("printed", 0);
  SuperviseOptions options = { .root = "tests/hostile/modules", .files = files, .file_count = 1, .wall_ms = wall_ms,
                               .memory_bytes = ADDRESS_SPACE, .out_fd = fd, .err_fd = fd };
  Outcome outcome = { .status = supervise(&options, evaluate, (void *)(uintptr_t)file) };
  char chunk[4096];
  ssize_t got;
  lseek(fd, 0, SEEK_SET);
  while ((got = read(fd, chunk, sizeof chunk)) > 0) buf_add(&outcome.printed, chunk, (size_t)got);
  close(fd);
  return outcome;
}

/* ---- what it should come to */

typedef struct {
  char code[32], text[128];
  int status;
} Expected;

static Expected expectation(const char *file)
{
  Expected expected = { .status = -1 };
  char line[256];
  FILE *stream = fopen(file, "r");
  if (!fgets(line, sizeof line, stream)) line[0] = '\0';
  fclose(stream);
  sscanf(line, "-- expect: %31s %d %127[^\n]", expected.code, &expected.status, expected.text);
  if (expected.status < 0) fail_msg("%s: its first line expects nothing", file);
  return expected;
}

/* Printed findings are lines of visible characters, none longer than an error's text may be. */
static void check_printed(const char *file, const Buf *printed)
{
  size_t line = 0;
  for (size_t i = 0; i < printed->length; i++) {
    unsigned char c = (unsigned char)printed->text[i];
    line = c == '\n' ? 0 : line + 1;
    if ((c < ' ' && c != '\n') || c == 127) fail_msg("%s: byte %d is printed", file, c);
    if (line > 4096 + 256) fail_msg("%s: a line of more than 4 KiB", file);
  }
}

static void check_outcome(const char *file, const Expected *expected, const Outcome *outcome)
{
  const char *printed = buf_text(&outcome->printed);
  char code[40];
  snprintf(code, sizeof code, "error[%s]", expected->code);
  const char *wanted = strcmp(expected->code, "clock") == 0 ? "only a backstop" : code;
  if (outcome->status != expected->status || !strstr(printed, wanted) || !strstr(printed, expected->text))
    fail_msg("%s: status %d, %.600s", file, outcome->status, printed);
  check_printed(file, &outcome->printed);
}

static void every_script_ends_as_it_should(void **state)
{
  (void)state;
  glob_t found;
  assert_int_equal(glob("tests/hostile/*.lua", 0, NULL, &found), 0);
  assert_true(found.gl_pathc > 80);
  for (size_t i = 0; i < found.gl_pathc; i++) {
    const char *file = found.gl_pathv[i];
    Expected expected = expectation(file);
    Outcome outcome = run(file, strcmp(expected.code, "clock") == 0 ? CLOCK_MS : WALL_MS);
    check_outcome(file, &expected, &outcome);
    buf_free(&outcome.printed);
  }
  globfree(&found);
}

/* ---- texts that cannot be files of this folder */

static void repeat(Buf *out, const char *text, int times)
{
  for (int i = 0; i < times; i++) buf_puts(out, text);
}

static void check_bytes(const Buf *script, const Expected *expected)
{
  char path[64];
  snprintf(path, sizeof path, "%s/gritwork-hostile-%ld.lua", P_tmpdir, (long)getpid());
  assert_int_equal(files_write(path, script->text, script->length), FILES_OK);
  Outcome outcome = run(path, WALL_MS);
  unlink(path);
  check_outcome(expected->text, &(Expected){ .status = expected->status, .code = "syntax" }, &outcome);
  buf_free(&outcome.printed);
}

static void texts_that_no_editor_writes_are_refused(void **state)
{
  (void)state;
  static const struct {
    const char *what, *begin, *part;
    int times;
    const char *end;
  } cases[] = {
    { "bytecode", "\x1bLua", "T", 100, "" },
    { "deep brackets", "return ", "(", 100000, "" },
    { "deep tables", "return ", "{", 100000, "" },
    { "deep functions", "", "return function() ", 5000, "" },
    { "a long chain of operators", "return 1", " .. 1", 300000, "" },
    { "many locals", "", "local a ", 300, "return b c" },
    { "more than a megabyte", "--", "x", 1 << 21, "" },
    { "not UTF-8", "return '", "\xff\xfe", 10, "' x" },
    { "an endless text", "return [[", "x", 1000, "" },
    { "an endless comment", "--[==[", "]]", 1000, "" },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    Buf script = { 0 };
    Expected expected = { .status = 1 };
    snprintf(expected.text, sizeof expected.text, "%s", cases[i].what);
    buf_puts(&script, cases[i].begin);
    repeat(&script, cases[i].part, cases[i].times);
    buf_puts(&script, cases[i].end);
    check_bytes(&script, &expected);
    buf_free(&script);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(every_script_ends_as_it_should),
    cmocka_unit_test(texts_that_no_editor_writes_are_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
