/* test_lexer.c - mistakes below the grammar: each is named once, at its place, and mended. */
#include "support.h"

#include "unit/lang/reading.h"

static void an_unclosed_or_ill_escaped_string_is_one_error(void **state)
{
  (void)state;
  static const struct { const char *text, *want; } cases[] = {
    { "x = \"abc\ny = 3", "1:5+1 the string that begins here is not closed" },
    { "x = { a = \"100 }, b = 3 }\ny = 4", "1:11+1 the string that begins here is not closed" },
    { "x = { grit = \"100, bond = \"resin\", }\ny = 1 1",
      "1:33+1 the string that begins here is not closed\n2:7+1 a statement is expected, not `1`" },
    { "x = 'it's'\ny = 3", "1:10+1 the string that begins here is not closed" },
    { "x = \"a\\qb\\300\\x4g\\u{110000000}\\u{\"",
      "1:7+2 `\\q` is not an escape\n"
      "1:10+4 `\\300` is larger than 255\n"
      "1:14+3 `\\x4` needs two hexadecimal digits\n"
      "1:18+11 `\\u{11000000` is too large a character number\n"
      "1:31+3 `\\u{` needs hexadecimal digits in braces" },
    { "x = \"\\u{}\\x\"",
      "1:6+3 `\\u{` needs hexadecimal digits in braces\n1:10+2 `\\x` needs two hexadecimal digits" },
    { "x = \"C:\\new\\Dir\"", "1:12+2 `\\D` is not an escape" },
    { "x = \"unterminated\\", "1:5+1 the string that begins here is not closed" },
    { "x = [[abc\ny = 2 2", "1:5+2 the long string that begins here is never closed" },
    { "x = [===[abc]==]", "1:5+5 the long string that begins here is never closed" },
    { "x = [=abc]=]", "1:5+2 `[=` is not the begin of a long string" },
    { "--[==[ abc\ny = 2 2", "1:1+6 the long comment that begins here is never closed" },
    { "x = { overlap = 3\", passes = 2 }\ny = 3", "1:18+1 the string that begins here is not closed" },
    { "x = { size = 3', passes = 2 }", "1:15+1 the string that begins here is not closed" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_complaints(cases[i].text, strlen(cases[i].text), cases[i].want);
}

static void an_ill_formed_number_is_an_error(void **state)
{
  (void)state;
  static const struct { const char *text, *want; } cases[] = {
    { "x = 3in", "1:5+3 `3in` is not a number" },
    { "x = 28d", "1:5+3 `28d` is not a number" },
    { "x = 2.5gal", "1:5+6 `2.5gal` is not a number" },
    { "x = 0x", "1:5+2 `0x` is not a number" },
    { "x = 0xfg", "1:5+4 `0xfg` is not a number" },
    { "x = 1..2", "1:5+4 `1..2` is not a number" },
    { "x = 1e", "1:5+2 `1e` is not a number" },
    { "x = 1e+", "1:5+3 `1e+` is not a number" },
    { "x = 0x1p", "1:5+4 `0x1p` is not a number" },
    { "x = 3_000", "1:5+5 `3_000` is not a number" },
    { "x = 1.2.3", "1:5+5 `1.2.3` is not a number" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_complaints(cases[i].text, strlen(cases[i].text), cases[i].want);
}

static void signs_that_only_look_like_ascii_are_named(void **state)
{
  (void)state;
  static const struct { const char *text, *want; } cases[] = {
    { "x = “abc” .. ‘def’",
      "1:5+9 this text stands in quotes that are not Lua's (curly quote `“`)\n"
      "1:14+9 this text stands in quotes that are not Lua's (curly quote `‘`)" },
    { "x = “a\" .. b", "1:5+5 this text stands in quotes that are not Lua's (curly quote `“`)" },
    { "x = \"a” .. b", "1:7+3 the curly quote `”` does not close a string" },
    { "x = ” .. b", "1:5+3 the curly quote `”` is not a quote of Lua" },
    { "x = «abc»", "1:5+7 this text stands in quotes that are not Lua's (angle quote `«`)" },
    { "x = `abc`", "1:5+5 this text stands in quotes that are not Lua's (backtick ```)" },
    { "x = 5 – 3", "1:7+3 `–` (en dash, U+2013) is not a sign of Lua" },
    { "x = 5 ≤ 3", "1:7+3 `≤` (less-or-equal sign, U+2264) is not a sign of Lua" },
    { "x = 5 × 3 ÷ 4 − 1 ≠ 2",
      "1:7+2 `×` (multiplication sign, U+00D7) is not a sign of Lua\n"
      "1:11+2 `÷` (division sign, U+00F7) is not a sign of Lua\n"
      "1:15+3 `−` (minus sign, U+2212) is not a sign of Lua\n"
      "1:19+3 `≠` (unequal sign, U+2260) is not a sign of Lua" },
    { "f(…)", "1:3+3 `…` (ellipsis, U+2026) is not a sign of Lua" },
    { "x， y ＝ 1",
      "1:2+3 `，` (full-width sign, U+FF0C) is not a sign of Lua\n"
      "1:6+3 `＝` (full-width sign, U+FF1D) is not a sign of Lua" },
    { "f（1）",
      "1:2+3 `（` (full-width sign, U+FF08) is not a sign of Lua\n"
      "1:4+3 `）` (full-width sign, U+FF09) is not a sign of Lua" },
    { "x = 1　+ 2", "1:6+3 this is not a plain space but U+3000 (ideographic space)" },
    { "x =   1", "1:4+4 this is not a plain space but U+00A0 (no-break space)" },
    { "x = a‍b", "1:6+3 this is not a plain space but U+200D (zero-width joiner)" },
    { "x = café", "1:5+5 `café` holds letters that a name cannot have" },
    { "x = 20 °C", "1:8+3 `°C` holds letters that a name cannot have" },
    { "größe = 3", "1:1+7 `größe` holds letters that a name cannot have" },
    { "local x = 1 ﻿", "1:13+3 this is not a plain space but U+FEFF (byte order mark)" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_complaints(cases[i].text, strlen(cases[i].text), cases[i].want);
}

static void signs_of_other_languages_and_merge_conflicts_are_named(void **state)
{
  (void)state;
  static const struct { const char *text, *want; } cases[] = {
    { "x = a != b", "1:7+2 `!=` is not a sign of Lua" },
    { "x = a && b || c", "1:7+2 `&&` is not a sign of Lua\n1:12+2 `||` is not a sign of Lua" },
    { "x = !a", "1:5+1 `!` is not a sign of Lua" },
    { "x = a ? b : c", "1:7+1 `?` is not a sign of Lua" },
    { "rate = $62", "1:8+1 `$` is not a sign of Lua" },
    { "@x = 3", "1:1+1 `@` is not a sign of Lua" },
    { "x = a\\b", "1:6+1 `\\` is not a sign of Lua" },
    { "/* hi\nthere */ x = 3", "1:1+2 `/*` does not begin a comment" },
    { "/* hi\nx = 3", "1:1+2 `/*` does not begin a comment" },
    { "// hello there\nx = 3", "1:1+2 `//` does not begin a comment" },
    { "# hello there\nx = 3", "1:1+1 `#` does not begin a comment" },
    { "x = 1 -- fine\n// not fine\ny = 2 // this is not fine either\nz = 3",
      "3:7+2 `//` does not begin a comment" },
    { "x = { 1, 2, # note here\n 3 }", "1:13+1 `#` does not begin a comment" },
    { "hone \"a\" {} // first pass\nhone \"b\" {}", "1:13+2 `//` does not begin a comment" },
    { "x = { a = 1, // first, of many\n  b = 2, // second\n}",
      "1:14+2 `//` does not begin a comment\n2:10+2 `//` does not begin a comment" },
    { "<<<<<<< HEAD\na = 1\n=======\na = = 2\n>>>>>>> x\nb = 3",
      "1:1+12 an unresolved merge conflict begins here" },
    { "a = {\n<<<<<<< HEAD\n  1,\n||||||| base\n  2,\n=======\n  3,\n>>>>>>> x\n}",
      "2:1+12 an unresolved merge conflict begins here" },
    { "<<<<<<< HEAD\na = 1", "1:1+12 an unresolved merge conflict begins here" },
    { "x = a === b or a !== b", "1:7+3 `===` is not a sign of Lua\n1:18+3 `!==` is not a sign of Lua" },
    { "x = { grit => 100 }", "1:12+2 `=>` is not a sign of Lua" },
    { "x = 2 ** 3", "1:7+2 `**` is not a sign of Lua" },
    { "x = a =< b", "1:7+2 `=<` is not a sign of Lua" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_complaints(cases[i].text, strlen(cases[i].text), cases[i].want);
}

static void a_file_that_is_no_text_is_refused_by_name(void **state)
{
  (void)state;
  static const struct { const char *bytes; size_t length; const char *want; } cases[] = {
    { "\x1bLua\x54\0\x19\x93", 8, "1:1+0 this is compiled Lua, not Lua text" },
    { "\xFF\xFEx\0=\0", 6, "1:1+0 the file is UTF-16" },
    { "\xFE\xFF\0x\0=", 6, "1:1+0 the file is UTF-16" },
    { "x = 1\ny = \0", 11, "2:5+0 the file holds a NUL byte" },
    { "x = 'a\0b'", 9, "1:7+0 the file holds a NUL byte" },
    { "x = \"20 \xB0""C\"", 11, "1:9+1 the byte 0xB0 in this string is not UTF-8" },
    { "x = [[\n\xC0\x80]]", 11, "2:1+1 the byte 0xC0 in this string is not UTF-8" },
    { "x = \xE9\xE8 + 1", 10, "1:5+2 the byte 0xE9 is not UTF-8" },
    { "x = 1\x01", 6, "1:6+1 the control character 0x01 does not belong here" },
    { "-- 20 \xB0 in a remark is harmless", 31, "" },
    { "\xEF\xBB\xBFx = 1", 8, "" },
    { "", 0, "" },
    { "#!/usr/bin/env gritwork\nx = 1", 29, "" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) assert_complaints(cases[i].bytes, cases[i].length, cases[i].want);
}

static void line_ends_of_all_kinds_count(void **state)
{
  (void)state;
  static const struct { const char *text, *want; } cases[] = {
    { "x = 1\r\ny = 2\r\nz = = 3\r\n", "3:5+1 a value is expected here, not `=`" },
    { "x = [[\r\n\r\n]]\r\ny = = 3", "4:5+1 a value is expected here, not `=`" },
    { "x = 'a\\\r\nb' y = = 3", "2:8+1 a value is expected here, not `=`" },
    { "x = 'a\\z\n\n  b' y = = 3", "3:10+1 a value is expected here, not `=`" },
    { "--[[\n\n]] y = = 3", "3:8+1 a value is expected here, not `=`" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_complaints(cases[i].text, strlen(cases[i].text), cases[i].want);
}

static void a_certain_mistake_has_its_mend(void **state)
{
  (void)state;
  static const struct { const char *text, *mended; } cases[] = {
    { "x = 3in", "x = \"3 in\"" },
    { "x = 2.5gal", "x = \"2.5 gal\"" },
    { "x = “a b”", "x = \"a b\"" },
    { "x = 5 – 3", "x = 5 - 3" },
    { "x = 5\xC2\xA0+ 3", "x = 5 + 3" },
    { "x = a != b", "x = a ~= b" },
    { "x = !a", "x = not a" },
    { "x = a && b", "x = a and b" },
    { "x ＝ 1", "x = 1" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) assert_fixed(cases[i].text, cases[i].mended);
}

static void a_merge_conflict_shows_its_three_marks(void **state)
{
  (void)state;
  const char *text = "x = 1\n<<<<<<< ours\ny = 1\n=======\ny = 2\n>>>>>>> theirs\n";
  Reading r = reading_of(text, strlen(text));
  const Diag *d = diags_get(r.diags, 0);
  assert_int_equal(d->label_count, 2);
  assert_span_text(&r, d->at, "<<<<<<< ours");
  assert_span_text(&r, d->labels[0].at, "=======");
  assert_span_text(&r, d->labels[1].at, ">>>>>>>");
  reading_free(&r);
}

static void a_source_over_the_limits_is_refused(void **state)
{
  (void)state;
  Buf text = { 0 };
  buf_repeat(&text, ' ', SYNTAX_LARGEST);
  assert_complaints(buf_text(&text), text.length, "");
  buf_putc(&text, ' ');
  assert_complaints(buf_text(&text), text.length, "1:1+0 the file is larger than 1 MiB");
  buf_clear(&text);
  buf_repeat(&text, ';', SYNTAX_TOKENS);
  assert_complaints(buf_text(&text), text.length, "");
  buf_puts(&text, ";;;");
  assert_complaints(buf_text(&text), text.length, "1:200001+1 the file has more than 200000 words and signs");
  buf_free(&text);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(an_unclosed_or_ill_escaped_string_is_one_error),
    cmocka_unit_test(an_ill_formed_number_is_an_error),
    cmocka_unit_test(signs_that_only_look_like_ascii_are_named),
    cmocka_unit_test(signs_of_other_languages_and_merge_conflicts_are_named),
    cmocka_unit_test(a_file_that_is_no_text_is_refused_by_name),
    cmocka_unit_test(line_ends_of_all_kinds_count),
    cmocka_unit_test(a_certain_mistake_has_its_mend),
    cmocka_unit_test(a_merge_conflict_shows_its_three_marks),
    cmocka_unit_test(a_source_over_the_limits_is_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
