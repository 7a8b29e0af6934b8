/* test_cells.c - lines of cells: what goes in comes out, and nothing in a cell can end it or reach a page raw. */
#include "base/cells.h"

#include <string.h>

#include "support.h"

static void cells_come_back_as_they_went_in(void **state)
{
  (void)state;
  static const char *const lines[][3] = {
    { "row", "floor", "12.50" }, { "", "", "" }, { "a\tb", "c\\d", "e\nf" }, { "\\t", "\\", "\u00e9 \u6f06" },
  };
  Buf text = { 0 };
  Cells line = { 0 };
  for (size_t i = 0; i < COUNT_OF(lines); i++) cells_add(&text, lines[i][0], lines[i][1], lines[i][2], NULL);
  const char *at = text.text, *end = at + text.length;
  for (size_t i = 0; i < COUNT_OF(lines); i++) {
    assert_true(cells_next(&at, end, &line));
    assert_int_equal(line.count, 3);
    for (int c = 0; c < 3; c++) assert_string_equal(cells_at(&line, c), lines[i][c]);
    assert_string_equal(cells_at(&line, 3), "");
  }
  assert_false(cells_next(&at, end, &line));
  cells_free(&line);
  buf_free(&text);
}

static void what_cannot_be_set_becomes_a_mark(void **state)
{
  (void)state;
  static const char *const bad[] = { "\x1b", "\xff", "\x7f", "\xc2\x85", "\xe2\x80\xae", "\x01", "\xed\xa0\x80" };
  for (size_t i = 0; i < COUNT_OF(bad); i++) {
    Buf text = { 0 };
    cells_add(&text, bad[i], NULL);
    assert_memory_equal(text.text, "\uFFFD", 3);
    for (size_t b = 0; b < strlen(bad[i]); b++) assert_null(memchr(text.text, bad[i][b], 1));
    buf_free(&text);
  }
}

static void a_line_with_too_many_cells_is_refused(void **state)
{
  (void)state;
  Buf text = { 0 };
  Cells line = { 0 };
  buf_repeat(&text, '\t', CELLS_MOST);
  const char *at = text.text;
  assert_false(cells_next(&at, text.text + text.length, &line));
  at = text.text + 1;
  assert_true(cells_next(&at, text.text + text.length, &line));
  assert_int_equal(line.count, CELLS_MOST);
  cells_free(&line);
  buf_free(&text);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(cells_come_back_as_they_went_in),
    cmocka_unit_test(what_cannot_be_set_becomes_a_mark),
    cmocka_unit_test(a_line_with_too_many_cells_is_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
