/* reckon.h - figures worked out again from other inputs, many times over.
 *
 * What `wanted` rests on is taken out of a why-book and laid out flat: a list of sums over an array of doubles,
 * with all that does not depend on the varied nodes already worked out. A run allocates nothing. */
#ifndef BASE_RECKON_H
#define BASE_RECKON_H

#include "base/why.h"

typedef struct Reckoning Reckoning;

/* The why-book may go afterwards. A node of value 0 among `wanted` stays 0. */
Reckoning *reckoning_new(const WhyBook *book, const Why *varied, int varied_count, const Why *wanted,
                         int wanted_count);
void reckoning_free(Reckoning *r); /* NULL is fine */

/* Does any wanted figure change with this varied one? */
bool reckoning_uses(const Reckoning *r, int varied);

/* An array for runs, by one thread at a time; mem_free it. The varied values are its first ones. */
double *reckoning_array(const Reckoning *r);
void reckoning_run(const Reckoning *r, double *array);
/* Where in the array a wanted figure stands after a run. */
int reckoning_place(const Reckoning *r, int wanted);

#endif
