/* text.c - decoding, escaping and laying out text. */
#include "base/text.h"

#include <string.h>

static bool is_continuation(char byte) { return ((unsigned char)byte & 0xC0) == 0x80; }

size_t text_decode(const char *bytes, size_t length, uint32_t *code)
{
  static const uint32_t smallest[] = { 0, 0, 0x80, 0x800, 0x10000 }; /* by bytes used */
  if (length == 0) return 0;
  unsigned char lead = (unsigned char)bytes[0];
  if (lead < 0x80) {
    *code = lead;
    return 1;
  }
  size_t used = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
  if (lead < 0xC2 || lead > 0xF4 || used > length) return 0;
  uint32_t value = lead & (0x7Fu >> used);
  for (size_t i = 1; i < used; i++) {
    if (!is_continuation(bytes[i])) return 0;
    value = value << 6 | ((unsigned char)bytes[i] & 0x3F);
  }
  bool surrogate = value >= 0xD800 && value <= 0xDFFF;
  if (value < smallest[used] || value > 0x10FFFF || surrogate) return 0;
  *code = value;
  return used;
}

bool text_is_utf8(const char *bytes, size_t length)
{
  uint32_t code;
  for (size_t at = 0, used; at < length; at += used) {
    used = text_decode(bytes + at, length - at, &code);
    if (used == 0) return false;
  }
  return true;
}

enum { BAD_BYTE_CELLS = 4 }; /* \xff */

size_t text_next(const char *bytes, size_t length, int *cells)
{
  uint32_t code;
  size_t used = text_decode(bytes, length, &code);
  *cells = used ? text_cells(code) : BAD_BYTE_CELLS;
  return used ? used : 1;
}

int text_width(const char *bytes, size_t length)
{
  int width = 0, cells;
  for (size_t at = 0; at < length; width += cells) at += text_next(bytes + at, length - at, &cells);
  return width;
}

static void escape_code(Buf *out, uint32_t code)
{
  static const char letters[] = { ['\t'] = 't', ['\n'] = 'n', ['\r'] = 'r' };
  if (code < sizeof letters && letters[code])
    buf_printf(out, "\\%c", letters[code]);
  else
    buf_printf(out, code < 0x80 ? "\\x%02x" : "\\u{%x}", (unsigned)code);
}

void text_escape(Buf *out, const char *bytes, size_t length)
{
  uint32_t code;
  for (size_t at = 0, used; at < length; at += used) {
    used = text_decode(bytes + at, length - at, &code);
    if (used == 0) {
      buf_printf(out, "\\x%02x", (unsigned char)bytes[at]);
      used = 1;
    } else if (text_is_hidden(code)) {
      escape_code(out, code);
    } else {
      buf_add(out, bytes + at, used);
    }
  }
}

static void pad(Buf *out, const char *text, int cells)
{
  int width = text_width(text, strlen(text));
  if (width < cells) buf_repeat(out, ' ', (size_t)(cells - width));
}

void text_left(Buf *out, const char *text, int cells)
{
  buf_puts(out, text);
  pad(out, text, cells);
}

void text_right(Buf *out, const char *text, int cells)
{
  pad(out, text, cells);
  buf_puts(out, text);
}

void text_fold(Buf *out, const char *text, int width, int indent)
{
  int at = indent;
  bool first = true;
  for (const char *word = text + strspn(text, " "); *word; word += strspn(word, " ")) {
    size_t length = strcspn(word, " ");
    int cells = text_width(word, length);
    if (!first && at + 1 + cells > width) {
      buf_putc(out, '\n');
      buf_repeat(out, ' ', (size_t)indent);
      at = indent;
    } else if (!first) {
      buf_putc(out, ' ');
      at++;
    }
    buf_add(out, word, length);
    at += cells;
    word += length;
    first = false;
  }
}
