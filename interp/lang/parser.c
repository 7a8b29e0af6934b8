/* parser.c - statements of the grammar, and the way into the parser. */
#include "lang/parser.h"

#include <stdio.h>
#include <string.h>

#include "base/mem.h"

static void parse_statement(Parser *p);

TokenKind parser_name(Parser *p, const char *what)
{
  if (parser_accept(p, TOK_NAME)) return TOK_NAME;
  if (token_is_keyword(parser_peek(p)) && !parser_is_first(p, p->pos)) {
    const char *word = token_text(parser_peek(p));
    parser_complain(p, parser_here(p), (Advice){ .help = "take another name" },
                    "`%s` is a word of Lua and cannot be a name", word);
  } else {
    parser_unexpected(p, what);
  }
  p->panic = true;
  return TOK_EOF;
}

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

static void parse_statements(Parser *p)
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

static void parse_block(Parser *p, bool loop)
{
  scope_open_block(&p->scope, loop);
  parse_statements(p);
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

/* After an error in the head of a block its body is still read: the panic ends where the body can begin. */
static void leave_panic_at(Parser *p, TokenKind opening)
{
  if (!p->panic || p->stopped) return;
  uint32_t at = p->pos;
  while (p->tokens[at].kind != opening && p->tokens[at].kind != TOK_EOF && !(at > p->pos && parser_is_first(p, at)))
    at++;
  if (p->tokens[at].kind != opening) {
    p->shaken = true;
    return;
  }
  p->pos = at;
  p->panic = false;
}

/* ---- control structures */

static void parse_if(Parser *p)
{
  parser_open(p, p->pos, TOK_END);
  do {
    parser_next(p);
    parse_condition(p);
    leave_panic_at(p, TOK_THEN);
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
  leave_panic_at(p, TOK_DO);
  expect_opening(p, TOK_DO, "while");
  if (!p->panic) parse_block(p, true);
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
  parser_open(p, p->pos, TOK_UNTIL);
  parser_next(p);
  scope_open_block(&p->scope, true);
  scope_open_block(&p->scope, false);
  parse_statements(p);
  parser_close(p);
  if (!p->panic) parse_condition(p);
  scope_close_block(&p->scope);
  scope_close_block(&p->scope);
}

/* The loop's own names, from the token `names` on, are declared for the body only. */
static void parse_for_body(Parser *p, uint32_t names, uint32_t count)
{
  leave_panic_at(p, TOK_DO);
  expect_opening(p, TOK_DO, "for");
  if (p->panic) return;
  scope_open_block(&p->scope, false);
  for (uint32_t i = 0; i < count; i++) scope_declare(&p->scope, names + 2 * i, false);
  parse_block(p, false);
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
  parser_next(p);
  uint32_t name = p->pos;
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

/* ---- functions */

/* Is this bracket closed on the line? Then what does not belong before it is the mistake, and not the bracket. */
static bool closes_on_line(const Parser *p)
{
  uint32_t at = p->pos;
  while (p->tokens[at].kind != TOK_RIGHT_PAREN && p->tokens[at].kind != TOK_EOF && !parser_is_first(p, at)) at++;
  return p->tokens[at].kind == TOK_RIGHT_PAREN;
}

static bool parse_parameters(Parser *p)
{
  bool vararg = false;
  while (!p->panic && parser_peek(p) != TOK_RIGHT_PAREN) {
    uint32_t name = p->pos;
    if (parser_accept(p, TOK_DOTS)) {
      vararg = true;
      break;
    }
    if (parser_name(p, "the name of a parameter is expected") != TOK_NAME) break;
    scope_declare(&p->scope, name, false);
    if (!parser_accept(p, TOK_COMMA)) break;
    if (parser_peek(p) == TOK_RIGHT_PAREN) parser_unexpected(p, "the name of a parameter is expected");
  }
  if (parser_peek(p) != TOK_RIGHT_PAREN && closes_on_line(p))
    parser_unexpected(p, "`)` is expected behind the parameters");
  return vararg;
}

void parse_function(Parser *p, uint32_t function, bool is_method)
{
  uint32_t outer_chain_1 = p->chain_1;
  parser_open(p, function, TOK_END);
  scope_open_function(&p->scope, false);
  if (is_method) scope_declare_self(&p->scope, function);
  if (parser_expect(p, TOK_LEFT_PAREN, "before the parameters of a function")) {
    parser_open(p, p->pos - 1, TOK_RIGHT_PAREN);
    scope_function(&p->scope)->vararg = parse_parameters(p);
    parser_close(p);
  }
  leave_panic_at(p, TOK_RIGHT_PAREN);
  if (!p->panic) parser_accept(p, TOK_RIGHT_PAREN);
  if (!p->panic) parse_statements(p);
  scope_close_function(&p->scope);
  p->chain_1 = outer_chain_1;
  parser_close(p);
}

static void refuse_constant(Parser *p, const Variable *variable, uint32_t token)
{
  if (variable == NULL || !variable->constant) return;
  Quote name = parser_quote(p, token);
  Advice advice = { .help = "take away its `<const>`, or use another variable" };
  advice.labels[0].at = token_range(p->tokens[variable->token]);
  advice.labels[0].text = "declared here";
  parser_complain(p, token_range(p->tokens[token]), advice, "`%s` is a constant", name.text);
}

static void refuse_environment(Parser *p, uint32_t token)
{
  if (p->tokens[token].symbol == SYMBOL_ENV)
    parser_complain(p, token_range(p->tokens[token]), (Advice){ .help = "keep values in a table of your own" },
                    "`_ENV` cannot be replaced");
}

static void parse_function_statement(Parser *p)
{
  uint32_t function = p->pos, name;
  bool is_method = false;
  parser_next(p);
  name = p->pos;
  if (parser_name(p, "the name of a function is expected") == TOK_NAME) {
    const Variable *variable = scope_find(&p->scope, name);
    bool plain = parser_peek(p) != TOK_DOT && parser_peek(p) != TOK_COLON;
    if (plain) refuse_constant(p, variable, name), refuse_environment(p, name);
    while (!p->panic && parser_accept(p, TOK_DOT)) parser_name(p, "a name is expected behind the dot");
    is_method = !p->panic && parser_accept(p, TOK_COLON);
    if (is_method) parser_name(p, "the name of a method is expected");
  }
  leave_panic_at(p, TOK_LEFT_PAREN);
  parse_function(p, function, is_method);
}

/* ---- locals */

/* `<const>` behind a name. `<close>` would run code when a recipe is left, which recipes have no use for. */
static bool parse_attribute(Parser *p)
{
  if (!parser_accept(p, TOK_LESS)) return false;
  Quote word = parser_quote(p, p->pos);
  bool is_const = strcmp(word.text, "const") == 0, is_close = strcmp(word.text, "close") == 0;
  if (is_close)
    parser_complain(p, parser_here(p), (Advice){ .help = "leave it away; nothing in a recipe needs closing" },
                    "`<close>` is not allowed in a recipe");
  else if (!is_const)
    parser_complain(p, parser_here(p), (Advice){ .help = "there is `<const>` only" }, "`%s` is not an attribute",
                    word.text);
  parser_next(p);
  parser_expect(p, TOK_GREATER, "behind an attribute");
  return is_const;
}

static void parse_local_function(Parser *p, uint32_t function)
{
  uint32_t name = p->pos;
  if (parser_name(p, "the name of a function is expected") == TOK_NAME) scope_declare(&p->scope, name, false);
  leave_panic_at(p, TOK_LEFT_PAREN);
  parse_function(p, function, false);
}

static void parse_local(Parser *p)
{
  uint32_t names[SCOPE_LOCALS + 1], count = 0, values, function = p->pos + 1;
  bool constant[SCOPE_LOCALS + 1];
  parser_next(p);
  if (parser_accept(p, TOK_FUNCTION)) {
    parse_local_function(p, function);
    return;
  }
  do {
    uint32_t name = p->pos;
    if (parser_name(p, "a name is expected behind `local`") != TOK_NAME) return;
    bool is_constant = parse_attribute(p);
    if (count <= SCOPE_LOCALS) names[count] = name, constant[count++] = is_constant;
  } while (!p->panic && parser_accept(p, TOK_COMMA));
  if (!p->panic && parser_accept(p, TOK_ASSIGN)) parse_list(p, &values);
  for (uint32_t i = 0; i < count; i++) scope_declare(&p->scope, names[i], constant[i]);
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
  refuse_constant(p, e.variable, e.at.first);
  refuse_environment(p, e.at.first);
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
  } else if (!p->shaken) {
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
  scope_hide(&p->scope, 1); /* _mark */
  for (;;) {
    parse_statements(p);
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
  scope_init(&p.scope, &complaints, scratch, tokens->at, tokens->count, tokens->symbols);
  parse_file(&p);
  mem_free(p.open_fields);
  mem_free(p.open_arguments);
  arena_free(scratch);
  tree->sound = complaints.count == 0;
  if (tree->sound) tree_lay_out(tree);
  return tree;
}
