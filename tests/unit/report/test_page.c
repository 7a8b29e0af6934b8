/* test_page.c - cells and clock times that the reports are made of. */
#include "support.h"

#include <string.h>

#include "model/date.h"
#include "report/page.h"

static const char *taken(Buf *buf) /* valid until the next call */
{
  static char text[400];
  strncpy(text, buf_text(buf), sizeof text - 1);
  buf_free(buf);
  return text;
}

static void a_cell_is_padded_cut_and_escaped(void **state)
{
  (void)state;
  static const struct {
    const char *text;
    int cells;
    const char *left, *right;
  } cases[] = {
    { "open", 6, "open  ", "  open" },
    { "opened", 6, "opened", "opened" },
    { "opening", 6, "open..", "opening" },         /* on the right stand numbers, which are never cut */
    { "a\x1b[2J", 8, "a\\x1b[2J", "a\\x1b[2J" },   /* eight cells once it is harmless */
    { "a\x1b[2Jb", 8, "a\\x1b[..", "a\\x1b[2Jb" },
    { "\u6F06\u6F06\u6F06", 5, "\u6F06.. ", "\u6F06\u6F06\u6F06" }, /* two cells each: no half of one */
    { "", 2, "  ", "  " },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Buf buf = { 0 };
    page_left(&buf, cases[i].text, cases[i].cells);
    assert_string_equal(taken(&buf), cases[i].left);
    page_right(&buf, cases[i].text, cases[i].cells);
    assert_string_equal(taken(&buf), cases[i].right);
  }
}

static void a_paragraph_lines_up_behind_its_lead(void **state)
{
  (void)state;
  Buf buf = { 0 };
  page_fold(&buf, "care: ", "rinse the tools before the slurry sets", 24, 2);
  assert_string_equal(taken(&buf), "  care: rinse the tools\n"
                                   "        before the\n"
                                   "        slurry sets\n");
}

static void a_line_does_not_end_in_blanks(void **state)
{
  (void)state;
  Buf buf = { 0 };
  page_left(&buf, "a", 9);
  page_end_line(&buf);
  assert_string_equal(taken(&buf), "a\n");
}

static void minutes_read_as_people_say_them(void **state)
{
  (void)state;
  static const struct {
    int minutes;
    const char *want;
  } cases[] = {
    { 0, "0 min" },           { 25, "25 min" },         { 60, "1 h" },
    { 90, "1 h 30 min" },     { DAY_MIN, "1 d" },       { DAY_MIN + 5, "1 d 5 min" },
    { 3 * DAY_MIN + 61, "3 d 1 h 1 min" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Buf buf = { 0 };
    page_minutes(&buf, cases[i].minutes);
    assert_string_equal(taken(&buf), cases[i].want);
  }
}

static void instants_are_dates_of_the_jobs_calendar(void **state)
{
  (void)state;
  static const struct {
    int minute;
    const char *iso, *text;
  } cases[] = {
    { 0, "2028-02-28T00:00", "Mon 2028-02-28 00:00" },
    { DAY_MIN - 1, "2028-02-28T23:59", "Mon 2028-02-28 23:59" },
    { DAY_MIN, "2028-02-29T00:00", "Tue 2028-02-29 00:00" }, /* a leap year */
    { 2 * DAY_MIN + 425, "2028-03-01T07:05", "Wed 2028-03-01 07:05" },
    { -1, "2028-02-27T23:59", "Sun 2028-02-27 23:59" },
  };
  const Job job = { .start_day = date_day(2028, 2, 28) };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Buf buf = { 0 };
    page_iso(&buf, &job, cases[i].minute);
    assert_string_equal(taken(&buf), cases[i].iso);
    page_instant(&buf, &job, cases[i].minute);
    assert_string_equal(taken(&buf), cases[i].text);
  }
}

static void a_span_names_the_second_day_only_if_it_is_another(void **state)
{
  (void)state;
  const Job job = { .start_day = date_day(2026, 11, 30) };
  Buf buf = { 0 };
  page_span(&buf, &job, 425, 570);
  assert_string_equal(taken(&buf), "Mon 30 Nov 07:05-09:30");
  page_span(&buf, &job, 1320, DAY_MIN + 60);
  assert_string_equal(taken(&buf), "Mon 30 Nov 22:00 to Tue 1 Dec 01:00");
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_cell_is_padded_cut_and_escaped),
    cmocka_unit_test(a_paragraph_lines_up_behind_its_lead),
    cmocka_unit_test(a_line_does_not_end_in_blanks),
    cmocka_unit_test(minutes_read_as_people_say_them),
    cmocka_unit_test(instants_are_dates_of_the_jobs_calendar),
    cmocka_unit_test(a_span_names_the_second_day_only_if_it_is_another),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
