/* lib_format.h - string.format, in our own code: no addresses, no locale, widths and precisions up to 99. */
#ifndef LANG_LIB_FORMAT_H
#define LANG_LIB_FORMAT_H

#include <lua.h>

int lib_format(lua_State *L);

#endif
