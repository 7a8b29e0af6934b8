/* test_lib_string.c - texts: what each function gives, and the sizes it refuses. */
#include "unit/lang/scripted.h"

static void parts_of_texts(void **state)
{
  (void)state;
  static const Scripted cases[] = {
    { "return ('polish'):sub(2, 4) .. ('polish'):sub(-3) .. ('polish'):sub(0, 1) .. ('polish'):sub(5, 99)",
      "= oliishpsh" },
    { "return ('abc'):sub(3, 2) .. '|' .. ('abc'):sub(4) .. '|' .. ('abc'):sub(-9, -9)", "= ||" },
    { "return ('abc'):sub(math.mininteger, math.maxinteger)", "= abc" },
    { "return #'abc' .. ('abc'):len() .. ('aBc1'):upper() .. ('aBc1'):lower() .. ('abc'):reverse()",
      "= 33ABC1abc1cba" },
    { "return ('abc'):byte() .. ' ' .. table.concat({ ('abc'):byte(1, -1) }, ' ')", "= 97 97 98 99" },
    { "return select('#', ('abc'):byte(10))", "= 0" },
    { "return string.char(72, 105) .. string.char()", "= Hi" },
    { "return string.char(256)", "! bad argument #1 to 'char' (value out of range)" },
    { "return ('ab'):rep(3) .. ('ab'):rep(2, '-') .. ('ab'):rep(0) .. ('ab'):rep(-5) .. ('ab'):rep(1, 'x')",
      "= abababab-abab" },
    { "return (''):rep(math.maxinteger)", "= " },
    { "return #('x'):rep(1048576)", "= 1048576" },
    { "return ('x'):rep(1048577)", "! a text may have at most 1048576 bytes" },
    { "return ('xx'):rep(math.maxinteger)", "! a text may have at most 1048576 bytes" },
    { "return (''):rep(math.maxinteger, 'xx')", "! a text may have at most 1048576 bytes" },
    { "return ('x'):rep(1000, ('y'):rep(2000))", "! a text may have at most 1048576 bytes" },
    { "return ('x'):rep(5000):byte(1, -1)", "! bad argument #2 to 'byte' (too many results)" },
  };
  CHECK(cases);
}

static void patterns_find_and_replace(void **state)
{
  (void)state;
  static const Scripted cases[] = {
    { "return table.concat({ ('hone 200'):find('(%d)(%d)') }, ' ')", "= 6 7 2 0" },
    { "return table.concat({ ('a.b'):find('.', 1, true) }, ' ') .. ' ' .. ('a.b'):find('.', 2)", "= 2 2 2" },
    { "return tostring(('abc'):find('b', -1)) .. ('abc'):find('b', -2) .. tostring(('abc'):find('', 10))",
      "= nil2nil" },
    { "return ('abc'):find('', 4) .. ' ' .. select(2, ('abc'):find('', 4))", "= 4 3" },
    { "return ('grit = 100'):match('(%w+)%s*=%s*(%w+)') .. ('x'):match('()')", "= grit1" },
    { "local out = {} for k, v in ('a=1, b=2'):gmatch('(%w)=(%w)') do out[#out + 1] = v .. k end "
      "return table.concat(out)",
      "= 1a2b" },
    { "local n = 0 for _ in ('abc'):gmatch('') do n = n + 1 end return n", "= 4" },
    { "local out = '' for w in ('^a^b'):gmatch('^%a') do out = out .. w end return out", "= ^a^b" },
    { "return (('hello world'):gsub('o', '0'))", "= hell0 w0rld" },
    { "return select(2, ('hello world'):gsub('o', '0', 1))", "= 1" },
    { "return (('abc'):gsub('%w', '%0%0'))", "= aabbcc" },
    { "return (('abc'):gsub('', '-'))", "= -a-b-c-" },
    { "return (('a b'):gsub('(%w) (%w)', '%2 %1 %%'))", "= b a %" },
    { "return (('$x $y'):gsub('%$(%w)', { x = 'slab', y = false }))", "= slab $y" },
    { "return (('1 2'):gsub('%d', function(n) return n + 0 end))",
      "! attempt to perform arithmetic on a string value (local 'n')" },
    { "return (('1 2'):gsub('%d', function(n) return tonumber(n) * 2 end))", "= 2 4" },
    { "return (('aaa'):gsub('^a', 'b'))", "= baa" },
    { "return (('a1'):gsub('()', '%1'))", "= 1a213" },
    { "return ('x'):gsub('x', '%2')", "! invalid capture index %2 in replacement string" },
    { "return ('x'):gsub('x', '%a')", "! invalid use of '%' in replacement string" },
    { "return ('x'):gsub('x', function() return {} end)", "! invalid replacement value (a table)" },
    { "return ('x'):gsub('x', nil)", "! bad argument #2 to 'gsub' (string/function/table expected, got nil)" },
    { "return ('x'):find('[x')", "! malformed pattern (missing ']')" },
    { "return ('x'):find(('a'):rep(5000) .. '.')", "! pattern too long" },
    { "return ('x'):rep(100000):gsub('x', ('y'):rep(100))", "! a text may have at most 1048576 bytes" },
    { "return ('a'):rep(40):find(('a?'):rep(40) .. ('a'):rep(40))", "! the script needs more than 5 million steps" },
  };
  CHECK(cases);
}

static void format_lays_out(void **state)
{
  (void)state;
  static const Scripted cases[] = {
    { "return ('%d|%5d|%-5d|%05d|%+d|% d|%.3d'):format(42, 42, 42, 42, 42, 42, 42)",
      "= 42|   42|42   |00042|+42| 42|042" },
    { "return ('%d'):format(-0x8000000000000000) .. ('%x %X %o'):format(255, 255, 8)",
      "= -9223372036854775808ff FF 10" },
    { "return ('%d'):format(3.0)", "= 3" },
    { "return ('%d'):format(3.5)", "! bad argument #1 to 'format' (number has no integer representation)" },
    { "return ('%f|%.2f|%8.3f|%-8.1f|%08.2f|%+.1f'):format(1.5, 1.005, 3.14159, 2.25, -1.5, 2)",
      "= 1.500000|1.00|   3.142|2.2     |-0001.50|+2.0" },
    { "return ('%g %g %g %e %G'):format(100000, 1e20, 0.1, 12345.678, 1e-10)",
      "= 100000 1e+20 0.1 1.234568e+04 1E-10" },
    { "return ('%f %5.1f'):format(0/0, 1/0)", "= nan   inf" },
    { "return ('%.99f'):format(1e308) ~= nil and #('%.99f'):format(1e308)", "= 409" },
    { "return ('%s|%10s|%-10s|%.2s'):format('wet', 'wet', 'wet', 'wet')", "= wet|       wet|wet       |we" },
    { "return ('%s %s %s %s'):format(nil, true, {}, 1.0)", "= nil true table 1.0" },
    { "return ('%s'):format(setmetatable({}, { __tostring = function() return 'slab' end }))", "= slab" },
    { "return ('%c%c%%'):format(72, 105)", "= Hi%" },
    { "return ('%q'):format('a\"b\\\\\\n\\0001\\r') .. ('%q'):format(5)", "= \"a\\\"b\\\\\\\n\\0001\\13\"5" },
    { "return ('%p'):format({})", "! format: no such item as '%p'" },
    { "return ('%'):format(1)", "! format: no such item as '% '" },
    { "return ('%100d'):format(1, 2)", "! format: no such item as '%0'" },
    { "return ('%d'):format()", "! bad argument #1 to 'format' (no value)" },
    { "return ('%s'):format()", "! bad argument #1 to 'format' (no value)" },
    { "return ('%s%s'):format(('x'):rep(1000000), ('x'):rep(1000000))", "! a text may have at most 1048576 bytes" },
  };
  CHECK(cases);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(parts_of_texts),
    cmocka_unit_test(patterns_find_and_replace),
    cmocka_unit_test(format_lays_out),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
