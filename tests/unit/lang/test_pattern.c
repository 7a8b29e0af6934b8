/* test_pattern.c - our matcher finds what Lua's does, says what is wrong, and stops when its steps run out. */
#include "lang/pattern.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <lauxlib.h>
#include <lualib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { PLENTY = 1000000 };

/* Writes "first-last|capture|capture", "none", or what is wrong with the pattern. */
static void find(const char *pattern_text, const char *subject, int64_t steps, char *out, size_t size)
{
  Pattern pattern;
  PatternMatch match = { .steps = steps };
  size_t length = strlen(pattern_text);
  pattern.items = malloc(pattern_room(length));
  const char *wrong = pattern_compile(&pattern, pattern_text, length, true);
  if (wrong) snprintf(out, size, "%s", wrong);
  else if (!pattern_search(&pattern, subject, strlen(subject), 0, &match)) {
    snprintf(out, size, "%s", match.steps < 0 ? "stopped" : "none");
  } else {
    int at = snprintf(out, size, "%td-%td", match.begin - subject + 1, match.end - subject);
    for (int i = 0; i < pattern.captures; i++) {
      const PatternCapture *c = &match.captures[i];
      size_t room = size - (size_t)at;
      if (c->length == PATTERN_POSITION) at += snprintf(out + at, room, "|@%td", c->begin - subject + 1);
      else at += snprintf(out + at, room, "|%.*s", (int)c->length, c->begin);
    }
  }
  free(pattern.items);
}

static void patterns_find_what_they_say(void **state)
{
  (void)state;
  static const struct {
    const char *pattern, *subject, *want;
  } cases[] = {
    { "grit", "hone grit 100", "6-9" },
    { "%d+", "hone grit 100", "11-13" },
    { "^grit", "hone grit", "none" },
    { "grit$", "hone grit", "6-9" },
    { "a$b", "a$b", "1-3" },              /* $ is special at the end only */
    { "(%a+)%s*=%s*(%d+)", "dwell = 25 min", "1-10|dwell|25" },
    { "()min()", "25 min", "4-6|@4|@7" },
    { "%b()", "f(a(b)c)d", "2-8" },
    { "%f[%w]%w+", "  wet edge", "3-5" },
    { "(['\"])(.-)%1", "say \"wet\" now", "5-9|\"|wet" },
    { "a-b", "aab", "1-3" },
    { "[]]", "x]", "2-2" },               /* a ] that comes first is one of the bytes */
    { "[^]]", "]x", "2-2" },
    { "[a-]", "-", "1-1" },
    { "[%a-z]", "-", "1-1" },             /* a class does not begin a range */
    { "", "abc", "1-0" },
    { "x*", "abc", "1-0" },
    { "colou?r", "color", "1-5" },
    { "%.", "1.5", "2-2" },
    { "[%z\1-\31]", "a\tb", "2-2" },
    { ".", "\xC3\xA9", "1-1" },           /* bytes, not letters */
    { "(a)(b)%2%1", "abba", "1-4|a|b" },
    { "((a)b)", "ab", "1-2|ab|a" },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    char got[128];
    find(cases[i].pattern, cases[i].subject, PLENTY, got, sizeof got);
    assert_string_equal(got, cases[i].want);
  }
}

static void malformed_patterns_are_explained(void **state)
{
  (void)state;
  static const struct {
    const char *pattern, *want;
  } cases[] = {
    { "%", "malformed pattern (ends with '%')" },
    { "[a", "malformed pattern (missing ']')" },
    { "[]", "malformed pattern (missing ']')" },
    { "[^", "malformed pattern (missing ']')" },
    { "[%", "malformed pattern (missing ']')" },
    { "(a", "unfinished capture" },
    { "a)", "invalid pattern capture" },
    { "%b(", "malformed pattern (missing arguments to '%b')" },
    { "%fa", "missing '[' after '%f' in pattern" },
    { "%1", "invalid capture index in pattern" },
    { "(a%1)", "invalid capture index in pattern" },
    { "%0", "invalid capture index in pattern" },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    char got[128];
    find(cases[i].pattern, "subject", PLENTY, got, sizeof got);
    assert_string_equal(got, cases[i].want);
  }
}

static void counts_have_limits(void **state)
{
  (void)state;
  char pattern[PATTERN_LONGEST + 2], got[64];
  memset(pattern, 'a', sizeof pattern);
  pattern[PATTERN_LONGEST + 1] = '\0';
  find(pattern, "a", PLENTY, got, sizeof got);
  assert_string_equal(got, "pattern too long");
  for (int i = 0; i <= PATTERN_REPEATS; i++) memcpy(pattern + 2 * i, "a?", 3);
  find(pattern, "a", PLENTY, got, sizeof got);
  assert_string_equal(got, "pattern too complex");
  for (int i = 0; i <= PATTERN_CAPTURES; i++) memcpy(pattern + 2 * i, "()", 3);
  find(pattern, "a", PLENTY, got, sizeof got);
  assert_string_equal(got, "too many captures");
}

static void a_blow_up_stops_when_its_steps_run_out(void **state)
{
  (void)state;
  char pattern[200] = "", subject[64] = "", got[64];
  for (int i = 0; i < 40; i++) strcat(pattern, "a?");
  for (int i = 0; i < 40; i++) strcat(pattern, "a"), strcat(subject, "a");
  find(pattern, subject, PLENTY, got, sizeof got);
  assert_string_equal(got, "stopped");
  find("(a*)*b", "aaaa", PLENTY, got, sizeof got); /* a group is not repeated: the second * is a byte */
  assert_string_equal(got, "none");
  find(".-.-.-.-.-.-.-x", "aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa", PLENTY, got, sizeof got);
  assert_string_equal(got, "stopped");
}

static void the_same_match_takes_the_same_steps(void **state)
{
  (void)state;
  Pattern pattern;
  static const char text[] = "(%w+)%s*=%s*(.-);", subject[] = "a = 1; grit = 100;";
  pattern.items = malloc(pattern_room(sizeof text));
  assert_null(pattern_compile(&pattern, text, sizeof text - 1, true));
  int64_t left[2];
  for (int i = 0; i < 2; i++) {
    PatternMatch match = { .steps = PLENTY };
    assert_true(pattern_search(&pattern, subject, sizeof subject - 1, 3, &match));
    left[i] = match.steps;
  }
  assert_int_equal(left[0], left[1]);
  assert_true(left[0] < PLENTY);
  free(pattern.items);
}

/* ---- against Lua 5.4's own string.find (reference manual, section 6.4.1) */

static uint32_t next(uint32_t *seed) { return *seed = *seed * 1664525u + 1013904223u, *seed >> 8; }

static void random_text(uint32_t *seed, const char *const *parts, uint32_t count, int most, char *out)
{
  *out = '\0';
  for (int n = (int)(next(seed) % (uint32_t)(most + 1)); n > 0; n--) strcat(out, parts[next(seed) % count]);
}

/* What Lua says, in the words of find() above; "error" if it refuses. */
static void find_by_lua(lua_State *L, const char *pattern, const char *subject, char *out, size_t size)
{
  lua_settop(L, 0);
  lua_getglobal(L, "string");
  lua_getfield(L, 1, "find");
  lua_pushstring(L, subject);
  lua_pushstring(L, pattern);
  if (lua_pcall(L, 2, LUA_MULTRET, 0) != LUA_OK) {
    snprintf(out, size, "error");
  } else if (lua_isnil(L, 2)) {
    snprintf(out, size, "none");
  } else {
    int at = snprintf(out, size, "%d-%d", (int)lua_tointeger(L, 2), (int)lua_tointeger(L, 3));
    for (int i = 4; i <= lua_gettop(L); i++) {
      bool position = lua_type(L, i) == LUA_TNUMBER;
      at += snprintf(out + at, size - (size_t)at, "|%s%s", position ? "@" : "", lua_tostring(L, i));
    }
  }
}

static void random_patterns_agree_with_lua(void **state)
{
  (void)state;
  static const char *const parts[] = { "a", "b", "1", ".", "%a", "%D", "%s", "[ab]", "[^a1]", "*", "+", "-", "?",
                                       "(", ")", "()", "%b()", "%f[%w]", "%1", "$", "^", "[%d-]", "%W", "(a-)" };
  static const char *const bytes[] = { "a", "b", "1", "(", ")", " ", "$", "-", "aa" };
  lua_State *L = luaL_newstate();
  luaL_openlibs(L);
  uint32_t seed = 54;
  int compared = 0;
  for (int i = 0; i < 20000; i++) {
    char pattern[128], subject[64], ours[256], lua[256];
    random_text(&seed, parts, sizeof parts / sizeof *parts, 7, pattern);
    random_text(&seed, bytes, sizeof bytes / sizeof *bytes, 12, subject);
    find(pattern, subject, PLENTY, ours, sizeof ours);
    find_by_lua(L, pattern, subject, lua, sizeof lua);
    /* Ours refuses a bad pattern before it looks at the subject, Lua when it comes to the bad part. */
    bool refused = strcmp(ours, "none") != 0 && (*ours < '0' || *ours > '9');
    if (refused || strcmp(lua, "error") == 0) continue;
    if (strcmp(ours, lua) != 0) fail_msg("find(%s, %s): %s, Lua says %s", subject, pattern, ours, lua);
    compared++;
  }
  lua_close(L);
  assert_true(compared > 10000);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(patterns_find_what_they_say),
    cmocka_unit_test(malformed_patterns_are_explained),
    cmocka_unit_test(counts_have_limits),
    cmocka_unit_test(a_blow_up_stops_when_its_steps_run_out),
    cmocka_unit_test(the_same_match_takes_the_same_steps),
    cmocka_unit_test(random_patterns_agree_with_lua),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
