/* test_session.c - the exit status tells whose fault it was. */
#include "cli/session.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <string.h>

#include "cli/supervisor.h"

typedef struct {
  const char *script, *environment; /* NULL: cannot be read */
} Texts;

static bool read_texts(void *context, PortFrom from, const char *name, Buf *text, Buf *shown, Buf *why)
{
  const Texts *texts = context;
  const char *found = from == PORT_FILE                            ? texts->script
                      : strcmp(name, "core.environment") == 0      ? texts->environment
                                                                   : NULL;
  buf_puts(shown, name);
  if (found) buf_puts(text, found);
  else buf_puts(why, "no such file");
  return found != NULL;
}

static bool send_nothing(void *context, PortWhat what, const char *name, const char *bytes, size_t length)
{
  (void)context, (void)what, (void)name, (void)bytes, (void)length;
  return true;
}

static void the_status_tells_whose_fault_it_was(void **state)
{
  (void)state;
  static const char stumbles[] = "return function() local nothing; return nothing.field end";
  static const struct {
    Texts texts;
    int status;
  } cases[] = {
    { { NULL, NULL }, STATUS_FILES },
    { { "return 1 +", NULL }, STATUS_FINDINGS },
    { { "error 'mine'", NULL }, STATUS_FINDINGS },
    { { "local s = 'x' while true do s = s .. s end", NULL }, STATUS_BUDGET },
    { { "return hone", stumbles }, STATUS_FAULT },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    static const PortCalls calls = { read_texts, send_nothing };
    Port port = { &calls, (void *)(uintptr_t)&cases[i].texts };
    Options options = { .stdlib = "elsewhere" };
    Session session;
    session_begin(&session, &port, &options);
    assert_false(session_read(&session, "main.lua"));
    assert_int_equal(session_status(&session), cases[i].status);
    session_end(&session);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test(the_status_tells_whose_fault_it_was) };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
