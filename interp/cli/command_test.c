/* command_test.c - runs the tests that a shop wrote for its own recipes and rules. */
#include "cli/command.h"
#include "cli/supervisor.h"

typedef struct {
  int passed, failed;
} Tally;

static void one_file(Session *session, const char *file, Tally *tally, Buf *out)
{
  Buf text = { 0 }, shown = { 0 };
  session_start(session);
  if (session_text(session, file, &text, &shown))
    script_test(session->script, buf_text(&shown), &text, out, &tally->passed, &tally->failed);
  buf_free(&text);
  buf_free(&shown);
}

static int run(Session *session)
{
  const Options *o = session->options;
  Tally tally = { 0, 0 };
  Buf out = { 0 };
  int worst = STATUS_FINE;
  for (int i = 0; i < o->argument_count; i++) {
    one_file(session, o->arguments[i], &tally, &out);
    int status = session_finish(session);
    if (status > worst) worst = status;
  }
  buf_printf(&out, "%d passed, %d failed\n", tally.passed, tally.failed);
  session_print(session, &out);
  return worst == STATUS_FINE && tally.failed ? STATUS_FINDINGS : worst;
}

const Command command_test = {
  .name = "test",
  .says = "run a shop's own tests of its recipes and rules",
  .usage = "FILE...",
  .help = "  gritwork test tests/house.lua\n\n"
          "A test file returns test \"name\" { of = ..., finds = { ... } }, or a list of them. Each is passed if\n"
          "validation of the document finds exactly those codes.",
  .options = OPTIONS_READING "short",
  .least_files = 1,
  .most_files = -1,
  .arguments_are_files = true,
  .run = run,
};
