/* test_split.c - the price of each area: what it rests on, and that the parts make the whole. */
#include "cost/split.h"

#include "support.h"
#include "unit/cost/sample.h"

static void the_areas_make_the_price_to_the_cent(void **state)
{
  (void)state;
  static const double rounds[] = { 0, 0.01, 7, 100 };
  for (size_t i = 0; i < COUNT_OF(rounds); i++) {
    Sample *s = sample_new();
    Money parts[2];
    if (rounds[i] > 0) s->prices.round_to = sample_rate(s, "round", rounds[i], 46);
    const Cost *cost = sample_cost(s);
    assert_true(split_by_area(&s->plan, cost, s->arena, parts));
    assert_int_equal(parts[SHOP] + parts[OFFICE], cost->price);
    assert_int_equal(parts[SHOP] % MONEY_CENT, 0);
    sample_free(s);
  }
}

/* With wages alone: operators work in the shop, the finisher in the office. */
static void wages_lie_where_they_were_earned(void **state)
{
  (void)state;
  Sample *s = sample_new();
  Money parts[2];
  s->prices = (Prices){ .name = "wages",
                        .currency = "USD",
                        .labour = s->labour,
                        .labour_count = 2,
                        .tools = s->tools,
                        .tool_count = 2,
                        .materials = s->materials,
                        .material_count = 2,
                        .machines = s->machine_prices,
                        .machine_count = 3 };
  for (int i = 0; i < 2; i++) s->tools[i].per_set.money = s->silicate[i].price.money = 0;
  for (int i = 0; i < 3; i++) s->machine_prices[i].per_hour.money = s->machine_prices[i].per_day.money = 0;
  s->guard[0].price.money = 0;
  const Cost *cost = sample_cost(s);
  assert_int_equal(cost->price, DOLLARS(1646.25));
  assert_true(split_by_area(&s->plan, cost, s->arena, parts));
  assert_int_equal(parts[SHOP], DOLLARS(1441.50));
  assert_int_equal(parts[OFFICE], DOLLARS(204.75));
  sample_free(s);
}

static void what_has_no_work_behind_it_lies_on_the_floor(void **state)
{
  (void)state;
  Sample *s = sample_new();
  Money before[2], after[2];
  const Cost *without = sample_cost(s);
  assert_true(split_by_area(&s->plan, without, s->arena, before));
  s->prices.profit.given = s->prices.overhead.given = s->prices.contingency.given = false;
  s->extras[0].price = sample_rate(s, "mobilisation", 1e8, 57);
  assert_true(split_by_area(&s->plan, sample_cost(s), s->arena, after));
  double floor = s->areas[SHOP].area_m2.value / (s->areas[SHOP].area_m2.value + s->areas[OFFICE].area_m2.value);
  assert_near((double)after[SHOP] / (double)(after[SHOP] + after[OFFICE]), floor, 1e-4);
  assert_true((double)before[SHOP] / (double)without->price < floor + 0.2);
  sample_free(s);
}

static void nothing_to_split_is_refused(void **state)
{
  (void)state;
  Sample *s = sample_new();
  Cost nothing = { .currency = "USD" };
  Money parts[2] = { 1, 2 };
  assert_false(split_by_area(&s->plan, &nothing, s->arena, parts));
  assert_int_equal(parts[0], 1);
  sample_free(s);
}

static bool has_input(const WhyNode *node, Why input)
{
  for (int i = 0; i < node->input_count; i++)
    if (node->inputs[i] == input) return true;
  return false;
}

/* Of each kind of line what lies on the areas makes the lines again, and the node is the part. */
static void each_part_can_be_traced(void **state)
{
  (void)state;
  Sample *s = sample_new();
  Money parts[2];
  Why whys[2];
  const Cost *cost = sample_cost(s);
  assert_true(split_by_area(&s->plan, cost, s->arena, parts));
  assert_true(split_whys(&s->plan, cost, s->arena, s->why, whys));
  double laid = 0;
  for (int i = 0; i < 2; i++) {
    const WhyNode *node = why_node(s->why, whys[i]);
    assert_near(node->value, (double)parts[i] / MONEY_SCALE, 1e-9);
    assert_true(has_input(node, cost->why));
    for (int k = 0; k < node->input_count - 1; k++) laid += why_node(s->why, node->inputs[k])->value;
  }
  assert_near(laid, (double)cost->direct / MONEY_SCALE, 1e-6);
  const WhyNode *wages = why_node(s->why, why_node(s->why, whys[OFFICE])->inputs[0]);
  assert_string_equal(wages->what, "labour in office");
  assert_near(wages->value, 204.75, 1e-9);
  assert_true(has_input(wages, cost->lines[1].why));
  sample_free(s);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_areas_make_the_price_to_the_cent),
    cmocka_unit_test(wages_lie_where_they_were_earned),
    cmocka_unit_test(what_has_no_work_behind_it_lies_on_the_floor),
    cmocka_unit_test(nothing_to_split_is_refused),
    cmocka_unit_test(each_part_can_be_traced),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
