#include "cli/range.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A finite number at *text, which moves behind it. */
static bool number(const char **text, double *out)
{
  char *end;
  *out = strtod(*text, &end);
  bool found = end != *text && isfinite(*out);
  *text = end;
  return found;
}

bool range_read(const char *text, Range *out)
{
  const char *equals = strchr(text, '=');
  if (equals == NULL || equals == text) return false;
  Range range = { .name = text, .name_length = (int)(equals - text), .step = 1 };
  const char *at = equals + 1, *dots = strstr(at, "..");
  double until;
  if (dots == NULL) return false;
  char *end;
  range.from = strtod(at, &end);
  if (end == at || (end != dots && end != dots + 1)) return false; /* "4." is a number too */
  at = dots + 2;
  if (!number(&at, &until)) return false;
  if (*at == ':') {
    at++;
    if (!number(&at, &range.step)) return false;
  }
  while (*at == ' ') at++;
  range.unit = at;
  double count = (until - range.from) / range.step;
  if (!(range.step > 0) || !(count >= 0) || count >= RANGE_MOST) return false;
  range.count = (int)(count + 1e-9) + 1;
  *out = range;
  return true;
}

void range_value(const Range *range, int n, Buf *out)
{
  buf_printf(out, "%.10g%s%s", range->from + n * range->step, range->unit[0] ? " " : "", range->unit);
}

void range_setting(const Range *range, int n, Buf *out)
{
  buf_printf(out, "%.*s=", range->name_length, range->name);
  range_value(range, n, out);
}
