/* lexer_foreign.c - what does not belong into Lua text: other encodings, curly quotes, look-alikes of ASCII signs,
 * signs of other languages, merge conflicts. Each is named, and read as what was meant where that is certain. */
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "lang/lexer_state.h"
#include "lang/syntax.h"

/* ---- whole files */

static void refuse(Lexer *lx, uint32_t at, const char *help, const char *message)
{
  complain(lx->complaints, (Range){ at, at }, (Advice){ .help = help }, "%s", message);
  lx->tokens.cut = true;
}

static bool begins_with(const Lexer *lx, const char *bytes, uint32_t count)
{
  return lx->length >= count && memcmp(lx->text, bytes, count) == 0;
}

bool lexer_refuse_file(Lexer *lx)
{
  const char *nul = memchr(lx->text, '\0', lx->length);
  if (lx->length > SYNTAX_LARGEST)
    refuse(lx, 0, "split it into several files", "the file is larger than 1 MiB");
  else if (begins_with(lx, "\x1b", 1))
    refuse(lx, 0, "give the text that it was compiled from", "this is compiled Lua, not Lua text");
  else if (begins_with(lx, "\xFF\xFE", 2) || begins_with(lx, "\xFE\xFF", 2))
    refuse(lx, 0, "save the file as UTF-8", "the file is UTF-16");
  else if (nul)
    refuse(lx, (uint32_t)(nul - lx->text), "save the file as plain UTF-8 text", "the file holds a NUL byte");
  else
    return false;
  return true;
}

/* ---- merge conflicts */

static bool is_marker(const Lexer *lx, uint32_t at, char sign)
{
  for (uint32_t i = 0; i < 7; i++)
    if (lx->text[at + i] != sign) return false;
  char next = lx->text[at + 7];
  return next == ' ' || next == '\r' || next == '\n' || next == '\0';
}

/* The begin of the first line from `at` on that has this marker; 0 if there is none. */
static uint32_t find_marker(const Lexer *lx, uint32_t at, char sign)
{
  for (;;) {
    at = lexer_line_rest(lx, at);
    while (lx->text[at] == '\n' || lx->text[at] == '\r') at++;
    if (at >= lx->length) return 0;
    if (is_marker(lx, at, sign)) return at;
  }
}

static void complain_conflict(Lexer *lx, uint32_t middle, uint32_t last)
{
  Advice advice = { .help = "keep one of the two versions and delete the marker lines" };
  if (middle && middle < last) {
    advice.labels[0].at = (Range){ middle, middle + 7 };
    advice.labels[0].text = "the other version begins here";
  }
  if (last) {
    advice.labels[1].at = (Range){ last, last + 7 };
    advice.labels[1].text = "the conflict ends here";
  }
  complain(lx->complaints, (Range){ lx->pos, lexer_line_rest(lx, lx->pos) }, advice,
           "an unresolved merge conflict begins here");
}

/* At the begin of a line: steps over conflict markers, and reads the first of the two versions only. */
bool lexer_conflict(Lexer *lx)
{
  if (lx->conflict_end) {
    bool other = is_marker(lx, lx->pos, '=') || is_marker(lx, lx->pos, '|');
    if (!other && lx->pos != lx->conflict_end) return false;
    lx->pos = lexer_line_rest(lx, lx->conflict_end);
    lx->conflict_end = 0;
    return true;
  }
  if (!is_marker(lx, lx->pos, '<')) return false;
  uint32_t last = lx->no_conflict_end ? 0 : find_marker(lx, lx->pos, '>');
  lx->no_conflict_end = last == 0;
  complain_conflict(lx, last ? find_marker(lx, lx->pos, '=') : 0, last);
  lx->conflict_end = last;
  lx->pos = lexer_line_rest(lx, lx->pos);
  return true;
}

/* ---- signs of other languages in ASCII */

typedef struct {
  const char *sign, *fix, *help;
  TokenKind kind; /* what it is read as; TOK_EOF: as nothing */
} ForeignSign;

/* None of them can stand in sound Lua; the longest of a beginning come first. */
static const ForeignSign foreign_signs[] = {
  { "!==", "~=", "unequal is written `~=`", TOK_UNEQUAL },
  { "!=", "~=", "unequal is written `~=`", TOK_UNEQUAL },
  { "<>", "~=", "unequal is written `~=`", TOK_UNEQUAL },
  { "===", "==", "equal is written `==`", TOK_EQUAL },
  { "=<", "<=", "write `<=`", TOK_LESS_EQUAL },
  { "=>", NULL, "to compare write `>=`, to give a field its value `=`", TOK_ASSIGN },
  { "**", "^", "a power is written `^`", TOK_CARET },
  { "&&", "and", "write `and`", TOK_AND },
  { "||", "or", "write `or`", TOK_OR },
  { "!", "not ", "write `not`", TOK_NOT },
  { "$", NULL, "an amount of money is a text, in quotes: \"$62\"", TOK_EOF },
  { "?", NULL, "choose with `if`, or with `a and b or c`", TOK_EOF },
  { "@", NULL, NULL, TOK_EOF },
  { "\\", NULL, NULL, TOK_EOF },
};

static const ForeignSign *find_sign(const char *at)
{
  if (*at == '\0' || strchr("!<=*&|$?@\\", *at) == NULL) return NULL;
  if (strchr("<=*&|", *at) && strchr("=<>*&|", at[1]) == NULL) return NULL; /* the common case */
  for (size_t i = 0; i < sizeof foreign_signs / sizeof *foreign_signs; i++)
    if (strncmp(at, foreign_signs[i].sign, strlen(foreign_signs[i].sign)) == 0) return &foreign_signs[i];
  return NULL;
}

static void lex_sign(Lexer *lx, const ForeignSign *sign)
{
  uint32_t begin = lx->pos;
  lx->pos += (uint32_t)strlen(sign->sign);
  complain(lx->complaints, (Range){ begin, lx->pos },
           (Advice){ .help = sign->help, .fix = sign->fix, .fix_is_safe = sign->fix != NULL },
           "`%s` is not a sign of Lua", sign->sign);
  if (sign->kind != TOK_EOF) lexer_add(lx, sign->kind, begin, TOKEN_DAMAGED);
  else lexer_damage_line(lx);
}

bool lexer_foreign_operator(Lexer *lx)
{
  const char *at = lx->text + lx->pos;
  const ForeignSign *sign = find_sign(at);
  uint32_t length;
  if (sign) {
    lex_sign(lx, sign);
    return true;
  }
  if (lexer_operator(at, &length) != TOK_EOF) return false;
  lx->pos++;
  complain(lx->complaints, (Range){ lx->pos - 1, lx->pos }, (Advice){ 0 },
           "the control character 0x%02X does not belong here", (unsigned char)*at);
  return true;
}

/* ---- look-alikes */

typedef struct {
  uint32_t code;
  const char *name;
  char ascii[4];
} LookAlike;

static const LookAlike look_alikes[] = {
  { 0x00A0, "no-break space", " " },          { 0x00AB, "angle quote", "\"" },
  { 0x00AD, "soft hyphen", " " },             { 0x00B4, "acute accent", "'" },
  { 0x00BB, "angle quote", "\"" },            { 0x00D7, "multiplication sign", "*" },
  { 0x00F7, "division sign", "/" },           { 0x1680, "ogham space", " " },
  { 0x2000, "en quad", " " },                 { 0x2001, "em quad", " " },
  { 0x2002, "en space", " " },                { 0x2003, "em space", " " },
  { 0x2004, "three-per-em space", " " },      { 0x2005, "four-per-em space", " " },
  { 0x2006, "six-per-em space", " " },        { 0x2007, "figure space", " " },
  { 0x2008, "punctuation space", " " },       { 0x2009, "thin space", " " },
  { 0x200A, "hair space", " " },              { 0x200B, "zero-width space", " " },
  { 0x200C, "zero-width non-joiner", " " },   { 0x200D, "zero-width joiner", " " },
  { 0x200E, "left-to-right mark", " " },      { 0x200F, "right-to-left mark", " " },
  { 0x2010, "hyphen", "-" },                  { 0x2011, "no-break hyphen", "-" },
  { 0x2012, "figure dash", "-" },             { 0x2013, "en dash", "-" },
  { 0x2014, "em dash", "-" },                 { 0x2018, "curly quote", "'" },
  { 0x2019, "curly quote", "'" },             { 0x201A, "low quote", "'" },
  { 0x201B, "curly quote", "'" },             { 0x201C, "curly quote", "\"" },
  { 0x201D, "curly quote", "\"" },            { 0x201E, "low quote", "\"" },
  { 0x201F, "curly quote", "\"" },            { 0x2024, "one-dot leader", "." },
  { 0x2026, "ellipsis", "..." },              { 0x2028, "line separator", " " },
  { 0x2029, "paragraph separator", " " },     { 0x202F, "narrow no-break space", " " },
  { 0x2032, "prime", "'" },                   { 0x2033, "double prime", "\"" },
  { 0x2044, "fraction slash", "/" },          { 0x205F, "mathematical space", " " },
  { 0x2060, "word joiner", " " },             { 0x2212, "minus sign", "-" },
  { 0x2215, "division slash", "/" },          { 0x2217, "asterisk operator", "*" },
  { 0x2260, "unequal sign", "~=" },           { 0x2264, "less-or-equal sign", "<=" },
  { 0x2265, "greater-or-equal sign", ">=" },  { 0x3000, "ideographic space", " " },
  { 0x3001, "ideographic comma", "," },       { 0x300C, "corner bracket", "\"" },
  { 0x300D, "corner bracket", "\"" },         { 0xFEFF, "byte order mark", " " },
};

/* The full-width forms of `!` to `~`, except digits and letters. */
static bool is_full_width(uint32_t code, char *ascii)
{
  if (code < 0xFF01 || code > 0xFF5E) return false;
  *ascii = (char)(code - 0xFF01 + '!');
  return !lexer_is_name_byte(*ascii) || *ascii == '_';
}

static bool find_look_alike(uint32_t code, LookAlike *found)
{
  char full_width;
  if (is_full_width(code, &full_width)) {
    *found = (LookAlike){ code, "full-width sign", { full_width } };
    return true;
  }
  size_t low = 0, high = sizeof look_alikes / sizeof *look_alikes;
  while (low < high) {
    size_t middle = (low + high) / 2;
    if (look_alikes[middle].code < code) low = middle + 1;
    else high = middle;
  }
  if (low == sizeof look_alikes / sizeof *look_alikes || look_alikes[low].code != code) return false;
  *found = look_alikes[low];
  return true;
}

static uint32_t decode(const Lexer *lx, uint32_t at, uint32_t *code)
{
  return (uint32_t)text_decode(lx->text + at, lx->length - at, code);
}

static bool is_quote(const char *ascii) { return *ascii == '"' || *ascii == '\''; }

bool lexer_find_curly(const Lexer *lx, Range in, Range *found)
{
  LookAlike alike;
  for (uint32_t at = in.begin, code, bytes; at < in.end; at += bytes ? bytes : 1) {
    bytes = decode(lx, at, &code);
    if (bytes < 2 || !find_look_alike(code, &alike) || !is_quote(alike.ascii)) continue;
    *found = (Range){ at, at + bytes };
    return true;
  }
  return false;
}

/* A text between quotes that are not ASCII: up to the next quote of any kind on the line. */
static bool find_closing_quote(const Lexer *lx, uint32_t from, char ascii, Range *inner, uint32_t *end)
{
  uint32_t stop = lexer_line_rest(lx, from);
  LookAlike alike;
  for (uint32_t at = from, code, bytes; at < stop; at += bytes ? bytes : 1) {
    bytes = decode(lx, at, &code);
    bool closes = lx->text[at] == ascii || lx->text[at] == '`' ||
                  (bytes > 1 && find_look_alike(code, &alike) && *alike.ascii == ascii);
    if (!closes) continue;
    *inner = (Range){ from, at };
    *end = at + bytes;
    return true;
  }
  return false;
}

static void lex_curly_string(Lexer *lx, uint32_t begin, const char *name, char ascii)
{
  Range inner;
  uint32_t first = lx->pos - begin, end = 0;
  if (!find_closing_quote(lx, lx->pos, ascii, &inner, &end)) {
    Quote quote = complain_quote(lx->complaints, (Range){ begin, lx->pos });
    char fix[] = { ascii, '\0' };
    complain(lx->complaints, (Range){ begin, begin + first },
             (Advice){ .help = "use the plain quotes of the keyboard", .fix = fix },
             "the %s `%s` is not a quote of Lua", name, quote.text);
    lexer_damage_line(lx);
    return;
  }
  Buf fix = { 0 };
  bool plain = !memchr(lx->text + inner.begin, '"', inner.end - inner.begin) &&
               !memchr(lx->text + inner.begin, '\\', inner.end - inner.begin);
  buf_printf(&fix, "\"%.*s\"", (int)(inner.end - inner.begin), lx->text + inner.begin);
  Quote quote = complain_quote(lx->complaints, (Range){ begin, lx->pos });
  lx->pos = end;
  complain(lx->complaints, (Range){ begin, end },
           (Advice){ .help = "use the plain quotes of the keyboard",
                     .fix = plain ? buf_text(&fix) : NULL,
                     .fix_is_safe = plain },
           "this text stands in quotes that are not Lua's (%s `%s`)", name, quote.text);
  buf_free(&fix);
  lexer_add(lx, TOK_STRING, begin, 0);
}

/* Runs of the same blank are one mistake. */
static void skip_foreign_blank(Lexer *lx, uint32_t begin, uint32_t code, const char *name)
{
  uint32_t next, bytes;
  while ((bytes = decode(lx, lx->pos, &next)) > 0 && next == code) lx->pos += bytes;
  bool in_name = begin > 0 && lexer_is_name_byte(lx->text[begin - 1]) && lexer_is_name_byte(lx->text[lx->pos]);
  complain(
      lx->complaints, (Range){ begin, lx->pos },
      (Advice){ .help = "delete it, or type a plain space", .fix = in_name ? NULL : " ", .fix_is_safe = !in_name },
      "this is not a plain space but U+%04X (%s)", code, name);
  if (in_name) lexer_damage_line(lx);
}

static void lex_look_alike(Lexer *lx, uint32_t begin, const LookAlike *alike)
{
  if (*alike->ascii == ' ') {
    skip_foreign_blank(lx, begin, alike->code, alike->name);
    return;
  }
  if (is_quote(alike->ascii)) {
    lex_curly_string(lx, begin, alike->name, *alike->ascii);
    return;
  }
  uint32_t length;
  TokenKind kind = lexer_operator(alike->ascii, &length);
  Quote quote = complain_quote(lx->complaints, (Range){ begin, lx->pos });
  char help[40];
  snprintf(help, sizeof help, "write `%s`", alike->ascii);
  complain(lx->complaints, (Range){ begin, lx->pos },
           (Advice){ .help = help, .fix = alike->ascii, .fix_is_safe = true },
           "`%s` (%s, U+%04X) is not a sign of Lua", quote.text, alike->name, alike->code);
  if (kind != TOK_EOF) lexer_add(lx, kind, begin, TOKEN_DAMAGED);
}

bool lexer_is_foreign_letter(const Lexer *lx, uint32_t at, uint32_t *bytes)
{
  LookAlike alike;
  uint32_t code;
  if ((unsigned char)lx->text[at] < 0x80) return false;
  *bytes = decode(lx, at, &code);
  return *bytes > 0 && !find_look_alike(code, &alike);
}

void lexer_foreign_name(Lexer *lx, uint32_t begin)
{
  for (uint32_t bytes = 0; lexer_is_name_byte(lx->text[lx->pos]) || lexer_is_foreign_letter(lx, lx->pos, &bytes);)
    lx->pos += lexer_is_name_byte(lx->text[lx->pos]) ? 1 : bytes;
  Quote quote = complain_quote(lx->complaints, (Range){ begin, lx->pos });
  complain(lx->complaints, (Range){ begin, lx->pos },
           (Advice){ .help = "if it is a text, put it in quotes; a name may hold a-z, A-Z, 0-9 and _ only" },
           "`%s` holds letters that a name cannot have", quote.text);
  uint32_t token = lx->tokens.count;
  lexer_add_name(lx, begin);
  if (lx->tokens.count > token) lx->tokens.at[token].flags |= TOKEN_DAMAGED;
}

static void skip_bad_bytes(Lexer *lx, uint32_t begin)
{
  uint32_t code;
  while (lx->pos < lx->length && decode(lx, lx->pos, &code) == 0) lx->pos++;
  complain(lx->complaints, (Range){ begin, lx->pos }, (Advice){ .help = "save the file as UTF-8" },
           "the byte 0x%02X is not UTF-8", (unsigned char)lx->text[begin]);
  lexer_damage_line(lx);
}

void lexer_foreign(Lexer *lx)
{
  uint32_t begin = lx->pos, code, bytes = decode(lx, begin, &code);
  LookAlike alike;
  lx->pos += bytes;
  if (lx->text[begin] == '`') lex_curly_string(lx, begin, "backtick", '\'');
  else if (bytes == 0) skip_bad_bytes(lx, begin);
  else if (find_look_alike(code, &alike)) lex_look_alike(lx, begin, &alike);
  else lexer_foreign_name(lx, begin);
}
