#include "base/reckon.h"

#include <string.h>

#include "base/mem.h"

typedef struct {
  WhySum sum;
  int first, count; /* its terms, in `terms` */
} Op;

/* The array: varied values, results of the ops in their order, constants, and room to line terms up. */
struct Reckoning {
  int varied_count, op_count, constant_count, wanted_count, most_terms;
  Op *ops;
  int *terms;  /* places in the array */
  int *wanted; /* likewise */
  bool *uses;  /* by varied */
  double *constants;
};

typedef struct {
  const WhyBook *book;
  Reckoning *r;
  bool *needed, *depends; /* by node */
  int *place;             /* by node; -1: none yet */
  int term_count;
} Layout;

static bool is_worked(const Layout *x, Why why) { return x->place[why] < 0 && why_node(x->book, why)->sum != NULL; }

/* Nodes come after what they rest on: downwards for what is needed, upwards for what depends on the varied. */
static void mark(Layout *x)
{
  uint32_t last = why_count(x->book);
  for (Why why = last; why > 0; why--) {
    const WhyNode *node = why_node(x->book, why);
    for (int i = 0; x->needed[why] && is_worked(x, why) && i < node->term_count; i++)
      x->needed[node->terms[i].why] = true;
  }
  x->depends[0] = false;
  for (Why why = 1; why <= last; why++) {
    const WhyNode *node = why_node(x->book, why);
    if (x->place[why] >= 0) x->depends[why] = true;
    for (int i = 0; is_worked(x, why) && i < node->term_count; i++)
      if (x->depends[node->terms[i].why]) x->depends[why] = true;
  }
}

static void count_ops(Layout *x)
{
  for (Why why = 1; why <= why_count(x->book); why++) {
    if (!x->needed[why] || !x->depends[why] || x->place[why] >= 0) continue;
    const WhyNode *node = why_node(x->book, why);
    x->r->op_count++;
    x->term_count += node->term_count;
    if (node->term_count > x->r->most_terms) x->r->most_terms = node->term_count;
  }
}

static int constant(Reckoning *r, double value)
{
  r->constants[r->constant_count] = value;
  return r->varied_count + r->op_count + r->constant_count++;
}

static int place_of(Layout *x, Figure term)
{
  return x->depends[term.why] ? x->place[term.why] : constant(x->r, term.value);
}

static void lay_out(Layout *x)
{
  Reckoning *r = x->r;
  int op = 0, term = 0;
  for (Why why = 1; why <= why_count(x->book); why++) {
    if (!x->needed[why] || !x->depends[why] || x->place[why] >= 0) continue;
    const WhyNode *node = why_node(x->book, why);
    r->ops[op] = (Op){ node->sum, term, node->term_count };
    for (int i = 0; i < node->term_count; i++) r->terms[term++] = place_of(x, node->terms[i]);
    x->place[why] = r->varied_count + op++;
  }
}

static void take_wanted(Layout *x, const Why *wanted)
{
  Reckoning *r = x->r;
  for (int i = 0; i < r->wanted_count; i++) {
    const WhyNode *node = why_node(x->book, wanted[i]);
    r->wanted[i] = place_of(x, (Figure){ node ? node->value : 0, wanted[i] });
  }
}

Reckoning *reckoning_new(const WhyBook *book, const Why *varied, int varied_count, const Why *wanted,
                         int wanted_count)
{
  Reckoning *r = mem_alloc(sizeof *r);
  size_t nodes = (size_t)why_count(book) + 1;
  Layout x = { .book = book, .r = r, .needed = mem_array(nodes, sizeof *x.needed),
               .depends = mem_array(nodes, sizeof *x.depends), .place = mem_array(nodes, sizeof *x.place) };
  for (size_t i = 0; i < nodes; i++) x.place[i] = -1;
  for (int i = 0; i < varied_count; i++) x.place[varied[i]] = i;
  for (int i = 0; i < wanted_count; i++) x.needed[wanted[i]] = true;
  r->varied_count = varied_count;
  r->wanted_count = wanted_count;
  mark(&x);
  count_ops(&x);
  r->ops = mem_array((size_t)r->op_count, sizeof *r->ops);
  r->terms = mem_array((size_t)x.term_count, sizeof *r->terms);
  r->constants = mem_array((size_t)(x.term_count + wanted_count), sizeof *r->constants);
  r->wanted = mem_array((size_t)wanted_count, sizeof *r->wanted);
  r->uses = mem_array((size_t)varied_count, sizeof *r->uses);
  lay_out(&x);
  take_wanted(&x, wanted);
  for (int i = 0; i < varied_count; i++) r->uses[i] = x.needed[varied[i]];
  mem_free(x.needed);
  mem_free(x.depends);
  mem_free(x.place);
  return r;
}

void reckoning_free(Reckoning *r)
{
  if (r == NULL) return;
  mem_free(r->ops);
  mem_free(r->terms);
  mem_free(r->constants);
  mem_free(r->wanted);
  mem_free(r->uses);
  mem_free(r);
}

bool reckoning_uses(const Reckoning *r, int varied) { return r->uses[varied]; }

double *reckoning_array(const Reckoning *r)
{
  int before = r->varied_count + r->op_count;
  double *array = mem_array((size_t)(before + r->constant_count + r->most_terms), sizeof *array);
  if (r->constant_count > 0) memcpy(array + before, r->constants, (size_t)r->constant_count * sizeof *array);
  return array;
}

void reckoning_run(const Reckoning *r, double *array)
{
  double *results = array + r->varied_count, *lined_up = results + r->op_count + r->constant_count;
  for (int i = 0; i < r->op_count; i++) {
    const Op *op = &r->ops[i];
    const int *places = r->terms + op->first;
    for (int k = 0; k < op->count; k++) lined_up[k] = array[places[k]];
    results[i] = op->sum(lined_up, op->count);
  }
}

int reckoning_place(const Reckoning *r, int wanted) { return r->wanted[wanted]; }
