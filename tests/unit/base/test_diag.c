/* Findings: copied, kept once, ordered, counted. */
#include "support.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "base/diag.h"
#include "base/mem.h"

static Diag error_at(Span at, const char *code, const char *message)
{
  return (Diag){ .level = DIAG_ERROR, .code = code, .message = message, .at = at };
}

static void everything_given_in_is_copied(void **state)
{
  (void)state;
  char text[] = "text";
  Diag given = {
    .level = DIAG_WARNING, .code = text, .message = text, .at = { 1, 2, 3 },
    .labels = { { { 1, 4, 5 }, text } }, .label_count = 1,
    .note = text, .help = text, .basis = text, .fix = text, .fix_is_safe = true,
  };
  Diags *diags = diags_new();
  diags_add(diags, &given);
  memset(text, 'x', 4);
  const Diag *got = diags_get(diags, 0);
  const char *const copies[] = {
    got->code, got->message, got->labels[0].text, got->note, got->help, got->basis, got->fix,
  };
  for (size_t i = 0; i < COUNT_OF(copies); i++) assert_string_equal(copies[i], "text");
  assert_int_equal(got->level, DIAG_WARNING);
  assert_int_equal(got->at.end, 3);
  assert_int_equal(got->labels[0].at.begin, 4);
  assert_true(got->fix_is_safe);
  diags_free(diags);
}

static void what_is_not_given_stays_null(void **state)
{
  (void)state;
  Diags *diags = diags_new();
  diags_error(diags, "unit", (Span){ 1, 0, 1 }, "`%s` is not a %s", "2 h", "length");
  const Diag *got = diags_get(diags, 0);
  assert_string_equal(got->code, "unit");
  assert_string_equal(got->message, "`2 h` is not a length");
  assert_int_equal(got->level, DIAG_ERROR);
  assert_null(got->note);
  assert_null(got->help);
  assert_null(got->basis);
  assert_null(got->fix);
  assert_int_equal(got->label_count, 0);
  diags_free(diags);
}

static void the_same_finding_is_kept_once(void **state)
{
  (void)state;
  static const struct {
    Span at;
    const char *code, *message;
    size_t count_after;
  } cases[] = {
    { { 1, 2, 3 }, "unit", "wrong", 1 },  { { 1, 2, 3 }, "unit", "wrong", 1 }, { { 1, 2, 4 }, "unit", "wrong", 2 },
    { { 1, 1, 3 }, "unit", "wrong", 3 },  { { 2, 2, 3 }, "unit", "wrong", 4 }, { { 1, 2, 3 }, "field", "wrong", 5 },
    { { 1, 2, 3 }, "unit", "absent", 6 }, { { 2, 2, 3 }, "unit", "wrong", 6 },
  };
  Diags *diags = diags_new();
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Diag diag = error_at(cases[i].at, cases[i].code, cases[i].message);
    diags_add(diags, &diag);
    assert_int_equal(diags_count(diags), cases[i].count_after);
    assert_int_equal(diags_errors(diags), cases[i].count_after);
  }
  diags_free(diags);
}

static void a_long_text_is_cut_between_letters(void **state)
{
  (void)state;
  Diags *diags = diags_new();
  char text[DIAG_TEXT + 8];
  memset(text, 'x', sizeof text);
  memcpy(text + DIAG_TEXT - 1, "\xC2\xB2", 2); /* its second byte would be the first too many */
  text[sizeof text - 1] = '\0';
  diags_add(diags, &(Diag){ .code = "x", .message = text, .help = "short" });
  assert_int_equal(strlen(diags_get(diags, 0)->message), DIAG_TEXT - 1);
  assert_string_equal(diags_get(diags, 0)->help, "short");
  diags_free(diags);
}

static void past_the_cap_only_the_counts_grow(void **state)
{
  (void)state;
  Diags *diags = diags_new();
  for (uint32_t i = 0; i < DIAGS_MOST; i++) diags_error(diags, "unit", (Span){ 1, i, i }, "wrong");
  assert_int_equal(diags_not_kept(diags), 0);
  for (uint32_t i = 0; i < 5; i++) diags_error(diags, "unit", (Span){ 2, i, i }, "wrong");
  diags_add(diags, &(Diag){ .level = DIAG_WARNING, .code = "x", .message = "y" });
  diags_error(diags, "unit", (Span){ 1, 7, 7 }, "wrong"); /* known */
  assert_int_equal(diags_count(diags), DIAGS_MOST);
  assert_int_equal(diags_errors(diags), DIAGS_MOST + 5);
  assert_int_equal(diags_warnings(diags), 1);
  assert_int_equal(diags_not_kept(diags), 6);
  diags_free(diags);
}

static void past_the_cap_the_first_by_place_are_kept_in_whatever_order_they_come(void **state)
{
  (void)state;
  enum { ALL = DIAGS_MOST + 500, STEP = 7919 /* prime: every index once */ };
  Diags *diags = diags_new();
  for (uint32_t i = 0; i < ALL; i++) diags_error(diags, "unit", (Span){ 1, i * STEP % ALL, ALL }, "wrong");
  diags_sort(diags);
  for (uint32_t i = 0; i < DIAGS_MOST; i++) assert_int_equal(diags_get(diags, i)->at.begin, i);
  assert_int_equal(diags_not_kept(diags), 500);
  diags_free(diags);
}

static void findings_are_ordered_by_source_place_level_code_and_message(void **state)
{
  (void)state;
  static const struct {
    Diag diag;
    int want; /* its index when sorted */
  } cases[] = {
    { { .at = { 2, 0, 1 }, .code = "a", .message = "second source" }, 8 },
    { { .at = { 1, 5, 9 }, .code = "a", .message = "later" }, 7 },
    { { .at = { 1, 2, 9 }, .code = "a", .message = "longer" }, 6 },
    { { .at = { 1, 2, 4 }, .level = DIAG_NOTE, .code = "a", .message = "note" }, 5 },
    { { .at = { 1, 2, 4 }, .level = DIAG_WARNING, .code = "a", .message = "warning" }, 4 },
    { { .at = { 1, 2, 4 }, .code = "b", .message = "later code" }, 3 },
    { { .at = { 1, 2, 4 }, .code = "a", .message = "z, but added first" }, 2 },
    { { .at = { 1, 2, 4 }, .code = "a", .message = "added next" }, 1 },
    { { .code = "z", .message = "nowhere" }, 0 },
  };
  Diags *diags = diags_new();
  for (size_t i = 0; i < COUNT_OF(cases); i++) diags_add(diags, &cases[i].diag);
  diags_sort(diags);
  diags_sort(diags); /* a second time changes nothing */
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_string_equal(diags_get(diags, (size_t)cases[i].want)->message, cases[i].diag.message);
  diags_free(diags);
}

static void strict_makes_warnings_errors_and_leaves_notes(void **state)
{
  (void)state;
  Diags *diags = diags_new();
  for (DiagLevel level = DIAG_ERROR; level <= DIAG_NOTE; level++)
    diags_add(diags, &(Diag){ .level = level, .code = "x", .message = diag_level_name(level) });
  diags_raise_warnings(diags);
  assert_int_equal(diags_errors(diags), 2);
  assert_int_equal(diags_warnings(diags), 0);
  assert_int_equal(diags_notes(diags), 1);
  assert_int_equal(diags_get(diags, 1)->level, DIAG_ERROR);
  assert_int_equal(diags_get(diags, 2)->level, DIAG_NOTE);
  diags_free(diags);
}

static jmp_buf out_of_memory;

static void jump(size_t bytes)
{
  (void)bytes;
  longjmp(out_of_memory, 1);
}

static void a_finding_that_cannot_be_kept_changes_nothing(void **state)
{
  (void)state;
  void (*const usual)(size_t) = mem_on_failure;
  char long_text[2000];
  memset(long_text, 'x', sizeof long_text - 1);
  long_text[sizeof long_text - 1] = '\0';
  Diags *diags = diags_new();
  diags_error(diags, "x", (Span){ 0 }, "kept");
  mem_on_failure = jump;
  volatile int failures = 0;
  for (volatile size_t n = 1; n < 20; n++) {
    mem_fail_at(n);
    if (setjmp(out_of_memory) != 0) {
      failures++;
      assert_int_equal(diags_count(diags), 1);
      assert_int_equal(diags_errors(diags), 1);
      continue;
    }
    diags_add(diags, &(Diag){ .code = long_text, .message = long_text, .note = long_text, .help = long_text });
    break;
  }
  mem_fail_at(0);
  mem_on_failure = usual;
  assert_true(failures > 0);
  assert_int_equal(diags_count(diags), 2);
  assert_int_equal(diags_errors(diags), 2);
  assert_string_equal(diags_get(diags, 0)->message, "kept");
  assert_string_equal(diags_get(diags, 1)->help, long_text);
  diags_free(diags);
}

static void freeing_nothing_is_fine(void **state)
{
  (void)state;
  diags_free(NULL);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(everything_given_in_is_copied),
    cmocka_unit_test(what_is_not_given_stays_null),
    cmocka_unit_test(the_same_finding_is_kept_once),
    cmocka_unit_test(a_long_text_is_cut_between_letters),
    cmocka_unit_test(past_the_cap_only_the_counts_grow),
    cmocka_unit_test(past_the_cap_the_first_by_place_are_kept_in_whatever_order_they_come),
    cmocka_unit_test(findings_are_ordered_by_source_place_level_code_and_message),
    cmocka_unit_test(strict_makes_warnings_errors_and_leaves_notes),
    cmocka_unit_test(a_finding_that_cannot_be_kept_changes_nothing),
    cmocka_unit_test(freeing_nothing_is_fine),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
