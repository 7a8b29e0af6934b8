/* test_same_as_lua.c - what the reader takes and refuses, against Lua itself: the same texts pass, the rewritten
 * text gives the same values, and what Lua refuses the reader refuses first. */
#include "support.h"

#include <lauxlib.h>
#include <lualib.h>

#include "unit/lang/reading.h"

/* Values as text, tables with their keys in order; also checks that _mark was given each table once. */
static const char show_source[] =
    "local function show(v)\n"
    "  if type(v) == 'function' then return 'function' end\n"
    "  if math.type(v) == 'float' then return ('%a'):format(v) end\n"
    "  if type(v) ~= 'table' then return type(v) == 'string' and ('%q'):format(v) or tostring(v) end\n"
    "  local parts = {}\n"
    "  for k, x in pairs(v) do parts[#parts + 1] = '[' .. show(k) .. ']=' .. show(x) end\n"
    "  table.sort(parts)\n"
    "  return '{' .. table.concat(parts, ',') .. '}'\n"
    "end\n"
    "return function(...)\n"
    "  local parts = table.pack(...)\n"
    "  for i = 1, parts.n do parts[i] = show(parts[i]) end\n"
    "  return table.concat(parts, ' ')\n"
    "end\n";

static int l_mark(lua_State *L)
{
  luaL_checkinteger(L, 1);
  luaL_checktype(L, 2, LUA_TTABLE);
  lua_settop(L, 2);
  return 1;
}

static int l_tick(lua_State *L)
{
  luaL_checkinteger(L, 1);
  return 0;
}

static bool lua_takes(const char *text, size_t length)
{
  lua_State *L = luaL_newstate();
  bool takes = luaL_loadbufferx(L, text, length, "=t", "t") == LUA_OK;
  lua_close(L);
  return takes;
}

/* Runs a text and leaves what it returns, as text, in `got`. */
static void run(const char *text, size_t length, bool marked, char *got, size_t room)
{
  lua_State *L = luaL_newstate();
  luaL_openlibs(L);
  assert_int_equal(luaL_dostring(L, show_source), LUA_OK);
  if (luaL_loadbufferx(L, text, length, "=t", "t") != LUA_OK) fail_msg("%s\n%s", text, lua_tostring(L, -1));
  if (marked) lua_pushcfunction(L, l_mark);
  if (marked) lua_pushcfunction(L, l_tick);
  if (lua_pcall(L, marked ? 2 : 0, LUA_MULTRET, 0) != LUA_OK) fail_msg("%s\n%s", text, lua_tostring(L, -1));
  assert_int_equal(lua_pcall(L, lua_gettop(L) - 1, 1, 0), LUA_OK); /* show(values...) */
  snprintf(got, room, "%s", lua_tostring(L, -1));
  lua_close(L);
}

static void sound_texts_give_the_same_values(void **state)
{
  (void)state;
  static const char *const texts[] = {
    "",
    ";;;",
    "return",
    "return;",
    "return 1, 2.5, 0x10, 0xA.8p1, 1e3, .5, 3., 0x.1p4, 1E-2, 9223372036854775808, 0xffffffffffffffff",
    "return 'a\\n\\t\\\\\\'\\\"', \"\\65\\065\\x41\\u{41}\\u{20AC}\\u{7FFFFFFF}\", 'a\\\nb', 'a\\z\n   b', "
    "'\\0001'",
    "return [[a\nb]], [==[\n]]\n]==], [[\r\nx\r\ny\n\rz\r]], '\\\r\nx', [[]], [[\n]], '\\1\\z\n2', [[\\n\"]]",
    "return -2 ^ 2, 2 ^ -1, 2 ^ 3 ^ 2, not nil == true, -3 // 2, -3 % 5, 7 / 2, 1 .. 2 .. 3",
    "return 1 + 2 * 3 - 4 / 2, (1 + 2) * 3, 1 << 2 + 1, 5 & 6 | 1 ~ 3, ~5, 3 ~ 5, 1 << 63, 7 >> 1",
    "return 1 < 2, 1 <= 1, 2 > 3, 2 >= 2, 'a' < 'b', 1 == 1.0, 1 ~= 2, nil == false",
    "return nil and 1, false or 2, 1 and 2 or 3, nil or false, not 1, not not nil",
    "return #'abc', #{ 1, 2, 3 }, -(-3), - -3, not - 3, #{ n = 1 }",
    "local a <const>, b = 1, 2 return a + b",
    "local a, b, c = (function() return 1, 2, 3 end)() return a, b, c",
    "local a, b = ((function() return 1, 2 end)()) return a, b",
    "local t = { 1, 2; 3, a = 4, ['b c'] = 5, [10] = 6, } return t",
    "return { (function() return 1, 2 end)(), (function() return 1, 2 end)() }, {}, { {}, { {} } }",
    "return { [1] = 'a', 'b' }, { 'x', [2] = 'y', 'z' }, { n = { n = { n = 1 } } }",
    "local t = {} t.a, t['b'], t[1] = 1, 2, 3 return t",
    "local a = { b = { c = {} } } a.b.c.d = 1 a.b['c'].e = 2 return a",
    "local x = 0 for i = 1, 10, 3 do x = x + i end return x",
    "local x = '' for i = 3, 1, -1 do x = x .. i end return x",
    "local n = 0 for k, v in pairs { a = 1, b = 2 } do n = n + v end return n",
    "local n = 0 for i, v in ipairs { 5, 6 } do n = n + i * v end return n",
    "local n = 0 while true do n = n + 1 if n > 5 then break end end return n",
    "local n = 0 repeat local m = n n = n + 1 until m == 3 return n",
    "local x if 1 then x = 1 elseif 2 then x = 2 else x = 3 end return x",
    "local x = {} for i = 1, 3 do if i == 2 then goto continue end x[#x + 1] = i ::continue:: end return x",
    "do goto done end ::again:: ::done:: return 1",
    "local n = 0 ::top:: n = n + 1 if n < 4 then goto top end return n",
    "do local a = 1 do local a = 2 end return a end",
    "local function f(...) return select('#', ...), ... end return f(1, nil, 3)",
    "local function f(a, b, ...) local c, d = ... return a, b, c, d end return f(1, 2, 3, 4, 5)",
    "local function f(...) return { ... }, { n = ..., ... } end return f(1, 2)",
    "local function f(...) local t = { (...) } return #t, (...) end return f(7, 8)",
    "local t = {} function t.f(x) return x end function t:g(x) return self == t, x end return t.f(1), t:g(2)",
    "local t = { a = { b = {} } } function t.a.b.f() return 1 end function t.a.b:g() return self end return "
    "t.a.b.f(), t",
    "local f = function() return 1 end return (f)(), (f())",
    "local s = 'x' return s:upper(), ('y'):upper():rep(3), #s:rep(4), ('%d'):format(3)",
    "local function f(x) return function(y) return { x, y } end end return f 'a' 'b', f 'a' { 1 }, f { 1 } "
    "{ 2 }, f (1) (2)",
    "local function f(x) return x end return f { 1, f { 2 } }, f 'a', f [[b]], f(f(f(3)))",
    "local function f(t) return { go = function(self, x) return self, x, t end } end local _, x, t = f { 1 "
    "}:go { 2 } return x, t",
    "local t = { f = function(x) return { g = function(y) return x + y end } end } return t.f(1).g(2), "
    "t['f'](3)['g'](4)",
    "local o = { n = 0 } function o:add(x) self.n = self.n + x return self end return o:add(1):add(2):add(3).n + 1",
    "local fib fib = function(n) return n < 2 and n or fib(n - 1) + fib(n - 2) end return fib(15)",
    "local function fact(n) if n == 0 then return 1 end return n * fact(n - 1) end return fact(10)",
    "local fs = {} for i = 1, 3 do fs[i] = function() i = i + 1 return i end end return fs[1](), fs[1](), fs[2]()",
    "local a = 1 local function f() a = a + 1 return function() a = a * 2 return a end end return f()(), a",
    "x = 5 local y = x x = nil return y, x, _G.x, _ENV.x",
    "-- a comment\n--[[ long\ncomment ]] return --[==[ ]] ]==] 1 -- end",
    "#!/usr/bin/env gritwork\nreturn 1",
    "return 1\r\n,\r\n2\r\n",
    "local t = setmetatable({}, { __index = function(t, k) return k .. '!' end }) return t.a, t['b'], t.a.x",
    "local t = setmetatable({}, { __call = function(self, x) return x end }) return t(1), t 'x', t { 2 }",
    "return pcall(error, { code = 1 })",
    "return (select(2, pcall(function() local x; x.y = 1 end)) ~= nil)",
    "local a = {} a.x = { f = function() return a end } return a.x.f().x.f() == a",
    "local a a = { b = function(...) return ... end } ; (a.b)(1) ; a.b { } return a.b(1, 2, 3)",
    "local i, t = 1, {} i, t[i] = i + 1, 20 return i, t",
    "local a = 1; (function() a = 2 end)() return a",
    "local t = { f = function(s) return s end } ; t.f 'x' ; t.f 'a' return t.f [==[b]==]",
    "return '\xC3\xA9', \"\xE2\x82\xAC\" .. '\\xff'",
    "local and_, endx, _x, __, x1 = 1, 2, 3, 4, 5 return and_, endx, _x, __, x1",
    "return 1--[[]]..2, 3 ..--\n4",
    "goto a; ::a:: local x ::b:: ; ::c::",
    "if nil then elseif nil then else end while nil do end for i = 1, 0 do end repeat until true do end",
    "return function(a, b) end, function(...) end, function() end",
    "local function f() return end local function g() return; end return f(), g(), 1",
    "return not 1 == 2, not (1 == 2), -1 ^ 2, #'ab' + 1, 2 * -3, 2 - -3, 'a' .. 'b' == 'ab' and 1 or 2",
    "local t = { 10, 20, 30 } return t[#t], t[1] + t[2] * t[3], (t)[1], ({ 5, 6 })[2], ({ a = 1 }).a, #t .. ''",
  };
  for (size_t i = 0; i < COUNT_OF(texts); i++) {
    char plain[2000], rewritten[2000];
    Reading r = reading_of(texts[i], strlen(texts[i]));
    bool shebang = texts[i][0] == '#';
    const char *text = shebang ? strchr(texts[i], '\n') : texts[i]; /* which lua_load leaves to the host */
    if (!lua_takes(text, strlen(text))) fail_msg("Lua refuses: %s", text);
    Buf complaints = reading_complaints(&r);
    if (!tree_sound(r.tree)) fail_msg("%s\nrefused: %s", texts[i], buf_text(&complaints));
    run(text, strlen(text), false, plain, sizeof plain);
    run(r.rewritten.text, r.rewritten.length, true, rewritten, sizeof rewritten);
    assert_string_equal(rewritten, plain);
    buf_free(&complaints);
    reading_free(&r);
  }
}

static void what_lua_refuses_the_reader_refuses(void **state)
{
  (void)state;
  static const char *const texts[] = {
    "x", "x =", "= 1", "x = = 1", "x y", "local", "local 1", "local x y z", "x.1", "x. = 1", "x..y", "f(",
    "f)", "f(,)",
    "f(a,)", "f(a b)", "x = {", "x = }", "x = { 1 2 }", "x = { a b }", "x = { = 1 }", "x = { [1] }",
    "x = { [1 = 2 }",
    "x = { a = }", "x = { , }", "x = { 1,, 2 }", "if", "if x", "if x then", "if x then else else end",
    "if then end",
    "elseif", "end", "while", "while x", "while do end", "for", "for i", "for i =", "for i = 1 do end",
    "for i = 1, 2",
    "for i = 1, 2, 3, 4 do end", "for 1 = 1, 2 do end", "for a.b = 1, 2 do end", "for i in do end", "repeat",
    "repeat until", "function", "function f", "function f(", "function f(1) end", "function f(a,) end",
    "function f(..., a) end", "function f() ", "function () end", "function a[1]() end", "function a:b:c() end",
    "function a:b.c() end", "local function a.b() end", "local function () end", "return return", "return 1,",
    "return 1 x = 2", "break", "goto", "goto 1", "goto nope", "::a", "::a:: ::a::", "::1::",
    "do goto a; local x ::a:: f() end",
    "x = 1 +", "x = + 1", "x = not", "x = 1 + * 2", "x = (1", "x = 1)", "x = ()", "x = (1, 2)", "x = a[1",
    "x = a[]",
    "x = a.", "x = a:b", "x = a:b.c()", "x = 'a", "x = \"a\nb\"", "x = [[a", "x = [=a]=]", "--[[ a", "x = 'a\\q'",
    "x = '\\256'", "x = '\\xg'", "x = '\\u{110000000}'", "x = '\\u{'", "x = '\\u41'", "x = 0x", "x = 1e",
    "x = 1..2",
    "x = 3x", "x = 0xp1", "x = 1.2.3", "x = 08 09", "f() = 1", "(a) = 1", "(a), b = 1, 2", "a, f() = 1",
    "a, b", "a + b",
    "'x'", "{ }", "1", "x = 1 ~= ", "x != 1", "x = !y", "x = a && b", "x = a ? b : c", "x = $1", "x = @y",
    "x = `y`",
    "local x <const> = 1 x = 2", "local x <const> = 1 function f() x = 2 end", "local x <foo> = 1",
    "local x <const = 1",
    "function f() return ... end", "x = \\y", "x += 1", "x++", "x = y z", "local x = y local", "and",
    "x = and", "then",
    "x = function", "x = function(", "x = function()", "f{", "f{}}", "f'", "x = 'a' 'b'", "x = {}{}", "x = nil.y",
    "x = 1:f()", "x = {}.y", "x = 'a'.b", "x = ...y", "x = #", "x = -", "x = ~", "x = 1 // ", "x = 1 << ",
    "x = a.b.",
    "local a.b = 1", "local x <const>, y <const> = 1, 2 y = 3", "for i = 1, 2 do local i <const> = 1 i = 2 end",
    "while true do local function f() break end end", "\xE2\x80\x9C" "a", "x = \x01", "x = 'a\0b", "<<<<<<< x",
  };
  for (size_t i = 0; i < COUNT_OF(texts); i++) {
    if (lua_takes(texts[i], strlen(texts[i]))) fail_msg("Lua takes it: %s", texts[i]);
    Reading r = reading_of(texts[i], strlen(texts[i]));
    if (tree_sound(r.tree)) fail_msg("the reader takes it: %s", texts[i]);
    assert_true(diags_errors(r.diags) > 0);
    reading_free(&r);
  }
}

/* Half-typed text is what an editor shows most of the time. */
static void every_beginning_of_a_text_is_read(void **state)
{
  (void)state;
  static const char text[] =
      "local a <const>, b = 1, { [2] = 'x', y = \"\\u{41}\", 3; f { } }\n"
      "function a.b:c(x, ...) if x then return -x ^ 2, ... elseif not y then goto l else break end ::l:: end\n"
      "for i = 1, 2 do while x do repeat local z = [[\n]] .. 0x1p4 until z == 1 end end -- end\n"
      "return recipe \"cream\" { hone \"a\" { grit = 100, want = at_least(3) }, f(1)(2):m 'x'.y[3] }\n";
  for (size_t length = 0; length < sizeof text; length++) {
    char cut[sizeof text];
    snprintf(cut, sizeof cut, "%.*s", (int)length, text);
    Reading r = reading_of(cut, length);
    if (tree_sound(r.tree) && !lua_takes(r.rewritten.text, r.rewritten.length)) fail_msg("Lua refuses: %s", cut);
    if (diags_count(r.diags) > 3) fail_msg("%zu errors for one cause: %s", diags_count(r.diags), cut);
    reading_free(&r);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(sound_texts_give_the_same_values),
    cmocka_unit_test(what_lua_refuses_the_reader_refuses),
    cmocka_unit_test(every_beginning_of_a_text_is_read),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
