#include "base/buf.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#include "base/mem.h"

static void make_room(Buf *buf, size_t more)
{
  if (buf->room - buf->length > more) return;
  size_t room = buf->room ? buf->room : 64;
  while (room - buf->length <= more) room *= 2;
  buf->text = mem_grow(buf->text, room, 1);
  buf->room = room;
}

void buf_free(Buf *buf)
{
  mem_free(buf->text);
  *buf = (Buf){ 0 };
}

void buf_cut(Buf *buf, size_t length)
{
  assert(length <= buf->length);
  buf->length = length;
  if (buf->text) buf->text[length] = '\0';
}

void buf_clear(Buf *buf) { buf_cut(buf, 0); }

void buf_add(Buf *buf, const char *bytes, size_t length)
{
  make_room(buf, length);
  if (length) memcpy(buf->text + buf->length, bytes, length);
  buf->length += length;
  buf->text[buf->length] = '\0';
}

void buf_puts(Buf *buf, const char *text) { buf_add(buf, text, strlen(text)); }

void buf_putc(Buf *buf, char c) { buf_add(buf, &c, 1); }

void buf_repeat(Buf *buf, char c, size_t times)
{
  make_room(buf, times);
  memset(buf->text + buf->length, c, times);
  buf->length += times;
  buf->text[buf->length] = '\0';
}

void buf_vprintf(Buf *buf, const char *format, va_list args)
{
  va_list again;
  va_copy(again, args);
  int length = vsnprintf(NULL, 0, format, again);
  va_end(again);
  make_room(buf, (size_t)length);
  vsnprintf(buf->text + buf->length, (size_t)length + 1, format, args);
  buf->length += (size_t)length;
}

void buf_printf(Buf *buf, const char *format, ...)
{
  va_list args;
  va_start(args, format);
  buf_vprintf(buf, format, args);
  va_end(args);
}

const char *buf_text(const Buf *buf) { return buf->text ? buf->text : ""; }
