/* native.h - the C modules that the standard library (and only it) may require, a row each in native.c. */
#ifndef LANG_NATIVE_H
#define LANG_NATIVE_H

#include <lua.h>

#include "base/quantity.h"
#include "lang/host.h"
#include "trade/trade.h"

int native_abrasive(lua_State *L); /* native.abrasive: grit steps and expected sheen */
int native_air(lua_State *L);      /* native.air: dew point, drying films, vapour and exhaust in a room */
int native_chemistry(lua_State *L); /* native.chemistry: liquids and the work of spreading them */
int native_exposure(lua_State *L); /* native.exposure: noise, vibration, dust of a shift, published limits */
int native_supply(lua_State *L);   /* native.supply: circuits, cords, generators, tanks */
int native_edit(lua_State *L);     /* native.edit: changes of a script's text, for fixes */
int native_finding(lua_State *L);  /* native.finding: findings from Lua */
int native_quantity(lua_State *L); /* native.quantity: values with units */
int native_stdlib(lua_State *L);   /* native.stdlib: what is built in */
int native_trade(lua_State *L);    /* native.trade: the trade library, see native_trade.h */

void native_register(Host *host); /* all of them */

/* The answer of a function that the trade refuses: nil, why. */
int native_refused(lua_State *L, const TradeError *error);
/* table[key] as a number; 0 if it is none. */
double native_field(lua_State *L, int table, const char *key);

/* The quantity at a stack index; NULL if it is something else. */
const Quantity *native_quantity_at(lua_State *L, int index);

#endif
