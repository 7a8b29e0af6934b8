#include "lang/native.h"

static const struct {
  const char *name;
  lua_CFunction open;
} modules[] = {
  { "native.abrasive", native_abrasive },
  { "native.air", native_air },
  { "native.chemistry", native_chemistry },
  { "native.exposure", native_exposure },
  { "native.supply", native_supply },
  { "native.edit", native_edit },
  { "native.finding", native_finding },
  { "native.quantity", native_quantity },
  { "native.stdlib", native_stdlib },
  { "native.trade", native_trade },
};

int native_refused(lua_State *L, const TradeError *error)
{
  lua_pushnil(L);
  lua_pushstring(L, error->message);
  return 2;
}

double native_field(lua_State *L, int table, const char *key)
{
  lua_getfield(L, table, key);
  double value = lua_tonumber(L, -1);
  lua_pop(L, 1);
  return value;
}

void native_register(Host *host)
{
  for (size_t i = 0; i < sizeof modules / sizeof *modules; i++)
    host_add_native(host, modules[i].name, modules[i].open);
}
