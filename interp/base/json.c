#include "base/json.h"

#include <assert.h>
#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"

enum { DEEPEST = sizeof ((JsonWriter *)0)->first / sizeof(bool) - 1 };

JsonWriter json_begin(Buf *out)
{
  JsonWriter j = { .out = out };
  j.first[0] = true;
  return j;
}

static void new_line(JsonWriter *j)
{
  buf_putc(j->out, '\n');
  buf_repeat(j->out, ' ', 2 * (size_t)j->depth);
}

/* RFC 8259, section 7: quotation mark, reverse solidus and the control characters must be escaped. DEL, C1
 * and what turns or hides text may be, and are, so that it is harmless on a terminal. */
static void put_code(Buf *out, uint32_t code, const char *bytes, size_t length)
{
  static const char letters[] = { ['\b'] = 'b', ['\t'] = 't', ['\n'] = 'n', ['\f'] = 'f', ['\r'] = 'r',
                                  ['"'] = '"',  ['\\'] = '\\' };
  if (code < sizeof letters && letters[code])
    buf_printf(out, "\\%c", letters[code]);
  else if (code <= 0xFFFF && text_is_hidden(code))
    buf_printf(out, "\\u%04x", (unsigned)code);
  else
    buf_add(out, bytes, length);
}

static void put_string(Buf *out, const char *text)
{
  static const char replacement[] = "\xEF\xBF\xBD"; /* U+FFFD */
  size_t length = strlen(text);
  uint32_t code;
  buf_putc(out, '"');
  for (size_t at = 0, used; at < length; at += used) {
    used = text_decode(text + at, length - at, &code);
    if (used) {
      put_code(out, code, text + at, used);
    } else {
      buf_puts(out, replacement);
      used = 1;
    }
  }
  buf_putc(out, '"');
}

/* What comes before a value: comma, line, key. */
static void begin_value(JsonWriter *j, const char *key)
{
  bool in_object = j->depth > 0 && !j->is_array[j->depth];
  assert(in_object == (key != NULL));
  assert(j->depth > 0 || j->first[0]); /* one value at the top */
  if (!j->first[j->depth]) buf_putc(j->out, ',');
  j->first[j->depth] = false;
  if (j->depth > 0) new_line(j);
  if (key == NULL) return;
  put_string(j->out, key);
  buf_puts(j->out, ": ");
}

static void open_value(JsonWriter *j, const char *key, bool is_array)
{
  begin_value(j, key);
  assert(j->depth < DEEPEST);
  j->depth++;
  j->first[j->depth] = true;
  j->is_array[j->depth] = is_array;
  buf_putc(j->out, is_array ? '[' : '{');
}

void json_object(JsonWriter *j, const char *key) { open_value(j, key, false); }

void json_array(JsonWriter *j, const char *key) { open_value(j, key, true); }

void json_end(JsonWriter *j)
{
  assert(j->depth > 0);
  bool was_empty = j->first[j->depth], was_array = j->is_array[j->depth];
  j->depth--;
  if (!was_empty) new_line(j);
  buf_putc(j->out, was_array ? ']' : '}');
}

void json_text(JsonWriter *j, const char *key, const char *text)
{
  if (text == NULL) {
    json_null(j, key);
    return;
  }
  begin_value(j, key);
  put_string(j->out, text);
}

void json_integer(JsonWriter *j, const char *key, int64_t value)
{
  begin_value(j, key);
  buf_printf(j->out, "%" PRId64, value);
}

void json_number(JsonWriter *j, const char *key, double value, int decimals)
{
  assert(decimals >= 0);
  if (!isfinite(value)) {
    json_null(j, key);
    return;
  }
  begin_value(j, key);
  size_t before = j->out->length;
  buf_printf(j->out, "%.*f", decimals, value);
  const char *written = j->out->text + before;
  bool is_minus_zero = *written == '-' && written[strspn(written, "-0.")] == '\0';
  if (!is_minus_zero) return;
  buf_cut(j->out, before);
  buf_printf(j->out, "%.*f", decimals, 0.0);
}

void json_decimal(JsonWriter *j, const char *key, int64_t value, int scale)
{
  char digits[24];
  assert(scale >= 0 && scale < (int)sizeof digits - 4);
  begin_value(j, key);
  uint64_t size = value < 0 ? 0 - (uint64_t)value : (uint64_t)value;
  int count = snprintf(digits, sizeof digits, "%0*" PRIu64, scale + 1, size); /* at least one before the point */
  if (value < 0) buf_putc(j->out, '-');
  buf_add(j->out, digits, (size_t)(count - scale));
  if (scale == 0) return;
  buf_putc(j->out, '.');
  buf_add(j->out, digits + count - scale, (size_t)scale);
}

void json_bool(JsonWriter *j, const char *key, bool value)
{
  begin_value(j, key);
  buf_puts(j->out, value ? "true" : "false");
}

void json_null(JsonWriter *j, const char *key)
{
  begin_value(j, key);
  buf_puts(j->out, "null");
}

void json_finish(JsonWriter *j)
{
  assert(j->depth == 0 && !j->first[0]);
  buf_putc(j->out, '\n');
}
