/* parser_recover.c - the parser's errors: when to complain, in which words, and where to go on. */
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "lang/parser.h"

/* ---- places */

Range parser_here(const Parser *p) { return token_range(p->tokens[p->pos]); }

Range parser_range(const Parser *p, Stretch tokens)
{
  return (Range){ p->tokens[tokens.first].begin, p->tokens[tokens.last].end };
}

Range parser_after(const Parser *p, uint32_t before)
{
  uint32_t end = before > 0 ? p->tokens[before - 1].end : 0;
  return (Range){ end, end };
}

Quote parser_quote(const Parser *p, uint32_t token)
{
  return complain_quote(p->complaints, token_range(p->tokens[token]));
}

/* ---- complaining */

static bool is_damaged(const Parser *p)
{
  if (p->tokens[p->pos].flags & TOKEN_DAMAGED) return true;
  return p->pos > 0 && (p->tokens[p->pos - 1].flags & TOKEN_DAMAGED);
}

bool parser_complain(Parser *p, Range at, Advice advice, const char *format, ...)
{
  bool lost = parser_peek(p) == TOK_EOF && (p->shaken || p->tree->tokens.cut);
  if (p->panic || p->stopped || lost || p->complained_1 == p->pos + 1 || is_damaged(p)) return false;
  p->complained_1 = p->pos + 1;
  va_list args;
  va_start(args, format);
  complain_v(p->complaints, at, &advice, format, args);
  va_end(args);
  return true;
}

void parser_stop(Parser *p)
{
  p->stopped = p->panic = true;
  p->pos = p->tree->tokens.count - 1;
}

void parser_enter_many(Parser *p, int levels)
{
  p->depth += levels;
  if (p->scope.too_much) parser_stop(p);
  if (p->depth <= SYNTAX_DEPTH) return;
  p->panic = false;
  parser_complain(p, parser_here(p), (Advice){ .help = "give inner parts names of their own with `local`" },
                  "this is nested too deeply (more than %d levels)", SYNTAX_DEPTH);
  parser_stop(p);
}

bool parser_enter(Parser *p)
{
  parser_enter_many(p, 1);
  if (!p->stopped) return true;
  p->depth--;
  return false;
}

/* ---- remarks in the manner of other languages */

/* Does a remark begin at this sign? Words that no expression can hold follow it on the line. */
static bool begins_remark(const Parser *p, uint32_t sign)
{
  TokenKind kind = p->tokens[sign].kind;
  if (kind == TOK_FLOOR_DIVIDE) return true;
  return kind == TOK_HASH && (parser_is_first(p, sign) || p->tokens[sign - 1].kind == TOK_COMMA);
}

static void complain_remark(Parser *p, uint32_t sign)
{
  parser_complain(p, token_range(p->tokens[sign]), (Advice){ .help = "write `--`", .fix = "--" },
                  "`%s` does not begin a comment", token_text(p->tokens[sign].kind));
  if (p->pos == sign) parser_next(p);
  while (parser_peek(p) != TOK_EOF && !parser_is_first(p, p->pos)) parser_next(p);
  p->complained_1 = p->resume_1 = p->pos + 1;
}

/* An error at a token behind `//` or `#` on the same line: the rest of the line was meant as a remark. */
bool parser_inside_remark(Parser *p, uint32_t token)
{
  for (uint32_t i = token; i > 0 && !parser_is_first(p, i); i--) {
    if (!begins_remark(p, i - 1)) continue;
    complain_remark(p, i - 1);
    return true;
  }
  return false;
}

bool parser_comment_typo(Parser *p)
{
  TokenKind kind = parser_peek(p);
  bool begins = kind == TOK_FLOOR_DIVIDE ||
                (kind == TOK_HASH && begins_remark(p, p->pos) && parser_peek_at(p, 1) == TOK_NAME &&
                 parser_peek_at(p, 2) == TOK_NAME && !parser_is_first(p, p->pos + 2));
  if (!begins) return false;
  complain_remark(p, p->pos);
  return true;
}

/* ---- values with a unit but without quotes */

static bool may_be_unit(TokenKind kind)
{
  return kind == TOK_NAME || kind == TOK_IN || kind == TOK_NUMBER || kind == TOK_SLASH || kind == TOK_PERCENT;
}

bool parser_bare_quantity(Parser *p)
{
  uint32_t number = p->pos - 1, end = p->pos;
  if (p->tokens[number].kind != TOK_NUMBER || number == 0) return false;
  TokenKind before = p->tokens[number - 1].kind;
  if (before != TOK_ASSIGN && before != TOK_COMMA && before != TOK_LEFT_PAREN && before != TOK_LEFT_BRACE)
    return false;
  while (may_be_unit(p->tokens[end].kind) && !parser_is_first(p, end)) end++;
  TokenKind last = p->tokens[end - 1].kind, next = p->tokens[end].kind;
  if (end == p->pos || next == TOK_ASSIGN || (last != TOK_NAME && last != TOK_IN && last != TOK_PERCENT))
    return false;
  Range at = { p->tokens[number].begin, p->tokens[end - 1].end };
  char fix[60] = "";
  if (at.end - at.begin < sizeof fix - 3)
    snprintf(fix, sizeof fix, "\"%.*s\"", (int)(at.end - at.begin), p->text + at.begin);
  parser_complain(p, at, (Advice){ .help = "a value with a unit is a text, in quotes", .fix = fix[0] ? fix : NULL },
                  "a value with a unit stands here without quotes");
  p->pos = end;
  return true;
}

/* ---- words for what is wrong */

/* Words of other languages. */
static const char *translated(const char *word)
{
  static const char *const words[][2] = { { "elif", "elseif" }, { "elsif", "elseif" }, { "func", "function" },
                                          { "def", "function" }, { "fn", "function" }, { "let", "local" },
                                          { "var", "local" }, { "const", "local" }, { "ret", "return" } };
  for (size_t i = 0; i < sizeof words / sizeof *words; i++)
    if (strcmp(word, words[i][0]) == 0) return words[i][1];
  return NULL;
}

static const char *near_keyword(const char *word)
{
  static const char *const words[] = { "local", "function", "return", "if", "then", "else", "elseif", "end", "for",
                                       "while", "do", "repeat", "until", "break", "and", "not" };
  const char *near;
  return text_near(word, words, sizeof words / sizeof *words, &near, 1) ? near : NULL;
}

/* The keyword that was meant by the token that comes or, since the error may show one word late (`retrun x` fails
 * at `x`), by the one before it. */
static const char *misspelt(const Parser *p, uint32_t *token)
{
  for (uint32_t back = 0; back < 2 && back <= p->pos; back++) {
    *token = p->pos - back;
    if (p->tokens[*token].kind == TOK_NAME) {
      Quote word = parser_quote(p, *token);
      const char *meant = translated(word.text);
      if (meant == NULL && (back == 0 || parser_is_first(p, *token))) meant = near_keyword(word.text);
      if (meant) return meant;
    }
    if (parser_is_first(p, *token)) break;
  }
  return NULL;
}

static void complain_unexpected(Parser *p, const char *wanted)
{
  uint32_t token;
  const char *near = misspelt(p, &token);
  if (near) {
    char help[40];
    Quote word = parser_quote(p, token);
    snprintf(help, sizeof help, "did you mean `%s`?", near);
    parser_complain(p, token_range(p->tokens[token]), (Advice){ .help = help, .fix = near },
                    "`%s` is not understood here", word.text);
    return;
  }
  Quote found = parser_quote(p, p->pos);
  if (parser_peek(p) == TOK_EOF) parser_complain(p, parser_here(p), (Advice){ 0 }, "%s, but the file ends", wanted);
  else parser_complain(p, parser_here(p), (Advice){ 0 }, "%s, not `%s`", wanted, found.text);
}

void parser_unexpected(Parser *p, const char *wanted)
{
  bool early = parser_peek(p) == TOK_RIGHT_BRACE && p->opener_count == 0 && parser_complain_early(p);
  if (!early && !p->panic && !parser_inside_remark(p, p->pos)) complain_unexpected(p, wanted);
  p->panic = true;
}

bool parser_expect(Parser *p, TokenKind kind, const char *where)
{
  if (parser_accept(p, kind)) return true;
  char wanted[100];
  snprintf(wanted, sizeof wanted, "`%s` is expected %s", token_text(kind), where);
  parser_unexpected(p, wanted);
  return false;
}

TokenKind parser_name(Parser *p, const char *what)
{
  if (parser_accept(p, TOK_NAME)) return TOK_NAME;
  if (token_is_keyword(parser_peek(p)) && !parser_is_first(p, p->pos)) {
    const char *word = token_text(parser_peek(p));
    parser_complain(p, parser_here(p), (Advice){ .help = "take another name" },
                    "`%s` is a word of Lua and cannot be a name", word);
  } else {
    parser_unexpected(p, what);
  }
  p->panic = true;
  return TOK_EOF;
}

/* ---- what stands open */

void parser_open(Parser *p, uint32_t token, TokenKind closer)
{
  p->openers[p->opener_count++] = (Opener){ .token = token, .closer = closer };
}

/* At the first token of a statement or field: remember the first that is not indented as if it were inside. */
void parser_note_indent(Parser *p)
{
  if (p->opener_count == 0) return;
  Opener *opener = &p->openers[p->opener_count - 1];
  if (opener->missed == 0 && parser_is_first(p, p->pos) &&
      p->tokens[p->pos].indent <= p->tokens[opener->token].indent)
    opener->missed = p->pos;
}

static Advice advice_for(const Parser *p, const Opener *opener)
{
  Advice advice = { 0 };
  advice.labels[0].at = token_range(p->tokens[opener->token]);
  advice.labels[0].text = "opened here";
  return advice;
}

/* Says that the innermost thing that is open should be closed before the token `missed`; unless one further in was
 * closed by what was probably meant for it. */
void parser_complain_unclosed(Parser *p, uint32_t missed)
{
  Opener opener = p->suspect.closer != TOK_EOF ? p->suspect : p->openers[p->opener_count - 1];
  if (opener.missed) missed = opener.missed;
  Quote quote = parser_quote(p, opener.token);
  parser_complain(p, parser_after(p, missed), advice_for(p, &opener), "`%s` is missing: this `%s` is not closed",
                  token_text(opener.closer), quote.text);
  p->suspect = (Opener){ 0 };
  p->panic = true;
  if (opener.closer == TOK_END || opener.closer == TOK_RIGHT_BRACE || opener.closer == TOK_UNTIL) p->shaken = true;
}

/* A table over several lines that ends in the middle of one: if there is a `}` too many, it is probably this. */
static void note_early(Parser *p, uint32_t opener)
{
  enum { FAR = 64 };
  uint32_t first = p->pos;
  while (first > 0 && p->pos - first < FAR && !parser_is_first(p, first)) first--;
  if (first == p->pos || first <= opener || p->early.closer != TOK_EOF) return;
  p->early = (Opener){ .token = opener, .closer = TOK_RIGHT_BRACE, .missed = p->pos };
}

bool parser_complain_early(Parser *p)
{
  if (p->early.closer == TOK_EOF || p->panic) return false;
  Advice advice = { .help = "delete it" };
  advice.labels[0].at = token_range(p->tokens[p->early.token]);
  advice.labels[0].text = "it closes this already";
  parser_complain(p, token_range(p->tokens[p->early.missed]), advice, "there is a `}` too many, probably this");
  p->shaken = true;
  return true;
}

void parser_close(Parser *p)
{
  if (p->panic) {
    p->opener_count--;
    return;
  }
  const Opener *opener = &p->openers[p->opener_count - 1];
  if (parser_peek(p) == opener->closer) {
    bool moved_out = parser_is_first(p, p->pos) && p->tokens[p->pos].indent < p->tokens[opener->token].indent;
    if (moved_out && p->suspect.closer == TOK_EOF) {
      p->suspect = *opener;
      if (p->suspect.missed == 0) p->suspect.missed = p->pos;
    }
    if (opener->closer == TOK_RIGHT_BRACE && p->brace_excess < 0) note_early(p, opener->token);
    parser_next(p);
  } else if (parser_peek(p) != TOK_EOF && parser_inside_remark(p, p->pos)) {
    p->panic = true;
  } else {
    bool bracket = opener->closer == TOK_RIGHT_PAREN || opener->closer == TOK_RIGHT_BRACKET;
    parser_complain_unclosed(p, p->pos);
    p->panic = !bracket || p->stopped; /* a bracket is put in: what follows is sound */
  }
  p->opener_count--;
}

/* ---- going on */

bool parser_begins_statement(TokenKind kind)
{
  switch (kind) {
    case TOK_LOCAL: case TOK_IF: case TOK_FOR: case TOK_WHILE: case TOK_REPEAT: case TOK_RETURN: case TOK_GOTO:
    case TOK_BREAK: case TOK_DO: case TOK_DOUBLE_COLON: return true;
    default: return false;
  }
}

bool parser_ends_block(TokenKind kind)
{
  return kind == TOK_END || kind == TOK_ELSE || kind == TOK_ELSEIF || kind == TOK_UNTIL || kind == TOK_EOF;
}

/* At a word that has an `end`: to behind that. Of other words, over the word. */
void parser_skip_block(Parser *p)
{
  TokenKind first = parser_peek(p);
  bool late = first == TOK_FOR || first == TOK_WHILE; /* their `do` begins the block */
  int open = 0;
  do {
    TokenKind kind = parser_peek(p);
    if (kind == TOK_FUNCTION || kind == TOK_IF || kind == TOK_DO || kind == TOK_REPEAT) open++, late = false;
    if (kind == TOK_END || kind == TOK_UNTIL) open--;
    parser_next(p);
  } while ((open > 0 || late) && parser_peek(p) != TOK_EOF);
}

/* Behind a skipped remark; only once, so that reading goes on. */
static bool may_resume(Parser *p)
{
  if (p->resume_1 != p->pos + 1) return false;
  p->resume_1 = 0;
  return true;
}

/* To the next token that can begin a statement: a word that always does, or the first of a line that is not
 * indented deeper than the statement that failed. */
void parser_resume_statement(Parser *p, uint32_t begin)
{
  p->panic = p->stopped;
  uint16_t indent = p->tokens[begin].indent;
  while (!parser_ends_block(parser_peek(p)) && !may_resume(p)) {
    TokenKind kind = parser_peek(p);
    bool outside = parser_is_first(p, p->pos) && p->tokens[p->pos].indent <= indent && p->pos > begin;
    if (parser_begins_statement(kind) && p->pos > begin) return;
    if (outside && (kind == TOK_NAME || kind == TOK_FUNCTION || kind == TOK_LEFT_PAREN)) return;
    p->shaken = true;
    if (kind == TOK_FUNCTION) parser_skip_block(p);
    else parser_next(p);
  }
}

/* To the next separator or `}` of this constructor; false if there is none before something that no table holds. */
bool parser_resume_field(Parser *p)
{
  if (p->stopped) return false;
  for (int open = 0; parser_peek(p) != TOK_EOF;) {
    TokenKind kind = parser_peek(p);
    bool closes = kind == TOK_RIGHT_BRACE || kind == TOK_RIGHT_PAREN || kind == TOK_RIGHT_BRACKET;
    if (open == 0 && (kind == TOK_RIGHT_BRACE || kind == TOK_COMMA || kind == TOK_SEMICOLON)) break;
    if (may_resume(p)) break;
    if (parser_begins_statement(kind) || parser_ends_block(kind)) return false;
    if (kind == TOK_LEFT_BRACE || kind == TOK_LEFT_PAREN || kind == TOK_LEFT_BRACKET) open++;
    if (closes && open > 0) open--;
    if (kind == TOK_FUNCTION) parser_skip_block(p);
    else parser_next(p);
  }
  if (parser_peek(p) == TOK_EOF) return false;
  p->panic = false;
  return true;
}

/* After an error in the head of a block its body is still read: the panic ends where the body can begin. */
void parser_leave_panic_at(Parser *p, TokenKind opening)
{
  if (!p->panic || p->stopped) return;
  uint32_t at = p->pos;
  while (p->tokens[at].kind != opening && p->tokens[at].kind != TOK_EOF && !(at > p->pos && parser_is_first(p, at)))
    at++;
  if (p->tokens[at].kind != opening) {
    p->shaken = true;
    return;
  }
  p->pos = at;
  p->panic = false;
}
