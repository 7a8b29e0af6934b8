#include "lang/token.h"

static const char *const texts[TOK_KINDS] = {
  "the end of the file", "a name", "a string", "a number",
  "and", "break", "do", "else", "elseif", "end", "false", "for", "function", "goto", "if",
  "in", "local", "nil", "not", "or", "repeat", "return", "then", "true", "until", "while",
  "+", "-", "*", "/", "%", "^", "#", "&", "~", "|", "<<", ">>", "//", "==", "~=", "<=", ">=",
  "<", ">", "=", "(", ")", "{", "}", "[", "]", "::", ";", ":", ",", ".", "..", "...",
};

const char *token_text(TokenKind kind) { return texts[kind]; }
