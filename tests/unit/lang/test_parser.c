/* test_parser.c - mistakes of the grammar: one cause gives one error, with its place; and what the tree knows. */
#include "support.h"

#include "unit/lang/reading.h"

static void mistakes_in_a_table_are_named_and_mended(void **state)
{
  (void)state;
  static const struct { const char *text, *want; } cases[] = {
    { "x = { grit = 100 bond = \"resin\" }", "1:17+0 a comma is missing between two fields" },
    { "x = {\n  grit = 100\n  bond = \"resin\"\n  wet = true\n}",
      "2:13+0 a comma is missing between two fields\n3:17+0 a comma is missing between two fields" },
    { "return recipe \"x\" {\n"
      "  hone \"a\" { grit = 1 }\n"
      "  hone \"b\" { grit = 2 },\n"
      "  hone \"c\" { grit = 3 }\n"
      "}",
      "2:24+0 a comma is missing between two fields" },
    { "x = { \"a\" \"b\" }", "1:10+0 a comma is missing between two fields" },
    { "x = { {1} {2} }", "1:10+0 a comma is missing between two fields" },
    { "x = { 1 [2] = 3 }", "1:8+0 a comma is missing between two fields" },
    { "x = { f() function() end }", "1:10+0 a comma is missing between two fields" },
    { "x = { grit 100, wet true }",
      "1:11+0 `=` is missing behind `grit`\n1:20+0 `=` is missing behind `wet`" },
    { "x = { grit: 100, bond: resin, name: \"x\" }",
      "1:11+1 a field gets its value by `=`, not by `:`\n"
      "1:22+1 a field gets its value by `=`, not by `:`\n"
      "1:35+1 a field gets its value by `=`, not by `:`" },
    { "x = { grit == 100 }", "1:12+2 a field gets its value by `=`, not by `==`" },
    { "local grit = 1 x = { grit == 100 }", "" },
    { "x = { o:m \"x\", o:m(), o:m {} }", "" },
    { "x = { \"grit\" = 3, \"two words\": 4, [\"ok\"] = 5 }",
      "1:7+8 a field's name is written without quotes, and followed by `=`\n"
      "1:19+12 a field's name is written without quotes, and followed by `=`" },
    { "x = { end = 3, then = 4 if = 5 }",
      "1:7+3 `end` is a word of Lua and cannot name a field as it is\n"
      "1:16+4 `then` is a word of Lua and cannot name a field as it is\n"
      "1:24+0 a comma is missing between two fields" },
    { "x = { a = t.end, b = t.if.c }",
      "1:12+4 `end` is a word of Lua and cannot be a name\n1:23+3 `if` is a word of Lua and cannot be a name" },
    { "x = { a = 1, b = 2, a = 3 }", "1:21+1 `a` is given twice" },
    { "x = { a = 1, ['a'] = 2, a = 3 b = 4, [1] = 1, [1] = 2 }",
      "1:15+3 `'a'` is given twice\n"
      "1:25+1 `a` is given twice\n"
      "1:30+0 a comma is missing between two fields" },
    { "x = { grit = }", "1:14+1 a value is expected here, not `}`" },
    { "x = { grit = , bond = 3 }", "1:14+1 a value is expected here, not `,`" },
    { "x = { = 3 }", "1:7+1 a value is expected here, not `=`" },
    { "x = { 1, , 2 ;; 3 }",
      "1:10+1 no value stands before this `,`\n1:15+1 no value stands before this `;`" },
    { "x = { , }", "1:7+1 no value stands before this `,`" },
    { "x = { a.b = 3, [1] 4, 5 }",
      "1:11+1 a field's name is one word, or any value in brackets: `,` is expected here, not `=`\n"
      "1:20+1 `=` is expected behind the key in brackets, not `4`" },
    { "x = { a = 3 = 4, b = 5 }",
      "1:13+1 a field's name is one word, or any value in brackets: `,` is expected here, not `=`" },
    { "x = { overlap = 1 1/2 in, rate = 400 sqft/gal, age = 28 d }",
      "1:17+8 a value with a unit stands here without quotes\n"
      "1:34+12 a value with a unit stands here without quotes\n"
      "1:54+4 a value with a unit stands here without quotes" },
    { "f(3 in, 4 ft 6 in)",
      "1:3+4 a value with a unit stands here without quotes\n"
      "1:9+9 a value with a unit stands here without quotes" },
    { "x = { humidity = 80 %, 3 }", "1:18+4 a percentage stands here without quotes" },
    { "x = { 80 %, between(3 %, 4 %) }",
      "1:7+4 a percentage stands here without quotes\n"
      "1:21+3 a percentage stands here without quotes\n"
      "1:26+3 a percentage stands here without quotes" },
    { "x = { a = 1 + , b = 2 }", "1:15+1 a value is expected here, not `,`" },
    { "x = { a = ) , b = 2 }", "1:11+1 a value is expected here, not `)`" },
    { "f { a = 1 ) }", "1:11+1 this `)` closes nothing" },
    { "f { a = 1 )))) , b = 2 }", "1:11+1 this `)` closes nothing" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_complaints(cases[i].text, strlen(cases[i].text), cases[i].want);
}

static void what_is_not_closed_is_blamed_where_it_was_missed(void **state)
{
  (void)state;
  static const struct { const char *text, *want; } cases[] = {
    { "return {\n  a = 1", "2:8+0 `}` is missing: this `{` is not closed" },
    { "return recipe \"x\" {\n  hone \"a\" { grit = 1 },\n  hone \"b\" { grit = 2\n  hone \"c\" { grit = 3 },\n}",
      "3:22+0 `}` is missing: this `{` is not closed" },
    { "return recipe \"x\" {\n"
      "  hone \"a\" { grit = 1 },\n"
      "  hone \"b\" { grit = 2,\n"
      "  hone \"c\" { grit = 3 },\n"
      "}",
      "3:23+0 `}` is missing: this `{` is not closed" },
    { "return recipe \"x\" {\n"
      "  hone \"a\" { dwell = between(\"5 min\", \"6 min\" },\n"
      "  hone \"b\" { dwell = between(\"5 min\", \"6 min\",\n"
      "             keep = \"wet\" },\n"
      "}",
      "2:46+0 `)` is missing: this `(` is not closed\n3:46+0 `)` is missing: this `(` is not closed" },
    { "x = { a = 1\nlocal y = 2\nz = 3", "1:12+0 `}` is missing: this `{` is not closed" },
    { "x = {{1,2},{3,4}", "1:17+0 `}` is missing: this `{` is not closed" },
    { "x = { a = 1 )", "1:13+1 `)` does not close a `{`" },
    { "f({1, 2)", "1:8+0 `}` is missing: this `{` is not closed" },
    { "f(a, 3\ng()", "1:7+0 `)` is missing: this `(` is not closed" },
    { "x = (3 + 4\ny = 5", "1:11+0 `)` is missing: this `(` is not closed" },
    { "x = a[1\ny = 3", "1:8+0 `]` is missing: this `[` is not closed" },
    { "if a then\n  b()\nc()", "2:6+0 `end` is missing: this `if` is not closed" },
    { "local function f()\n  if a then\n    b()\n\nend\ng()",
      "3:8+0 `end` is missing: this `if` is not closed" },
    { "function f(a)\n  for i = 1, 2 do\n    x()\n  return a\nend\n\nfunction g()\nend",
      "3:8+0 `end` is missing: this `for` is not closed" },
    { "while true do\n  x()\nuntil 3\ny()", "2:6+0 `end` is missing: this `while` is not closed" },
    { "repeat x() end", "1:11+0 `until` is missing: this `repeat` is not closed" },
    { "x = function(a, b return 1 end", "1:18+0 `)` is missing: this `(` is not closed" },
    { "f(function()\n  g()\n}", "3:1+1 `}` does not close a `function`" },
    { "if a then b() else if c then d() end", "1:37+0 `end` is missing: this `if` is not closed" },
    { "end", "1:1+3 this `end` closes nothing" },
    { "f() end g()", "1:5+3 this `end` closes nothing" },
    { "x = }", "1:5+1 a value is expected here, not `}`" },
    { "f())\ng()", "1:4+1 this `)` closes nothing" },
    { "local t = { a = 1 }\n}", "2:1+1 this `}` closes nothing" },
    { "else x() end y()", "1:1+4 this `else` closes nothing" },
    { "return recipe \"x\" {\n  hone \"a\" { grit = 100 }},\n  clean \"b\" { with = \"water\" },\n}",
      "2:26+1 there is a `}` too many, probably this" },
    { "x = {\n  a = { 1 }}\n}", "2:12+1 there is a `}` too many, probably this" },
    { "suits { hardness = between(3, 6, age = at_least \"28 d\" }",
      "1:32+0 `)` is missing: this `(` is not closed" },
    { "x = {\n  for i = 1, 3 do\n    hone \"a\" { grit = i }\n  end\n  b = 2 c = 3\n}",
      "2:3+3 `for` begins a statement, which cannot stand in a table\n"
      "5:8+0 a comma is missing between two fields" },
    { "x = {\n  if wet then hone \"a\" {} end,\n  local y = 3,\n  clean \"b\" {},\n}",
      "2:3+2 `if` begins a statement, which cannot stand in a table\n"
      "3:3+5 `local` begins a statement, which cannot stand in a table" },
    { "return recipe \"x\" {\n"
      "  hone \"a\" { grit = 100,\n"
      "             wet = true\n"
      "  clean \"b\" { with = \"water\" },\n"
      "}",
      "3:24+0 `}` is missing: this `{` is not closed" },
    { "return recipe \"x\" {\n  hone(\"a\", { grit = 100 }),\n  clean(\"b\", { with = \"water\" }\n}",
      "3:32+0 `)` is missing: this `(` is not closed" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_complaints(cases[i].text, strlen(cases[i].text), cases[i].want);
}

static void mistakes_in_statements_are_named(void **state)
{
  (void)state;
  static const struct { const char *text, *want; } cases[] = {
    { "if x = 3 then y() end", "1:6+1 `=` gives a value; it does not compare" },
    { "while x = 3 do y() end", "1:9+1 `=` gives a value; it does not compare" },
    { "x += 1\ny++\nz ..= \"a\"",
      "1:3+2 `+=` is not a sign of Lua\n2:2+2 `++` is not a sign of Lua\n3:3+3 `..=` is not a sign of Lua" },
    { "t.a[1] -= 2", "1:8+2 `-=` is not a sign of Lua" },
    { "x == 3", "1:3+2 `==` compares; it does not give a value" },
    { "x\ny()", "1:1+1 a value alone does nothing" },
    { "x = a.b.c d", "1:11+1 a value alone does nothing" },
    { "\"a\"", "1:1+3 a statement is expected, not `\"a\"`" },
    { "3 = x", "1:1+1 a statement is expected, not `3`" },
    { "f() = 3", "1:1+3 nothing can be assigned to this" },
    { "a, f() = 3", "1:4+3 nothing can be assigned to this" },
    { "(a) = 3", "1:1+3 nothing can be assigned to this" },
    { "locla x = 3", "1:1+5 `locla` is not understood here" },
    { "retrun x", "1:1+6 `retrun` is not understood here" },
    { "elif x then", "1:1+4 `elif` is not understood here" },
    { "if a then b() elsif c then d() end", "1:15+5 `elsif` is not understood here" },
    { "fucntion f() end", "1:1+8 `fucntion` is not understood here" },
    { "for i = 1, 10\n  print(i)\nend", "1:14+0 `do` is missing behind the head of `for`" },
    { "if a\n  b()\nend", "1:5+0 `then` is missing behind the head of `if`" },
    { "if a b() end", "1:6+1 `then` is expected behind the head of `if`, not `b`" },
    { "while a\n  b()\nend", "1:8+0 `do` is missing behind the head of `while`" },
    { "for i in 1, 10 do end for i = 1 do end",
      "1:33+2 a counting loop needs a first and a last value, and may have a step" },
    { "for i = 1, 2, 3, 4 do end",
      "1:20+2 a counting loop needs a first and a last value, and may have a step" },
    { "for 1 = 1, 2 do f() end", "1:5+1 a name is expected behind `for`, not `1`" },
    { "for i 1, 2 do f() end", "1:7+1 `in` is expected behind the names of a loop, not `1`" },
    { "return 1\nf()", "2:1+1 nothing may follow a `return` in its block" },
    { "do return end f()\nreturn; g()", "2:9+1 nothing may follow a `return` in its block" },
    { "local function if() end", "1:16+2 `if` is a word of Lua and cannot be a name" },
    { "local x, = 3", "1:10+1 a name is expected behind `local`, not `=`" },
    { "local = 3", "1:7+1 a name is expected behind `local`, not `=`" },
    { "function (a) end", "1:10+1 the name of a function is expected, not `(`" },
    { "function f(a, 1) end", "1:15+1 the name of a parameter is expected, not `1`" },
    { "function f(a, ...b) end", "1:18+1 `)` is expected behind the parameters, not `b`" },
    { "function f(a,) end", "1:14+1 the name of a parameter is expected, not `)`" },
    { "x = not", "1:8+0 a value is expected here, but the file ends" },
    { "x = 1 +\ny = 2", "1:7+1 what should follow this `+` is missing" },
    { "x = f(1),\ny = 2", "1:9+1 what should follow this `,` is missing" },
    { "local x =\ny = 2", "1:9+1 what should follow this `=` is missing" },
    { "local x =\nlocal y = 1", "2:1+5 a value is expected here, not `local`" },
    { "x = a:b\ny = 3", "2:1+1 arguments are expected behind a method's name, not `y`" },
    { "x = a.\ny = 3", "1:6+1 what should follow this `.` is missing" },
    { "f(a b)", "1:4+0 a comma is missing between two arguments" },
    { "f(a,)", "1:5+1 a value is expected here, not `)`" },
    { "f(, a)", "1:3+1 a value is expected here, not `,`" },
    { "f(low = 3, high = 4)", "1:3+3 arguments have no names" },
    { "x = = 3\ny = = 4\nz = 5 5",
      "1:5+1 a value is expected here, not `=`\n"
      "2:5+1 a value is expected here, not `=`\n"
      "3:7+1 a statement is expected, not `5`" },
    { "goto 3", "1:6+1 the name of a label is expected behind `goto`, not `3`" },
    { "::a\nx = 1", "2:1+1 `::` is expected behind the name of a label, not `x`" },
    { "x = a <> b", "1:7+2 `<>` is not a sign of Lua" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_complaints(cases[i].text, strlen(cases[i].text), cases[i].want);
}

static void names_and_jumps_are_checked_as_lua_would(void **state)
{
  (void)state;
  static const struct { const char *text, *want; } cases[] = {
    { "local x <const> = 1\nx = 2", "2:1+1 `x` is a constant" },
    { "local x <const>, y = 1, 2\nlocal function f() x, y = 3, 4 end", "2:20+1 `x` is a constant" },
    { "local x <const> = 1\nfunction x() end\nfunction x.y() end", "2:10+1 `x` is a constant" },
    { "local x <close> = f()", "1:10+5 `<close>` is not allowed in a recipe" },
    { "local x <foo> = 1", "1:10+3 `foo` is not an attribute" },
    { "local _mark = 1", "1:7+5 the name `_mark` is kept for the engine" },
    { "_mark(1, {})", "1:1+5 the name `_mark` is kept for the engine" },
    { "function f(_mark) end", "1:12+5 the name `_mark` is kept for the engine" },
    { "for _mark = 1, 2 do end", "1:5+5 the name `_mark` is kept for the engine" },
    { "local _tick = 1", "1:7+5 the name `_tick` is kept for the engine" },
    { "t._mark = { _mark = 1 }", "" },
    { "local _ENV = {}", "1:7+4 `_ENV` cannot be declared anew" },
    { "_ENV = {}", "1:1+4 `_ENV` cannot be replaced" },
    { "_ENV.x = _ENV[\"y\"]", "" },
    { "return ...", "1:8+3 `...` stands outside a function" },
    { "function f() return ... end", "1:21+3 this function takes no `...`" },
    { "function f(...) return function() return ... end end", "1:42+3 this function takes no `...`" },
    { "goto nope", "1:6+4 there is no label `nope` that this goto can see" },
    { "goto l\ndo ::l:: end", "1:6+1 there is no label `l` that this goto can see" },
    { "::a:: ::a::", "1:9+1 the label `a` is there already" },
    { "::a:: do ::a:: end", "1:12+1 the label `a` is there already" },
    { "do ::a:: end do ::a:: end", "" },
    { "::a:: f(function() ::a:: goto a end)", "" },
    { "goto l local x ::l:: f(x)", "1:6+1 this goto jumps into the scope of local `x`" },
    { "do goto l local x ::l:: ; ::m:: end", "" },
    { "repeat goto l local x ::l:: until x", "1:13+1 this goto jumps into the scope of local `x`" },
    { "break", "1:1+5 `break` stands outside a loop" },
    { "while true do f(function() break end) end", "1:28+5 `break` stands outside a loop" },
    { "for i = 1, 2 do if i then break end end", "" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++)
    assert_complaints(cases[i].text, strlen(cases[i].text), cases[i].want);
}

static void a_certain_mistake_has_its_mend(void **state)
{
  (void)state;
  static const struct { const char *text, *mended; } cases[] = {
    { "x = { a = 1 b = 2 }", "x = { a = 1, b = 2 }" },
    { "x = { a: 1 }", "x = { a = 1 }" },
    { "x = { a == 1 }", "x = { a = 1 }" },
    { "x = { a 1 }", "x = { a = 1 }" },
    { "x = { \"a\": 1 }", "x = { a = 1 }" },
    { "x = { \"a b\" = 1 }", "x = { [\"a b\"] = 1 }" },
    { "x = { \"end\": 1 }", "x = { [\"end\"] = 1 }" },
    { "x = { \"1st\" = 1 }", "x = { [\"1st\"] = 1 }" },
    { "x = { end = 1 }", "x = { [\"end\"] = 1 }" },
    { "x = t.end", "x = t[\"end\"]" },
    { "x = { age = 28 d, y = 1 }", "x = { age = \"28 d\", y = 1 }" },
    { "x = { 80 %, 1 }", "x = { \"80 %\", 1 }" },
    { "x = { 1, , 2 }", "x = { 1,  2 }" },
    { "if a\n b() end", "if a then\n b() end" },
    { "if a = 1 then b() end", "if a == 1 then b() end" },
    { "x += 1", "x = x + 1" },
    { "x++", "x = x + 1" },
    { "f(a b)", "f(a, b)" },
    { "x == 1", "x = 1" },
    { "locla x", "local x" },
    { "x = 1 // a remark", "x = 1 -- a remark" },
    { "x = { 1, // a remark here\n}", "x = { 1, -- a remark here\n}" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) assert_fixed(cases[i].text, cases[i].mended);
}

static void what_is_not_closed_is_labelled_where_it_opens(void **state)
{
  (void)state;
  const char *text = "return recipe \"x\" {\n  hone \"a\" { grit = 1,\n  hone \"b\" { grit = 2 },\n}\n";
  Reading r = reading_of(text, strlen(text));
  const Diag *d = diags_get(r.diags, 0);
  assert_int_equal(d->label_count, 1);
  Place opened = sources_place(r.sources, r.source, d->labels[0].at.begin);
  assert_int_equal(opened.line, 2);
  assert_int_equal(opened.column, 12);
  reading_free(&r);
}

/* Lua refuses 200 levels; 25,000 must be refused at once, in whatever they consist. */
static void deep_nesting_is_one_error(void **state)
{
  (void)state;
  static const char *const pieces[] = {
    "{", "(", "[", "f(", "f{", "a[", "-", "not ", "a..", "a^", "do ", "if a then ", "function f() ",
    "f(function() ", "while a do ", "for i = 1, 2 do ", "repeat ", "a, ", "{a=", "{[", "a.b\"x\"{", "else ",
  };
  for (size_t i = 0; i < COUNT_OF(pieces); i++) {
    Buf text = { 0 };
    buf_puts(&text, i < 9 || pieces[i][0] == '{' ? "x = " : "");
    for (int k = 0; k < 25000; k++) buf_puts(&text, pieces[i]);
    Reading r = reading_of(buf_text(&text), text.length);
    if (tree_sound(r.tree) || diags_count(r.diags) != 1) {
      Buf got = reading_complaints(&r);
      fail_msg("%s, repeated: %.300s", pieces[i], buf_text(&got));
    }
    reading_free(&r);
    buf_free(&text);
  }
}

/* `#` in a piece stands for its number. */
typedef struct {
  const char *before, *piece, *after;
  int fits; /* so many pieces are fine, and one more is not */
  const char *want;
} Limit;

static Buf repeated(const Limit *limit, int count)
{
  Buf text = { 0 };
  buf_puts(&text, limit->before);
  for (int i = 0; i < count; i++) {
    for (const char *c = limit->piece; *c; c++) {
      if (*c == '#') buf_printf(&text, "%d", i);
      else buf_putc(&text, *c);
    }
  }
  buf_puts(&text, limit->after);
  return text;
}

static void limits_of_lua_are_kept(void **state)
{
  (void)state;
  static const Limit limits[] = {
    { "", "local a# = 1 ", "", 198, "a function can have 200 local variables; this is one too many" },
    { "local function f() ", "local a# ", "end", 200,
      "a function can have 200 local variables; this is one too many" },
    { "f(", "#, ", "0)", 240, "a function can hold about 245 values at once; this expression needs more" },
    { "", "do local a# = 1 end ", "", 31998, "a function can declare 32000 local variables over its length" },
    { "", "do goto l ::l:: end ", "", 4000, "a file can have 8000 goto, break and labels" },
  };
  for (size_t i = 0; i < COUNT_OF(limits); i++) {
    Buf fits = repeated(&limits[i], limits[i].fits), over = repeated(&limits[i], limits[i].fits + 1);
    Reading good = reading_of(buf_text(&fits), fits.length);
    if (!tree_sound(good.tree)) fail_msg("%s: %s", limits[i].piece, diags_get(good.diags, 0)->message);
    reading_free(&good);
    Reading r = reading_of(buf_text(&over), over.length);
    if (tree_sound(r.tree)) fail_msg("%s: not refused", limits[i].piece);
    assert_int_equal(diags_count(r.diags), 1);
    assert_string_equal(diags_get(r.diags, 0)->message, limits[i].want);
    reading_free(&r);
    buf_free(&fits);
    buf_free(&over);
  }
}

static void a_table_knows_its_fields(void **state)
{
  (void)state;
  const char *text = "return { 10, a = 1, 20, ['b c'] = 2, [ [[d]] ] = x.y, [7] = 3, ['\\x41'] = 4; f(1) }";
  Reading r = reading_of(text, strlen(text));
  assert_true(tree_sound(r.tree));
  assert_span_text(&r, tree_field(r.tree, 1, "a"), "1");
  assert_span_text(&r, tree_field_key(r.tree, 1, "a"), "a");
  assert_span_text(&r, tree_field(r.tree, 1, "b c"), "2");
  assert_span_text(&r, tree_field_key(r.tree, 1, "b c"), "'b c'");
  assert_span_text(&r, tree_field(r.tree, 1, "d"), "x.y");
  assert_span_text(&r, tree_field(r.tree, 1, "A"), "4");
  assert_span_text(&r, tree_item(r.tree, 1, 1), "10");
  assert_span_text(&r, tree_item(r.tree, 1, 2), "20");
  assert_span_text(&r, tree_item(r.tree, 1, 3), "f(1)");
  assert_span_text(&r, tree_item(r.tree, 1, 7), "3");
  assert_true(span_is_nowhere(tree_item(r.tree, 1, 4)));
  assert_true(span_is_nowhere(tree_field(r.tree, 1, "b")));
  assert_true(span_is_nowhere(tree_field(r.tree, 0, "a")));
  assert_true(span_is_nowhere(tree_field(r.tree, 2, "a")));
  assert_true(span_is_nowhere(tree_table(r.tree, -1)));
  reading_free(&r);
}

static void a_large_table_knows_its_fields_too(void **state)
{
  (void)state;
  Buf text = { 0 };
  buf_puts(&text, "return {");
  for (int i = 0; i < 1000; i++)
    buf_printf(&text, "k%d = %d, 's%d', [%d] = %d,", i * 7919 % 1000, i, i, 5000 + i, i);
  buf_puts(&text, "}");
  Reading r = reading_of(buf_text(&text), text.length);
  for (int i = 0; i < 1000; i++) {
    char key[16], value[16];
    snprintf(key, sizeof key, "k%d", i * 7919 % 1000);
    snprintf(value, sizeof value, "%d", i);
    assert_span_text(&r, tree_field(r.tree, 1, key), value);
    assert_span_text(&r, tree_item(r.tree, 1, 5000 + i), value);
    snprintf(value, sizeof value, "'s%d'", i);
    assert_span_text(&r, tree_item(r.tree, 1, i + 1), value);
  }
  reading_free(&r);
  buf_free(&text);
}

static void a_table_knows_the_call_that_takes_it(void **state)
{
  (void)state;
  static const struct { const char *text, *call, *word, *name; } cases[] = {
    { "hone \"200\" { 1 }", "hone \"200\" { 1 }", "hone", "\"200\"" },
    { "hone(\"200\", { 1 })", "hone(\"200\", { 1 })", "hone", "\"200\"" },
    { "a.b.c:d \"x\" { 1 }", "a.b.c:d \"x\" { 1 }", "d", "\"x\"" },
    { "job.area 'x' (2) { 1 }", "job.area 'x' (2) { 1 }", "area", "'x'" },
    { "tailor(require 'm', 'dyed') { 1 }", "tailor(require 'm', 'dyed') { 1 }", "tailor", "'dyed'" },
    { "hone { 1 }", "hone { 1 }", "hone", "" },
    { "a 'x' :b { 1 }", "a 'x' :b { 1 }", "b", "" },
    { "a[1] { 1 }", "a[1] { 1 }", "", "" },
    { "f({ 1 }, 2)", "", "", "" },
    { "x = { 1 }", "", "", "" },
  };
  for (size_t i = 0; i < COUNT_OF(cases); i++) {
    Reading r = reading_of(cases[i].text, strlen(cases[i].text));
    assert_true(tree_sound(r.tree));
    assert_span_text(&r, tree_call(r.tree, 1), cases[i].call);
    assert_span_text(&r, tree_call_word(r.tree, 1), cases[i].word);
    assert_span_text(&r, tree_call_name(r.tree, 1), cases[i].name);
    reading_free(&r);
  }
}

static void a_call_knows_its_arguments(void **state)
{
  (void)state;
  const char *text = "return { w = between(3, g(6), \"x\" .. y), v = o:m { 1 } }";
  Reading r = reading_of(text, strlen(text));
  Span call = tree_field(r.tree, 1, "w"), method = tree_field(r.tree, 1, "v");
  assert_span_text(&r, tree_argument(r.tree, call, 1), "3");
  assert_span_text(&r, tree_argument(r.tree, call, 2), "g(6)");
  assert_span_text(&r, tree_argument(r.tree, tree_argument(r.tree, call, 2), 1), "6");
  assert_span_text(&r, tree_argument(r.tree, call, 3), "\"x\" .. y");
  assert_span_text(&r, tree_argument(r.tree, method, 1), "{ 1 }");
  assert_true(span_is_nowhere(tree_argument(r.tree, call, 4)));
  assert_true(span_is_nowhere(tree_argument(r.tree, call, 0)));
  assert_true(span_is_nowhere(tree_argument(r.tree, tree_table(r.tree, 1), 1)));
  reading_free(&r);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(mistakes_in_a_table_are_named_and_mended),
    cmocka_unit_test(what_is_not_closed_is_blamed_where_it_was_missed),
    cmocka_unit_test(mistakes_in_statements_are_named),
    cmocka_unit_test(names_and_jumps_are_checked_as_lua_would),
    cmocka_unit_test(a_certain_mistake_has_its_mend),
    cmocka_unit_test(what_is_not_closed_is_labelled_where_it_opens),
    cmocka_unit_test(deep_nesting_is_one_error),
    cmocka_unit_test(limits_of_lua_are_kept),
    cmocka_unit_test(a_table_knows_its_fields),
    cmocka_unit_test(a_large_table_knows_its_fields_too),
    cmocka_unit_test(a_table_knows_the_call_that_takes_it),
    cmocka_unit_test(a_call_knows_its_arguments),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
