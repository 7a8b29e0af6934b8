/* command_compare.c - two recipes, a tailored recipe and its parent, or two jobs. */
#include <string.h>

#include "cli/command.h"
#include "cli/supervisor.h"
#include "report/report_compare.h"

/* What outlives the sessions that it was found in. */
typedef struct {
  Arena *arena;
  Comparison recipes;
  ToldList told[2];
  JobTotals totals[2];
} Work;

static const char known_pairs[] = "name two recipes, two jobs, or one tailored recipe";

static void refuse(Session *session, const char *message, const char *help)
{
  diags_add(session->diags, &(Diag){ .level = DIAG_ERROR, .code = "document", .message = message, .help = help });
}

/* ---- findings */

/* The first of two recipes, or the parent of the only one, is number 0. */
static void read_one(Session *session, int which)
{
  const Options *o = session->options;
  session_read(session, o->arguments[o->argument_count == 1 ? 0 : which]);
  if (o->argument_count == 2 || which == 1) return;
  script_keep(session->script, true);
  diags_cut(session->diags, 0);
  script_check_kept(session->script);
}

static void take_findings(const Session *session, Work *work, int which)
{
  work->told[which] = told_of(session->diags, session->sources, work->arena);
}

/* Each recipe is checked in a session of its own, so that what both say of a shared parent is not told once. */
static void check_alone(Session *session, Work *work)
{
  for (int which = 0; which < 2; which++) {
    read_one(session, which);
    take_findings(session, work, which);
    session_end(session);
  }
}

/* ---- recipes */

/* Reads what is compared: one file and the parent of its recipe, or two files. Findings do not stand in the way. */
static bool read_both(Session *session, Work *work)
{
  const Options *o = session->options;
  bool parent = o->argument_count == 1;
  session_read(session, o->arguments[0]);
  if (session->unreadable) return false;
  if (!script_keep(session->script, parent)) {
    refuse(session, parent ? "this is no tailored recipe, so it has no parent to compare with"
                           : "the first file is neither a recipe nor a job that can be compared",
           known_pairs);
    return false;
  }
  if (!parent) session_run(session, o->arguments[1]);
  if (session->unreadable) return false;
  bool compared = script_compare(session->script, work->arena, &work->recipes);
  if (!compared) refuse(session, "the second file is not a recipe", known_pairs);
  return compared;
}

/* ---- jobs */

static bool total(Session *session, Work *work, int which)
{
  bool fine = session->document.kind == DOCUMENT_JOB && session_cost(session);
  if (fine) work->totals[which] = totals_of(session->plan, session->cost, work->arena);
  return fine;
}

/* Reads the job with one of the recipes in place. */
static bool total_in_place(Session *session, Work *work, int which)
{
  const Options *o = session->options;
  bool parent = o->argument_count == 1 && which == 0;
  session_read(session, o->arguments[o->argument_count == 1 ? 0 : which]);
  script_keep(session->script, parent);
  diags_cut(session->diags, 0); /* the job has its say on the recipe in place */
  script_use_kept(session->script, o->area);
  bool fine = session_run(session, o->job);
  if (fine && session->document.kind != DOCUMENT_JOB) refuse(session, "--job needs a job", NULL);
  return fine && total(session, work, which);
}

static bool total_alone(Session *session, Work *work, int which)
{
  bool fine = session_read(session, session->options->arguments[which]);
  if (fine && session->document.kind != DOCUMENT_JOB)
    refuse(session, "a job is compared with a job; this is none", known_pairs);
  return fine && total(session, work, which);
}

typedef bool (*Totaller)(Session *session, Work *work, int which);

static int both_totals(Session *session, Work *work, Totaller totaller)
{
  int status = STATUS_FINE;
  for (int which = 0; which < 2 && status == STATUS_FINE; which++) {
    if (totaller(session, work, which)) {
      take_findings(session, work, which);
    } else {
      session_complain(session);
      status = session_status(session) ? session_status(session) : STATUS_FINDINGS;
    }
    session_end(session);
  }
  return status;
}

/* ---- the command */

static void print(Session *session, const CompareReport *report, const Sources *sources)
{
  const Options *o = session->options;
  Buf out = { 0 };
  if (o->json) report_compare_json(report, sources, &out);
  else report_compare_text(report, sources, o->width, &out);
  session_print(session, &out);
}

static int compare_jobs(Session *session, Work *work)
{
  int status = both_totals(session, work, total_alone);
  CompareReport report = { .was = &work->totals[0], .now = &work->totals[1] };
  report.findings = findings_compared(work->told[0], work->told[1], NULL, work->arena);
  if (status == STATUS_FINE) print(session, &report, NULL);
  return status;
}

/* The comparison's places are of the session that was read first, which is kept until it has been printed. */
static int compare_recipes(Session *session, Work *work)
{
  const Options *o = session->options;
  Session other;
  session_begin(&other, session->port, o);
  int status = o->job ? both_totals(&other, work, total_in_place) : STATUS_FINE;
  if (status != STATUS_FINE) return status;
  if (!o->job) check_alone(&other, work);
  CompareReport report = { .recipes = &work->recipes };
  report.findings = findings_compared(work->told[0], work->told[1], &work->recipes, work->arena);
  if (o->job) report.was = &work->totals[0], report.now = &work->totals[1];
  print(session, &report, session->sources);
  return STATUS_FINE;
}

static bool is_job(Session *session, const char *file)
{
  session_read(session, file);
  bool job = session->document.kind == DOCUMENT_JOB;
  session_end(session);
  return job;
}

static int run(Session *session)
{
  Work work = { .arena = arena_new() };
  int status;
  if (session->options->argument_count == 2 && is_job(session, session->options->arguments[0])) {
    status = compare_jobs(session, &work);
  } else if (read_both(session, &work)) {
    status = compare_recipes(session, &work);
  } else {
    session_complain(session);
    status = session_status(session);
  }
  session_end(session);
  arena_free(work.arena);
  return status;
}

const Command command_compare = {
  .name = "compare",
  .says = "show what differs between two recipes, or two jobs",
  .usage = "FILE [FILE]",
  .help = "  gritwork compare recipes/methods/salt_and_pepper_dyed.lua\n"
          "  gritwork compare recipes/methods/cream_wet.lua recipes/methods/four_step.lua\n"
          "  gritwork compare --job=recipes/jobs/north_hall.lua --area=showroom A.lua B.lua\n\n"
          "Of two recipes, or a tailored one and its parent: steps added, dropped, renamed and moved, fields with\n"
          "both values and places, findings that came, went and stayed, step by step. With --job, the findings, hours,\n"
          "money and finish of the job with one and with the other in place. Of two jobs: findings, areas, money by\n"
          "kind, hours, finish.",
  .options = OPTIONS_READING "json job area effort threads",
  .least_files = 1,
  .most_files = 2,
  .arguments_are_files = true,
  .run = run,
};
