/* command_validate.c - checks documents and prints everything that is wrong with them. */
#include "base/json.h"
#include "base/sarif.h"
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

/* ---- the forms in which findings are printed, each for any number of files */

typedef struct {
  Buf out;
  JsonWriter json;
  SarifLog *sarif;
} Printer;

typedef struct {
  unsigned option; /* that asks for it; 0: the usual one */
  void (*begin)(Printer *p);
  void (*file)(Printer *p, Session *session, const char *file);
  void (*end)(Printer *p, int status);
} Form;

static void begin_text(Printer *p) { (void)p; }

static void text_file(Printer *p, Session *session, const char *file)
{
  const Options *o = session->options;
  bool is_short = o->given & OPTION_SHORT;
  if (is_short) diags_print_short(session->diags, session->sources, &p->out);
  else diags_print(session->diags, session->sources, (DiagStyle){ o->colour, o->width }, &p->out);
  if (diags_count(session->diags) == 0 && !is_short) buf_printf(&p->out, "%s: nothing found\n", file);
  if (session->plan && (o->given & OPTION_ASSUMPTIONS))
    report_assumptions_text(session->plan, session->cost, session->document.why, session->sources, o->width, &p->out);
}

static void end_text(Printer *p, int status)
{
  (void)p;
  (void)status;
}

static void begin_json(Printer *p)
{
  p->json = json_begin(&p->out);
  json_object(&p->json, NULL);
  json_text(&p->json, "format", "gritwork-findings");
  json_integer(&p->json, "version", 1);
  json_array(&p->json, "files");
}

static void json_file(Printer *p, Session *session, const char *file)
{
  json_object(&p->json, NULL);
  json_text(&p->json, "file", file);
  diags_print_json(session->diags, session->sources, &p->json);
  json_end(&p->json);
}

static void end_json(Printer *p, int status)
{
  (void)status;
  json_end(&p->json);
  json_end(&p->json);
  json_finish(&p->json);
}

static void begin_sarif(Printer *p) { p->sarif = sarif_begin("gritwork", &p->out); }

static bool explain(void *script, const char *code, Buf *says, Buf *basis)
{
  return script_explain(script, code, says, basis);
}

static void sarif_file(Printer *p, Session *session, const char *file)
{
  (void)file;
  sarif_add(p->sarif, session->diags, session->sources, explain, session->script);
}

static void end_sarif(Printer *p, int status) { sarif_finish(p->sarif, status <= STATUS_FINDINGS); }

static const Form forms[] = {
  { OPTION_JSON, begin_json, json_file, end_json },
  { OPTION_SARIF, begin_sarif, sarif_file, end_sarif },
  { 0, begin_text, text_file, end_text },
};

static const Form *form_of(const Options *options)
{
  const Form *form = forms;
  while (form->option && !(options->given & form->option)) form++;
  return form;
}

static int run(Session *session)
{
  const Options *o = session->options;
  const Form *form = form_of(o);
  Printer p = { .out = { 0 } };
  int worst = STATUS_FINE;
  form->begin(&p);
  for (int i = 0; i < o->argument_count; i++) {
    check(session, o->arguments[i]);
    diags_sort(session->diags);
    form->file(&p, session, o->arguments[i]);
    int status = session_status(session);
    if (status > worst) worst = status;
    session_end(session);
  }
  form->end(&p, worst);
  session_print(session, &p.out);
  return worst;
}

const Command command_validate = {
  .name = "validate",
  .says = "check recipes, jobs and price books, and say what is wrong where",
  .usage = "FILE...",
  .help = "  gritwork validate recipes/methods/cream_wet.lua\n"
          "  gritwork validate --short recipes/methods/*.lua\n"
          "  gritwork validate --assumptions recipes/jobs/north_hall.lua\n"
          "  gritwork validate --sarif recipes/mistakes.lua > findings.sarif\n\n"
          "Reads each file, checks every word, field, unit and rule in it and in what it requires, and prints\n"
          "all findings of one run. A job is also expanded, scheduled and priced, so that what no machine, crew,\n"
          "shift or price book can do is found here.",
  .options = OPTIONS_READING | OPTION_JSON | OPTION_SARIF | OPTION_SHORT | OPTION_ASSUMPTIONS,
  .least_files = 1,
  .most_files = -1,
  .arguments_are_files = true,
  .run = run,
};
