/* buf.h - text that grows. A zeroed Buf is an empty one; .text is NUL-terminated once anything was added. */
#ifndef BASE_BUF_H
#define BASE_BUF_H

#include <stdarg.h>
#include <stddef.h>

typedef struct {
  char *text;
  size_t length, room;
} Buf;

void buf_free(Buf *buf); /* leaves an empty Buf */
void buf_clear(Buf *buf);
void buf_cut(Buf *buf, size_t length); /* keeps the first `length` bytes, which are there */
void buf_add(Buf *buf, const char *bytes, size_t length);
void buf_puts(Buf *buf, const char *text);
void buf_putc(Buf *buf, char c);
void buf_repeat(Buf *buf, char c, size_t times);
void buf_printf(Buf *buf, const char *format, ...) __attribute__((format(printf, 2, 3)));
void buf_vprintf(Buf *buf, const char *format, va_list args) __attribute__((format(printf, 2, 0)));
const char *buf_text(const Buf *buf); /* "" when empty; valid until the next change */

#endif
