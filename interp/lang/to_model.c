#include "lang/to_model.h"

#include <lauxlib.h>
#include <string.h>

#include "lang/to_parts.h"

int to_table(ModelReader *r, int index, const char *key)
{
  lua_getfield(r->L, index, key);
  return lua_gettop(r->L);
}

int to_length(ModelReader *r, int index) { return lua_istable(r->L, index) ? (int)lua_rawlen(r->L, index) : 0; }

int to_waivers(ModelReader *r, int index, Waiver **waivers)
{
  int list = to_table(r, index, "waivers"), count = 0;
  *waivers = arena_array(r->document->arena, (size_t)to_length(r, list) + 1, sizeof **waivers);
  for (int i = 1; i <= to_length(r, list); i++) {
    lua_rawgeti(r->L, list, i);
    int entry = lua_gettop(r->L);
    lua_getfield(r->L, entry, "used");
    lua_getfield(r->L, entry, "late");
    if (lua_toboolean(r->L, -1) || lua_toboolean(r->L, -2))
      (*waivers)[count++] = (Waiver){ reader_keep(r, entry, "rule"), reader_keep(r, entry, "reason"),
                                      reader_keep(r, entry, "by"), reader_keep(r, entry, "step"),
                                      reader_keep(r, entry, "area") };
    lua_pop(r->L, 3);
  }
  lua_pop(r->L, 1);
  return count;
}

void to_model(lua_State *L, int index, Document *document, Diags *diags)
{
  ModelReader r = { L, document, diags, "", false };
  index = lua_absindex(L, index);
  luaL_checkstack(L, 100, "document");
  int top = lua_gettop(L);
  lua_getfield(L, index, "word");
  const char *word = lua_tostring(L, -1);
  if (word && strcmp(word, "recipe") == 0) {
    document->kind = DOCUMENT_RECIPE; /* nothing is planned or costed without a job */
  } else if (word && strcmp(word, "job") == 0) {
    document->kind = DOCUMENT_JOB;
    document->job = arena_alloc(document->arena, sizeof *document->job);
    to_job(&r, index, document->job);
  } else if (word && strcmp(word, "prices") == 0) {
    document->kind = DOCUMENT_PRICES;
    document->prices = arena_alloc(document->arena, sizeof *document->prices);
    to_prices(&r, index, document->prices);
  }
  lua_settop(L, top);
}
