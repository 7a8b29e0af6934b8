/* report_why.c - the derivation of a figure, as a tree down to what somebody wrote. */
#include <string.h>

#include "base/mem.h"
#include "cost/show.h"
#include "report/node_words.h"
#include "report/page.h"
#include "report/report.h"

enum { STEP_IN = 2 };

typedef struct {
  const WhyBook *book;
  const Sources *sources;
  UnitSystem units;
  int width;
  bool *printed; /* by node */
  Buf *out;
} Tree;

static void print_node(Tree *t, Why why, int depth);

/* Deep chains stop moving right, so that there is room to read. */
static int indent_at(const Tree *t, int depth)
{
  int most = t->width / 2 / STEP_IN;
  return (depth < most ? depth : most) * STEP_IN;
}

static void print_inputs(Tree *t, const WhyNode *node, int depth)
{
  for (int i = 0; i < node->input_count; i++) print_node(t, node->inputs[i], depth + 1);
}

static void print_node(Tree *t, Why why, int depth)
{
  const WhyNode *node = why_node(t->book, why);
  Buf text = { 0 };
  bool again = t->printed[why] && node->input_count > 0;
  t->printed[why] = true;
  node_value(node, t->sources, t->units, &text);
  if (again) buf_puts(&text, ", as above");
  else node_origin(node, t->sources, &text);
  page_fold(t->out, depth == 0 ? "" : "- ", buf_text(&text), t->width, indent_at(t, depth));
  buf_free(&text);
  if (!again) print_inputs(t, node, depth);
}

void report_why_text(const WhyBook *book, const Sources *sources, UnitSystem units, Why why, int width, Buf *out)
{
  if (why_node(book, why) == NULL) {
    page_fold(out, "", "nothing is known about this figure", width, 0);
    return;
  }
  Tree t = { .book = book, .sources = sources, .units = units, .width = width, .out = out };
  t.printed = mem_array((size_t)why_count(book) + 1, sizeof *t.printed);
  print_node(&t, why, 0);
  mem_free(t.printed);
}
