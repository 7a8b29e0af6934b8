/* token.h - the tokens of Lua 5.4 text. */
#ifndef LANG_TOKEN_H
#define LANG_TOKEN_H

#include <stdbool.h>
#include <stdint.h>

#include "lang/complain.h"

/* Keywords stand in alphabetical order; token_text() gives each its spelling. */
typedef enum {
  TOK_EOF, TOK_NAME, TOK_STRING, TOK_NUMBER,
  TOK_AND, TOK_BREAK, TOK_DO, TOK_ELSE, TOK_ELSEIF, TOK_END, TOK_FALSE, TOK_FOR, TOK_FUNCTION, TOK_GOTO, TOK_IF,
  TOK_IN, TOK_LOCAL, TOK_NIL, TOK_NOT, TOK_OR, TOK_REPEAT, TOK_RETURN, TOK_THEN, TOK_TRUE, TOK_UNTIL, TOK_WHILE,
  TOK_PLUS, TOK_MINUS, TOK_STAR, TOK_SLASH, TOK_PERCENT, TOK_CARET, TOK_HASH, TOK_AMPERSAND, TOK_TILDE, TOK_PIPE,
  TOK_SHIFT_LEFT, TOK_SHIFT_RIGHT, TOK_FLOOR_DIVIDE, TOK_EQUAL, TOK_UNEQUAL, TOK_LESS_EQUAL, TOK_GREATER_EQUAL,
  TOK_LESS, TOK_GREATER, TOK_ASSIGN, TOK_LEFT_PAREN, TOK_RIGHT_PAREN, TOK_LEFT_BRACE, TOK_RIGHT_BRACE,
  TOK_LEFT_BRACKET, TOK_RIGHT_BRACKET, TOK_DOUBLE_COLON, TOK_SEMICOLON, TOK_COLON, TOK_COMMA, TOK_DOT, TOK_CONCAT,
  TOK_DOTS, TOK_KINDS
} TokenKind;

enum {
  TOKEN_FIRST = 1,     /* nothing but blanks before it on its line */
  TOKEN_DAMAGED = 2,   /* the lexer complained about it or its line: what the parser thinks of it is worth little */
  TOKEN_LINES = 4,     /* holds a line end */
  TOKEN_ESCAPES = 8,   /* a string with escapes */
  TOKEN_LONG = 16,     /* a long string */
};

/* Symbols number the distinct names, so that scopes compare numbers. The first ones are known beforehand. */
enum { SYMBOL_NONE, SYMBOL_MARK, SYMBOL_TICK, SYMBOL_ENV, SYMBOL_SELF, SYMBOL_KNOWN };

typedef struct {
  uint32_t begin, end; /* bytes of the source */
  uint32_t symbol;     /* of a name */
  uint16_t indent;     /* cells before the first character of its line */
  uint8_t kind, flags;
} Token;

static inline Range token_range(Token token) { return (Range){ token.begin, token.end }; }
static inline bool token_is_keyword(TokenKind kind) { return kind >= TOK_AND && kind <= TOK_WHILE; }

const char *token_text(TokenKind kind); /* "end", "..", "a name" */

#endif
