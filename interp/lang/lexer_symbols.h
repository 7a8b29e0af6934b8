/* lexer_symbols.h - distinct names get distinct numbers; keywords are told apart on the way. */
#ifndef LANG_LEXER_SYMBOLS_H
#define LANG_LEXER_SYMBOLS_H

#include <stdint.h>

#include "base/arena.h"
#include "lang/token.h"

typedef struct Symbols Symbols;

Symbols *symbols_new(Arena *arena);
void symbols_free(Symbols *symbols);
/* The name's number, or 0 and *keyword set. The bytes must stay where they are. */
uint32_t symbols_find(Symbols *symbols, const char *name, uint32_t length, TokenKind *keyword);
uint32_t symbols_count(const Symbols *symbols);

#endif
