#include "lang/lib_format.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "lang/sandbox.h"

/* One %-item: flags, width, precision (-1: none) and the letter. */
typedef struct {
  bool left, plus, blank, zeros;
  int width, precision;
  char letter;
} Spec;

static bool *flag_of(Spec *spec, char c)
{
  switch (c) {
  case '-': return &spec->left;
  case '+': return &spec->plus;
  case ' ': return &spec->blank;
  case '0': return &spec->zeros;
  default: return NULL;
  }
}

/* At most two digits. */
static int read_number(const char **at)
{
  int value = 0;
  for (int i = 0; i < 2 && isdigit((unsigned char)**at); i++) value = value * 10 + *(*at)++ - '0';
  return value;
}

/* Reads what follows a %. The text is NUL-terminated, so a broken item ends at the NUL. */
static const char *read_spec(const char *at, Spec *spec)
{
  *spec = (Spec){ .precision = -1 };
  for (bool *flag; (flag = flag_of(spec, *at)) != NULL; at++) *flag = true;
  spec->width = read_number(&at);
  if (*at == '.') {
    at++;
    spec->precision = read_number(&at);
  }
  spec->letter = *at;
  return *at ? at + 1 : at;
}

static void add_spaces(luaL_Buffer *out, int count)
{
  for (; count > 0; count--) luaL_addchar(out, ' ');
}

static void add_padded(luaL_Buffer *out, const Spec *spec, const char *text, size_t length)
{
  int room = spec->width > (int)length ? spec->width - (int)length : 0;
  if (!spec->left) add_spaces(out, room);
  luaL_addlstring(out, text, length);
  if (spec->left) add_spaces(out, room);
}

/* A sign, then `digits`, filled with zeros to `least` digits and, with the flag, to the width. */
static void add_signed(luaL_Buffer *out, const Spec *spec, bool negative, const char *digits, int least, bool fill)
{
  const char *sign = negative ? "-" : spec->plus ? "+" : spec->blank ? " " : "";
  int length = (int)strlen(digits), zeros = least > length ? least - length : 0;
  int room = spec->width - (int)strlen(sign) - zeros - length;
  if (fill && spec->zeros && !spec->left && room > 0) {
    zeros += room;
    room = 0;
  }
  if (!spec->left) add_spaces(out, room);
  luaL_addstring(out, sign);
  for (; zeros > 0; zeros--) luaL_addchar(out, '0');
  luaL_addstring(out, digits);
  if (spec->left) add_spaces(out, room);
}

static void add_integer(lua_State *L, luaL_Buffer *out, const Spec *spec, int argument)
{
  lua_Integer value = luaL_checkinteger(L, argument);
  bool is_signed = spec->letter == 'd' || spec->letter == 'i', negative = is_signed && value < 0;
  unsigned long long bits = negative ? 0 - (unsigned long long)value : (unsigned long long)value;
  char digits[32];
  switch (spec->letter) {
  case 'x': snprintf(digits, sizeof digits, "%llx", bits); break;
  case 'X': snprintf(digits, sizeof digits, "%llX", bits); break;
  case 'o': snprintf(digits, sizeof digits, "%llo", bits); break;
  default: snprintf(digits, sizeof digits, "%llu", bits);
  }
  Spec plain = *spec;
  if (!is_signed) plain.plus = plain.blank = false;
  add_signed(out, &plain, negative, digits, spec->precision, spec->precision < 0);
}

static void print_float(char *digits, size_t size, char letter, int precision, double value)
{
  switch (letter) {
  case 'e': snprintf(digits, size, "%.*e", precision, value); break;
  case 'E': snprintf(digits, size, "%.*E", precision, value); break;
  case 'f': snprintf(digits, size, "%.*f", precision, value); break;
  case 'g': snprintf(digits, size, "%.*g", precision, value); break;
  case 'G': snprintf(digits, size, "%.*G", precision, value); break;
  default: snprintf(digits, size, "%.*a", precision, value);
  }
}

static void add_float(lua_State *L, luaL_Buffer *out, const Spec *spec, int argument)
{
  double value = luaL_checknumber(L, argument);
  char digits[512]; /* DBL_MAX has 309 digits before the point */
  bool finite = isfinite(value), negative = !isnan(value) && signbit(value);
  int precision = spec->precision < 0 && spec->letter != 'a' ? 6 : spec->precision;
  if (isnan(value)) strcpy(digits, "nan");
  else print_float(digits, sizeof digits, spec->letter, precision, fabs(value));
  add_signed(out, spec, negative, digits, 0, finite);
}

static void add_text(lua_State *L, luaL_Buffer *out, const Spec *spec, int argument)
{
  size_t length;
  const char *text = lib_tostring(L, argument, &length);
  if (spec->precision >= 0 && length > (size_t)spec->precision) length = (size_t)spec->precision;
  lua_replace(L, argument); /* the buffer wants the top to itself */
  lib_charge_bytes(L, length);
  lib_check_length(L, luaL_bufflen(out) + length + 99);
  add_padded(out, spec, text, length);
}

static void add_quoted_byte(luaL_Buffer *out, unsigned char c, bool digit_follows)
{
  char code[8];
  if (c == '"' || c == '\\' || c == '\n') {
    luaL_addchar(out, '\\');
    luaL_addchar(out, (char)c);
  } else if (iscntrl(c)) {
    snprintf(code, sizeof code, digit_follows ? "\\%03d" : "\\%d", c);
    luaL_addstring(out, code);
  } else luaL_addchar(out, (char)c);
}

/* %q: a text or number as Lua would read it back */
static void add_quoted(lua_State *L, luaL_Buffer *out, int argument)
{
  size_t length;
  if (lua_type(L, argument) != LUA_TSTRING) {
    const char *text = lib_tostring(L, argument, &length);
    lua_replace(L, argument);
    luaL_addlstring(out, text, length);
    return;
  }
  const char *text = lua_tolstring(L, argument, &length);
  lib_charge_bytes(L, length);
  lib_check_length(L, luaL_bufflen(out) + 4 * length);
  luaL_addchar(out, '"');
  for (size_t i = 0; i < length; i++)
    add_quoted_byte(out, (unsigned char)text[i], isdigit((unsigned char)text[i + 1]));
  luaL_addchar(out, '"');
}

static void add_item(lua_State *L, luaL_Buffer *out, const Spec *spec, int argument)
{
  char byte;
  switch (spec->letter) {
  case 'c':
    byte = (char)luaL_checkinteger(L, argument);
    add_padded(out, spec, &byte, 1);
    break;
  case 'd': case 'i': case 'x': case 'X': case 'o': add_integer(L, out, spec, argument); break;
  case 'a': case 'e': case 'E': case 'f': case 'g': case 'G': add_float(L, out, spec, argument); break;
  case 's': add_text(L, out, spec, argument); break;
  case 'q': add_quoted(L, out, argument); break;
  default: luaL_error(L, "format: no such item as '%%%c'", spec->letter ? spec->letter : ' ');
  }
}

/* string.format(text, ...): %c %d %i %x %X %o %a %e %E %f %g %G %s %q %%, flags - + space 0 */
int lib_format(lua_State *L)
{
  size_t length;
  int argument = 1, count = lua_gettop(L);
  const char *at = luaL_checklstring(L, 1, &length), *end = at + length;
  luaL_Buffer out;
  Spec spec;
  lib_charge_bytes(L, length);
  luaL_buffinit(L, &out);
  while (at < end) {
    const char *percent = memchr(at, '%', (size_t)(end - at)), *stop = percent ? percent : end;
    lib_check_length(L, luaL_bufflen(&out) + (size_t)(stop - at));
    luaL_addlstring(&out, at, (size_t)(stop - at));
    if (!percent) break;
    at = read_spec(percent + 1, &spec);
    if (spec.letter == '%') luaL_addchar(&out, '%');
    else if (++argument > count) luaL_argerror(L, argument, "no value"); /* the buffer lies there */
    else add_item(L, &out, &spec, argument);
  }
  luaL_pushresult(&out);
  return 1;
}
