/* naming.h - which named person does which stretch of a schedule.
 *
 * The schedule only promises that at every minute the people asked for can be told apart (Hall's condition). Going
 * through it in time, work under way keeps its people, and each piece of work that begins takes those who are free
 * and able and will be there to its end, the ones with the fewest skills first; where only busy ones are able,
 * somebody hands over to a free one (an augmenting path in the matching of places to people, Kuhn 1955), and the
 * stretch is cut there. Whoever goes home at the end of a shift hands over likewise. */
#ifndef PLAN_NAMING_H
#define PLAN_NAMING_H

#include <stdint.h>

#include "plan/plan.h"

enum { NAMING_MOST = 64 }; /* people of a job */

/* Bit i is Plan.persons[i]: those with a skill, in whatever shift. */
uint64_t naming_people_with(const Plan *plan, const char *skill);
uint64_t naming_on_shift(const Plan *plan, int minute);

/* Fills in the people of every stretch and booking of a scheduled plan; cuts stretches at hand-overs. */
void naming_people(Plan *plan, Arena *arena);

#endif
