/* test_paper.c - a paper's blocks, and the HTML that is made of them. */
#include "report/paper.h"

#include <string.h>

#include "support.h"

static void blocks_come_back_as_they_went_in(void **state)
{
  (void)state;
  Buf paper = { 0 };
  Block block = { 0 };
  for (int kind = 0; kind < PAPER_KINDS; kind++) paper_add(&paper, (PaperKind)kind, "a", "b\tc", NULL);
  const char *at = paper.text, *end = at + paper.length;
  for (int kind = 0; kind < PAPER_KINDS; kind++) {
    assert_true(paper_next(&at, end, &block));
    assert_int_equal(block.kind, kind);
    assert_int_equal(block_cells(&block), 2);
    assert_string_equal(block_cell(&block, 1), "b\tc");
  }
  assert_false(paper_next(&at, end, &block));
  cells_free(&block.line);
  buf_free(&paper);
}

static void what_is_no_block_ends_the_paper(void **state)
{
  (void)state;
  Buf paper = { 0 };
  Block block = { 0 };
  cells_add(&paper, "marquee", "x", NULL);
  const char *at = paper.text;
  assert_false(paper_next(&at, paper.text + paper.length, &block));
  cells_free(&block.line);
  buf_free(&paper);
}

static Buf html_of(const Buf *paper)
{
  Buf html = { 0 };
  paper_html(paper, &html);
  return html;
}

static void begin(Buf *paper)
{
  paper_add(paper, PAPER_BEGIN, "en", "letter", "normal", "A <title>", "foot & all", "2027-03-01", NULL);
}

static int mentions(const Buf *text, const char *part)
{
  int count = 0;
  for (const char *at = buf_text(text); (at = strstr(at, part)) != NULL; at++) count++;
  return count;
}

static void what_a_script_wrote_cannot_become_markup(void **state)
{
  (void)state;
  Buf paper = { 0 };
  const char *evil = "\"><script>alert(1)</script>&<b>";
  begin(&paper);
  paper_add(&paper, PAPER_TABLE, "l1", "r1", NULL);
  paper_add(&paper, PAPER_HEADS, evil, evil, NULL);
  for (int kind = PAPER_TITLE; kind < PAPER_KINDS; kind++)
    if (kind != PAPER_TABLE && kind != PAPER_HEADS) paper_add(&paper, (PaperKind)kind, evil, evil, evil, NULL);
  Buf html = html_of(&paper);
  assert_int_equal(mentions(&html, "<script"), 0);
  assert_int_equal(mentions(&html, "alert(1)&lt;/script&gt;&amp;&lt;b&gt;") > 10, true);
  buf_free(&paper);
  buf_free(&html);
}

static void whatever_is_opened_is_closed(void **state)
{
  (void)state;
  static const char *const tags[] = { "html",   "head", "body", "ul", "dl",  "table",   "thead",
                                      "tbody",  "tr",   "td",   "th", "div", "section", "header",
                                      "footer", "p",    "span", "h1", "h2",  "h3" };
  for (int first = 1; first < PAPER_KINDS; first++)
    for (int second = 1; second < PAPER_KINDS; second++) {
      Buf paper = { 0 };
      begin(&paper);
      if (first != PAPER_TABLE) paper_add(&paper, PAPER_TABLE, "l1", "r1", NULL);
      paper_add(&paper, (PaperKind)first, "3", "4", "work", NULL);
      if (second != first) paper_add(&paper, PAPER_TABLE, "l1", "r1", NULL);
      paper_add(&paper, (PaperKind)second, "3", "4", "work", NULL);
      Buf html = html_of(&paper);
      for (size_t t = 0; t < COUNT_OF(tags); t++) {
        Buf open = { 0 }, open_with = { 0 }, close = { 0 };
        buf_printf(&open, "<%s>", tags[t]);
        buf_printf(&open_with, "<%s ", tags[t]);
        buf_printf(&close, "</%s>", tags[t]);
        assert_int_equal(mentions(&html, buf_text(&open)) + mentions(&html, buf_text(&open_with)),
                         mentions(&html, buf_text(&close)));
        buf_free(&open);
        buf_free(&open_with);
        buf_free(&close);
      }
      buf_free(&paper);
      buf_free(&html);
    }
}

static void the_file_needs_nothing_from_elsewhere(void **state)
{
  (void)state;
  Buf paper = { 0 };
  begin(&paper);
  paper_add(&paper, PAPER_TEXT, "text", NULL);
  Buf html = html_of(&paper);
  assert_int_equal(mentions(&html, "http"), 0);
  assert_int_equal(mentions(&html, "src="), 0);
  assert_int_equal(mentions(&html, "url("), 0);
  assert_int_equal(mentions(&html, "<script"), 0);
  assert_int_equal(mentions(&html, "A &lt;title&gt;"), 1);
  assert_int_equal(mentions(&html, "foot &amp; all"), 1);
  buf_free(&paper);
  buf_free(&html);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(blocks_come_back_as_they_went_in),
    cmocka_unit_test(what_is_no_block_ends_the_paper),
    cmocka_unit_test(what_a_script_wrote_cannot_become_markup),
    cmocka_unit_test(whatever_is_opened_is_closed),
    cmocka_unit_test(the_file_needs_nothing_from_elsewhere),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
