/* fuzz_syntax.c - whatever the bytes: the reader ends, and what it finds sound, Lua loads.
 *
 * An input that begins with 0x01 is a list of words: each further byte picks one, which reaches much more of the
 * grammar than bytes do. Build with clang -fsanitize=fuzzer,address,undefined and start with corpus/syntax. */
#include <lauxlib.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "lang/syntax.h"

static const char *const words[] = {
  "and", "break", "do", "else", "elseif", "end", "false", "for", "function", "goto", "if", "in", "local", "nil", "not",
  "or", "repeat", "return", "then", "true", "until", "while", "+", "-", "*", "/", "%", "^", "#", "&", "~", "|", "<<",
  ">>", "//", "==", "~=", "<=", ">=", "<", ">", "=", "(", ")", "{", "}", "[", "]", "::", ";", ":", ",", ".", "..",
  "...", "a", "b", "c", "self", "_ENV", "1", "2.5", "0x1p4", "\"s\"", "'\\n'", "[[x\ny]]", "'a\\\nb'", "<const>",
  "<close>", "local function", "function()", "end)", "a.b", "a:b()", "a.b.c:d 's' {}", "if a then", "for i = 1, 2 do",
  "for k in a do", "while a do", "repeat", "until a", "::l::", "goto l", "return a", "local a =", "a =", "{ a = 1,",
  "{ [1] =", "(a)", "\n", "\n", "--c\n", "//", "#", "!", "!=", "a.b +", "a, b =", "f(a.b,", "f { ", "f 's'", "= 3 in",
  "end", "end", "}", "}", ")",
};

static void add_words(const uint8_t *data, size_t size, Buf *out)
{
  for (size_t i = 0; i < size; i++) {
    buf_puts(out, words[data[i] % (sizeof words / sizeof *words)]);
    buf_putc(out, ' ');
  }
}

static void fail(const char *what, const char *why, const Buf *source, const Buf *rewritten)
{
  fprintf(stderr, "%s: %s\n--- source\n%s\n--- rewritten\n%s\n", what, why, buf_text(source), buf_text(rewritten));
  abort();
}

static void check_loads(const Tree *tree, const Buf *source)
{
  Buf rewritten = { 0 };
  tree_rewrite(tree, &rewritten);
  lua_State *L = luaL_newstate();
  if (luaL_loadbufferx(L, rewritten.text, rewritten.length, "=r", "t") != LUA_OK)
    fail("Lua refuses the rewritten text", lua_tostring(L, -1), source, &rewritten);
  int lines = 0;
  for (size_t i = 0; i < rewritten.length; i++) lines += rewritten.text[i] == '\n';
  if (span_is_nowhere(tree_token(tree, lines)) != (lines == 1) || !span_is_nowhere(tree_token(tree, lines + 1)))
    fail("lines and tokens differ", "", source, &rewritten);
  lua_close(L);
  buf_free(&rewritten);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  Buf source = { 0 };
  if (size > 0 && data[0] == 1) add_words(data + 1, size - 1, &source);
  else buf_add(&source, (const char *)data, size);
  Sources *sources = sources_new();
  Diags *diags = diags_new();
  uint32_t id = sources_add(sources, "fuzz.lua", buf_text(&source), source.length);
  Tree *tree = tree_parse(sources, id, diags);
  if (tree_sound(tree) != (diags_errors(diags) == 0)) fail("sound and errors disagree", "", &source, &source);
  if (tree_sound(tree)) check_loads(tree, &source);
  tree_free(tree);
  diags_free(diags);
  sources_free(sources);
  buf_free(&source);
  return 0;
}
