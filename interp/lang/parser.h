/* parser.h - what the files of the parser share.
 *
 * parser.c reads statements, parser_functions.c functions and locals, parser_expressions.c expressions and calls,
 * parser_tables.c tables and the mistakes made in them; parser_scope.c knows the names in sight; parser_recover.c
 * words the errors and finds the place to go on. An error that cannot be mended on the spot sets `panic`:
 * everything returns to the nearest list of statements or fields, which skips to a place where it can go on. While
 * in panic, twice at one token, or at what the lexer complained about, nothing is said. */
#ifndef LANG_PARSER_H
#define LANG_PARSER_H

#include "lang/parser_scope.h"
#include "lang/tree.h"

/* What stands open: a bracket or a block. */
typedef struct {
  uint32_t token;
  TokenKind closer;
  uint32_t missed; /* a token that looks, by its indentation, as if the closer should stand before it; 0: none */
} Opener;

typedef struct {
  Complaints *complaints;
  const char *text;
  const Token *tokens;
  uint32_t pos;
  Tree *tree;
  Scope scope;
  Field *open_fields; /* of the constructors being read, innermost last */
  Stretch *open_arguments;
  uint32_t open_field_count, open_field_room, open_argument_count, open_argument_room;
  uint32_t chain_1; /* the chain being read */
  int depth;
  Opener openers[4 * SYNTAX_DEPTH];
  uint32_t opener_count;
  Opener suspect; /* closed, but by a closer that seems meant for another; token 0 and closer TOK_EOF: none */
  Opener early;   /* closed in the middle of a line while a `}` is too many: `missed` is that token */
  uint32_t complained_1; /* the token of the last complaint */
  uint32_t resume_1;     /* a token behind a skipped remark, where reading can go on */
  int brace_excess; /* how many more `{` than `}` the file has */
  bool panic, stopped, shaken;
} Parser;

typedef enum { EXPR_VALUE, EXPR_MANY, EXPR_LOCAL, EXPR_GLOBAL, EXPR_INDEX, EXPR_CALL, EXPR_TABLE } ExprKind;

typedef struct {
  ExprKind kind;
  Stretch at;
  uint32_t table;
  const Variable *variable; /* EXPR_LOCAL */
} Expr;

static inline TokenKind parser_peek(const Parser *p) { return p->tokens[p->pos].kind; }
static inline TokenKind parser_peek_at(const Parser *p, uint32_t ahead)
{
  return p->pos + ahead < p->tree->tokens.count ? p->tokens[p->pos + ahead].kind : TOK_EOF;
}
static inline bool parser_is_first(const Parser *p, uint32_t token) { return p->tokens[token].flags & TOKEN_FIRST; }
static inline void parser_next(Parser *p)
{
  if (p->tokens[p->pos].kind != TOK_EOF) p->pos++;
}
static inline bool parser_accept(Parser *p, TokenKind kind)
{
  if (parser_peek(p) != kind) return false;
  parser_next(p);
  return true;
}
static inline void parser_hold(Parser *p, int count) { scope_hold(&p->scope, count, p->pos ? p->pos - 1 : 0); }

/* parser_recover.c */
bool parser_enter(Parser *p); /* one level deeper; false, and at the end of the file, if that is too deep */
void parser_enter_many(Parser *p, int levels);
void parser_stop(Parser *p);
Range parser_range(const Parser *p, Stretch tokens);
Range parser_here(const Parser *p);  /* the token that comes */
Range parser_after(const Parser *p, uint32_t before); /* the empty place behind the token in front of `before` */
Quote parser_quote(const Parser *p, uint32_t token);
bool parser_complain(Parser *p, Range at, Advice advice, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
void parser_unexpected(Parser *p, const char *wanted); /* complains and panics */
bool parser_expect(Parser *p, TokenKind kind, const char *where);
void parser_open(Parser *p, uint32_t token, TokenKind closer);
void parser_close(Parser *p);
void parser_complain_unclosed(Parser *p, uint32_t missed);
void parser_note_indent(Parser *p);
bool parser_comment_typo(Parser *p); /* at `//` or `#` that begins a remark: complains and skips it */
bool parser_inside_remark(Parser *p, uint32_t token); /* the same for an error at a token further on */
bool parser_bare_quantity(Parser *p); /* behind the number of `3 in`: complains and skips the unit */
bool parser_complain_early(Parser *p); /* of a `}` further up, if one was found that is probably too many */
void parser_skip_block(Parser *p);
bool parser_begins_statement(TokenKind kind);
bool parser_ends_block(TokenKind kind);
TokenKind parser_name(Parser *p, const char *what); /* steps over a name and returns TOK_NAME, or complains */
void parser_leave_panic_at(Parser *p, TokenKind opening);
void parser_resume_statement(Parser *p, uint32_t begin);
bool parser_resume_field(Parser *p);

/* parser_expressions.c */
Expr parse_expression(Parser *p);
Expr parse_chain(Parser *p, bool is_statement);
void parse_list(Parser *p, uint32_t *count);
bool parser_begins_expression(TokenKind kind);

/* parser_tables.c */
uint32_t parse_table(Parser *p, bool is_argument);

/* parser_functions.c */
void parse_function(Parser *p, uint32_t function, bool is_method);
void parse_function_statement(Parser *p);
void parse_local(Parser *p);
void parser_refuse_constant(Parser *p, const Variable *variable, uint32_t token);
void parser_refuse_environment(Parser *p, uint32_t token);

/* parser.c */
/* the body that began behind this token ends here: it is charged for */
void parser_tick(Parser *p, uint32_t opening);
void parser_statements(Parser *p); /* up to what ends a block */

#endif
