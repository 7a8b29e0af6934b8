/* Findings as people and programs see them. */
#include "support.h"

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "base/diag.h"
#include "base/text.h"

/* One source, findings, and what was printed. */
typedef struct {
  Sources *sources;
  uint32_t source;
  Diags *diags;
  Buf out;
} Page;

static Page page(const char *text)
{
  Page p = { .sources = sources_new(), .diags = diags_new() };
  p.source = sources_add(p.sources, "a.lua", text, strlen(text));
  return p;
}

static void page_free(Page *p)
{
  buf_free(&p->out);
  diags_free(p->diags);
  sources_free(p->sources);
}

static Span find(const Page *p, const char *text)
{
  const char *all = sources_text(p->sources, p->source, NULL), *at = strstr(all, text);
  assert_non_null(at);
  uint32_t begin = (uint32_t)(at - all);
  return (Span){ p->source, begin, begin + (uint32_t)strlen(text) };
}

static void assert_prints(Page *p, int width, const char *want)
{
  buf_clear(&p->out);
  diags_print(p->diags, p->sources, (DiagStyle){ .width = width }, &p->out);
  assert_string_equal(buf_text(&p->out), want);
}

/* The excerpt and the carets under it, for one error at `at`. */
static void assert_excerpt(const char *text, Span at, int width, const char *want)
{
  Page p = page(text);
  diags_error(p.diags, "x", at, "m");
  diags_print(p.diags, p.sources, (DiagStyle){ .width = width }, &p.out);
  char *line = strchr(buf_text(&p.out), '\n') + 1;
  line = strchr(line, '\n') + 1;
  *strstr(line, "\n\n") = '\0';
  assert_string_equal(line, want);
  page_free(&p);
}

/* ---- the whole form */

static const char SALT_AND_PEPPER[] =
    "return tailor(require \"methods.cream_wet\", \"salt and pepper, dyed\") {\n"
    "  revision = \"1\",\n"
    "  finish = { exposure = \"fine aggregate\" },\n"
    "  before \"open\"    { hone \"cut 30\" { grit = 30, bond = \"resin\", passes = 3 } },\n"
    "}\n";

static void a_finding_shows_place_excerpt_note_help_and_basis(void **state)
{
  (void)state;
  Page p = page(SALT_AND_PEPPER);
  diags_add(p.diags, &(Diag){
    .level = DIAG_ERROR,
    .code = "grit-step",
    .message = "30 to 100 in one bond family is a 3.3x step; the coarser scratch will show through",
    .at = find(&p, "grit = 30"),
    .note = "the next abrasive is `grit = 100` at methods/cream_wet.lua:8:24",
    .help = "put one step between them, for instance 50 or 60",
    .basis = "common practice (about 2x, warn at 2.5x, skipped step over 3x); by the removal model the next step "
             "needs 14 passes to clear it, 6 are planned",
  });
  assert_prints(&p, 100,
    "error[grit-step]: 30 to 100 in one bond family is a 3.3x step; the coarser scratch will show through\n"
    "  a.lua:4:38\n"
    "   4 |   before \"open\"    { hone \"cut 30\" { grit = 30, bond = \"resin\", passes = 3 } },\n"
    "     |                                      ^^^^^^^^^\n"
    "  note: the next abrasive is `grit = 100` at methods/cream_wet.lua:8:24\n"
    "  help: put one step between them, for instance 50 or 60\n"
    "  basis: common practice (about 2x, warn at 2.5x, skipped step over 3x); by the removal model the\n"
    "         next step needs 14 passes to clear it, 6 are planned\n"
    "\n"
    "1 error\n");
  page_free(&p);
}

static void no_findings_print_nothing(void **state)
{
  (void)state;
  Page p = page("x");
  assert_prints(&p, 80, "");
  diags_print_short(p.diags, p.sources, &p.out);
  assert_string_equal(buf_text(&p.out), "");
  page_free(&p);
}

static void a_finding_with_no_place_has_no_excerpt(void **state)
{
  (void)state;
  Page p = page("x");
  diags_error(p.diags, "read", (Span){ 0 }, "lobby.lua: no such file");
  assert_prints(&p, 80, "error[read]: lobby.lua: no such file\n\n1 error\n");
  page_free(&p);
}

static void the_last_line_counts_what_there_is(void **state)
{
  (void)state;
  static const struct {
    int errors, warnings, notes;
    const char *want;
  } cases[] = {
    { 1, 0, 0, "\n1 error\n" },
    { 2, 1, 0, "\n2 errors, 1 warning\n" },
    { 0, 2, 0, "\n2 warnings\n" },
    { 0, 0, 1, "\n1 note\n" },
    { 1, 1, 2, "\n1 error, 1 warning, 2 notes\n" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Page p = page("some text");
    int counts[] = { cases[i].errors, cases[i].warnings, cases[i].notes };
    for (DiagLevel level = DIAG_ERROR; level <= DIAG_NOTE; level++)
      for (int n = 0; n < counts[level]; n++)
        diags_add(p.diags, &(Diag){ .level = level, .code = diag_level_name(level), .message = "m",
                                    .at = { 1, (uint32_t)n, 9 } });
    diags_print(p.diags, p.sources, (DiagStyle){ .width = 80 }, &p.out);
    assert_string_equal(buf_text(&p.out) + p.out.length - strlen(cases[i].want), cases[i].want);
    page_free(&p);
  }
}

static void findings_past_the_cap_are_counted_at_the_end(void **state)
{
  (void)state;
  Page p = page("x");
  for (uint32_t i = 0; i < DIAGS_MOST + 1; i++) diags_error(p.diags, "x", (Span){ 0 }, "m %u", (unsigned)i);
  diags_print(p.diags, p.sources, (DiagStyle){ .width = 80 }, &p.out);
  assert_non_null(strstr(buf_text(&p.out), "\n1 more finding is not shown\n1001 errors\n"));
  diags_error(p.diags, "x", (Span){ 0 }, "another");
  buf_clear(&p.out);
  diags_print_short(p.diags, p.sources, &p.out);
  assert_non_null(strstr(buf_text(&p.out), "\n2 more findings are not shown\n"));
  page_free(&p);
}

static void colour_comes_only_when_asked_for(void **state)
{
  (void)state;
  Page p = page("hone");
  diags_error(p.diags, "unit", (Span){ 1, 0, 4 }, "wrong");
  diags_print(p.diags, p.sources, (DiagStyle){ .width = 80 }, &p.out);
  assert_null(strchr(buf_text(&p.out), '\x1b'));
  buf_clear(&p.out);
  diags_print(p.diags, p.sources, (DiagStyle){ .width = 80, .colour = true }, &p.out);
  assert_string_equal(buf_text(&p.out),
    "\x1b[1;31merror[unit]\x1b[0m: \x1b[1mwrong\x1b[0m\n"
    "  a.lua:1:1\n"
    "\x1b[34m   1 | \x1b[0mhone\n"
    "\x1b[34m     | \x1b[0m\x1b[1;31m^^^^\x1b[0m\n"
    "\n"
    "1 error\n");
  page_free(&p);
}

/* ---- where the carets stand */

static void carets_stand_under_the_cells_of_the_span(void **state)
{
  (void)state;
  static const struct {
    const char *text;
    uint32_t begin, end;
    const char *want;
  } cases[] = {
    { "hone it", 5, 7, "   1 | hone it\n     |      ^^" },
    { "hone it", 5, 5, "   1 | hone it\n     |      ^" },           /* empty */
    { "hone", 4, 4, "   1 | hone\n     |     ^" },                  /* end of file */
    { "hone\n", 4, 5, "   1 | hone\n     |     ^" },                /* the line end itself */
    { "hone\n", 5, 5, "   2 | \n     | ^" },                        /* the line after the last */
    { "", 0, 0, "   1 | \n     | ^" },
    { "a {\n  b\n}", 2, 9, "   1 | a {\n     |   ^" }, /* more than one line: to the end of the first */
    { "wash { a,\r\n b }", 5, 14, "   1 | wash { a,\n     |      ^^^^" },
    { "\thone", 1, 5, "   1 |         hone\n     |         ^^^^" }, /* a tab before */
    { "a\thone", 1, 2, "   1 | a       hone\n     |  ^^^^^^^" },    /* the tab itself */
    { "\xE7\xA3\xA8\xE3\x81\x8F x", 7, 8, "   1 | \xE7\xA3\xA8\xE3\x81\x8F x\n     |      ^" },
    { "\xE7\xA3\xA8\xE3\x81\x8F x", 3, 6, "   1 | \xE7\xA3\xA8\xE3\x81\x8F x\n     |   ^^" },
    { "e\xCC\x81te x", 6, 7, "   1 | e\xCC\x81te x\n     |     ^" },
    { "caf\xC3\xA9 x", 6, 7, "   1 | caf\xC3\xA9 x\n     |      ^" },
    { "te\xCC\x81", 1, 4, "   1 | te\xCC\x81\n     |  ^" },       /* a combining mark at the very end */
    { "\x1b[31m x", 6, 7, "   1 | \\x1b[31m x\n     |          ^" },
    { "\x1b[31m x", 0, 1, "   1 | \\x1b[31m x\n     | ^^^^" },      /* an escape is underlined whole */
    { "\xE2\x80\xAE x", 4, 5, "   1 | \\u{202e} x\n     |          ^" },
    { "\xFF x", 2, 3, "   1 | \\xff x\n     |      ^" },
    { "hone", 2, 99, "   1 | hone\n     |   ^^" },                  /* past the end counts as the end */
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_excerpt(cases[i].text, (Span){ 1, cases[i].begin, cases[i].end }, 80, cases[i].want);
}

static void the_gutter_grows_with_the_line_number(void **state)
{
  (void)state;
  char text[12345 + 2];
  memset(text, '\n', 12344);
  strcpy(text + 12344, "x");
  assert_excerpt(text, (Span){ 1, 12344, 12345 }, 80, "12345 | x\n      | ^");
}

static const char TEN_TIMES_TEN[] =
    "0a2345678_1b2345678_2c2345678_3d2345678_4e2345678_5f2345678_6g2345678_7h2345678_8i2345678_9j2345678_";

static void a_long_line_is_cut_to_a_window_round_the_span(void **state)
{
  (void)state;
  static const struct {
    uint32_t begin, end;
    const char *want;
  } cases[] = {
    /* at 37 cells, 30 are left beside the gutter */
    { 0, 3, "   1 | 0a2345678_1b2345678_2c23456...\n     | ^^^" },
    { 24, 27, "   1 | 0a2345678_1b2345678_2c23456...\n     |                         ^^^" },
    { 25, 28, "   1 | ...5678_2c2345678_3d2345678...\n     |              ^^^" },
    { 50, 52, "   1 | ..._4e2345678_5f2345678_6g2...\n     |               ^^" },
    { 98, 100, "   1 | ...345678_8i2345678_9j2345678_\n     |                             ^^" },
    { 100, 100, "   1 | ...345678_8i2345678_9j2345678_\n     |                               ^" },
    { 50, 90, "   1 | ...5f2345678_6g2345678_7h23...\n     |    ^^^^^^^^^^^^^^^^^^^^^^^^" },
    { 5, 95, "   1 | 0a2345678_1b2345678_2c23456...\n     |      ^^^^^^^^^^^^^^^^^^^^^^" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_excerpt(TEN_TIMES_TEN, (Span){ 1, cases[i].begin, cases[i].end }, 37, cases[i].want);
}

static void a_line_that_just_fits_is_not_cut(void **state)
{
  (void)state;
  char want[300];
  snprintf(want, sizeof want, "   1 | %s\n     | ^", TEN_TIMES_TEN);
  assert_excerpt(TEN_TIMES_TEN, (Span){ 1, 0, 1 }, 107, want);
  assert_excerpt(TEN_TIMES_TEN, (Span){ 1, 0, 1 }, 0, want); /* no limit */
}

static void every_window_has_the_caret_under_its_letter(void **state)
{
  (void)state;
  /* wide characters, tabs and escapes all through the line, one letter to find */
  static const char *const fillers[] = { "\xE7\xA3\xA8", "\t", "\x1b", "e\xCC\x81", ".", "\xFF" };
  for (size_t f = 0; f < COUNT_OF(fillers); f++) {
    for (int before = 0; before < 60; before++) {
      Buf text = { 0 };
      for (int i = 0; i < before; i++) buf_puts(&text, fillers[f]);
      uint32_t at = (uint32_t)text.length;
      buf_puts(&text, "X");
      for (int i = 0; i < 60; i++) buf_puts(&text, fillers[f]);
      Page p = page(buf_text(&text));
      diags_error(p.diags, "x", (Span){ 1, at, at + 1 }, "m");
      diags_print(p.diags, p.sources, (DiagStyle){ .width = 40 }, &p.out);
      const char *line = strchr(strchr(buf_text(&p.out), '\n') + 1, '\n') + 1;
      const char *letter = strchr(line, 'X'), *under = strchr(line, '\n') + 1, *caret = strchr(under, '^');
      assert_non_null(letter);
      assert_non_null(caret);
      assert_int_equal(text_width(line, (size_t)(letter - line)), caret - under);
      assert_true(text_width(line, strcspn(line, "\n")) <= 40);
      page_free(&p);
      buf_free(&text);
    }
  }
}

/* ---- labels */

static void a_label_of_the_same_line_shares_the_excerpt(void **state)
{
  (void)state;
  Page p = page("between(6, 3)\n");
  diags_add(p.diags, &(Diag){
    .level = DIAG_ERROR, .code = "window", .message = "the window is upside down", .at = find(&p, "6"),
    .labels = { { find(&p, "3"), "this is the lower end" } }, .label_count = 1,
  });
  assert_prints(&p, 80,
    "error[window]: the window is upside down\n"
    "  a.lua:1:9\n"
    "   1 | between(6, 3)\n"
    "     |         ^\n"
    "     |            - this is the lower end\n"
    "\n"
    "1 error\n");
  page_free(&p);
}

static void a_label_elsewhere_has_its_own_place_and_excerpt(void **state)
{
  (void)state;
  Page p = page("hone { grit = 30 }\npolish { grit = 400 }\n");
  uint32_t other = sources_add(p.sources, "b.lua", "  grit = 100", 12);
  diags_add(p.diags, &(Diag){
    .level = DIAG_WARNING, .code = "grit-step", .message = "a wide step", .at = find(&p, "grit = 30"),
    .labels = { { find(&p, "grit = 400"), "the next abrasive" }, { { other, 2, 12 }, "was here before" },
                { { 0 }, "known only by name" } },
    .label_count = 3,
  });
  assert_prints(&p, 80,
    "warning[grit-step]: a wide step\n"
    "  a.lua:1:8\n"
    "   1 | hone { grit = 30 }\n"
    "     |        ^^^^^^^^^\n"
    "  a.lua:2:10\n"
    "   2 | polish { grit = 400 }\n"
    "     |          ---------- the next abrasive\n"
    "  b.lua:1:3\n"
    "   1 |   grit = 100\n"
    "     |   ---------- was here before\n"
    "  note: known only by name\n"
    "\n"
    "1 warning\n");
  page_free(&p);
}

static void a_label_cut_out_of_the_window_gets_its_own_excerpt(void **state)
{
  (void)state;
  Page p = page(TEN_TIMES_TEN);
  diags_add(p.diags, &(Diag){
    .level = DIAG_ERROR, .code = "x", .message = "m", .at = { 1, 0, 2 },
    .labels = { { { 1, 98, 100 }, "far" } }, .label_count = 1,
  });
  assert_prints(&p, 37,
    "error[x]: m\n"
    "  a.lua:1:1\n"
    "   1 | 0a2345678_1b2345678_2c23456...\n"
    "     | ^^\n"
    "  a.lua:1:99\n"
    "   1 | ...345678_8i2345678_9j2345678_\n"
    "     |                             --\n"
    "       far\n"
    "\n"
    "1 error\n");
  page_free(&p);
}

static void a_long_label_folds_below_its_underline(void **state)
{
  (void)state;
  Page p = page("hone");
  diags_add(p.diags, &(Diag){
    .level = DIAG_ERROR, .code = "x", .message = "m", .at = { 1, 0, 1 },
    .labels = { { { 1, 0, 4 }, "a label of more than a few words" } }, .label_count = 1,
  });
  assert_prints(&p, 30,
    "error[x]: m\n"
    "  a.lua:1:1\n"
    "   1 | hone\n"
    "     | ^\n"
    "     | ----\n"
    "       a label of more than a\n"
    "       few words\n"
    "\n"
    "1 error\n");
  page_free(&p);
}

/* ---- safety */

static void assert_harmless(const Buf *out)
{
  for (size_t at = 0; at < out->length;) {
    uint32_t code = 0;
    size_t used = text_decode(out->text + at, out->length - at, &code);
    assert_true(used > 0);
    assert_true(code == '\n' || !text_is_hidden(code));
    at += used;
  }
}

static void nothing_echoed_can_steer_a_terminal(void **state)
{
  (void)state;
  static const char evil[] = "\x1b[2J\xE2\x80\xAE\x07\xC2\x9B\r\n";
  Sources *sources = sources_new();
  Diags *diags = diags_new();
  Buf out = { 0 };
  uint32_t source = sources_add(sources, evil, evil, strlen(evil));
  diags_add(diags, &(Diag){
    .level = DIAG_ERROR, .code = evil, .message = evil, .at = { source, 0, 3 },
    .labels = { { { source, 1, 2 }, evil }, { { 0 }, evil } }, .label_count = 2,
    .note = evil, .help = evil, .basis = evil,
  });
  diags_print(diags, sources, (DiagStyle){ .width = 80 }, &out);
  diags_print_short(diags, sources, &out);
  assert_harmless(&out);
  assert_null(strstr(buf_text(&out), "\n\n\n"));
  buf_free(&out);
  diags_free(diags);
  sources_free(sources);
}

/* Bytes of all kinds in texts of all lengths, spans that mean nothing, every width. */
static void any_text_and_span_print_within_the_width(void **state)
{
  (void)state;
  static const char *const pieces[] = {
    "a", "b ", "\n", "\r", "\r\n", "\t", "\xE7\xA3\xA8", "e\xCC\x81", "\x1b", "\xFF", "\xE2\x80\xAE", "\xC3", "{}",
  };
  uint32_t seed = 1;
  for (int round = 0; round < 1000; round++) {
    Buf text = { 0 };
    int count = (int)(seed >> 16) % 120, width = 27 + round % 60;
    for (int i = 0; i < count; i++) {
      seed = seed * 1664525u + 1013904223u;
      uint32_t pick = (seed >> 16) % (2 * COUNT_OF(pieces));
      buf_puts(&text, pick < COUNT_OF(pieces) ? pieces[pick] : "x");
    }
    Page p = page(buf_text(&text));
    seed = seed * 1664525u + 1013904223u;
    Span at = { 1, (seed >> 8) % 200, (seed >> 16) % 200 }, other = { 1, (seed >> 12) % 200, (seed >> 4) % 200 };
    diags_add(p.diags, &(Diag){
      .code = "x", .message = "m", .at = at, .labels = { { other, "l" } }, .label_count = 1,
    });
    diags_print(p.diags, p.sources, (DiagStyle){ .width = width }, &p.out);
    assert_harmless(&p.out);
    for (const char *line = buf_text(&p.out); *line; line += strcspn(line, "\n") + 1)
      if (text_width(line, strcspn(line, "\n")) > width + 1) /* one past the end may stand outside */
        fail_msg("wider than %d:\n%s", width, buf_text(&p.out));
    page_free(&p);
    buf_free(&text);
  }
}

/* A machine-made line with a finding on every byte once took a walk over the whole line for each. */
static void many_findings_on_one_huge_line_are_printed_quickly(void **state)
{
  (void)state;
  enum { HUGE_LINE = 1 << 20 };
  char *text = malloc(HUGE_LINE + 1);
  memset(text, 'x', HUGE_LINE);
  text[HUGE_LINE] = '\0';
  Page p = page(text);
  for (uint32_t i = 1; i <= DIAGS_MOST; i++) diags_error(p.diags, "x", (Span){ 1, HUGE_LINE - i, HUGE_LINE }, "m");
  clock_t begin = clock();
  diags_print(p.diags, p.sources, (DiagStyle){ .width = 80 }, &p.out);
  assert_true(clock() - begin < CLOCKS_PER_SEC); /* was 44 s, is 0.02 s */
  free(text);
  page_free(&p);
}

/* ---- the other forms */

static void the_short_form_is_one_line_a_finding(void **state)
{
  (void)state;
  Page p = page("one\n  two\n");
  diags_add(p.diags, &(Diag){ .level = DIAG_WARNING, .code = "word", .message = "`two` is no step",
                              .at = find(&p, "two"), .help = "did you mean `hone`?", .note = "not shown" });
  diags_error(p.diags, "read", (Span){ 0 }, "no place");
  diags_print_short(p.diags, p.sources, &p.out);
  assert_string_equal(buf_text(&p.out),
    "a.lua:2:3: warning[word]: `two` is no step (did you mean `hone`?)\n"
    "error[read]: no place\n");
  page_free(&p);
}

static void the_json_form_has_every_member(void **state)
{
  (void)state;
  Page p = page("caf\xC3\xA9 one\ntwo");
  diags_add(p.diags, &(Diag){
    .level = DIAG_WARNING, .code = "word", .message = "say \"one\"", .at = { 1, 6, 11 },
    .about = "hone \"a\"", .labels = { { { 1, 0, 5 }, "here" } }, .label_count = 1,
    .note = "n", .help = "h", .basis = "b", .fix = "hone", .fix_at = { 1, 6, 6 },
    .fix_is_safe = true, .waiver = { { 1, 0, 5 }, "so", "me", "said", DIAG_ERROR },
  });
  diags_error(p.diags, "read", (Span){ 0 }, "no place");
  JsonWriter j = json_begin(&p.out);
  json_object(&j, NULL);
  diags_print_json(p.diags, p.sources, &j);
  json_end(&j);
  json_finish(&j);
  assert_string_equal(buf_text(&p.out),
    "{\n"
    "  \"findings\": [\n"
    "    {\n"
    "      \"level\": \"warning\",\n"
    "      \"code\": \"word\",\n"
    "      \"message\": \"say \\\"one\\\"\",\n"
    "      \"file\": \"a.lua\",\n"
    "      \"line\": 1,\n"
    "      \"column\": 6,\n"
    "      \"end_line\": 2,\n"
    "      \"end_column\": 2,\n"
    "      \"about\": \"hone \\\"a\\\"\",\n"
    "      \"labels\": [\n"
    "        {\n"
    "          \"text\": \"here\",\n"
    "          \"file\": \"a.lua\",\n"
    "          \"line\": 1,\n"
    "          \"column\": 1,\n"
    "          \"end_line\": 1,\n"
    "          \"end_column\": 5\n"
    "        }\n"
    "      ],\n"
    "      \"note\": \"n\",\n"
    "      \"help\": \"h\",\n"
    "      \"basis\": \"b\",\n"
    "      \"fix\": {\n"
    "        \"text\": \"hone\",\n"
    "        \"safe\": true,\n"
    "        \"file\": \"a.lua\",\n"
    "        \"line\": 1,\n"
    "        \"column\": 6,\n"
    "        \"end_line\": 1,\n"
    "        \"end_column\": 6\n"
    "      },\n"
    "      \"waiver\": {\n"
    "        \"reason\": \"so\",\n"
    "        \"by\": \"me\",\n"
    "        \"hides\": true,\n"
    "        \"file\": \"a.lua\",\n"
    "        \"line\": 1,\n"
    "        \"column\": 1,\n"
    "        \"end_line\": 1,\n"
    "        \"end_column\": 5\n"
    "      }\n"
    "    },\n"
    "    {\n"
    "      \"level\": \"error\",\n"
    "      \"code\": \"read\",\n"
    "      \"message\": \"no place\",\n"
    "      \"file\": null,\n"
    "      \"line\": null,\n"
    "      \"column\": null,\n"
    "      \"end_line\": null,\n"
    "      \"end_column\": null,\n"
    "      \"about\": null,\n"
    "      \"labels\": [],\n"
    "      \"note\": null,\n"
    "      \"help\": null,\n"
    "      \"basis\": null,\n"
    "      \"fix\": null,\n"
    "      \"waiver\": null\n"
    "    }\n"
    "  ],\n"
    "  \"errors\": 1,\n"
    "  \"warnings\": 1,\n"
    "  \"notes\": 0,\n"
    "  \"not_shown\": 0\n"
    "}\n");
  page_free(&p);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_finding_shows_place_excerpt_note_help_and_basis),
    cmocka_unit_test(no_findings_print_nothing),
    cmocka_unit_test(a_finding_with_no_place_has_no_excerpt),
    cmocka_unit_test(the_last_line_counts_what_there_is),
    cmocka_unit_test(findings_past_the_cap_are_counted_at_the_end),
    cmocka_unit_test(colour_comes_only_when_asked_for),
    cmocka_unit_test(carets_stand_under_the_cells_of_the_span),
    cmocka_unit_test(the_gutter_grows_with_the_line_number),
    cmocka_unit_test(a_long_line_is_cut_to_a_window_round_the_span),
    cmocka_unit_test(a_line_that_just_fits_is_not_cut),
    cmocka_unit_test(every_window_has_the_caret_under_its_letter),
    cmocka_unit_test(a_label_of_the_same_line_shares_the_excerpt),
    cmocka_unit_test(a_label_elsewhere_has_its_own_place_and_excerpt),
    cmocka_unit_test(a_label_cut_out_of_the_window_gets_its_own_excerpt),
    cmocka_unit_test(a_long_label_folds_below_its_underline),
    cmocka_unit_test(nothing_echoed_can_steer_a_terminal),
    cmocka_unit_test(any_text_and_span_print_within_the_width),
    cmocka_unit_test(many_findings_on_one_huge_line_are_printed_quickly),
    cmocka_unit_test(the_short_form_is_one_line_a_finding),
    cmocka_unit_test(the_json_form_has_every_member),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
