/* compile.c - a build tool: compiles a file of the standard library, so that the program need not do it at each start.
 *
 *     compile IN.lua OUT.luac NAME      NAME is what the host's findings call it (see lang/sandbox.h)
 *
 * Lua's own writer of bytecode, from the library that the program links. */
#include <lauxlib.h>
#include <lua.h>
#include <stdio.h>

static int write_bytes(lua_State *L, const void *bytes, size_t length, void *file)
{
  (void)L;
  return fwrite(bytes, 1, length, file) != length;
}

static int read_file(const char *name, luaL_Buffer *text)
{
  FILE *file = fopen(name, "rb");
  if (!file) return 0;
  for (size_t got = 1; got > 0;) {
    char *room = luaL_prepbuffer(text);
    got = fread(room, 1, LUAL_BUFFERSIZE, file);
    luaL_addsize(text, got);
  }
  return fclose(file) == 0;
}

static int compile(lua_State *L, const char *in, const char *out, const char *name)
{
  luaL_Buffer text;
  luaL_buffinit(L, &text);
  if (!read_file(in, &text)) return luaL_error(L, "cannot read %s", in);
  luaL_pushresult(&text);
  size_t length;
  const char *source = lua_tolstring(L, -1, &length);
  if (luaL_loadbufferx(L, source, length, lua_pushfstring(L, "=\x02%s", name), "t") != LUA_OK) return lua_error(L);
  FILE *file = fopen(out, "wb");
  if (!file) return luaL_error(L, "cannot write %s", out);
  int failed = lua_dump(L, write_bytes, file, 0);
  if (fclose(file) != 0 || failed) return luaL_error(L, "cannot write %s", out);
  return 0;
}

static int run(lua_State *L)
{
  return compile(L, lua_touserdata(L, 1), lua_touserdata(L, 2), lua_touserdata(L, 3));
}

int main(int argc, char **argv)
{
  if (argc != 4) return 2;
  lua_State *L = luaL_newstate();
  if (!L) return 1;
  lua_pushcfunction(L, run);
  for (int i = 1; i < 4; i++) lua_pushlightuserdata(L, argv[i]);
  int failed = lua_pcall(L, 3, 0, 0) != LUA_OK;
  if (failed) fprintf(stderr, "%s\n", lua_tostring(L, -1));
  lua_close(L);
  return failed;
}
