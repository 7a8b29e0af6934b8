/* command_validate.c - checks documents and prints everything that is wrong with them. */
#include "base/json.h"
#include "cli/command.h"
#include "cli/supervisor.h"
#include "report/report.h"

/* A job is also expanded and scheduled, so that what no machine, crew or shift can do is found before the bid. */
static void check(Session *session, const char *file)
{
  session->work = PLAN_LITTLE_WORK;
  if (!session_read(session, file)) return;
  if (session->document.kind == DOCUMENT_JOB) session_cost(session);
}

static void print_file(Session *session, const char *file)
{
  const Options *o = session->options;
  Buf out = { 0 };
  diags_sort(session->diags);
  if (o->given & OPTION_SHORT) diags_print_short(session->diags, session->sources, &out);
  else diags_print(session->diags, session->sources, (DiagStyle){ o->colour, o->width }, &out);
  if (diags_count(session->diags) == 0 && !(o->given & OPTION_SHORT)) buf_printf(&out, "%s: nothing found\n", file);
  if (session->plan && (o->given & OPTION_ASSUMPTIONS))
    report_assumptions_text(session->plan, session->cost, session->document.why, session->sources, o->width, &out);
  session_print(session, &out);
}

static void print_file_json(Session *session, const char *file, JsonWriter *j)
{
  diags_sort(session->diags);
  json_object(j, NULL);
  json_text(j, "file", file);
  diags_print_json(session->diags, session->sources, j);
  json_end(j);
}

static int run(Session *session)
{
  const Options *o = session->options;
  bool json = o->given & OPTION_JSON;
  Buf out = { 0 };
  JsonWriter j = json_begin(&out);
  int worst = STATUS_FINE;
  if (json) {
    json_object(&j, NULL);
    json_text(&j, "format", "gritwork-findings");
    json_integer(&j, "version", 1);
    json_array(&j, "files");
  }
  for (int i = 0; i < o->argument_count; i++) {
    check(session, o->arguments[i]);
    if (json) print_file_json(session, o->arguments[i], &j);
    else print_file(session, o->arguments[i]);
    int status = session_status(session);
    if (status > worst) worst = status;
    session_end(session);
  }
  if (json) {
    json_end(&j);
    json_end(&j);
    json_finish(&j);
    session_print(session, &out);
  }
  return worst;
}

const Command command_validate = {
  .name = "validate",
  .says = "check recipes, jobs and price books, and say what is wrong where",
  .usage = "FILE...",
  .help = "  gritwork validate recipes/methods/cream_wet.lua\n"
          "  gritwork validate --short recipes/methods/*.lua\n"
          "  gritwork validate --assumptions recipes/jobs/north_hall.lua\n\n"
          "Reads each file, checks every word, field, unit and rule in it and in what it requires, and prints\n"
          "all findings of one run. A job is also expanded, scheduled and priced, so that what no machine, crew,\n"
          "shift or price book can do is found here.",
  .options = OPTIONS_READING | OPTION_JSON | OPTION_SHORT | OPTION_ASSUMPTIONS,
  .least_files = 1,
  .most_files = -1,
  .arguments_are_files = true,
  .run = run,
};
