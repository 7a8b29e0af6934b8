/* parser.c - statements of the grammar, and the way into the parser. */
#include "lang/parser.h"

#include <stdio.h>

#include "base/mem.h"

static void parse_statement(Parser *p);

/* ---- blocks */

/* Something behind `return`: it has to be the last statement of its block. */
static void check_return_is_last(Parser *p, uint32_t returned)
{
  TokenKind kind = parser_peek(p);
  if (parser_ends_block(kind) || kind == TOK_RIGHT_BRACE || kind == TOK_RIGHT_PAREN || kind == TOK_RIGHT_BRACKET)
    return;
  if (p->panic) return;
  Advice advice = { .help = "delete what follows, or put the `return` into `do ... end`" };
  advice.labels[0].at = token_range(p->tokens[returned]);
  advice.labels[0].text = "the block ends with this";
  parser_complain(p, parser_here(p), advice, "nothing may follow a `return` in its block");
}

void parser_statements(Parser *p)
{
  while (!parser_ends_block(parser_peek(p))) {
    uint32_t begin = p->pos;
    parser_note_indent(p);
    parse_statement(p);
    if (p->tokens[begin].kind == TOK_RETURN) check_return_is_last(p, begin);
    if (p->panic) parser_resume_statement(p, begin);
    if (p->pos == begin && !parser_ends_block(parser_peek(p))) parser_next(p);
  }
}

enum { TICK = 4 }; /* steps for going round at all, beside one for every two tokens of the body */

void parser_tick(Parser *p, uint32_t opening) { p->tree->ticks[opening] = TICK + (p->pos - opening) / 2; }

static void parse_block(Parser *p, bool loop)
{
  scope_open_block(&p->scope, loop);
  parser_statements(p);
  scope_close_block(&p->scope);
}

/* `then` or `do` that was forgotten is put in: what follows is sound. */
static void expect_opening(Parser *p, TokenKind kind, const char *of)
{
  if (p->panic || parser_accept(p, kind)) return;
  if (parser_peek(p) == TOK_LEFT_BRACE ||
      !(parser_is_first(p, p->pos) || parser_begins_statement(parser_peek(p)))) {
    char where[40];
    snprintf(where, sizeof where, "behind the head of `%s`", of);
    parser_expect(p, kind, where);
    return;
  }
  char fix[8], help[24];
  snprintf(fix, sizeof fix, " %s", token_text(kind));
  snprintf(help, sizeof help, "put `%s` here", token_text(kind));
  parser_complain(p, parser_after(p, p->pos), (Advice){ .help = help, .fix = fix, .fix_is_safe = true },
                  "`%s` is missing behind the head of `%s`", token_text(kind), of);
}

/* A condition; `=` in it was meant as `==`. */
static void parse_condition(Parser *p)
{
  parse_expression(p);
  while (!p->panic && parser_peek(p) == TOK_ASSIGN) {
    parser_complain(p, parser_here(p),
                    (Advice){ .help = "to compare write `==`", .fix = "==", .fix_is_safe = true },
                    "`=` gives a value; it does not compare");
    parser_next(p);
    parse_expression(p);
  }
}

/* ---- control structures */

static void parse_if(Parser *p)
{
  parser_open(p, p->pos, TOK_END);
  do {
    parser_next(p);
    parse_condition(p);
    parser_leave_panic_at(p, TOK_THEN);
    expect_opening(p, TOK_THEN, "if");
    if (!p->panic) parse_block(p, false);
  } while (!p->panic && parser_peek(p) == TOK_ELSEIF);
  if (!p->panic && parser_accept(p, TOK_ELSE)) parse_block(p, false);
  parser_close(p);
}

static void parse_while(Parser *p)
{
  parser_open(p, p->pos, TOK_END);
  parser_next(p);
  parse_condition(p);
  parser_leave_panic_at(p, TOK_DO);
  expect_opening(p, TOK_DO, "while");
  uint32_t opening = p->pos - 1;
  if (!p->panic) parse_block(p, true);
  parser_tick(p, opening);
  parser_close(p);
}

static void parse_do(Parser *p)
{
  parser_open(p, p->pos, TOK_END);
  parser_next(p);
  parse_block(p, false);
  parser_close(p);
}

static void parse_repeat(Parser *p)
{
  uint32_t opening = p->pos;
  parser_open(p, opening, TOK_UNTIL);
  parser_next(p);
  scope_open_block(&p->scope, true);
  scope_open_block(&p->scope, false);
  parser_statements(p);
  parser_close(p);
  if (!p->panic) parse_condition(p);
  parser_tick(p, opening);
  scope_close_block(&p->scope);
  scope_close_block(&p->scope);
}

/* The loop's own names, from the token `names` on, are declared for the body only. */
static void parse_for_body(Parser *p, uint32_t names, uint32_t count)
{
  parser_leave_panic_at(p, TOK_DO);
  expect_opening(p, TOK_DO, "for");
  if (p->panic) return;
  scope_open_block(&p->scope, false);
  for (uint32_t i = 0; i < count; i++) scope_declare(&p->scope, names + 2 * i, false);
  uint32_t opening = p->pos - 1;
  parse_block(p, false);
  parser_tick(p, opening);
  scope_close_block(&p->scope);
}

static void parse_numeric_for(Parser *p, uint32_t name)
{
  parser_next(p);
  uint32_t values = 0;
  parse_list(p, &values);
  if (!p->panic && (values < 2 || values > 3))
    parser_complain(p, parser_here(p),
                    (Advice){ .help = "for instance `for i = 1, 10 do` or `for i = 10, 1, -1 do`" },
                    "a counting loop needs a first and a last value, and may have a step");
  scope_hide(&p->scope, 3);
  parse_for_body(p, name, 1);
}

static void parse_generic_for(Parser *p, uint32_t name)
{
  uint32_t count = 1, values = 0;
  while (parser_accept(p, TOK_COMMA) && parser_name(p, "a name is expected behind the comma") == TOK_NAME) count++;
  if (!p->panic && parser_expect(p, TOK_IN, "behind the names of a loop")) parse_list(p, &values);
  scope_hide(&p->scope, 4);
  parse_for_body(p, name, count);
}

static void parse_for(Parser *p)
{
  parser_open(p, p->pos, TOK_END);
  parser_next(p);
  uint32_t name = p->pos;
  scope_open_block(&p->scope, true);
  if (parser_name(p, "a name is expected behind `for`") == TOK_NAME) {
    if (parser_peek(p) == TOK_ASSIGN) parse_numeric_for(p, name);
    else parse_generic_for(p, name);
  }
  scope_close_block(&p->scope);
  parser_close(p);
}

static void parse_return(Parser *p)
{
  uint32_t values;
  parser_next(p);
  if (!parser_ends_block(parser_peek(p)) && parser_peek(p) != TOK_SEMICOLON) parse_list(p, &values);
  if (!p->panic && parser_peek(p) == TOK_ASSIGN)
    parser_unexpected(p, "a value is expected behind `return`; `=` does not compare");
  parser_accept(p, TOK_SEMICOLON);
}

/* ---- jumps */

static void parse_goto(Parser *p)
{
  uint32_t jump = p->pos;
  parser_next(p);
  uint32_t name = p->pos;
  parser_tick(p, jump);
  if (parser_name(p, "the name of a label is expected behind `goto`") == TOK_NAME) scope_goto(&p->scope, name);
}

/* What follows without effect is read first, since a label at the very end of a block lies outside its locals. */
static void parse_label(Parser *p)
{
  parser_next(p);
  uint32_t name = p->pos;
  if (parser_name(p, "the name of a label is expected behind `::`") != TOK_NAME) return;
  if (!parser_expect(p, TOK_DOUBLE_COLON, "behind the name of a label")) return;
  while (!p->panic && (parser_peek(p) == TOK_SEMICOLON || parser_peek(p) == TOK_DOUBLE_COLON)) parse_statement(p);
  bool ends_block = parser_ends_block(parser_peek(p)) && parser_peek(p) != TOK_UNTIL;
  scope_label(&p->scope, name, ends_block);
}

/* ---- assignments and calls */

static bool is_target(Expr e) { return e.kind == EXPR_LOCAL || e.kind == EXPR_GLOBAL || e.kind == EXPR_INDEX; }

static void check_target(Parser *p, Expr e)
{
  if (p->panic) return;
  if (!is_target(e)) {
    parser_complain(p, parser_range(p, e.at), (Advice){ .help = "a variable or a field stands left of `=`" },
                    "nothing can be assigned to this");
    return;
  }
  if (e.at.first != e.at.last) return;
  parser_refuse_constant(p, e.variable, e.at.first);
  parser_refuse_environment(p, e.at.first);
}

static void parse_assignment(Parser *p, Expr target)
{
  int levels = 0;
  uint32_t values = 0;
  check_target(p, target);
  parser_hold(p, 2);
  while (!p->panic && parser_accept(p, TOK_COMMA)) {
    levels++;
    if (!parser_enter(p)) break;
    check_target(p, parse_chain(p, true));
    parser_hold(p, 2);
  }
  if (!p->panic && parser_expect(p, TOK_ASSIGN, "in an assignment")) parse_list(p, &values);
  parser_hold(p, -2 * (levels + 1));
  if (!p->stopped) p->depth -= levels;
}

/* `x += 1` and `x++`. */
static bool refuse_short_assignment(Parser *p, Expr target)
{
  TokenKind sign = parser_peek(p), next = parser_peek_at(p, 1);
  bool touch = p->tokens[p->pos].end == p->tokens[p->pos + (sign != TOK_EOF)].begin;
  bool twice = next == sign && (sign == TOK_PLUS || sign == TOK_MINUS);
  if (!touch || !(twice || next == TOK_ASSIGN) || !is_target(target)) return false;
  Range at = { p->tokens[p->pos].begin, p->tokens[p->pos + 1].end };
  Quote name = complain_quote(p->complaints, parser_range(p, target.at)),
        written = complain_quote(p->complaints, at);
  char help[160], fix[80];
  const char *operator = token_text(sign);
  snprintf(help, sizeof help, "write `%s = %s %s %s`", name.text, name.text, operator, twice ? "1" : "...");
  const char *space = p->tokens[p->pos - 1].end == p->tokens[p->pos].begin ? " " : "";
  snprintf(fix, sizeof fix, "%s= %s %s%s", space, name.text, operator, twice ? " 1" : "");
  parser_complain(p, at, (Advice){ .help = help, .fix = fix }, "`%s` is not a sign of Lua", written.text);
  p->pos += 2;
  if (!twice) parse_expression(p);
  return true;
}

static void complain_no_statement(Parser *p, Expr e)
{
  TokenKind kind = parser_peek(p);
  if (p->panic) return;
  if (is_target(e) && kind == TOK_EQUAL) {
    parser_complain(p, parser_here(p), (Advice){ .help = "to give it a value write `=`", .fix = "=" },
                    "`==` compares; it does not give a value");
    parser_next(p);
    parse_expression(p);
  } else if (parser_inside_remark(p, e.at.last)) {
    return;
  } else if (parser_is_first(p, p->pos) || parser_ends_block(kind)) {
    uint32_t at = p->pos; /* the words are the mistake, not what follows them */
    if (e.at.last < p->pos && !parser_ends_block(kind)) p->pos = e.at.last;
    parser_complain(p, parser_range(p, e.at), (Advice){ .help = "assign it, return it, or call it" },
                    "a value alone does nothing");
    p->pos = at;
    p->panic = p->stopped;
  } else {
    parser_unexpected(p, "`=` or arguments of a call are expected");
  }
}

static void parse_expression_statement(Parser *p)
{
  Expr e = parse_chain(p, true);
  if (p->panic) return;
  TokenKind kind = parser_peek(p);
  if (kind == TOK_ASSIGN || kind == TOK_COMMA) parse_assignment(p, e);
  else if (!refuse_short_assignment(p, e) && e.kind != EXPR_CALL) complain_no_statement(p, e);
}

/* ---- statements */

/* `x = 1 +` and in the next line `y = 2`: the mistake is behind the sign. */
static bool complain_open_end(Parser *p)
{
  if (parser_peek(p) != TOK_ASSIGN || p->pos < 3 || !parser_is_first(p, p->pos - 1)) return false;
  if (parser_is_first(p, p->pos)) return false;
  uint32_t sign = p->pos - 2;
  parser_complain(p, token_range(p->tokens[sign]), (Advice){ 0 }, "what should follow this `%s` is missing",
                  token_text(p->tokens[sign].kind));
  parser_next(p);
  parse_expression(p);
  return true;
}

/* A bracket at the place of a statement: one too many, or an `end` in the manner of other languages. */
static void refuse_closer(Parser *p)
{
  const char *sign = token_text(parser_peek(p));
  const Opener *opener = p->opener_count ? &p->openers[p->opener_count - 1] : NULL;
  bool ends = opener && opener->closer == TOK_END && parser_is_first(p, p->pos) &&
              p->tokens[p->pos].indent <= p->tokens[opener->token].indent;
  if (ends) {
    Advice advice = { .help = "write `end`", .fix = "end" };
    advice.labels[0].at = token_range(p->tokens[opener->token]);
    advice.labels[0].text = "opened here";
    parser_complain(p, parser_here(p), advice, "`%s` does not close a `%s`", sign,
                    parser_quote(p, opener->token).text);
  } else if (!p->shaken && !(parser_peek(p) == TOK_RIGHT_BRACE && parser_complain_early(p))) {
    parser_complain(p, parser_here(p), (Advice){ .help = "delete it, or open what it should close" },
                    "this `%s` closes nothing", sign);
  }
  p->shaken |= opener != NULL;
  parser_next(p);
}

static void parse_other(Parser *p)
{
  TokenKind kind = parser_peek(p);
  if (kind == TOK_NAME || kind == TOK_LEFT_PAREN) parse_expression_statement(p);
  else if (parser_comment_typo(p) || complain_open_end(p)) return;
  else if (kind == TOK_RIGHT_BRACE || kind == TOK_RIGHT_PAREN || kind == TOK_RIGHT_BRACKET) refuse_closer(p);
  else parser_unexpected(p, "a statement is expected");
}

static void parse_statement(Parser *p)
{
  if (!parser_enter(p)) return;
  switch (parser_peek(p)) {
    case TOK_SEMICOLON: parser_next(p); break;
    case TOK_IF: parse_if(p); break;
    case TOK_WHILE: parse_while(p); break;
    case TOK_DO: parse_do(p); break;
    case TOK_FOR: parse_for(p); break;
    case TOK_REPEAT: parse_repeat(p); break;
    case TOK_FUNCTION: parse_function_statement(p); break;
    case TOK_LOCAL: parse_local(p); break;
    case TOK_RETURN: parse_return(p); break;
    case TOK_GOTO: parse_goto(p); break;
    case TOK_DOUBLE_COLON: parse_label(p); break;
    case TOK_BREAK:
      scope_break(&p->scope, p->pos);
      parser_next(p);
      break;
    default: parse_other(p);
  }
  p->depth--;
}

static void parse_file(Parser *p)
{
  scope_open_function(&p->scope, false);
  scope_hide(&p->scope, 2); /* _mark, _tick */
  for (;;) {
    parser_statements(p);
    if (parser_peek(p) == TOK_EOF) break;
    if (!p->shaken)
      parser_complain(p, parser_here(p), (Advice){ .help = "delete it, or open what it should close" },
                      "this `%s` closes nothing", token_text(parser_peek(p)));
    bool has_more = parser_peek(p) != TOK_END;
    p->shaken |= has_more;
    parser_next(p);
    if (has_more) parser_resume_statement(p, p->pos - 1);
  }
  scope_close_function(&p->scope);
}

/* ---- the way in */

/* Each call has an opener of its own, each chain a name or parenthesis, each operation a sign and an operand. */
static void make_room(Tree *tree)
{
  Arena *arena = tree->arena;
  uint32_t tokens = tree->tokens.count;
  tree->ticks = arena_array(tree->arena, tokens + 1, sizeof *tree->ticks);
  const uint32_t *kinds = tree->tokens.kinds;
  uint32_t openers = kinds[TOK_LEFT_PAREN] + kinds[TOK_LEFT_BRACE] + kinds[TOK_STRING];
  tree->tables = arena_array(arena, kinds[TOK_LEFT_BRACE] + 1, sizeof *tree->tables);
  tree->calls = arena_array(arena, openers + 1, sizeof *tree->calls);
  tree->chains = arena_array(arena, kinds[TOK_NAME] + kinds[TOK_LEFT_PAREN] + 2, sizeof *tree->chains);
  tree->operations = arena_array(arena, tokens / 2 + 1, sizeof *tree->operations);
  tree->calls_at = arena_array(arena, tokens, sizeof *tree->calls_at);
  tree->operations_at = arena_array(arena, tokens, sizeof *tree->operations_at);
}

Tree *tree_parse(const Sources *sources, uint32_t source, Diags *diags)
{
  size_t length;
  const char *text = sources_text(sources, source, &length);
  Complaints complaints = { source, text, (uint32_t)length, diags, 0 };
  Arena *arena = arena_new(), *scratch = arena_new();
  Tree *tree = arena_alloc(arena, sizeof *tree);
  *tree = (Tree){ .arena = arena, .source = source, .text = text, .tokens = lexer_run(&complaints, arena) };
  const Tokens *tokens = &tree->tokens;
  make_room(tree);
  Parser p = { .complaints = &complaints, .text = text, .tokens = tokens->at, .tree = tree,
               .brace_excess = (int)tokens->kinds[TOK_LEFT_BRACE] - (int)tokens->kinds[TOK_RIGHT_BRACE] };
  scope_init(&p.scope, &complaints, scratch, tokens);
  parse_file(&p);
  mem_free(p.open_fields);
  mem_free(p.open_arguments);
  arena_free(scratch);
  tree->sound = complaints.count == 0;
  if (tree->sound) tree_lay_out(tree);
  return tree;
}
