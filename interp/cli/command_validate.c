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
  size_t asked; /* offset in Options; 0: the usual one */
  void (*begin)(Printer *p);
  void (*file)(Printer *p, Session *session, const char *file);
  void (*end)(Printer *p, int status);
} Form;

static void begin_text(Printer *p) { (void)p; }

static void text_file(Printer *p, Session *session, const char *file)
{
  const Options *o = session->options;
  if (o->brief) diags_print_short(session->diags, session->sources, &p->out);
  else diags_print(session->diags, session->sources, (DiagStyle){ o->colour, o->width }, &p->out);
  if (diags_count(session->diags) == 0 && !o->brief) buf_printf(&p->out, "%s: nothing found\n", file);
  if (session->plan && o->assumptions)
    report_assumptions_text(session->plan, session->cost, session->document.why, session->sources, o->width,
                            &p->out);
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

static bool explain(void *script, const char *code, SarifRule *rule) { return script_explain(script, code, rule); }

static void sarif_file(Printer *p, Session *session, const char *file)
{
  (void)file;
  sarif_add(p->sarif, session->diags, session->sources, explain, session->script);
}

static void end_sarif(Printer *p, int status) { sarif_finish(p->sarif, status <= STATUS_FINDINGS, status); }

static const Form forms[] = { /* the first that was asked for */
  { offsetof(Options, diff), begin_text, NULL, end_text },
  { offsetof(Options, json), begin_json, json_file, end_json },
  { offsetof(Options, sarif), begin_sarif, sarif_file, end_sarif },
  { 0, begin_text, text_file, end_text },
};

static const Form *form_of(const Options *options)
{
  const Form *form = forms;
  while (form->asked && !options_flag(options, form->asked)) form++;
  return form;
}

/* ---- fixes */

/* A fix may let more be seen, and fixed. */
static void check_and_fix(Session *session, const char *file)
{
  enum { ROUNDS = 20 };
  check(session, file);
  for (int round = 0; round < ROUNDS; round++) {
    if (!fixing_apply(session->fixing, session->diags, session->sources, FIXING_SAFE)) return;
    session_end(session);
    check(session, file);
  }
}

static void put_part(Buf *out, const char *heading, Buf *diff)
{
  if (diff->length) buf_printf(out, "%s\n\n%s\n", heading, buf_text(diff));
  buf_free(diff);
}

static void propose(Session *session, const char *heading, Buf *out)
{
  Buf diff = { 0 };
  fixing_propose(session->fixing, session->diags, session->sources, &diff);
  put_part(out, heading, &diff);
}

/* --diff: the exit status is that of the files as they are. */
static int diff_file(Session *session, const char *file, Buf *out)
{
  Buf diff = { 0 };
  check(session, file);
  int status = session_status(session);
  if (status > STATUS_FINDINGS) session_complain(session);
  session_end(session);
  check_and_fix(session, file);
  fixing_diff(session->fixing, &diff);
  put_part(out, "certain, and done by --fix:", &diff);
  propose(session, "not certain:", out);
  return status;
}

/* ---- the command */

static int print_file(Session *session, const char *file, const Form *form, Printer *p)
{
  if (session->fixing) check_and_fix(session, file);
  else check(session, file);
  diags_sort(session->diags);
  form->file(p, session, file);
  if (session->fixing && !form->asked) propose(session, "not certain, and not done:", &p->out);
  if (session->fixing) fixing_settle(session->fixing);
  return session_status(session);
}

static int each_file(Session *session, const Form *form, Printer *p)
{
  const Options *o = session->options;
  int worst = STATUS_FINE;
  for (int i = 0; i < o->argument_count; i++) {
    const char *file = o->arguments[i];
    int status = o->diff ? diff_file(session, file, &p->out) : print_file(session, file, form, p);
    if (status > worst) worst = status;
    session_end(session);
  }
  return worst;
}

static int run(Session *session)
{
  const Options *o = session->options;
  Printer p = { .out = { 0 } };
  const Form *form = form_of(o);
  if (o->fix || o->diff) session->fixing = fixing_new();
  form->begin(&p);
  int status = each_file(session, form, &p);
  form->end(&p, status);
  Buf said = { 0 };
  if (session->fixing && !o->diff) fixing_write(session->fixing, session->port, &said);
  if (!form->asked) buf_puts(&p.out, buf_text(&said));
  buf_free(&said);
  fixing_free(session->fixing);
  session_print(session, &p.out);
  return status;
}

const Command command_validate = {
  .name = "validate",
  .says = "check recipes, jobs and price books, and say what is wrong where",
  .usage = "FILE...",
  .help = "  gritwork validate recipes/methods/cream_wet.lua\n"
          "  gritwork validate --short recipes/methods/*.lua\n"
          "  gritwork validate --assumptions recipes/jobs/north_hall.lua\n"
          "  gritwork validate --sarif recipes/mistakes.lua > findings.sarif\n"
          "  gritwork validate --diff recipes/mistakes.lua\n\n"
          "Reads each file, checks every word, field, unit and rule in it and in what it requires, and prints\n"
          "all findings of one run. A job is also expanded, scheduled and priced, so that what no machine, crew,\n"
          "shift or price book can do is found here.",
  .options = OPTIONS_READING "json sarif fix diff short assumptions",
  .least_files = 1,
  .most_files = -1,
  .arguments_are_files = true,
  .run = run,
};
