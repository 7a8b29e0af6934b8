/* test_terms.c - amounts beside their formulas: what a simulation works out again is what the price says. */
#include "support.h"

#include "base/mem.h"
#include "unit/cost/sample.h"

enum { TRIALS = 400 };

/* The value that a node's formula makes of the values of its terms. */
static double worked_again(const WhyNode *node)
{
  double *terms = mem_array((size_t)node->term_count, sizeof *terms);
  for (int i = 0; i < node->term_count; i++) terms[i] = node->terms[i].value;
  double value = node->sum(terms, node->term_count);
  mem_free(terms);
  return value;
}

/* Amounts are whole cents, and a quantity counts with two decimals before its rate is applied. */
static double rounding_of(const WhyNode *node)
{
  double most = 0.006;
  if (node->sum == why_product)
    for (int i = 0; i < node->term_count; i++) most += 0.0051 * fabs(node->terms[i].value);
  return most;
}

static void check_every_formula(Sample *s)
{
  const Cost *cost = sample_cost(s);
  assert_true(cost->complete);
  int worked = 0;
  for (Why why = 1; why <= why_count(s->why); why++) {
    const WhyNode *node = why_node(s->why, why);
    if (!node->sum || strcmp(node->unit, cost->currency) != 0) continue;
    assert_near(worked_again(node), node->value, rounding_of(node));
    worked++;
  }
  assert_true(worked > cost->line_count);
  assert_near(why_node(s->why, cost->why)->value, (double)cost->price / MONEY_SCALE, 1e-9);
}

static void formulas_of_shares_give_their_amounts(void **state)
{
  (void)state;
  static const ProfitRule rules[] = { PROFIT_MARGIN, PROFIT_MARKUP };
  for (size_t i = 0; i < COUNT_OF(rules); i++) {
    Sample *s = sample_new();
    s->prices.profit_rule = rules[i];
    check_every_formula(s);
    sample_free(s);
  }
}

static void the_formula_of_a_contingency_from_risk_gives_its_amount(void **state)
{
  (void)state;
  static const double rates[][3] = { { 0.8, 1, 1.1 }, { 1.1, 1.2, 1.3 } }; /* never slower than planned: nothing */
  for (size_t i = 0; i < COUNT_OF(rates); i++) {
    Sample *s = sample_new();
    sample_uncertain(s, TRIALS);
    s->prices.contingency = (Percent){ 0 };
    s->prices.certainty = sample_maybe(s, "certainty", 0.8, "", 45);
    s->job.risk.production = sample_estimate(s, "production", rates[i][0], rates[i][1], rates[i][2]);
    check_every_formula(s);
    sample_free(s);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(formulas_of_shares_give_their_amounts),
    cmocka_unit_test(the_formula_of_a_contingency_from_risk_gives_its_amount),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
