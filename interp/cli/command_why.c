/* command_why.c - how one figure of a job came about. */
#include <string.h>

#include "base/text.h"
#include "cli/command.h"
#include "cli/supervisor.h"
#include "report/report.h"

enum { NAMES = 4096 };

typedef struct {
  const char *name[NAMES];
  Why why[NAMES];
  size_t count;
} Figures;

static void add(Figures *f, const char *name, Why why)
{
  if (f->count < NAMES && why) {
    f->name[f->count] = name;
    f->why[f->count++] = why;
  }
}

static void collect(const Session *session, Figures *f)
{
  const Cost *cost = session->cost;
  add(f, "price", cost->why);
  for (int i = 0; i < cost->line_count; i++) add(f, cost->lines[i].code, cost->lines[i].why);
  for (int i = 0; i < cost->build_count; i++) add(f, cost->build[i].code, cost->build[i].why);
  for (int i = 0; i < session->plan->activity_count; i++)
    add(f, session->plan->activities[i].id, session->plan->activities[i].minutes.why);
}

/* By its whole name, or by the beginning of just one. */
static Why find(const Figures *f, const char *name)
{
  Why begins = 0;
  int count = 0;
  for (size_t i = 0; i < f->count; i++) {
    if (strcmp(f->name[i], name) == 0) return f->why[i];
    if (strncmp(f->name[i], name, strlen(name)) != 0) continue;
    begins = f->why[i];
    count++;
  }
  return count == 1 ? begins : 0;
}

static void unknown(Session *session, const Figures *f, const char *name)
{
  const char *near[3];
  Buf help = { 0 }, shown = { 0 };
  int found = text_near(name, f->name, f->count, near, 3);
  for (int i = 0; i < found; i++) buf_printf(&help, "%s`%s`", i ? " or " : "did you mean ", near[i]);
  if (!found) buf_puts(&help, "`gritwork why JOB` lists the figures");
  text_escape(&shown, name, strlen(name));
  Buf message = { 0 };
  buf_printf(&message, "no figure of this job is called `%s`", buf_text(&shown));
  diags_add(session->diags, &(Diag){ .level = DIAG_ERROR, .code = "figure", .message = buf_text(&message), .help = buf_text(&help) });
  buf_free(&help);
  buf_free(&shown);
  buf_free(&message);
}

static void list(Session *session, const Figures *f)
{
  Buf out = { 0 };
  for (size_t i = 0; i < f->count; i++) {
    text_escape(&out, f->name[i], strlen(f->name[i]));
    buf_putc(&out, '\n');
  }
  session_print(session, &out);
}

static void explain(Session *session)
{
  static Figures figures;
  figures.count = 0;
  collect(session, &figures);
  if (session->options->argument_count == 1) {
    list(session, &figures);
    return;
  }
  const char *name = session->options->arguments[1];
  Why why = find(&figures, name);
  if (!why) {
    unknown(session, &figures, name);
    return;
  }
  Buf out = { 0 };
  report_why_text(session->document.why, session->sources, why, session->options->width, &out);
  session_print(session, &out);
}

static int run(Session *session)
{
  if (session_read(session, session->options->arguments[0]) && session_cost(session)) explain(session);
  session_complain(session);
  int status = session_status(session);
  session_end(session);
  return status;
}

const Command command_why = {
  .name = "why",
  .says = "show how a figure of a job came about, down to what was written",
  .usage = "JOB [FIGURE]",
  .help = "  gritwork why recipes/jobs/north_hall.lua\n"
          "  gritwork why recipes/jobs/north_hall.lua price\n"
          "  gritwork why recipes/jobs/north_hall.lua \"entrance/densify/coat\"\n\n"
          "Without a figure, lists the figures: the price, the cost lines by code, the minutes of each activity.\n"
          "With one, prints its formula and inputs, each with file, line and column, or the assumption it is.",
  .options = OPTIONS_READING | OPTION_EFFORT,
  .least_files = 1,
  .most_files = 2,
  .arguments_are_files = true,
  .run = run,
};
