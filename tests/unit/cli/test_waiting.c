/* test_waiting.c - signals arrive where the supervisor waits, whatever else there is to do, and nowhere else. */
#include "cli/waiting.h"

#include "support.h"

#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

static int ends[2]; /* a pipe; what can be read from its first end is up to the test */

static int make_pipe(void **state)
{
  (void)state;
  signal(SIGINT, SIG_DFL); /* a test run in the background has it ignored */
  return pipe(ends);
}

static int close_pipe(void **state)
{
  (void)state;
  close(ends[0]);
  close(ends[1]);
  return 0;
}

static int64_t in_ms(int ms) { return waiting_clock_ms() + ms; }

static void it_ends_with_what_comes_first(void **state)
{
  (void)state;
  assert_int_equal(waiting_for(ends[0], POLLIN, in_ms(1)), WAITED_TOO_LONG);
  assert_int_equal(waiting_for(ends[0], POLLIN, in_ms(-1000)), WAITED_TOO_LONG);
  assert_int_equal(write(ends[1], "x", 1), 1);
  assert_int_equal(waiting_for(ends[0], POLLIN, in_ms(60000)), WAITED_READY);
  assert_int_equal(waiting_for(ends[0], POLLIN, in_ms(-1000)), WAITED_READY);
}

static void a_signal_ends_it_also_where_there_is_always_something_to_read(void **state)
{
  (void)state;
  static const int signals[] = { SIGINT, SIGTERM, SIGHUP };
  assert_int_equal(write(ends[1], "x", 1), 1);
  for (size_t i = 0; i < COUNT_OF(signals); i++) {
    HeldSignals old;
    waiting_hold(&old);
    raise(signals[i]);
    assert_int_equal(waiting_signal(), 0);
    assert_int_equal(waiting_for(ends[0], POLLIN, in_ms(60000)), WAITED_INTERRUPTED);
    assert_int_equal(waiting_signal(), signals[i]);
    waiting_forget();
    assert_int_equal(waiting_for(ends[0], POLLIN, in_ms(60000)), WAITED_READY);
    waiting_release(&old);
  }
}

static void one_that_comes_after_the_last_wait_ends_nothing(void **state)
{
  (void)state;
  HeldSignals old;
  waiting_hold(&old);
  raise(SIGINT);
  waiting_release(&old); /* by default it would end this program */
}

static void one_that_was_ignored_stays_ignored(void **state)
{
  (void)state;
  HeldSignals old;
  signal(SIGHUP, SIG_IGN);
  waiting_hold(&old);
  raise(SIGHUP);
  assert_int_equal(waiting_for(ends[0], POLLIN, in_ms(1)), WAITED_TOO_LONG);
  waiting_release(&old);
  assert_ptr_equal(signal(SIGHUP, SIG_DFL), SIG_IGN);
}

static int killed_after_release(void)
{
  HeldSignals old;
  waiting_hold(&old);
  waiting_release(&old);
  raise(SIGTERM);
  return 0;
}

static void afterwards_signals_do_what_they_did(void **state)
{
  (void)state;
  int status;
  pid_t child = fork();
  if (child == 0) _exit(killed_after_release());
  assert_int_equal(waitpid(child, &status, 0), child);
  assert_true(WIFSIGNALED(status) && WTERMSIG(status) == SIGTERM);
}

int main(void)
{
  static const int signals[] = { SIGINT, SIGTERM, SIGHUP };
  for (size_t i = 0; i < COUNT_OF(signals); i++) signal(signals[i], SIG_DFL); /* in the background some are ignored */
#define TEST(name) cmocka_unit_test_setup_teardown(name, make_pipe, close_pipe)
  const struct CMUnitTest tests[] = {
    TEST(it_ends_with_what_comes_first),
    TEST(a_signal_ends_it_also_where_there_is_always_something_to_read),
    TEST(one_that_comes_after_the_last_wait_ends_nothing),
    TEST(one_that_was_ignored_stays_ignored),
    TEST(afterwards_signals_do_what_they_did),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
