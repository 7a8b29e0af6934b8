/* host.c - the Lua state of one run, and the one protected way into it. */
#include "lang/host.h"

#include <stdlib.h>

#include "base/mem.h"
#include "lang/sandbox.h"

static const HostBudget default_budget = { .memory_bytes = (size_t)128 << 20, .instructions = 200000000 };

Host *host_of(lua_State *L) { return *(Host **)lua_getextraspace(L); }

lua_State *host_lua(Host *host) { return host->L; }
Sources *host_sources(Host *host) { return host->sources; }
Diags *host_diags(Host *host) { return host->diags; }
HostStatus host_status(const Host *host) { return host->status; }
int64_t host_spent(const Host *host) { return host->spent; }

/* Only set-up runs unprotected, so only the machine's own lack of memory comes here. */
static int on_panic(lua_State *L)
{
  mem_on_failure(host_of(L)->memory_used);
  return 0;
}

static void new_slot(lua_State *L, int slot, const char *mode)
{
  lua_createtable(L, 0, 0);
  if (mode) {
    lua_createtable(L, 0, 1);
    lua_pushstring(L, mode);
    lua_setfield(L, -2, "__mode");
    lua_setmetatable(L, -2);
  }
  lua_rawseti(L, LUA_REGISTRYINDEX, slot);
}

static void open_state(Host *host)
{
  lua_State *L = host->L;
  *(Host **)lua_getextraspace(L) = host;
  lua_atpanic(L, on_panic);
  new_slot(L, SLOT_MARKS, "k");
  new_slot(L, SLOT_SEALED, "k");
  new_slot(L, SLOT_VIEWS, "k");
  new_slot(L, SLOT_SCRIPT_MODULES, NULL);
  new_slot(L, SLOT_LIBRARY_MODULES, NULL);
  new_slot(L, SLOT_NATIVES, NULL);
  error_open_meta(L);
  environment_open(host);
  host_add_native(host, "native.place", place_open);
}

Host *host_new(HostBudget budget, Sources *sources, Diags *diags, HostRead read, void *context)
{
  Host *host = mem_alloc(sizeof *host);
  if (budget.memory_bytes == 0) budget.memory_bytes = default_budget.memory_bytes;
  if (budget.instructions == 0) budget.instructions = default_budget.instructions;
  host->budget = budget;
  host->sources = sources;
  host->diags = diags;
  host->read = read;
  host->read_context = context;
  host->L = lua_newstate(budget_allocate, host);
  if (!host->L) mem_on_failure(sizeof *host);
  open_state(host);
  budget_start(host);
  return host;
}

void host_use_stdlib(Host *host, HostRead read, void *context)
{
  host->read_stdlib = read;
  host->stdlib_context = context;
}

void host_free(Host *host)
{
  if (!host) return;
  lua_sethook(host->L, NULL, 0, 0);
  host->capped = false;
  heap_free_all(&host->heap); /* with no finalizers there is nothing to close first */
  for (int i = 0; i < host->script_count; i++) tree_free(host->scripts[i]);
  mem_free(host->scripts);
  buf_free(&host->rewritten);
  buf_free(&host->read_text);
  buf_free(&host->read_shown);
  mem_free(host);
}

/* Calls the C function below `arguments` on the stack; leaves `results` values, nils after a failure. */
static HostStatus enter(Host *host, int arguments, int results)
{
  lua_State *L = host->L;
  int base = lua_gettop(L) - arguments; /* where the function is */
  lua_pushcfunction(L, error_handler);
  lua_insert(L, base);
  int status = lua_pcall(L, arguments, results, base);
  error_without_handler(host, status);
  lua_remove(L, base);
  if (status != LUA_OK || host->status != HOST_FINE) {
    lua_settop(L, base - 1);
    for (int i = 0; i < results; i++) lua_pushnil(L);
  }
  budget_report(host);
  host->error_level = 0;
  if (host->status != HOST_FINE) return host->status;
  return status == LUA_OK ? HOST_FINE : HOST_FAILED;
}

typedef struct {
  const char *name, *text;
  size_t length;
} File;

static int enter_file(lua_State *L)
{
  const File *file = lua_touserdata(L, 1);
  module_load_script(host_of(L), file->name, file->text, file->length);
  lua_call(L, 2, 1);
  return 1;
}

HostStatus host_run(Host *host, const char *name, const char *text, size_t length)
{
  File file = { name, text, length };
  lua_pushcfunction(host->L, enter_file);
  lua_pushlightuserdata(host->L, &file);
  return enter(host, 1, 1);
}

typedef struct {
  const char *module, *function;
  int results;
} Call;

/* The Call lies below the function's own arguments. */
static int enter_call(lua_State *L)
{
  const Call *call = lua_touserdata(L, 1);
  lua_pushcfunction(L, module_require_library);
  lua_pushstring(L, call->module);
  lua_call(L, 1, 1);
  lua_getfield(L, -1, call->function);
  lua_replace(L, 1);
  lua_pop(L, 1);
  lua_call(L, lua_gettop(L) - 1, call->results);
  return call->results;
}

HostStatus host_call(Host *host, const char *module, const char *function, int arguments, int results)
{
  Call call = { module, function, results };
  lua_State *L = host->L;
  int base = lua_gettop(L) - arguments + 1;
  lua_pushlightuserdata(L, &call);
  lua_insert(L, base);
  lua_pushcfunction(L, enter_call);
  lua_insert(L, base);
  return enter(host, arguments + 1, results);
}
