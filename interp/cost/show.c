#include "cost/show.h"

#include <stdio.h>
#include <string.h>

void show_quantity(Buf *out, double value, const char *unit, Kind kind, bool metric)
{
  Quantity plain = quantity_of(value, unit), of_kind;
  QuantityError error;
  if (!quantity_as(&plain, kind, &of_kind, &error)) of_kind = plain;
  quantity_display(&of_kind, metric ? UNITS_METRIC : UNITS_US, 0, out);
}

const char *show_text(Arena *arena, double value, const char *unit, Kind kind, bool metric)
{
  Buf text = { 0 };
  show_quantity(&text, value, unit, kind, metric);
  const char *kept = arena_strndup(arena, buf_text(&text), text.length);
  buf_free(&text);
  return kept;
}

void show_number(Buf *out, double value, int decimals)
{
  size_t begin = out->length;
  buf_printf(out, "%.*f", decimals, value);
  if (decimals == 0) return;
  while (out->length > begin && out->text[out->length - 1] == '0') out->length--;
  if (out->length > begin && out->text[out->length - 1] == '.') out->length--;
  out->text[out->length] = '\0';
}
