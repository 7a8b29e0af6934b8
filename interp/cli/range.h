/* range.h - values of one name to try in turn: "opening passes=4..12:2", "area.hall.joints=0..90:30 ft". */
#ifndef CLI_RANGE_H
#define CLI_RANGE_H

#include <stdbool.h>

#include "base/buf.h"

enum { RANGE_MOST = 200 };

typedef struct {
  const char *name; /* in the text that was read */
  int name_length;
  double from, step;
  int count;
  const char *unit; /* what stands behind the numbers; "" */
} Range;

/* The text must outlive the range. Without ":STEP" the step is 1. False if it is no range, or one of too many
 * values. */
bool range_read(const char *text, Range *out);

/* The n-th value from 0, as text with its unit; and as NAME=VALUE. */
void range_value(const Range *range, int n, Buf *out);
void range_setting(const Range *range, int n, Buf *out);

#endif
