/* host.h - one Lua state for one run: budgets, the allow-list environment, modules, and the way into it.
 *
 * Scripts see an environment built from an empty table: no files, processes, clock, bytecode, coroutines, debug
 * library or raw access. `pairs` goes in a defined order. Going over a budget sets a flag that no pcall can
 * clear. */
#ifndef LANG_HOST_H
#define LANG_HOST_H

#include <lua.h>
#include <stdbool.h>
#include <stddef.h>

#include "base/diag.h"
#include "base/source.h"

typedef struct Host Host;

typedef struct {
  size_t memory_bytes;   /* Lua heap; default 128 MiB */
  int64_t instructions;  /* default 200 million; library functions charge what they do */
} HostBudget;

typedef enum { HOST_FINE, HOST_FAILED, HOST_OVER_INSTRUCTIONS, HOST_OVER_MEMORY } HostStatus;

/* Reads the text of a module ("methods.cream_wet" is methods/cream_wet.lua below the project root) or of the main
 * file. On success appends the text to *text and the name that findings show to *shown. On failure returns false
 * with one sentence in *why. */
typedef bool (*HostRead)(void *context, const char *module, Buf *text, Buf *shown, Buf *why);

Host *host_new(HostBudget budget, Sources *sources, Diags *diags, HostRead read, void *context);
void host_free(Host *host); /* does not run finalizers of a failed run */
lua_State *host_lua(Host *host);
Host *host_of(lua_State *L);
Sources *host_sources(Host *host);
Diags *host_diags(Host *host);

/* Parses, rewrites and runs a file; leaves its one result on the stack (nil if it failed; findings tell why). */
HostStatus host_run(Host *host, const char *name, const char *text, size_t length);
/* Calls a function of the standard library, its arguments on the stack: host_call(h, "core.check", "job", 1, 2). */
HostStatus host_call(Host *host, const char *module, const char *function, int arguments, int results);
/* Over budget or out of memory at any time since host_new? */
HostStatus host_status(const Host *host);
int64_t host_spent(const Host *host); /* instructions so far; the same on every machine */
/* Charges work done in C; raises the sticky budget error when it runs out. */
void host_charge(lua_State *L, int64_t instructions);

/* The tree of a source that was read as a script; NULL if it was not. */
const struct Tree *host_tree(Host *host, uint32_t source);

/* Where a table, field or caller was written; nowhere if unknown. Lua code of the standard library has the same and
 * more from `require "native.place"` (sandbox_place.c), with packed spans, 0 for unknown. */
Span host_table_span(lua_State *L, int table);
Span host_field_span(lua_State *L, int table, const char *key);
/* What the nearest script function (1) is doing, or one further up. */
Span host_caller_span(lua_State *L, int level);

/* Raises a structured error from C: it becomes one finding at the running script's operator or call. help may be
 * NULL. */
int host_error(lua_State *L, const char *code, const char *message, const char *help);

/* Takes the standard library's modules from elsewhere than the program, by the same names ("core.schema"). */
void host_use_stdlib(Host *host, HostRead read, void *context);

/* A C module that standard library chunks, and only they, may require. */
void host_add_native(Host *host, const char *name, lua_CFunction open);

#endif
