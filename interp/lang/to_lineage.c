#include "lang/to_lineage.h"

static const char *text_of(lua_State *L, int table, const char *key, Arena *arena)
{
  lua_getfield(L, table, key);
  const char *text = lua_tostring(L, -1);
  text = arena_strdup(arena, text ? text : "");
  lua_pop(L, 1);
  return text;
}

static Span span_of(lua_State *L, int table)
{
  lua_getfield(L, table, "at");
  Span span = span_unpack(lua_tointeger(L, -1));
  lua_pop(L, 1);
  return span;
}

void to_lineage(lua_State *L, int list, Arena *arena, Lineage *lineage)
{
  list = lua_absindex(L, list);
  int count = (int)lua_rawlen(L, list);
  LineageEntry *entries = arena_array(arena, (size_t)count + 1, sizeof *entries);
  for (int i = 0; i < count; i++) {
    lua_rawgeti(L, list, i + 1);
    int entry = lua_gettop(L);
    entries[i] = (LineageEntry){ text_of(L, entry, "text", arena), span_of(L, entry) };
    lua_pop(L, 1);
  }
  *lineage = (Lineage){ .entries = entries, .count = count };
}

void to_lineage_unknown(lua_State *L, int table, Arena *arena, Lineage *lineage)
{
  table = lua_absindex(L, table);
  lua_getfield(L, table, "names");
  int list = lua_gettop(L), count = (int)lua_rawlen(L, list);
  const char **names = arena_array(arena, (size_t)count + 1, sizeof *names);
  for (int i = 0; i < count; i++) {
    lua_rawgeti(L, list, i + 1);
    names[i] = arena_strdup(arena, lua_tostring(L, -1));
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
  lua_getfield(L, table, "has_figures");
  bool has_figures = lua_toboolean(L, -1);
  lua_pop(L, 1);
  *lineage = (Lineage){ .part = text_of(L, table, "part", arena), .within = text_of(L, table, "within", arena),
                        .names = names, .name_count = count, .has_figures = has_figures };
}
