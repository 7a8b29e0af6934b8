/* parser_functions.c - functions, and local variables with their attributes. */
#include <string.h>

#include "lang/parser.h"

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
  parser_leave_panic_at(p, TOK_RIGHT_PAREN);
  if (!p->panic) parser_accept(p, TOK_RIGHT_PAREN);
  uint32_t opening = p->pos - 1;
  if (!p->panic) parser_statements(p);
  parser_tick(p, opening);
  scope_close_function(&p->scope);
  p->chain_1 = outer_chain_1;
  parser_close(p);
}

void parser_refuse_constant(Parser *p, const Variable *variable, uint32_t token)
{
  if (variable == NULL || !variable->constant) return;
  Quote name = parser_quote(p, token);
  Advice advice = { .help = "take away its `<const>`, or use another variable" };
  advice.labels[0].at = token_range(p->tokens[variable->token]);
  advice.labels[0].text = "declared here";
  parser_complain(p, token_range(p->tokens[token]), advice, "`%s` is a constant", name.text);
}

void parser_refuse_environment(Parser *p, uint32_t token)
{
  if (p->tokens[token].symbol == SYMBOL_ENV)
    parser_complain(p, token_range(p->tokens[token]), (Advice){ .help = "keep values in a table of your own" },
                    "`_ENV` cannot be replaced");
}

void parse_function_statement(Parser *p)
{
  uint32_t function = p->pos, name;
  bool is_method = false;
  parser_next(p);
  name = p->pos;
  if (parser_name(p, "the name of a function is expected") == TOK_NAME) {
    const Variable *variable = scope_find(&p->scope, name);
    bool plain = parser_peek(p) != TOK_DOT && parser_peek(p) != TOK_COLON;
    if (plain) parser_refuse_constant(p, variable, name), parser_refuse_environment(p, name);
    while (!p->panic && parser_accept(p, TOK_DOT)) parser_name(p, "a name is expected behind the dot");
    is_method = !p->panic && parser_accept(p, TOK_COLON);
    if (is_method) parser_name(p, "the name of a method is expected");
  }
  parser_leave_panic_at(p, TOK_LEFT_PAREN);
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
  parser_leave_panic_at(p, TOK_LEFT_PAREN);
  parse_function(p, function, false);
}

void parse_local(Parser *p)
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
