/* tree.h - what the parser leaves behind, by token: table constructors with their fields, calls, binary operations.
 *
 * Tokens, calls and chains are numbered from 0, so that 0 in a `..._1` member, which holds a number plus one, says
 * "none". Tables are numbered from 1, in the order of their braces. */
#ifndef LANG_TREE_H
#define LANG_TREE_H

#include "lang/lexer.h"
#include "lang/syntax.h"

/* First and last token, both included. */
typedef struct {
  uint32_t first, last;
} Stretch;

typedef enum { FIELD_ITEM, FIELD_NAMED, FIELD_NUMBERED, FIELD_COMPUTED } FieldKind;

typedef struct {
  FieldKind kind;
  Stretch key, value; /* an item has no key */
  const char *name;   /* FIELD_NAMED; not NUL-terminated */
  uint32_t name_length;
  int64_t number;     /* FIELD_ITEM and FIELD_NUMBERED */
} Field;

typedef struct {
  Stretch at;
  const Field *fields;
  uint32_t field_count;
  uint32_t call_1;    /* the call that it is the last argument of */
  bool is_argument;   /* f{...}, with no parentheses */
  const Field **order; /* sorted by key; NULL if the table is small */
} Table;

/* One call of a chain such as a.b:c "x" { }, which has two. */
typedef struct {
  Stretch at;
  uint32_t suffix, open; /* the `:` or what opens the arguments; what opens the arguments */
  const Stretch *arguments;
  uint32_t argument_count;
  uint32_t chain, before_1; /* the call before it in the chain */
  uint32_t word_1;          /* the name that is called, also through `f "x" { }` */
} Call;

/* A name or parenthesis with what follows it. */
typedef struct {
  Stretch at;
  uint32_t parent_1, last_call_1;
  uint16_t calls;
  bool is_statement;
  bool reads_early; /* begins with a:m(...), where Lua reads `a` on the line of `m` */
  bool reads_late;  /* ends in a global or an index that Lua reads on the line of the token behind it */
  uint8_t parens;   /* how many the rewriting puts round it and its parts */
  uint8_t around;   /* how many its surroundings have already */
} Chain;

/* A line of the rewritten text: its token, and the call that Lua reports there (if a parenthesis was put on it). */
typedef struct {
  uint32_t token, call_1;
} Line;

struct Tree {
  Arena *arena;
  uint32_t source;
  const char *text;
  Tokens tokens;
  bool sound;
  Table *tables; /* [1 .. table_count] */
  Call *calls;   /* in the order of their last tokens */
  Chain *chains; /* in the order of their first tokens */
  Stretch *operations;
  uint32_t table_count, call_count, chain_count, operation_count;
  uint32_t *calls_at;      /* by token: call_1 that begins its chain there, or opens its arguments there */
  uint32_t *operations_at; /* by token: operation_1 whose sign stands there, or whose comparison ends there */
  uint32_t *chains_at;     /* by token: chain_1 that gets parentheses there */
  uint32_t *ticks;         /* by token: steps that are charged behind it, where a body begins; before a goto */
  uint8_t *closes;         /* by token: how many of these close behind it */
  Line *lines;             /* [1 .. line_count - 1] */
  uint32_t line_count;
};

Span tree_span(const Tree *tree, Stretch tokens);
void tree_lay_out(Tree *tree); /* decides on parentheses and lines; only of a sound tree */
void tree_order_fields(Tree *tree, Table *table);

#endif
