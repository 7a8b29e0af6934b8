/* report_assumptions.c - what nobody said: the defaults that the plan and the cost rest on. */
#include <string.h>

#include "base/mem.h"
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
  for (uint32_t why = why_count(book); why > 0; why--) {
    const WhyNode *node = why_node(book, why);
    for (int i = 0; used[why] && i < node->input_count; i++) used[node->inputs[i]] = true;
  }
  return used;
}

static bool same_text(const char *a, const char *b) { return a == b || (a && b && strcmp(a, b) == 0); }

static bool same_assumption(const WhyNode *a, const WhyNode *b)
{
  return b->origin == WHY_DEFAULT && a->value == b->value && same_text(a->what, b->what) &&
         same_text(a->unit, b->unit) && same_text(a->basis, b->basis);
}

/* Counts the node and every later one that says the same, and takes those off the list. */
static int take_like(const WhyBook *book, bool *used, Why why)
{
  const WhyNode *node = why_node(book, why);
  int count = 1;
  for (uint32_t other = why + 1; other <= why_count(book); other++)
    if (used[other] && same_assumption(node, why_node(book, other))) {
      used[other] = false;
      count++;
    }
  return count;
}

static void print_assumption(const WhyNode *node, int count, const Sources *sources, int width, Buf *out)
{
  Buf text = { 0 };
  node_value(node, &text);
  page_fold(out, "- ", buf_text(&text), width, 0);
  buf_clear(&text);
  if (node->basis) buf_puts(&text, node->basis);
  if (!span_is_nowhere(node->at) && sources) {
    buf_puts(&text, text.length ? "; missing at " : "missing at ");
    node_place(node->at, sources, &text);
  }
  if (count > 1) buf_printf(&text, " and %d more place%s", count - 1, count == 2 ? "" : "s");
  if (text.length) page_fold(out, "", buf_text(&text), width, 4);
  buf_free(&text);
}

void report_assumptions_text(const Plan *plan, const Cost *cost, const WhyBook *book, const Sources *sources,
                             int width, Buf *out)
{
  bool *used = used_nodes(plan, cost, book);
  int listed = 0;
  page_fold(out, "ASSUMED   ", "nobody said otherwise; write it down to change it", width, 0);
  page_rule(out, '=', width);
  for (uint32_t why = 1; why <= why_count(book); why++) {
    const WhyNode *node = why_node(book, why);
    if (!used[why] || node->origin != WHY_DEFAULT) continue;
    print_assumption(node, take_like(book, used, why), sources, width, out);
    listed++;
  }
  if (listed == 0) buf_puts(out, "nothing\n");
  mem_free(used);
}
