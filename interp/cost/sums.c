#include "cost/sums.h"

#include "base/mem.h"

Sum sum_begin(const Plan *plan, Arena *arena)
{
  size_t most = (size_t)plan->activity_count + (size_t)plan->job->area_count;
  return (Sum){ .inputs = arena_array(arena, most, sizeof(Why)), .index = arena_array(arena, most, sizeof(int)) };
}

void sum_add(Sum *sum, int activity, double value, Why input)
{
  sum->value += value;
  if (sum->count > 0 && sum->index[sum->count - 1] == activity) return;
  sum->index[sum->count++] = activity;
  if (input != 0) sum->inputs[sum->input_count++] = input;
}

static WhyNode sum_node(const Sum *sum, const char *what, const char *unit, const char *formula)
{
  return (WhyNode){ .origin = WHY_COMPUTED, .what = what, .value = sum->value, .low = sum->value,
                    .high = sum->value, .unit = unit, .formula = formula, .inputs = sum->inputs,
                    .input_count = sum->input_count };
}

Figure sum_figure(const Sum *sum, WhyBook *why, const char *what, const char *unit, const char *formula)
{
  WhyNode node = sum_node(sum, what, unit, formula);
  return (Figure){ sum->value, why_add(why, &node) };
}

Figure sum_total(const Sum *sum, WhyBook *why, const char *what, const char *unit, const char *formula)
{
  WhyNode node = sum_node(sum, what, unit, formula);
  Figure *terms = mem_array((size_t)sum->input_count + 1, sizeof *terms);
  double known = 0;
  for (int i = 0; i < sum->input_count; i++) {
    terms[i] = (Figure){ why_node(why, sum->inputs[i])->value, sum->inputs[i] };
    known += terms[i].value;
  }
  terms[sum->input_count] = (Figure){ sum->value - known, 0 }; /* what came without a node */
  node.sum = why_total;
  node.terms = terms;
  node.term_count = sum->input_count + 1;
  Figure total = { sum->value, why_add(why, &node) };
  mem_free(terms);
  return total;
}

Behind sum_behind(const Sum *sum) { return (Behind){ sum->index, sum->count }; }
