/* json.h - a streaming JSON writer: two-space indent, keys in the order given, numbers without exponent.
 *
 *   JsonWriter j = json_begin(&buf);
 *   json_object(&j, NULL); json_text(&j, "name", "lobby"); json_array(&j, "steps"); ... json_end(&j); json_end(&j);
 *   json_finish(&j);
 *
 * `key` is NULL inside arrays and at the top. Nesting is asserted. */
#ifndef BASE_JSON_H
#define BASE_JSON_H

#include <stdbool.h>
#include <stdint.h>

#include "base/buf.h"

typedef struct {
  Buf *out;
  int depth;
  bool first[64], is_array[64];
} JsonWriter;

JsonWriter json_begin(Buf *out);
void json_object(JsonWriter *j, const char *key);
void json_array(JsonWriter *j, const char *key);
void json_end(JsonWriter *j);
void json_text(JsonWriter *j, const char *key, const char *text); /* NULL writes null; bad UTF-8 becomes U+FFFD */
void json_integer(JsonWriter *j, const char *key, int64_t value);
void json_number(JsonWriter *j, const char *key, double value, int decimals); /* non-finite writes null */
void json_decimal(JsonWriter *j, const char *key, int64_t value, int scale);  /* value / 10^scale, exactly */
void json_bool(JsonWriter *j, const char *key, bool value);
void json_null(JsonWriter *j, const char *key);
void json_finish(JsonWriter *j); /* asserts that all is closed, adds the last line end */

#endif
