/* test_why.c - derivations down to what was written, and the list of what was not. */
#include "support.h"

#include <stdio.h>
#include <string.h>

#include "report/report.h"
#include "trade/trade.h"
#include "unit/cost/sample.h"

static Figure computed(Sample *s, const char *what, double value, const char *formula, Figure a, Figure b)
{
  return why_computed(s->why, what, value, "m", formula, (Figure[]){ a, b }, 2);
}

static void a_derivation_goes_down_to_what_was_written(void **state)
{
  (void)state;
  Sample *s = sample_new();
  Figure head = sample_written(s, "head", 0.8, "m", 10);
  Figure overlap = why_default(s->why, "overlap", 0.05, "m", sample_at(s, 20), "common practice, no source");
  WhyNode entry = { .origin = WHY_CATALOGUE, .what = "skirt", .value = 0.02, .low = 0.01, .high = 0.03, .unit = "m",
                    .basis = "machines, planetary" };
  Figure skirt = { 0.02, why_add(s->why, &entry) };
  Figure width = computed(s, "effective width", 0.75, "head - overlap", head, overlap);
  Figure swath = computed(s, "swath", 0.73, "width - skirt", width, skirt);
  Buf out = { 0 };
  report_why_text(s->why, s->sources, UNITS_METRIC, swath.why, 80, &out);
  assert_string_equal(buf_text(&out),
                      "swath = 0.73 m (730 mm); computed: width - skirt\n"
                      "  - effective width = 0.75 m (750 mm); computed: head - overlap\n"
                      "    - head = 0.8 m (800 mm); written at jobs/bakery.lua:10:1\n"
                      "    - overlap = 0.05 m (50 mm); assumed: common practice, no source\n"
                      "  - skirt = 0.02 m (20 mm), from 0.01 to 0.03; catalogue: machines, planetary\n");
  buf_free(&out);
  sample_free(s);
}

static void a_shared_part_is_derived_once(void **state)
{
  (void)state;
  Sample *s = sample_new();
  Figure floor = sample_written(s, "floor", 100, "m2", 14);
  Figure part = why_computed(s->why, "lanes", 12, "", "floor / width", &floor, 1);
  Figure whole = computed(s, "path", 24, "lanes + lanes", part, part);
  Buf out = { 0 };
  report_why_text(s->why, s->sources, UNITS_METRIC, whole.why, 80, &out);
  assert_string_equal(buf_text(&out), "path = 24 m; computed: lanes + lanes\n"
                                      "  - lanes = 12; computed: floor / width\n"
                                      "    - floor = 100 m2; written at jobs/bakery.lua:14:1\n"
                                      "  - lanes = 12, as above\n");
  buf_free(&out);
  sample_free(s);
}

static void a_formula_of_the_trade_library_is_spelled_out(void **state)
{
  (void)state;
  Sample *s = sample_new();
  const TradeFormula *formula = trade_formula_at(0);
  Figure figure = why_computed(s->why, "figure", 1, "", formula->id, NULL, 0);
  Buf out = { 0 }, want = { 0 };
  report_why_text(s->why, s->sources, UNITS_METRIC, figure.why, 2000, &out);
  buf_printf(&want, "figure = 1; computed: %s (%s; %s: %s)\n", formula->says, formula->id,
             basis_status_name(formula->basis.status), formula->basis.source);
  assert_string_equal(buf_text(&out), buf_text(&want));
  buf_free(&out);
  buf_free(&want);
  sample_free(s);
}

static void a_figure_without_a_node_has_no_derivation(void **state)
{
  (void)state;
  Sample *s = sample_new();
  Buf out = { 0 };
  report_why_text(s->why, s->sources, UNITS_METRIC, 0, 80, &out);
  report_why_text(s->why, s->sources, UNITS_METRIC, why_count(s->why) + 1, 80, &out);
  assert_string_equal(buf_text(&out), "nothing is known about this figure\nnothing is known about this figure\n");
  buf_free(&out);
  sample_free(s);
}

static void a_long_chain_stays_within_the_width(void **state)
{
  (void)state;
  Sample *s = sample_new();
  Figure figure = sample_written(s, "start", 1, "m", 1);
  for (int i = 0; i < 500; i++) figure = why_computed(s->why, "and so on", i, "m", "the one before", &figure, 1);
  Buf out = { 0 };
  report_why_text(s->why, s->sources, UNITS_METRIC, figure.why, 80, &out);
  for (const char *line = buf_text(&out); *line; line += strcspn(line, "\n") + 1)
    assert_true(strcspn(line, "\n") <= 80);
  assert_non_null(strstr(buf_text(&out), "start = 1 m"));
  buf_free(&out);
  sample_free(s);
}

/* ---- assumptions */

static int mentions(const Buf *text, const char *what)
{
  int count = 0;
  for (const char *at = buf_text(text); (at = strstr(at, what)); at++) count++;
  return count;
}

static void an_assumption_is_listed_if_and_only_if_it_is_used(void **state)
{
  (void)state;
  Sample *s = sample_new();
  Figure used = why_default(s->why, "turn time", 0.2, "min", sample_at(s, 22), "common practice, no source");
  why_default(s->why, "nobody's default", 1, "", sample_at(s, 22), "common practice, no source");
  s->activities[FINE].minutes = why_computed(s->why, "minutes", 390, "min", "lanes x turn", &used, 1);
  Buf out = { 0 };
  report_assumptions_text(&s->plan, NULL, s->why, s->sources, 80, &out);
  assert_int_equal(mentions(&out, "turn time = 0.2 min (12 s)\n"
                                  "    common practice, no source; missing at jobs/bakery.lua:22:1\n"), 1);
  assert_int_equal(mentions(&out, "nobody's default"), 0);
  assert_int_equal(mentions(&out, "standing time"), 0); /* of the cost, which was not given */
  buf_free(&out);
  sample_free(s);
}

static void the_same_assumption_in_many_places_is_listed_once(void **state)
{
  (void)state;
  Sample *s = sample_new();
  const int takes[] = { OPEN, FINE, BUFF };
  for (size_t i = 0; i < COUNT_OF(takes); i++)
    s->activities[takes[i]].minutes =
      why_default(s->why, "turn time", 0.2, "min", sample_at(s, 22 + (int)i), "a guess");
  Buf out = { 0 };
  report_assumptions_text(&s->plan, NULL, s->why, s->sources, 80, &out);
  assert_int_equal(mentions(&out, "turn time"), 1);
  assert_int_equal(mentions(&out, "a guess; missing at jobs/bakery.lua:22:1 and 2 more places"), 1);
  buf_free(&out);
  sample_free(s);
}

static void the_same_default_of_several_steps_is_one_assumption(void **state)
{
  (void)state;
  static const char *const whats[] = { "turn of machine \"a\"", "turn of machine \"b\"", "duty of machine \"a\"" };
  const int takes[] = { OPEN, FINE, BUFF };
  Sample *s = sample_new();
  for (size_t i = 0; i < COUNT_OF(takes); i++)
    s->activities[takes[i]].minutes = why_default(s->why, whats[i], 0.5, "", sample_at(s, 10), "a guess");
  Buf out = { 0 };
  report_assumptions_text(&s->plan, NULL, s->why, s->sources, 80, &out);
  assert_int_equal(mentions(&out, "- turn = 0.5 for machine \"a\", machine \"b\"\n"), 1);
  assert_int_equal(mentions(&out, "- duty = 0.5 for machine \"a\"\n"), 1); /* another thing of the same value */
  buf_free(&out);
  sample_free(s);
}

static void a_job_that_says_everything_assumes_nothing(void **state)
{
  (void)state;
  Sample *s = sample_new();
  s->activities[SURVEY].readings = s->activities[SHEEN].readings = sample_written(s, "readings", 5, "", 20);
  Buf out = { 0 };
  report_assumptions_text(&s->plan, NULL, s->why, s->sources, 80, &out);
  assert_int_equal(mentions(&out, "\nnothing\n"), 1);
  buf_free(&out);
  sample_free(s);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_derivation_goes_down_to_what_was_written),
    cmocka_unit_test(a_shared_part_is_derived_once),
    cmocka_unit_test(a_formula_of_the_trade_library_is_spelled_out),
    cmocka_unit_test(a_figure_without_a_node_has_no_derivation),
    cmocka_unit_test(a_long_chain_stays_within_the_width),
    cmocka_unit_test(an_assumption_is_listed_if_and_only_if_it_is_used),
    cmocka_unit_test(the_same_assumption_in_many_places_is_listed_once),
    cmocka_unit_test(the_same_default_of_several_steps_is_one_assumption),
    cmocka_unit_test(a_job_that_says_everything_assumes_nothing),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
