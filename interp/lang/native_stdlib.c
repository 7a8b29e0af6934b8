#include <lauxlib.h>
#include <string.h>

#include "lang/native.h"
#include "lang/stdlib.h"

/* stdlib.names(folder) -> { "burnish", "check", ... }: the modules of a folder of the standard library, sorted */
static int l_names(lua_State *L)
{
  size_t length;
  const char *folder = luaL_checklstring(L, 1, &length);
  lua_newtable(L);
  int n = 0;
  for (const StdlibModule *m = stdlib_modules; m->name; m++)
    if (strncmp(m->name, folder, length) == 0 && m->name[length] == '.') {
      lua_pushstring(L, m->name + length + 1);
      lua_rawseti(L, -2, ++n);
    }
  return 1;
}

static const luaL_Reg functions[] = {
  { "names", l_names },
  { NULL, NULL },
};

int native_stdlib(lua_State *L)
{
  luaL_newlib(L, functions);
  return 1;
}
