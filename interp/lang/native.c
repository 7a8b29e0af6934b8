#include "lang/native.h"

static const struct {
  const char *name;
  lua_CFunction open;
} modules[] = {
  { "native.abrasive", native_abrasive },
  { "native.finding", native_finding },
  { "native.quantity", native_quantity },
  { "native.stdlib", native_stdlib },
};

void native_register(Host *host)
{
  for (size_t i = 0; i < sizeof modules / sizeof *modules; i++)
    host_add_native(host, modules[i].name, modules[i].open);
}
