/* native_trade.c - native.trade: describes the rows of the trade library, and calls them. */
#include "lang/native_trade.h"

#include <lauxlib.h>
#include <math.h>
#include <string.h>

#include "lang/native.h"

static const TradeRow *const tables[] = {
  native_trade_abrasive, native_trade_floor,  native_trade_slab, native_trade_light,
  native_trade_liquid,   native_trade_people, native_trade_air,  native_trade_power,
};

const TradeRow *native_trade_at(size_t index)
{
  for (size_t t = 0; t < sizeof tables / sizeof *tables; t++)
    for (const TradeRow *row = tables[t]; row->name; row++)
      if (index-- == 0) return row;
  return NULL;
}

/* ---- for wrappers */

int given_whole(Given given)
{
  const double most = 1e9; /* no range of the core goes so far */
  return (int)fmax(-most, fmin(given.x, most));
}

size_t given_numbers(const Given *list, double *out)
{
  for (size_t i = 0; i < list->count; i++) out[i] = list->cells[i].x;
  return list->count;
}

/* ---- describing */

static void set_text(lua_State *L, const char *key, const char *text)
{
  lua_pushstring(L, text); /* nil for NULL */
  lua_setfield(L, -2, key);
}

static void set_flag(lua_State *L, const char *key, bool flag)
{
  lua_pushboolean(L, flag);
  lua_setfield(L, -2, key);
}

/* The words of a choice; nothing for other kinds. */
static void set_words(lua_State *L, const TradeInput *input)
{
  if (!input->word) return;
  lua_newtable(L);
  for (size_t i = 0; input->word(i); i++) {
    lua_pushstring(L, input->word(i));
    lua_rawseti(L, -2, (lua_Integer)i + 1);
  }
  lua_setfield(L, -2, "words");
}

static void push_inputs(lua_State *L, const TradeInput *inputs)
{
  luaL_checkstack(L, 8, "inputs");
  lua_newtable(L);
  for (int n = 1; inputs->name; inputs++, n++) {
    lua_newtable(L);
    set_text(L, "name", inputs->name);
    set_text(L, "kind", inputs->kind);
    set_text(L, "unit", inputs->unit);
    set_text(L, "example", inputs->example);
    set_text(L, "says", inputs->says);
    set_text(L, "core", inputs->core);
    set_text(L, "otherwise", inputs->otherwise);
    set_text(L, "basis", inputs->basis);
    set_flag(L, "may_lack", inputs->may_lack);
    set_words(L, inputs);
    if (inputs->columns) {
      push_inputs(L, inputs->columns);
      lua_setfield(L, -2, "columns");
    }
    lua_rawseti(L, -2, n);
  }
}

static void push_outputs(lua_State *L, const TradeOutput *outputs)
{
  lua_newtable(L);
  for (int n = 1; outputs->name; outputs++, n++) {
    lua_newtable(L);
    set_text(L, "name", outputs->name);
    set_text(L, "kind", outputs->kind);
    set_text(L, "unit", outputs->unit);
    set_flag(L, "is_list", outputs->is_list);
    set_flag(L, "keeps_unit", outputs->keeps_unit);
    set_text(L, "us", outputs->us);
    lua_rawseti(L, -2, n);
  }
}

static void push_basis(lua_State *L, const Basis *basis)
{
  const char *status = basis_status_name(basis->status);
  if (strncmp(basis->source, status, strlen(status)) == 0) lua_pushstring(L, basis->source);
  else lua_pushfstring(L, "%s; %s", status, basis->source);
}

static void set_formula(lua_State *L, const TradeRow *row)
{
  const TradeFormula *formula = trade_formula(row->formula ? row->formula : row->name);
  if (row->says) set_text(L, "says", row->says);
  if (!formula) return;
  if (!row->says) set_text(L, "says", formula->doc);
  set_text(L, "formula", formula->id);
  set_text(L, "reckoned", formula->says);
  push_basis(L, &formula->basis);
  lua_setfield(L, -2, "basis");
}

static void push_row(lua_State *L, const TradeRow *row)
{
  lua_newtable(L);
  set_text(L, "name", row->name);
  set_formula(L, row);
  push_inputs(L, row->in);
  lua_setfield(L, -2, "inputs");
  push_outputs(L, row->out);
  lua_setfield(L, -2, "outputs");
}

/* trade.functions(module) -> list of { name, says, formula, reckoned, basis, inputs, outputs } */
static int l_functions(lua_State *L)
{
  size_t length;
  const char *module = luaL_checklstring(L, 1, &length);
  lua_newtable(L);
  int n = 0;
  for (size_t i = 0; native_trade_at(i); i++) {
    const TradeRow *row = native_trade_at(i);
    if (strncmp(row->name, module, length) != 0 || row->name[length] != '.') continue;
    push_row(L, row);
    lua_rawseti(L, -2, ++n);
  }
  return 1;
}

/* ---- calling */

static size_t count_inputs(const TradeInput *inputs)
{
  size_t count = 0;
  while (inputs[count].name) count++;
  return count;
}

static Given read_cell(lua_State *L, int index)
{
  Given given = { .x = NAN };
  switch (lua_type(L, index)) {
    case LUA_TNUMBER: given.x = lua_tonumber(L, index); break;
    case LUA_TBOOLEAN: given.x = lua_toboolean(L, index); break;
    case LUA_TSTRING: given.text = lua_tostring(L, index); break; /* the table of arguments keeps it */
    default: given.lacks = true; given.x = 0; break;
  }
  return given;
}

/* A list of rows, each a list of cells. The cells stay on the stack, below what is read next. */
static Given read_list(lua_State *L, int list, const TradeInput *columns)
{
  size_t width = count_inputs(columns), rows = lua_rawlen(L, list);
  if (rows > TRADE_ROWS_MOST) luaL_error(L, "more than %d rows", TRADE_ROWS_MOST);
  Given *cells = lua_newuserdatauv(L, (rows * width + 1) * sizeof *cells, 0);
  for (size_t r = 0; r < rows; r++) {
    lua_rawgeti(L, list, (lua_Integer)r + 1);
    for (size_t c = 0; c < width; c++) {
      lua_rawgeti(L, -1, (lua_Integer)c + 1);
      cells[r * width + c] = read_cell(L, -1);
      lua_pop(L, 1);
    }
    lua_pop(L, 1);
  }
  return (Given){ .x = NAN, .cells = cells, .count = rows };
}

enum { MOST = 24 }; /* inputs or outputs of a row */

static void read_arguments(lua_State *L, int arguments, const TradeInput *inputs, Given *given)
{
  for (int i = 0; inputs[i].name; i++) {
    lua_rawgeti(L, arguments, i + 1);
    bool is_list = inputs[i].columns && lua_istable(L, -1);
    given[i] = is_list ? read_list(L, lua_gettop(L), inputs[i].columns) : read_cell(L, -1);
  }
}

static void prepare_answers(lua_State *L, const TradeOutput *outputs, Answer *answers)
{
  for (; outputs->name; outputs++, answers++) {
    *answers = (Answer){ .x = NAN };
    if (outputs->is_list) answers->cells = lua_newuserdatauv(L, TRADE_ROWS_MOST * sizeof *answers->cells, 0);
  }
}

static void push_number(lua_State *L, double x, const char *kind)
{
  if (!isfinite(x)) lua_pushnil(L);
  else if (strcmp(kind, "whole") == 0) lua_pushinteger(L, (lua_Integer)x);
  else lua_pushnumber(L, x);
}

static void push_texts(lua_State *L, const Answer *answer)
{
  lua_newtable(L);
  for (int i = 0; i < TRADE_WORDS_MOST && answer->words[i]; i++) {
    lua_pushstring(L, answer->words[i]);
    lua_rawseti(L, -2, i + 1);
  }
}

static void push_list(lua_State *L, const Answer *answer, const char *kind)
{
  lua_createtable(L, (int)answer->count, 0);
  for (size_t i = 0; i < answer->count; i++) {
    push_number(L, answer->cells[i], kind);
    lua_rawseti(L, -2, (lua_Integer)i + 1);
  }
}

static void push_answer(lua_State *L, const TradeOutput *output, const Answer *answer)
{
  if (output->is_list) push_list(L, answer, output->kind);
  else if (strcmp(output->kind, "texts") == 0) push_texts(L, answer);
  else if (strcmp(output->kind, "text") == 0) lua_pushstring(L, answer->text);
  else if (strcmp(output->kind, "flag") == 0) lua_pushboolean(L, answer->x > 0);
  else push_number(L, answer->x, output->kind);
}

static int push_refusal(lua_State *L, const TradeError *error)
{
  lua_pushnil(L);
  lua_newtable(L);
  set_text(L, "argument", error->argument);
  set_text(L, "message", error->message);
  set_flag(L, "is_range", error->status == TRADE_OUT_OF_RANGE || error->status == TRADE_NOT_FINITE);
  lua_pushnumber(L, error->value);
  lua_setfield(L, -2, "value");
  return 2;
}

static const TradeRow *find_row(const char *name)
{
  for (size_t i = 0; native_trade_at(i); i++)
    if (strcmp(native_trade_at(i)->name, name) == 0) return native_trade_at(i);
  return NULL;
}

/* trade.call(name, arguments) -> answers by position, basis of this answer or nil
 *                              | nil, { argument, message, value, is_range }
 * Arguments stand by position, in the units of the row; a list is a list of rows of cells. */
static int l_call(lua_State *L)
{
  const TradeRow *row = find_row(luaL_checkstring(L, 1));
  luaL_checktype(L, 2, LUA_TTABLE);
  if (!row) return luaL_error(L, "the trade library has no %s", lua_tostring(L, 1));
  Given given[MOST];
  Answer answers[MOST];
  TradeError error;
  luaL_checkstack(L, 4 * MOST, "trade");
  read_arguments(L, 2, row->in, given);
  prepare_answers(L, row->out, answers);
  if (!row->call(given, answers, &error)) return push_refusal(L, &error);
  lua_newtable(L);
  for (int i = 0; row->out[i].name; i++) {
    push_answer(L, &row->out[i], &answers[i]);
    lua_rawseti(L, -2, i + 1);
  }
  if (answers[0].basis.source) push_basis(L, &answers[0].basis);
  else lua_pushnil(L);
  return 2;
}

/* trade.formulas() -> the ids of the register, in its order */
static int l_formulas(lua_State *L)
{
  lua_newtable(L);
  for (size_t i = 0; trade_formula_at(i); i++) {
    lua_pushstring(L, trade_formula_at(i)->id);
    lua_rawseti(L, -2, (lua_Integer)i + 1);
  }
  return 1;
}

static const luaL_Reg functions[] = {
  { "functions", l_functions },
  { "call", l_call },
  { "formulas", l_formulas },
  { NULL, NULL },
};

int native_trade(lua_State *L)
{
  luaL_newlib(L, functions);
  return 1;
}
