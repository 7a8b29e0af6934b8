/* command_sheet.c - the crew's process sheet. */
#include "cli/command.h"
#include "cli/supervisor.h"
#include "report/report.h"

static void print(Session *session)
{
  const Options *o = session->options;
  Buf out = { 0 };
  if (o->json) report_sheet_json(session->plan, &out);
  else report_sheet_text(session->plan, o->width, &out);
  session_print(session, &out);
}

static int run(Session *session) { return session_report(session, session_schedule, print); }

const Command command_sheet = {
  .name = "sheet",
  .says = "print the crew's process sheet of a job",
  .usage = "JOB",
  .help = "  gritwork sheet recipes/jobs/north_hall.lua\n\n"
          "One sheet for each area: the steps in order, tools, passes, clock windows, hold points, readings to\n"
          "write in, care of the tools, cautions.",
  .options = OPTIONS_READING "with effort threads json",
  .least_files = 1,
  .most_files = 1,
  .arguments_are_files = true,
  .run = run,
};
