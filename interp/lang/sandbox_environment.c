/* sandbox_environment.c - what a script can see: an allow-list, behind tables that it cannot change. */
#include "lang/sandbox.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"

/* ---- views */

static int l_refuse_change(lua_State *L)
{
  return host_error(L, "script", "this table belongs to the language and cannot be changed",
                    "make a table of your own");
}

/* what a word of the library does before it is finished; the library itself is not counted */
enum { GATE_STEPS = 200 };

/* Calls a library function from a C frame, so that `return word(x)` in a script keeps the script's frame. */
static int l_gate(lua_State *L)
{
  host_charge(L, GATE_STEPS);
  lua_pushvalue(L, lua_upvalueindex(1));
  lua_insert(L, 1);
  lua_call(L, lua_gettop(L) - 1, LUA_MULTRET);
  return lua_gettop(L);
}

static void wrap_function(lua_State *L)
{
  if (lua_isfunction(L, -1) && !lua_iscfunction(L, -1)) lua_pushcclosure(L, l_gate, 1);
}

/* view[key]: a table inside is seen through a view as well, a function is called through a gate */
static int l_view_index(lua_State *L)
{
  lua_pushvalue(L, 2);
  lua_gettable(L, lua_upvalueindex(1));
  if (lua_istable(L, -1)) {
    if (lua_getmetatable(L, -1)) lua_pop(L, 1);
    else environment_push_view(L, -1);
  }
  wrap_function(L);
  return 1;
}

static int l_view_length(lua_State *L)
{
  lua_pushinteger(L, luaL_len(L, lua_upvalueindex(1)));
  return 1;
}

static int l_view_pairs(lua_State *L) { return lib_push_pairs(L, lua_upvalueindex(1), 1); }

static void set_view_part(lua_State *L, const char *event, lua_CFunction function, int table)
{
  lua_pushvalue(L, table);
  lua_pushcclosure(L, function, 1);
  lua_setfield(L, -2, event);
}

static void push_new_view(lua_State *L, int table)
{
  lua_createtable(L, 0, 0);
  lua_createtable(L, 0, 5);
  set_view_part(L, "__index", l_view_index, table);
  set_view_part(L, "__len", l_view_length, table);
  set_view_part(L, "__pairs", l_view_pairs, table);
  lua_pushcfunction(L, l_refuse_change);
  lua_setfield(L, -2, "__newindex");
  lua_pushboolean(L, false);
  lua_setfield(L, -2, "__metatable");
  lua_setmetatable(L, -2);
}

void environment_push_view(lua_State *L, int table)
{
  table = lua_absindex(L, table);
  lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_VIEWS);
  lua_pushvalue(L, table);
  if (lua_rawget(L, -2) == LUA_TNIL) {
    lua_pop(L, 1);
    push_new_view(L, table);
    lua_pushvalue(L, table);
    lua_pushvalue(L, -2);
    lua_rawset(L, -4);
  }
  lua_remove(L, -2);
}

/* ---- global names */

/* Asks the standard library for a word; leaves nil if it has none of that name. */
static void push_word(lua_State *L, int name)
{
  lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_LIBRARY_MODULES);
  if (lua_getfield(L, -1, "core.environment") == LUA_TNIL) {
    lua_pop(L, 1);
    if (!module_exists_in_library(host_of(L), "core.environment")) {
      lua_pushnil(L);
      return;
    }
    lua_pushcfunction(L, module_require_library);
    lua_pushliteral(L, "core.environment");
    lua_call(L, 1, 1);
  }
  lua_pushvalue(L, name);
  lua_call(L, 1, 1);
  wrap_function(L);
}

static int by_bytes(const void *a, const void *b)
{
  return strcmp(*(const char *const *)a, *(const char *const *)b);
}

/* The nearest of the names that are there already; NULL if none is near. Borrowed from the table of globals. */
static const char *near_name(lua_State *L, const char *name)
{
  enum { NAMES = 512 };
  const char *names[NAMES] = { NULL }, *near[1];
  size_t count = 0;
  lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_GLOBALS);
  for (lua_pushnil(L); lua_next(L, -2); lua_pop(L, 1))
    if (count < NAMES && lua_type(L, -2) == LUA_TSTRING) names[count++] = lua_tostring(L, -2);
  lua_pop(L, 1);
  qsort(names, count, sizeof *names, by_bytes);
  return text_near(name, names, count, near, 1) ? near[0] : NULL;
}

static int refuse_unknown(lua_State *L, const char *name)
{
  const char *near = near_name(L, name);
  Diag diag = { .code = "name", .at = place_of_name(L, name) };
  if (near) diag.help = lua_pushfstring(L, "did you mean `%s`?", near);
  diag.message = lua_pushfstring(L, "`%s` is not a word of the language, nor a local", name);
  return error_raise(L, &diag);
}

/* __index of the globals: a word is loaded when it is first used */
static int l_missing_global(lua_State *L)
{
  if (lua_type(L, 2) != LUA_TSTRING) return 0;
  push_word(L, 2);
  if (lua_isnil(L, -1)) return refuse_unknown(L, lua_tostring(L, 2));
  lua_pushvalue(L, 2);
  lua_pushvalue(L, -2);
  lua_rawset(L, 1);
  return 1;
}

/* NAME = ..., where a line begins? There `local` can only be missing. */
static bool is_plain_assignment(const Sources *sources, Span at)
{
  if (span_is_nowhere(at)) return false;
  const char *text = sources_text(sources, at.source, NULL), *next = text + at.end;
  next += strspn(next, " \t");
  return (at.begin == 0 || text[at.begin - 1] == '\n') && next[0] == '=' && next[1] != '=';
}

static int l_new_global(lua_State *L)
{
  if (lua_type(L, 2) != LUA_TSTRING) return l_refuse_change(L);
  const char *name = lua_tostring(L, 2);
  Diag diag = { .code = "global", .at = place_of_name(L, name) };
  diag.help = lua_pushfstring(L, "write `local %s = ...`", name);
  if (is_plain_assignment(host_of(L)->sources, diag.at)) diag.fix = lua_pushfstring(L, "local %s", name);
  diag.message = lua_pushfstring(L, "`%s` would be a global; a script has only locals", name);
  return error_raise(L, &diag);
}

/* ---- setting up */

typedef struct {
  const char *name;
  int (*open)(lua_State *L);
} Library;

static const Library libraries[] = {
  { "string", lib_open_string }, { "table", lib_open_table }, { "math", lib_open_math }, { "utf8", lib_open_utf8 }
};

enum { LIBRARIES = sizeof libraries / sizeof *libraries };

static void set_meta(lua_State *L, int table, lua_CFunction index, lua_CFunction newindex, int index_table)
{
  lua_createtable(L, 0, 3);
  if (index_table) lua_pushvalue(L, index_table);
  else lua_pushcfunction(L, index);
  lua_setfield(L, -2, "__index");
  lua_pushcfunction(L, newindex);
  lua_setfield(L, -2, "__newindex");
  lua_pushboolean(L, false);
  lua_setfield(L, -2, "__metatable");
  lua_setmetatable(L, table);
}

/* Sets each library into both tables of globals: itself for the standard library, read through for scripts. */
static void open_libraries(lua_State *L, int globals, int library_env)
{
  for (int i = 0; i < LIBRARIES; i++) {
    libraries[i].open(L);
    int library = lua_gettop(L);
    lua_pushvalue(L, library);
    lua_setfield(L, library_env, libraries[i].name);
    lua_createtable(L, 0, 0);
    set_meta(L, library + 1, NULL, l_refuse_change, library);
    lua_setfield(L, globals, libraries[i].name);
    lua_settop(L, library - 1);
  }
}

/* Method calls on texts reach the same functions. */
static void set_string_meta(lua_State *L, int library_env)
{
  lua_pushliteral(L, "");
  lua_createtable(L, 0, 2);
  lua_getfield(L, library_env, "string");
  lua_setfield(L, -2, "__index");
  lua_pushboolean(L, false);
  lua_setfield(L, -2, "__metatable");
  lua_setmetatable(L, -2);
  lua_pop(L, 1);
}

static int l_missing_in_library(lua_State *L)
{
  return luaL_error(L, "unknown global %s", luaL_tolstring(L, 2, NULL));
}

void environment_open(Host *host)
{
  lua_State *L = host->L;
  lua_createtable(L, 0, 0);
  int script_env = lua_gettop(L), globals = script_env + 1, library_env = script_env + 2;
  lua_createtable(L, 0, 64);
  lua_createtable(L, 0, 32);
  lua_pushvalue(L, globals);
  lib_open_base(L, false);
  lua_settop(L, library_env);
  lib_open_base(L, true);
  open_libraries(L, globals, library_env);
  set_string_meta(L, library_env);
  set_meta(L, script_env, NULL, l_new_global, globals);
  set_meta(L, globals, l_missing_global, l_new_global, 0);
  set_meta(L, library_env, l_missing_in_library, l_missing_in_library, 0);
  lua_rawseti(L, LUA_REGISTRYINDEX, SLOT_LIBRARY_ENV);
  lua_rawseti(L, LUA_REGISTRYINDEX, SLOT_GLOBALS);
  lua_rawseti(L, LUA_REGISTRYINDEX, SLOT_SCRIPT_ENV);
}
