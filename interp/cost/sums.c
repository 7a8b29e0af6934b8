#include "cost/sums.h"

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

Figure sum_figure(const Sum *sum, WhyBook *why, const char *what, const char *unit, const char *formula)
{
  WhyNode node = { .origin = WHY_COMPUTED, .what = what, .value = sum->value, .low = sum->value, .high = sum->value,
                   .unit = unit, .formula = formula, .inputs = sum->inputs, .input_count = sum->input_count };
  return (Figure){ sum->value, why_add(why, &node) };
}

Behind sum_behind(const Sum *sum) { return (Behind){ sum->index, sum->count }; }
