/* roster.h - when a job's people and areas may work, as calendars in minutes since the job's first midnight.
 *
 * A shift begins on its days of the week; minutes of a closed day are cut out of it, as is what lies outside the
 * site's hours. Nothing is open before the job's start. */
#ifndef PLAN_ROSTER_H
#define PLAN_ROSTER_H

#include "model/job.h"
#include "plan/calendar.h"
#include "plan/plan.h"

/* The caller frees each. `days` is how far the calendars reach, from the start day on. */
Calendar *roster_shift(const Job *job, int shift, int days);
/* Site hours and, where it has them, the area's own. */
Calendar *roster_area(const Job *job, const Area *area, int days);
/* The area's own hours alone: when its floor may be wet. NULL: always. */
Calendar *roster_floor(const Job *job, const Area *area, int days);

/* The most people with a skill that the weekly pattern of the shifts brings together; 0: nobody has it. */
int roster_people_at_once(const Job *job, const char *skill);
/* When at least `people` with the skill are on shift. */
Calendar *roster_people(const Job *job, const char *skill, int people, int days);
int roster_next_change(const Job *job, int minute); /* the next minute at which a crew's shift may begin or end */
bool roster_on_shift(const Job *job, const Crew *crew, int minute); /* site and closed days left aside */

/* The longest piece, in minutes; 0 for an empty calendar. A NULL calendar is endless. */
int roster_longest(const Calendar *calendar);

#endif
