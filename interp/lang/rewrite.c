/* rewrite.c - the text that is handed to Lua: one token on each line, and parentheses where Lua would otherwise
 * give two things the same line.
 *
 * Lua reports a call on the line where its chain begins, so of `f "x" { }` it would report both calls on one line:
 * the rewriting makes it `( f "x") { }`, with the parenthesis on a line of its own. And it reads a variable or an
 * index only when it has stepped over the token behind it: `a.b + 1` becomes `(a.b) + 1`, so that a nil `a` is
 * reported at `b` and not at the sign. */
#include <stdio.h>

#include "lang/tree.h"

enum {
  EXTRA_LEVELS = 24,
  PARENS_A_CHAIN = 12
}; /* of Lua's 200 levels, of which SYNTAX_DEPTH are the source's own */

static const char head[] = "local _mark <const>, _tick <const> = ...\n";

/* ---- laying out */

static uint32_t wanted_parens(const Chain *c)
{
  uint32_t own = c->calls > 1 ? c->calls - 1u : 0;
  return own + c->reads_early + c->reads_late;
}

/* As many as fit; a chain that gets none, or not all, only shares a line. */
static void grant_parens(Tree *tree, Chain *c)
{
  const Chain *parent = c->parent_1 ? &tree->chains[c->parent_1 - 1] : NULL;
  c->around = parent ? (uint8_t)(parent->around + parent->parens) : 0;
  uint32_t wanted = wanted_parens(c), room = EXTRA_LEVELS - c->around;
  if (wanted > PARENS_A_CHAIN) wanted = PARENS_A_CHAIN;
  c->parens = (uint8_t)(wanted < room ? wanted : room);
}

/* How many of a chain's parentheses stand on lines of their own: one for each call but the first. */
static uint32_t own_lines(const Chain *c)
{
  uint32_t inner = c->reads_early + c->reads_late, own = c->calls > 1 ? c->calls - 1u : 0;
  uint32_t left = c->parens > inner ? c->parens - inner : 0;
  return own < left ? own : left;
}

static bool has_late(const Chain *c) { return c->reads_late && c->parens > 0; }
static bool has_early(const Chain *c) { return c->reads_early && c->parens > c->reads_late; }

/* The n-th call of a chain, from 1, as a number plus one. */
static uint32_t nth_call_1(const Tree *tree, const Chain *c, uint32_t n)
{
  uint32_t call_1 = c->last_call_1;
  for (uint32_t i = c->calls; i > n; i--) call_1 = tree->calls[call_1 - 1].before_1;
  return call_1;
}

static void place_closes(Tree *tree, const Chain *c)
{
  uint32_t own = own_lines(c), call_1 = nth_call_1(tree, c, own + 1);
  for (uint32_t i = own; i > 0; i--) {
    tree->closes[tree->calls[call_1 - 1].suffix - 1]++;
    call_1 = tree->calls[call_1 - 1].before_1;
  }
  if (has_early(c)) tree->closes[tree->calls[nth_call_1(tree, c, 1) - 1].suffix - 1]++;
  if (has_late(c)) tree->closes[c->at.last]++;
}

static uint32_t add_line(Tree *tree, uint32_t token, uint32_t call_1)
{
  tree->lines[tree->line_count] = (Line){ token, call_1 };
  return tree->line_count++;
}

void tree_lay_out(Tree *tree)
{
  uint32_t tokens = tree->tokens.count - 1, own = 0;
  tree->chains_at = arena_array(tree->arena, tokens + 1, sizeof *tree->chains_at);
  tree->closes = arena_array(tree->arena, tokens + 1, sizeof *tree->closes);
  for (uint32_t i = 0; i < tree->chain_count; i++) {
    Chain *c = &tree->chains[i];
    grant_parens(tree, c);
    if (c->parens == 0) continue;
    tree->chains_at[c->at.first] = i + 1;
    place_closes(tree, c);
    own += own_lines(c);
  }
  tree->lines = arena_array(tree->arena, tokens + own + 2, sizeof *tree->lines);
  tree->line_count = 2; /* there is no line 0, and line 1 is the head */
  for (uint32_t t = 0; t < tokens; t++) {
    const Chain *c = tree->chains_at[t] ? &tree->chains[tree->chains_at[t] - 1] : NULL;
    for (uint32_t i = c ? own_lines(c) : 0; i > 0; i--) add_line(tree, t, nth_call_1(tree, c, i + 1));
    add_line(tree, t, 0);
  }
}

/* ---- writing */

static void add_quoted(Buf *out, const char *bytes, size_t length)
{
  buf_putc(out, '"');
  for (size_t i = 0; i < length; i++) {
    unsigned char c = (unsigned char)bytes[i];
    if (c == '"' || c == '\\') buf_printf(out, "\\%c", c);
    else if (c < ' ') buf_printf(out, "\\%03d", c);
    else buf_putc(out, (char)c);
  }
  buf_putc(out, '"');
}

static void add_token(const Tree *tree, Token token, Buf *out)
{
  if (!(token.flags & TOKEN_LINES)) {
    buf_add(out, tree->text + token.begin, token.end - token.begin);
    return;
  }
  Buf value = { 0 };
  lexer_string_value(tree->text, token, &value);
  add_quoted(out, buf_text(&value), value.length);
  buf_free(&value);
}

static void add_openings(const Tree *tree, uint32_t token, Buf *out)
{
  if (tree->chains_at[token] == 0) return;
  const Chain *c = &tree->chains[tree->chains_at[token] - 1];
  uint32_t own = own_lines(c);
  if (c->is_statement) buf_putc(out, ';');
  if (has_late(c)) buf_putc(out, '(');
  while (own-- > 0) buf_puts(out, "(\n");
  if (has_early(c)) buf_putc(out, '(');
}

static void add_mark(const Table *table, uint32_t id, Buf *out)
{
  char mark[32];
  int length = snprintf(mark, sizeof mark, "%s_mark(%u,", table->is_argument ? "(" : "", id);
  buf_add(out, mark, (size_t)length);
}

/* Is the token the end of `(...)` or `(a, b, ...)`? */
static bool ends_varargs(const Tree *tree, uint32_t token)
{
  const Token *at = tree->tokens.at;
  return token > 0 && at[token].kind == TOK_RIGHT_PAREN && at[token - 1].kind == TOK_DOTS;
}

/* Where a body begins, or before a jump, the host is told how many steps it costs. Any number of arguments cost
 * more. */
static void add_tick(const Tree *tree, uint32_t token, Buf *out)
{
  char tick[32];
  const char *arguments = ends_varargs(tree, token) ? ", ..." : "";
  int length = snprintf(tick, sizeof tick, " _tick(%u%s);", tree->ticks[token], arguments);
  buf_add(out, tick, (size_t)length);
}

void tree_rewrite(const Tree *tree, Buf *out)
{
  uint32_t tokens = tree->tokens.count - 1, tables = 0, depth = 0;
  uint32_t open[SYNTAX_DEPTH + 1];
  buf_puts(out, head);
  for (uint32_t t = 0; t < tokens; t++) {
    Token token = tree->tokens.at[t];
    bool jumps = token.kind == TOK_GOTO;
    add_openings(tree, t, out);
    if (jumps) {
      buf_puts(out, "do");
      add_tick(tree, t, out);
      buf_putc(out, ' ');
    }
    if (token.kind == TOK_LEFT_BRACE) {
      open[depth++] = ++tables;
      add_mark(&tree->tables[tables], tables, out);
    }
    add_token(tree, token, out);
    if (token.kind == TOK_RIGHT_BRACE) buf_puts(out, tree->tables[open[--depth]].is_argument ? "))" : ")");
    for (int i = tree->closes[t]; i > 0; i--) buf_putc(out, ')');
    if (tree->ticks[t] && !jumps) add_tick(tree, t, out);
    if (t > 0 && tree->tokens.at[t - 1].kind == TOK_GOTO) buf_puts(out, " end");
    buf_putc(out, '\n');
  }
}
