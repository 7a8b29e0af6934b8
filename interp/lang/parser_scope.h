/* parser_scope.h - names in sight, and what Lua's compiler would refuse about them: assignment to constants, goto
 * without a label, too many locals, upvalues or registers. */
#ifndef LANG_PARSER_SCOPE_H
#define LANG_PARSER_SCOPE_H

#include "base/arena.h"
#include "lang/lexer.h"

enum {
  SCOPE_LOCALS = 200,   /* MAXVARS of Lua */
  SCOPE_UPVALUES = 255, /* MAXUPVAL */
  SCOPE_VALUES = 245,   /* below MAXREGS: what one function may hold at once by our count, which is a little high */
  SCOPE_NAMED = 32000,  /* locals of one function over its whole length; below SHRT_MAX */
  SCOPE_JUMPS = 8000,   /* goto, break and labels of a file */
};

typedef struct {
  uint32_t symbol, token, shadowed_1;
  uint16_t function; /* depth of the function that declares it */
  uint16_t captured; /* depth down to which inner functions hold it */
  uint32_t captured_when;
  bool constant;
} Variable;

typedef struct {
  uint32_t symbol, token, variables;
} Jump; /* a label, or a goto that waits for one */

typedef struct {
  uint32_t variables, gotos, labels, hidden;
  bool loop;
} Block;

typedef struct {
  uint32_t serial, variables, block, upvalues, named, hidden, values;
  bool vararg, complained;
} Function;

typedef struct {
  Complaints *complaints;
  const Token *tokens;
  Variable *variables;
  Jump *gotos, *labels;
  Block *blocks;
  Function *functions;
  uint32_t *visible_1; /* by symbol */
  uint32_t variable_count, goto_count, label_count, block_count, function_count, serial, jumps;
  bool too_much; /* a limit of Lua was reached: parsing on is of no use */
} Scope;

void scope_init(Scope *scope, Complaints *complaints, Arena *arena, const Tokens *tokens);
void scope_open_function(Scope *scope, bool vararg);
void scope_close_function(Scope *scope);
void scope_open_block(Scope *scope, bool loop);
void scope_close_block(Scope *scope);
void scope_declare(Scope *scope, uint32_t token, bool constant);
void scope_declare_self(Scope *scope, uint32_t token); /* of the method that this token begins */
void scope_hide(Scope *scope, uint32_t count); /* locals without a name, until the block ends */
Variable *scope_find(Scope *scope, uint32_t token);    /* NULL: a global */
void scope_goto(Scope *scope, uint32_t token);         /* the token is the label's name */
void scope_label(Scope *scope, uint32_t token, bool ends_block);
void scope_break(Scope *scope, uint32_t token);
/* Values that a function holds while it computes others. */
void scope_hold(Scope *scope, int count, uint32_t token);
Function *scope_function(Scope *scope);

#endif
