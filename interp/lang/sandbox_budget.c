/* sandbox_budget.c - memory and steps: counted the same way on every machine, and over means over.
 *
 * A script's text calls _tick(steps) at the top of every loop and function and before every goto (rewrite.c), so
 * that nothing goes on for long without being counted; Lua's own count hook would cost half the speed of the
 * standard library, which is trusted and charges for the work it does. Once a budget is over, the hook is set to
 * stop every single instruction, so that no pcall can carry on. */
#include "lang/sandbox.h"

#include <stdlib.h>

enum {
  BYTES_A_STEP = 128,  /* more than any interned string, whose creation depends on the collector */
  STRING_HEADER = 64,  /* no less than what Lua adds to a text */
  COLLECT_FROM = 8 << 20 /* bytes; a heap that stays below is thrown away whole */
};

/* Where the running script stands; looked up without allocating. */
static Span standing(Host *host)
{
  lua_Debug frame;
  for (int level = 0; level < 200 && lua_getstack(host->L, level, &frame); level++) {
    lua_getinfo(host->L, "Sl", &frame);
    const Tree *script = chunk_script(host, frame.source);
    if (script) return place_of_line(script, frame.currentline);
  }
  return (Span){ 0 };
}

static void stop(Host *host, HostStatus status, Span at)
{
  if (host->status != HOST_FINE) return;
  host->status = status;
  host->stopped_at = at;
}

static int raise_stopped(lua_State *L)
{
  error_push_quiet(L);
  return lua_error(L);
}

static void stop_hook(lua_State *L, lua_Debug *frame)
{
  (void)frame;
  raise_stopped(L);
}

static void stop_everything(Host *host) { lua_sethook(host->L, stop_hook, LUA_MASKCOUNT, 1); }

static void over_instructions(Host *host)
{
  host->spent = host->budget.instructions;
  stop(host, HOST_OVER_INSTRUCTIONS, standing(host));
  stop_everything(host);
}

void host_charge(lua_State *L, int64_t instructions)
{
  Host *host = host_of(L);
  if (host->status != HOST_FINE) raise_stopped(L);
  if (host->memory_used > COLLECT_FROM && !lua_gc(L, LUA_GCISRUNNING)) lua_gc(L, LUA_GCRESTART);
  if (instructions > host->budget.instructions - host->spent) {
    over_instructions(host);
    raise_stopped(L);
  }
  host->spent += instructions;
}

void budget_start(Host *host)
{
  host->capped = true;
  lua_gc(host->L, LUA_GCSTOP); /* a refusal of memory collects all the same */
}

int budget_tick(lua_State *L)
{
  host_charge(L, lua_tointeger(L, 1) + lua_gettop(L) - 1);
  return 0;
}

void budget_over_memory(Host *host)
{
  stop(host, HOST_OVER_MEMORY, host->refused_at);
  stop_everything(host);
}

/* Lua collects and asks again after a refusal; the last one before the error leaves its place. */
static void *refuse(Host *host, bool too_long)
{
  host->too_long = too_long;
  host->refused_at = standing(host);
  return NULL;
}

void *budget_allocate(void *context, void *block, size_t old, size_t size)
{
  Host *host = context;
  size_t had = block ? old : 0;
  bool text = block == NULL && old == LUA_TSTRING;
  if (size == 0) {
    if (block) heap_resize(&host->heap, block, old, 0);
    host->memory_used -= had;
    return NULL;
  }
  if (host->capped && size > had) {
    if (text && size > SANDBOX_TEXT + STRING_HEADER) return refuse(host, true);
    if (size - had > host->budget.memory_bytes || host->memory_used > host->budget.memory_bytes - (size - had))
      return refuse(host, false);
    if (text) host->spent += (int64_t)(size / BYTES_A_STEP); /* the next hook sees it */
  }
  void *got = heap_resize(&host->heap, block, had, size);
  if (got) host->memory_used += size - had;
  return got;
}

void budget_report(Host *host)
{
  if (host->stop_reported || host->status == HOST_FINE) return;
  host->stop_reported = true;
  Diag diag = { .level = DIAG_ERROR, .code = "budget", .at = host->stopped_at };
  Buf message = { 0 };
  if (host->status == HOST_OVER_INSTRUCTIONS) {
    long long steps = host->budget.instructions, millions = steps / 1000000;
    if (steps % 1000000 == 0) buf_printf(&message, "the script needs more than %lld million steps", millions);
    else buf_printf(&message, "the script needs more than %lld steps", steps);
    diag.help = "look for a loop that does not end";
  } else if (host->too_long) {
    buf_printf(&message, "a text grew past %d bytes", SANDBOX_TEXT);
    diag.help = "keep the parts in a table";
  } else {
    buf_printf(&message, "the script needs more than %zu MiB of memory", host->budget.memory_bytes >> 20);
    diag.help = "look for a table or a text that keeps growing";
  }
  diag.message = buf_text(&message);
  diags_add(host->diags, &diag);
  buf_free(&message);
}
