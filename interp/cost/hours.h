/* hours.h - inside the take-off: what was booked, by person and by the day on which a shift begins. */
#ifndef COST_HOURS_H
#define COST_HOURS_H

#include "cost/takeoff.h"

/* The day on which the shift of this crew class begins that holds the minute, counted from the job's start day. */
int hours_shift_day(const Job *job, int crew, int minute);

/* The day a stretch counts for: of its first person; of the calendar where nobody attends. */
int hours_work_day(const Plan *plan, const Stretch *stretch);

typedef struct {
  long long worked, night, overtime, standing, call_out; /* minutes; call_out: paid beyond worked and standing */
  int days; /* persons times days on which they work */
} CrewMinutes;

/* Of all persons of a class in a scheduled plan. A minute booked twice for a person counts once. */
CrewMinutes hours_of_crew(const Plan *plan, int crew, Arena *arena);

#endif
