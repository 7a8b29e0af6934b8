/* test_rewrite.c - real Lua runs the rewritten text, and its line numbers lead back to the source. */
#include "support.h"

#include <lauxlib.h>
#include <lualib.h>

#include "unit/lang/reading.h"

static Reading read_text(const char *text)
{
  Reading r = reading_of(text, strlen(text));
  Buf complaints = reading_complaints(&r);
  if (!tree_sound(r.tree)) fail_msg("%s\nrefused: %s", text, buf_text(&complaints));
  buf_free(&complaints);
  return r;
}

static int seen_lines[8], seen_count;

/* see(...): notes the line of its caller; returns its arguments. */
static int l_see(lua_State *L)
{
  lua_Debug ar;
  if (lua_getstack(L, 1, &ar) && lua_getinfo(L, "l", &ar) && seen_count < 8)
    seen_lines[seen_count++] = ar.currentline;
  return lua_gettop(L);
}

/* _mark(id, table) -> table */
static int l_mark(lua_State *L)
{
  luaL_checkinteger(L, 1);
  luaL_checktype(L, 2, LUA_TTABLE);
  lua_settop(L, 2);
  return 1;
}

/* _tick(steps) */
static int l_tick(lua_State *L)
{
  luaL_checkinteger(L, 1);
  return 0;
}

static int l_index_error(lua_State *L)
{
  return luaL_error(L, "no global %s", lua_tostring(L, 2));
}

static lua_State *new_state(void)
{
  lua_State *L = luaL_newstate();
  luaL_openlibs(L);
  lua_register(L, "see", l_see);
  return L;
}

static int load_rewritten(lua_State *L, const Reading *r)
{
  int status = luaL_loadbufferx(L, r->rewritten.text, r->rewritten.length, "=r", "t");
  lua_pushcfunction(L, l_mark);
  lua_pushcfunction(L, l_tick);
  return status;
}

/* Runs a script that must fail, and returns the line that Lua gives. */
static int failing_line(const Reading *r, const char *want)
{
  lua_State *L = new_state();
  assert_int_equal(load_rewritten(L, r), LUA_OK);
  assert_int_not_equal(lua_pcall(L, 2, 0, 0), LUA_OK);
  const char *message = lua_tostring(L, -1);
  int line = 0;
  assert_int_equal(sscanf(message, "r:%d:", &line), 1);
  if (strstr(message, want) == NULL) fail_msg("%s\nwant `%s`, got `%s`", r->text, want, message);
  lua_close(L);
  return line;
}

static void a_failing_call_is_found(void **state)
{
  (void)state;
  static const struct { const char *text, *token, *call; } cases[] = {
    { "f(x)", "f", "f(x)" },
    { "local a = { b = {} } a.b.c(1)", "a", "a.b.c(1)" },
    { "local a = { b = { c = {} } } a.b.c:d \"x\" { }", "a", "a.b.c:d \"x\"" },
    { "local function f() end f \"x\" { 1 }", "f", "f \"x\" { 1 }" },
    { "local a = { b = see } return 1 + (a.b(a)).c (3)", "(", "(a.b(a)).c (3)" },
    { "see\n(\n1,\nnothing\n(\n2\n)\n)", "nothing", "nothing\n(\n2\n)" },
    { "local t = setmetatable({}, { __index = function(t) return function() return t end end })\n"
      "t:a():b(1):c():d(nope()):e()", "nope", "nope()" },
    { "local t = { go = function() return {} end }\nt.go().stop()", "t", "t.go().stop()" },
    { "local t = { go = function() return {} end }\nt.go(nope()).stop()", "nope", "nope()" },
    { "local t = { go = function() end }\nt.go()()", "t", "t.go()()" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Reading r = read_text(cases[i].text);
    int line = failing_line(&r, "attempt to");
    assert_span_text(&r, tree_token(r.tree, line), cases[i].token);
    assert_span_text(&r, tree_call_at(r.tree, line), cases[i].call);
    reading_free(&r);
  }
}

/* Not in the table: integer `n % 0` and `n // 0`, for which Lua 5.4.4 itself gives a wrong line (mended in 5.4.5).
 */
static void a_failing_operation_is_found(void **state)
{
  (void)state;
  static const struct { const char *text, *message, *operation; } cases[] = {
    { "local a, b\nreturn 1 + (2 * a) - 3", "arithmetic", "2 * a" },
    { "local a\nreturn 1\n+\na", "arithmetic", "1\n+\na" },
    { "local a\nreturn a - 5", "arithmetic", "a - 5" },
    { "local a\nreturn 5 // a // 2", "arithmetic", "5 // a" },
    { "local a = {}\nreturn 3 & 4 | a", "bitwise", "3 & 4 | a" },
    { "local a = {}\nreturn 1 << 2 ~ a", "bitwise", "1 << 2 ~ a" },
    { "local a, b\nreturn 1 < 2 and a < b", "compare", "a < b" },
    { "local a\nif\na\n>=\n3\nthen end", "compare", "a\n>=\n3" },
    { "local a\nreturn 3 > (a)", "compare", "3 > (a)" },
    { "local a = {}\nreturn \"x\" .. 1 .. a .. \"y\"", "concatenate", "\"x\" .. 1 .. a .. \"y\"" },
    { "local a\nlocal s = \"x\" .. 2 * a .. \"y\"", "arithmetic", "2 * a" },
    { "local a = {}\nreturn 2 ^ 3 ^ a", "arithmetic", "3 ^ a" },
    { "local a\nreturn 1 == 1 and nil ~= (1 <= a)", "compare", "1 <= a" },
    { "local a, b = 1, 2.5\nreturn a | b", "no integer", "a | b" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Reading r = read_text(cases[i].text);
    assert_span_text(&r, tree_operation_at(r.tree, failing_line(&r, cases[i].message)), cases[i].operation);
    reading_free(&r);
  }
}

static void other_failures_lead_to_their_token(void **state)
{
  (void)state;
  static const struct { const char *text, *message, *token; } cases[] = {
    { "local a\nreturn a.b.c", "index", "b" },
    { "local a\nreturn a.b + 1", "index", "b" }, /* not the sign, where Lua itself would see it */
    { "local a\nreturn see(a.b, 2)", "index", "b" },
    { "local a\nreturn see(1, a.b)", "index", "b" },
    { "local a\nreturn { a.b, 2 }", "index", "b" },
    { "local a\nreturn { x = a.b; 2 }", "index", "b" },
    { "local a\nif a.b then end", "index", "b" },
    { "local a\nif not (a.b) then end", "index", "b" },
    { "local a\nreturn a.b < 3", "index", "b" },
    { "local a\nreturn a.b .. \"x\"", "index", "b" },
    { "local a\nreturn a.b and 1", "index", "b" },
    { "local a\nreturn a[1][2]", "index", "]" },
    { "local a = {}\nreturn a.b.c:d()", "index", "c" },
    { "local a\na.b.c = 1", "index", "b" },
    { "local a\nreturn -a", "arithmetic", "-" },
    { "local a\nreturn #a", "length", "#" },
    { "local a = {}\nreturn ~a", "bitwise", "~" },
    { "for i = 1, \"x\" do end", "'for' limit", "do" },
    { "for i = 1, 2, 0 do end", "'for' step", "do" },
    { "for k in 3 do end", "attempt to call", "3" },
    { "local t = {}\nt[nil] = 1", "index is nil", "1" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Reading r = read_text(cases[i].text);
    assert_span_text(&r, tree_token(r.tree, failing_line(&r, cases[i].message)), cases[i].token);
    reading_free(&r);
  }
}

static void an_unknown_word_is_found_where_it_stands(void **state)
{
  (void)state;
  static const char *const texts[] = {
    "return hnoe \"open\" { grit = 100 }", "return 1 + hnoe + 2", "return hnoe + 1", "return f(hnoe, 1)",
    "return f(1, hnoe)", "if hnoe then end", "local x = hnoe local y", "return { hnoe, 1 }", "return { x = hnoe }",
    "return hnoe:method()", "return hnoe.field.field", "while hnoe do end", "for i = 1, hnoe do end",
    "return (hnoe)", "return not hnoe", "local t <const> = { [hnoe] = 1 }", "repeat until hnoe", "return hnoe .. 1",
    "hnoe()", "hnoe.x = 1", "local a = {} a[hnoe] = 3", "return #hnoe", "for k in hnoe do end", "return 1 < hnoe",
  };
  for (size_t i = 0; i < COUNT_OF(texts); i++) {
    Reading r = read_text(texts[i]);
    lua_State *L = luaL_newstate();
    lua_pushglobaltable(L);
    lua_newtable(L);
    lua_pushcfunction(L, l_index_error);
    lua_setfield(L, -2, "__index"); /* globals, meta */
    lua_pushcfunction(L, l_see);
    lua_setfield(L, -3, "f");
    lua_setmetatable(L, -2);
    assert_int_equal(load_rewritten(L, &r), LUA_OK);
    assert_int_equal(lua_pcall(L, 2, 0, 0), LUA_ERRRUN);
    int line = 0;
    assert_int_equal(sscanf(lua_tostring(L, -1), "r:%d: no global hnoe", &line), 1);
    assert_span_text(&r, tree_token(r.tree, line), "hnoe");
    lua_close(L);
    reading_free(&r);
  }
}

static void a_called_function_sees_its_own_call(void **state)
{
  (void)state;
  static const struct { const char *text, *calls[4]; } cases[] = {
    { "return see(1)", { "see(1)" } },
    { "local x = see(see(1), see\n(2))", { "see(1)", "see\n(2)", "see(see(1), see\n(2))" } },
    { "return see { see { 1 }, x = see \"a\" }", { "see { 1 }", "see \"a\"", "see { see { 1 }, x = see \"a\" }" } },
    { "local w = function(x) return see end\nw \"a\" { 1 }", { "w \"a\" { 1 }" } },
    { "local t = { see = see, me = function(t) return t end }\nt:me():see()\nt.see(1, 2)",
      { "t:me():see()", "t.see(1, 2)" } },
    { "local s = [[\n\nlong\n]] see(s) s = 'a\\\nb\\z\n  c' see \"x\"", { "see(s)", "see \"x\"" } },
    { "#!/usr/bin/env gritwork\nsee(1)", { "see(1)" } },
    { "\xEF\xBB\xBFsee(1)\r\n\r\nsee(2)", { "see(1)", "see(2)" } },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Reading r = read_text(cases[i].text);
    lua_State *L = new_state();
    seen_count = 0;
    assert_int_equal(load_rewritten(L, &r), LUA_OK);
    if (lua_pcall(L, 2, 0, 0) != LUA_OK) fail_msg("%s", lua_tostring(L, -1));
    int wanted = 0;
    while (wanted < 4 && cases[i].calls[wanted]) wanted++;
    assert_int_equal(seen_count, wanted);
    for (int k = 0; k < wanted; k++) assert_span_text(&r, tree_call_at(r.tree, seen_lines[k]), cases[i].calls[k]);
    lua_close(L);
    reading_free(&r);
  }
}

static void a_metamethod_sees_its_operation(void **state)
{
  (void)state;
  static const struct { const char *text, *operation; } cases[] = {
    { "local x = 1 + t", "1 + t" },   { "local x = (t * 2)", "t * 2" }, { "return t < 3 and 4", "t < 3" },
    { "return 3 <= t", "3 <= t" },    { "return 1 .. t .. 2", "1 .. t .. 2" }, { "if t > t then end", "t > t" },
    { "local x = 1 + 2 * t - 3", "2 * t" },
  };
  static const char *const events[] = { "__add", "__mul", "__sub", "__lt", "__le", "__concat" };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Reading r = read_text(cases[i].text);
    lua_State *L = new_state();
    lua_newtable(L);
    lua_newtable(L);
    for (size_t k = 0; k < COUNT_OF(events); k++) {
      lua_pushcfunction(L, l_see);
      lua_setfield(L, -2, events[k]); /* t, meta */
    }
    lua_setmetatable(L, -2);
    lua_setglobal(L, "t");
    seen_count = 0;
    assert_int_equal(load_rewritten(L, &r), LUA_OK);
    lua_pcall(L, 2, 0, 0); /* what the operation gives is of no matter */
    assert_true(seen_count > 0);
    assert_span_text(&r, tree_operation_at(r.tree, seen_lines[0]), cases[i].operation);
    lua_close(L);
    reading_free(&r);
  }
}

static void loops_functions_and_jumps_are_charged_for(void **state)
{
  (void)state;
  static const struct { const char *text, *want; } cases[] = {
    { "while f() do g() end", "\ndo _tick(6);\n" },
    { "for i = 1, 2 do end", "\ndo _tick(4);\n" },
    { "for k in pairs(t) do end", "\ndo _tick(4);\n" },
    { "repeat f() until g()", "\nrepeat _tick(8);\n" },
    { "local function f(a) return a end", "\n) _tick(5);\n" },
    { "goto a ::a::", "\ndo _tick(4); goto\na end\n" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Reading r = read_text(cases[i].text);
    if (!strstr(buf_text(&r.rewritten), cases[i].want)) fail_msg("%s became\n%s", cases[i].text, buf_text(&r.rewritten));
    reading_free(&r);
  }
}

static void every_constructor_is_marked_in_the_order_of_its_brace(void **state)
{
  (void)state;
  Reading r = read_text("return f{ {1}, a = { b = {} }, o:m{ 2 } }");
  assert_int_equal(tree_tables(r.tree), 5);
  assert_span_text(&r, tree_table(r.tree, 1), "{ {1}, a = { b = {} }, o:m{ 2 } }");
  assert_span_text(&r, tree_table(r.tree, 2), "{1}");
  assert_span_text(&r, tree_table(r.tree, 3), "{ b = {} }");
  assert_span_text(&r, tree_table(r.tree, 4), "{}");
  assert_span_text(&r, tree_table(r.tree, 5), "{ 2 }");
  static const char *const marks[] = { "\n(_mark(1,{\n", "\n_mark(2,{\n", "\n_mark(3,{\n", "\n_mark(4,{\n",
                                       "\n(_mark(5,{\n" };
  for (size_t i = 0; i < COUNT_OF(marks); i++) assert_non_null(strstr(r.rewritten.text, marks[i]));
  reading_free(&r);
}

static void lines_outside_the_text_are_nowhere(void **state)
{
  (void)state;
  Reading r = read_text("return f(x)");
  static const int lines[] = { -1, 0, 1, 7, 1000000, INT32_MAX, INT32_MIN };
  for (size_t i = 0; i < COUNT_OF(lines); i++) {
    assert_true(span_is_nowhere(tree_token(r.tree, lines[i])));
    assert_true(span_is_nowhere(tree_call_at(r.tree, lines[i])));
    assert_true(span_is_nowhere(tree_operation_at(r.tree, lines[i])));
  }
  assert_false(span_is_nowhere(tree_token(r.tree, 6)));
  reading_free(&r);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_failing_call_is_found),
    cmocka_unit_test(a_failing_operation_is_found),
    cmocka_unit_test(other_failures_lead_to_their_token),
    cmocka_unit_test(an_unknown_word_is_found_where_it_stands),
    cmocka_unit_test(a_called_function_sees_its_own_call),
    cmocka_unit_test(a_metamethod_sees_its_operation),
    cmocka_unit_test(loops_functions_and_jumps_are_charged_for),
    cmocka_unit_test(every_constructor_is_marked_in_the_order_of_its_brace),
    cmocka_unit_test(lines_outside_the_text_are_nowhere),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
