/* syntax.h - our own reader of Lua 5.4 text: every syntax error of a file in one run, a tree with places, and the
 * text that is handed to Lua.
 *
 * The rewritten text has one token on each line, so that the line number Lua reports for a call, an operator or an
 * index leads to a token, and with it to an exact place. Every table constructor is wrapped as _mark(ID, {...}):
 * the host's _mark remembers ID for the table, and ID leads back to the constructor and to each of its fields. The
 * body of every loop and function begins with _tick(STEPS), and so does every goto: that is how a script's steps
 * are counted. The chunk starts with `local _mark <const>, _tick <const> = ...`; those two names and a `...`
 * outside functions are refused here. */
#ifndef LANG_SYNTAX_H
#define LANG_SYNTAX_H

#include <stdbool.h>
#include <stdint.h>

#include "base/buf.h"
#include "base/diag.h"
#include "base/source.h"

/* Refused with a finding: longer sources (1 MiB), more tokens (200,000), deeper nesting (150: Lua stops
 * at 200, from which calls in progress and the parentheses of the rewriting are taken). */
enum { SYNTAX_LARGEST = 1 << 20, SYNTAX_TOKENS = 200000, SYNTAX_DEPTH = 150 };

typedef struct Tree Tree;

/* Always returns a tree; syntax errors go to diags (code "syntax"). `source` must stay in `sources`. */
Tree *tree_parse(const Sources *sources, uint32_t source, Diags *diags);
void tree_free(Tree *tree);
bool tree_sound(const Tree *tree); /* no syntax error: it may be rewritten and run */

void tree_rewrite(const Tree *tree, Buf *out);

/* The token that stands on a line of the rewritten text; nowhere if the line is out of range. Lua 5.4 reports
 * - a failing index or an unknown global at the last token of it: `b` of `a.b`, `]` of `a[1]`;
 * - an assignment (a constant or nil table, an unknown global) at the last token of the values assigned;
 * - what is wrong with the values of a counting loop at its `do`;
 * - integer division by zero, in 5.4.4, at some earlier line (a fault of that release). */
Span tree_token(const Tree *tree, int rewritten_line);

/* Table constructors, by the ID given to _mark (1 .. tree_tables). Nowhere if there is no such thing. */
int tree_tables(const Tree *tree);
Span tree_table(const Tree *tree, int id);                      /* `{ ... }` */
Span tree_field(const Tree *tree, int id, const char *key);     /* value of `key = value` or `["key"] = value` */
Span tree_field_key(const Tree *tree, int id, const char *key); /* the key itself */
Span tree_item(const Tree *tree, int id, int64_t index);        /* n-th positional value, or `[n] = value` */

/* The call chain that a table is the last argument of: `hone "200" { ... }` has the call, the callee name `hone`
 * and the first string argument `"200"`. */
Span tree_call(const Tree *tree, int id);
Span tree_call_word(const Tree *tree, int id);
Span tree_call_name(const Tree *tree, int id);

/* The call that Lua reports at this rewritten line. Each call of a chain `f "x" { }` has a line of its own; in a
 * chain of more than 12 calls, or some 24 levels deep in chains, the last calls share one. */
Span tree_call_at(const Tree *tree, int rewritten_line);
/* The n-th argument (from 1) of the call that is exactly this span, as in `between(3, 6)` found by tree_field. */
Span tree_argument(const Tree *tree, Span call, int n);
/* The binary operation that Lua reports at this rewritten line: by its operator, a comparison by its last token. A
 * run of `..` is one operation. */
Span tree_operation_at(const Tree *tree, int rewritten_line);

#endif
