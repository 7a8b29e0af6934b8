/* test_schedule_files.c - the schedule for other programs, as independent readers take it (tests/read_back.py). */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#include "report/report.h"
#include "unit/cost/sample.h"

typedef void (*Writer)(const Plan *plan, Buf *out);

/* What the reader says to the output, through a file. */
static Buf read_back(Sample *s, Writer write, const char *kind)
{
  Buf text = { 0 }, said = { 0 };
  char command[200], chunk[4096], path[] = P_tmpdir "/gritwork-XXXXXX";
  int fd = mkstemp(path);
  assert_true(fd >= 0);
  FILE *file = fdopen(fd, "w");
  write(&s->plan, &text);
  fwrite(buf_text(&text), 1, text.length, file);
  fclose(file);
  snprintf(command, sizeof command, "/usr/bin/python3 tests/read_back.py %s < %s", kind, path);
  FILE *pipe = popen(command, "r");
  assert_non_null(pipe);
  for (size_t got; (got = fread(chunk, 1, sizeof chunk, pipe)) > 0;) buf_add(&said, chunk, got);
  int status = pclose(pipe);
  remove(path);
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) print_error("%s", buf_text(&said));
  assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
  buf_free(&text);
  return said;
}

static void assert_reads(Sample *s, Writer write, const char *kind, const char *const *wanted, size_t count)
{
  Buf said = read_back(s, write, kind);
  for (size_t i = 0; i < count; i++) {
    if (strstr(buf_text(&said), wanted[i]) == NULL) print_error("want `%s` in:\n%s", wanted[i], buf_text(&said));
    assert_non_null(strstr(buf_text(&said), wanted[i]));
  }
  buf_free(&said);
}

static void the_calendar_has_an_event_a_shift_and_a_hold_point(void **state)
{
  (void)state;
  static const char *const wanted[] = {
    "2026-11-30 07:00 2026-11-30 15:30 Harbour Street bakery: day\n",
    "2026-11-30 22:00 2026-12-01 01:40 Harbour Street bakery: night\n",
    "2026-12-02 07:00 2026-12-02 08:20 Harbour Street bakery: day\n",
    "  07:20-12:20 shop: hone open, edges (operator 2)\n",
    "2026-12-02 08:00 2026-12-02 08:20 Hold: shop, sheen\n", "  Work stops here until somebody signs.\n",
  };
  Sample *s = sample_new();
  s->activities[SHEEN].hold = true;
  assert_reads(s, report_ics, "ics", wanted, COUNT_OF(wanted));
  sample_free(s);
}

static void write_marked(const Plan *plan, Buf *out)
{
  report_ics_of(plan, "0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef", out);
}

/* An X- property belongs to the calendar, a comment to each event (RFC 5545, 3.8.8.2 and 3.8.1.4). */
static void the_calendar_of_a_bid_bears_its_fingerprint(void **state)
{
  (void)state;
  Sample *s = sample_new();
  Buf out = { 0 };
  write_marked(&s->plan, &out);
  int events = 0, comments = 0;
  for (const char *at = buf_text(&out); (at = strstr(at, "BEGIN:VEVENT")) != NULL; at++) events++;
  for (const char *at = buf_text(&out);
       (at = strstr(at, "\r\nCOMMENT:fingerprint of the sources 0123456789abcdef\r\n")) != NULL; at++)
    comments++;
  assert_true(events > 0 && comments == events);
  assert_non_null(strstr(buf_text(&out), "\r\nX-GRITWORK-FINGERPRINT:0123456789abcdef"));
  buf_free(&out);
  report_ics(&s->plan, &out);
  assert_null(strstr(buf_text(&out), "FINGERPRINT"));
  buf_free(&out);
  static const char *const wanted[] = { "2026-11-30 07:00 2026-11-30 15:30 Harbour Street bakery: day\n" };
  assert_reads(s, write_marked, "ics", wanted, COUNT_OF(wanted));
  sample_free(s);
}

static void a_calendar_keeps_its_identifiers_when_times_move(void **state)
{
  (void)state;
  Sample *s = sample_new();
  Buf before = { 0 }, after = { 0 };
  report_ics(&s->plan, &before);
  s->stretches[SURVEY][0].start += 5;
  report_ics(&s->plan, &after);
  const char *a = strstr(buf_text(&before), "UID:"), *b = strstr(buf_text(&after), "UID:");
  assert_non_null(a);
  assert_memory_equal(a, b, strcspn(a, "\r"));
  assert_string_not_equal(buf_text(&before), buf_text(&after));
  buf_free(&before);
  buf_free(&after);
  sample_free(s);
}

static void the_table_has_a_row_a_stretch(void **state)
{
  (void)state;
  static const char *const wanted[] = {
    "id|area|step|word|work|shift|start|finish|minutes|part|parts|people|machine|number|",
    "shop/open/field|shop|open|hone|field|day|2026-11-30T07:20|2026-11-30T15:30|490|1|2|operator 1|",
    "shop/open/field|shop|open|hone|field|day|2026-12-01T07:00|2026-12-01T08:00|60|2|2|operator 1|",
    "office/protect/rest|office|protect|guard|rest|night|2026-12-01T01:40|2026-12-01T02:40|60|1|1||",
  };
  Sample *s = sample_new();
  assert_reads(s, report_csv, "csv", wanted, COUNT_OF(wanted));
  sample_free(s);
}

static void a_name_is_no_formula_in_a_spreadsheet(void **state)
{
  (void)state;
  static const char *const names[] = { "=1+1", "+1", "-1", "@x" };
  for (size_t i = 0; i < COUNT_OF(names); i++) {
    Sample *s = sample_new();
    Buf out = { 0 }, bare = { 0 };
    s->areas[SHOP].name = names[i];
    report_csv(&s->plan, &out);
    buf_printf(&bare, ",\"%s\"", names[i]);
    assert_null(strstr(buf_text(&out), buf_text(&bare)));
    buf_free(&out);
    buf_free(&bare);
    sample_free(s);
  }
}

static void the_drawing_has_a_bar_a_stretch_and_tells_kinds_apart(void **state)
{
  (void)state;
  static const char *const wanted[] = {
    "pattern : 5\n",   "rect bar field: 6\n" /* five stretches and the legend */, "rect bar edges: 2\n",
    "rect bar dwell: 2\n", "path hold: 2\n", "\nMon 30 Nov\n", "\nhone open\n", "\ndwell, keep wet\n",
  };
  Sample *s = sample_new();
  s->activities[SHEEN].hold = true;
  assert_reads(s, report_svg, "svg", wanted, COUNT_OF(wanted));
  sample_free(s);
}

static void odd_names_stay_text(void **state)
{
  (void)state;
  static const struct {
    Writer write;
    const char *kind;
  } outputs[] = { { report_ics, "ics" }, { report_csv, "csv" }, { report_svg, "svg" } };
  for (size_t i = 0; i < COUNT_OF(outputs); i++) {
    Sample *s = sample_new();
    s->job.name = s->areas[0].name = s->shop[0].name = s->crews[0].name = s->persons[0].name =
      "a \"b\" \\ ; , <c> & \x1b \r\nEND:VEVENT \xFF "
      "\u6F06\u6F06\u6F06\u6F06\u6F06\u6F06\u6F06\u6F06\u6F06\u6F06\u6F06";
    static const char *const wanted[] = { "a \"b\" \\ ; , <c> & \\x1b \\r\\nEND:VEVENT" };
    static const char *const in_ics[] = { "a \"b\" \\ ; , <c> &" };
    if (i == 0) assert_reads(s, outputs[i].write, outputs[i].kind, in_ics, 1);
    else if (i == 1) assert_reads(s, outputs[i].write, outputs[i].kind, wanted, 1);
    else {
      Buf said = read_back(s, outputs[i].write, outputs[i].kind);
      buf_free(&said);
    }
    sample_free(s);
  }
}

static void without_a_schedule_they_are_empty_and_sound(void **state)
{
  (void)state;
  static const struct {
    Writer write;
    const char *kind, *says;
  } outputs[] = { { report_ics, "ics", "" }, { report_csv, "csv", "id|area" }, { report_svg, "svg", "no schedule" } };
  for (size_t i = 0; i < COUNT_OF(outputs); i++) {
    Sample *s = sample_new();
    s->plan.bookings = NULL;
    assert_reads(s, outputs[i].write, outputs[i].kind, &outputs[i].says, 1);
    sample_free(s);
  }
}

static void assert_text(Sample *s, void (*write)(const Plan *plan, int width, Buf *out),
                        const char *const *wanted, size_t count)
{
  for (int width = 40; width <= 120; width += 20) {
    Buf out = { 0 };
    write(&s->plan, width, &out);
    for (const char *line = buf_text(&out), *end; *line; line = end + 1) {
      end = strchr(line, '\n');
      assert_true(end - line <= width);
    }
    for (size_t i = 0; width == 80 && i < count; i++) {
      if (!strstr(buf_text(&out), wanted[i])) print_error("want `%s` in:\n%s", wanted[i], buf_text(&out));
      assert_non_null(strstr(buf_text(&out), wanted[i]));
    }
    buf_free(&out);
  }
}

static void slack_lists_the_critical_first_and_the_rest_by_it(void **state)
{
  (void)state;
  static const char *const wanted[] = {
    "Critical: later by a minute, and the finish is later\n"
    "  shop         check survey                   Mon 30 Nov 07:00\n",
    "office       polish buff                    Mon 30 Nov 22:00         35 min\n"
    "  shop         hone open, edges               Mon 30 Nov 07:20      2 h 5 min\n",
  };
  Sample *s = sample_new();
  s->bookings[OPEN_EDGES].slack_min = 125;
  s->bookings[BUFF].slack_min = 35;
  assert_text(s, report_slack_text, wanted, COUNT_OF(wanted));
  sample_free(s);
}

static void load_is_the_share_of_each_shift(void **state)
{
  (void)state;
  static const char *const wanted[] = {
    "                          all   30    1    2\n",
    "  operator 1               69  100   91   16\n", /* 20 + 490 of the 510 minutes of Monday's shift */
    "  planetary 32 in          38   68   39    6\n", /* 490 by day and 180 by night, of 510 + 480 */
  };
  Sample *s = sample_new();
  assert_text(s, report_load_text, wanted, COUNT_OF(wanted));
  sample_free(s);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(the_calendar_has_an_event_a_shift_and_a_hold_point),
    cmocka_unit_test(the_calendar_of_a_bid_bears_its_fingerprint),
    cmocka_unit_test(a_calendar_keeps_its_identifiers_when_times_move),
    cmocka_unit_test(the_table_has_a_row_a_stretch),
    cmocka_unit_test(a_name_is_no_formula_in_a_spreadsheet),
    cmocka_unit_test(the_drawing_has_a_bar_a_stretch_and_tells_kinds_apart),
    cmocka_unit_test(odd_names_stay_text),
    cmocka_unit_test(without_a_schedule_they_are_empty_and_sound),
    cmocka_unit_test(slack_lists_the_critical_first_and_the_rest_by_it),
    cmocka_unit_test(load_is_the_share_of_each_shift),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
