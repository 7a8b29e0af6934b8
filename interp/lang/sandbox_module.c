/* sandbox_module.c - require: the scripts of a project, the standard library, and native modules. */
#include "lang/sandbox.h"

#include <stdio.h>
#include <string.h>

#include "base/mem.h"
#include "base/port.h"
#include "base/text.h"
#include "lang/stdlib.h"

/* Pushes the compiled chunk; adds a finding and raises if Lua's compiler refuses it. Bytecode ("b") is only ever
 * that of the library built in, which has its name in it; what comes from outside is text ("t"). */
static void compile(Host *host, const char *name, const char *text, size_t length, const char *mode)
{
  int status = luaL_loadbufferx(host->L, text, length, name, mode);
  if (status == LUA_OK) return;
  if (status == LUA_ERRSYNTAX) error_of_load(host, lua_tostring(host->L, -1));
  else budget_over_memory(host);
  error_push_quiet(host->L);
  lua_error(host->L);
}

/* ---- scripts */

static void set_script_environment(Host *host)
{
  lua_rawgeti(host->L, LUA_REGISTRYINDEX, SLOT_SCRIPT_ENV);
  lua_setupvalue(host->L, -2, 1); /* _ENV is the only upvalue of a chunk */
}

static int refuse_quietly(lua_State *L)
{
  error_push_quiet(L);
  return lua_error(L);
}

/* The host owns the tree. */
static const Tree *parse(Host *host, const char *shown, const char *text, size_t length)
{
  uint32_t source = sources_add(host->sources, shown, text, length);
  if (source == 0) {
    diags_error(host->diags, "syntax", (Span){ 0 }, "%s is too long: %zu bytes", shown, length);
    refuse_quietly(host->L);
  }
  host->scripts = mem_grow(host->scripts, (size_t)host->script_count + 1, sizeof(Tree *));
  return host->scripts[host->script_count++] = tree_parse(host->sources, source, host->diags);
}

void module_load_script(Host *host, const char *shown, const char *text, size_t length)
{
  lua_State *L = host->L;
  const Tree *script = parse(host, shown, text, length);
  int number = host->script_count - 1;
  char name[24];
  if (!tree_sound(script)) refuse_quietly(L);
  buf_clear(&host->rewritten);
  tree_rewrite(script, &host->rewritten);
  snprintf(name, sizeof name, "=" CHUNK_SCRIPT "%d", number);
  compile(host, name, buf_text(&host->rewritten), host->rewritten.length, "t");
  set_script_environment(host);
  lua_pushinteger(L, number);
  lua_pushcclosure(L, place_mark, 1);
  lua_pushcfunction(L, budget_tick);
}

static int refuse_module(lua_State *L, const char *message, const char *help)
{
  return host_error(L, "module", message, help);
}

static int refuse_name(lua_State *L)
{
  return refuse_module(L, "a module name is words of a-z, 0-9 and _ with dots between them",
                       "for instance require \"methods.cream_wet\" for methods/cream_wet.lua");
}

static void refuse_cycle(Host *host, int first, const char *name)
{
  lua_State *L = host->L;
  luaL_Buffer chain;
  luaL_buffinit(L, &chain);
  luaL_addstring(&chain, "modules require each other: ");
  for (int i = first; i < host->loading_count; i++) {
    luaL_addstring(&chain, host->loading[i]);
    luaL_addstring(&chain, " -> ");
  }
  luaL_addstring(&chain, name);
  luaL_pushresult(&chain);
  refuse_module(L, lua_tostring(L, -1), "move what both need into a third module");
}

/* Reads a module's text into the host, which owns it whatever error is raised. */
static bool read_text(Host *host, HostRead read, void *context, const char *name)
{
  Buf text = { 0 }, shown = { 0 }, why = { 0 };
  bool fine = read && read(context, name, &text, &shown, &why);
  buf_free(&host->read_text);
  buf_free(&host->read_shown);
  host->read_text = text;
  host->read_shown = fine ? shown : why;
  buf_free(fine ? &why : &shown);
  return fine;
}

/* A failed module must not fail a second time with a finding of its own. */
static void remember(lua_State *L, int slot, const char *name)
{
  lua_rawgeti(L, LUA_REGISTRYINDEX, slot);
  lua_insert(L, -2);
  lua_setfield(L, -2, name);
  lua_pop(L, 1);
}

static int enter_module(lua_State *L)
{
  Host *host = host_of(L);
  module_load_script(host, buf_text(&host->read_shown), buf_text(&host->read_text), host->read_text.length);
  lua_call(L, 2, 1);
  return 1;
}

/* Leaves the module's result, or raises after its finding was added. */
static void run_module(Host *host, const char *name)
{
  lua_State *L = host->L;
  host->loading[host->loading_count++] = name;
  lua_pushcfunction(L, error_handler);
  lua_pushcfunction(L, enter_module);
  int status = lua_pcall(L, 0, 1, -2);
  host->loading_count--;
  error_without_handler(host, status);
  if (status != LUA_OK) {
    error_push_quiet(L);
    remember(L, SLOT_SCRIPT_MODULES, name);
    refuse_quietly(L);
  }
  lua_remove(L, -2);
}

static int load_module(Host *host, const char *name)
{
  enum { ASKING_STEPS = 2000 }; /* the supervisor is asked, who looks for a file */
  lua_State *L = host->L;
  host_charge(L, ASKING_STEPS);
  for (int i = 0; i < host->loading_count; i++)
    if (strcmp(host->loading[i], name) == 0) refuse_cycle(host, i, name);
  if (host->loading_count == SANDBOX_MODULES_DEEP)
    return refuse_module(L, "modules require each other more than 40 deep", NULL);
  if (!read_text(host, host->read, host->read_context, name)) {
    lua_pushfstring(L, "cannot read module %s: %s", name, buf_text(&host->read_shown));
    return refuse_module(L, lua_tostring(L, -1), NULL);
  }
  run_module(host, name);
  if (lua_isnil(L, -1)) {
    lua_pushfstring(L, "module %s returns nothing", name);
    return refuse_module(L, lua_tostring(L, -1), "end it with `return` and what it makes");
  }
  lua_pushvalue(L, -1);
  remember(L, SLOT_SCRIPT_MODULES, name);
  return 1;
}

static int refuse_public(lua_State *L, const char *name)
{
  enum { NAMES = 128 };
  const char *names[NAMES], *near[1];
  size_t count = 0;
  for (const StdlibModule *module = stdlib_modules; module->name && count < NAMES; module++)
    if (strncmp(module->name, "std.", 4) == 0) names[count++] = module->name;
  lua_pushfstring(L, "the standard library has no module %s", name);
  bool found = text_near(name, names, count, near, 1) > 0;
  if (found) lua_pushfstring(L, "did you mean `%s`?", near[0]);
  else lua_pushliteral(L, "`gritwork words` lists them");
  return refuse_module(L, lua_tostring(L, -2), lua_tostring(L, -1));
}

/* The public part of the standard library, seen through a view. */
static int require_public(lua_State *L, const char *name)
{
  if (!module_exists_in_library(host_of(L), name)) return refuse_public(L, name);
  lua_pushcfunction(L, module_require_library);
  lua_pushvalue(L, 1);
  lua_call(L, 1, 1);
  if (lua_istable(L, -1)) environment_push_view(L, -1);
  lua_pushvalue(L, -1);
  remember(L, SLOT_SCRIPT_MODULES, name);
  return 1;
}

/* Raises, after a finding, if the module cannot be had. */
static int require_or_raise(lua_State *L)
{
  size_t length;
  if (lua_type(L, 1) != LUA_TSTRING) return refuse_name(L);
  const char *name = lua_tolstring(L, 1, &length);
  if (!port_is_module(name, length)) return refuse_name(L);
  lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_SCRIPT_MODULES);
  if (lua_getfield(L, -1, name) != LUA_TNIL) return error_is_quiet(L, -1) ? refuse_quietly(L) : 1;
  lua_settop(L, 1);
  return strncmp(name, "std.", 4) == 0 ? require_public(L, name) : load_module(host_of(L), name);
}

/* A stand-in that swallows what would follow from a failure; the library makes it. */
static int stand_in(lua_State *L)
{
  if (!module_exists_in_library(host_of(L), "core.value")) return refuse_quietly(L);
  lua_pushcfunction(L, module_require_library);
  lua_pushliteral(L, "core.value");
  lua_call(L, 1, 1);
  lua_getfield(L, -1, "new_unknown");
  lua_call(L, 0, 1);
  return 1;
}

/* require(name) -> what the module returned; each module runs once. Where it cannot be had there is a finding, and
 * the script goes on, so that the rest of it is checked as well. */
int module_require(lua_State *L)
{
  Host *host = host_of(L);
  lua_settop(L, 1);
  lua_pushcfunction(L, error_handler);
  lua_pushcfunction(L, require_or_raise);
  lua_pushvalue(L, 1);
  int status = lua_pcall(L, 1, 1, 2);
  error_without_handler(host, status);
  if (status == LUA_OK) return 1;
  return host->status == HOST_FINE ? stand_in(L) : refuse_quietly(L);
}

/* ---- the standard library */

static const StdlibModule *find_built_in(const char *name)
{
  for (const StdlibModule *module = stdlib_modules; module->name; module++)
    if (strcmp(module->name, name) == 0) return module;
  return NULL;
}

bool module_exists_in_library(Host *host, const char *name)
{
  if (host->read_stdlib) return read_text(host, host->read_stdlib, host->stdlib_context, name);
  return find_built_in(name) != NULL;
}

static void load_library(Host *host, const char *name)
{
  const StdlibModule *module = host->read_stdlib ? NULL : find_built_in(name);
  if (!module && !(host->read_stdlib && read_text(host, host->read_stdlib, host->stdlib_context, name)))
    luaL_error(host->L, "the standard library has no module %s", name);
  const char *chunk = lua_pushfstring(host->L, "=" CHUNK_LIBRARY "%s", name);
  if (module) compile(host, chunk, module->begin, (size_t)(module->end - module->begin), "b");
  else compile(host, chunk, buf_text(&host->read_text), host->read_text.length, "t");
  lua_remove(host->L, -2);
  lua_rawgeti(host->L, LUA_REGISTRYINDEX, SLOT_LIBRARY_ENV);
  lua_setupvalue(host->L, -2, 1);
}

/* Pushes what opens the module: a native one's opener, or the chunk of its text. */
static void push_opener(Host *host, const char *name)
{
  lua_State *L = host->L;
  lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_NATIVES);
  if (lua_getfield(L, -1, name) == LUA_TNIL) {
    lua_pop(L, 1);
    load_library(host, name);
  }
  lua_remove(L, -2);
}

int module_require_library(lua_State *L)
{
  const char *name = luaL_checkstring(L, 1);
  lua_settop(L, 1);
  lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_LIBRARY_MODULES);
  if (lua_getfield(L, 2, name) != LUA_TNIL) {
    if (error_is_quiet(L, -1)) luaL_error(L, "library modules require each other at %s", name);
    return 1;
  }
  error_push_quiet(L); /* stands there while the module loads */
  lua_setfield(L, 2, name);
  push_opener(host_of(L), name);
  lua_call(L, 0, 1);
  if (lua_isnil(L, -1)) luaL_error(L, "library module %s returns nothing", name);
  lua_pushvalue(L, -1);
  lua_setfield(L, 2, name);
  return 1;
}

void host_add_native(Host *host, const char *name, lua_CFunction open)
{
  lua_rawgeti(host->L, LUA_REGISTRYINDEX, SLOT_NATIVES);
  lua_pushcfunction(host->L, open);
  lua_setfield(host->L, -2, name);
  lua_pop(host->L, 1);
}
