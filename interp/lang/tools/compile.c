/* compile.c - a build tool: compiles a file of the standard library, so that the program need not do it at each
 * start.
 *
 *     compile IN.lua OUT.luac NAME      NAME is what the host's findings call it (see lang/sandbox.h)
 *
 * Lua's own writer of bytecode, from the library that the program links. It leaves out lines and the names of
 * locals, a third of what every start would read; the chunk's name, by which the host knows its frames, is put back
 * in. */
#include <lauxlib.h>
#include <lua.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Where a function of Lua 5.4 without a name stands in bytecode: behind the header and the number of its upvalues,
 * an empty text. A short text is its length and one in seven bits, marked as the last of them, and its bytes. */
enum { NAME_AT = 32, LAST = 0x80, LONGEST = 120 };

static int write_bytes(lua_State *L, const void *bytes, size_t length, void *file)
{
  (void)L;
  return fwrite(bytes, 1, length, file) != length;
}

/* The bytecode of the function on the stack; the caller frees it. NULL if it cannot be had. */
static char *dump(lua_State *L, size_t *length)
{
  char *code = NULL;
  FILE *memory = open_memstream(&code, length);
  if (!memory) return NULL;
  int failed = lua_dump(L, write_bytes, memory, 1);
  return fclose(memory) == 0 && !failed ? code : NULL;
}

static int write_named(FILE *file, const char *code, size_t length, const char *name)
{
  size_t name_length = strlen(name);
  if (length <= NAME_AT || code[NAME_AT] != (char)LAST || name_length > LONGEST) return 0;
  return fwrite(code, 1, NAME_AT, file) == NAME_AT && fputc((int)(name_length + 1) | LAST, file) != EOF &&
         fwrite(name, 1, name_length, file) == name_length &&
         fwrite(code + NAME_AT + 1, 1, length - NAME_AT - 1, file) == length - NAME_AT - 1;
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
  const char *chunk = lua_pushfstring(L, "=\x02%s", name);
  if (luaL_loadbufferx(L, source, length, chunk, "t") != LUA_OK) return lua_error(L);
  char *code = dump(L, &length);
  FILE *file = fopen(out, "wb");
  int written = code && file && write_named(file, code, length, chunk);
  free(code);
  if (!file || fclose(file) != 0 || !written) return luaL_error(L, "cannot write %s", out);
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
