/* test_contingency.c - a contingency for a certainty: what the simulation says, once more and in cents. */
#include "support.h"

#include <string.h>

#include "unit/cost/sample.h"

enum { TRIALS = 400, CERTAINTY_LINE = 45 };

/* The bakery at 80 % certainty, its crew between these rates. */
static Sample *bakery(double slow, double likely, double fast)
{
  Sample *s = sample_new();
  sample_uncertain(s, TRIALS);
  s->prices.contingency = (Percent){ 0 };
  s->prices.certainty = sample_maybe(s, "certainty", 0.8, "", CERTAINTY_LINE);
  if (slow < fast) s->job.risk.production = sample_estimate(s, "production", slow, likely, fast);
  return s;
}

static const CostLine *contingency_of(const Cost *cost)
{
  for (int i = 0; i < cost->build_count; i++)
    if (cost->build[i].kind == LINE_CONTINGENCY) return &cost->build[i];
  return NULL;
}

static const Diag *finding(const Sample *s, const char *code)
{
  for (size_t i = 0; i < diags_count(s->diags); i++)
    if (strcmp(diags_get(s->diags, i)->code, code) == 0) return diags_get(s->diags, i);
  return NULL;
}

static void it_is_what_the_simulation_says_to_the_cent(void **state)
{
  (void)state;
  static const double certainties[] = { 0.5, 0.8, 0.99 };
  Money before = -1;
  for (size_t i = 0; i < COUNT_OF(certainties); i++) {
    Sample *s = bakery(0.8, 1, 1.1);
    s->prices.certainty.figure.value = s->job.risk.certainty = certainties[i];
    s->job.risk.certainty_given = true;
    const Cost *cost = sample_cost(s);
    const Risk *risk = sample_risk(s, 1);
    const CostLine *line = contingency_of(cost);
    assert_near((double)line->amount / MONEY_SCALE, risk->contingency, 0.0051);
    assert_int_equal(line->amount % MONEY_CENT, 0);
    assert_int_equal(cost->cost, cost->planned + line->amount);
    assert_true(line->amount > before); /* more certainty costs more */
    before = line->amount;
    sample_free(s);
  }
}

static void the_proposal_of_a_simulation_follows_the_price_book(void **state)
{
  (void)state;
  Sample *s = bakery(0.8, 1, 1.1);
  s->prices.certainty.figure.value = 0.9;
  const Risk *risk = sample_risk(s, 1);
  assert_near(risk->certainty, 0.9, 0);
  assert_near(risk->covered, 0.9, 1.0 / TRIALS);
  s->job.risk.certainty = 0.6; /* what the job says comes first */
  s->job.risk.certainty_given = true;
  assert_near(sample_risk(s, 1)->certainty, 0.6, 0);
  sample_free(s);
}

static void it_is_the_same_every_time_on_any_number_of_threads(void **state)
{
  (void)state;
  static const int threads[] = { 1, 2, 5 };
  Money want = 0;
  for (size_t i = 0; i < COUNT_OF(threads); i++) {
    Sample *s = bakery(0.8, 1, 1.1);
    Takeoff *takeoff = takeoff_count(&s->plan, s->arena, s->why);
    Money got = contingency_of(cost_price(takeoff, threads[i], s->arena, s->why, s->diags))->amount;
    Money again = contingency_of(cost_price(takeoff, threads[i], s->arena, s->why, s->diags))->amount;
    if (i == 0) want = got;
    assert_true(got > 0 && got == want && again == want);
    sample_free(s);
  }
}

static void a_plan_that_is_sure_enough_takes_nothing(void **state)
{
  (void)state;
  Sample *s = bakery(1.1, 1.2, 1.3); /* faster than planned at its slowest */
  const CostLine *line = contingency_of(sample_cost(s));
  assert_int_equal(line->amount, 0);
  assert_non_null(strstr(line->basis, "which is enough"));
  sample_free(s);
}

static void the_line_says_what_it_rests_on(void **state)
{
  (void)state;
  Sample *s = bakery(0.8, 1, 1.1);
  const Cost *cost = sample_cost(s);
  const CostLine *line = contingency_of(cost);
  assert_string_equal(line->code, "CONTINGENCY");
  assert_false(line->share);
  assert_int_equal(line->quantity, AMOUNT_SCALE);
  assert_int_equal(line->rate, line->amount);
  assert_non_null(strstr(line->basis, "in 80 % of 400 trials (seed 1, pert)"));
  assert_int_equal(sources_place(s->sources, line->at.source, line->at.begin).line, CERTAINTY_LINE);
  sample_free(s);
}

static bool leads_to(const WhyBook *book, Why from, Why to)
{
  const WhyNode *node = why_node(book, from);
  for (int i = 0; i < node->input_count; i++)
    if (node->inputs[i] == to || leads_to(book, node->inputs[i], to)) return true;
  return false;
}

/* The default below a node that is about this; 0 if there is none. */
static Why default_below(const WhyBook *book, Why from, const char *what)
{
  for (Why why = 1; why <= why_count(book); why++) {
    const WhyNode *node = why_node(book, why);
    if (node->origin == WHY_DEFAULT && strcmp(node->what, what) == 0 && leads_to(book, from, why)) return why;
  }
  return 0;
}

static void its_why_goes_down_to_what_was_written(void **state)
{
  (void)state;
  Sample *s = bakery(0.8, 1, 1.1);
  s->job.risk.rework = sample_estimate(s, "rework", 0.1, 0.1, 0.1);
  const Cost *cost = sample_cost(s);
  Why why = contingency_of(cost)->why;
  const Why sources[] = { s->prices.certainty.figure.why, s->job.risk.production.figure.why,
                          s->job.risk.rework.figure.why,  s->labour[0].per_hour.why,
                          s->prices.overhead.why,         cost->planned_why };
  for (size_t i = 0; i < COUNT_OF(sources); i++) assert_true(leads_to(s->why, why, sources[i]));
  assert_true(leads_to(s->why, cost->why, why));
  assert_false(leads_to(s->why, cost->planned_why, why)); /* what is simulated has no contingency in it */
  sample_free(s);
}

static void trials_and_seed_are_assumptions_unless_the_job_says_them(void **state)
{
  (void)state;
  Sample *s = bakery(0.8, 1, 1.1);
  Why why = contingency_of(sample_cost(s))->why;
  assert_near(why_node(s->why, default_below(s->why, why, "trials of the simulation"))->value, TRIALS, 0);
  assert_true(default_below(s->why, why, "seed of the simulation"));
  s->job.risk.trials_why = sample_written(s, "trials", TRIALS, "", 4).why;
  why = contingency_of(sample_cost(s))->why;
  assert_false(default_below(s->why, why, "trials of the simulation"));
  assert_true(leads_to(s->why, why, s->job.risk.trials_why));
  sample_free(s);
}

static void a_job_without_anything_uncertain_has_no_price(void **state)
{
  (void)state;
  Sample *s = bakery(1, 1, 1);
  assert_false(sample_cost(s)->complete);
  const Diag *d = finding(s, "risk-nothing");
  assert_int_equal(d->level, DIAG_ERROR);
  assert_int_equal(sources_place(s->sources, d->at.source, d->at.begin).line, CERTAINTY_LINE);
  sample_free(s);
}

static void a_plan_without_a_schedule_has_no_price(void **state)
{
  (void)state;
  Sample *s = bakery(0.8, 1, 1.1);
  s->plan.bookings = NULL;
  assert_false(sample_cost(s)->complete);
  assert_non_null(finding(s, "risk-schedule"));
  sample_free(s);
}

static void the_direct_cost_alone_is_the_same_without_a_simulation(void **state)
{
  (void)state;
  Sample *s = bakery(1, 1, 1); /* a simulation would be refused */
  Takeoff *takeoff = takeoff_count(&s->plan, s->arena, s->why);
  Cost *direct = cost_direct(takeoff, s->arena, s->why, s->diags);
  assert_true(direct->complete);
  assert_int_equal(diags_count(s->diags), 0);
  assert_int_equal(direct->direct, cost_price(takeoff, 1, s->arena, s->why, s->diags)->direct);
  assert_int_equal(direct->price, 0);
  sample_free(s);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(it_is_what_the_simulation_says_to_the_cent),
    cmocka_unit_test(the_proposal_of_a_simulation_follows_the_price_book),
    cmocka_unit_test(it_is_the_same_every_time_on_any_number_of_threads),
    cmocka_unit_test(a_plan_that_is_sure_enough_takes_nothing),
    cmocka_unit_test(the_line_says_what_it_rests_on),
    cmocka_unit_test(its_why_goes_down_to_what_was_written),
    cmocka_unit_test(trials_and_seed_are_assumptions_unless_the_job_says_them),
    cmocka_unit_test(a_job_without_anything_uncertain_has_no_price),
    cmocka_unit_test(a_plan_without_a_schedule_has_no_price),
    cmocka_unit_test(the_direct_cost_alone_is_the_same_without_a_simulation),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
