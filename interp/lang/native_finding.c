#include <lauxlib.h>
#include <string.h>

#include "base/text.h"
#include "lang/native.h"

static const char *text_field(lua_State *L, const char *key)
{
  lua_getfield(L, 1, key);
  return lua_tostring(L, -1); /* stays on the stack, so that the text lives */
}

static Span span_field(lua_State *L, int table, const char *key)
{
  lua_getfield(L, table, key);
  Span span = span_unpack(lua_tointeger(L, -1));
  lua_pop(L, 1);
  return span;
}

static void read_labels(lua_State *L, Diag *diag)
{
  if (lua_getfield(L, 1, "labels") != LUA_TTABLE) return;
  int list = lua_gettop(L);
  for (int i = 1; i <= DIAG_LABELS && lua_rawgeti(L, list, i) == LUA_TTABLE; i++) {
    int label = lua_gettop(L);
    lua_getfield(L, label, "text");
    diag->labels[diag->label_count++] = (DiagLabel){ span_field(L, label, "at"), lua_tostring(L, -1) };
  }
}

static DiagLevel level_field(lua_State *L, int table, const char *key)
{
  static const char *const levels[] = { "error", "warning", "note", NULL };
  lua_getfield(L, table, key);
  DiagLevel level = (DiagLevel)luaL_checkoption(L, -1, "error", levels);
  lua_pop(L, 1);
  return level;
}

static void read_waiver(lua_State *L, DiagWaiver *waiver)
{
  if (lua_getfield(L, 1, "waiver") != LUA_TTABLE) return;
  int from = lua_gettop(L);
  waiver->at = span_field(L, from, "at");
  waiver->level = level_field(L, from, "level");
  lua_getfield(L, from, "reason");
  waiver->reason = lua_tostring(L, -1);
  lua_getfield(L, from, "by");
  waiver->by = lua_tostring(L, -1);
  lua_getfield(L, from, "message");
  waiver->message = lua_tostring(L, -1);
}

/* finding.add { level, code, at, message, about, labels, note, help, basis, fix, fix_at, safe,
 *               waiver = { at, reason, by, level, message } } */
static int l_add(lua_State *L)
{
  luaL_checktype(L, 1, LUA_TTABLE);
  lua_settop(L, 1);
  luaL_checkstack(L, 2 * DIAG_LABELS + 24, "finding"); /* each text stays there until the finding is copied */
  Diag diag = { .at = span_field(L, 1, "at"), .fix_at = span_field(L, 1, "fix_at"), .level = level_field(L, 1, "level") };
  diag.code = text_field(L, "code");
  diag.message = text_field(L, "message");
  diag.about = text_field(L, "about");
  diag.note = text_field(L, "note");
  diag.help = text_field(L, "help");
  diag.basis = text_field(L, "basis");
  diag.fix = text_field(L, "fix");
  lua_getfield(L, 1, "safe");
  diag.fix_is_safe = lua_toboolean(L, -1);
  if (diag.code == NULL || diag.message == NULL) return luaL_error(L, "a finding needs a code and a message");
  read_labels(L, &diag);
  read_waiver(L, &diag.waiver);
  diags_add(host_diags(host_of(L)), &diag);
  return 0;
}

/* finding.errors() -> the errors so far */
static int l_errors(lua_State *L)
{
  lua_pushinteger(L, diags_errors(host_diags(host_of(L))));
  return 1;
}

/* finding.within(at, first, last) -> the place of bytes first..last (from 1) of a plain quoted string that stands
 * at `at`; `at` itself where the source is written otherwise (escapes, a variable) */
static int l_within(lua_State *L)
{
  Span at = span_unpack(luaL_checkinteger(L, 1));
  lua_Integer first = luaL_checkinteger(L, 2), last = luaL_checkinteger(L, 3);
  size_t length;
  const char *text = sources_text(host_sources(host_of(L)), at.source, &length);
  bool quoted = text && at.end <= length && at.end - at.begin >= 2 && (text[at.begin] == '"' || text[at.begin] == '\'') &&
                memchr(text + at.begin, '\\', at.end - at.begin) == NULL;
  if (quoted && first >= 1 && last >= first && at.begin + 1 + (uint32_t)last <= at.end - 1) {
    at.end = at.begin + 1 + (uint32_t)last;
    at.begin += (uint32_t)first;
  }
  lua_pushinteger(L, span_pack(at));
  return 1;
}

enum { NAMES = 256 };

/* finding.near(name, { names... }) -> up to three near ones, best first */
static int l_near(lua_State *L)
{
  const char *name = luaL_checkstring(L, 1), *words[NAMES], *near[3];
  luaL_checktype(L, 2, LUA_TTABLE);
  luaL_checkstack(L, NAMES, "near");
  size_t count = 0;
  for (; count < NAMES && lua_rawgeti(L, 2, (lua_Integer)count + 1) == LUA_TSTRING; count++)
    words[count] = lua_tostring(L, -1); /* kept on the stack */
  int found = text_near(name, words, count, near, 3);
  for (int i = 0; i < found; i++) lua_pushstring(L, near[i]);
  return found;
}

/* finding.distance(a, b) -> how many letters are wrong, missing, too many or swapped; 4 for more than 3 */
static int l_distance(lua_State *L)
{
  lua_pushinteger(L, text_distance(luaL_checkstring(L, 1), luaL_checkstring(L, 2), 3));
  return 1;
}

/* finding.text(at, more) -> the source text at a place and so many bytes after it; nil for nowhere */
static int l_text(lua_State *L)
{
  Span at = span_unpack(luaL_checkinteger(L, 1));
  size_t length, more = (size_t)luaL_optinteger(L, 2, 0);
  if (span_is_nowhere(at)) return 0;
  const char *text = sources_text(host_sources(host_of(L)), at.source, &length);
  size_t end = at.end + more < length ? at.end + more : length;
  lua_pushlstring(L, text + at.begin, end - at.begin);
  return 1;
}

/* finding.offset(outer, inner) -> first and last byte of a place within another, counted from 1; nil if it is not
 * there */
static int l_offset(lua_State *L)
{
  Span outer = span_unpack(luaL_checkinteger(L, 1)), inner = span_unpack(luaL_checkinteger(L, 2));
  bool within = !span_is_nowhere(inner) && inner.source == outer.source && inner.begin >= outer.begin &&
                inner.end <= outer.end;
  if (!within) return 0;
  lua_pushinteger(L, inner.begin - outer.begin + 1);
  lua_pushinteger(L, inner.end - outer.begin);
  return 2;
}

/* finding.mark() -> how many findings there are, for finding.take */
static int l_mark(lua_State *L)
{
  lua_pushinteger(L, (lua_Integer)diags_count(host_diags(host_of(L))));
  return 1;
}

/* finding.take(mark) -> the codes of the errors and warnings since that mark; all since then are taken back */
static int l_take(lua_State *L)
{
  Diags *diags = host_diags(host_of(L));
  size_t mark = (size_t)luaL_checkinteger(L, 1), count = diags_count(diags);
  lua_newtable(L);
  lua_Integer taken = 0;
  for (size_t i = mark; i < count; i++) {
    if (diags_get(diags, i)->level == DIAG_NOTE) continue;
    lua_pushstring(L, diags_get(diags, i)->code);
    lua_rawseti(L, -2, ++taken);
  }
  diags_cut(diags, mark);
  return 1;
}

static const luaL_Reg functions[] = {
  { "add", l_add },
  { "errors", l_errors },
  { "within", l_within },
  { "mark", l_mark },
  { "take", l_take },
  { "near", l_near },
  { "distance", l_distance },
  { "text", l_text },
  { "offset", l_offset },
  { NULL, NULL },
};

int native_finding(lua_State *L)
{
  luaL_newlib(L, functions);
  return 1;
}
