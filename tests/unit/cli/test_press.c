/* test_press.c - the helper that makes PDF and spreadsheet files: its work is taken if it ends well, and in
 * time. */
#include "cli/press.h"

#include "support.h"

#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/time.h>
#include <unistd.h>

#include "base/files.h"
#include "cli/waiting.h"

enum { PLENTY_MS = 20000 };

/* The helper is looked for beside the program that runs, which here is this test. */
static const char *helper(void)
{
  static char path[512];
  ssize_t length = readlink("/proc/self/exe", path, sizeof path - 32);
  path[length > 0 ? length : 0] = '\0';
  strcpy(strrchr(path, '/'), "/gritwork-press");
  return path;
}

static int remove_helper(void **state)
{
  (void)state;
  return unlink(helper()) == 0 || errno == ENOENT ? 0 : -1;
}

/* Puts a shell script in the helper's place, and has it make something from a text. */
static PressStatus make_with(const char *script, int wall_ms, Buf *out, Buf *why)
{
  Buf text = { 0 }, from = { 0 };
  buf_printf(&text, "#!/bin/sh\n%s\n", script);
  buf_puts(&from, "what it is made from");
  assert_int_equal(files_write(helper(), buf_text(&text), text.length), FILES_OK);
  assert_int_equal(chmod(helper(), 0755), 0);
  PressStatus status = press_make("bid.pdf", &from, wall_ms, out, why);
  buf_free(&text);
  buf_free(&from);
  return status;
}

static void what_it_writes_is_taken(void **state)
{
  (void)state;
  Buf out = { 0 }, why = { 0 };
  assert_int_equal(make_with("echo \"$1\"; cat; echo noise >&2", PLENTY_MS, &out, &why), PRESS_MADE);
  assert_string_equal(buf_text(&out), "bid.pdf\nwhat it is made from");
  assert_string_equal(buf_text(&why), "");
  buf_free(&out);
}

static void work_that_is_not_finished_is_not_taken(void **state)
{
  (void)state;
  static const struct {
    const char *script, *why;
    int wall_ms;
    PressStatus status;
  } cases[] = {
    { "echo half; exit 1", "did not finish its work", PLENTY_MS, PRESS_FAILED },
    { "echo half; kill -SEGV $$", "did not finish its work", PLENTY_MS, PRESS_FAILED },
    { "true", "did not finish its work", PLENTY_MS, PRESS_FAILED }, /* it ended well, but there is nothing */
    { "echo half; exec sleep 1000", "by the clock", 50, PRESS_ENDED },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Buf out = { 0 }, why = { 0 };
    assert_int_equal(make_with(cases[i].script, cases[i].wall_ms, &out, &why), cases[i].status);
    if (!strstr(buf_text(&why), cases[i].why)) fail_msg("%s", buf_text(&why));
    assert_string_equal(buf_text(&out), "");
    buf_free(&out);
    buf_free(&why);
  }
}

static void a_helper_that_is_missing_is_named(void **state)
{
  (void)state;
  Buf from = { 0 }, out = { 0 }, why = { 0 };
  assert_int_equal(press_make("bid.pdf", &from, PLENTY_MS, &out, &why), PRESS_FAILED);
  assert_string_equal(buf_text(&why), "cannot make bid.pdf: the helper program gritwork-press is not beside this one or "
                                      "in ../libexec");
  buf_free(&why);
}

static void it_is_given_little(void **state)
{
  (void)state;
  Buf out = { 0 }, why = { 0 };
  static const char script[] = "env | grep -v -E '^(PWD|_|SHLVL)=' | sort; grep NoNewPrivs /proc/self/status; ulimit -c";
  assert_int_equal(setenv("HOME", "/nowhere", 1), 0);
  assert_int_equal(setenv("LD_PRELOAD", "", 1), 0);
  assert_int_equal(make_with(script, PLENTY_MS, &out, &why), PRESS_MADE);
  assert_string_equal(buf_text(&out), "HOME=/nowhere\nLC_ALL=C.UTF-8\nTZ=UTC\nNoNewPrivs:\t1\n0\n");
  buf_free(&out);
}

static void an_interrupt_ends_it(void **state)
{
  (void)state;
  Buf out = { 0 }, why = { 0 };
  HeldSignals old;
  waiting_hold(&old);
  kill(getpid(), SIGTERM); /* held back until something waits */
  assert_int_equal(make_with("exec sleep 1000", PLENTY_MS, &out, &why), PRESS_ENDED);
  waiting_release(&old);
  assert_string_equal(buf_text(&why), "cannot make bid.pdf: interrupted");
  buf_free(&out);
  buf_free(&why);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, remove_helper, remove_helper)
  const struct CMUnitTest tests[] = {
    TEST(what_it_writes_is_taken),
    TEST(work_that_is_not_finished_is_not_taken),
    TEST(a_helper_that_is_missing_is_named),
    TEST(it_is_given_little),
    TEST(an_interrupt_ends_it),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
