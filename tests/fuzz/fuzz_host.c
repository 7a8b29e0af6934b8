/* fuzz_host.c - any bytes run as a script in small budgets: a verdict, findings that print, the same twice. */
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "lang/host.h"
#include "lang/native.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static bool read_module(void *context, const char *module, Buf *text, Buf *shown, Buf *why)
{
  (void)context;
  if (strcmp(module, "other") == 0) {
    buf_puts(text, "return { 1, name = 'other' }");
    buf_puts(shown, "other.lua");
    return true;
  }
  buf_puts(why, "no such file");
  return false;
}

static int64_t run(const char *text, size_t length, Buf *findings)
{
  Sources *sources = sources_new();
  Diags *diags = diags_new();
  HostBudget budget = { .instructions = 200000, .memory_bytes = 4 << 20 };
  Host *host = host_new(budget, sources, diags, read_module, NULL);
  native_register(host);
  if (host_run(host, "fuzz.lua", text, length) == HOST_FINE) {
    lua_pushinteger(host_lua(host), 0);
    if (host_call(host, "core.main", "finish", 2, 1) != HOST_FINE && diags_count(diags) == 0) abort();
  } else if (diags_count(diags) == 0) abort();
  for (size_t i = 0; i < diags_count(diags); i++)
    if (strcmp(diags_get(diags, i)->code, "internal") == 0) abort(); /* a fault of the standard library */
  diags_sort(diags);
  diags_print(diags, sources, (DiagStyle){ .width = 80 }, findings);
  int64_t spent = host_spent(host);
  host_free(host);
  diags_free(diags);
  sources_free(sources);
  return spent;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  Buf first = { 0 }, second = { 0 };
  int64_t spent = run((const char *)data, size, &first);
  if (run((const char *)data, size, &second) != spent) abort();
  if (strcmp(buf_text(&first), buf_text(&second)) != 0) abort();
  buf_free(&first);
  buf_free(&second);
  return 0;
}
