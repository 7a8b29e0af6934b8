/* scripted.h - for tests of the libraries: rows of a script and the text it returns, or the error it ends in. */
#ifndef TESTS_LANG_SCRIPTED_H
#define TESTS_LANG_SCRIPTED_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <string.h>

#include "lang/host.h"

typedef struct {
  const char *script, *want;
} Scripted;

static bool no_module(void *context, const char *name, Buf *text, Buf *shown, Buf *why)
{
  (void)context, (void)name, (void)text, (void)shown;
  buf_puts(why, "no such file");
  return false;
}

/* "= 5" for `return` of 5, "! message" for an error. */
static void run_scripted(const char *script, Buf *out)
{
  Sources *sources = sources_new();
  Diags *diags = diags_new();
  Host *host = host_new((HostBudget){ .instructions = 5000000 }, sources, diags, no_module, NULL);
  host_use_stdlib(host, no_module, NULL);
  if (host_run(host, "test", script, strlen(script)) == HOST_FINE) {
    const char *text = lua_tostring(host_lua(host), -1);
    buf_printf(out, "= %s", text ? text : lua_typename(host_lua(host), lua_type(host_lua(host), -1)));
  } else {
    buf_printf(out, "! %s", diags_count(diags) ? diags_get(diags, 0)->message : "nothing was found");
  }
  host_free(host);
  diags_free(diags);
  sources_free(sources);
}

static void check_scripted(const Scripted *cases, size_t count)
{
  for (size_t i = 0; i < count; i++) {
    Buf got = { 0 };
    run_scripted(cases[i].script, &got);
    if (strcmp(buf_text(&got), cases[i].want) != 0)
      fail_msg("%s\n gives %s\n not   %s", cases[i].script, buf_text(&got), cases[i].want);
    buf_free(&got);
  }
}

#define CHECK(cases) check_scripted(cases, sizeof(cases) / sizeof *(cases))

#endif
