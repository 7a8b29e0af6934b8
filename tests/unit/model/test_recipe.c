/* test_recipe.c - the words of steps. */
#include "model/recipe.h"

#include "support.h"

static void every_word_is_found_by_its_name(void **state)
{
  (void)state;
  for (int i = 0; i < STEP_WORDS; i++) {
    StepWord word;
    assert_true(step_word_find(step_words[i].name, &word));
    assert_int_equal(word, i);
  }
}

static void what_is_no_word_of_a_step_leaves_the_answer_alone(void **state)
{
  (void)state;
  static const char *const others[] = { "", "gri", "grinds", "Grind", "recipe", "area" };
  for (size_t i = 0; i < COUNT_OF(others); i++) {
    StepWord word = STEP_PATCH;
    assert_false(step_word_find(others[i], &word));
    assert_int_equal(word, STEP_PATCH);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(every_word_is_found_by_its_name),
    cmocka_unit_test(what_is_no_word_of_a_step_leaves_the_answer_alone),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
