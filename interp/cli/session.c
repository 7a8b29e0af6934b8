#include "cli/session.h"

#include <string.h>

#include "base/text.h"
#include "cli/command.h"
#include "cli/supervisor.h"

void session_begin(Session *session, Port *port, const Options *options)
{
  *session = (Session){ .port = port, .options = options, .alternate = -1 };
}

void session_end(Session *session)
{
  script_free(session->script);
  sources_free(session->sources);
  diags_free(session->diags);
  arena_free(session->document.arena);
  why_free(session->document.why);
  Fixing *fixing = session->fixing;
  session_begin(session, session->port, session->options);
  session->fixing = fixing;
}

static bool read_module(void *context, const char *module, Buf *text, Buf *shown, Buf *why)
{
  Session *session = context;
  if (!port_read(session->port, PORT_MODULE, module, text, shown, why)) return false;
  if (session->fixing) fixing_read(session->fixing, buf_text(shown), text);
  return true;
}

static bool read_stdlib(void *context, const char *module, Buf *text, Buf *shown, Buf *why)
{
  Session *session = context;
  return port_read(session->port, PORT_STDLIB, module, text, shown, why);
}

void session_start(Session *session)
{
  session->sources = sources_new();
  session->diags = diags_new();
  session->document.arena = arena_new();
  session->document.why = why_new();
  ScriptReader reader = { read_module, session->options->stdlib ? read_stdlib : NULL, session };
  session->script = script_new(session->sources, session->diags, reader);
  for (int i = 0; i < session->options->with_count; i++) script_what_if(session->script, session->options->with[i]);
  for (int i = 0; i < OVER_MOST; i++)
    if (session->tries[i]) script_what_if(session->script, session->tries[i]);
}

bool session_text(Session *session, const char *file, Buf *text, Buf *shown)
{
  Buf why = { 0 };
  if (port_read(session->port, PORT_FILE, file, text, shown, &why)) {
    bool is_file = strcmp(file, "-") != 0;
    if (session->fixing && is_file) fixing_read(session->fixing, buf_text(shown), text);
    return true;
  }
  session->unreadable = true;
  Buf name = { 0 };
  text_escape(&name, file, strlen(file));
  diags_error(session->diags, "file", (Span){ 0 }, "cannot read %s: %s", buf_text(&name), buf_text(&why));
  buf_free(&name);
  buf_free(&why);
  return false;
}

bool session_run(Session *session, const char *file)
{
  Buf text = { 0 }, shown = { 0 };
  if (session_text(session, file, &text, &shown))
    script_read(session->script, buf_text(&shown), &text, &session->document);
  if (session->options->strict) diags_raise_warnings(session->diags);
  buf_free(&text);
  buf_free(&shown);
  return session_status(session) == STATUS_FINE;
}

bool session_read(Session *session, const char *file)
{
  session_start(session);
  return session_run(session, file);
}

/* The job with an alternate's recipe in the place of its area's. */
static Job *with_alternate(const Job *job, int number, Arena *arena)
{
  const Alternate *alternate = &job->alternates[number];
  Job *other = arena_alloc(arena, sizeof *other);
  *other = *job;
  other->areas = arena_array(arena, (size_t)job->area_count, sizeof *other->areas);
  for (int i = 0; i < job->area_count; i++) other->areas[i] = job->areas[i];
  other->areas[alternate->area].recipe = alternate->recipe;
  return other;
}

static void refuse_alternate(Session *session)
{
  const Job *job = session->document.job;
  const char *wanted = session->options->alternate, *near[1];
  const char **names = arena_array(session->document.arena, (size_t)job->alternate_count + 1, sizeof *names);
  for (int i = 0; i < job->alternate_count; i++) names[i] = job->alternates[i].name;
  bool found = text_near(wanted, names, (size_t)job->alternate_count, near, 1) > 0;
  diags_add(session->diags, &(Diag){
    .level = DIAG_ERROR,
    .code = "alternate",
    .message = arena_printf(session->document.arena, "no alternate of the job is called `%s`", wanted),
    .at = job->at,
    .help = found ? arena_printf(session->document.arena, "did you mean `%s`?", near[0])
                  : "an alternate is written in the job: alternate \"NAME\" { area = ..., recipe = ... }",
  });
}

/* Puts the alternate that was asked for in its place. */
static bool take_alternate(Session *session)
{
  Document *d = &session->document;
  if (session->options->alternate == NULL) return true;
  for (int i = 0; i < d->job->alternate_count; i++)
    if (strcmp(d->job->alternates[i].name, session->options->alternate) == 0) session->alternate = i;
  if (session->alternate < 0) {
    refuse_alternate(session);
    return false;
  }
  d->job = with_alternate(d->job, session->alternate, d->arena);
  d->job->name = arena_printf(d->arena, "%s, with the alternate %s", d->job->name, session->options->alternate);
  return true;
}

bool session_plan(Session *session)
{
  if (session->document.kind != DOCUMENT_JOB) {
    diags_error(session->diags, "document", (Span){ 0 }, "%s needs a job: a recipe has no rooms, people or prices",
                session->options->command->name);
    return false;
  }
  if (session->alternate < 0 && !take_alternate(session)) return false;
  Document *d = &session->document;
  session->plan = plan_expand(d->job, d->arena, d->why, session->diags);
  return diags_errors(session->diags) == 0;
}

static ScriptActivity activity_facts(const Plan *plan, int i, Arena *arena)
{
  static const char *const kinds[WORK_KINDS] = {
    [WORK_FIELD] = "field", [WORK_EDGES] = "edges", [WORK_SURFACE] = "surface", [WORK_APPLY] = "apply",
    [WORK_DWELL] = "dwell", [WORK_REST] = "rest",   [WORK_READ] = "read",
    [WORK_SITE] = "site",
  };
  const Activity *a = &plan->activities[i];
  const Booking *b = &plan->bookings[i];
  ScriptStretch *stretches = arena_array(arena, (size_t)b->stretch_count + 1, sizeof *stretches);
  for (int s = 0; s < b->stretch_count; s++) {
    const Stretch *from = &b->stretches[s];
    stretches[s] = (ScriptStretch){ from->start, from->finish, from->unit, from->along_unit, from->people,
                                     from->people ? a->people : 0 };
  }
  return (ScriptActivity){ a->id, kinds[a->kind], a->area, a->step, a->machine,
                           plan_runs_along(a) ? a->along.machine : -1, a->along.run_min, stretches,
                           b->stretch_count, a->floor_m2.value, a->material.value, a->water_l.value };
}

/* The rules that look at schedules have their say: of the job, or of that alternate. */
static void check_plan(Session *session, int alternate)
{
  const Plan *plan = session->plan;
  Arena *arena = session->document.arena;
  ScriptActivity *activities = arena_array(arena, (size_t)plan->activity_count + 1, sizeof *activities);
  ScriptPerson *persons = arena_array(arena, (size_t)plan->person_count + 1, sizeof *persons);
  for (int i = 0; i < plan->activity_count; i++) activities[i] = activity_facts(plan, i, arena);
  for (int i = 0; i < plan->person_count; i++)
    persons[i] = (ScriptPerson){ plan->persons[i].name, plan->persons[i].crew };
  script_plan(session->script, alternate, persons, plan->person_count, activities, plan->activity_count);
  if (session->options->strict) diags_raise_warnings(session->diags);
}

static void put_span(Buf *out, int minutes)
{
  buf_printf(out, "%d d %d h %02d min", minutes / DAY_MIN, minutes % DAY_MIN / 60, minutes % 60);
}

static bool tell_progress(void *context, const PlanProgress *progress)
{
  Session *session = context;
  int start = session->document.job->start_min;
  Buf text = { 0 };
  buf_puts(&text, "scheduling: ");
  if (progress->finish >= 0) {
    buf_puts(&text, "done after ");
    put_span(&text, progress->finish - start);
    buf_puts(&text, ", at best ");
    put_span(&text, progress->lower_bound - start);
    buf_puts(&text, "; Ctrl-C takes it as it is");
  } else buf_puts(&text, "none found yet");
  bool go_on = port_progress(session->port, buf_text(&text));
  buf_free(&text);
  return go_on;
}

static bool schedule(Session *session)
{
  if (!session_plan(session)) return false;
  int64_t work = session->options->effort ? session->options->effort * (int64_t)1000000 : session->work;
  const PlanSearch search = { .work = work, .threads = session->options->threads, .progress = tell_progress,
                              .context = session };
  plan_schedule(session->plan, &search, session->document.arena, session->diags);
  return diags_errors(session->diags) == 0;
}

bool session_schedule(Session *session)
{
  schedule(session);
  if (session->plan && session->plan->bookings) check_plan(session, session->alternate);
  return diags_errors(session->diags) == 0;
}

/* Only a command that takes --threads may start any. */
static int threads(const Options *o) { return options_among(o->command->options, "threads") ? o->threads : 1; }

static bool cost(Session *session)
{
  Document *d = &session->document;
  session->takeoff = takeoff_count(session->plan, d->arena, d->why);
  session->cost = cost_price(session->takeoff, threads(session->options), d->arena, d->why, session->diags);
  return diags_errors(session->diags) == 0;
}

bool session_cost(Session *session) { return session_schedule(session) && cost(session); }

static bool is_told(const Diags *diags, const Diag *diag)
{
  for (size_t i = 0; i < diags_count(diags); i++) {
    const Diag *told = diags_get(diags, i);
    bool same_place = told->at.source == diag->at.source && told->at.begin == diag->at.begin;
    if (same_place && strcmp(told->code, diag->code) == 0) return true;
  }
  return false;
}

/* What plan and price found with an alternate, under its name; what the job as written has too is not told
 * again. */
static void tell_of_alternate(Session *session, const Alternate *alternate, const Diags *found)
{
  for (size_t i = 0; i < diags_count(found); i++) {
    Diag diag = *diags_get(found, i);
    if (is_told(session->diags, &diag)) continue;
    diag.message =
      arena_printf(session->document.arena, "with the alternate `%s`: %s", alternate->name, diag.message);
    if (diag.label_count < DIAG_LABELS)
      diag.labels[diag.label_count++] = (DiagLabel){ alternate->at, "the alternate" };
    diags_add(session->diags, &diag);
  }
}

static bool plan_and_price(Session *session, int alternate)
{
  if (!schedule(session)) return false;
  check_plan(session, alternate);
  return cost(session);
}

/* A plan and a cost of their own, so that the session's stay those of the bid. */
static bool price_alternate(Session *session, int number, Money *price)
{
  const Alternate *alternate = &session->document.job->alternates[number];
  Session other = *session;
  other.diags = diags_new();
  other.document.job = with_alternate(session->document.job, number, session->document.arena);
  bool priced = plan_and_price(&other, number);
  if (priced) *price = other.cost->price;
  tell_of_alternate(session, alternate, other.diags);
  diags_free(other.diags);
  if (session->options->strict) diags_raise_warnings(session->diags);
  return priced && diags_errors(session->diags) == 0;
}

bool session_alternates(Session *session, Money *prices)
{
  const Job *job = session->document.job;
  for (int i = 0; i < job->alternate_count; i++)
    if (!price_alternate(session, i, &prices[i])) return false;
  return true;
}

/* A fault of the standard library is ours, not the script's. */
static bool is_our_fault(const Diags *diags)
{
  for (size_t i = 0; i < diags_count(diags); i++)
    if (strcmp(diags_get(diags, i)->code, "internal") == 0) return true;
  return false;
}

int session_status(const Session *session)
{
  if (session->unreadable) return STATUS_FILES;
  if (script_over_budget(session->script)) return STATUS_BUDGET;
  if (is_our_fault(session->diags)) return STATUS_FAULT;
  return diags_errors(session->diags) ? STATUS_FINDINGS : STATUS_FINE;
}

void session_complain(Session *session)
{
  Buf out = { 0 };
  diags_sort(session->diags);
  if (session->options->brief) diags_print_short(session->diags, session->sources, &out);
  else diags_print(session->diags, session->sources, (DiagStyle){ session->options->colour, session->options->width }, &out);
  port_complain(session->port, buf_text(&out), out.length);
  buf_free(&out);
}

int session_finish(Session *session)
{
  session_complain(session);
  int status = session_status(session);
  session_end(session);
  return status;
}

int session_report(Session *session, bool (*reach)(Session *session), void (*print)(Session *session))
{
  if (session_read(session, session->options->arguments[0]) && reach(session)) print(session);
  return session_finish(session);
}

void session_print(Session *session, Buf *text)
{
  port_print(session->port, buf_text(text), text->length);
  buf_free(text);
}
