#include "base/why.h"

#include <assert.h>
#include <string.h>

#include "base/arena.h"
#include "base/mem.h"

struct WhyBook {
  Arena *arena;
  WhyNode *nodes; /* nodes[0] is not used */
  uint32_t count, room;
};

WhyBook *why_new(void)
{
  WhyBook *book = mem_alloc(sizeof *book);
  book->arena = arena_new();
  return book;
}

void why_free(WhyBook *book)
{
  if (book == NULL) return;
  arena_free(book->arena);
  mem_free(book->nodes);
  mem_free(book);
}

static const char *keep(WhyBook *book, const char *text) { return text ? arena_strdup(book->arena, text) : NULL; }

static void keep_inputs(WhyBook *book, WhyNode *node, const WhyNode *from)
{
  Why *inputs = arena_array(book->arena, (size_t)from->input_count + 1, sizeof *inputs);
  node->input_count = 0;
  for (int i = 0; i < from->input_count; i++)
    if (from->inputs[i] != 0) inputs[node->input_count++] = from->inputs[i];
  node->inputs = inputs;
}

static void keep_terms(WhyBook *book, WhyNode *node, const WhyNode *from)
{
  Figure *terms = arena_array(book->arena, (size_t)from->term_count + 1, sizeof *terms);
  for (int i = 0; i < from->term_count; i++) terms[i] = from->terms[i];
  node->terms = terms;
}

Why why_add(WhyBook *book, const WhyNode *node)
{
  if (book->count + 1 >= book->room) {
    book->room = book->room ? book->room * 2 : 256;
    book->nodes = mem_grow(book->nodes, book->room, sizeof *book->nodes);
  }
  WhyNode *copy = &book->nodes[++book->count];
  *copy = *node;
  copy->what = keep(book, node->what);
  copy->words = keep(book, node->words);
  copy->unit = keep(book, node->unit);
  copy->formula = keep(book, node->formula);
  copy->basis = keep(book, node->basis);
  keep_inputs(book, copy, node);
  if (node->sum) keep_terms(book, copy, node);
  return book->count;
}

static Figure figure(WhyBook *book, WhyNode node, double value)
{
  node.value = node.low = node.high = value;
  return (Figure){ value, why_add(book, &node) };
}

Figure why_written(WhyBook *book, const char *what, double value, const char *unit, Span at)
{
  return figure(book, (WhyNode){ .origin = WHY_WRITTEN, .what = what, .unit = unit, .at = at }, value);
}

Figure why_default(WhyBook *book, const char *what, double value, const char *unit, Span at, const char *basis)
{
  return figure(book, (WhyNode){ .origin = WHY_DEFAULT, .what = what, .unit = unit, .at = at, .basis = basis },
                value);
}

Figure why_computed(WhyBook *book, const char *what, double value, const char *unit, const char *formula,
                    const Figure *inputs, int count)
{
  Why ids[16];
  int used = 0;
  for (int i = 0; i < count && used < 16; i++) ids[used++] = inputs[i].why;
  return figure(book,
                (WhyNode){ .origin = WHY_COMPUTED, .what = what, .unit = unit, .formula = formula, .inputs = ids,
                           .input_count = used },
                value);
}

Figure why_worked(WhyBook *book, const char *what, const char *unit, const char *formula, WhySum sum,
                  const Figure *terms, int count)
{
  Why *inputs = arena_array(book->arena, (size_t)count + 1, sizeof *inputs);
  double *values = arena_array(book->arena, (size_t)count + 1, sizeof *values);
  for (int i = 0; i < count; i++) {
    inputs[i] = terms[i].why;
    values[i] = terms[i].value;
  }
  WhyNode node = { .origin = WHY_COMPUTED, .what = what, .unit = unit, .formula = formula, .inputs = inputs,
                   .input_count = count, .sum = sum, .terms = terms, .term_count = count };
  return figure(book, node, sum(values, count));
}

double why_total(const double *terms, int count)
{
  double total = 0;
  for (int i = 0; i < count; i++) total += terms[i];
  return total;
}

double why_product(const double *terms, int count)
{
  double product = 1;
  for (int i = 0; i < count; i++) product *= terms[i];
  return product;
}

double why_ratio(const double *terms, int count)
{
  assert(count == 2);
  (void)count;
  return terms[0] / terms[1];
}

const WhyNode *why_node(const WhyBook *book, Why why)
{
  return why == 0 || why > book->count ? NULL : &book->nodes[why];
}

uint32_t why_count(const WhyBook *book) { return book->count; }
