/* lexer.h - from text to tokens, with every mistake in the text that shows below the grammar.
 *
 * A mistake is complained about once and mended: a curly-quoted text still gives a string token, `!=` gives `~=`.
 */
#ifndef LANG_LEXER_H
#define LANG_LEXER_H

#include "base/arena.h"
#include "base/buf.h"
#include "lang/token.h"

typedef struct {
  Token *at; /* the last one is TOK_EOF */
  uint32_t count;
  uint32_t symbols;          /* how many distinct names, with the known ones */
  uint32_t kinds[TOK_KINDS]; /* how many of each kind */
  bool cut;                  /* the rest of the text was lost in an unclosed string or comment */
} Tokens;

/* Arrays are the arena's. */
Tokens lexer_run(Complaints *complaints, Arena *arena);

/* The value of a sound string token. */
void lexer_string_value(const char *text, Token token, Buf *out);

/* A keyword or operator by its spelling; TOK_EOF if it is none. */
TokenKind lexer_operator(const char *text, uint32_t *length);

#endif
