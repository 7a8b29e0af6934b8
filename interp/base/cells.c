#include "base/cells.h"

#include <string.h>

#include "base/text.h"

static void put_character(Buf *out, const char *bytes, size_t length, uint32_t code)
{
  switch (code) {
  case '\\': buf_puts(out, "\\\\"); return;
  case '\t': buf_puts(out, "\\t"); return;
  case '\n': buf_puts(out, "\\n"); return;
  default: break;
  }
  if (code < 0x20 || (code >= 0x7F && code < 0xA0) || text_is_hidden(code)) buf_puts(out, "\uFFFD");
  else buf_add(out, bytes, length);
}

static void put_cell(Buf *out, const char *text)
{
  size_t left = strlen(text);
  while (left > 0) {
    uint32_t code = 0;
    size_t length = text_decode(text, left, &code);
    if (length > 0) put_character(out, text, length, code);
    else buf_puts(out, "\uFFFD");
    if (length == 0) length = 1;
    text += length;
    left -= length;
  }
}

void cells_add_list(Buf *out, const char *const *cells, int count)
{
  for (int i = 0; i < count; i++) {
    if (i > 0) buf_putc(out, '\t');
    put_cell(out, cells[i]);
  }
  buf_putc(out, '\n');
}

void cells_add(Buf *out, ...)
{
  const char *cells[CELLS_MOST], *cell;
  int count = 0;
  va_list args;
  va_start(args, out);
  while (count < CELLS_MOST && (cell = va_arg(args, const char *)) != NULL) cells[count++] = cell;
  va_end(args);
  cells_add_list(out, cells, count);
}

/* One character of a cell: what a backslash stands for, or itself. */
static const char *take_character(const char *at, const char *end, Buf *text)
{
  if (*at != '\\' || at + 1 == end) {
    buf_putc(text, *at);
    return at + 1;
  }
  buf_putc(text, at[1] == 't' ? '\t' : at[1] == 'n' ? '\n' : at[1]);
  return at + 2;
}

bool cells_next(const char **at, const char *end, Cells *line)
{
  size_t begins[CELLS_MOST];
  buf_clear(&line->text);
  line->count = 0;
  if (*at >= end) return false;
  begins[line->count++] = 0;
  while (*at < end && **at != '\n') {
    if (**at != '\t') {
      *at = take_character(*at, end, &line->text);
      continue;
    }
    if (line->count == CELLS_MOST) return false;
    buf_putc(&line->text, '\0');
    begins[line->count++] = line->text.length;
    (*at)++;
  }
  if (*at < end) (*at)++;
  buf_putc(&line->text, '\0');
  for (int i = 0; i < line->count; i++) line->cell[i] = line->text.text + begins[i];
  return true;
}

const char *cells_at(const Cells *line, int index) { return index < line->count ? line->cell[index] : ""; }

void cells_free(Cells *line) { buf_free(&line->text); }
