/* test_lib_math.c - numbers and code points. */
#include "unit/lang/scripted.h"

static void numbers(void **state)
{
  (void)state;
  static const Scripted cases[] = {
    { "return math.floor(2.7) .. math.floor(-2.5) .. math.ceil(2.1) .. math.ceil(-2.9) .. math.floor(7)",
      "= 2-33-27" },
    { "return tostring(math.floor(1e300)) .. ' ' .. math.type(math.floor(2.5))", "= 1e+300 integer" },
    { "return math.abs(-3) .. math.abs(-2.5) .. ' ' .. math.abs(math.mininteger)", "= 32.5 -9223372036854775808" },
    { "return math.max(1, 5, 3) .. math.min(4, 2.5) .. math.max(2)", "= 52.52" },
    { "return math.max()", "! bad argument #1 to 'max' (number expected)" },
    { "return math.max(1, 'x')", "! bad argument #2 to 'max' (number expected, got string)" },
    { "return math.sqrt(16) .. ' ' .. math.log(8, 2) .. ' ' .. math.log(100, 10) .. ' ' .. math.exp(0)",
      "= 4.0 3.0 2.0 1.0" },
    { "return ('%.10f'):format(math.log(27, 3)) .. ' ' .. math.log(1)", "= 3.0000000000 0.0" },
    { "return math.fmod(7, 3) .. math.fmod(-7, 3) .. ' ' .. math.fmod(7.5, 2) .. ' ' .. "
      "math.fmod(math.mininteger, -1)",
      "= 1-1 1.5 0" },
    { "return math.fmod(1, 0)", "! bad argument #2 to 'fmod' (zero)" },
    { "local a, b = math.modf(-3.25) return a .. ' ' .. b", "= -3.0 -0.25" },
    { "return tostring(math.tointeger(3.0)) .. tostring(math.tointeger(3.5)) .. tostring(math.tointeger('3'))",
      "= 3nilnil" },
    { "return math.type(1) .. math.type(1.0) .. tostring(math.type('1'))", "= integerfloatnil" },
    { "return ('%.8f'):format(math.pi) .. tostring(math.huge) .. tostring(math.random)", "= 3.14159265nilnil" },
    { "return math.maxinteger + 1 == math.mininteger and 'wraps'", "= wraps" },
    { "return 1 // 0", "! attempt to divide by zero" },
  };
  CHECK(cases);
}

static void code_points(void **state)
{
  (void)state;
  static const Scripted cases[] = {
    { "return utf8.len('m\xC2\xB2') .. utf8.len('') .. ' ' .. utf8.char(0x24, 0xA2, 0x20AC, 0x10348)",
      "= 20 $\xC2\xA2\xE2\x82\xAC\xF0\x90\x8D\x88" },
    { "local n, at = utf8.len('a\\xffb') return tostring(n) .. at", "= nil2" },
    { "return utf8.codepoint('\xE2\x82\xAC') .. ' ' .. utf8.codepoint('a\xC2\xB2', 2)", "= 8364 178" },
    { "return utf8.codepoint('a', 2)", "! bad argument #2 to 'codepoint' (position out of bounds)" },
    { "return utf8.codepoint('\\x80')", "! invalid UTF-8" },
    { "local out = {} for at, code in utf8.codes('a\xC2\xB2' .. 'b') do out[#out + 1] = at .. ':' .. code end "
      "return table.concat(out, ' ')",
      "= 1:97 2:178 4:98" },
    { "for _ in utf8.codes('ab\\xc0') do end", "! invalid UTF-8 at byte 3" },
    { "return utf8.char(0xD800)", "! bad argument #1 to 'char' (not a code point)" },
    { "return utf8.char(0x110000)", "! bad argument #1 to 'char' (not a code point)" },
  };
  CHECK(cases);
}

int main(void)
{
  const struct CMUnitTest tests[] = { cmocka_unit_test(numbers), cmocka_unit_test(code_points) };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
