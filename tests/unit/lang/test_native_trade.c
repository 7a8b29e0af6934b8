/* test_native_trade.c - the rows that scripts reach the trade library by: none left out, none without words. */
#include "support.h"

#include <string.h>

#include "base/quantity.h"
#include "lang/native_trade.h"
#include "lang/stdlib.h"

static const char *formula_of(const TradeRow *row)
{
  if (row->formula) return row->formula;
  return trade_formula(row->name) ? row->name : NULL;
}

static void every_formula_is_reached_by_a_function(void **state)
{
  (void)state;
  for (size_t f = 0; trade_formula_at(f); f++) {
    bool reached = false;
    for (size_t i = 0; native_trade_at(i) && !reached; i++) {
      const char *id = formula_of(native_trade_at(i));
      reached = id && strcmp(id, trade_formula_at(f)->id) == 0;
    }
    if (!reached) fail_msg("no function of native_trade*.c rests on %s", trade_formula_at(f)->id);
  }
}

/* A row without a formula looks a table of the core up; its answers name that table's source. */
static void every_function_says_what_it_is_for(void **state)
{
  (void)state;
  for (size_t i = 0; native_trade_at(i); i++) {
    const TradeRow *row = native_trade_at(i);
    if (!formula_of(row) && !row->says) fail_msg("%s has neither a formula nor words of its own", row->name);
    if (row->formula) assert_non_null(trade_formula(row->formula));
    for (size_t other = 0; other < i; other++)
      assert_string_not_equal(native_trade_at(other)->name, row->name);
  }
}

static bool is_one_of(const char *word, const char *const *words, size_t count)
{
  for (size_t i = 0; i < count; i++)
    if (strcmp(words[i], word) == 0) return true;
  return false;
}

static void check_unit(const char *row, const char *name, const char *kind_called, const char *unit)
{
  static const char *const plain[] = { "number", "whole", "flag", "text", "texts", "grit", "word", "list" };
  Kind kind;
  if (is_one_of(kind_called, plain, COUNT_OF(plain)) || strchr(kind_called, '|')) return;
  if (!kind_find(kind_called, &kind)) fail_msg("%s, %s: no kind is called %s", row, name, kind_called);
  if (*unit == '\0') {
    assert_true(kind == KIND_FRACTION || kind == KIND_MONEY);
    return;
  }
  Quantity q = quantity_of(1, unit), same;
  QuantityError error;
  if (!quantity_as(&q, kind, &same, &error)) fail_msg("%s, %s: %s", row, name, error.message);
}

static void check_input(const char *row, const TradeInput *input)
{
  if (!input->kind || !input->says) fail_msg("%s: %s has no kind or no words", row, input->name);
  if (!input->example && !input->may_lack) fail_msg("%s: %s has no example", row, input->name);
  if (input->otherwise && !input->basis) fail_msg("%s: the default of %s has no basis", row, input->name);
  if (strcmp(input->kind, "word") == 0) assert_non_null(input->word);
  check_unit(row, input->name, input->kind, input->unit ? input->unit : "");
  for (const TradeInput *column = input->columns; column && column->name; column++) check_input(row, column);
}

static void inputs_and_outputs_are_of_known_kinds_in_units_of_those_kinds(void **state)
{
  (void)state;
  for (size_t i = 0; native_trade_at(i); i++) {
    const TradeRow *row = native_trade_at(i);
    for (const TradeInput *input = row->in; input->name; input++) check_input(row->name, input);
    for (const TradeOutput *output = row->out; output->name; output++) {
      const char *unit = output->unit ? output->unit : "";
      check_unit(row->name, output->name, output->kind, unit);
      if (output->us) check_unit(row->name, output->name, output->kind, output->us);
    }
  }
}

static bool is_in_library(const char *module, size_t length)
{
  for (const StdlibModule *m = stdlib_modules; m->name; m++)
    if (strncmp(m->name, "std.", 4) == 0 && strncmp(m->name + 4, module, length) == 0 &&
        m->name[4 + length] == '\0')
      return true;
  return false;
}

static void every_module_can_be_required(void **state)
{
  (void)state;
  for (size_t i = 0; native_trade_at(i); i++) {
    const char *name = native_trade_at(i)->name;
    if (!is_in_library(name, strcspn(name, "."))) fail_msg("there is no stdlib/std file for %s", name);
  }
}

static void every_module_of_the_library_has_functions(void **state)
{
  (void)state;
  for (const StdlibModule *m = stdlib_modules; m->name; m++) {
    if (strncmp(m->name, "std.", 4) != 0) continue;
    size_t length = strlen(m->name + 4);
    bool has = false;
    for (size_t i = 0; native_trade_at(i); i++) {
      const char *name = native_trade_at(i)->name;
      has = has || (strncmp(name, m->name + 4, length) == 0 && name[length] == '.');
    }
    if (!has) fail_msg("%s has no function", m->name);
  }
}

/* ---- what a script could give, without pattern but the same each time */

static uint32_t dice(uint32_t sides)
{
  static uint32_t state = 1;
  state = state * 1664525u + 1013904223u;
  return (state >> 8) % sides;
}

static size_t count_words(const TradeInput *input)
{
  size_t count = 1;
  if (!input->word) {
    for (const char *c = input->kind; *c; c++) count += *c == '|';
    return count;
  }
  for (count = 0; input->word(count);) count++;
  return count;
}

static Given some_value(const TradeInput *input)
{
  static const double numbers[] = { 0, 1, 2, 0.5, 20, 400, 1e6, 1e300, -1, -1e300 };
  static const char *const grits[] = { "400", "P80", "D126", "No. 200", "no grit" };
  if (input->may_lack && dice(3) == 0) return (Given){ .lacks = true };
  if (strcmp(input->kind, "grit") == 0 || strcmp(input->kind, "text") == 0)
    return (Given){ .text = grits[dice(COUNT_OF(grits))] };
  if (strcmp(input->kind, "flag") == 0) return (Given){ .x = dice(2) };
  if (input->word || strchr(input->kind, '|')) return (Given){ .x = dice((uint32_t)count_words(input)) };
  return (Given){ .x = numbers[dice(COUNT_OF(numbers))] };
}

enum { CELLS = 8 * TRADE_ROWS_MOST };

static Given some_list(const TradeInput *columns, Given *cells)
{
  static const size_t rows[] = { 0, 1, 2, 4, 4, TRADE_ROWS_MOST };
  Given list = { .cells = cells, .count = rows[dice(COUNT_OF(rows))] };
  for (size_t r = 0; r < list.count; r++)
    for (const TradeInput *column = columns; column->name; column++) *cells++ = some_value(column);
  return list;
}

static void call_with_something(const TradeRow *row)
{
  static Given cells[4][CELLS];
  static double lists[8][TRADE_ROWS_MOST];
  Given given[24];
  Answer answers[24];
  TradeError error = { 0 };
  int lists_given = 0, lists_wanted = 0, i;
  for (i = 0; row->in[i].name; i++)
    given[i] = row->in[i].columns ? some_list(row->in[i].columns, cells[lists_given++]) : some_value(&row->in[i]);
  for (i = 0; row->out[i].name; i++)
    answers[i] = (Answer){ .x = NAN, .cells = row->out[i].is_list ? lists[lists_wanted++] : NULL };
  bool answered = row->call(given, answers, &error);
  if (answered && !answers[0].text && !answers[0].cells && isnan(answers[0].x))
    fail_msg("%s answers nothing", row->name);
  if (!answered && !error.argument) fail_msg("%s refuses and does not say what", row->name);
}

/* Under the sanitizers this is where an overflow that a script could reach shows. */
static void whatever_a_script_gives_is_answered_or_refused(void **state)
{
  (void)state;
  for (size_t i = 0; native_trade_at(i); i++)
    for (int times = 0; times < 200; times++) call_with_something(native_trade_at(i));
}

static void whole_numbers_past_an_int_stay_past_every_range(void **state)
{
  (void)state;
  assert_int_equal(given_whole((Given){ .x = 7 }), 7);
  assert_int_equal(given_whole((Given){ .x = 1e300 }), 1000000000);
  assert_int_equal(given_whole((Given){ .x = -1e300 }), -1000000000);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(every_formula_is_reached_by_a_function),
    cmocka_unit_test(every_function_says_what_it_is_for),
    cmocka_unit_test(inputs_and_outputs_are_of_known_kinds_in_units_of_those_kinds),
    cmocka_unit_test(every_module_can_be_required),
    cmocka_unit_test(every_module_of_the_library_has_functions),
    cmocka_unit_test(whatever_a_script_gives_is_answered_or_refused),
    cmocka_unit_test(whole_numbers_past_an_int_stay_past_every_range),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
