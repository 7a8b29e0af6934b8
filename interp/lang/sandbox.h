/* sandbox.h - what the parts of the host share. Only host.c, sandbox_*.c and lib_*.c include it. */
#ifndef LANG_SANDBOX_H
#define LANG_SANDBOX_H

#include <lauxlib.h>
#include <lua.h>

#include "lang/host.h"
#include "lang/sandbox_heap.h"
#include "lang/syntax.h"

enum {
  SANDBOX_TEXT = 1 << 20,     /* bytes a text value may have */
  SANDBOX_RESULTS = 1 << 12,  /* values a library function may return or unpack */
  SANDBOX_MODULES_DEEP = 40   /* modules being required at one time */
};

/* Slots of the registry; negative so that they stay clear of the ones Lua hands out. */
enum {
  SLOT_MARKS = -1,           /* weak: table -> script and constructor it was written at */
  SLOT_SCRIPT_MODULES = -2,  /* name -> result, or MODULE_FAILED */
  SLOT_LIBRARY_MODULES = -3, /* the same for the standard library and native modules */
  SLOT_NATIVES = -4,         /* name -> function that opens it */
  SLOT_SCRIPT_ENV = -5,      /* what a script sees as _ENV: empty, read through to the next */
  SLOT_GLOBALS = -6,
  SLOT_LIBRARY_ENV = -7,
  SLOT_ERROR_META = -8,      /* of structured errors */
  SLOT_SEALED = -9,          /* weak: a script's metatable -> its checked copy */
  SLOT_VIEWS = -10           /* weak: table -> its read-only view */
};

struct Host {
  lua_State *L;
  Sources *sources;
  Diags *diags;
  HostBudget budget;
  HostStatus status; /* sticky once over a budget */
  HostRead read, read_stdlib;
  void *read_context, *stdlib_context;

  Heap heap;
  size_t memory_used;
  bool capped; /* set-up is over: the memory budget holds */
  bool too_long; /* the refusal was for one text, not for the sum */
  int64_t spent;
  Span refused_at, stopped_at; /* where memory was last refused; where the budget ran out */
  bool stop_reported;

  Buf rewritten, read_text, read_shown; /* of the module being loaded; here, so that an error loses nothing */
  Tree **scripts; /* each text of a script that was read, by its number */
  int script_count;
  const char *loading[SANDBOX_MODULES_DEEP]; /* script modules being run, outermost first */
  int loading_count;
  int error_level; /* given to `error` by the raise that is on its way; 0: raised by the engine */
};

/* ---- budgets (sandbox_budget.c) */
void *budget_allocate(void *host, void *block, size_t old, size_t size);
void budget_start(Host *host);
int budget_tick(lua_State *L); /* _tick(steps), which the rewriting puts where a body begins */
void budget_over_memory(Host *host);
/* Adds the finding for a budget that ran out, once. */
void budget_report(Host *host);

/* ---- chunks and places (sandbox_place.c)
 * Lua knows a script as "=\x01NUMBER" and a library module as "=\x02NAME": no file's name can be taken for one. */
#define CHUNK_SCRIPT "\x01"
#define CHUNK_LIBRARY "\x02"
/* The script that a frame's source or a message of Lua speaks of; NULL if it is none. */
const Tree *chunk_script(const Host *host, const char *source);
/* The library module that a frame's source names; NULL if it is none. */
const char *chunk_library(const char *source);
/* The operation, else the call, else the token that stands at a line of the rewritten text. */
Span place_of_line(const Tree *script, int rewritten_line);
/* The token `name` at or shortly before the place where the nearest script function stands. */
Span place_of_name(lua_State *L, const char *name);
int place_mark(lua_State *L); /* _mark(ID, table) -> table; upvalue 1 is the script's number */
int place_open(lua_State *L); /* native.place */

/* ---- errors (sandbox_error.c) */
int error_handler(lua_State *L);            /* message handler: one finding for one error, then error_quiet */
void error_push_quiet(lua_State *L);        /* the value of an error that has been reported */
bool error_is_quiet(lua_State *L, int index);
void error_without_handler(Host *host, int status); /* of lua_pcall */
void error_of_load(Host *host, const char *message);
/* Removes the place that Lua puts before its messages. */
const char *error_strip(const char *message);
int error_raise(lua_State *L, const Diag *diag);
void error_open_meta(lua_State *L);

/* ---- modules (sandbox_module.c) */
int module_require(lua_State *L);         /* for scripts */
int module_require_library(lua_State *L); /* for the standard library: its modules and native ones */
/* Pushes the function of a script's text, its _mark and its _tick. Raises error_quiet after findings. */
void module_load_script(Host *host, const char *shown, const char *text, size_t length);
bool module_exists_in_library(Host *host, const char *name);

/* ---- environments (sandbox_environment.c) */
void environment_open(Host *host);
/* Pushes a view of the table through which nothing can be changed, tables inside it included. */
void environment_push_view(lua_State *L, int table);

/* ---- libraries (lib_*.c) */
/* Adds the functions without a table of their own to the table on the top; `trusted` for the standard library. */
void lib_open_base(lua_State *L, bool trusted);
void lib_open_meta(lua_State *L, bool trusted);
/* Each pushes its table. */
int lib_open_string(lua_State *L);
int lib_open_table(lua_State *L);
int lib_open_math(lua_State *L);
int lib_open_utf8(lua_State *L);

/* Has the table a metatable that the standard library or the host gave it? */
bool lib_is_of_language(lua_State *L, int table);
/* Pushes the text of a value, the same in every run: no addresses. */
const char *lib_tostring(lua_State *L, int index, size_t *length);
/* The three values of a `for`: the keys of one table in order, each with its value in another (often the same). */
int lib_push_pairs(lua_State *L, int keys_of, int values_of);
/* Sorts list[1..count] raw and stable. `before` tells whether the first of two stack indices comes first. */
typedef bool (*LibBefore)(lua_State *L, int a, int b);
void lib_sort(lua_State *L, int list, lua_Integer count, LibBefore before);
/* Charges work on that many bytes. */
void lib_charge_bytes(lua_State *L, size_t bytes);
/* Raises if a text would be longer than SANDBOX_TEXT. */
void lib_check_length(lua_State *L, size_t length);

#endif
