#include "lang/to_comparison.h"

static const char *text_of(lua_State *L, int table, const char *key, Arena *arena)
{
  lua_getfield(L, table, key);
  const char *text = lua_tostring(L, -1);
  text = arena_strdup(arena, text ? text : "");
  lua_pop(L, 1);
  return text;
}

static Span span_of(lua_State *L, int table, const char *key)
{
  lua_getfield(L, table, key);
  Span span = span_unpack(lua_tointeger(L, -1));
  lua_pop(L, 1);
  return span;
}

static Compared compared_of(lua_State *L, int table, const char *key, Arena *arena)
{
  lua_getfield(L, table, key);
  int side = lua_gettop(L);
  Compared compared = { text_of(L, side, "name", arena), span_of(L, side, "at") };
  lua_pop(L, 1);
  return compared;
}

static Change change_of(lua_State *L, int entry, Arena *arena)
{
  return (Change){ .kind = text_of(L, entry, "kind", arena),   .step = text_of(L, entry, "step", arena),
                   .field = text_of(L, entry, "field", arena), .was = text_of(L, entry, "was", arena),
                   .now = text_of(L, entry, "now", arena),     .was_at = span_of(L, entry, "was_at"),
                   .now_at = span_of(L, entry, "now_at") };
}

static const Change *changes_of(lua_State *L, int table, Arena *arena, int *count)
{
  lua_getfield(L, table, "changes");
  int list = lua_gettop(L);
  *count = (int)lua_rawlen(L, list);
  Change *changes = arena_array(arena, (size_t)*count + 1, sizeof *changes);
  for (int i = 0; i < *count; i++) {
    lua_rawgeti(L, list, i + 1);
    changes[i] = change_of(L, lua_gettop(L), arena);
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
  return changes;
}

static const ComparedStep *steps_of(lua_State *L, int table, Arena *arena, int *count)
{
  lua_getfield(L, table, "steps");
  int list = lua_gettop(L);
  *count = (int)lua_rawlen(L, list);
  ComparedStep *steps = arena_array(arena, (size_t)*count + 1, sizeof *steps);
  for (int i = 0; i < *count; i++) {
    lua_rawgeti(L, list, i + 1);
    steps[i] = (ComparedStep){ text_of(L, lua_gettop(L), "was", arena), text_of(L, lua_gettop(L), "now", arena) };
    lua_pop(L, 1);
  }
  lua_pop(L, 1);
  return steps;
}

void to_comparison(lua_State *L, int table, Arena *arena, Comparison *comparison)
{
  table = lua_absindex(L, table);
  Comparison read = { .was = compared_of(L, table, "was", arena), .now = compared_of(L, table, "now", arena) };
  read.changes = changes_of(L, table, arena, &read.count);
  read.steps = steps_of(L, table, arena, &read.step_count);
  *comparison = read;
}
