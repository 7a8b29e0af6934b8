/* native.h - the C modules that the standard library (and only it) may require, a row each in native.c. */
#ifndef LANG_NATIVE_H
#define LANG_NATIVE_H

#include <lua.h>

#include "base/quantity.h"
#include "lang/host.h"

int native_abrasive(lua_State *L); /* native.abrasive: grit steps and expected sheen */
int native_finding(lua_State *L);  /* native.finding: findings from Lua */
int native_quantity(lua_State *L); /* native.quantity: values with units */
int native_stdlib(lua_State *L);   /* native.stdlib: what is built in */

void native_register(Host *host); /* all of them */

/* The quantity at a stack index; NULL if it is something else. */
const Quantity *native_quantity_at(lua_State *L, int index);

#endif
