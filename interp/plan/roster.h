/* roster.h - when a job's people, machines and areas may work: calendars in minutes since the job's first midnight.
 *
 * A shift begins on its days of the week, but for those on which its crew is away; minutes of a closed day are cut
 * out of it, as is what lies outside the site's hours. Nothing is open before the job's start. */
#ifndef PLAN_ROSTER_H
#define PLAN_ROSTER_H

#include "model/job.h"
#include "plan/calendar.h"
#include "plan/plan.h"

/* The caller frees each. `days` is how far the calendars reach, from the start day on. */
Calendar *roster_crew(const Job *job, const Crew *crew, int days);
/* The machine's own hours, on the days it is there. NULL: always. */
Calendar *roster_machine(const Job *job, const Machine *machine, int days);
/* Site hours and, where it has them, the area's own. */
Calendar *roster_area(const Job *job, const Area *area, int days);
/* The area's own hours alone: when its floor may be wet. NULL: always. */
Calendar *roster_floor(const Job *job, const Area *area, int days);

/* The most people with a skill that the weekly pattern of the shifts brings together; 0: nobody has it. */
int roster_people_at_once(const Job *job, const char *skill);
/* Are there ever so many? By the weekly pattern, as above. */
bool roster_team_exists(const Job *job, const Team *team);
/* When they are on shift together. */
Calendar *roster_team(const Job *job, const Team *team, int days);
bool roster_is_away(const Days *away, const Job *job, int day); /* a day of the job, 0 the first */
int roster_next_change(const Job *job, int minute); /* the next minute at which a crew's shift may begin or end */
bool roster_on_shift(const Job *job, const Crew *crew, int minute); /* site and closed days left aside */
int roster_shift_end(const Job *job, const Crew *crew, int minute); /* of the shift it is on; `minute` if on none */

/* The longest piece, in minutes; 0 for an empty calendar. A NULL calendar is endless. */
int roster_longest(const Calendar *calendar);

#endif
