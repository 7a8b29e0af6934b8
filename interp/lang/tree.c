/* tree.c - questions to the tree. */
#include "lang/tree.h"

#include <stdlib.h>
#include <string.h>

static const Span nowhere;

enum { SMALL_TABLE = 16 };

void tree_free(Tree *tree)
{
  if (tree) arena_free(tree->arena);
}

bool tree_sound(const Tree *tree) { return tree->sound; }

Span tree_span(const Tree *tree, Stretch at)
{
  return (Span){ tree->source, tree->tokens.at[at.first].begin, tree->tokens.at[at.last].end };
}

static Span token_span(const Tree *tree, uint32_t token) { return tree_span(tree, (Stretch){ token, token }); }

/* ---- by line */

static const Line *find_line(const Tree *tree, int line)
{
  return line >= 2 && (uint32_t)line < tree->line_count ? &tree->lines[line] : NULL;
}

Span tree_token(const Tree *tree, int rewritten_line)
{
  const Line *line = find_line(tree, rewritten_line);
  return line ? token_span(tree, line->token) : nowhere;
}

Span tree_call_at(const Tree *tree, int rewritten_line)
{
  const Line *line = find_line(tree, rewritten_line);
  if (line == NULL) return nowhere;
  uint32_t call_1 = line->call_1 ? line->call_1 : tree->calls_at[line->token];
  return call_1 ? tree_span(tree, tree->calls[call_1 - 1].at) : nowhere;
}

Span tree_operation_at(const Tree *tree, int rewritten_line)
{
  const Line *line = find_line(tree, rewritten_line);
  if (line == NULL || line->call_1) return nowhere;
  uint32_t operation_1 = tree->operations_at[line->token];
  return operation_1 ? tree_span(tree, tree->operations[operation_1 - 1]) : nowhere;
}

/* ---- tables */

static const Table *find_table(const Tree *tree, int id)
{
  return id >= 1 && (uint32_t)id <= tree->table_count ? &tree->tables[id] : NULL;
}

int tree_tables(const Tree *tree) { return (int)tree->table_count; }

Span tree_table(const Tree *tree, int id)
{
  const Table *table = find_table(tree, id);
  return table ? tree_span(tree, table->at) : nowhere;
}

static int compare_keys(const Field *a, const Field *b)
{
  if (a->kind != b->kind) return a->kind < b->kind ? -1 : 1;
  if (a->kind != FIELD_NAMED) return (a->number > b->number) - (a->number < b->number);
  size_t common = a->name_length < b->name_length ? a->name_length : b->name_length;
  int order = memcmp(a->name, b->name, common);
  return order ? order : (a->name_length > b->name_length) - (a->name_length < b->name_length);
}

static int compare_fields(const void *a, const void *b)
{
  const Field *left = *(const Field *const *)a, *right = *(const Field *const *)b;
  int order = compare_keys(left, right);
  return order ? order : (left > right) - (left < right);
}

void tree_order_fields(Tree *tree, Table *table)
{
  if (table->field_count <= SMALL_TABLE) return;
  table->order = arena_array(tree->arena, table->field_count, sizeof *table->order);
  for (uint32_t i = 0; i < table->field_count; i++) table->order[i] = &table->fields[i];
  qsort(table->order, table->field_count, sizeof *table->order, compare_fields);
}

/* The last of equal keys: that is the one whose value stays. */
static const Field *find_in_order(const Table *table, const Field *key)
{
  uint32_t low = 0, high = table->field_count;
  while (low < high) {
    uint32_t middle = low + (high - low) / 2;
    if (compare_keys(table->order[middle], key) <= 0) low = middle + 1;
    else high = middle;
  }
  return low > 0 && compare_keys(table->order[low - 1], key) == 0 ? table->order[low - 1] : NULL;
}

static const Field *find_field(const Tree *tree, int id, const Field *key)
{
  const Table *table = find_table(tree, id);
  if (table == NULL) return NULL;
  if (table->order) return find_in_order(table, key);
  for (uint32_t i = table->field_count; i > 0; i--)
    if (compare_keys(&table->fields[i - 1], key) == 0) return &table->fields[i - 1];
  return NULL;
}

static const Field *find_named(const Tree *tree, int id, const char *key)
{
  Field wanted = { .kind = FIELD_NAMED, .name = key, .name_length = (uint32_t)strlen(key) };
  return find_field(tree, id, &wanted);
}

Span tree_field(const Tree *tree, int id, const char *key)
{
  const Field *field = find_named(tree, id, key);
  return field ? tree_span(tree, field->value) : nowhere;
}

Span tree_field_key(const Tree *tree, int id, const char *key)
{
  const Field *field = find_named(tree, id, key);
  return field ? tree_span(tree, field->key) : nowhere;
}

Span tree_item(const Tree *tree, int id, int64_t index)
{
  const Field *field = find_field(tree, id, &(Field){ .kind = FIELD_ITEM, .number = index });
  if (field == NULL) field = find_field(tree, id, &(Field){ .kind = FIELD_NUMBERED, .number = index });
  return field ? tree_span(tree, field->value) : nowhere;
}

/* ---- calls */

static const Call *call_of_table(const Tree *tree, int id)
{
  const Table *table = find_table(tree, id);
  return table && table->call_1 ? &tree->calls[table->call_1 - 1] : NULL;
}

Span tree_call(const Tree *tree, int id)
{
  const Call *call = call_of_table(tree, id);
  return call ? tree_span(tree, call->at) : nowhere;
}

Span tree_call_word(const Tree *tree, int id)
{
  const Call *call = call_of_table(tree, id);
  return call && call->word_1 ? token_span(tree, call->word_1 - 1) : nowhere;
}

/* The first argument of the call that is one plain string. */
static bool first_string(const Tree *tree, const Call *call, uint32_t *token)
{
  for (uint32_t i = 0; i < call->argument_count; i++) {
    Stretch at = call->arguments[i];
    if (at.first != at.last || tree->tokens.at[at.first].kind != TOK_STRING) continue;
    *token = at.first;
    return true;
  }
  return false;
}

Span tree_call_name(const Tree *tree, int id)
{
  const Call *call = call_of_table(tree, id);
  uint32_t token = 0, word_1 = call ? call->word_1 : 0;
  bool found = false;
  for (; call && call->word_1 == word_1; call = call->before_1 ? &tree->calls[call->before_1 - 1] : NULL)
    found |= first_string(tree, call, &token);
  return found ? token_span(tree, token) : nowhere;
}

/* Calls end in tokens of their own and are listed in that order. */
static const Call *find_call(const Tree *tree, Span span)
{
  uint32_t low = 0, high = tree->call_count;
  while (low < high) {
    uint32_t middle = low + (high - low) / 2;
    if (tree_span(tree, tree->calls[middle].at).end < span.end) low = middle + 1;
    else high = middle;
  }
  if (low == tree->call_count) return NULL;
  Span at = tree_span(tree, tree->calls[low].at);
  return at.source == span.source && at.begin == span.begin && at.end == span.end ? &tree->calls[low] : NULL;
}

Span tree_argument(const Tree *tree, Span call, int n)
{
  const Call *found = find_call(tree, call);
  if (found == NULL || n < 1 || (uint32_t)n > found->argument_count) return nowhere;
  return tree_span(tree, found->arguments[n - 1]);
}
