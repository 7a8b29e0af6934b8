/* split.h - what part of the price each area stands for, so that a client can be given a price an area.
 *
 * Every line is laid on the areas of the work behind it: wages by people x minutes, machines by minutes, tools
 * by floor, materials by litres, the rest by floor. A share of other lines follows those. The price then goes to
 * the areas in that proportion by the largest remainder, so that the parts add up to it. */
#ifndef COST_SPLIT_H
#define COST_SPLIT_H

#include "cost/price.h"

/* parts: one an area, in the job's order. False, parts untouched, where no line has an amount. */
bool split_by_area(const Plan *plan, const Cost *cost, Arena *arena, Money *parts);

/* Where each of those parts comes from: a node an area, over what of each kind of line lies on it. False, whys
 * untouched, as above. */
bool split_whys(const Plan *plan, const Cost *cost, Arena *arena, WhyBook *why, Why *whys);

#endif
