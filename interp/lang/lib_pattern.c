#include "lang/lib_pattern.h"

#include <string.h>

#include "lang/pattern.h"
#include "lang/sandbox.h"

size_t lib_offset(lua_Integer position, size_t length)
{
  if (position > 0) return (lua_Unsigned)position > length ? length : (size_t)position - 1;
  if (position == 0 || position < -(lua_Integer)length) return 0;
  return length + (size_t)position;
}

/* Pushes memory that holds the compiled pattern, and whatever `extra` bytes come first. */
static void *push_pattern(lua_State *L, int argument, bool may_anchor, size_t extra, Pattern *pattern)
{
  size_t length;
  const char *text = luaL_checklstring(L, argument, &length);
  if (length > PATTERN_LONGEST) luaL_error(L, "pattern too long");
  char *block = lua_newuserdatauv(L, extra + pattern_room(length), 0);
  pattern->items = (PatternItem *)(void *)(block + extra);
  const char *wrong = pattern_compile(pattern, text, length, may_anchor);
  if (wrong) luaL_error(L, "%s", wrong);
  host_charge(L, (int64_t)length);
  return block;
}

static int64_t steps_left(lua_State *L)
{
  Host *host = host_of(L);
  return host->budget.instructions - host->spent;
}

/* Searches with the steps that the budget has left, and charges those that were taken. */
static bool search(lua_State *L, const Pattern *pattern, const char *subject, size_t length, size_t from,
                   PatternMatch *match)
{
  int64_t steps = steps_left(L);
  match->steps = steps;
  bool found = pattern_search(pattern, subject, length, from, match);
  host_charge(L, steps - match->steps);
  return found;
}

/* ---- captures */

static void push_capture(lua_State *L, const PatternCapture *capture, const char *subject)
{
  if (capture->length == PATTERN_POSITION) lua_pushinteger(L, capture->begin - subject + 1);
  else lua_pushlstring(L, capture->begin, (size_t)capture->length);
}

/* The captures, or the whole match if the pattern has none and `whole` says so. */
static int push_captures(lua_State *L, const Pattern *pattern, const PatternMatch *match, const char *subject,
                         bool whole)
{
  luaL_checkstack(L, PATTERN_CAPTURES, "too many captures");
  for (int i = 0; i < pattern->captures; i++) push_capture(L, &match->captures[i], subject);
  if (pattern->captures || !whole) return pattern->captures;
  lua_pushlstring(L, match->begin, (size_t)(match->end - match->begin));
  return 1;
}

/* ---- find and match */

/* Nothing in the text has a meaning of its own. */
static bool is_plain(const char *text, size_t length)
{
  return length > 0 && !strpbrk(text, "^$*+?.([%-") && !memchr(text, 0, length);
}

static int find_plain(lua_State *L, const char *subject, size_t length, const char *text, size_t text_length,
                      size_t from)
{
  const char *at = memmem(subject + from, length - from, text, text_length);
  lib_charge_bytes(L, length);
  if (!at) {
    lua_pushnil(L);
    return 1;
  }
  lua_pushinteger(L, at - subject + 1);
  lua_pushinteger(L, at - subject + (lua_Integer)text_length);
  return 2;
}

static int find_or_match(lua_State *L, bool find)
{
  size_t length, text_length;
  const char *subject = luaL_checklstring(L, 1, &length), *text = luaL_checklstring(L, 2, &text_length);
  lua_Integer start = luaL_optinteger(L, 3, 1);
  Pattern pattern;
  PatternMatch match;
  if (start > (lua_Integer)length + 1) {
    lua_pushnil(L);
    return 1;
  }
  size_t from = lib_offset(start, length);
  if (find && (lua_toboolean(L, 4) || is_plain(text, text_length)))
    return find_plain(L, subject, length, text, text_length, from);
  push_pattern(L, 2, true, 0, &pattern);
  if (!search(L, &pattern, subject, length, from, &match)) {
    lua_pushnil(L);
    return 1;
  }
  if (!find) return push_captures(L, &pattern, &match, subject, true);
  lua_pushinteger(L, match.begin - subject + 1);
  lua_pushinteger(L, match.end - subject);
  return 2 + push_captures(L, &pattern, &match, subject, false);
}

/* string.find(s, pattern [, from [, plain]]) -> first, last, captures... */
int lib_find(lua_State *L) { return find_or_match(L, true); }

/* string.match(s, pattern [, from]) -> captures, or the match */
int lib_match(lua_State *L) { return find_or_match(L, false); }

/* ---- gmatch */

typedef struct {
  Pattern pattern;
  size_t at;
  const char *last_end; /* an empty match right behind another does not count */
} Walk;

/* The next match at or after walk->at; moves the walk behind it. */
static bool walk_next(lua_State *L, Walk *walk, const char *subject, size_t length, PatternMatch *match)
{
  while (walk->at <= length && search(L, &walk->pattern, subject, length, walk->at, match)) {
    bool counts = match->end != walk->last_end;
    walk->at = (size_t)(match->end - subject);
    if (!counts) walk->at = (size_t)(match->begin - subject) + 1;
    walk->last_end = match->end;
    if (counts) return true;
  }
  return false;
}

static int l_gmatch_step(lua_State *L)
{
  size_t length;
  const char *subject = lua_tolstring(L, lua_upvalueindex(1), &length);
  Walk *walk = lua_touserdata(L, lua_upvalueindex(2));
  PatternMatch match;
  if (!walk_next(L, walk, subject, length, &match)) return 0;
  return push_captures(L, &walk->pattern, &match, subject, true);
}

/* string.gmatch(s, pattern): an iterator over all matches */
int lib_gmatch(lua_State *L)
{
  Pattern pattern;
  luaL_checkstring(L, 1);
  lua_settop(L, 2);
  lua_pushvalue(L, 1);
  Walk *walk = push_pattern(L, 2, false, sizeof *walk, &pattern);
  *walk = (Walk){ .pattern = pattern };
  lua_pushcclosure(L, l_gmatch_step, 2);
  return 1;
}

/* ---- gsub */

typedef struct {
  lua_State *L;
  const Pattern *pattern;
  const PatternMatch *match;
  const char *subject;
  luaL_Buffer *out;
} Replacing;

static void add_checked(Replacing *r, const char *bytes, size_t length)
{
  lib_check_length(r->L, luaL_bufflen(r->out) + length);
  luaL_addlstring(r->out, bytes, length);
}

static void add_whole(Replacing *r) { add_checked(r, r->match->begin, (size_t)(r->match->end - r->match->begin)); }

/* %0 to %9 in a replacement. */
static void add_numbered(Replacing *r, int number)
{
  if (number == 0 || (number == 1 && r->pattern->captures == 0)) {
    add_whole(r);
    return;
  }
  if (number > r->pattern->captures) luaL_error(r->L, "invalid capture index %%%d in replacement string", number);
  const PatternCapture *capture = &r->match->captures[number - 1];
  if (capture->length == PATTERN_POSITION) {
    lua_pushfstring(r->L, "%I", (LUAI_UACINT)(capture->begin - r->subject + 1));
    luaL_addvalue(r->out);
  } else add_checked(r, capture->begin, (size_t)capture->length);
}

static void add_template(Replacing *r, const char *text, size_t length)
{
  for (const char *p = text, *end = text + length; p < end; p++) {
    if (*p != '%') {
      add_checked(r, p, 1);
      continue;
    }
    if (++p < end && *p == '%') add_checked(r, p, 1);
    else if (p < end && *p >= '0' && *p <= '9') add_numbered(r, *p - '0');
    else luaL_error(r->L, "invalid use of '%%' in replacement string");
  }
}

/* Pushes what a table or function says about the match. */
static void push_answer(Replacing *r)
{
  lua_State *L = r->L;
  if (lua_isfunction(L, 3)) {
    lua_pushvalue(L, 3);
    lua_call(L, push_captures(L, r->pattern, r->match, r->subject, true), 1);
    return;
  }
  if (r->pattern->captures) push_capture(L, &r->match->captures[0], r->subject);
  else lua_pushlstring(L, r->match->begin, (size_t)(r->match->end - r->match->begin));
  lua_gettable(L, 3);
}

static void add_answer(Replacing *r)
{
  lua_State *L = r->L;
  size_t length;
  push_answer(r);
  if (!lua_toboolean(L, -1)) {
    lua_pop(L, 1);
    add_whole(r);
  } else if (!lua_isstring(L, -1)) {
    luaL_error(L, "invalid replacement value (a %s)", luaL_typename(L, -1));
  } else {
    lua_tolstring(L, -1, &length);
    lib_check_length(L, luaL_bufflen(r->out) + length);
    luaL_addvalue(r->out);
  }
}

static void add_replacement(Replacing *r)
{
  size_t length;
  if (lua_type(r->L, 3) != LUA_TSTRING) {
    add_answer(r);
    return;
  }
  const char *text = lua_tolstring(r->L, 3, &length);
  host_charge(r->L, (int64_t)length / 4);
  add_template(r, text, length);
}

/* string.gsub(s, pattern, replacement [, most]) -> text, number of replacements */
int lib_gsub(lua_State *L)
{
  size_t length;
  const char *subject = luaL_checklstring(L, 1, &length);
  int type = lua_type(L, 3);
  luaL_argexpected(L, type == LUA_TSTRING || type == LUA_TNUMBER || type == LUA_TTABLE || type == LUA_TFUNCTION, 3,
                   "string/function/table");
  if (type == LUA_TNUMBER) lua_tostring(L, 3);
  lua_Integer most = luaL_optinteger(L, 4, (lua_Integer)length + 1), count = 0;
  lua_settop(L, 3);
  Walk walk = { 0 };
  PatternMatch match;
  luaL_Buffer out;
  push_pattern(L, 2, true, 0, &walk.pattern);
  luaL_buffinit(L, &out);
  Replacing replacing = { L, &walk.pattern, &match, subject, &out };
  const char *copied = subject;
  while (count < most && walk_next(L, &walk, subject, length, &match)) {
    add_checked(&replacing, copied, (size_t)(match.begin - copied));
    add_replacement(&replacing);
    copied = match.end;
    count++;
    if (walk.pattern.anchored) break;
  }
  add_checked(&replacing, copied, (size_t)(subject + length - copied));
  luaL_pushresult(&out);
  lua_pushinteger(L, count);
  return 2;
}
