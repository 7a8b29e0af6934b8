/* command_risk.c - how sure the finish and the cost of a job are, and what drives them. */
#include "cli/command.h"
#include "cli/supervisor.h"
#include "cost/risk.h"
#include "report/report.h"

static void show_progress(void *context, int done, int of)
{
  Session *session = context;
  Buf text = { 0 };
  buf_printf(&text, "%d of %d trials", done, of);
  port_progress(session->port, buf_text(&text));
  buf_free(&text);
}

/* A job without prices still has a finish. */
static bool reckon(Session *session)
{
  Document *d = &session->document;
  if (d->kind == DOCUMENT_JOB && d->job->prices) return session_cost(session);
  if (!session_schedule(session)) return false;
  session->takeoff = takeoff_count(session->plan, d->arena, d->why);
  return true;
}

static void simulate(Session *session)
{
  const Options *o = session->options;
  Document *d = &session->document;
  RiskOptions options = { .trials = o->trials, .threads = o->threads, .progress = show_progress,
                          .context = session };
  const Risk *risk = risk_run(session->plan, session->takeoff, session->cost, d->why, &options, d->arena,
                              session->diags);
  if (risk == NULL) return;
  Buf out = { 0 };
  if (o->json) report_risk_json(session->plan, risk, session->sources, &out);
  else report_risk_text(session->plan, risk, o->width, &out);
  session_print(session, &out);
}

static int run(Session *session) { return session_report(session, reckon, simulate); }

const Command command_risk = {
  .name = "risk",
  .says = "simulate a job: how sure are finish and cost, and what drives them",
  .usage = "JOB",
  .help = "  gritwork risk recipes/jobs/north_hall.lua\n"
          "  gritwork risk --trials=100000 recipes/jobs/north_hall.lua\n\n"
          "Draws every about(...) and what the job's `risk` says, times and costs the schedule again in each\n"
          "trial: quantiles of finish and cost, the chance of missing a time that was set, the contingency for\n"
          "a certainty, and what drives the spread. The same job and seed give the same figures on any number of threads.\n"
          "docs/risk.md tells what is drawn and what is held.",
  .options = OPTIONS_READING "with alternate effort json trials threads",
  .least_files = 1,
  .most_files = 1,
  .arguments_are_files = true,
  .run = run,
};
