/* lexer_strings.c - the lexer's quoted and long strings: their escapes, their ends, their values. */
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "lang/lexer_state.h"

static bool is_line_end(char c) { return c == '\n' || c == '\r'; }
static bool is_space(char c) { return c == ' ' || (c >= '\t' && c <= '\r'); }
static bool is_digit(char c) { return c >= '0' && c <= '9'; }

static int hex_value(char c)
{
  if (is_digit(c)) return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

/* ---- escapes: one reader serves the check and the value */

typedef struct {
  const char *at; /* behind the backslash; moved over the escape */
  uint32_t code;
  bool is_code_point; /* to be written as UTF-8 */
  bool is_nothing;    /* \z */
  const char *error, *help;
} Escape;

static void read_decimal(Escape *e)
{
  for (int i = 0; i < 3 && is_digit(*e->at); i++) e->code = e->code * 10 + (uint32_t)(*e->at++ - '0');
  if (e->code > 255) e->error = "is larger than 255", e->help = "for a character past 255 write `\\u{...}`";
}

static void read_hex_byte(Escape *e)
{
  for (int i = 0; i < 2; i++) {
    int digit = hex_value(*e->at);
    if (digit < 0) {
      e->error = "needs two hexadecimal digits", e->help = "for instance `\\x41`";
      return;
    }
    e->code = e->code * 16 + (uint32_t)digit;
    e->at++;
  }
}

static void read_code_point(Escape *e)
{
  e->is_code_point = true;
  e->help = "for instance `\\u{B0}`";
  e->error = "needs hexadecimal digits in braces";
  if (*e->at != '{') return;
  e->at++;
  int digits = 0;
  for (int digit; (digit = hex_value(*e->at)) >= 0; e->at++, digits++) {
    if (e->code > 0x7FFFFFFu) {
      e->error = "is too large a character number";
      return;
    }
    e->code = e->code * 16 + (uint32_t)digit;
  }
  if (digits == 0 || *e->at != '}') return;
  e->at++;
  e->error = NULL;
}

static void skip_spaces(Escape *e)
{
  e->is_nothing = true;
  while (is_space(*e->at)) e->at++;
}

static void read_line_end(Escape *e)
{
  char first = *e->at++;
  if (is_line_end(*e->at) && *e->at != first) e->at++;
  e->code = '\n';
}

/* Reads the escape behind the backslash at `at`; the text is NUL-terminated. */
static Escape read_escape(const char *at)
{
  static const char letters[] = "abfnrtv\\\"'", values[] = "\a\b\f\n\r\t\v\\\"'";
  Escape e = { .at = at + 1 };
  char c = *e.at;
  const char *letter = c ? strchr(letters, c) : NULL;
  if (letter) e.code = (unsigned char)values[letter - letters], e.at++;
  else if (is_digit(c)) read_decimal(&e);
  else if (is_line_end(c)) read_line_end(&e);
  else if (c == 'x') e.at++, read_hex_byte(&e);
  else if (c == 'u') e.at++, read_code_point(&e);
  else if (c == 'z') e.at++, skip_spaces(&e);
  else {
    e.error = "is not an escape";
    e.help = "for a backslash write `\\\\`";
    uint32_t code;
    size_t bytes = text_decode(e.at, strnlen(e.at, 4), &code);
    e.at += is_space(c) || c == '\0' ? 0 : bytes > 0 ? bytes : 1;
  }
  return e;
}

static void check_escape(Lexer *lx)
{
  Escape e = read_escape(lx->text + lx->pos);
  Range range = { lx->pos, (uint32_t)(e.at - lx->text) };
  lx->pos = range.end;
  if (e.error == NULL || range.end >= lx->length)
    return; /* at the end of the text, the missing quote is the mistake */
  Quote quote = complain_quote(lx->complaints, range);
  complain(lx->complaints, range, (Advice){ .help = e.help }, "`%s` %s", quote.text, e.error);
}

/* ---- ends */

/* Where a string that has no quote at its end probably ought to end: before the commas and brackets that close the
 * line, so that what they close stays closed. */
static uint32_t likely_end(const Lexer *lx, uint32_t begin)
{
  uint32_t end = lexer_line_rest(lx, begin);
  while (end > begin + 1 && strchr("}),; \t", lx->text[end - 1])) end--;
  return end;
}

void lexer_damage_line(Lexer *lx)
{
  lx->damaged = true;
  for (uint32_t i = lx->line_token; i < lx->tokens.count; i++) lx->tokens.at[i].flags |= TOKEN_DAMAGED;
}

static void complain_unclosed(Lexer *lx, uint32_t begin)
{
  Range curly, line = { begin, lexer_line_rest(lx, begin) };
  char quote = lx->text[begin], help[80];
  bool after_digit = begin > 0 && is_digit(lx->text[begin - 1]);
  snprintf(help, sizeof help, "close it with `%c` before the line ends", quote);
  if (lexer_find_curly(lx, line, &curly)) {
    Quote found = complain_quote(lx->complaints, curly);
    char fix[] = { quote, '\0' };
    complain(lx->complaints, curly,
             (Advice){ .help = "use the plain quote of the keyboard at both ends", .fix = fix },
             "the curly quote `%s` does not close a string", found.text);
  } else {
    complain(lx->complaints, (Range){ begin, begin + 1 },
             (Advice){ .help = after_digit ? "write inches as a text: \"3 in\"" : help },
             "the string that begins here is not closed");
  }
}

static void give_up_string(Lexer *lx, uint32_t begin)
{
  if (!lx->damaged) complain_unclosed(lx, begin);
  lexer_damage_line(lx);
  lx->pos = likely_end(lx, begin);
}

static void check_utf8(Lexer *lx, Range range)
{
  if (text_is_utf8(lx->text + range.begin, range.end - range.begin)) return;
  uint32_t code;
  for (size_t bytes; (bytes = text_decode(lx->text + range.begin, range.end - range.begin, &code)) > 0;)
    range.begin += (uint32_t)bytes;
  complain(lx->complaints, (Range){ range.begin, range.begin + 1 },
           (Advice){ .help = "save the file as UTF-8; a single byte is written `\\xB0`" },
           "the byte 0x%02X in this string is not UTF-8", (unsigned char)lx->text[range.begin]);
}

void lexer_string(Lexer *lx)
{
  uint32_t begin = lx->pos++;
  unsigned flags = 0;
  bool plain = true;
  for (;;) {
    char c = lx->text[lx->pos];
    if (c == lx->text[begin]) break;
    if (lx->pos >= lx->length || is_line_end(c)) {
      give_up_string(lx, begin);
      lexer_add(lx, TOK_STRING, begin, flags);
      return;
    }
    if ((unsigned char)c >= 0x80) plain = false;
    if (c == '\\') {
      uint32_t from = lx->pos;
      flags |= TOKEN_ESCAPES;
      check_escape(lx);
      if (memchr(lx->text + from, '\n', lx->pos - from) || memchr(lx->text + from, '\r', lx->pos - from))
        flags |= TOKEN_LINES;
    } else {
      lx->pos++;
    }
  }
  lx->pos++;
  if (!plain) check_utf8(lx, (Range){ begin, lx->pos });
  lexer_add(lx, TOK_STRING, begin, flags);
}

/* ---- long brackets */

bool lexer_long_bracket(const Lexer *lx, uint32_t at, uint32_t *level)
{
  if (lx->text[at] != '[') return false;
  uint32_t from = ++at;
  while (lx->text[at] == '=') at++;
  *level = at - from;
  return lx->text[at] == '[';
}

/* Moves behind the closing bracket of this level; false and to the end of the text if there is none. */
static bool skip_long(Lexer *lx, uint32_t level)
{
  lx->pos += level + 2;
  while (lx->pos < lx->length) {
    const char *close = memchr(lx->text + lx->pos, ']', lx->length - lx->pos);
    if (close == NULL) break;
    uint32_t at = (uint32_t)(close - lx->text) + 1, from = at;
    while (lx->text[at] == '=') at++;
    lx->pos = at;
    if (at - from != level || lx->text[at] != ']') continue;
    lx->pos++;
    return true;
  }
  lx->pos = lx->length;
  return false;
}

static void complain_long(Lexer *lx, uint32_t begin, uint32_t opener, uint32_t level, const char *what)
{
  char help[96];
  if (level > 16) snprintf(help, sizeof help, "close it with as many `=` as it was opened with");
  else snprintf(help, sizeof help, "close it with `]%.*s]`", (int)level, "================");
  complain(lx->complaints, (Range){ begin, begin + opener }, (Advice){ .help = help },
           "the long %s that begins here is never closed", what);
  lx->tokens.cut = true;
}

void lexer_long_string(Lexer *lx, uint32_t level)
{
  uint32_t begin = lx->pos;
  bool closed = skip_long(lx, level);
  bool has_lines =
      memchr(lx->text + begin, '\n', lx->pos - begin) || memchr(lx->text + begin, '\r', lx->pos - begin);
  if (!closed) complain_long(lx, begin, level + 2, level, "string");
  else check_utf8(lx, (Range){ begin, lx->pos });
  lexer_add(lx, TOK_STRING, begin, TOKEN_LONG | (has_lines ? TOKEN_LINES : 0));
}

void lexer_long_comment(Lexer *lx, uint32_t begin, uint32_t level)
{
  uint32_t from = lx->pos;
  if (!skip_long(lx, level)) complain_long(lx, begin, level + 4, level, "comment");
  uint32_t end = lx->pos;
  for (lx->pos = from; lx->pos < end;) {
    if (is_line_end(lx->text[lx->pos])) lexer_line_end(lx);
    else lx->pos++;
  }
}

/* ---- values */

/* UTF-8 as Lua writes it: up to 31 bits in up to six bytes. */
static void add_code_point(Buf *out, uint32_t code)
{
  char bytes[6];
  int count = 0;
  uint32_t first_room = 0x3F;
  if (code < 0x80) {
    buf_putc(out, (char)code);
    return;
  }
  do {
    bytes[5 - count++] = (char)(0x80 | (code & 0x3F));
    code >>= 6;
    first_room >>= 1;
  } while (code > first_room);
  bytes[5 - count++] = (char)((~first_room << 1) | code);
  buf_add(out, bytes + 6 - count, (size_t)count);
}

static void add_long_value(const char *text, Token token, Buf *out)
{
  uint32_t level = 0;
  while (text[token.begin + 1 + level] == '=') level++;
  uint32_t at = token.begin + level + 2, end = token.end - level - 2;
  bool first = true;
  while (at < end) {
    char c = text[at++];
    if (is_line_end(c)) {
      if (at < end && is_line_end(text[at]) && text[at] != c) at++;
      c = '\n';
      if (first) {
        first = false;
        continue;
      }
    }
    first = false;
    buf_putc(out, c);
  }
}

void lexer_string_value(const char *text, Token token, Buf *out)
{
  if (token.flags & TOKEN_LONG) {
    add_long_value(text, token, out);
    return;
  }
  const char *at = text + token.begin + 1, *end = text + token.end - 1;
  while (at < end) {
    if (*at != '\\') {
      buf_putc(out, *at++);
      continue;
    }
    Escape e = read_escape(at);
    at = e.at;
    if (e.is_nothing) continue;
    if (e.is_code_point) add_code_point(out, e.code);
    else buf_putc(out, (char)e.code);
  }
}
