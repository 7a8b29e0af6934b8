/* command_why.c - how a figure or a value of a document came about. */
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "cli/command.h"
#include "cli/supervisor.h"
#include "cost/split.h"
#include "report/report.h"

enum { NAMES = 4096 };

typedef struct {
  const char *name[NAMES];
  Why why[NAMES];
  size_t count;
} Figures;

static void add(Figures *f, const char *name, Why why)
{
  if (f->count < NAMES && why) {
    f->name[f->count] = name;
    f->why[f->count++] = why;
  }
}

static void collect_areas(const Session *session, Figures *f)
{
  const Job *job = session->plan->job;
  Arena *arena = session->document.arena;
  Why *whys = arena_array(arena, (size_t)job->area_count + 1, sizeof *whys);
  if (!split_whys(session->plan, session->cost, arena, session->document.why, whys)) return;
  for (int i = 0; i < job->area_count; i++) add(f, arena_printf(arena, "price of %s", job->areas[i].name), whys[i]);
}

static void collect(const Session *session, Figures *f)
{
  const Cost *cost = session->cost;
  add(f, "price", cost->why);
  collect_areas(session, f);
  for (int i = 0; i < cost->line_count; i++) add(f, cost->lines[i].code, cost->lines[i].why);
  for (int i = 0; i < cost->build_count; i++) add(f, cost->build[i].code, cost->build[i].why);
  for (int i = 0; i < session->plan->activity_count; i++)
    add(f, session->plan->activities[i].id, session->plan->activities[i].minutes.why);
}

/* By its whole name, or by the beginning of just one. */
static Why find(const Figures *f, const char *name)
{
  Why begins = 0;
  int count = 0;
  for (size_t i = 0; i < f->count; i++) {
    if (strcmp(f->name[i], name) == 0) return f->why[i];
    if (strncmp(f->name[i], name, strlen(name)) != 0) continue;
    begins = f->why[i];
    count++;
  }
  return count == 1 ? begins : 0;
}

/* ---- names that lead nowhere */

static void refuse(Session *session, const char *message, const char *help)
{
  diags_add(session->diags, &(Diag){ .level = DIAG_ERROR, .code = "figure", .message = message, .help = help });
}

/* "did you mean `spread`?", or the first of all names if none is near. */
static void put_help(const char *name, const char *const *names, size_t count, Buf *help)
{
  enum { SHOWN = 12 };
  const char *near[3];
  int found = text_near(name, names, count, near, 3);
  for (int i = 0; i < found; i++) buf_printf(help, "%s`%s`", i ? " or " : "did you mean ", near[i]);
  if (found) buf_putc(help, '?');
  for (size_t i = 0; !found && i < count && i < SHOWN; i++)
    buf_printf(help, "%s%s", i ? ", " : "there are ", names[i]);
  if (!found && count > SHOWN) buf_puts(help, ", ...");
  if (!found && count == 0) buf_puts(help, "`gritwork why FILE` lists what there is");
}

static void unknown_part(Session *session, const Lineage *lineage)
{
  Buf message = { 0 }, help = { 0 };
  put_help(lineage->part, lineage->names, (size_t)lineage->name_count, &help);
  if (*lineage->part) buf_printf(&message, "`%s` has no `%s`", lineage->within, lineage->part);
  else buf_printf(&message, "`%s` is more than one value", lineage->within);
  refuse(session, buf_text(&message), buf_text(&help));
  buf_free(&message);
  buf_free(&help);
}

/* Neither a figure nor the beginning of a path: both have names to offer. */
static void unknown_name(Session *session, const Figures *f, const Lineage *lineage)
{
  const char *all[2 * NAMES];
  size_t count = 0;
  for (int i = 0; i < lineage->name_count && count < NAMES; i++) all[count++] = lineage->names[i];
  for (size_t i = 0; i < f->count; i++)
    if (strcmp(f->name[i], lineage->part) != 0) all[count++] = f->name[i];
  Buf message = { 0 }, help = { 0 };
  buf_printf(&message, "nothing in this file is called `%s`", lineage->part);
  put_help(lineage->part, all, count, &help);
  refuse(session, buf_text(&message), buf_text(&help));
  buf_free(&message);
  buf_free(&help);
}

/* ---- answers */

static void list(Session *session, const Figures *f)
{
  Buf out = { 0 }, paths = { 0 };
  for (size_t i = 0; i < f->count; i++) {
    text_escape(&out, f->name[i], strlen(f->name[i]));
    buf_putc(&out, '\n');
  }
  script_paths(session->script, &paths);
  for (const char *line = buf_text(&paths); *line; line++) {
    size_t length = strcspn(line, "\n");
    text_escape(&out, line, length);
    buf_putc(&out, '\n');
    line += length;
  }
  buf_free(&paths);
  session_print(session, &out);
}

static UnitSystem units_of(const Session *session)
{
  return session->document.job && session->document.job->metric ? UNITS_METRIC : UNITS_US;
}

static void explain_figure(Session *session, Why why)
{
  Buf out = { 0 };
  report_why_text(session->document.why, session->sources, units_of(session), why, session->options->width, &out);
  session_print(session, &out);
}

/* A value that nobody wrote, but that was worked out for the model ("edges of area ..."). */
static Why worked_out(const WhyBook *book, const Lineage *lineage)
{
  for (uint32_t why = 1; why <= why_count(book); why++) {
    const WhyNode *node = why_node(book, why);
    char what[256];
    snprintf(what, sizeof what, "`%.*s` of ", (int)strcspn(node->what, " "), node->what);
    size_t length = strlen(what);
    const char *owner = strstr(node->what, " of ");
    if (node->origin != WHY_COMPUTED || !owner || strncmp(lineage->entries[0].text, what, length) != 0) continue;
    owner += strlen(" of ");
    if (strncmp(lineage->entries[0].text + length, owner, strlen(owner)) == 0) return why;
  }
  return 0;
}

static void explain_value(Session *session, const Lineage *lineage)
{
  const Options *o = session->options;
  Buf out = { 0 };
  report_lineage_text(lineage, session->sources, (DiagStyle){ o->colour, o->width }, &out);
  Why why = worked_out(session->document.why, lineage);
  if (why) report_why_text(session->document.why, session->sources, units_of(session), why, o->width, &out);
  session_print(session, &out);
}

static bool figures_of(Session *session, Figures *figures)
{
  if (session->document.kind != DOCUMENT_JOB) return true;
  if (!session_cost(session)) return false;
  collect(session, figures);
  return true;
}

/* The lineage of a value can be told of a document with faults as well; figures need a sound one. */
static void explain(Session *session, bool sound)
{
  static Figures figures;
  figures.count = 0;
  const char *path = session->options->argument_count > 1 ? session->options->arguments[1] : NULL;
  Lineage lineage = { 0 };
  if (path && script_lineage(session->script, path, session->document.arena, &lineage)) {
    explain_value(session, &lineage);
    return;
  }
  if (sound && !figures_of(session, &figures)) return;
  Why why = path ? find(&figures, path) : 0;
  if (!sound && !lineage.part) return; /* there is no document to tell of */
  bool may_be_figure = lineage.has_figures && !*lineage.within;
  if (!sound && may_be_figure) return; /* it cannot be reckoned, and the findings say why */
  if (!path) list(session, &figures);
  else if (why) explain_figure(session, why);
  else if (lineage.within && *lineage.within) unknown_part(session, &lineage);
  else unknown_name(session, &figures, &lineage);
}

static int run(Session *session)
{
  bool sound = session_read(session, session->options->arguments[0]);
  if (!session->unreadable) explain(session, sound);
  return session_finish(session);
}

const Command command_why = {
  .name = "why",
  .says = "show how a figure or value came about, down to what was written",
  .usage = "FILE [PATH|FIGURE]",
  .help = "  gritwork why recipes/methods/salt_and_pepper_dyed.lua densify.spread\n"
          "  gritwork why recipes/jobs/north_hall.lua area.lobby.length\n"
          "  gritwork why recipes/jobs/north_hall.lua price\n\n"
          "A path names a value of a recipe, job or price book: STEP.FIELD, area.NAME.FIELD, prices.margin, also\n"
          "area.NAME.STEP.FIELD; a name with dots in it stands in double quotes. It prints the value, where it was\n"
          "written, what it replaced in a tailored recipe, the parameter it is, or the default and its basis.\n"
          "A figure is the price, `price of AREA`, a cost line by its code, or an activity by its id: it prints the\n"
          "formula and its inputs. Without either, lists all there are.",
  .options = OPTIONS_READING "alternate effort threads",
  .least_files = 1,
  .most_files = 2,
  .arguments_are_files = true,
  .run = run,
};
