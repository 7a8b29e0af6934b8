#include "lang/edit.h"

#include <string.h>

#include "lang/tree.h"

/* ---- the text round a token */

static Token token_at(const Tree *tree, uint32_t token) { return tree->tokens.at[token]; }

static bool is_separator(const Tree *tree, uint32_t token)
{
  return token_at(tree, token).kind == TOK_COMMA || token_at(tree, token).kind == TOK_SEMICOLON;
}

static bool is_line_end(char c) { return c == '\n' || c == '\r'; }

static uint32_t line_begin(const Tree *tree, uint32_t offset)
{
  while (offset > 0 && !is_line_end(tree->text[offset - 1])) offset--;
  return offset;
}

static uint32_t line_end(const Tree *tree, uint32_t offset)
{
  while (tree->text[offset] && !is_line_end(tree->text[offset])) offset++;
  return offset;
}

static uint32_t next_line(const Tree *tree, uint32_t offset)
{
  offset = line_end(tree, offset);
  if (tree->text[offset] == '\r' && tree->text[offset + 1] == '\n') return offset + 2;
  return tree->text[offset] ? offset + 1 : offset;
}

/* How the lines of the file end, by the first that does. */
static const char *line_end_of(const Tree *tree)
{
  const char *first = tree->text + line_end(tree, 0);
  if (*first != '\r') return "\n";
  return first[1] == '\n' ? "\r\n" : "\r";
}

static bool holds(const Tree *tree, uint32_t begin, uint32_t end, const char *bytes)
{
  for (uint32_t i = begin; i < end; i++)
    if (strchr(bytes, tree->text[i])) return true;
  return false;
}

/* No comment, that is, between tokens. */
static bool is_blank(const Tree *tree, uint32_t begin, uint32_t end)
{
  return strspn(tree->text + begin, " \t\r\n\v\f") >= end - begin;
}

static bool is_on_later_line(const Tree *tree, uint32_t token, uint32_t before)
{
  return holds(tree, token_at(tree, before).end, token_at(tree, token).begin, "\r\n");
}

static bool is_first(const Tree *tree, uint32_t token) { return token_at(tree, token).flags & TOKEN_FIRST; }

/* What stands before a token on its line, as blanks. */
static void put_indent(const Tree *tree, uint32_t token, Buf *out)
{
  uint32_t begin = line_begin(tree, token_at(tree, token).begin);
  for (const char *c = tree->text + begin; c < tree->text + token_at(tree, token).begin; c++)
    if (((unsigned char)*c & 0xC0) != 0x80) buf_putc(out, *c == '\t' ? '\t' : ' ');
}

static size_t characters(const char *text, size_t length)
{
  size_t count = 0;
  for (size_t i = 0; i < length; i++) count += ((unsigned char)text[i] & 0xC0) != 0x80;
  return count;
}

static bool put(Edit *edit, const Tree *tree, uint32_t begin, uint32_t end, Buf text)
{
  *edit = (Edit){ { tree->source, begin, end }, text };
  return true;
}

/* ---- finding */

static bool is_span(const Tree *tree, Stretch at, Span span)
{
  Span own = tree_span(tree, at);
  return own.begin == span.begin && own.end == span.end;
}

static const Table *find_table(const Tree *tree, Span span)
{
  for (uint32_t id = 1; id <= tree->table_count; id++)
    if (is_span(tree, tree->tables[id].at, span)) return &tree->tables[id];
  return NULL;
}

typedef struct {
  const Table *table;
  const Field *field; /* NULL: not found */
} Entry;

static Entry find_entry(const Tree *tree, Span span)
{
  for (uint32_t id = 1; id <= tree->table_count; id++) {
    const Table *table = &tree->tables[id];
    for (const Field *f = table->fields; f < table->fields + table->field_count; f++)
      if (is_span(tree, f->kind == FIELD_ITEM ? f->value : f->key, span)) return (Entry){ table, f };
  }
  return (Entry){ 0 };
}

static uint32_t first_token(const Tree *tree, const Field *field)
{
  if (field->kind == FIELD_ITEM) return field->value.first;
  bool bracket = token_at(tree, field->key.first - 1).kind == TOK_LEFT_BRACKET;
  return field->key.first - bracket;
}

/* ---- adding */

/* On the line of the field that it follows, or below its table's first field where that line is full. */
static bool add_beside(const Tree *tree, Entry after, const char *text, Edit *edit)
{
  uint32_t end = token_at(tree, after.field->value.last).end, begin = line_begin(tree, end);
  size_t line = characters(tree->text + begin, line_end(tree, end) - begin);
  Buf out = { 0 };
  if (line + characters(text, strlen(text)) + 2 <= EDIT_WIDTH) {
    buf_printf(&out, ", %s", text);
  } else {
    buf_printf(&out, ",%s", line_end_of(tree));
    put_indent(tree, first_token(tree, after.table->fields), &out);
    buf_puts(&out, text);
  }
  return put(edit, tree, end, end, out);
}

/* On a line of its own, past the comment that may end the line before it. */
static bool add_below(const Tree *tree, Entry after, const char *text, Edit *edit)
{
  uint32_t last = after.field->value.last;
  bool separated = is_separator(tree, last + 1);
  uint32_t begin = token_at(tree, separated ? last + 1 : last).end, end = line_end(tree, begin);
  Buf out = { 0 };
  if (!separated) {
    buf_putc(&out, ',');
    buf_add(&out, tree->text + begin, end - begin);
  }
  buf_puts(&out, line_end_of(tree));
  put_indent(tree, first_token(tree, after.field), &out);
  buf_printf(&out, "%s%s", text, separated ? "," : "");
  return put(edit, tree, separated ? end : begin, end, out);
}

/* Stands the field on lines of its own, with nothing behind it but a comment that ends there? */
static bool has_own_lines(const Tree *tree, const Field *field)
{
  uint32_t last = field->value.last, next = last + 1 + is_separator(tree, last + 1);
  if (!is_first(tree, first_token(tree, field)) || !is_on_later_line(tree, next, next - 1)) return false;
  const char *comment = strstr(tree->text + token_at(tree, next - 1).end, "--[");
  return comment == NULL || comment > tree->text + token_at(tree, next).begin;
}

static bool add_after(const Tree *tree, Entry entry, const char *text, Edit *edit)
{
  if (has_own_lines(tree, entry.field)) return add_below(tree, entry, text, edit);
  return add_beside(tree, entry, text, edit);
}

static bool add_before(const Tree *tree, const Field *field, const char *text, Edit *edit)
{
  uint32_t token = first_token(tree, field), begin = token_at(tree, token).begin;
  Buf out = { 0 };
  buf_printf(&out, "%s,", text);
  if (is_first(tree, token)) {
    buf_puts(&out, line_end_of(tree));
    put_indent(tree, token, &out);
  } else buf_putc(&out, ' ');
  return put(edit, tree, begin, begin, out);
}

static bool add_to_nothing(const Tree *tree, const Table *table, const char *text, Edit *edit)
{
  uint32_t begin = token_at(tree, table->at.first).end, end = token_at(tree, table->at.last).begin;
  Buf out = { 0 };
  if (!is_blank(tree, begin, end)) return false;
  buf_printf(&out, " %s ", text);
  return put(edit, tree, begin, end, out);
}

bool edit_add_field(const Tree *tree, Span span, const char *field, Edit *edit)
{
  const Table *table = find_table(tree, span);
  if (table == NULL) return false;
  if (table->field_count == 0) return add_to_nothing(tree, table, field, edit);
  const Field *last = NULL, *end = table->fields + table->field_count;
  for (const Field *f = table->fields; f < end && f->kind != FIELD_ITEM; f++) last = f;
  return last ? add_after(tree, (Entry){ table, last }, field, edit) : add_before(tree, table->fields, field, edit);
}

bool edit_add_before(const Tree *tree, Span span, const char *text, Edit *edit)
{
  Entry entry = find_entry(tree, span);
  return entry.field && add_before(tree, entry.field, text, edit);
}

bool edit_add_after(const Tree *tree, Span span, const char *text, Edit *edit)
{
  Entry entry = find_entry(tree, span);
  return entry.field && add_after(tree, entry, text, edit);
}

/* ---- taking out */

static bool take_out_lines(const Tree *tree, uint32_t first, uint32_t last, Edit *edit)
{
  uint32_t end = token_at(tree, last).end;
  if (!is_blank(tree, end, line_end(tree, end))) return false;
  return put(edit, tree, line_begin(tree, token_at(tree, first).begin), next_line(tree, end), (Buf){ 0 });
}

/* Up to what follows on the same line, else with the separator before it. */
static bool take_out_beside(const Tree *tree, uint32_t first, uint32_t next, uint32_t last, Edit *edit)
{
  uint32_t before = first - 1;
  bool is_last = token_at(tree, next).kind == TOK_RIGHT_BRACE || is_on_later_line(tree, next, next - 1);
  if (is_last && is_separator(tree, before)) {
    if (!is_blank(tree, token_at(tree, before).end, token_at(tree, first).begin)) return false;
    return put(edit, tree, token_at(tree, before).begin, token_at(tree, last).end, (Buf){ 0 });
  }
  if (!is_blank(tree, token_at(tree, next - 1).end, token_at(tree, next).begin)) return false;
  return put(edit, tree, token_at(tree, first).begin, token_at(tree, next).begin, (Buf){ 0 });
}

bool edit_take_out(const Tree *tree, Span span, Edit *edit)
{
  Entry entry = find_entry(tree, span);
  if (entry.field == NULL) return false;
  uint32_t first = first_token(tree, entry.field), last = entry.field->value.last;
  uint32_t next = last + 1 + is_separator(tree, last + 1);
  bool has_lines = is_first(tree, first) && is_on_later_line(tree, next, next - 1);
  return has_lines ? take_out_lines(tree, first, next - 1, edit) : take_out_beside(tree, first, next, last, edit);
}
