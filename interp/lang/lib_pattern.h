/* lib_pattern.h - string.find, match, gmatch and gsub. */
#ifndef LANG_LIB_PATTERN_H
#define LANG_LIB_PATTERN_H

#include <lua.h>
#include <stddef.h>

int lib_find(lua_State *L);
int lib_match(lua_State *L);
int lib_gmatch(lua_State *L);
int lib_gsub(lua_State *L);

/* A position as scripts give it, from the end when negative, as an offset clipped to 0..length. */
size_t lib_offset(lua_Integer position, size_t length);

#endif
