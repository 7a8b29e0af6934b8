#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "plan/psplib.h"

static const char sm[] =
    "projects : 1\n"
    "jobs (incl. supersource/sink ):  4\n"
    "  - renewable                 :  2   R\n"
    "PRECEDENCE RELATIONS:\n"
    "jobnr.    #modes  #successors   successors\n"
    "   1        1          2           2   3\n"
    "   2        1          1           4\n"
    "   3        1          1           4\n"
    "   4        1          0\n"
    "REQUESTS/DURATIONS:\n"
    "jobnr. mode duration  R 1  R 2\n"
    "------------------------------\n"
    "  1      1     0       0    0\n"
    "  2      1     8       3    0\n"
    "  3      1     4       0    9\n"
    "  4      1     0       0    0\n"
    "RESOURCEAVAILABILITIES:\n"
    "  R 1  R 2\n"
    "    4   10\n";

static const char sch[] = "2\t1\t0\t0\n"
                          "0\t1\t2\t1\t2\t[0]\t[0]\n1\t1\t2\t2\t3\t[3]\t[5]\n2\t1\t2\t1\t3\t[-7]\t[4]\n3\t1\t0\n"
                          "0\t1\t0\t0\n1\t1\t5\t2\n2\t1\t4\t1\n3\t1\t0\t0\n3\n";

static void a_single_mode_file_is_read(void **state)
{
  (void)state;
  PsplibError error;
  Problem *p = psplib_read(PSPLIB_SM, sm, strlen(sm), &error);
  assert_non_null(p);
  assert_int_equal(p->task_count, 4);
  assert_int_equal(p->link_count, 4);
  assert_int_equal(p->tasks[1].duration, 8);
  assert_int_equal(p->tasks[2].demands[0].resource, 1);
  assert_int_equal(p->tasks[2].demands[0].amount, 9);
  assert_int_equal(p->resources[1].capacity, 10);
  assert_int_equal(p->horizon, 12);
  problem_free(p);
}

static void lags_of_both_signs_are_read(void **state)
{
  (void)state;
  PsplibError error;
  Problem *p = psplib_read(PSPLIB_SCH, sch, strlen(sch), &error);
  assert_non_null(p);
  assert_int_equal(p->task_count, 4);
  assert_int_equal(p->link_count, 6);
  assert_int_equal(p->links[4].from, 2);
  assert_int_equal(p->links[4].to, 1);
  assert_int_equal(p->links[4].minutes, -7);
  assert_int_equal(p->links[4].kind, LINK_SS_MIN);
  assert_int_equal(p->resources[0].capacity, 3);
  assert_int_equal(p->tasks[0].fixed_start, 0);
  problem_free(p);
}

/* The text with one piece replaced. */
static void assert_refused(PsplibFormat format, const char *text, const char *from, const char *to, int line,
                           const char *message)
{
  char changed[2048];
  const char *at = strstr(text, from);
  assert_non_null(at);
  snprintf(changed, sizeof changed, "%.*s%s%s", (int)(at - text), text, to, at + strlen(from));
  PsplibError error = { 0 };
  assert_null(psplib_read(format, changed, strlen(changed), &error));
  assert_string_equal(error.message, message);
  assert_int_equal(error.line, line);
}

static void errors_name_the_line_and_the_fault(void **state)
{
  (void)state;
  assert_refused(PSPLIB_SM, sm, "  4\n  -", "  four\n  -", 2,
                 "the number of jobs is missing: a whole number was expected");
  assert_refused(PSPLIB_SM, sm, "2   3\n", "2   40\n", 6, "a successor is 40, outside 1..4");
  assert_refused(PSPLIB_SM, sm, "  2      1     8", "  3      1     8", 14, "task 3 where 2 was expected");
  assert_refused(PSPLIB_SM, sm, "  3      1     4", "  3      2     4", 15, "the mode is 2, outside 1..1");
  assert_refused(PSPLIB_SM, sm, "RESOURCEAV", "AV", 18, "\"RESOURCEAVAILABILITIES:\" is missing");
  assert_refused(PSPLIB_SCH, sch, "[-7]", "[x]", 4, "a lag is missing: a whole number was expected");
  assert_refused(PSPLIB_SCH, sch, "\t0\t0\n3\n", "\t0\t0\n", 10,
                 "a capacity is missing: a whole number was expected");
  assert_refused(PSPLIB_SCH, sch, "2\t1\t0\t0", "99999\t1\t0\t0", 1,
                 "the number of activities is 99999, outside 0..9998");
}

static void the_ending_of_a_name_tells_the_format(void **state)
{
  (void)state;
  PsplibFormat format;
  assert_true(psplib_format("a/b.sm", &format) && format == PSPLIB_SM);
  assert_true(psplib_format("b.sch", &format) && format == PSPLIB_SCH);
  assert_false(psplib_format("bestknown.csv", &format));
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_single_mode_file_is_read),
    cmocka_unit_test(lags_of_both_signs_are_read),
    cmocka_unit_test(errors_name_the_line_and_the_fault),
    cmocka_unit_test(the_ending_of_a_name_tells_the_format),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
