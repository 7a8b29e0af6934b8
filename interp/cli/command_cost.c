/* command_cost.c - what a job takes and what it costs. */
#include "cli/command.h"
#include "cli/cost_over.h"
#include "cli/supervisor.h"
#include "report/report.h"

static void print(Session *session)
{
  const Options *o = session->options;
  Buf out = { 0 };
  const WhyBook *why = session->document.why;
  if (o->json) report_cost_json(session->plan, session->cost, why, session->sources, &out);
  else report_cost_text(session->plan, session->cost, o->width, &out);
  if (!o->json && o->assumptions)
    report_assumptions_text(session->plan, session->cost, why, session->sources, o->width, &out);
  session_print(session, &out);
}

static int run(Session *session)
{
  if (session->options->over_count > 0) return cost_over(session);
  return session_report(session, session_cost, print);
}

const Command command_cost = {
  .name = "cost",
  .says = "take off and price a job",
  .usage = "JOB",
  .help = "  gritwork cost recipes/jobs/north_hall.lua\n"
          "  gritwork cost --assumptions recipes/jobs/north_hall.lua\n\n"
          "Hours, tools, materials, machines and the rest, each line with its quantity, rate and basis, and how\n"
          "the price is made of them. Lines add up to the totals to the cent.\n\n"
          "What if:\n"
          "  gritwork cost --with \"opening passes=8\" recipes/jobs/north_hall.lua\n"
          "  gritwork cost --over \"machine.planetary 32 in.count=1..3\" recipes/jobs/north_hall.lua\n"
          "  gritwork cost --over \"opening passes=4..12\" --break-even 40000 recipes/jobs/north_hall.lua\n\n"
          "A name is a parameter of a recipe, a field of one thing (machine.NAME.count, densify.NAME.coats,\n"
          "area.NAME.joints), of the job (site.hours) or of the price book (prices.night); docs/what_if.md has\n"
          "more. In a table every schedule gets a tenth of the usual effort unless --effort says otherwise.",
  .options = OPTIONS_READING "effort threads json assumptions with alternate over break-even",
  .least_files = 1,
  .most_files = 1,
  .arguments_are_files = true,
  .run = run,
};
