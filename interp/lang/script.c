#include "lang/script.h"

#include <lua.h>
#include <string.h>

#include "base/mem.h"
#include "lang/host.h"
#include "lang/native.h"
#include "lang/plan_facts.h"
#include "lang/stdlib.h"
#include "lang/to_comparison.h"
#include "lang/to_lineage.h"
#include "lang/to_model.h"

struct Script {
  Host *host;
  Sources *sources;
  Diags *diags;
};

Script *script_new(Sources *sources, Diags *diags, ScriptReader reader)
{
  Script *script = mem_alloc(sizeof *script);
  *script = (Script){ host_new((HostBudget){ 0 }, sources, diags, reader.read_module, reader.context), sources, diags };
  if (reader.read_stdlib) host_use_stdlib(script->host, reader.read_stdlib, reader.context);
  native_register(script->host);
  return script;
}

void script_free(Script *script)
{
  if (script == NULL) return;
  host_free(script->host);
  mem_free(script);
}

/* The end of the file, where a missing `return` would stand. */
static int64_t end_of(const Script *script, const char *name)
{
  uint32_t source = sources_find(script->sources, name);
  size_t length = 0;
  if (source) sources_text(script->sources, source, &length);
  return source ? span_pack((Span){ source, (uint32_t)length, (uint32_t)length }) : 0;
}

void script_what_if(Script *script, const char *name_and_value)
{
  lua_State *L = host_lua(script->host);
  size_t name_length = strcspn(name_and_value, "=");
  lua_pushlstring(L, name_and_value, name_length);
  lua_pushstring(L, name_and_value + name_length + (name_and_value[name_length] == '='));
  host_call(script->host, "core.what_if", "set", 2, 0);
}

void script_read(Script *script, const char *name, const Buf *text, Document *document)
{
  lua_State *L = host_lua(script->host);
  if (host_run(script->host, name, buf_text(text), text->length) != HOST_FINE) return;
  lua_pushinteger(L, end_of(script, name));
  if (host_call(script->host, "core.main", "finish", 2, 1) != HOST_FINE) return;
  if (lua_istable(L, -1) && diags_errors(script->diags) == 0) to_model(L, -1, document, script->diags);
  lua_pop(L, 1);
}

static void add_text(lua_State *L, int index, Buf *out)
{
  size_t length;
  const char *text = lua_tolstring(L, index, &length);
  if (text) buf_add(out, text, length);
}

void script_plan(Script *script, int alternate, const ScriptPerson *persons, int person_count,
                 const ScriptActivity *activities, int activity_count)
{
  lua_State *L = host_lua(script->host);
  plan_facts_push(L, persons, person_count, activities, activity_count);
  if (alternate >= 0) lua_pushinteger(L, alternate + 1);
  host_call(script->host, "core.main", "plan", alternate >= 0 ? 2 : 1, 0);
}

void script_test(Script *script, const char *name, const Buf *text, Buf *report, int *passed, int *failed)
{
  lua_State *L = host_lua(script->host);
  if (host_run(script->host, name, buf_text(text), text->length) != HOST_FINE) return;
  if (host_call(script->host, "core.shop_test", "run", 1, 3) != HOST_FINE) return;
  add_text(L, -3, report);
  *passed += (int)lua_tointeger(L, -2);
  *failed += (int)lua_tointeger(L, -1);
  lua_pop(L, 3);
}

bool script_manual(Script *script, const char *function, const char *argument, Buf *out)
{
  lua_State *L = host_lua(script->host);
  if (argument) lua_pushstring(L, argument);
  if (host_call(script->host, "core.manual", function, argument != NULL, 1) != HOST_FINE) return false;
  bool answered = lua_isstring(L, -1);
  add_text(L, -1, out);
  lua_pop(L, 1);
  return answered;
}

static void add_field(lua_State *L, int table, const char *key, Buf *out)
{
  lua_getfield(L, table, key);
  add_text(L, -1, out);
  lua_pop(L, 1);
}

static void read_rule(lua_State *L, int table, SarifRule *rule)
{
  add_field(L, table, "says", &rule->says);
  add_field(L, table, "basis", &rule->basis);
  add_field(L, table, "help", &rule->help);
  lua_getfield(L, table, "level");
  for (int level = 0; level < DIAG_LEVELS; level++)
    if (strcmp(lua_tostring(L, -1), diag_level_name((DiagLevel)level)) == 0) rule->level = (DiagLevel)level;
  lua_getfield(L, table, "law");
  rule->is_law = lua_toboolean(L, -1);
  lua_pop(L, 2);
}

bool script_explain(Script *script, const char *code, SarifRule *rule)
{
  lua_State *L = host_lua(script->host);
  lua_pushstring(L, code);
  if (host_call(script->host, "core.main", "explain", 1, 1) != HOST_FINE) return false;
  bool known = lua_istable(L, -1);
  if (known) read_rule(L, lua_gettop(L), rule);
  lua_pop(L, 1);
  return known;
}

bool script_lineage(Script *script, const char *path, Arena *arena, Lineage *lineage)
{
  lua_State *L = host_lua(script->host);
  lua_pushstring(L, path);
  if (host_call(script->host, "core.main", "lineage", 1, 2) != HOST_FINE) return false;
  bool found = lua_istable(L, -2);
  if (found) to_lineage(L, -2, arena, lineage);
  else if (lua_istable(L, -1)) to_lineage_unknown(L, -1, arena, lineage);
  lua_pop(L, 2);
  return found;
}

void script_paths(Script *script, Buf *out)
{
  lua_State *L = host_lua(script->host);
  if (host_call(script->host, "core.main", "paths", 0, 1) != HOST_FINE) return;
  add_text(L, -1, out);
  lua_pop(L, 1);
}

bool script_keep(Script *script, bool parent)
{
  lua_State *L = host_lua(script->host);
  lua_pushboolean(L, parent);
  if (host_call(script->host, "core.main", "keep", 1, 1) != HOST_FINE) return false;
  bool kept = lua_toboolean(L, -1);
  lua_pop(L, 1);
  return kept;
}

void script_check_kept(Script *script) { host_call(script->host, "core.main", "check_kept", 0, 0); }

void script_use_kept(Script *script, const char *area)
{
  lua_State *L = host_lua(script->host);
  lua_pushstring(L, area); /* nil for NULL */
  host_call(script->host, "core.main", "use_kept", 1, 0);
}

bool script_compare(Script *script, Arena *arena, Comparison *comparison)
{
  lua_State *L = host_lua(script->host);
  if (host_call(script->host, "core.main", "compare", 0, 1) != HOST_FINE) return false;
  bool compared = lua_istable(L, -1);
  if (compared) to_comparison(L, -1, arena, comparison);
  lua_pop(L, 1);
  return compared;
}

bool script_over_budget(const Script *script)
{
  HostStatus status = host_status(script->host);
  return status == HOST_OVER_INSTRUCTIONS || status == HOST_OVER_MEMORY;
}

bool script_start_file(size_t index, const char **name, const char **text, size_t *length)
{
  static const char folder[] = "start.";
  for (const StdlibModule *m = stdlib_modules; m->name; m++) {
    if (strncmp(m->name, folder, sizeof folder - 1) != 0 || index-- > 0) continue;
    *name = m->name + sizeof folder - 1;
    *text = m->begin;
    *length = (size_t)(m->end - m->begin);
    return true;
  }
  return false;
}
