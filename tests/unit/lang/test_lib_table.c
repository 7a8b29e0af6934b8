/* test_lib_table.c - lists: raw, capped, and sorted whatever the order function says. */
#include "unit/lang/scripted.h"

static void lists_grow_and_shrink(void **state)
{
  (void)state;
  static const Scripted cases[] = {
    { "local t = { 1, 3 } table.insert(t, 4) table.insert(t, 2, 2) table.insert(t, 1, 0) return table.concat(t, "
      "' ')",
      "= 0 1 2 3 4" },
    { "local t = { 1, 2, 3 } local a, b = table.remove(t, 1), table.remove(t) return a .. b .. #t", "= 131" },
    { "return tostring(table.remove({})) .. tostring(table.remove({}, 0)) .. tostring(table.remove({ 5 }, 2))",
      "= nilnilnil" },
    { "table.insert({ 1 }, 3, 'x')", "! bad argument #2 to 'insert' (position out of bounds)" },
    { "table.insert({ 1 }, math.mininteger, 'x')", "! bad argument #2 to 'insert' (position out of bounds)" },
    { "table.insert({}, 1, 2, 3)", "! wrong number of arguments to 'insert'" },
    { "table.insert({})", "! wrong number of arguments to 'insert'" },
    { "table.remove({ 1 }, 5)", "! bad argument #2 to 'remove' (position out of bounds)" },
    { "table.insert('x', 1)", "! bad argument #1 to 'insert' (table expected, got string)" },
    { "table.insert(string, 1)",
      "! bad argument #1 to 'insert' (this table belongs to the language and cannot be changed)" },
    /* a length that lies is not asked */
    { "local t = setmetatable({ 1 }, { __len = function() return math.maxinteger end }) table.insert(t, 2) "
      "return t[2]",
      "= 2" },
    { "local t = setmetatable({ 'a' }, { __len = function() return 1e9 end }) return table.concat(t)", "= a" },
    { "local t = setmetatable({}, { __index = function() return 1 end }) "
      "return select('#', table.unpack(t, 1, 3)) .. tostring(table.unpack(t, 1, 3))", "= 3nil" },
  };
  CHECK(cases);
}

static void lists_become_texts_and_values(void **state)
{
  (void)state;
  static const Scripted cases[] = {
    { "return table.concat({ 1, 2.5, 'x' }, ', ') .. table.concat({}) .. table.concat({ 'a', 'b', 'c' }, '-', 2, "
      "3)",
      "= 1, 2.5, xb-c" },
    { "return table.concat({ 'a', {} })", "! item 2 of the list is a table, which has no text" },
    { "return table.concat({}, 'x', 1, 2)", "! item 1 of the list is a nil, which has no text" },
    { "return table.concat({}, '', 1, math.maxinteger)", "! too many items: at most 1048576" },
    { "return table.concat({}, '', math.mininteger, math.maxinteger)", "! too many items: at most 1048576" },
    { "local t = {} for i = 1, 20 do t[i] = ('x'):rep(100000) end return table.concat(t)",
      "! a text may have at most 1048576 bytes" },
    { "local p = table.pack(1, nil, 3) return p.n .. tostring(p[2]) .. p[3]", "= 3nil3" },
    { "return select('#', table.unpack({ 1, 2, 3 })) .. select('#', table.unpack({}, 1, 4096))", "= 34096" },
    { "return table.unpack({}, 1, 4097)", "! too many items: at most 4096" },
    { "return table.unpack({}, 1, 1e8)", "! too many items: at most 4096" },
    { "return select('#', table.unpack({}, 2, 1))", "= 0" },
  };
  CHECK(cases);
}

static void sort_cannot_be_led_astray(void **state)
{
  (void)state;
  static const Scripted cases[] = {
    { "local t = { 5, 2, 8, 1, 9, 3, 7 } table.sort(t) return table.concat(t, ' ')", "= 1 2 3 5 7 8 9" },
    { "local t = { 'b', 'a', 'B' } table.sort(t) return table.concat(t)", "= Bab" },
    { "local t = { 1, 2, 3 } table.sort(t, function(a, b) return a > b end) return table.concat(t)", "= 321" },
    { "local t = {} for i = 1, 100 do t[i] = { i % 3, i } end table.sort(t, function(a, b) return a[1] < b[1] end) "
      "for i = 2, 100 do if t[i][1] == t[i - 1][1] and t[i][2] < t[i - 1][2] then return 'unstable' end end "
      "return 'stable'",
      "= stable" },
    { "local t = {} for i = 1, 200 do t[i] = i end table.sort(t, function() return true end) return #t", "= 200" },
    { "local t, n = {}, 0 for i = 1, 200 do t[i] = i end table.sort(t, function() n = n + 7 return n % 3 == 0 end) "
      "local seen = {} for _, v in ipairs(t) do seen[v] = true end return #seen", "= 200" },
    { "local t = { 3, 1, 2 } table.sort(t, function(a, b) t[1] = nil t[9] = 9 return (a or 0) < (b or 0) end) "
      "return 'done'",
      "= done" },
    { "table.sort({ 1, 'x' })", "! attempt to compare string with number" },
    { "table.sort({ 3, 2, 1 }, function() error('no order') end)", "! no order" },
    { "table.sort({ 1 }, 5)", "! bad argument #2 to 'sort' (function expected, got number)" },
    { "table.sort(string)",
      "! bad argument #1 to 'sort' (this table belongs to the language and cannot be changed)" },
  };
  CHECK(cases);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(lists_grow_and_shrink),
    cmocka_unit_test(lists_become_texts_and_values),
    cmocka_unit_test(sort_cannot_be_led_astray),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
