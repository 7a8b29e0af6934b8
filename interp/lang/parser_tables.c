/* parser_tables.c - table constructors, and the mistakes that people make in them: most of a recipe is tables. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/mem.h"
#include "lang/parser.h"

enum {
  FLUSH = 50,      /* items that Lua holds before it stores them: LFIELDS_PER_FLUSH */
  TWINS_MOST = 200 /* fields of a table that is searched for the same name twice */
};

/* ---- keys */

static void name_field(Parser *p, Field *field, uint32_t token)
{
  Token t = p->tokens[token];
  field->kind = FIELD_NAMED;
  if (t.kind != TOK_STRING) {
    field->name = p->text + t.begin, field->name_length = t.end - t.begin;
    return;
  }
  Buf value = { 0 };
  lexer_string_value(p->text, t, &value);
  field->name = arena_strndup(p->tree->arena, buf_text(&value), value.length);
  field->name_length = (uint32_t)value.length;
  buf_free(&value);
}

static void number_field(Parser *p, Field *field, uint32_t token)
{
  const char *text = p->text + p->tokens[token].begin, *end = p->text + p->tokens[token].end;
  char *stop;
  bool hex = text[0] == '0' && (text[1] == 'x' || text[1] == 'X');
  long long number = strtoll(text, &stop, hex ? 16 : 10);
  if (stop != end) return;
  field->kind = FIELD_NUMBERED;
  field->number = number;
}

static void parse_computed_key(Parser *p, Field *field)
{
  field->kind = FIELD_COMPUTED;
  parser_open(p, p->pos, TOK_RIGHT_BRACKET);
  parser_next(p);
  Expr key = parse_expression(p);
  parser_close(p);
  field->key = key.at;
  if (p->panic || key.at.first != key.at.last) return;
  TokenKind kind = p->tokens[key.at.first].kind;
  if (kind == TOK_STRING) name_field(p, field, key.at.first);
  if (kind == TOK_NUMBER) number_field(p, field, key.at.first);
}

static bool is_keyword(const char *text, uint32_t length)
{
  for (TokenKind kind = TOK_AND; kind <= TOK_WHILE; kind++)
    if (strlen(token_text(kind)) == length && memcmp(token_text(kind), text, length) == 0) return true;
  return false;
}

static bool is_identifier(const char *text, uint32_t length)
{
  static const char bytes[] = "_abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789";
  bool begins_with_digit = *text >= '0' && *text <= '9';
  return length > 0 && !begins_with_digit && strspn(text, bytes) >= length && !is_keyword(text, length);
}

/* `"grit": 100` or `"grit" = 100`. */
static void complain_quoted_key(Parser *p)
{
  Token key = p->tokens[p->pos];
  uint32_t length = key.end - key.begin - 2;
  const char *text = p->text + key.begin;
  bool plain = !(key.flags & (TOKEN_LONG | TOKEN_ESCAPES)) && length < 40;
  char fix[60] = "";
  if (plain && is_identifier(text + 1, length)) snprintf(fix, sizeof fix, "%.*s =", (int)length, text + 1);
  else if (plain) snprintf(fix, sizeof fix, "[%.*s] =", (int)length + 2, text);
  parser_complain(
      p, (Range){ key.begin, p->tokens[p->pos + 1].end },
      (Advice){ .help = "write `name = value`, or `[\"any text\"] = value`", .fix = fix[0] ? fix : NULL },
      "a field's name is written without quotes, and followed by `=`");
}

static void complain_keyword_key(Parser *p)
{
  const char *word = token_text(parser_peek(p));
  char fix[20], help[40];
  snprintf(fix, sizeof fix, "[\"%s\"]", word);
  snprintf(help, sizeof help, "write `%s`", fix);
  parser_complain(p, parser_here(p), (Advice){ .help = help, .fix = fix, .fix_is_safe = true },
                  "`%s` is a word of Lua and cannot name a field as it is", word);
}

static void complain_sign(Parser *p, const char *fix)
{
  Quote sign = parser_quote(p, p->pos + 1);
  parser_complain(p, token_range(p->tokens[p->pos + 1]),
                  (Advice){ .help = "write `=`", .fix = fix, .fix_is_safe = true },
                  "a field gets its value by `=`, not by `%s`", sign.text);
}

static void complain_no_sign(Parser *p)
{
  Quote name = parser_quote(p, p->pos);
  parser_complain(p, parser_after(p, p->pos + 1), (Advice){ .help = "put `=` here", .fix = " =" },
                  "`=` is missing behind `%s`", name.text);
}

static bool is_method_call(const Parser *p)
{
  TokenKind opener = parser_peek_at(p, 3);
  return parser_peek_at(p, 2) == TOK_NAME &&
         (opener == TOK_LEFT_PAREN || opener == TOK_STRING || opener == TOK_LEFT_BRACE);
}

static bool lacks_sign(const Parser *p, TokenKind next)
{
  bool value =
      next == TOK_NUMBER || next == TOK_TRUE || next == TOK_FALSE || next == TOK_NIL || next == TOK_FUNCTION;
  return value && !parser_is_first(p, p->pos + 1);
}

static bool is_global(Parser *p) { return p->scope.visible_1[p->tokens[p->pos].symbol] == 0; }

/* Reads the key and its `=`, if the field has them. */
static bool parse_key(Parser *p, Field *field)
{
  TokenKind kind = parser_peek(p), next = parser_peek_at(p, 1);
  uint32_t key = p->pos;
  int skip = 2;
  if (kind == TOK_LEFT_BRACKET) {
    parse_computed_key(p, field);
    if (!p->panic) parser_expect(p, TOK_ASSIGN, "behind the key in brackets");
    return true;
  }
  if (kind == TOK_NAME && next == TOK_ASSIGN) skip = 2;
  else if (kind == TOK_NAME && next == TOK_EQUAL && is_global(p)) complain_sign(p, "=");
  else if (kind == TOK_NAME && next == TOK_COLON && !is_method_call(p)) complain_sign(p, " =");
  else if (kind == TOK_NAME && lacks_sign(p, next)) complain_no_sign(p), skip = 1;
  else if (token_is_keyword(kind) && next == TOK_ASSIGN) complain_keyword_key(p);
  else if (kind == TOK_STRING && (next == TOK_ASSIGN || next == TOK_COLON)) complain_quoted_key(p);
  else return false;
  name_field(p, field, key);
  field->key = (Stretch){ key, key };
  p->pos += (uint32_t)skip;
  return true;
}

/* ---- what separates fields */

typedef enum { MORE_FIELDS, LAST_FIELD, CLOSED_BY_GUESS } Separation;

static bool looks_unclosed(const Parser *p)
{
  const Opener *opener = &p->openers[p->opener_count - 1];
  return p->brace_excess > 0 && opener->missed == 0 && parser_is_first(p, p->pos) &&
         p->tokens[p->pos].indent <= p->tokens[opener->token].indent;
}

static Separation close_by_guess(Parser *p)
{
  parser_complain_unclosed(p, p->pos);
  p->opener_count--;
  p->brace_excess--;
  p->panic = false;
  return CLOSED_BY_GUESS;
}

static bool begins_field(const Parser *p)
{
  TokenKind kind = parser_peek(p);
  if (token_is_keyword(kind) && parser_peek_at(p, 1) == TOK_ASSIGN) return true;
  return kind == TOK_LEFT_BRACKET || parser_begins_expression(kind);
}

static bool has_open(const Parser *p, TokenKind closer)
{
  for (uint32_t i = p->opener_count; i > 0; i--)
    if (p->openers[i - 1].closer == closer) return true;
  return false;
}

static Separation separate_fields(Parser *p);

static Separation skip_stray_bracket(Parser *p)
{
  parser_complain(p, parser_here(p), (Advice){ .help = "delete it", .fix = "" }, "this `%s` closes nothing",
                  token_text(parser_peek(p)));
  while (parser_accept(p, TOK_RIGHT_PAREN)) continue;
  return separate_fields(p);
}

static Separation close_by_wrong_bracket(Parser *p)
{
  Advice advice = { .help = "write `}`", .fix = "}" };
  advice.labels[0].at = token_range(p->tokens[p->openers[p->opener_count - 1].token]);
  advice.labels[0].text = "opened here";
  Quote wrong = parser_quote(p, p->pos);
  parser_complain(p, parser_here(p), advice, "`%s` does not close a `{`", wrong.text);
  p->opener_count--;
  p->brace_excess--;
  parser_next(p);
  return CLOSED_BY_GUESS;
}

static Separation separate_fields(Parser *p)
{
  TokenKind kind = parser_peek(p);
  if (kind == TOK_COMMA || kind == TOK_SEMICOLON) {
    parser_next(p);
    return MORE_FIELDS;
  }
  if (kind == TOK_RIGHT_BRACE || kind == TOK_EOF) return LAST_FIELD;
  if (parser_bare_quantity(p)) return separate_fields(p);
  if (parser_comment_typo(p)) return MORE_FIELDS;
  if (looks_unclosed(p)) return close_by_guess(p);
  if (begins_field(p)) {
    parser_complain(p, parser_after(p, p->pos),
                    (Advice){ .help = "put a comma here", .fix = ",", .fix_is_safe = true },
                    "a comma is missing between two fields");
    return MORE_FIELDS;
  }
  if (kind == TOK_RIGHT_PAREN && !has_open(p, TOK_RIGHT_PAREN))
    return p->brace_excess > 0 ? close_by_wrong_bracket(p) : skip_stray_bracket(p);
  if (kind == TOK_RIGHT_PAREN || parser_begins_statement(kind) || parser_ends_block(kind)) return LAST_FIELD;
  parser_unexpected(p, kind == TOK_ASSIGN
                           ? "a field's name is one word, or any value in brackets: `,` is expected here"
                           : "`,` or `}` is expected behind a field");
  return parser_resume_field(p) ? separate_fields(p) : LAST_FIELD;
}

/* ---- the constructor */

static bool skip_double_comma(Parser *p)
{
  if (parser_peek(p) != TOK_COMMA && parser_peek(p) != TOK_SEMICOLON) return false;
  parser_complain(p, parser_here(p), (Advice){ .help = "delete it, or put a value before it", .fix = "" },
                  "no value stands before this `%s`", token_text(parser_peek(p)));
  parser_next(p);
  return true;
}

static void parse_field(Parser *p, int64_t *items)
{
  Field field = { .kind = FIELD_ITEM };
  uint32_t begin = p->pos;
  if (skip_double_comma(p) || parser_comment_typo(p)) return;
  bool has_key = parse_key(p, &field);
  if (p->panic) return;
  if (has_key) parser_hold(p, 2);
  field.value = parse_expression(p).at;
  if (has_key) parser_hold(p, -2);
  if (p->panic || p->pos == begin) return;
  if (!has_key) field.number = ++*items;
  if (p->open_field_count == p->open_field_room) {
    p->open_field_room = p->open_field_room * 2 + 64;
    p->open_fields = mem_grow(p->open_fields, p->open_field_room, sizeof *p->open_fields);
  }
  p->open_fields[p->open_field_count++] = field;
}

/* Lua stores items fifty at a time, so up to that many are held. */
static int held_items(int64_t items) { return items == 0 ? 0 : (int)((items - 1) % FLUSH) + 1; }

/* A loop or condition among the fields, in a file whose braces match: the fields go on behind it. */
static bool skip_statement(Parser *p)
{
  TokenKind kind = parser_peek(p);
  if (!parser_begins_statement(kind) || p->brace_excess > 0) return false;
  parser_complain(p, parser_here(p), (Advice){ .help = "make the table first, and add to it behind it" },
                  "`%s` begins a statement, which cannot stand in a table", token_text(kind));
  parser_skip_block(p);
  parser_accept(p, TOK_COMMA);
  return true;
}

static bool parse_fields(Parser *p)
{
  int64_t items = 0;
  Separation separation = MORE_FIELDS;
  while (separation == MORE_FIELDS && parser_peek(p) != TOK_RIGHT_BRACE && parser_peek(p) != TOK_EOF) {
    TokenKind kind = parser_peek(p);
    uint32_t begin = p->pos;
    bool is_key = parser_peek_at(p, 1) == TOK_ASSIGN;
    if (!is_key && skip_statement(p)) continue;
    if ((parser_begins_statement(kind) || parser_ends_block(kind)) && !is_key) break;
    parser_note_indent(p);
    int held = held_items(items);
    parser_hold(p, held);
    bool was_separator = kind == TOK_COMMA || kind == TOK_SEMICOLON;
    parse_field(p, &items);
    parser_hold(p, -held);
    if (p->panic && !parser_resume_field(p)) break;
    if (!was_separator) separation = separate_fields(p);
    if (p->pos == begin && separation == MORE_FIELDS) parser_next(p);
  }
  return separation == CLOSED_BY_GUESS;
}

static void keep_fields(Parser *p, Table *table, uint32_t from)
{
  table->field_count = p->open_field_count - from;
  Field *fields = arena_array(p->tree->arena, table->field_count, sizeof *fields);
  if (table->field_count) memcpy(fields, p->open_fields + from, table->field_count * sizeof *fields);
  table->fields = fields;
  p->open_field_count = from;
}

/* The earlier field of the same name; NULL if there is none. `key` is a field of the table. */
static const Field *find_twin(const Table *table, const Field *key)
{
  for (const Field *f = table->fields; f < key; f++)
    if (f->kind == FIELD_NAMED && f->name_length == key->name_length &&
        memcmp(f->name, key->name, key->name_length) == 0)
      return f;
  return NULL;
}

/* Lua would keep the later value and say nothing. Tables of data, long ones, are left alone. */
static void complain_twins(Parser *p, const Table *table)
{
  if (p->panic || table->field_count > TWINS_MOST) return;
  for (const Field *f = table->fields; f < table->fields + table->field_count; f++) {
    const Field *first = f->kind == FIELD_NAMED ? find_twin(table, f) : NULL;
    if (!first) continue;
    Advice advice = { .help = "keep one of them" };
    advice.labels[0].at = token_range(p->tokens[first->key.first]);
    advice.labels[0].text = "the first one";
    Quote name = parser_quote(p, f->key.first);
    complain(p->complaints, token_range(p->tokens[f->key.first]), advice, "`%s` is given twice", name.text);
  }
}

uint32_t parse_table(Parser *p, bool is_argument)
{
  uint32_t id = ++p->tree->table_count, from = p->open_field_count, begin = p->pos;
  int levels = is_argument ? 2 : 1; /* of what the rewriting adds: _mark(ID, ...), and the parentheses of a call */
  parser_enter_many(p, levels);
  parser_hold(p, 4);
  if (!p->stopped) {
    parser_open(p, p->pos, TOK_RIGHT_BRACE);
    parser_next(p);
    bool closed = parse_fields(p);
    if (!closed) parser_close(p);
  }
  parser_hold(p, -4);
  p->depth -= levels;
  Table *table = &p->tree->tables[id];
  keep_fields(p, table, from);
  table->at = (Stretch){ begin, p->pos - 1 };
  table->is_argument = is_argument;
  complain_twins(p, table);
  tree_order_fields(p->tree, table);
  return id;
}
