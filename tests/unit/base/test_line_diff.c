/* Unified diffs: the least change, three lines round it, and nothing that could harm a terminal. */
#include "support.h"

#include <string.h>

#include "base/line_diff.h"

static void diff_is(const char *before, const char *after, const char *want)
{
  Buf a = { 0 }, b = { 0 }, got = { 0 };
  buf_puts(&a, before);
  buf_puts(&b, after);
  assert_int_equal(line_diff("f", &a, &b, &got), *want != '\0');
  assert_string_equal(buf_text(&got), want);
  buf_free(&a);
  buf_free(&b);
  buf_free(&got);
}

static void texts_that_are_the_same_have_no_diff(void **state)
{
  (void)state;
  static const char *const texts[] = { "", "a", "a\n", "a\nb\n" };
  for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) diff_is(texts[i], texts[i], "");
}

static void changes_are_shown_with_three_lines_round_them(void **state)
{
  (void)state;
  static const struct {
    const char *before, *after, *want;
  } cases[] = {
    { "a\n", "b\n", "--- f\n+++ f\n@@ -1 +1 @@\n-a\n+b\n" },
    { "", "a\n", "--- f\n+++ f\n@@ -0,0 +1 @@\n+a\n" },
    { "a\n", "", "--- f\n+++ f\n@@ -1 +0,0 @@\n-a\n" },
    { "1\n2\n3\n4\n5\n", "1\n2\n3\n4\nx\n5\n", "--- f\n+++ f\n@@ -2,4 +2,5 @@\n 2\n 3\n 4\n+x\n 5\n" },
    { "1\n2\n3\n4\n5\n6\n7\n8\n9\n", "x\n2\n3\n4\n5\n6\n7\n8\ny\n", /* seven lines between: two hunks */
      "--- f\n+++ f\n@@ -1,4 +1,4 @@\n-1\n+x\n 2\n 3\n 4\n@@ -6,4 +6,4 @@\n 6\n 7\n 8\n-9\n+y\n" },
    { "1\n2\n3\n4\n5\n6\n7\n8\n", "x\n2\n3\n4\n5\n6\n7\ny\n", /* six: one */
      "--- f\n+++ f\n@@ -1,8 +1,8 @@\n-1\n+x\n 2\n 3\n 4\n 5\n 6\n 7\n-8\n+y\n" },
    { "a\nb\nc\nd\n", "a\nc\nx\nd\n", "--- f\n+++ f\n@@ -1,4 +1,4 @@\n a\n-b\n c\n+x\n d\n" },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) diff_is(cases[i].before, cases[i].after, cases[i].want);
}

static void a_last_line_without_an_end_is_said_to_be_one(void **state)
{
  (void)state;
  diff_is("a", "a\n", "--- f\n+++ f\n@@ -1 +1 @@\n-a\n\\ No newline at end of file\n+a\n");
}

static void controls_are_escaped_and_tabs_are_kept(void **state)
{
  (void)state;
  diff_is("\ta\x1b[2J\n", "b\n", "--- f\n+++ f\n@@ -1 +1 @@\n-\ta\\x1b[2J\n+b\n");
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(texts_that_are_the_same_have_no_diff),
    cmocka_unit_test(changes_are_shown_with_three_lines_round_them),
    cmocka_unit_test(a_last_line_without_an_end_is_said_to_be_one),
    cmocka_unit_test(controls_are_escaped_and_tabs_are_kept),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
