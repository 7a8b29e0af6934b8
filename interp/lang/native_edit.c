/* native_edit.c - changes of a script's text, for fixes: each answers the place and the text that should stand
 * there, or nothing where the change is not plain (lang/edit.h). */
#include <lauxlib.h>

#include "lang/edit.h"
#include "lang/native.h"

static int push_edit(lua_State *L, bool found, Edit *edit)
{
  if (!found) return 0;
  lua_pushinteger(L, span_pack(edit->at));
  lua_pushlstring(L, buf_text(&edit->text), edit->text.length);
  buf_free(&edit->text);
  return 2;
}

typedef bool (*Adding)(const Tree *tree, Span at, const char *text, Edit *edit);

static int add(lua_State *L, Adding adding)
{
  Span at = span_unpack(luaL_checkinteger(L, 1));
  const char *text = luaL_checkstring(L, 2);
  const Tree *tree = host_tree(host_of(L), at.source);
  Edit edit;
  return push_edit(L, tree && adding(tree, at, text, &edit), &edit);
}

/* edit.field(table_at, text) - `text` as one more field */
static int l_field(lua_State *L) { return add(L, edit_add_field); }

/* edit.before(entry_at, text) - `text` as an entry before that one */
static int l_before(lua_State *L) { return add(L, edit_add_before); }

/* edit.after(entry_at, text) */
static int l_after(lua_State *L) { return add(L, edit_add_after); }

/* edit.without(entry_or_key_at) - the entry, or the field of that key, taken out */
static int l_without(lua_State *L)
{
  Span at = span_unpack(luaL_checkinteger(L, 1));
  const Tree *tree = host_tree(host_of(L), at.source);
  Edit edit;
  return push_edit(L, tree && edit_take_out(tree, at, &edit), &edit);
}

/* edit.begin(at) - the empty place where that one begins, and the text of its line before it */
static int l_begin(lua_State *L)
{
  Span at = span_unpack(luaL_checkinteger(L, 1));
  if (span_is_nowhere(at)) return 0;
  const char *text = sources_text(host_sources(host_of(L)), at.source, NULL);
  uint32_t line = at.begin;
  while (line > 0 && text[line - 1] != '\n' && text[line - 1] != '\r') line--;
  lua_pushinteger(L, span_pack((Span){ at.source, at.begin, at.begin }));
  lua_pushlstring(L, text + line, at.begin - line);
  return 2;
}

static const luaL_Reg functions[] = {
  { "field", l_field },
  { "before", l_before },
  { "after", l_after },
  { "without", l_without },
  { "begin", l_begin },
  { NULL, NULL },
};

int native_edit(lua_State *L)
{
  luaL_newlib(L, functions);
  return 1;
}
