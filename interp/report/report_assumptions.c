/* report_assumptions.c - what nobody said: the defaults that the plan and the cost rest on. */
#include <string.h>

#include "base/mem.h"
#include "report/assumptions.h"
#include "report/node_words.h"
#include "report/page.h"
#include "report/report.h"

/* ---- which nodes are used: inputs come before the nodes they enter, so one sweep downward finds all */

static bool *used_nodes(const Plan *plan, const Cost *cost, const WhyBook *book)
{
  bool *used = mem_array((size_t)why_count(book) + 1, sizeof *used);
  for (int i = 0; i < plan->activity_count; i++) {
    const Activity *a = &plan->activities[i];
    const Figure figures[] = { a->minutes,  a->floor_m2, a->edge_m,  a->material,
                               a->water_l,  a->slurry_l, a->readings };
    for (size_t k = 0; k < sizeof figures / sizeof *figures; k++) used[figures[k].why] = true;
  }
  if (cost) used[cost->why] = true;
  for (uint32_t why = why_count(book); why > 0; why--)
    if (why_node(book, why)->decides) used[why] = true;
  for (uint32_t why = why_count(book); why > 0; why--) {
    const WhyNode *node = why_node(book, why);
    for (int i = 0; used[why] && i < node->input_count; i++) used[node->inputs[i]] = true;
  }
  return used;
}

/* ---- alike: the same default of several steps or machines is one assumption */

/* "water of hone \"200\"" is about `water`; what follows is whose. */
static size_t subject_length(const char *what)
{
  const char *of = strstr(what, " of ");
  return of ? (size_t)(of - what) : strlen(what);
}

static bool same_text(const char *a, const char *b) { return a == b || (a && b && strcmp(a, b) == 0); }

static bool alike(const WhyNode *a, const WhyNode *b)
{
  size_t subject = subject_length(a->what);
  return b->origin == WHY_DEFAULT && a->value == b->value && same_text(a->words, b->words) &&
         subject == subject_length(b->what) &&
         strncmp(a->what, b->what, subject) == 0 && same_text(a->unit, b->unit) && same_text(a->basis, b->basis);
}

/* The places that lack it, the first of which is spelled out, and whose they are. */
typedef struct {
  int count;
  Buf whose;
} Lacking;

static void add_owner(Lacking *lacking, const WhyNode *node, const WhyNode *last)
{
  const char *owner = node->what + subject_length(node->what);
  if (*owner && (last == NULL || !same_text(node->what, last->what)))
    buf_printf(&lacking->whose, "%s%s", lacking->whose.length ? ", " : "", owner + strlen(" of "));
  lacking->count++;
}

/* Gathers the node and every later one like it, and takes those off the list. */
static Lacking take_alike(const WhyBook *book, bool *used, Why why)
{
  const WhyNode *node = why_node(book, why), *last = node;
  Lacking lacking = { 0 };
  add_owner(&lacking, node, NULL);
  for (Why other = why + 1; other <= why_count(book); other++)
    if (used[other] && alike(node, why_node(book, other))) {
      used[other] = false;
      add_owner(&lacking, why_node(book, other), last);
      last = why_node(book, other);
    }
  return lacking;
}

/* ---- the list */

static void put_subject(const WhyNode *node, const Lacking *lacking, UnitSystem units, Buf *out)
{
  Buf text = { 0 };
  WhyNode subject = *node;
  buf_add(&text, node->what, subject_length(node->what));
  subject.what = buf_text(&text);
  node_value(&subject, NULL, units, out);
  if (lacking->whose.length) buf_printf(out, " for %s", buf_text(&lacking->whose));
  buf_free(&text);
}

static void put_reason(const WhyNode *node, const Lacking *lacking, const Sources *sources, Buf *out)
{
  if (node->basis) buf_puts(out, node->basis);
  if (!span_is_nowhere(node->at) && sources) {
    buf_puts(out, out->length ? "; missing at " : "missing at ");
    node_place(node->at, sources, out);
  }
  int more = lacking->count - 1;
  if (more > 0) buf_printf(out, " and %d more place%s", more, more == 1 ? "" : "s");
}

int assumptions_each(const Plan *plan, const Cost *cost, const WhyBook *book, const Sources *sources,
                     AssumptionVisit visit, void *context)
{
  bool *used = used_nodes(plan, cost, book);
  UnitSystem units = plan->job->metric ? UNITS_METRIC : UNITS_US;
  int listed = 0;
  for (Why why = 1; why <= why_count(book); why++) {
    const WhyNode *node = why_node(book, why);
    if (!used[why] || node->origin != WHY_DEFAULT) continue;
    Buf subject = { 0 }, reason = { 0 };
    Lacking lacking = take_alike(book, used, why);
    put_subject(node, &lacking, units, &subject);
    put_reason(node, &lacking, sources, &reason);
    visit(buf_text(&subject), buf_text(&reason), context);
    buf_free(&subject);
    buf_free(&reason);
    buf_free(&lacking.whose);
    listed++;
  }
  mem_free(used);
  return listed;
}

typedef struct {
  int width;
  Buf *out;
} Lines;

static void print_assumption(const char *subject, const char *reason, void *context)
{
  const Lines *lines = context;
  page_fold(lines->out, "- ", subject, lines->width, 0);
  if (*reason) page_fold(lines->out, "", reason, lines->width, 4);
}

void report_assumptions_text(const Plan *plan, const Cost *cost, const WhyBook *book, const Sources *sources,
                             int width, Buf *out)
{
  page_fold(out, "ASSUMED   ", "nobody said otherwise; write it down to change it", width, 0);
  page_rule(out, '=', width);
  Lines lines = { width, out };
  if (assumptions_each(plan, cost, book, sources, print_assumption, &lines) == 0) buf_puts(out, "nothing\n");
}

/* ---- JSON: one entry a default, for programs that group as they like */

static void assumption_json(JsonWriter *j, const WhyNode *node, const Sources *sources)
{
  Buf place = { 0 };
  node_place(node->at, sources, &place);
  json_object(j, NULL);
  json_text(j, "what", node->what);
  if (node->words) json_text(j, "value", node->words);
  else json_number(j, "value", node->value, 6);
  json_text(j, "unit", node->unit ? node->unit : "");
  json_text(j, "basis", node->basis);
  json_text(j, "missing_at", place.length ? buf_text(&place) : NULL);
  json_end(j);
  buf_free(&place);
}

void assumptions_json(JsonWriter *j, const Plan *plan, const Cost *cost, const WhyBook *book,
                      const Sources *sources)
{
  bool *used = used_nodes(plan, cost, book);
  json_array(j, "assumptions");
  for (Why why = 1; why <= why_count(book); why++)
    if (used[why] && why_node(book, why)->origin == WHY_DEFAULT) assumption_json(j, why_node(book, why), sources);
  json_end(j);
  mem_free(used);
}
