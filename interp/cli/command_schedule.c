/* command_schedule.c - a job spread over shifts. */
#include "cli/command.h"
#include "cli/supervisor.h"
#include "report/report.h"

static void bars(const Plan *plan, int width, Buf *out) { report_bars_text(plan, width, false, out); }

/* The first of these that was asked for; else the schedule as text. */
static const struct {
  OptionBit bit;
  void (*for_people)(const Plan *plan, int width, Buf *out);
  void (*for_programs)(const Plan *plan, Buf *out);
} outputs[] = {
  { OPTION_JSON, NULL, report_schedule_json }, { OPTION_CSV, NULL, report_csv }, { OPTION_ICS, NULL, report_ics },
  { OPTION_SVG, NULL, report_svg },            { OPTION_SLACK, report_slack_text, NULL },
  { OPTION_LOAD, report_load_text, NULL },     { OPTION_BARS, bars, NULL },
  { 0, report_schedule_text, NULL },
};

static bool go_on(void *context)
{
  Session *session = context;
  return port_progress(session->port, "trying the job with fewer people and machines; Ctrl-C takes what was found");
}

static void print_trade_off(Session *session)
{
  Document *d = &session->document;
  Buf out = { 0 };
  TradeOff found = trade_off(session->plan, d->arena, d->why, go_on, session);
  report_trade_off_text(session->plan, &found, session->options->width, &out);
  session_print(session, &out);
}

static void print(Session *session)
{
  const Options *o = session->options;
  Buf out = { 0 };
  size_t i = 0;
  while (outputs[i].bit && !(o->given & outputs[i].bit)) i++;
  if (outputs[i].for_people) outputs[i].for_people(session->plan, o->width, &out);
  else outputs[i].for_programs(session->plan, &out);
  session_print(session, &out);
}

static int run(Session *session)
{
  bool fine = session_read(session, session->options->arguments[0]) && session_schedule(session);
  bool trades = session->options->given & OPTION_TRADE_OFF;
  if (fine) (trades ? print_trade_off : print)(session);
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
          "  gritwork schedule --bars recipes/jobs/north_hall.lua\n"
          "  gritwork schedule --svg recipes/jobs/north_hall.lua > north_hall.svg\n\n"
          "Shift by shift who does what where, the finish, and how far it can be from the best one.",
  .options = OPTIONS_READING | OPTION_EFFORT | OPTION_JSON | OPTION_BARS | OPTION_SLACK | OPTION_LOAD | OPTION_SVG |
             OPTION_ICS | OPTION_CSV | OPTION_TRADE_OFF | OPTION_WITH,
  .least_files = 1,
  .most_files = 1,
  .arguments_are_files = true,
  .run = run,
};
