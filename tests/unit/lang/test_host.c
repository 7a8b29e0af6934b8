/* test_host.c - a script runs, fails at an exact place, and cannot get past its budgets. */
#include "lang/host.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <lauxlib.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "lang/native.h"

/* ---- modules that tests read, by name */

typedef struct {
  const char *name, *text;
} Module;

static const Module modules[] = {
  { "methods.cream", "return { name = 'cream' }" },
  { "counted", "return {}" },
  { "broken", "local t = nil\nreturn t.x" },
  { "misspelt", "local = 5\nlocal a b\nreturn" },
  { "silent", "local x = 1" },
  { "ring_a", "return require 'ring_b'" },
  { "ring_b", "return require 'ring_a'" },
  { "outer", "return require 'broken'" },
  { "catches",
    "local ok = pcall(require, 'broken')\nlocal again = pcall(require, 'broken')\nreturn { ok, again }" },
};

static const Module library[] = {
  { "core.environment", "local place = require 'native.place'\n"
                        "local words = {\n"
                        "  grind = function(name) return function(t)\n"
                        "    return { name = name, call = place.call(t), word = place.word(t),\n"
                        "      label = place.name(t),"
                        "      grit = place.of(t, 'grit'), key = place.key(t, 'grit'), second = place.of(t, 2),\n"
                        "      all = place.of(t), argument = place.argument(t, 'window', 2),\n"
                        "      none = place.of({}) } end end,"
                        "  text = place.text, item = function(t) return place.item(t, 2) end,\n"
                        "  here = function() return place.caller(1) end,\n"
                        "  window = function(a, b) return { a, b } end,\n"
                        "  blame = function() error('not like this', 2) end,\n"
                        "  stumble = function() local t; return t.x end,\n"
                        "  misuse = function() return math.floor({}) end,\n"
                        "  apply = function(f, x) return f(x) end,\n"
                        "}\n"
                        "return function(name) return words[name] end" },
  { "std.climate", "return { limits = { 5, 30 }, convert = function(x) return x * 2 end }" },
  { "core.check", "local check = {}\nfunction check.twice(n) return n * 2, 'done' end\n"
                  "function check.fails() error('a fault', 1) end\nreturn check" },
};

static int reads; /* how often `counted` was read */

static bool read_from(const Module *from, size_t count, const char *name, Buf *text)
{
  for (size_t i = 0; i < count; i++) {
    if (strcmp(from[i].name, name) != 0) continue;
    buf_puts(text, from[i].text);
    return true;
  }
  return false;
}

static bool read_module(void *context, const char *name, Buf *text, Buf *shown, Buf *why)
{
  (void)context;
  reads += strcmp(name, "counted") == 0;
  buf_printf(shown, "%s.lua", name);
  buf_puts(why, "no such file");
  return read_from(modules, sizeof modules / sizeof *modules, name, text);
}

static bool read_library(void *context, const char *name, Buf *text, Buf *shown, Buf *why)
{
  (void)context;
  (void)shown;
  (void)why;
  return read_from(library, sizeof library / sizeof *library, name, text);
}

/* ---- one run */

typedef struct {
  Sources *sources;
  Diags *diags;
  Host *host;
  HostStatus status;
  Buf findings; /* in the short form */
} Run;

static Run start(HostBudget budget)
{
  Run run = { .sources = sources_new(), .diags = diags_new() };
  run.host = host_new(budget, run.sources, run.diags, read_module, NULL);
  host_use_stdlib(run.host, read_library, NULL);
  return run;
}

static void go(Run *run, const char *script)
{
  run->status = host_run(run->host, "main.lua", script, strlen(script));
  diags_print_short(run->diags, run->sources, &run->findings);
}

static Run run_with(HostBudget budget, const char *script)
{
  Run run = start(budget);
  go(&run, script);
  return run;
}

static Run run_script(const char *script) { return run_with((HostBudget){ 0 }, script); }

static void finish(Run *run)
{
  host_free(run->host);
  diags_free(run->diags);
  sources_free(run->sources);
  buf_free(&run->findings);
}

static void assert_text(const char *script, const char *got, const char *want)
{
  if (!got || strcmp(got, want) != 0) fail_msg("%s\n gives %s\n not   %s", script, got ? got : "no text", want);
}

static void assert_result(const char *script, const char *want)
{
  Run run = run_script(script);
  assert_text(script, buf_text(&run.findings), "");
  assert_int_equal(run.status, HOST_FINE);
  assert_text(script, lua_tostring(host_lua(run.host), -1), want);
  assert_int_equal(lua_gettop(host_lua(run.host)), 1);
  finish(&run);
}

/* The finding is one line; `want` is what follows "main.lua:". */
static void assert_finding(const char *script, const char *want)
{
  Run run = run_script(script);
  Buf line = { 0 };
  buf_printf(&line, "main.lua:%s\n", want);
  assert_text(script, buf_text(&run.findings), buf_text(&line));
  assert_int_equal(run.status, HOST_FAILED);
  assert_true(lua_isnil(host_lua(run.host), -1));
  buf_free(&line);
  finish(&run);
}

/* ---- results and findings */

static void a_script_leaves_its_result(void **state)
{
  (void)state;
  assert_result("return 'polished'", "polished");
  assert_result("local a <const> = 1 return tostring(a + 1)", "2");
  Run run = run_script("local nothing");
  assert_int_equal(run.status, HOST_FINE);
  assert_true(lua_isnil(host_lua(run.host), -1));
  finish(&run);
}

static void an_error_is_found_where_it_is(void **state)
{
  (void)state;
  static const struct {
    const char *script, *want;
  } cases[] = {
    { "local a = 1\nlocal b = a + nil", "2:11: error[script]: attempt to perform arithmetic on a nil value" },
    { "local a = { b = {} }\nreturn 1 .. a.b",
      "2:8: error[script]: attempt to concatenate a table value (field 'b')" },
    { "local s = {}\nreturn s.deep.er", "2:15: error[script]: attempt to index a nil value (field 'deep')" },
    { "local f = 5\n  f(1)", "2:3: error[script]: attempt to call a number value (local 'f')" },
    { "return math.floor('wet')", "1:8: error[script]: bad argument #1 to 'floor' (number expected, got string)" },
    { "return 1 < 'x'", "1:8: error[script]: attempt to compare number with string" },
    { "for i = 1, 'x' do end", "1:16: error[script]: bad 'for' limit (number expected, got string)" },
    { "error('too coarse')", "1:1: error[script]: too coarse" },
    { "local function f() error('too coarse', 2) end\nf()", "2:1: error[script]: too coarse" },
    { "assert(1 == 2)", "1:1: error[script]: assertion failed" },
    { "assert(false, 'no slab')", "1:1: error[script]: no slab" },
    { "error()", "1:1: error[script]: error raised without a message" },
    { "error({})", "1:1: error[script]: error raised with a table instead of a message" },
    { "error(2.5)", "1:1: error[script]: error raised with the number 2.5" },
    { "local x = 5\nx = grindd + 1", "2:5: error[name]: `grindd` is not a word of the language, nor a local" },
    { "return tostrin(1)", "1:8: error[name]: `tostrin` is not a word of the language, nor a local "
                           "(did you mean `tostring`?)" },
    { "local a\ngrit = 100", "2:1: error[global]: `grit` would be a global; a script has only locals "
                             "(write `local grit = ...`)" },
    { "string.len = 1", "1:14: error[script]: this table belongs to the language and cannot be changed "
                        "(make a table of your own)" },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) assert_finding(cases[i].script, cases[i].want);
}

static void all_syntax_errors_come_in_one_run(void **state)
{
  (void)state;
  Run run = run_script("local = 5\nlocal a = {\n  b = ,\n}\n");
  assert_int_equal(run.status, HOST_FAILED);
  assert_true(diags_errors(run.diags) >= 2);
  finish(&run);
}

static void callers_are_named_once_each(void **state)
{
  (void)state;
  Run run = run_script("local function f(n)\n  if n == 0 then error('deep') end\n  return 1 + f(n - 1)\nend\n\n"
                       "return 1 + f(50)");
  assert_int_equal(diags_count(run.diags), 1);
  assert_string_equal(diags_get(run.diags, 0)->note, "called from main.lua:3:14, main.lua:6:12");
  finish(&run);
}

static void a_caught_error_has_no_place_in_it(void **state)
{
  (void)state;
  assert_result("local ok, why = pcall(function() return {} + 1 end) return why",
                "attempt to perform arithmetic on a table value");
  assert_result("local ok, why = pcall(error, { code = 7 }) return tostring(why.code)", "7");
  assert_result("local ok, why = pcall(error) return tostring(ok) .. tostring(why)", "falsenil");
  assert_result("local ok, why = pcall(function() return no_such_word end) return tostring(why)",
                "`no_such_word` is not a word of the language, nor a local");
}

static void an_error_of_the_engine_is_sealed(void **state)
{
  (void)state;
  assert_result("local _, e = pcall(function() x = 1 end) return type(e) .. tostring(getmetatable(e)) .. "
                "tostring(pcall(function() e.at = 1 end))", "userdatafalsefalse");
  assert_finding("local _, e = pcall(function() x = 1 end)\nerror(e)",
                 "1:31: error[global]: `x` would be a global; a script has only locals (write `local x = ...`)");
}

static void nothing_dangerous_is_there(void **state)
{
  (void)state;
  static const char *const names[] = {
    "print",  "load",     "loadstring", "dofile", "loadfile", "io", "os", "debug", "coroutine", "package",
    "rawget", "rawset", "rawequal", "rawlen", "next", "collectgarbage", "_G", "warn", "arg", "xpcall"
  };
  for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
    char script[64];
    snprintf(script, sizeof script, "return %s", names[i]);
    Run run = run_script(script);
    assert_int_equal(run.status, HOST_FAILED);
    finish(&run);
  }
  assert_result("return tostring(string.dump) .. tostring(math.random) .. tostring(table.move)", "nilnilnil");
}

/* ---- budgets */

static void endless_work_ends(void **state)
{
  (void)state;
  static const char *const scripts[] = {
    "while true do end",
    "local function f() return f() end return f()",
    "::again:: goto again",
    "local ok = pcall(function() while true do end end) return 'escaped'",
    "while true do pcall(function() while true do end end) end",
    "local t = setmetatable({}, { __index = function(t, k) return t[k + 1] end }) "
    "while true do pcall(function() return t[1] end) end",
    "return ('a'):rep(40):find(('a?'):rep(40) .. ('a'):rep(40))",
    "for _ in ('x'):rep(1000):gmatch('.-b') do end while true do end",
    "local t = {} for i = 1, 50000 do t[i] = -i end while true do table.sort(t) end",
    "local s = ('x'):rep(1000000) while true do local t = s:upper() end",
  };
  for (size_t i = 0; i < sizeof scripts / sizeof *scripts; i++) {
    Run run = run_with((HostBudget){ .instructions = 3000000 }, scripts[i]);
    if (run.status != HOST_OVER_INSTRUCTIONS) fail_msg("%s: %s", scripts[i], buf_text(&run.findings));
    assert_int_equal(host_status(run.host), HOST_OVER_INSTRUCTIONS);
    assert_int_equal(diags_count(run.diags), 1);
    assert_string_equal(diags_get(run.diags, 0)->code, "budget");
    assert_true(lua_isnil(host_lua(run.host), -1));
    finish(&run);
  }
}

static void memory_ends(void **state)
{
  (void)state;
  static const char *const scripts[] = {
    "local t = {} for i = 1, 1e9 do t[i] = {} end",
    "local t = {} for i = 1, 1e9 do t[i] = 'x' .. i end",
    "local s = 'x' while true do s = s .. s end",
    "local t = {} while true do pcall(function() for i = 1, 1e9 do t[#t + 1] = { i } end end) end",
    "local f = function() end for i = 1, 1e9 do local g = f f = function() return g end end",
    "local t = {} for i = 1, 1e9 do t[i] = ('x'):rep(1000000) .. i end",
  };
  for (size_t i = 0; i < sizeof scripts / sizeof *scripts; i++) {
    Run run = run_with((HostBudget){ .memory_bytes = 4 << 20 }, scripts[i]);
    if (run.status != HOST_OVER_MEMORY) fail_msg("%s: %s", scripts[i], buf_text(&run.findings));
    assert_int_equal(diags_count(run.diags), 1);
    finish(&run);
  }
}

static void any_lack_of_memory_is_clean(void **state)
{
  (void)state;
  static const char script[] =
      "local m = require 'methods.cream'\nlocal t = {}\n"
      "for i = 1, 40 do t[i] = ('%d'):format(i):gsub('1', 'one') end\n"
      "table.sort(t)\nlocal ok, why = pcall(error, { 1 })\n"
      "for k, v in pairs { a = 1, b = 2 } do t[#t + 1] = k end\n"
      "local g = grind 'x' { grit = 100 }\nreturn table.concat(t, ' ') .. m.name";
  bool was_fine = false;
  for (size_t bytes = 30000; bytes < 120000; bytes += 97) {
    Run run = run_with((HostBudget){ .memory_bytes = bytes }, script);
    assert_true(run.status == HOST_FINE || run.status == HOST_OVER_MEMORY);
    if (run.status == HOST_FINE) assert_int_equal(diags_count(run.diags), 0);
    else assert_int_equal(diags_count(run.diags), 1);
    was_fine = was_fine || run.status == HOST_FINE;
    finish(&run);
  }
  assert_true(was_fine);
}

static const char busy_script[] =
    "local seen, out = {}, {}\n"
    "for i = 1, 300 do seen['key' .. i * 7919 % 997] = { i } end\n"
    "for key, value in pairs(seen) do out[#out + 1] = key .. value[1] end\n"
    "table.sort(out, function(a, b) return a > b end)\n"
    "local s = table.concat(out, ','):gsub('%d+', function(n) return tonumber(n) + 1 end)\n"
    "for i = 1, 200 do s = s .. i end\n"
    "return s";

static int64_t spent_on(const char *script)
{
  Run run = run_script(script);
  assert_int_equal(run.status, HOST_FINE);
  int64_t spent = host_spent(run.host);
  finish(&run);
  return spent;
}

static void the_same_script_costs_the_same_in_every_process(void **state)
{
  (void)state;
  char line[32] = "", first[32] = "";
  int64_t here = spent_on(busy_script);
  assert_true(here > 1000);
  for (int i = 0; i < 5; i++) {
    char command[128]; /* the padding moves every address */
    snprintf(command, sizeof command, "PADDING=%0*d /proc/%d/exe spent", 1 + 17 * i, 0, getpid());
    FILE *child = popen(command, "r");
    assert_non_null(fgets(line, sizeof line, child));
    pclose(child);
    if (i == 0) strcpy(first, line);
    assert_string_equal(line, first);
    assert_int_equal(atoll(line), here);
  }
}

/* ---- modules */

static void modules_run_once_and_are_found_by_name(void **state)
{
  (void)state;
  assert_result("return require 'methods.cream'.name", "cream");
  reads = 0;
  assert_result("return tostring(require 'counted' == require 'counted')", "true");
  assert_int_equal(reads, 1);
}

static void requiring_goes_wrong_in_its_own_words(void **state)
{
  (void)state;
  static const char name_rule[] = "1:8: error[module]: a module name is words of a-z, 0-9 and _ with dots between "
                                  "them (for instance require \"methods.cream_wet\" for methods/cream_wet.lua)";
  static const char *const bad_names[] = { "''", "'../x'", "'/etc/passwd'", "'a..b'", "'A'", "'a\\0b'", "'a\\nb'",
                                           "'.a'", "'a.'", "'a/b'", "nil", "{}", "5" };
  for (size_t i = 0; i < sizeof bad_names / sizeof *bad_names; i++) {
    char script[64];
    snprintf(script, sizeof script, "return require(%s)", bad_names[i]);
    assert_finding(script, name_rule);
  }
  assert_finding("return require 'missing'", "1:8: error[module]: cannot read module missing: no such file");
  assert_finding("local s = require 'silent'",
                 "1:11: error[module]: module silent returns nothing (end it with `return` and what it makes)");
  assert_finding("return require 'std.gloss'", "1:8: error[module]: the standard library has no module std.gloss "
                                               "(`gritwork words` lists them)");
  assert_finding("return require 'std.climat'", "1:8: error[module]: the standard library has no module std.climat "
                                                "(did you mean `std.climate`?)");
  assert_finding("return require 'core.check'", "1:8: error[module]: cannot read module core.check: no such file");
}

static void a_module_fails_in_its_own_file(void **state)
{
  (void)state;
  static const struct {
    const char *script, *findings;
    int errors;
  } cases[] = {
    { "return require 'broken'", "broken.lua:2:10: error[script]: attempt to index a nil value (local 't')\n", 1 },
    { "return require 'outer'", "broken.lua:2:10: error[script]: attempt to index a nil value (local 't')\n", 1 },
    { "return require 'catches'", "broken.lua:2:10: error[script]: attempt to index a nil value (local 't')\n", 1 },
    { "return require 'ring_a'", "ring_b.lua:1:8: error[module]: modules require each other: "
                                 "ring_a -> ring_b -> ring_a (move what both need into a third module)\n", 1 },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    Run run = run_script(cases[i].script);
    assert_text(cases[i].script, buf_text(&run.findings), cases[i].findings);
    assert_int_equal(diags_errors(run.diags), cases[i].errors);
    finish(&run);
  }
  Run run = run_script("local x = 1\nreturn require 'broken'");
  const Diag *diag = diags_get(run.diags, 0);
  assert_int_equal(diag->label_count, 1);
  assert_string_equal(diag->labels[0].text, "required here");
  assert_int_equal(sources_place(run.sources, diag->labels[0].at.source, diag->labels[0].at.begin).line, 2);
  finish(&run);
}

static void a_module_with_syntax_errors_gives_only_those(void **state)
{
  (void)state;
  Run run = run_script("return require 'misspelt'");
  assert_int_equal(run.status, HOST_FAILED);
  assert_true(diags_errors(run.diags) >= 1);
  for (size_t i = 0; i < diags_count(run.diags); i++) assert_string_equal(diags_get(run.diags, i)->code, "syntax");
  finish(&run);
}

static void the_public_library_is_read_only(void **state)
{
  (void)state;
  assert_result("local c = require 'std.climate' return c.convert(21) .. ' ' .. c.limits[2] .. ' ' .. #c.limits",
                "42 30 2");
  assert_result("local out = {} for k in pairs(require 'std.climate') do out[#out + 1] = k end "
                "return table.concat(out, ' ')",
                "convert limits");
  assert_result("local out = {} for i, v in ipairs(require 'std.climate'.limits) do out[i] = v end "
                "return table.concat(out, ' ')",
                "5 30");
  assert_result("local ok = pcall(function() require 'std.climate'.limits[1] = 0 end) return tostring(ok)",
                "false");
  assert_result("for _, v in pairs(require 'std.climate') do if type(v) == 'table' then "
                "return tostring((pcall(function() v[1] = 0 end))) end end", "false");
  assert_result("return tostring(require 'std.climate' == require 'std.climate')", "true");
}

/* ---- places */

static void places_lead_back_to_the_source(void **state)
{
  (void)state;
  static const char step[] = "local s = grind 'cut' { 1, 'two', grit = 3 * 10, window = window(3, 6) }\n";
  static const struct {
    const char *field, *want;
  } cases[] = {
    { "call", "grind 'cut' { 1, 'two', grit = 3 * 10, window = window(3, 6) }" },
    { "word", "grind" },
    { "label", "'cut'" },
    { "grit", "3 * 10" },
    { "key", "grit" },
    { "second", "'two'" },
    { "all", "{ 1, 'two', grit = 3 * 10, window = window(3, 6) }" },
    { "argument", "6" },
    { "none", "" },
  };
  for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
    char script[256];
    snprintf(script, sizeof script, "%sreturn text(s.%s)", step, cases[i].field);
    assert_result(script, cases[i].want);
  }
  assert_result("local x = 1\nreturn text(here())", "here()");
  assert_result("return text(item { 1, 2 + 3 }) .. text(0) .. text(1 << 60)", "2 + 3");
}

static void the_library_blames_the_script(void **state)
{
  (void)state;
  assert_finding("local x = 1\nblame()", "2:1: error[script]: not like this");
  assert_finding("return blame()", "1:8: error[script]: not like this"); /* also from a tail call */
  assert_finding("apply(function(x) return x.y.z end, {})",
                 "1:30: error[script]: attempt to index a nil value (field 'y')");
  assert_finding("stumble()", "1:1: error[internal]: fault in the standard library (core.environment, line 11): "
                              "attempt to index a nil value (local 't')");
  assert_finding("misuse()", "1:1: error[internal]: fault in the standard library (core.environment, line 12): "
                             "bad argument #1 to 'floor' (number expected, got table)");
}

static void a_fault_of_the_built_in_library_names_its_module(void **state)
{
  (void)state;
  static const char begin[] = "fault in the standard library (core.finding): ";
  Run run = start((HostBudget){ 0 });
  host_use_stdlib(run.host, NULL, NULL);
  native_register(run.host);
  assert_int_equal(host_call(run.host, "core.finding", "did_you_mean", 0, 0), HOST_FAILED);
  assert_string_equal(diags_get(run.diags, 0)->code, "internal");
  assert_int_equal(strncmp(diags_get(run.diags, 0)->message, begin, strlen(begin)), 0);
  assert_null(strchr(diags_get(run.diags, 0)->message, 2)); /* the mark of a library chunk */
  finish(&run);
}

/* ---- from C */

static void library_functions_are_called_by_name(void **state)
{
  (void)state;
  Run run = start((HostBudget){ 0 });
  lua_State *L = host_lua(run.host);
  lua_pushinteger(L, 21);
  assert_int_equal(host_call(run.host, "core.check", "twice", 1, 2), HOST_FINE);
  assert_int_equal(lua_gettop(L), 2);
  assert_int_equal(lua_tointeger(L, 1), 42);
  assert_string_equal(lua_tostring(L, 2), "done");
  assert_int_equal(host_call(run.host, "core.check", "fails", 0, 1), HOST_FAILED);
  assert_int_equal(lua_gettop(L), 3);
  assert_true(lua_isnil(L, 3));
  assert_int_equal(diags_errors(run.diags), 1);
  assert_int_equal(host_call(run.host, "core.none", "x", 0, 0), HOST_FAILED);
  assert_int_equal(lua_gettop(L), 3);
  finish(&run);
}

static int native_add(lua_State *L)
{
  if (lua_type(L, 2) != LUA_TNUMBER) return host_error(L, "unit", "a length and a text", "write 3 in");
  lua_pushinteger(L, 7);
  return 1;
}

static int native_spans(lua_State *L)
{
  Span all = host_table_span(L, 1), field = host_field_span(L, 1, "grit");
  lua_pushinteger(L, all.end - all.begin);
  lua_pushinteger(L, field.begin);
  return 2;
}

/* A value whose `+` is ours, as quantities have it. */
static int open_values(lua_State *L)
{
  lua_newtable(L);
  lua_newuserdatauv(L, 1, 0);
  lua_newtable(L);
  lua_pushcfunction(L, native_add);
  lua_setfield(L, -2, "__add");
  lua_setmetatable(L, -2);
  lua_setfield(L, -2, "length");
  lua_pushcfunction(L, native_spans);
  lua_setfield(L, -2, "spans");
  return 1;
}

static bool read_words_of_values(void *context, const char *name, Buf *text, Buf *shown, Buf *why)
{
  (void)context;
  (void)shown;
  (void)why;
  if (strcmp(name, "core.environment") != 0) return false;
  buf_puts(text, "local values = require 'native.values' return function(name) return values[name] end");
  return true;
}

static void natives_raise_at_the_operation(void **state)
{
  (void)state;
  Run run = start((HostBudget){ 0 });
  host_add_native(run.host, "native.values", open_values);
  host_use_stdlib(run.host, read_words_of_values, NULL);
  go(&run, "local a = length + 1\nlocal n, at = spans { grit = 100 }\nassert(n == 14 and at == 50)\n"
           "return a * 1 + (length + 'x')");
  assert_string_equal(buf_text(&run.findings), "main.lua:4:17: error[unit]: a length and a text (write 3 in)\n");
  finish(&run);
}

int main(int argc, char **argv)
{
  if (argc > 1 && strcmp(argv[1], "spent") == 0) return printf("%lld\n", (long long)spent_on(busy_script)) < 0;
  const struct CMUnitTest tests[] = {
    cmocka_unit_test(a_script_leaves_its_result),
    cmocka_unit_test(an_error_is_found_where_it_is),
    cmocka_unit_test(all_syntax_errors_come_in_one_run),
    cmocka_unit_test(callers_are_named_once_each),
    cmocka_unit_test(a_caught_error_has_no_place_in_it),
    cmocka_unit_test(an_error_of_the_engine_is_sealed),
    cmocka_unit_test(nothing_dangerous_is_there),
    cmocka_unit_test(endless_work_ends),
    cmocka_unit_test(memory_ends),
    cmocka_unit_test(any_lack_of_memory_is_clean),
    cmocka_unit_test(the_same_script_costs_the_same_in_every_process),
    cmocka_unit_test(modules_run_once_and_are_found_by_name),
    cmocka_unit_test(requiring_goes_wrong_in_its_own_words),
    cmocka_unit_test(a_module_fails_in_its_own_file),
    cmocka_unit_test(a_module_with_syntax_errors_gives_only_those),
    cmocka_unit_test(the_public_library_is_read_only),
    cmocka_unit_test(places_lead_back_to_the_source),
    cmocka_unit_test(the_library_blames_the_script),
    cmocka_unit_test(a_fault_of_the_built_in_library_names_its_module),
    cmocka_unit_test(library_functions_are_called_by_name),
    cmocka_unit_test(natives_raise_at_the_operation),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
