/* sandbox_place.c - where things were written: from frames and from marked tables back to spans. */
#include "lang/sandbox.h"

#include <stdlib.h>
#include <string.h>

#include "lang/tree.h"

const Tree *chunk_script(const Host *host, const char *source)
{
  if (*source == '=') source++;
  if (*source != *CHUNK_SCRIPT) return NULL;
  long number = strtol(source + 1, NULL, 10);
  return number >= 0 && number < host->script_count ? host->scripts[number] : NULL;
}

const Tree *host_tree(Host *host, uint32_t source)
{
  for (int i = 0; i < host->script_count; i++)
    if (host->scripts[i]->source == source) return host->scripts[i];
  return NULL;
}

const char *chunk_library(const char *source)
{
  return source[0] == '=' && source[1] == *CHUNK_LIBRARY ? source + 2 : NULL;
}

Span place_of_line(const Tree *script, int rewritten_line)
{
  Span at = tree_operation_at(script, rewritten_line);
  if (span_is_nowhere(at)) at = tree_call_at(script, rewritten_line);
  if (span_is_nowhere(at)) at = tree_token(script, rewritten_line);
  return at;
}

static bool span_reads(const Sources *sources, Span span, const char *word)
{
  size_t length = strlen(word), whole;
  if (span_is_nowhere(span) || span.end - span.begin != length) return false;
  return memcmp(sources_text(sources, span.source, &whole) + span.begin, word, length) == 0;
}

/* The frame of a script function, the nearest for level 1; NULL if there are not so many. */
static const Tree *script_frame(lua_State *L, int level, lua_Debug *frame)
{
  for (int i = 0; lua_getstack(L, i, frame); i++) {
    lua_getinfo(L, "Sl", frame);
    const Tree *script = chunk_script(host_of(L), frame->source);
    if (script && --level <= 0) return script;
  }
  return NULL;
}

Span host_caller_span(lua_State *L, int level)
{
  lua_Debug frame;
  const Tree *script = script_frame(L, level, &frame);
  return script ? place_of_line(script, frame.currentline) : (Span){ 0 };
}

/* Lua notes the last token it had read when it used a name, which may be a few tokens on. */
Span place_of_name(lua_State *L, const char *name)
{
  enum { LOOK_BACK = 400 };
  lua_Debug frame;
  const Tree *script = script_frame(L, 1, &frame);
  if (!script) return (Span){ 0 };
  for (int line = frame.currentline; line > 0 && line > frame.currentline - LOOK_BACK; line--) {
    Span token = tree_token(script, line);
    if (span_reads(host_of(L)->sources, token, name)) return token;
  }
  return place_of_line(script, frame.currentline);
}

/* ---- marks */

enum { MARK_ID_BITS = 20 };

int place_mark(lua_State *L)
{
  lua_Integer mark = lua_tointeger(L, lua_upvalueindex(1)) << MARK_ID_BITS | lua_tointeger(L, 1);
  lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_MARKS);
  lua_pushvalue(L, 2);
  lua_pushinteger(L, mark);
  lua_rawset(L, -3);
  lua_settop(L, 2);
  return 1;
}

static const Tree *find_mark(lua_State *L, int table, int *id)
{
  table = lua_absindex(L, table);
  lua_rawgeti(L, LUA_REGISTRYINDEX, SLOT_MARKS);
  lua_pushvalue(L, table);
  lua_rawget(L, -2);
  lua_Integer mark = lua_tointeger(L, -1);
  lua_pop(L, 2);
  if (mark == 0) return NULL;
  *id = (int)(mark & ((1 << MARK_ID_BITS) - 1));
  return host_of(L)->scripts[mark >> MARK_ID_BITS];
}

Span host_table_span(lua_State *L, int table)
{
  int id;
  const Tree *tree = find_mark(L, table, &id);
  return tree ? tree_table(tree, id) : (Span){ 0 };
}

Span host_field_span(lua_State *L, int table, const char *key)
{
  int id;
  const Tree *tree = find_mark(L, table, &id);
  return tree ? tree_field(tree, id, key) : (Span){ 0 };
}

/* ---- native.place: every function returns packed spans, 0 for "unknown" */

static int push_span(lua_State *L, Span span)
{
  lua_pushinteger(L, span_pack(span));
  return 1;
}

/* The value of a field named by a text, or of an item named by its position. */
static Span value_span(lua_State *L, const Tree *tree, int id, int key)
{
  if (lua_type(L, key) == LUA_TSTRING) return tree_field(tree, id, lua_tostring(L, key));
  if (lua_isinteger(L, key)) return tree_item(tree, id, lua_tointeger(L, key));
  return (Span){ 0 };
}

/* place.of(t [, key]) - the table constructor, or the value of its field or item */
static int l_of(lua_State *L)
{
  int id;
  const Tree *tree = find_mark(L, 1, &id);
  if (!tree) return push_span(L, (Span){ 0 });
  return push_span(L, lua_isnoneornil(L, 2) ? tree_table(tree, id) : value_span(L, tree, id, 2));
}

/* place.key(t, key) - the key of a field */
static int l_key(lua_State *L)
{
  int id;
  const char *key = luaL_checkstring(L, 2);
  const Tree *tree = find_mark(L, 1, &id);
  return push_span(L, tree ? tree_field_key(tree, id, key) : (Span){ 0 });
}

static int push_of_table(lua_State *L, Span (*part)(const Tree *, int))
{
  int id;
  const Tree *tree = find_mark(L, 1, &id);
  return push_span(L, tree ? part(tree, id) : (Span){ 0 });
}

/* place.call(t) - the call that the table is the last argument of */
static int l_call(lua_State *L) { return push_of_table(L, tree_call); }

/* place.word(t) - the word that is called with it */
static int l_word(lua_State *L) { return push_of_table(L, tree_call_word); }

/* place.name(t) - the name given in that call */
static int l_name(lua_State *L) { return push_of_table(L, tree_call_name); }

/* place.argument(t, key, n) - the n-th argument of the call that is the value of a field or item */
static int l_argument(lua_State *L)
{
  int id, n = (int)luaL_checkinteger(L, 3);
  const Tree *tree = find_mark(L, 1, &id);
  return push_span(L, tree ? tree_argument(tree, value_span(L, tree, id, 2), n) : (Span){ 0 });
}

/* place.item(t, i) - the i-th positional value */
static int l_item(lua_State *L)
{
  int id;
  lua_Integer index = luaL_checkinteger(L, 2);
  const Tree *tree = find_mark(L, 1, &id);
  return push_span(L, tree ? tree_item(tree, id, index) : (Span){ 0 });
}

/* place.caller([level]) - what the nearest script function is doing (1), or one further up */
static int l_caller(lua_State *L) { return push_span(L, host_caller_span(L, (int)luaL_optinteger(L, 1, 1))); }

/* place.global(name) - the global name that the nearest script function is using */
static int l_global(lua_State *L) { return push_span(L, place_of_name(L, luaL_checkstring(L, 1))); }

/* place.text(span) -> the source's bytes there, "" for an unknown place */
static int l_text(lua_State *L)
{
  Span span = span_unpack(luaL_checkinteger(L, 1));
  const Sources *sources = host_of(L)->sources;
  size_t length = 0;
  const char *text = NULL;
  if (!span_is_nowhere(span) && span.source <= sources_count(sources))
    text = sources_text(sources, span.source, &length);
  if (!text || span.end > length || span.begin > span.end) lua_pushliteral(L, "");
  else lua_pushlstring(L, text + span.begin, span.end - span.begin);
  return 1;
}

int place_open(lua_State *L)
{
  static const luaL_Reg functions[] = {
    { "argument", l_argument }, { "call", l_call }, { "caller", l_caller }, { "global", l_global },
    { "item", l_item },         { "key", l_key },   { "name", l_name },     { "of", l_of },
    { "text", l_text },         { "word", l_word }, { NULL, NULL }
  };
  luaL_newlib(L, functions);
  return 1;
}
