/* Text: UTF-8, cells, escapes, near names, layout. */
#include "support.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"

/* ---- UTF-8. Limits of each length and ill-formed sequences: The Unicode Standard, table 3-7. */

static void every_code_point_is_decoded_from_its_bytes(void **state)
{
  (void)state;
  static const struct {
    const char *bytes;
    uint32_t code;
  } cases[] = {
    { "\x7F", 0x7F },
    { "\xC2\x80", 0x80 },
    { "\xDF\xBF", 0x7FF },
    { "\xE0\xA0\x80", 0x800 },
    { "\xED\x9F\xBF", 0xD7FF },
    { "\xEE\x80\x80", 0xE000 },
    { "\xEF\xBF\xBF", 0xFFFF },
    { "\xF0\x90\x80\x80", 0x10000 },
    { "\xF4\x8F\xBF\xBF", 0x10FFFF },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    uint32_t code = 0;
    size_t length = strlen(cases[i].bytes);
    assert_int_equal(text_decode(cases[i].bytes, length, &code), length);
    assert_int_equal(code, cases[i].code);
    assert_true(text_is_utf8(cases[i].bytes, length));
    assert_int_equal(text_decode(cases[i].bytes, length - 1, &code), 0); /* cut short */
  }
}

static void ill_formed_bytes_are_refused(void **state)
{
  (void)state;
  static const char *const cases[] = {
    "\x80", "\xBF",                         /* a continuation alone */
    "\xC0\x80", "\xC1\xBF", "\xE0\x9F\xBF", /* overlong */
    "\xF0\x8F\xBF\xBF",                     /* overlong */
    "\xED\xA0\x80", "\xED\xBF\xBF",         /* surrogates */
    "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", /* over U+10FFFF */
    "\xFE", "\xFF",                         /* never used */
    "\xC3(", "\xE2\x82(", "\xF0\x9F\x98(",  /* cut by another character */
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    uint32_t code = 42;
    assert_int_equal(text_decode(cases[i], strlen(cases[i]), &code), 0);
    assert_int_equal(code, 42);
    assert_false(text_is_utf8(cases[i], strlen(cases[i])));
  }
}

static void what_is_encoded_by_rule_decodes_back(void **state)
{
  (void)state;
  for (uint32_t code = 0x80; code <= 0x10FFFF; code += 37) {
    if (code >= 0xD800 && code <= 0xDFFF) continue;
    char bytes[4];
    size_t length = code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
    for (size_t i = length; i-- > 1;) bytes[i] = (char)(0x80 | (code >> (6 * (length - 1 - i)) & 0x3F));
    bytes[0] = (char)((0xF00u >> length & 0xF0) | code >> (6 * (length - 1)));
    uint32_t got = 0;
    assert_int_equal(text_decode(bytes, length, &got), length);
    assert_int_equal(got, code);
  }
}

static void no_bytes_are_no_character_but_are_utf8(void **state)
{
  (void)state;
  uint32_t code;
  assert_int_equal(text_decode("", 0, &code), 0);
  assert_true(text_is_utf8("", 0));
}

/* ---- cells: East Asian Width and general category from the Unicode Character Database, version 14.0 */

static void cells_follow_the_unicode_character_database(void **state)
{
  (void)state;
  static const struct {
    uint32_t code;
    int cells;
  } cases[] = {
    { 'a', 1 },     { ' ', 1 },     { '~', 1 },     { 0xA0, 1 },    { 0xE9, 1 },    { 0x3B1, 1 },   { 0x2014, 1 },
    { 0x300, 0 },   { 0x36F, 0 },   { 0x483, 0 },   { 0x5B0, 0 },   { 0x64B, 0 },   { 0x93C, 0 },   { 0xE31, 0 },
    { 0x20D0, 0 },  { 0x302A, 0 },  { 0x3099, 0 },  { 0xFE0F, 0 },  { 0xFE20, 0 },  { 0xE0100, 0 }, /* Mn, Me */
    { 0x1100, 2 },  { 0x115F, 2 },  { 0x1160, 1 },  { 0x231A, 2 },  { 0x2E80, 2 },  { 0x3000, 2 },  { 0x303F, 1 },
    { 0x3042, 2 },  { 0x4DC0, 1 },  { 0x4E00, 2 },  { 0xA4C6, 2 },  { 0xAC00, 2 },  { 0xD7A3, 2 },  { 0xF900, 2 },
    { 0xFE30, 2 },  { 0xFF01, 2 },  { 0xFF60, 2 },  { 0xFF61, 1 },  { 0xFFE6, 2 },  { 0x1F600, 2 }, { 0x20000, 2 },
    { 0x3FFFD, 2 }, { 0x1F321, 1 }, { 0x2600, 1 }, /* W, F and their neighbours */
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    if (text_cells(cases[i].code) != cases[i].cells)
      fail_msg("U+%04X: got %d cells, want %d", (unsigned)cases[i].code, text_cells(cases[i].code), cases[i].cells);
}

static void a_character_takes_the_cells_of_what_it_is_escaped_to(void **state)
{
  (void)state;
  for (uint32_t code = 1; code < 0x3000; code++) {
    char bytes[3];
    size_t length = code < 0x80 ? 1 : code < 0x800 ? 2 : 3;
    if (!text_is_hidden(code)) continue;
    for (size_t i = length; i-- > 1;) bytes[i] = (char)(0x80 | (code >> (6 * (length - 1 - i)) & 0x3F));
    bytes[0] = (char)(length == 1 ? code : (0xF00u >> length & 0xF0) | code >> (6 * (length - 1)));
    Buf out = { 0 };
    text_escape(&out, bytes, length);
    assert_int_equal(text_cells(code), out.length);
    assert_int_equal(text_width(bytes, length), out.length);
    buf_free(&out);
  }
}

/* ---- escaping */

static void what_could_steer_a_terminal_is_shown_as_an_escape(void **state)
{
  (void)state;
  static const struct {
    const char *bytes, *want;
    int cells;
  } cases[] = {
    { "plain, \"quoted\" \\ text", "plain, \"quoted\" \\ text", 22 },
    { "\x1b[31mred", "\\x1b[31mred", 11 },
    { "a\tb\nc\rd", "a\\tb\\nc\\rd", 10 },
    { "\x07\x7f", "\\x07\\x7f", 8 },
    { "\xC2\x9B" "31m", "\\u{9b}31m", 9 },           /* C1: one byte CSI */
    { "\xE2\x80\xAE" "txt", "\\u{202e}txt", 11 },    /* right-to-left override */
    { "\xE2\x81\xA6" "x", "\\u{2066}x", 9 },         /* isolate */
    { "a\xE2\x80\x8B" "b", "a\\u{200b}b", 10 },      /* zero-width space */
    { "a\xE2\x80\x8D" "b", "a\\u{200d}b", 10 },      /* zero-width joiner */
    { "\xE2\x80\xA8", "\\u{2028}", 8 },              /* line separator */
    { "\xEF\xBB\xBF" "x", "\\u{feff}x", 9 },         /* byte order mark */
    { "a\xC2\xAD" "b", "a\\u{ad}b", 8 },             /* soft hyphen */
    { "\xF3\xA0\x81\x81", "\\u{e0041}", 9 },         /* tag character */
    { "\xFFok\xC3", "\\xffok\\xc3", 10 },            /* not UTF-8 */
    { "e\xCC\x81t\xC3\xA9", "e\xCC\x81t\xC3\xA9", 3 }, /* accents are harmless */
    { "\xE7\xA3\xA8\xE3\x81\x8F", "\xE7\xA3\xA8\xE3\x81\x8F", 4 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Buf out = { 0 };
    text_escape(&out, cases[i].bytes, strlen(cases[i].bytes));
    assert_string_equal(buf_text(&out), cases[i].want);
    assert_int_equal(text_width(cases[i].bytes, strlen(cases[i].bytes)), cases[i].cells);
    buf_free(&out);
  }
}

static void a_zero_byte_is_escaped_too(void **state)
{
  (void)state;
  Buf out = { 0 };
  text_escape(&out, "a\0b", 3);
  assert_string_equal(buf_text(&out), "a\\x00b");
  buf_free(&out);
}

static void escaped_text_needs_no_more_escaping(void **state)
{
  (void)state;
  char all[256];
  for (int i = 0; i < 256; i++) all[i] = (char)i;
  Buf once = { 0 }, twice = { 0 };
  text_escape(&once, all, sizeof all);
  text_escape(&twice, once.text, once.length);
  assert_string_equal(buf_text(&once), buf_text(&twice));
  buf_free(&once);
  buf_free(&twice);
}

/* ---- distance */

static int least3(int a, int b, int c)
{
  int least = a < b ? a : b;
  return least < c ? least : c;
}

/* The definition, word for word and slow: distance of the first i letters of a and the first j of b. */
static int slow_distance(const char *a, int i, const char *b, int j)
{
  if (i == 0 || j == 0) return i + j;
  int best = least3(slow_distance(a, i - 1, b, j) + 1, slow_distance(a, i, b, j - 1) + 1,
                    slow_distance(a, i - 1, b, j - 1) + (a[i - 1] != b[j - 1]));
  if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
    int swapped = slow_distance(a, i - 2, b, j - 2) + 1;
    if (swapped < best) best = swapped;
  }
  return best;
}

static void distance_agrees_with_its_definition(void **state)
{
  (void)state;
  uint32_t seed = 12345;
  for (int round = 0; round < 2000; round++) {
    char words[2][7];
    for (int w = 0; w < 2; w++) {
      seed = seed * 1664525u + 1013904223u;
      int length = (int)(seed >> 28) % 7;
      for (int i = 0; i < length; i++) {
        seed = seed * 1664525u + 1013904223u;
        words[w][i] = (char)('a' + (seed >> 24) % 3);
      }
      words[w][length] = '\0';
    }
    int want = slow_distance(words[0], (int)strlen(words[0]), words[1], (int)strlen(words[1]));
    for (int cap = 0; cap <= 7; cap++) {
      int got = text_distance(words[0], words[1], cap);
      if (got != (want > cap ? cap + 1 : want))
        fail_msg("%s, %s, cap %d: got %d, want %d", words[0], words[1], cap, got, want);
    }
  }
}

static void distance_ignores_case_and_counts_a_swap_once(void **state)
{
  (void)state;
  static const struct {
    const char *a, *b;
    int want;
  } cases[] = {
    { "hone", "hone", 0 },    { "Hone", "hONE", 0 },     { "hnoe", "hone", 1 },   { "hon", "hone", 1 },
    { "honne", "hone", 1 },   { "bone", "hone", 1 },     { "", "", 0 },           { "", "ab", 2 },
    { "grnid", "grind", 1 },  { "polsih", "polish", 1 }, { "wash", "densify", 4 }, { "densifi", "densify", 1 },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    assert_int_equal(text_distance(cases[i].a, cases[i].b, 3), cases[i].want);
    assert_int_equal(text_distance(cases[i].b, cases[i].a, 3), cases[i].want);
  }
}

static void distance_of_very_long_words_is_quick(void **state)
{
  (void)state;
  enum { LONG = 1 << 20 };
  char *a = malloc(LONG + 1), *b = malloc(LONG + 1);
  memset(a, 'a', LONG);
  a[LONG] = '\0';
  memcpy(b, a, LONG + 1);
  b[LONG / 2] = 'b';
  assert_int_equal(text_distance(a, b, 3), 1);
  assert_int_equal(text_distance(a, "a", 3), 4);
  free(a);
  free(b);
}

/* ---- near names */

static const char *const trade_words[] = {
  "grind", "hone",  "polish", "burnish", "collect", "clean", "densify", "dye",    "stain",      "grout",
  "fill",  "patch", "guard",  "wait",    "check",   "note",  "passes",  "overlap", "cover_rate", "spread",
  "dwell", "with",  "bond",   "grit",    "readings",
};

static void a_misspelt_trade_word_finds_the_right_one(void **state)
{
  (void)state;
  static const struct {
    const char *name, *want;
  } cases[] = {
    { "hnoe", "hone" },       { "densifi", "densify" }, { "rate_cover", "cover_rate" },
    { "Rate-Cover", "cover_rate" },
    { "polsih", "polish" },   { "burnsh", "burnish" },  { "overlpa", "overlap" },       { "pass", NULL },
    { "reading", "readings" }, { "dyes", "dye" },       { "HONE", "hone" },             { "gritt", "grit" },
    { "paches", "passes" },   { "cover rate", "cover_rate" }, { "guards", "guard" },
    { "zebra", NULL },        { "ho", NULL },           { "", NULL },                   { "x", NULL },
    { "densifier_spread_rate", NULL },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    const char *near[3] = { NULL };
    int found = text_near(cases[i].name, trade_words, COUNT_OF(trade_words), near, 3);
    if (cases[i].want == NULL) {
      if (found != 0) fail_msg("%s: found %s", cases[i].name, near[0]);
    } else {
      if (found < 1) fail_msg("%s: found nothing", cases[i].name);
      assert_string_equal(near[0], cases[i].want);
    }
  }
}

static void near_names_come_best_first_and_ties_as_listed(void **state)
{
  (void)state;
  static const char *const words[] = { "passing", "posses", "passes", "masses", "passe", "basses" };
  const char *near[3] = { NULL };
  assert_int_equal(text_near("passs", words, COUNT_OF(words), near, 3), 2);
  assert_string_equal(near[0], "passes");
  assert_string_equal(near[1], "passe");
  assert_int_equal(text_near("passes", words, COUNT_OF(words), near, 3), 3);
  assert_string_equal(near[0], "passes");
  assert_string_equal(near[1], "passe"); /* singular and plural before a changed letter */
  assert_string_equal(near[2], "posses");
}

static void no_more_near_names_are_given_than_wanted(void **state)
{
  (void)state;
  static const char *const words[] = { "cat", "bat", "hat", "mat", "rat" };
  const char *near[4] = { NULL, NULL, NULL, "untouched" };
  assert_int_equal(text_near("zat", words, COUNT_OF(words), near, 1), 1);
  assert_null(near[1]);
  assert_int_equal(text_near("zat", words, COUNT_OF(words), near, 9), 3);
  assert_string_equal(near[3], "untouched");
  assert_int_equal(text_near("zat", words, COUNT_OF(words), near, 0), 0);
  assert_int_equal(text_near("zat", words, 0, near, 3), 0);
}

/* ---- layout */

static void padding_counts_cells_not_bytes(void **state)
{
  (void)state;
  Buf out = { 0 };
  text_left(&out, "caf\xC3\xA9", 6);
  text_right(&out, "\xE7\xA3\xA8", 4);
  text_left(&out, "whole", 2);
  text_right(&out, "7", 1);
  assert_string_equal(buf_text(&out), "caf\xC3\xA9    \xE7\xA3\xA8whole7");
  buf_free(&out);
}

static void text_folds_at_spaces_within_the_width(void **state)
{
  (void)state;
  static const struct {
    const char *text;
    int width, indent;
    const char *want;
  } cases[] = {
    { "one two three", 80, 0, "one two three" },
    { "one two three", 7, 0, "one two\nthree" },
    { "one two three", 6, 0, "one\ntwo\nthree" },
    { "one two three", 9, 2, "one two\n  three" },      /* the first line starts at the indent too */
    { "one two three", 8, 2, "one\n  two\n  three" },
    { "  spaced   out  ", 80, 0, "spaced out" },
    { "unbreakable is whole", 5, 1, "unbreakable\n is\n whole" },
    { "", 10, 4, "" },
    { "\xE7\xA3\xA8 \xE7\xA3\xA8", 5, 0, "\xE7\xA3\xA8 \xE7\xA3\xA8" },
    { "\xE7\xA3\xA8 \xE7\xA3\xA8", 4, 0, "\xE7\xA3\xA8\n\xE7\xA3\xA8" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Buf out = { 0 };
    text_fold(&out, cases[i].text, cases[i].width, cases[i].indent);
    assert_string_equal(buf_text(&out), cases[i].want);
    buf_free(&out);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(every_code_point_is_decoded_from_its_bytes),
    cmocka_unit_test(ill_formed_bytes_are_refused),
    cmocka_unit_test(what_is_encoded_by_rule_decodes_back),
    cmocka_unit_test(no_bytes_are_no_character_but_are_utf8),
    cmocka_unit_test(cells_follow_the_unicode_character_database),
    cmocka_unit_test(a_character_takes_the_cells_of_what_it_is_escaped_to),
    cmocka_unit_test(what_could_steer_a_terminal_is_shown_as_an_escape),
    cmocka_unit_test(a_zero_byte_is_escaped_too),
    cmocka_unit_test(escaped_text_needs_no_more_escaping),
    cmocka_unit_test(distance_agrees_with_its_definition),
    cmocka_unit_test(distance_ignores_case_and_counts_a_swap_once),
    cmocka_unit_test(distance_of_very_long_words_is_quick),
    cmocka_unit_test(a_misspelt_trade_word_finds_the_right_one),
    cmocka_unit_test(near_names_come_best_first_and_ties_as_listed),
    cmocka_unit_test(no_more_near_names_are_given_than_wanted),
    cmocka_unit_test(padding_counts_cells_not_bytes),
    cmocka_unit_test(text_folds_at_spaces_within_the_width),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
