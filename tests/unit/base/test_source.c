/* Sources: lines, places, packed spans. */
#include "support.h"

#include <stdlib.h>
#include <string.h>

#include "base/buf.h"
#include "base/source.h"
#include "base/text.h"

static uint32_t add(Sources *sources, const char *text)
{
  return sources_add(sources, "x.lua", text, strlen(text));
}

static int cells_between(const Sources *sources, uint32_t source, uint32_t begin, uint32_t end)
{
  return sources_place(sources, source, end).cell - sources_place(sources, source, begin).cell;
}

static void texts_are_numbered_from_one_and_found_by_name(void **state)
{
  (void)state;
  Sources *sources = sources_new();
  char text[] = "hone";
  assert_int_equal(sources_count(sources), 0);
  for (uint32_t n = 1; n <= 20; n++) {
    char name[] = { (char)('a' + n), '\0' };
    assert_int_equal(sources_add(sources, name, text, 4), n);
  }
  text[0] = 'x'; /* the set has its own copy */
  size_t length = 0;
  assert_int_equal(sources_count(sources), 20);
  assert_int_equal(sources_find(sources, "c"), 2);
  assert_int_equal(sources_find(sources, "missing"), 0);
  assert_string_equal(sources_name(sources, 2), "c");
  assert_string_equal(sources_text(sources, 2, &length), "hone");
  assert_int_equal(length, 4);
  sources_free(sources);
}

static void a_text_with_zero_bytes_is_kept_whole(void **state)
{
  (void)state;
  Sources *sources = sources_new();
  size_t length = 0;
  uint32_t s = sources_add(sources, "x", "a\0b\nc", 5);
  assert_memory_equal(sources_text(sources, s, &length), "a\0b\nc", 6);
  assert_int_equal(length, 5);
  assert_int_equal(sources_place(sources, s, 2).column, 3);
  assert_int_equal(sources_place(sources, s, 4).line, 2);
  sources_free(sources);
}

static void a_text_that_is_too_long_is_refused(void **state)
{
  (void)state;
  Sources *sources = sources_new();
  char *text = calloc(SOURCE_LARGEST + 1, 1);
  assert_int_equal(sources_add(sources, "x", text, SOURCE_LARGEST + 1), 0);
  assert_int_equal(sources_count(sources), 0);
  assert_int_equal(sources_add(sources, "x", text, SOURCE_LARGEST), 1);
  free(text);
  sources_free(sources);
}

static void one_text_too_many_is_refused(void **state)
{
  (void)state;
  Sources *sources = sources_new();
  for (uint32_t n = 1; n <= SOURCES_MOST; n++) assert_int_equal(add(sources, ""), n);
  assert_int_equal(add(sources, ""), 0);
  sources_free(sources);
}

static void lines_end_with_lf_cr_or_crlf(void **state)
{
  (void)state;
  static const struct {
    const char *text;
    int lines;
    const char *want[5];
  } cases[] = {
    { "", 1, { "" } },
    { "a", 1, { "a" } },
    { "a\n", 2, { "a", "" } },
    { "a\nbc\nd", 3, { "a", "bc", "d" } },
    { "a\rbc\rd", 3, { "a", "bc", "d" } },
    { "a\r\nbc\r\nd", 3, { "a", "bc", "d" } },
    { "\n\r", 3, { "", "", "" } }, /* not one end: LF first */
    { "a\r\r\nb", 3, { "a", "", "b" } },
    { "a\n\r\n\rb", 4, { "a", "", "", "b" } },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Sources *sources = sources_new();
    uint32_t s = add(sources, cases[i].text);
    assert_int_equal(sources_lines(sources, s), cases[i].lines);
    for (int line = 1; line <= cases[i].lines; line++) {
      size_t length;
      const char *text = sources_line(sources, s, line, &length);
      assert_int_equal(length, strlen(cases[i].want[line - 1]));
      assert_memory_equal(text, cases[i].want[line - 1], length);
    }
    sources_free(sources);
  }
}

static void a_place_counts_code_points_and_cells(void **state)
{
  (void)state;
  static const struct {
    const char *text;
    uint32_t offset;
    Place want;
  } cases[] = {
    { "abc", 0, { 1, 1, 1 } },
    { "abc", 2, { 1, 3, 3 } },
    { "abc", 3, { 1, 4, 4 } },   /* one past the end */
    { "abc", 99, { 1, 4, 4 } },  /* past the end counts as the end */
    { "a\nbc", 1, { 1, 2, 2 } }, /* the line end belongs to its line */
    { "a\nbc", 2, { 2, 1, 1 } },
    { "a\r\nbc", 2, { 1, 2, 2 } }, /* inside CRLF */
    { "a\r\nbc", 3, { 2, 1, 1 } },
    { "a\n", 2, { 2, 1, 1 } },
    { "\ta", 1, { 1, 2, 9 } },
    { "1234567\ta", 8, { 1, 9, 9 } },
    { "12345678\ta", 9, { 1, 10, 17 } },
    { "\xC3\xA9x", 2, { 1, 2, 2 } },
    { "\xC3\xA9x", 1, { 1, 1, 1 } },          /* inside a character */
    { "\xE7\xA3\xA8x", 3, { 1, 2, 3 } },      /* wide */
    { "e\xCC\x81x", 3, { 1, 3, 2 } },         /* combining */
    { "\xE7\xA3\xA8\tx", 4, { 1, 3, 9 } },    /* a tab after a wide character */
    { "\xFFx", 1, { 1, 2, 5 } },              /* an invalid byte is one column, shown as \xff */
    { "\x1bx", 1, { 1, 2, 5 } },
    { "\xE2\x80\xAEx", 3, { 1, 2, 9 } },      /* \u{202e} */
    { "", 0, { 1, 1, 1 } },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Sources *sources = sources_new();
    Place got = sources_place(sources, add(sources, cases[i].text), cases[i].offset);
    if (got.line != cases[i].want.line || got.column != cases[i].want.column || got.cell != cases[i].want.cell)
      fail_msg("case %zu: got %d:%d cell %d", i, got.line, got.column, got.cell);
    sources_free(sources);
  }
}

static void every_offset_of_a_long_text_is_on_its_line(void **state)
{
  (void)state;
  enum { LINES = 500 };
  char text[LINES * 4 + 1];
  for (int i = 0; i < LINES; i++) memcpy(text + 4 * i, "abc\n", 4);
  Sources *sources = sources_new();
  uint32_t s = sources_add(sources, "x", text, LINES * 4);
  for (uint32_t offset = 0; offset < LINES * 4; offset++) {
    Place place = sources_place(sources, s, offset);
    assert_int_equal(place.line, offset / 4 + 1);
    assert_int_equal(place.column, offset % 4 + 1);
  }
  sources_free(sources);
}

/* Long lines have places remembered along the way; this walks without them. */
static void places_on_a_long_line_are_those_of_a_plain_walk(void **state)
{
  (void)state;
  static const char *const pieces[] = { "a", "\t", "\xE7\xA3\xA8", "\xFF", "e\xCC\x81", "\x1b" };
  Buf text = { 0 };
  buf_puts(&text, "a first line\n");
  uint32_t begin = (uint32_t)text.length;
  for (int i = 0; i < 4000; i++) buf_puts(&text, pieces[(i * 7 + i / 11) % (int)COUNT_OF(pieces)]);
  uint32_t end = (uint32_t)text.length;
  buf_puts(&text, "\nx");
  Sources *sources = sources_new();
  uint32_t s = sources_add(sources, "x", text.text, text.length);
  Place want = { 2, 1, 1 };
  for (uint32_t at = begin; at < end;) {
    int cells;
    Place got = sources_place(sources, s, at), back;
    assert_memory_equal(&got, &want, sizeof got);
    uint32_t offset = sources_offset(sources, s, 2, want.cell, &back);
    assert_int_equal(back.cell, want.cell);
    assert_true(offset == at || cells_between(sources, s, at, offset) == 0);
    uint32_t used = (uint32_t)text_next(text.text + at, end - at, &cells);
    want.column++;
    want.cell = source_cell_after(want.cell, text.text[at], cells);
    at += used;
  }
  assert_int_equal(sources_place(sources, s, end).cell, want.cell);
  assert_int_equal(sources_place(sources, s, end + 1).line, 3);
  sources_free(sources);
  buf_free(&text);
}

static void a_cell_leads_back_to_its_character(void **state)
{
  (void)state;
  static const struct {
    int cell;
    uint32_t offset;
    int begins; /* the cell that character begins in */
  } cases[] = { { 1, 2, 1 }, { 2, 3, 2 }, { 3, 3, 2 }, { 4, 6, 4 }, { 5, 7, 5 }, { 8, 7, 5 }, { 9, 8, 9 },
                { 10, 9, 10 }, { 999, 9, 10 } };
  Sources *sources = sources_new();
  uint32_t s = add(sources, "?\na\xE7\xA3\xA8" "b\tc\nd");
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Place place;
    assert_int_equal(sources_offset(sources, s, 2, cases[i].cell, &place), cases[i].offset);
    assert_int_equal(place.cell, cases[i].begins);
    assert_int_equal(place.line, 2);
  }
  sources_free(sources);
}

static void spans_pack_into_one_integer_and_back(void **state)
{
  (void)state;
  static const Span cases[] = {
    { 0, 0, 0 }, { 1, 0, 0 }, { 1, 2, 3 }, { 7, 0, SOURCE_LARGEST },
    { SOURCES_MOST, SOURCE_LARGEST, SOURCE_LARGEST },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    int64_t packed = span_pack(cases[i]);
    Span got = span_unpack(packed);
    assert_true(packed >= 0);
    assert_int_equal(got.source, cases[i].source);
    assert_int_equal(got.begin, cases[i].begin);
    assert_int_equal(got.end, cases[i].end);
    assert_int_equal(span_is_nowhere(got), cases[i].source == 0);
  }
  assert_int_equal(span_pack((Span){ 0, 5, 6 }), 0); /* nowhere, whatever else it says */
}

static void a_span_over_the_limit_is_cut_and_an_impossible_source_is_nowhere(void **state)
{
  (void)state;
  Span got = span_unpack(span_pack((Span){ 3, 5, UINT32_MAX }));
  assert_int_equal(got.source, 3);
  assert_int_equal(got.begin, 5);
  assert_int_equal(got.end, (1 << 25) - 1);
  assert_int_equal(span_pack((Span){ SOURCES_MOST + 1, 5, 6 }), 0);
}

static void freeing_nothing_is_fine(void **state)
{
  (void)state;
  sources_free(NULL);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(texts_are_numbered_from_one_and_found_by_name),
    cmocka_unit_test(a_text_with_zero_bytes_is_kept_whole),
    cmocka_unit_test(a_text_that_is_too_long_is_refused),
    cmocka_unit_test(one_text_too_many_is_refused),
    cmocka_unit_test(lines_end_with_lf_cr_or_crlf),
    cmocka_unit_test(a_place_counts_code_points_and_cells),
    cmocka_unit_test(every_offset_of_a_long_text_is_on_its_line),
    cmocka_unit_test(places_on_a_long_line_are_those_of_a_plain_walk),
    cmocka_unit_test(a_cell_leads_back_to_its_character),
    cmocka_unit_test(spans_pack_into_one_integer_and_back),
    cmocka_unit_test(a_span_over_the_limit_is_cut_and_an_impossible_source_is_nowhere),
    cmocka_unit_test(freeing_nothing_is_fine),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
