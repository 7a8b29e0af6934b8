/* parser_expressions.c - expressions and call chains of the grammar. */
#include <stdio.h>
#include <string.h>

#include "base/mem.h"
#include "lang/parser.h"

enum { UNARY_PRIORITY = 12 };

typedef struct {
  uint8_t left, right; /* as in the Lua manual, 3.4.8; 0: no binary operator */
} Priority;

static Priority priority_of(TokenKind kind)
{
  static const Priority priorities[TOK_KINDS] = {
    [TOK_OR] = { 1, 1 },            [TOK_AND] = { 2, 2 },          [TOK_LESS] = { 3, 3 },
    [TOK_GREATER] = { 3, 3 },       [TOK_LESS_EQUAL] = { 3, 3 },   [TOK_GREATER_EQUAL] = { 3, 3 },
    [TOK_UNEQUAL] = { 3, 3 },       [TOK_EQUAL] = { 3, 3 },        [TOK_PIPE] = { 4, 4 },
    [TOK_TILDE] = { 5, 5 },         [TOK_AMPERSAND] = { 6, 6 },    [TOK_SHIFT_LEFT] = { 7, 7 },
    [TOK_SHIFT_RIGHT] = { 7, 7 },   [TOK_CONCAT] = { 9, 8 },       [TOK_PLUS] = { 10, 10 },
    [TOK_MINUS] = { 10, 10 },       [TOK_STAR] = { 11, 11 },       [TOK_SLASH] = { 11, 11 },
    [TOK_FLOOR_DIVIDE] = { 11, 11 }, [TOK_PERCENT] = { 11, 11 },   [TOK_CARET] = { 14, 13 },
  };
  return priorities[kind];
}

static bool is_comparison(TokenKind kind) { return priority_of(kind).left == 3; }

static bool is_unary(TokenKind kind)
{
  return kind == TOK_NOT || kind == TOK_MINUS || kind == TOK_TILDE || kind == TOK_HASH;
}

bool parser_begins_expression(TokenKind kind)
{
  switch (kind) {
    case TOK_NAME: case TOK_STRING: case TOK_NUMBER: case TOK_NIL: case TOK_TRUE: case TOK_FALSE: case TOK_DOTS:
    case TOK_FUNCTION: case TOK_LEFT_BRACE: case TOK_LEFT_PAREN: case TOK_NOT: case TOK_HASH: return true;
    default: return false;
  }
}

/* ---- calls */

static bool opens_arguments(TokenKind kind)
{
  return kind == TOK_LEFT_PAREN || kind == TOK_STRING || kind == TOK_LEFT_BRACE;
}

static void add_argument(Parser *p, Stretch at)
{
  if (p->open_argument_count == p->open_argument_room) {
    p->open_argument_room = p->open_argument_room * 2 + 64;
    p->open_arguments = mem_grow(p->open_arguments, p->open_argument_room, sizeof *p->open_arguments);
  }
  p->open_arguments[p->open_argument_count++] = at;
}

/* Do the arguments end with a `)` on this line, before a `}` ends what is round them? */
static bool closes_before_brace(const Parser *p)
{
  int open = 0;
  for (uint32_t at = p->pos; p->tokens[at].kind != TOK_EOF && (at == p->pos || !parser_is_first(p, at)); at++) {
    TokenKind kind = p->tokens[at].kind;
    if (kind == TOK_LEFT_PAREN || kind == TOK_LEFT_BRACE) open++;
    if (kind != TOK_RIGHT_PAREN && kind != TOK_RIGHT_BRACE) continue;
    if (open-- == 0) return kind == TOK_RIGHT_PAREN;
  }
  return false;
}

/* `f(low = 3)`, or a `)` forgotten at the end of the line before `keep = "wet"`. */
static bool is_named_argument(Parser *p, bool *complained)
{
  if (parser_peek(p) != TOK_NAME || parser_peek_at(p, 1) != TOK_ASSIGN) return false;
  if (parser_is_first(p, p->pos) || !closes_before_brace(p)) {
    bool behind_comma = p->tokens[p->pos - 1].kind == TOK_COMMA; /* then that is the comma behind the call */
    parser_complain_unclosed(p, p->pos - behind_comma);
    p->opener_count--;
    p->panic = false;
    return true;
  }
  if (!*complained)
    parser_complain(p, parser_here(p),
                    (Advice){ .help = "to give values by name, pass a table: `f { name = value }`" },
                    "arguments have no names");
  *complained = true;
  p->pos += 2;
  return false;
}

static bool separate_arguments(Parser *p)
{
  parser_bare_quantity(p);
  if (parser_accept(p, TOK_COMMA)) return true;
  if (!parser_begins_expression(parser_peek(p)) || parser_is_first(p, p->pos)) return false;
  parser_complain(p, parser_after(p, p->pos),
                  (Advice){ .help = "put a comma here", .fix = ",", .fix_is_safe = true },
                  "a comma is missing between two arguments");
  return true;
}

/* Returns the last argument. */
static Expr parse_parenthesised_arguments(Parser *p)
{
  Expr last = { 0 };
  int held = 0;
  bool complained = false;
  parser_open(p, p->pos, TOK_RIGHT_PAREN);
  parser_next(p);
  if (parser_peek(p) != TOK_RIGHT_PAREN) {
    do {
      if (is_named_argument(p, &complained)) goto out;
      last = parse_expression(p);
      if (p->panic) break;
      add_argument(p, last.at);
      parser_hold(p, 1);
      held++;
    } while (separate_arguments(p));
  }
  parser_close(p);
out:
  parser_hold(p, -held);
  return last;
}

static Expr parse_arguments(Parser *p)
{
  if (parser_peek(p) == TOK_LEFT_PAREN) return parse_parenthesised_arguments(p);
  Expr only = { .kind = EXPR_VALUE, .at = { p->pos, p->pos } };
  if (parser_peek(p) == TOK_LEFT_BRACE) {
    only.kind = EXPR_TABLE;
    only.table = parse_table(p, true);
    only.at.last = p->pos - 1;
  } else {
    parser_next(p);
  }
  add_argument(p, only.at);
  return only;
}

static void add_call(Parser *p, uint32_t chain, uint32_t suffix, uint32_t word_1)
{
  Tree *tree = p->tree;
  Call call = { .suffix = suffix, .open = p->pos, .chain = chain, .word_1 = word_1 };
  uint32_t from = p->open_argument_count;
  Expr last = parse_arguments(p);
  call.before_1 = tree->chains[chain].last_call_1;
  call.at = (Stretch){ tree->chains[chain].at.first, p->pos - 1 };
  call.argument_count = p->open_argument_count - from;
  Stretch *arguments = arena_array(tree->arena, call.argument_count, sizeof *arguments);
  if (call.argument_count) memcpy(arguments, p->open_arguments + from, call.argument_count * sizeof *arguments);
  call.arguments = arguments;
  p->open_argument_count = from;
  if (p->panic) return;
  tree->calls[tree->call_count] = call;
  uint32_t call_1 = ++tree->call_count;
  if (last.kind == EXPR_TABLE) tree->tables[last.table].call_1 = call_1;
  tree->calls_at[call.open] = call_1;
  if (tree->chains[chain].calls++ == 0) tree->calls_at[call.at.first] = call_1;
  tree->chains[chain].last_call_1 = call_1;
}

/* ---- chains */

/* Behind a dot or colon. A keyword there is a mistake of one word. */
static bool parse_member(Parser *p)
{
  if (parser_accept(p, TOK_NAME)) return true;
  if (!token_is_keyword(parser_peek(p)) || parser_is_first(p, p->pos)) {
    parser_unexpected(p, "a name is expected behind the dot or colon");
    return false;
  }
  const char *word = token_text(parser_peek(p));
  char fix[20], help[60];
  snprintf(fix, sizeof fix, "[\"%s\"]", word);
  snprintf(help, sizeof help, "write `%s` in place of `.%s`", fix, word);
  bool dot = p->tokens[p->pos - 1].kind == TOK_DOT;
  Range at = { p->tokens[p->pos - 1].begin, p->tokens[p->pos].end };
  parser_complain(p, at, (Advice){ .help = dot ? help : NULL, .fix = dot ? fix : NULL, .fix_is_safe = dot },
                  "`%s` is a word of Lua and cannot be a name", word);
  parser_next(p);
  return true;
}

static Expr parse_primary(Parser *p)
{
  Expr e = { .kind = EXPR_VALUE, .at = { p->pos, p->pos } };
  if (parser_peek(p) == TOK_NAME) {
    e.variable = scope_find(&p->scope, p->pos);
    e.kind = e.variable ? EXPR_LOCAL : EXPR_GLOBAL;
    parser_next(p);
  } else if (parser_peek(p) == TOK_LEFT_PAREN) {
    parser_open(p, p->pos, TOK_RIGHT_PAREN);
    parser_next(p);
    parse_expression(p);
    parser_close(p);
    e.at.last = p->pos - 1;
  } else {
    parser_unexpected(p, "a value is expected here");
  }
  return e;
}

static uint32_t open_chain(Parser *p, bool is_statement)
{
  uint32_t chain = p->tree->chain_count++;
  p->tree->chains[chain] =
      (Chain){ .at = { p->pos, p->pos }, .parent_1 = p->chain_1, .is_statement = is_statement };
  p->chain_1 = chain + 1;
  return chain;
}

static bool reads_variable(ExprKind kind) { return kind == EXPR_GLOBAL || kind == EXPR_INDEX; }

static void parse_index(Parser *p)
{
  parser_open(p, p->pos, TOK_RIGHT_BRACKET);
  parser_next(p);
  parse_expression(p);
  parser_close(p);
}

/* One `.name`, `[index]`, `:name(...)` or `(...)`; false if there is none. */
static bool parse_suffix(Parser *p, uint32_t chain, Expr *e, uint32_t *word_1)
{
  uint32_t suffix = p->pos;
  TokenKind kind = parser_peek(p);
  if (kind == TOK_DOT) {
    parser_next(p);
    if (parse_member(p)) *word_1 = p->pos;
    e->kind = EXPR_INDEX;
  } else if (kind == TOK_LEFT_BRACKET) {
    parse_index(p);
    *word_1 = 0;
    e->kind = EXPR_INDEX;
  } else if (kind == TOK_COLON || opens_arguments(kind)) {
    if (kind == TOK_COLON) {
      parser_next(p);
      if (!parse_member(p)) return true;
      *word_1 = p->pos;
      if (p->tree->chains[chain].calls == 0) p->tree->chains[chain].reads_early = reads_variable(e->kind);
      if (!opens_arguments(parser_peek(p))) {
        parser_unexpected(p, "arguments are expected behind a method's name");
        return true;
      }
    }
    add_call(p, chain, suffix, *word_1);
    e->kind = EXPR_CALL;
  } else {
    return false;
  }
  e->at.last = p->pos - 1;
  return true;
}

/* Tokens that Lua steps over before it reads the variable or index in front of them. */
static bool is_read_late(TokenKind next)
{
  return next == TOK_COMMA || next == TOK_RIGHT_PAREN || next == TOK_THEN || next == TOK_SEMICOLON ||
         priority_of(next).left > 0;
}

Expr parse_chain(Parser *p, bool is_statement)
{
  uint32_t outer = p->chain_1, chain = open_chain(p, is_statement);
  uint32_t word_1 = parser_peek(p) == TOK_NAME ? p->pos + 1 : 0;
  Expr e = parse_primary(p);
  parser_hold(p, 2);
  while (!p->panic && parse_suffix(p, chain, &e, &word_1)) continue;
  parser_hold(p, -2);
  Chain *c = &p->tree->chains[chain];
  c->at = e.at;
  c->reads_late = !is_statement && reads_variable(e.kind) && is_read_late(parser_peek(p));
  p->chain_1 = outer;
  bool useless = c->calls == 0 && !c->reads_late && chain + 1 == p->tree->chain_count;
  if (useless) p->tree->chain_count--;
  return e;
}

/* ---- operators */

static Expr parse_dots(Parser *p)
{
  Expr e = { .kind = EXPR_MANY, .at = { p->pos, p->pos } };
  if (p->scope.function_count == 1)
    parser_complain(p, parser_here(p), (Advice){ .help = "a file gets no arguments" },
                    "`...` stands outside a function");
  else if (!scope_function(&p->scope)->vararg)
    parser_complain(p, parser_here(p), (Advice){ .help = "add `...` to the parameters of the function" },
                    "this function takes no `...`");
  parser_next(p);
  return e;
}

static Expr parse_simple(Parser *p)
{
  Expr e = { .kind = EXPR_VALUE, .at = { p->pos, p->pos } };
  switch (parser_peek(p)) {
    case TOK_NUMBER: case TOK_STRING: case TOK_NIL: case TOK_TRUE: case TOK_FALSE:
      parser_next(p);
      return e;
    case TOK_DOTS: return parse_dots(p);
    case TOK_LEFT_BRACE:
      e.kind = EXPR_TABLE;
      e.table = parse_table(p, false);
      break;
    case TOK_FUNCTION:
      parser_next(p);
      parse_function(p, e.at.first, false);
      break;
    default: return parse_chain(p, false);
  }
  e.at.last = p->pos - 1;
  return e;
}

static void add_operation(Parser *p, uint32_t sign, Stretch at)
{
  Tree *tree = p->tree;
  tree->operations[tree->operation_count] = at;
  tree->operations_at[sign] = ++tree->operation_count;
  if (is_comparison(p->tokens[sign].kind)) tree->operations_at[at.last] = tree->operation_count;
}

/* Lua makes one instruction of `a .. b .. c` and reports the last sign; so that sign stands for all of them. */
static void widen_concat(Parser *p, uint32_t sign, uint32_t first)
{
  uint32_t operation_1 = p->tree->operations_at[sign];
  if (operation_1) p->tree->operations[operation_1 - 1].first = first;
}

/* `80 %` as a value: a percentage that lost its quotes. */
static bool is_bare_percentage(Parser *p, Expr left)
{
  TokenKind next = parser_peek_at(p, 1);
  bool number = left.at.first == left.at.last && p->tokens[left.at.last].kind == TOK_NUMBER;
  if (!number || parser_peek(p) != TOK_PERCENT ||
      (next != TOK_COMMA && next != TOK_RIGHT_BRACE && next != TOK_RIGHT_PAREN))
    return false;
  Range at = { p->tokens[left.at.first].begin, p->tokens[p->pos].end };
  char fix[60];
  snprintf(fix, sizeof fix, "\"%s %%\"", parser_quote(p, left.at.first).text);
  parser_complain(p, at,
                  (Advice){ .help = "a value with a unit is a text, in quotes", .fix = fix, .fix_is_safe = true },
                  "a percentage stands here without quotes");
  parser_next(p);
  return true;
}

static Expr parse_operation(Parser *p, int above, uint32_t *concat);

static Expr parse_unary(Parser *p)
{
  Expr e = { .kind = EXPR_VALUE, .at = { p->pos, p->pos } };
  uint32_t concat;
  parser_next(p);
  parse_operation(p, UNARY_PRIORITY, &concat);
  e.at.last = p->pos - 1;
  return e;
}

/* *concat becomes the last `..` of the expression, if it is a concatenation. */
static Expr parse_operation(Parser *p, int above, uint32_t *concat)
{
  Expr left = { .kind = EXPR_VALUE, .at = { p->pos, p->pos } };
  *concat = 0;
  if (!parser_enter(p)) return left;
  left = is_unary(parser_peek(p)) ? parse_unary(p) : parse_simple(p);
  while (!p->panic && priority_of(parser_peek(p)).left > above && !is_bare_percentage(p, left)) {
    uint32_t sign = p->pos, inner = 0;
    parser_next(p);
    parser_hold(p, 1);
    parse_operation(p, priority_of(p->tokens[sign].kind).right, &inner);
    parser_hold(p, -1);
    left.kind = EXPR_VALUE;
    left.at.last = p->pos - 1;
    if (p->panic) break;
    add_operation(p, sign, left.at);
    *concat = p->tokens[sign].kind != TOK_CONCAT ? 0 : inner ? inner : sign;
    if (*concat) widen_concat(p, *concat, left.at.first);
  }
  p->depth--;
  return left;
}

Expr parse_expression(Parser *p)
{
  uint32_t concat;
  return parse_operation(p, 0, &concat);
}

void parse_list(Parser *p, uint32_t *count)
{
  uint32_t held = 0;
  do {
    parse_expression(p);
    parser_hold(p, 1);
    held++;
  } while (!p->panic && parser_accept(p, TOK_COMMA));
  parser_hold(p, -(int)held);
  *count = held;
}
