/* owning.h - what it costs to own a machine for an hour that it is on a job, whether it runs or not.
 *
 *   depreciation  = price x (1 - salvage) / life hours                       straight line
 *   average value = ((N - 1)(1 + salvage) + 2) / (2 N), N = life hours / hours a year
 *   capital       = price x average value x interest a year / hours a year
 *
 * The public owning-and-operating method (US Army Corps of Engineers, EP 1110-1-8): the first is confirmed
 * there, the form of the other two is from memory. Fuel, wear parts and repair are running costs and come on
 * top. */
#ifndef COST_OWNING_H
#define COST_OWNING_H

#include <stdbool.h>

typedef struct {
  double price;             /* above 0 */
  double salvage, interest; /* 0 .. 1, fractions */
  double life_h, year_h;    /* above 0, the life at least a year's hours */
} Owned;

typedef struct {
  double depreciation, average_value, capital; /* money/h, a fraction, money/h */
} Owning;

/* False, *out untouched, if a figure is out of range. */
bool owning_hour(const Owned *machine, Owning *out);

#endif
