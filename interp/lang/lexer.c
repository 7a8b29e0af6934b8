#include "lang/lexer.h"

#include <stdio.h>
#include <string.h>

#include "lang/lexer_state.h"
#include "lang/lexer_symbols.h"
#include "lang/syntax.h"

enum { TAB = 8, WIDEST = UINT16_MAX };

static bool is_digit(char c) { return c >= '0' && c <= '9'; }
static bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; }
static bool is_hex(char c) { return is_digit(c) || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F'); }
bool lexer_is_name_byte(char c) { return is_letter(c) || is_digit(c); }

uint32_t lexer_line_rest(const Lexer *lx, uint32_t from)
{
  while (from < lx->length && lx->text[from] != '\n' && lx->text[from] != '\r') from++;
  return from;
}

/* ---- adding tokens */

/* A first guess of a token for every four bytes serves most files. */
static void make_room(Lexer *lx)
{
  uint32_t room = lx->room ? lx->room * 2 : lx->length / 4 + 16;
  if (room > SYNTAX_TOKENS + 1) room = SYNTAX_TOKENS + 1;
  Token *larger = arena_array(lx->arena, room, sizeof *larger);
  if (lx->tokens.count) memcpy(larger, lx->tokens.at, lx->tokens.count * sizeof *larger);
  lx->tokens.at = larger;
  lx->room = room;
}

static void add_token(Lexer *lx, Token token)
{
  if (lx->tokens.count == lx->room) make_room(lx);
  if (lx->first) token.flags |= TOKEN_FIRST;
  if (lx->damaged) token.flags |= TOKEN_DAMAGED;
  token.indent = lx->indent;
  lx->first = false;
  lx->tokens.at[lx->tokens.count++] = token;
  lx->tokens.kinds[token.kind]++;
}

void lexer_add(Lexer *lx, TokenKind kind, uint32_t begin, unsigned flags)
{
  if (lx->tokens.count >= SYNTAX_TOKENS) {
    if (!lx->full)
      complain(lx->complaints, (Range){ begin, lx->pos }, (Advice){ .help = "split it into several files" },
               "the file has more than %d words and signs", SYNTAX_TOKENS);
    lx->full = true;
    return;
  }
  add_token(lx, (Token){ .begin = begin, .end = lx->pos, .kind = (uint8_t)kind, .flags = (uint8_t)flags });
}

void lexer_add_name(Lexer *lx, uint32_t begin)
{
  TokenKind kind = TOK_NAME;
  uint32_t symbol = symbols_find(lx->symbols, lx->text + begin, lx->pos - begin, &kind);
  uint32_t before = lx->tokens.count;
  lexer_add(lx, kind, begin, 0);
  if (lx->tokens.count > before) lx->tokens.at[before].symbol = symbol;
}

/* ---- blanks and comments */

void lexer_line_end(Lexer *lx)
{
  char c = lx->text[lx->pos++];
  char other = c == '\n' ? '\r' : '\n';
  if (lx->text[lx->pos] == other) lx->pos++;
  lx->line_begin = lx->pos;
  lx->line_token = lx->tokens.count;
  lx->first = true;
  lx->damaged = false;
  lx->indent = 0;
}

static void skip_spaces(Lexer *lx)
{
  for (;; lx->pos++) {
    char c = lx->text[lx->pos];
    if (c != ' ' && c != '\t' && c != '\v' && c != '\f') return;
    if (!lx->first || lx->indent > WIDEST - TAB) continue;
    lx->indent = (uint16_t)(c == '\t' ? lx->indent / TAB * TAB + TAB : lx->indent + 1);
  }
}

static void skip_comment(Lexer *lx)
{
  uint32_t begin = lx->pos, level;
  lx->pos += 2;
  if (lexer_long_bracket(lx, lx->pos, &level)) lexer_long_comment(lx, begin, level);
  else lx->pos = lexer_line_rest(lx, lx->pos);
}

/* The comment of other languages: never sound Lua, since no operand begins with `*`. */
static void skip_c_comment(Lexer *lx)
{
  uint32_t begin = lx->pos;
  const char *close = lx->no_comment_end ? NULL : strstr(lx->text + begin, "*/");
  lx->no_comment_end = close == NULL;
  uint32_t end = close ? (uint32_t)(close - lx->text) + 2 : lexer_line_rest(lx, begin);
  complain(lx->complaints, (Range){ begin, begin + 2 },
           (Advice){ .help = "write `--[[ ... ]]`, or `--` before each line" }, "`/*` does not begin a comment");
  while (lx->pos < end) {
    if (lx->text[lx->pos] == '\n' || lx->text[lx->pos] == '\r') lexer_line_end(lx);
    else lx->pos++;
  }
}

static void skip_blanks(Lexer *lx)
{
  for (;;) {
    if (lx->pos == lx->line_begin && lexer_conflict(lx)) continue;
    skip_spaces(lx);
    const char *at = lx->text + lx->pos;
    if (*at == '\n' || *at == '\r') lexer_line_end(lx);
    else if (at[0] == '-' && at[1] == '-') skip_comment(lx);
    else if (at[0] == '/' && at[1] == '*') skip_c_comment(lx);
    else return;
  }
}

/* ---- numbers */

static const char *skip_digits(const char *at, bool hex)
{
  while (hex ? is_hex(*at) : is_digit(*at)) at++;
  return at;
}

/* Is begin..end a numeral of Lua? */
static bool is_numeral(const char *begin, const char *end)
{
  bool hex = begin[0] == '0' && (begin[1] == 'x' || begin[1] == 'X');
  const char *from = begin + (hex ? 2 : 0), *at = skip_digits(from, hex);
  size_t digits = (size_t)(at - from);
  if (*at == '.') {
    from = at + 1;
    at = skip_digits(from, hex);
    digits += (size_t)(at - from);
  }
  if (digits == 0) return false;
  if (hex ? *at == 'p' || *at == 'P' : *at == 'e' || *at == 'E') {
    at++;
    if (*at == '+' || *at == '-') at++;
    from = at;
    at = skip_digits(at, false);
    if (at == from) return false;
  }
  return at == end;
}

/* Steps over what Lua takes for one numeral, sound or not, and the letters that touch it. */
static void skip_numeral(Lexer *lx)
{
  const char *at = lx->text + lx->pos;
  bool hex = at[0] == '0' && (at[1] == 'x' || at[1] == 'X');
  if (hex) at += 2;
  for (;; at++) {
    bool exponent = hex ? *at == 'p' || *at == 'P' : *at == 'e' || *at == 'E';
    if (exponent && (at[1] == '+' || at[1] == '-')) at++;
    else if (!exponent && *at != '.' && !lexer_is_name_byte(*at)) break;
  }
  lx->pos = (uint32_t)(at - lx->text);
}

static void complain_numeral(Lexer *lx, uint32_t begin)
{
  static const char quantity_help[] = "a value with a unit is a text, in quotes";
  const char *at = lx->text + begin, *unit = skip_digits(at, false);
  Range range = { begin, lx->pos };
  Quote quote = complain_quote(lx->complaints, range);
  if (*unit == '.' && unit[1] != '.') unit = skip_digits(unit + 1, false);
  const char *rest = unit;
  while (is_letter(*rest)) rest++;
  char fix[64] = "";
  bool hex = unit == at + 1 && *at == '0' && (*unit == 'x' || *unit == 'X');
  bool is_quantity = !hex && rest == lx->text + lx->pos && rest > unit && unit[-1] != '.' && at[0] != '.';
  if (is_quantity && lx->pos - begin < sizeof quote.text - 4)
    snprintf(fix, sizeof fix, "\"%.*s %s\"", (int)(unit - at), at, quote.text + (unit - at));
  bool dots = strstr(quote.text, "..") != NULL;
  complain(lx->complaints, range,
           (Advice){ .help = fix[0] ? quantity_help : dots ? "put spaces round `..`" : NULL,
                     .fix = fix[0] ? fix : NULL },
           "`%s` is not a number", quote.text);
}

static void lex_number(Lexer *lx)
{
  uint32_t begin = lx->pos;
  skip_numeral(lx);
  if (!is_numeral(lx->text + begin, lx->text + lx->pos)) complain_numeral(lx, begin);
  lexer_add(lx, TOK_NUMBER, begin, 0);
}

/* ---- operators and the rest */

static TokenKind longer(const char *text, char second, TokenKind two, TokenKind one, uint32_t *length)
{
  if (text[1] != second) return one;
  *length = 2;
  return two;
}

static TokenKind dots(const char *text, uint32_t *length)
{
  *length = text[1] != '.' ? 1 : text[2] != '.' ? 2 : 3;
  return *length == 1 ? TOK_DOT : *length == 2 ? TOK_CONCAT : TOK_DOTS;
}

TokenKind lexer_operator(const char *text, uint32_t *length)
{
  *length = 1;
  switch (text[0]) {
    case '+': return TOK_PLUS;
    case '-': return TOK_MINUS;
    case '*': return TOK_STAR;
    case '/': return longer(text, '/', TOK_FLOOR_DIVIDE, TOK_SLASH, length);
    case '%': return TOK_PERCENT;
    case '^': return TOK_CARET;
    case '#': return TOK_HASH;
    case '&': return TOK_AMPERSAND;
    case '~': return longer(text, '=', TOK_UNEQUAL, TOK_TILDE, length);
    case '|': return TOK_PIPE;
    case '<': return longer(text, '<', TOK_SHIFT_LEFT, longer(text, '=', TOK_LESS_EQUAL, TOK_LESS, length), length);
    case '>':
      return longer(text, '>', TOK_SHIFT_RIGHT, longer(text, '=', TOK_GREATER_EQUAL, TOK_GREATER, length), length);
    case '=': return longer(text, '=', TOK_EQUAL, TOK_ASSIGN, length);
    case '(': return TOK_LEFT_PAREN;
    case ')': return TOK_RIGHT_PAREN;
    case '{': return TOK_LEFT_BRACE;
    case '}': return TOK_RIGHT_BRACE;
    case '[': return TOK_LEFT_BRACKET;
    case ']': return TOK_RIGHT_BRACKET;
    case ';': return TOK_SEMICOLON;
    case ':': return longer(text, ':', TOK_DOUBLE_COLON, TOK_COLON, length);
    case ',': return TOK_COMMA;
    case '.': return dots(text, length);
    default: return TOK_EOF;
  }
}

static void lex_name(Lexer *lx)
{
  uint32_t begin = lx->pos, bytes;
  while (lexer_is_name_byte(lx->text[lx->pos])) lx->pos++;
  if (lexer_is_foreign_letter(lx, lx->pos, &bytes)) lexer_foreign_name(lx, begin);
  else lexer_add_name(lx, begin);
}

static void lex_bracket(Lexer *lx)
{
  uint32_t level, begin = lx->pos;
  if (lexer_long_bracket(lx, lx->pos, &level)) {
    lexer_long_string(lx, level);
    return;
  }
  lx->pos++;
  if (lx->text[lx->pos] == '=') {
    complain(lx->complaints, (Range){ begin, lx->pos + 1 },
             (Advice){ .help = "a long string begins with `[[` or `[=[`" },
             "`[=` is not the begin of a long string");
    lexer_damage_line(lx);
  }
  lexer_add(lx, TOK_LEFT_BRACKET, begin, 0);
}

static void lex_token(Lexer *lx)
{
  const char *at = lx->text + lx->pos;
  uint32_t length, begin = lx->pos;
  if (is_letter(*at)) lex_name(lx);
  else if (is_digit(*at) || (*at == '.' && is_digit(at[1]))) lex_number(lx);
  else if (*at == '"' || *at == '\'') lexer_string(lx);
  else if (*at == '[') lex_bracket(lx);
  else if ((unsigned char)*at >= 0x80 || *at == '`') lexer_foreign(lx);
  else if (!lexer_foreign_operator(lx)) {
    TokenKind kind = lexer_operator(at, &length);
    lx->pos += length;
    lexer_add(lx, kind, begin, 0);
  }
}

static void lex_all(Lexer *lx)
{
  if (lx->length >= 3 && memcmp(lx->text, "\xEF\xBB\xBF", 3) == 0) lx->pos = lx->line_begin = 3;
  if (lx->text[lx->pos] == '#' && lx->text[lx->pos + 1] == '!') lx->pos = lexer_line_rest(lx, lx->pos);
  for (;;) {
    skip_blanks(lx);
    if (lx->pos >= lx->length || lx->full) return;
    lex_token(lx);
  }
}

Tokens lexer_run(Complaints *complaints, Arena *arena)
{
  Lexer lx = { .complaints = complaints, .text = complaints->text, .length = complaints->length, .arena = arena,
               .symbols = symbols_new(arena), .first = true };
  if (lexer_refuse_file(&lx)) lx.pos = lx.length;
  else lex_all(&lx);
  add_token(&lx, (Token){ .begin = lx.pos, .end = lx.pos, .kind = TOK_EOF });
  lx.tokens.cut |= lx.full;
  lx.tokens.symbols = symbols_count(lx.symbols);
  symbols_free(lx.symbols);
  return lx.tokens;
}
