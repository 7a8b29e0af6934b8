/* The JSON writer: layout, escapes, exact numbers. */
#include "support.h"

#include <float.h>
#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/json.h"

static void objects_and_arrays_are_indented_in_the_order_given(void **state)
{
  (void)state;
  Buf out = { 0 };
  JsonWriter j = json_begin(&out);
  json_object(&j, NULL);
  json_text(&j, "name", "lobby");
  json_array(&j, "steps");
  json_text(&j, NULL, "hone");
  json_integer(&j, NULL, -3);
  json_object(&j, NULL);
  json_bool(&j, "wet", true);
  json_bool(&j, "dry", false);
  json_end(&j);
  json_end(&j);
  json_null(&j, "dye");
  json_array(&j, "none");
  json_end(&j);
  json_object(&j, "nothing");
  json_end(&j);
  json_end(&j);
  json_finish(&j);
  assert_string_equal(buf_text(&out),
    "{\n"
    "  \"name\": \"lobby\",\n"
    "  \"steps\": [\n"
    "    \"hone\",\n"
    "    -3,\n"
    "    {\n"
    "      \"wet\": true,\n"
    "      \"dry\": false\n"
    "    }\n"
    "  ],\n"
    "  \"dye\": null,\n"
    "  \"none\": [],\n"
    "  \"nothing\": {}\n"
    "}\n");
  buf_free(&out);
}

static void a_document_may_be_one_plain_value(void **state)
{
  (void)state;
  Buf out = { 0 };
  JsonWriter j = json_begin(&out);
  json_integer(&j, NULL, 7);
  json_finish(&j);
  assert_string_equal(buf_text(&out), "7\n");
  buf_free(&out);
}

/* RFC 8259, section 7. */
static void texts_are_escaped(void **state)
{
  (void)state;
  static const struct {
    const char *text, *want;
  } cases[] = {
    { "", "\"\"\n" },
    { "say \"hi\" \\ there/", "\"say \\\"hi\\\" \\\\ there/\"\n" },
    { "\b\t\n\f\r", "\"\\b\\t\\n\\f\\r\"\n" },
    { "\x01\x1f\x7f", "\"\\u0001\\u001f\\u007f\"\n" },
    { "\xC2\x9B", "\"\\u009b\"\n" },
    { "caf\xC3\xA9 \xE7\xA3\xA8 \xF0\x9F\x98\x80", "\"caf\xC3\xA9 \xE7\xA3\xA8 \xF0\x9F\x98\x80\"\n" },
    { "a\xFF" "b", "\"a\xEF\xBF\xBD" "b\"\n" },
    { "\xED\xA0\x80", "\"\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD\"\n" }, /* a surrogate, byte by byte */
    { "\xE2\x82", "\"\xEF\xBF\xBD\xEF\xBF\xBD\"\n" },
    { NULL, "null\n" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Buf out = { 0 };
    JsonWriter j = json_begin(&out);
    json_text(&j, NULL, cases[i].text);
    json_finish(&j);
    assert_string_equal(buf_text(&out), cases[i].want);
    buf_free(&out);
  }
}

static void keys_are_escaped_too(void **state)
{
  (void)state;
  Buf out = { 0 };
  JsonWriter j = json_begin(&out);
  json_object(&j, NULL);
  json_null(&j, "a\"b\n");
  json_end(&j);
  json_finish(&j);
  assert_string_equal(buf_text(&out), "{\n  \"a\\\"b\\n\": null\n}\n");
  buf_free(&out);
}

static void numbers_have_their_decimals_and_no_exponent(void **state)
{
  (void)state;
  static const struct {
    double value;
    int decimals;
    const char *want;
  } cases[] = {
    { 1.5, 2, "1.50\n" },  { -2.25, 1, "-2.2\n" }, { 1e20, 0, "100000000000000000000\n" }, { 1e-9, 3, "0.000\n" },
    { -1e-9, 3, "0.000\n" }, { -0.0, 0, "0\n" },   { -0.05, 2, "-0.05\n" },
    { NAN, 2, "null\n" },  { INFINITY, 2, "null\n" }, { -INFINITY, 0, "null\n" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Buf out = { 0 };
    JsonWriter j = json_begin(&out);
    json_number(&j, NULL, cases[i].value, cases[i].decimals);
    json_finish(&j);
    assert_string_equal(buf_text(&out), cases[i].want);
    buf_free(&out);
  }
}

static void the_largest_number_is_written_out(void **state)
{
  (void)state;
  Buf out = { 0 };
  JsonWriter j = json_begin(&out);
  json_number(&j, NULL, DBL_MAX, 2);
  json_finish(&j);
  assert_int_equal(out.length, 309 + 3 + 1);
  assert_null(strpbrk(buf_text(&out), "eE"));
  buf_free(&out);
}

static void decimals_are_exact(void **state)
{
  (void)state;
  static const struct {
    int64_t value;
    int scale;
    const char *want;
  } cases[] = {
    { 123450, 2, "1234.50\n" },
    { 5, 2, "0.05\n" },
    { -5, 2, "-0.05\n" },
    { -5, 4, "-0.0005\n" },
    { 0, 2, "0.00\n" },
    { 12, 0, "12\n" },
    { -12, 0, "-12\n" },
    { 100, 2, "1.00\n" },
    { INT64_MAX, 4, "922337203685477.5807\n" },
    { INT64_MIN, 4, "-922337203685477.5808\n" },
    { INT64_MIN, 0, "-9223372036854775808\n" },
    { INT64_MAX, 19, "0.9223372036854775807\n" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Buf out = { 0 };
    JsonWriter j = json_begin(&out);
    json_decimal(&j, NULL, cases[i].value, cases[i].scale);
    json_finish(&j);
    assert_string_equal(buf_text(&out), cases[i].want);
    buf_free(&out);
  }
}

static void integers_reach_their_limits(void **state)
{
  (void)state;
  Buf out = { 0 };
  JsonWriter j = json_begin(&out);
  json_array(&j, NULL);
  json_integer(&j, NULL, INT64_MIN);
  json_integer(&j, NULL, INT64_MAX);
  json_end(&j);
  json_finish(&j);
  assert_string_equal(buf_text(&out), "[\n  -9223372036854775808,\n  9223372036854775807\n]\n");
  buf_free(&out);
}

static void key_in_an_array(JsonWriter *j)
{
  json_array(j, NULL);
  json_null(j, "key");
}

static void no_key_in_an_object(JsonWriter *j)
{
  json_object(j, NULL);
  json_null(j, NULL);
}

static void end_of_nothing(JsonWriter *j) { json_end(j); }

static void two_values_at_the_top(JsonWriter *j)
{
  json_null(j, NULL);
  json_null(j, NULL);
}

static void finish_while_open(JsonWriter *j)
{
  json_object(j, NULL);
  json_finish(j);
}

static void finish_with_nothing(JsonWriter *j) { json_finish(j); }

static void too_deep(JsonWriter *j)
{
  for (int i = 0; i < 65; i++) json_array(j, NULL);
}

/* Whether a process that does this is ended by a failed assertion. */
static bool is_asserted(void (*misuse)(JsonWriter *j))
{
  fflush(NULL);
  pid_t child = fork();
  assert_true(child >= 0);
  if (child == 0) {
    Buf out = { 0 };
    JsonWriter j = json_begin(&out);
    setrlimit(RLIMIT_CORE, &(struct rlimit){ 0, 0 });
    signal(SIGABRT, SIG_DFL);
    close(STDERR_FILENO);
    misuse(&j);
    _exit(0);
  }
  int status = 0;
  assert_int_equal(waitpid(child, &status, 0), child);
  return WIFSIGNALED(status) && WTERMSIG(status) == SIGABRT;
}

static void broken_nesting_is_asserted(void **state)
{
  (void)state;
  static void (*const misuses[])(JsonWriter *j) = {
    key_in_an_array, no_key_in_an_object, end_of_nothing, two_values_at_the_top, finish_while_open,
    finish_with_nothing, too_deep,
  };
  for (size_t i = 0; i < COUNT_OF(misuses); i++)
    if (!is_asserted(misuses[i])) fail_msg("misuse %zu went through", i);
}

static void nesting_may_be_sixty_deep(void **state)
{
  (void)state;
  Buf out = { 0 };
  JsonWriter j = json_begin(&out);
  for (int i = 0; i < 60; i++) json_array(&j, NULL);
  for (int i = 0; i < 60; i++) json_end(&j);
  json_finish(&j);
  assert_int_equal(out.text[0], '[');
  assert_int_equal(out.text[out.length - 2], ']');
  buf_free(&out);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(objects_and_arrays_are_indented_in_the_order_given),
    cmocka_unit_test(a_document_may_be_one_plain_value),
    cmocka_unit_test(texts_are_escaped),
    cmocka_unit_test(keys_are_escaped_too),
    cmocka_unit_test(numbers_have_their_decimals_and_no_exponent),
    cmocka_unit_test(the_largest_number_is_written_out),
    cmocka_unit_test(decimals_are_exact),
    cmocka_unit_test(integers_reach_their_limits),
    cmocka_unit_test(broken_nesting_is_asserted),
    cmocka_unit_test(nesting_may_be_sixty_deep),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
