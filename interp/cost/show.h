/* show.h - a figure in SI as the job's people read it: "1,000 ft2" or "92.9 m2". */
#ifndef COST_SHOW_H
#define COST_SHOW_H

#include <stdbool.h>

#include "base/arena.h"
#include "base/buf.h"
#include "base/quantity.h"

/* Appends `value`, of the given SI unit and kind, in the preferred unit of that kind. */
void show_quantity(Buf *out, double value, const char *unit, Kind kind, bool metric);
/* The same as a string of the arena. */
const char *show_text(Arena *arena, double value, const char *unit, Kind kind, bool metric);

/* Appends a value with at most `decimals` decimals, none of them a trailing zero, and no exponent. */
void show_number(Buf *out, double value, int decimals);

#endif
