/* command_schedule.c - a job spread over shifts. */
#include "cli/command.h"
#include "cli/supervisor.h"
#include "report/report.h"

static void bars(const Plan *plan, int width, Buf *out) { report_bars_text(plan, width, false, out); }

/* The first of these that was asked for; else the schedule as text. */
static const struct {
  size_t asked; /* offset in Options */
  void (*for_people)(const Plan *plan, int width, Buf *out);
  void (*for_programs)(const Plan *plan, Buf *out);
} outputs[] = {
  { offsetof(Options, json), NULL, report_schedule_json },
  { offsetof(Options, csv), NULL, report_csv },
  { offsetof(Options, ics), NULL, report_ics },
  { offsetof(Options, svg), NULL, report_svg },
  { offsetof(Options, slack), report_slack_text, NULL },
  { offsetof(Options, load), report_load_text, NULL },
  { offsetof(Options, bars), bars, NULL },
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
  if (session->options->json) report_trade_off_json(session->plan, &found, &out);
  else report_trade_off_text(session->plan, &found, session->options->width, &out);
  session_print(session, &out);
}

static void print(Session *session)
{
  const Options *o = session->options;
  Buf out = { 0 };
  size_t i = 0;
  while (outputs[i].asked && !options_flag(o, outputs[i].asked)) i++;
  if (outputs[i].for_people) outputs[i].for_people(session->plan, o->width, &out);
  else outputs[i].for_programs(session->plan, &out);
  session_print(session, &out);
}

static int run(Session *session)
{
  return session_report(session, session_schedule, session->options->trade_off ? print_trade_off : print);
}

const Command command_schedule = {
  .name = "schedule",
  .says = "spread a job over shifts, people and machines",
  .usage = "JOB",
  .help = "  gritwork schedule recipes/jobs/north_hall.lua\n"
          "  gritwork schedule --bars recipes/jobs/north_hall.lua\n"
          "  gritwork schedule --svg recipes/jobs/north_hall.lua > north_hall.svg\n\n"
          "Shift by shift who does what where, the finish, and how far it can be from the best one.",
  .options = OPTIONS_READING "effort threads json bars slack load svg ics csv trade-off with alternate",
  .least_files = 1,
  .most_files = 1,
  .arguments_are_files = true,
  .run = run,
};
