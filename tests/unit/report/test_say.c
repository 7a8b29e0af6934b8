/* test_say.c - the crew sheet's words: each message in each language. */
#include "report/say.h"

#include <string.h>

#include "report/cautions.h"
#include "support.h"

static void every_message_is_said_in_every_language(void **state)
{
  (void)state;
  for (int key = 0; key < SAY_KEYS; key++)
    for (int language = 0; language < LANGUAGES; language++) {
      const char *text = say((Language)language, (SayKey)key);
      assert_non_null(text);
      assert_true(*text != '\0');
    }
}

static void every_step_word_and_date_is_said_in_every_language(void **state)
{
  (void)state;
  for (int language = 0; language < LANGUAGES; language++) {
    for (int word = 0; word < STEP_WORDS; word++) assert_non_null(say_step((Language)language, (StepWord)word));
    for (int day = 0; day < 7; day++) assert_int_equal(strspn(say_weekday((Language)language, day), " "), 0);
    for (int month = 1; month <= 12; month++) assert_non_null(say_month((Language)language, month));
    assert_non_null(caution_last((Language)language));
  }
  assert_string_equal(say_step(LANGUAGE_ES, STEP_POLISH), "pulir");
  assert_string_equal(say_weekday(LANGUAGE_ES, 2), "mié");
  assert_string_equal(say_month(LANGUAGE_ES, 1), "ene");
}

static void every_caution_is_said_in_every_language(void **state)
{
  (void)state;
  Step steps[STEP_WORDS];
  for (int word = 0; word < STEP_WORDS; word++) steps[word] = (Step){ .word = (StepWord)word, .wet = true };
  Recipe recipe = { .steps = steps, .step_count = STEP_WORDS };
  for (size_t i = 0; i < cautions_count(); i++)
    for (int language = 0; language < LANGUAGES; language++) {
      const char *text = caution_for(&recipe, i, (Language)language);
      assert_non_null(text);
      assert_true(strlen(text) > 40);
      assert_null(strstr(text, " safe ")); /* nothing is ever called so */
    }
}

static void words_of_the_trade_are_translated_and_others_left(void **state)
{
  (void)state;
  assert_string_equal(say_word(LANGUAGE_ES, "lithium silicate"), "silicato de litio");
  assert_string_equal(say_word(LANGUAGE_EN, "lithium silicate"), "lithium silicate");
  assert_string_equal(say_word(LANGUAGE_ES, "our own brew"), "our own brew");
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(every_message_is_said_in_every_language),
    cmocka_unit_test(every_step_word_and_date_is_said_in_every_language),
    cmocka_unit_test(every_caution_is_said_in_every_language),
    cmocka_unit_test(words_of_the_trade_are_translated_and_others_left),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
