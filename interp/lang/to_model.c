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

void to_model(lua_State *L, int index, Document *document, Diags *diags)
{
  ModelReader r = { L, document, diags, "" };
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
