#include "lang/complain.h"

#include <string.h>

#include "base/buf.h"

static Span span_of(const Complaints *c, Range at) { return (Span){ c->source, at.begin, at.end }; }

void complain_v(Complaints *c, Range at, const Advice *advice, const char *format, va_list args)
{
  Buf message = { 0 };
  buf_vprintf(&message, format, args);
  Diag diag = { .level = DIAG_ERROR, .code = "syntax", .message = buf_text(&message), .at = span_of(c, at),
                .help = advice->help, .fix = advice->fix, .fix_is_safe = advice->fix_is_safe };
  for (int i = 0; i < DIAG_LABELS; i++) {
    if (advice->labels[i].text == NULL) continue;
    diag.labels[diag.label_count++] = (DiagLabel){ span_of(c, advice->labels[i].at), advice->labels[i].text };
  }
  diags_add(c->diags, &diag);
  c->count++;
  buf_free(&message);
}

void complain(Complaints *c, Range at, Advice advice, const char *format, ...)
{
  va_list args;
  va_start(args, format);
  complain_v(c, at, &advice, format, args);
  va_end(args);
}

static bool is_continuation(char byte) { return ((unsigned char)byte & 0xC0) == 0x80; }

Quote complain_quote(const Complaints *c, Range at)
{
  Quote quote = { "" };
  size_t length = at.end - at.begin, room = sizeof quote.text - 4;
  const char *from = c->text + at.begin;
  bool cut = length > room;
  if (cut) length = room;
  for (size_t i = 0; i < length; i++) {
    if (from[i] != '\n' && from[i] != '\r') continue;
    length = i;
    cut = true;
  }
  while (cut && length > 0 && is_continuation(from[length])) length--;
  memcpy(quote.text, from, length);
  strcpy(quote.text + length, cut ? "..." : "");
  return quote;
}
