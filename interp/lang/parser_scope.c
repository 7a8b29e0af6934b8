#include "lang/parser_scope.h"

#include <stddef.h>

#include "lang/syntax.h"

void scope_init(Scope *s, Complaints *complaints, Arena *arena, const Tokens *tokens)
{
  const size_t depth = SYNTAX_DEPTH + 2; /* functions and blocks nest as deep as statements do */
  const uint32_t *kinds = tokens->kinds;
  *s = (Scope){ .complaints = complaints, .tokens = tokens->at };
  s->variables = arena_array(arena, kinds[TOK_NAME] + kinds[TOK_FUNCTION] + 1, sizeof *s->variables);
  s->gotos = arena_array(arena, kinds[TOK_GOTO] + 1, sizeof *s->gotos);
  s->labels = arena_array(arena, kinds[TOK_DOUBLE_COLON] + 1, sizeof *s->labels);
  s->blocks = arena_array(arena, 3 * depth, sizeof *s->blocks);
  s->functions = arena_array(arena, depth, sizeof *s->functions);
  s->visible_1 = arena_array(arena, tokens->symbols, sizeof *s->visible_1);
}

Function *scope_function(Scope *s) { return &s->functions[s->function_count - 1]; }

static Range range_of(const Scope *s, uint32_t token) { return token_range(s->tokens[token]); }

/* ---- limits */

static void refuse(Scope *s, uint32_t token, const char *help, const char *message)
{
  if (!s->too_much) complain(s->complaints, range_of(s, token), (Advice){ .help = help }, "%s", message);
  s->too_much = true;
}

static void check_values(Scope *s, uint32_t token)
{
  Function *f = scope_function(s);
  uint32_t locals = s->variable_count - f->variables + f->hidden;
  if (locals > SCOPE_LOCALS)
    refuse(s, token, "keep them in a table", "a function can have 200 local variables; this is one too many");
  else if (locals + f->values > SCOPE_VALUES)
    refuse(s, token, "compute parts of it into local variables first",
           "a function can hold about 245 values at once; this expression needs more");
  else if (f->named > SCOPE_NAMED)
    refuse(s, token, "split the function", "a function can declare 32000 local variables over its length");
}

void scope_hold(Scope *s, int count, uint32_t token)
{
  scope_function(s)->values += (uint32_t)count;
  if (count > 0) check_values(s, token);
}

static bool count_jump(Scope *s, uint32_t token)
{
  if (++s->jumps > SCOPE_JUMPS)
    refuse(s, token, "split it into several files", "a file can have 8000 goto, break and labels");
  return !s->too_much;
}

/* ---- functions and blocks */

void scope_open_function(Scope *s, bool vararg)
{
  s->functions[s->function_count++] = (Function){
    .serial = ++s->serial, .variables = s->variable_count, .block = s->block_count, .vararg = vararg
  };
  scope_open_block(s, false);
}

void scope_close_function(Scope *s)
{
  Block *block = &s->blocks[s->block_count - 1];
  for (uint32_t i = block->gotos; i < s->goto_count; i++) {
    Quote name = complain_quote(s->complaints, range_of(s, s->gotos[i].token));
    complain(s->complaints, range_of(s, s->gotos[i].token),
             (Advice){ .help = "a label must stand in the same block or one round it, in the same function" },
             "there is no label `%s` that this goto can see", name.text);
  }
  s->goto_count = block->gotos;
  scope_close_block(s);
  s->function_count--;
}

void scope_open_block(Scope *s, bool loop)
{
  s->blocks[s->block_count++] = (Block){ .variables = s->variable_count,
                                         .gotos = s->goto_count,
                                         .labels = s->label_count,
                                         .hidden = s->function_count ? scope_function(s)->hidden : 0,
                                         .loop = loop };
}

void scope_close_block(Scope *s)
{
  Block *block = &s->blocks[--s->block_count];
  while (s->variable_count > block->variables) {
    Variable *v = &s->variables[--s->variable_count];
    s->visible_1[v->symbol] = v->shadowed_1;
  }
  for (uint32_t i = block->gotos; i < s->goto_count; i++)
    if (s->gotos[i].variables > block->variables) s->gotos[i].variables = block->variables;
  s->label_count = block->labels;
  scope_function(s)->hidden = block->hidden;
}

/* ---- variables */

static void refuse_reserved(Scope *s, uint32_t token)
{
  uint32_t symbol = s->tokens[token].symbol;
  if (symbol == SYMBOL_MARK || symbol == SYMBOL_TICK)
    complain(s->complaints, range_of(s, token), (Advice){ .help = "take another name" },
             "the name `%s` is kept for the engine", symbol == SYMBOL_MARK ? "_mark" : "_tick");
}

static void declare(Scope *s, uint32_t symbol, uint32_t token, bool constant)
{
  s->variables[s->variable_count++] = (Variable){ .symbol = symbol,
                                                  .token = token,
                                                  .shadowed_1 = s->visible_1[symbol],
                                                  .function = (uint16_t)s->function_count,
                                                  .captured = (uint16_t)s->function_count,
                                                  .constant = constant };
  s->visible_1[symbol] = s->variable_count;
  scope_function(s)->named++;
  check_values(s, token);
}

void scope_declare(Scope *s, uint32_t token, bool constant)
{
  uint32_t symbol = s->tokens[token].symbol;
  refuse_reserved(s, token);
  if (symbol == SYMBOL_ENV)
    complain(s->complaints, range_of(s, token), (Advice){ .help = "take another name" },
             "`_ENV` cannot be declared anew");
  declare(s, symbol, token, constant);
}

void scope_declare_self(Scope *s, uint32_t token) { declare(s, SYMBOL_SELF, token, false); }

void scope_hide(Scope *s, uint32_t count)
{
  scope_function(s)->hidden += count;
  scope_function(s)->named += count;
}

/* Makes `v` an upvalue of every function between the one that declares it and the one that uses it. Functions that
 * held it at `captured_when` and are still open (their serial is not newer) hold it already. */
static void capture(Scope *s, Variable *v, uint32_t token)
{
  uint32_t depth = v->captured < s->function_count ? v->captured : s->function_count;
  while (depth > v->function && s->functions[depth - 1].serial > v->captured_when) depth--;
  for (; depth < s->function_count; depth++)
    if (++s->functions[depth].upvalues > SCOPE_UPVALUES - 3) /* _ENV, _mark, _tick */
      refuse(s, token, "keep them in a table", "a function can use 252 variables of the functions round it");
  v->captured = (uint16_t)s->function_count;
  v->captured_when = s->serial;
}

Variable *scope_find(Scope *s, uint32_t token)
{
  refuse_reserved(s, token);
  uint32_t visible_1 = s->visible_1[s->tokens[token].symbol];
  if (visible_1 == 0) return NULL;
  Variable *v = &s->variables[visible_1 - 1];
  if (v->function < s->function_count) capture(s, v, token);
  return v;
}

/* ---- jumps */

static const Jump *find_label(const Scope *s, uint32_t symbol)
{
  const Function *f = &s->functions[s->function_count - 1];
  for (uint32_t i = s->label_count; i > s->blocks[f->block].labels; i--)
    if (s->labels[i - 1].symbol == symbol) return &s->labels[i - 1];
  return NULL;
}

void scope_goto(Scope *s, uint32_t token)
{
  if (!count_jump(s, token) || find_label(s, s->tokens[token].symbol)) return;
  s->gotos[s->goto_count++] = (Jump){ s->tokens[token].symbol, token, s->variable_count };
}

static void complain_jump_into(Scope *s, const Jump *jump, const Jump *label)
{
  const Variable *v = &s->variables[jump->variables];
  Quote name = complain_quote(s->complaints, range_of(s, v->token));
  Advice advice = { .help = "declare the variable before the goto, or put what is between into `do ... end`" };
  advice.labels[0].at = range_of(s, v->token), advice.labels[0].text = "declared here";
  advice.labels[1].at = range_of(s, label->token), advice.labels[1].text = "the label";
  complain(s->complaints, range_of(s, jump->token), advice, "this goto jumps into the scope of local `%s`",
           name.text);
}

static void resolve_gotos(Scope *s, const Jump *label)
{
  uint32_t keep = s->blocks[s->block_count - 1].gotos;
  for (uint32_t i = keep; i < s->goto_count; i++) {
    if (s->gotos[i].symbol != label->symbol) s->gotos[keep++] = s->gotos[i];
    else if (s->gotos[i].variables < label->variables) complain_jump_into(s, &s->gotos[i], label);
  }
  s->goto_count = keep;
}

static void complain_double_label(Scope *s, uint32_t first, uint32_t second)
{
  Quote name = complain_quote(s->complaints, range_of(s, second));
  Advice advice = { .help = "rename one of them" };
  advice.labels[0].at = range_of(s, first), advice.labels[0].text = "first here";
  complain(s->complaints, range_of(s, second), advice, "the label `%s` is there already", name.text);
}

void scope_label(Scope *s, uint32_t token, bool ends_block)
{
  uint32_t symbol = s->tokens[token].symbol;
  const Jump *earlier = find_label(s, symbol);
  if (!count_jump(s, token)) return;
  if (earlier) {
    complain_double_label(s, token < earlier->token ? token : earlier->token,
                          token < earlier->token ? earlier->token : token);
    return;
  }
  uint32_t variables = ends_block ? s->blocks[s->block_count - 1].variables : s->variable_count;
  s->labels[s->label_count] = (Jump){ symbol, token, variables };
  resolve_gotos(s, &s->labels[s->label_count++]);
}

void scope_break(Scope *s, uint32_t token)
{
  const Function *f = scope_function(s);
  if (!count_jump(s, token)) return;
  for (uint32_t i = s->block_count; i > f->block; i--)
    if (s->blocks[i - 1].loop) return;
  complain(s->complaints, range_of(s, token), (Advice){ 0 }, "`break` stands outside a loop");
}
