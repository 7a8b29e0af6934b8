/* command_schedule.c - a job spread over shifts. */
#include "cli/command.h"
#include "cli/supervisor.h"
#include "report/report.h"

static void print(Session *session)
{
  const Options *o = session->options;
  Buf out = { 0 };
  if (o->given & OPTION_JSON) report_schedule_json(session->plan, &out);
  else if (o->given & OPTION_BARS) report_bars_text(session->plan, o->width, false, &out);
  else report_schedule_text(session->plan, o->width, &out);
  session_print(session, &out);
}

static int run(Session *session)
{
  bool fine = session_read(session, session->options->arguments[0]) && session_schedule(session);
  if (fine) print(session);
  session_complain(session);
  int status = session_status(session);
  session_end(session);
  return status;
}

const Command command_schedule = {
  .name = "schedule",
  .says = "spread a job over shifts, people and machines",
  .usage = "JOB",
  .help = "  gritwork schedule recipes/jobs/north_hall.lua\n"
          "  gritwork schedule --bars recipes/jobs/north_hall.lua\n\n"
          "Shift by shift who does what where, the finish, and how far it can be from the best one.",
  .options = OPTIONS_READING | OPTION_EFFORT | OPTION_JSON | OPTION_BARS,
  .least_files = 1,
  .most_files = 1,
  .arguments_are_files = true,
  .run = run,
};
