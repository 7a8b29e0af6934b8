/* lexer_state.h - what the files of the lexer share. */
#ifndef LANG_LEXER_STATE_H
#define LANG_LEXER_STATE_H

#include "lang/lexer.h"
#include "lang/lexer_symbols.h"

typedef struct {
  Complaints *complaints;
  const char *text; /* ends in a NUL that is not part of it */
  uint32_t length, pos;
  Tokens tokens;
  uint32_t room;
  Symbols *symbols;
  Arena *arena;
  uint32_t line_begin;    /* of the line that pos is on */
  uint32_t line_token;    /* the first token of that line, or the next one to come */
  uint32_t conflict_end;  /* where a merge conflict that we are in ends; 0: in none */
  uint16_t indent;
  bool first, damaged, no_conflict_end, no_comment_end, full;
} Lexer;

void lexer_add(Lexer *lx, TokenKind kind, uint32_t begin, unsigned flags); /* a token from begin to pos */
void lexer_add_name(Lexer *lx, uint32_t begin);
void lexer_line_end(Lexer *lx); /* steps over one line end */
uint32_t lexer_line_rest(const Lexer *lx, uint32_t from); /* where the line of `from` ends */
bool lexer_is_name_byte(char c);

/* lexer_strings.c */
void lexer_damage_line(Lexer *lx); /* the parser is not to complain about it */
void lexer_string(Lexer *lx);
bool lexer_long_bracket(const Lexer *lx, uint32_t at, uint32_t *level); /* does `[==[` stand at `at`? */
void lexer_long_string(Lexer *lx, uint32_t level);
void lexer_long_comment(Lexer *lx, uint32_t begin, uint32_t level);

/* lexer_foreign.c: what does not belong into Lua text */
bool lexer_refuse_file(Lexer *lx);
bool lexer_conflict(Lexer *lx);
void lexer_foreign(Lexer *lx);
void lexer_foreign_name(Lexer *lx, uint32_t begin);
bool lexer_is_foreign_letter(const Lexer *lx, uint32_t at, uint32_t *bytes);
bool lexer_foreign_operator(Lexer *lx);
bool lexer_find_curly(const Lexer *lx, Range in, Range *found);

#endif
