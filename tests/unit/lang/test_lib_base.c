/* test_lib_base.c - values, errors, metatables and the order of pairs. */
#include "unit/lang/scripted.h"

#include <stdio.h>

static void values_become_text_without_addresses(void **state)
{
  (void)state;
  static const Scripted cases[] = {
    { "return tostring(nil) .. tostring(true) .. tostring(12) .. tostring(1.5) .. tostring(2.0) .. tostring('x')",
      "= niltrue121.52.0x" },
    { "return tostring({}) .. tostring(tostring) .. tostring(function() end)", "= tablefunctionfunction" },
    { "return tostring(0/0) .. tostring(-(0/0))", "= nannan" },
    { "return tostring(setmetatable({}, { __tostring = function() return 'slab' end }))", "= slab" },
    { "return tostring(setmetatable({}, { __tostring = function() return {} end }))",
      "! '__tostring' must return a string" },
    { "return tostring(setmetatable({}, { __name = 'mine' }))", "= table" },
    { "return tostring()", "! bad argument #1 to 'tostring' (value expected)" },
    { "return type(nil) .. type(1) .. type('') .. type({}) .. type(type)", "= nilnumberstringtablefunction" },
    { "return type()", "! bad argument #1 to 'type' (value expected)" },
  };
  CHECK(cases);
}

static void texts_become_numbers(void **state)
{
  (void)state;
  static const Scripted cases[] = {
    { "return tonumber('12') + tonumber(' 0x10 ') + tonumber('1e2') + tonumber(5)", "= 133.0" },
    { "return tostring(tonumber('12 in')) .. tostring(tonumber('')) .. tostring(tonumber({}))", "= nilnilnil" },
    { "return tostring(tonumber('inf')) .. tostring(tonumber('nan')) .. tostring(tonumber('1\\0'))",
      "= nilnilnil" },
    { "return tonumber('ff', 16) .. ' ' .. tonumber('-101', 2) .. ' ' .. tonumber(' z ', 36)", "= 255 -5 35" },
    { "return tostring(tonumber('12', 2)) .. tostring(tonumber('', 10)) .. tostring(tonumber('1 2', 10))",
      "= nilnilnil" },
    { "return tonumber('7', 1)", "! bad argument #2 to 'tonumber' (base out of range)" },
    { "return tonumber(7, 10)", "! bad argument #1 to 'tonumber' (string expected, got number)" },
  };
  CHECK(cases);
}

static void select_counts_and_cuts(void **state)
{
  (void)state;
  static const Scripted cases[] = {
    { "return select('#') .. select('#', nil, nil)", "= 02" },
    { "return (select(2, 'a', 'b', 'c'))", "= b" },
    { "return (select(-1, 'a', 'b', 'c'))", "= c" },
    { "return tostring((select(4, 'a')))", "= nil" },
    { "return select(0, 'a')", "! bad argument #1 to 'select' (index out of range)" },
    { "return select(-2, 'a')", "! bad argument #1 to 'select' (index out of range)" },
  };
  CHECK(cases);
}

static void errors_are_caught_and_carry_values(void **state)
{
  (void)state;
  static const Scripted cases[] = {
    { "local ok, a, b = pcall(function(x) return x, 2 end, 1) return tostring(ok) .. a .. b", "= true12" },
    { "local ok, why = pcall(error, 'dull') return tostring(ok) .. why", "= falsedull" },
    { "local mark = {} local _, why = pcall(error, mark) return tostring(why == mark)", "= true" },
    { "return select('#', assert(1, 2, 3))", "= 3" },
    { "local ok, why = pcall(assert, nil, { 5 }) return why[1]", "= 5" },
    { "assert()", "! bad argument #1 to 'assert' (value expected)" },
    { "pcall()", "! bad argument #1 to 'pcall' (value expected)" },
    { "local ok, why = pcall(function() local t = nil; t.x = 1 end) return why",
      "= attempt to index a nil value (local 't')" },
    { "local ok, why = pcall(string.rep) return why", "= bad argument #1 to '?' (string expected, got no value)" },
  };
  CHECK(cases);
}

static void pairs_goes_in_order(void **state)
{
  (void)state;
  static const char walk[] = "local function walk(t) local out = {} for k, v in pairs(t) do "
                             "out[#out + 1] = tostring(k) .. '=' .. tostring(v) end "
                             "return table.concat(out, ' ') end ";
  static const struct {
    const char *table, *want;
  } cases[] = {
    { "{ 'a', 'b', c = 1, B = 2, aa = 3, [10] = 4, [-1] = 5, [0] = 6, [1.5] = 7, [true] = 8, [false] = 9 }",
      "1=a 2=b -1=5 0=6 1.5=7 10=4 B=2 aa=3 c=1 false=9 true=8" },
    { "{}", "" },
    { "{ nil, 'b' }", "2=b" },
    { "{ [3] = 'c', [2] = 'b', [1] = 'a' }", "1=a 2=b 3=c" },
    { "{ ['a\\0b'] = 1, ['a'] = 2, [''] = 3 }", "=3 a=2 a\1b=1" },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    char script[512], want[128];
    snprintf(script, sizeof script, "%sreturn (walk(%s):gsub('\\0', '\\1'))", walk, cases[i].table);
    snprintf(want, sizeof want, "= %s", cases[i].want);
    check_scripted(&(Scripted){ script, want }, 1);
  }
  static const Scripted others[] = {
    { "for k in pairs({ [{}] = 1 }) do end",
      "! pairs: a table is a key of the table, and such keys have no order" },
    { "for k in pairs({ [print_ or tostring] = 1 }) do end",
      "! `print_` is not a word of the language, nor a local" },
    { "for k in pairs(5) do end", "! bad argument #1 to 'pairs' (table expected, got number)" },
    { "local t = { a = 1, b = 2, c = 3 } local n = 0 "
      "for k in pairs(t) do t.b = nil t.c = nil t.d = 4 n = n + 1 end return n",
      "= 1" },
    { "local t = setmetatable({}, { __pairs = function() "
      "return function(_, k) if not k then return 1, 'one' end end end }) "
      "for k, v in pairs(t) do return v end", "= one" },
    { "local s = '' for i, v in ipairs({ 'a', 'b', nil, 'd' }) do s = s .. i .. v end return s", "= 1a2b" },
    { "local t = setmetatable({}, { __index = function(_, i) if i < 4 then return i * 10 end end }) "
      "local s = 0 for _, v in ipairs(t) do s = s + v end return s", "= 60" },
  };
  CHECK(others);
}

static void metatables_are_checked_and_copied(void **state)
{
  (void)state;
  static const Scripted cases[] = {
    { "local C = {} C.__index = C function C.name() return 'c' end return setmetatable({}, C).name()", "= c" },
    { "local m = {} return tostring(getmetatable(setmetatable({}, m)) == m)", "= true" },
    { "local t = setmetatable({}, { __add = function(a, b) return 'sum' end }) return t + 1", "= sum" },
    { "return tostring(getmetatable(setmetatable({}, nil)))", "= nil" },
    { "setmetatable({}, { __gc = true })", "! setmetatable: `__gc` is not available" },
    { "setmetatable({}, { __mode = 'k' })", "! setmetatable: `__mode` is not available" },
    { "setmetatable({}, { __close = function() end })", "! setmetatable: `__close` is not available" },
    { "local t = {} setmetatable(t, { __call = t })", "! setmetatable: `__call` must be a function, not a table" },
    /* what is slipped in later does not count */
    { "local m = {} local t = setmetatable({}, m) m.__call = t return tostring(pcall(t))", "= false" },
    { "local m = {} local t = setmetatable({}, m) m.__index = function() return 5 end return tostring(t.x)",
      "= nil" },
    { "local m = {} local t = setmetatable({}, m) m.__index = function() return 5 end setmetatable(t, m) return "
      "t.x",
      "= 5" },
    { "local t = setmetatable({}, { __metatable = 'closed' }) return getmetatable(t)", "= closed" },
    { "local t = setmetatable({}, { __metatable = 'closed' }) setmetatable(t, {})",
      "! setmetatable: this table's metatable cannot be changed" },
    { "setmetatable(string, {})", "! setmetatable: this table's metatable cannot be changed" },
    { "setmetatable(_ENV, {})", "! setmetatable: this table's metatable cannot be changed" },
    { "return tostring(getmetatable('')) .. tostring(getmetatable(string)) .. tostring(getmetatable(_ENV))",
      "= falsefalsefalse" },
    { "setmetatable(5, {})", "! bad argument #1 to 'setmetatable' (table expected, got number)" },
    { "setmetatable({}, 5)", "! bad argument #2 to 'setmetatable' (a table or nil expected)" },
  };
  CHECK(cases);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(values_become_text_without_addresses),
    cmocka_unit_test(texts_become_numbers),
    cmocka_unit_test(select_counts_and_cuts),
    cmocka_unit_test(errors_are_caught_and_carry_values),
    cmocka_unit_test(pairs_goes_in_order),
    cmocka_unit_test(metatables_are_checked_and_copied),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
