/* Seeded sweeps over all units: what must hold for any quantity. */
#include "support.h"

#include "base/kinds.h"
#include "base/units.h"
#include "quantity_support.h"

enum { ROUNDS = 20000 };

static uint64_t seed;

/* xorshift64*: the same sequence everywhere. */
static uint32_t next_random(uint32_t below)
{
  seed ^= seed >> 12;
  seed ^= seed << 25;
  seed ^= seed >> 27;
  return (uint32_t)((seed * 2685821657736338717u) >> 33) % below;
}

static int start_anew(void **state)
{
  (void)state;
  seed = 20251125;
  return 0;
}

static const UnitRow *random_unit(void) { return &unit_rows[next_random((uint32_t)unit_count)]; }

/* An amount as people write it: up to six figures, up to four decimals. */
static double random_amount(void)
{
  static const double scale[] = { 1, 10, 100, 1000, 10000 };
  return (double)next_random(1000000) / scale[next_random(COUNT_OF(scale))];
}

static Quantity random_quantity(const UnitRow *unit) { return quantity_of(random_amount(), unit->name); }

static void assert_same(const Quantity *a, const Quantity *b)
{
  int order = 7;
  assert_true(quantity_compare(a, b, &order, NULL));
  if (order != 0) print_error("%.17g %s against %.17g %s\n", a->value, a->unit, b->value, b->unit);
  assert_int_equal(order, 0);
}

static void what_is_printed_reads_back_the_same(void **state)
{
  (void)state;
  for (int i = 0; i < ROUNDS; i++) {
    Quantity q = random_quantity(random_unit());
    Buf text = { 0 };
    quantity_print(&q, &text);
    Quantity back = q_(buf_text(&text));
    assert_same(&q, &back);
    assert_string_equal(q.unit, back.unit);
    buf_free(&text);
  }
}

static void there_and_back_is_where_it_began(void **state)
{
  (void)state;
  for (int i = 0; i < ROUNDS; i++) {
    const UnitRow *from = random_unit(), *to = random_unit();
    if (from->kind != to->kind) continue;
    Quantity q = random_quantity(from);
    double there = NAN, back = NAN;
    assert_true(quantity_in(&q, to->name, &there, NULL));
    Quantity other = quantity_of(there, to->name);
    assert_true(quantity_in(&other, from->name, &back, NULL));
    double amount = NAN, range = q.kind == KIND_TEMPERATURE ? 500 : 0; /* degrees lose figures near their zero */
    assert_true(quantity_in(&q, from->name, &amount, NULL));
    assert_near(back, amount, 1e-15 * 4 * (fabs(amount) + range));
  }
}

static void what_was_added_can_be_taken_away_again(void **state)
{
  (void)state;
  int exact = 0;
  for (int i = 0; i < ROUNDS; i++) {
    const UnitRow *one = random_unit(), *two = random_unit();
    if (one->kind != two->kind || one->kind == KIND_TEMPERATURE || one->kind == KIND_SOUND) continue;
    Quantity a = random_quantity(one), b = random_quantity(two), sum, back;
    assert_true(quantity_add(&a, &b, &sum, NULL));
    assert_true(quantity_subtract(&sum, &b, &back, NULL));
    if (!back.exact) continue;
    assert_same(&back, &a);
    exact++;
  }
  assert_true(exact > 100);
}

static void sums_and_products_do_not_care_for_order(void **state)
{
  (void)state;
  for (int i = 0; i < ROUNDS; i++) {
    Quantity a = random_quantity(random_unit()), b = random_quantity(random_unit()), ab, ba;
    bool left = quantity_multiply(&a, &b, &ab, NULL), right = quantity_multiply(&b, &a, &ba, NULL);
    assert_int_equal(left, right);
    if (!left) continue;
    assert_int_equal(ab.kind, ba.kind);
    assert_near(ab.value, ba.value, 0);
    if (quantity_add(&a, &b, &ab, NULL)) {
      assert_true(quantity_add(&b, &a, &ba, NULL));
      assert_near(ab.value, ba.value, 0);
    }
  }
}

static void a_quotient_times_its_divisor_has_the_dimension_and_value_it_came_from(void **state)
{
  (void)state;
  for (int i = 0; i < ROUNDS; i++) {
    Quantity a = random_quantity(random_unit()), b = random_quantity(random_unit()), quotient, back;
    if (b.value == 0 || !quantity_divide(&a, &b, &quotient, NULL)) continue;
    if (!quantity_multiply(&quotient, &b, &back, NULL)) continue;
    assert_memory_equal(&back.dimension, &a.dimension, sizeof a.dimension);
    assert_near(back.value, a.value, 1e-14 * fabs(a.value));
  }
}

/* What was read of a text with some bytes changed is right through and through, or refused with a message. */
static void damaged_texts_are_read_or_refused(void **state)
{
  (void)state;
  static const char *const texts[] = { "12'-6 1/2\"", "450 sqft/gal", "$1,250.50/h", "1 per 500 sqft", "−4 °F",
                                       "3¾ in" };
  static const char bytes[] = "0123456789.,/'\"-*^$%() aefhilmnqst\xc2\xb2\xe2\x00";
  for (int i = 0; i < ROUNDS; i++) {
    char text[32];
    const char *whole = texts[next_random(COUNT_OF(texts))];
    size_t length = strlen(whole);
    memcpy(text, whole, length);
    for (uint32_t n = 1 + next_random(3); n > 0; n--)
      text[next_random((uint32_t)length)] = bytes[next_random(sizeof bytes)];
    Quantity q;
    QuantityError error;
    if (!quantity_read(text, length, (UnitRules){ 0 }, &q, &error)) {
      assert_true(error.message[0] && error.begin <= error.end && error.end <= length);
      continue;
    }
    Buf printed = { 0 };
    quantity_print(&q, &printed);
    Quantity back = q_(buf_text(&printed));
    assert_memory_equal(&back.dimension, &q.dimension, sizeof q.dimension);
    buf_free(&printed);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test_setup(what_is_printed_reads_back_the_same, start_anew),
    cmocka_unit_test_setup(there_and_back_is_where_it_began, start_anew),
    cmocka_unit_test_setup(what_was_added_can_be_taken_away_again, start_anew),
    cmocka_unit_test_setup(sums_and_products_do_not_care_for_order, start_anew),
    cmocka_unit_test_setup(a_quotient_times_its_divisor_has_the_dimension_and_value_it_came_from, start_anew),
    cmocka_unit_test_setup(damaged_texts_are_read_or_refused, start_anew),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
