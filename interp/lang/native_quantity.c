/* native_quantity.c - quantities as Lua values: read from text, reckoned with, compared, shown. */
#include <lauxlib.h>
#include <string.h>

#include "base/quantity_parts.h"
#include "lang/native.h"

static const char QUANTITY[] = "quantity";

const Quantity *native_quantity_at(lua_State *L, int index) { return luaL_testudata(L, index, QUANTITY); }

static Quantity *push(lua_State *L)
{
  Quantity *q = lua_newuserdatauv(L, sizeof *q, 0);
  luaL_setmetatable(L, QUANTITY);
  return q;
}

static void push_buf(lua_State *L, Buf *buf)
{
  lua_pushlstring(L, buf_text(buf), buf->length);
  buf_free(buf);
}

/* quantity.read(text, metric, currency) -> quantity | nil, message, help, first, last (bytes of the text, from
 * 1) */
static int l_read(lua_State *L)
{
  size_t length;
  const char *text = luaL_checklstring(L, 1, &length);
  UnitRules rules = { lua_toboolean(L, 2), lua_tostring(L, 3) };
  Quantity q;
  QuantityError error = { 0 };
  if (quantity_read(text, length, rules, &q, &error)) {
    *push(L) = q;
    return 1;
  }
  lua_pushnil(L);
  lua_pushstring(L, error.message);
  lua_pushstring(L, error.help);
  lua_pushinteger(L, (lua_Integer)error.begin + 1);
  lua_pushinteger(L, (lua_Integer)error.end);
  return 5;
}

/* A number or a quantity. */
static Quantity operand(lua_State *L, int index)
{
  if (lua_type(L, index) == LUA_TNUMBER) return quantity_number(lua_tonumber(L, index));
  const Quantity *q = native_quantity_at(L, index);
  if (q == NULL) {
    luaL_error(L, "a quantity or a number is needed here, not a %s", luaL_typename(L, index));
    return (Quantity){ 0 };
  }
  return *q;
}

static const char REFUSED; /* its address is the registry key of the function below */

/* quantity.when_refused(function(message, help) -> value): what to do, and what to go on with */
static int l_when_refused(lua_State *L)
{
  luaL_checktype(L, 1, LUA_TFUNCTION);
  lua_settop(L, 1);
  lua_rawsetp(L, LUA_REGISTRYINDEX, &REFUSED);
  return 0;
}

static int refuse(lua_State *L, const QuantityError *error)
{
  if (lua_rawgetp(L, LUA_REGISTRYINDEX, &REFUSED) != LUA_TFUNCTION) return luaL_error(L, "%s", error->message);
  lua_pushstring(L, error->message);
  lua_pushstring(L, error->help);
  lua_call(L, 2, 1);
  return 1;
}

typedef bool (*Operation)(const Quantity *, const Quantity *, Quantity *, QuantityError *);

static int operate(lua_State *L, Operation operation)
{
  Quantity a = operand(L, 1), b = operand(L, 2), result;
  QuantityError error = { 0 };
  if (!operation(&a, &b, &result, &error)) return refuse(L, &error);
  *push(L) = result;
  return 1;
}

static int l_add(lua_State *L) { return operate(L, quantity_add); }
static int l_subtract(lua_State *L) { return operate(L, quantity_subtract); }
static int l_multiply(lua_State *L) { return operate(L, quantity_multiply); }
static int l_divide(lua_State *L) { return operate(L, quantity_divide); }

static int l_negate(lua_State *L)
{
  lua_settop(L, 1);
  lua_pushinteger(L, -1);
  return operate(L, quantity_multiply);
}

/* The answer is false where the two cannot be compared. */
static int compare(lua_State *L, int at_most)
{
  Quantity a = operand(L, 1), b = operand(L, 2);
  QuantityError error = { 0 };
  int order = 0;
  bool comparable = quantity_compare(&a, &b, &order, &error);
  if (!comparable) refuse(L, &error);
  lua_pushboolean(L, comparable && order <= at_most);
  return 1;
}

static int l_less(lua_State *L) { return compare(L, -1); }
static int l_at_most(lua_State *L) { return compare(L, 0); }

/* Equality never fails: what cannot be compared is not equal. */
static int l_equal(lua_State *L)
{
  const Quantity *a = native_quantity_at(L, 1), *b = native_quantity_at(L, 2);
  QuantityError error = { 0 };
  int order = 1;
  lua_pushboolean(L, a && b && quantity_compare(a, b, &order, &error) && order == 0);
  return 1;
}

/* q:value() -> number in the coherent SI unit of its dimension */
static int l_value(lua_State *L)
{
  lua_pushnumber(L, operand(L, 1).value);
  return 1;
}

/* q:to(unit) -> number in that unit */
static int l_to(lua_State *L)
{
  Quantity q = operand(L, 1);
  QuantityError error = { 0 };
  double value;
  if (!quantity_in(&q, luaL_checkstring(L, 2), &value, &error)) return refuse(L, &error);
  lua_pushnumber(L, value);
  return 1;
}

static int l_kind(lua_State *L)
{
  lua_pushstring(L, kind_name(operand(L, 1).kind));
  return 1;
}

static Kind check_kind(lua_State *L, int index)
{
  Kind kind;
  if (!kind_find(luaL_checkstring(L, index), &kind)) luaL_error(L, "no kind is called %s", lua_tostring(L, index));
  return kind;
}

/* quantity.amount(q, kind, unit) -> number in that unit of the kind; "" for fractions and money: as a share, in
 * major units */
static int l_amount(lua_State *L)
{
  Quantity q = operand(L, 1), same;
  const char *unit = luaL_checkstring(L, 3);
  QuantityError error = { 0 };
  double value = q.value;
  if (*unit && (!quantity_as(&q, check_kind(L, 2), &same, &error) || !quantity_in(&same, unit, &value, &error)))
    return refuse(L, &error);
  lua_pushnumber(L, value);
  return 1;
}

/* The unit that a quantity of the kind is told in: "us" and "metric" mean the preferred one of that system. */
static const char *unit_to_tell(Kind kind, const char *wish)
{
  if (strcmp(wish, "us") == 0) return kind_unit(kind, UNITS_US);
  return strcmp(wish, "metric") == 0 ? kind_unit(kind, UNITS_METRIC) : wish;
}

/* quantity.of(number, kind, unit [, told]) -> that many of the unit ("" as above, a currency for money) as a
 * quantity of the kind; told in another unit, or in the preferred one of a system */
static int l_of(lua_State *L)
{
  double number = luaL_checknumber(L, 1);
  Kind kind = check_kind(L, 2);
  const char *unit = luaL_checkstring(L, 3), *told = lua_tostring(L, 4);
  Quantity q = *unit ? quantity_of(number, unit) : quantity_number(number), same;
  QuantityError error = { 0 };
  if (!quantity_as(&q, kind, &same, &error)) return refuse(L, &error);
  if (told) quantity_set_unit(&same, unit_to_tell(kind, told));
  *push(L) = same;
  return 1;
}

/* q:system() -> "us", "metric", or nil for a unit that is at home in both */
static int l_system(lua_State *L)
{
  Quantity q = operand(L, 1);
  Compound unit = quantity_unit(&q);
  if (!unit.is_us && !unit.is_metric) return 0;
  lua_pushstring(L, unit.is_us ? "us" : "metric");
  return 1;
}

/* q:fits(kind) -> true | false, message, help */
static int l_fits(lua_State *L)
{
  Quantity q = operand(L, 1);
  QuantityError error = { 0 };
  lua_pushboolean(L, quantity_fits(&q, check_kind(L, 2), &error));
  lua_pushstring(L, error.message);
  lua_pushstring(L, error.help);
  return 3;
}

/* q:show(metric [, digits]) -> text in the preferred unit of its kind, to so many significant figures */
static int l_show(lua_State *L)
{
  Quantity q = operand(L, 1);
  Buf buf = { 0 };
  quantity_display(&q, lua_toboolean(L, 2) ? UNITS_METRIC : UNITS_US, (int)luaL_optinteger(L, 3, 0), &buf);
  push_buf(L, &buf);
  return 1;
}

static int l_tostring(lua_State *L)
{
  Quantity q = operand(L, 1);
  Buf buf = { 0 };
  quantity_print(&q, &buf);
  push_buf(L, &buf);
  return 1;
}

/* quantity.example(kind, n) -> a legal spelling, n = 1..3 */
static int l_example(lua_State *L)
{
  lua_pushstring(L, kind_example(check_kind(L, 1), (int)luaL_checkinteger(L, 2) - 1));
  return 1;
}

/* quantity.is(value) -> is it a quantity? */
static int l_is(lua_State *L)
{
  lua_pushboolean(L, native_quantity_at(L, 1) != NULL);
  return 1;
}

/* q:currency() -> "USD"; nil where no money is in it */
static int l_currency(lua_State *L)
{
  Quantity q = operand(L, 1);
  if (q.currency[0] == '\0') return 0;
  lua_pushstring(L, q.currency);
  return 1;
}

static const luaL_Reg functions[] = {
  { "read", l_read },
  { "is", l_is },
  { "amount", l_amount },
  { "of", l_of },
  { "when_refused", l_when_refused },
  { "example", l_example },
  { NULL, NULL },
};

static const luaL_Reg methods[] = {
  { "value", l_value },
  { "to", l_to },
  { "kind", l_kind },
  { "system", l_system },
  { "currency", l_currency },
  { "fits", l_fits },
  { "show", l_show },
  { NULL, NULL },
};

static const luaL_Reg metamethods[] = {
  { "__add", l_add },
  { "__sub", l_subtract },
  { "__mul", l_multiply },
  { "__div", l_divide },
  { "__unm", l_negate },
  { "__lt", l_less },
  { "__le", l_at_most },
  { "__eq", l_equal },
  { "__tostring", l_tostring },
  { NULL, NULL },
};

int native_quantity(lua_State *L)
{
  luaL_newmetatable(L, QUANTITY);
  luaL_setfuncs(L, metamethods, 0);
  luaL_newlib(L, methods);
  lua_setfield(L, -2, "__index");
  lua_pushboolean(L, 0);
  lua_setfield(L, -2, "__metatable");
  lua_pop(L, 1);
  luaL_newlib(L, functions);
  return 1;
}
