/* serial.h - the serial generation scheme for any problem: one task after the other, by priority, at the earliest
 * start that windows, lags, calendars and resources leave.
 *
 * With maximum lags the earliest start a resource leaves may lie past the latest one the placed tasks leave. Then
 * the task's release is put off to that start for the rest of the run; lags carry the delay to tasks that had been
 * placed too early, and those, with all placed after them, are taken back. Franck, Neumann, Schwindt, OR Spektrum
 * 23 (2001) 297-324 (unscheduling), in a form that needs no distance matrix. Delays only grow, so it ends. Tasks
 * that a placed one holds by a maximum lag go before all others. */
#ifndef PLAN_SERIAL_H
#define PLAN_SERIAL_H

#include "plan/instance.h"

typedef struct Serial Serial;

/* earliest[] and latest[] are windows as temporal_tighten leaves them; they are copied. */
Serial *serial_new(const Instance *in, const int *earliest, const int *latest);
void serial_free(Serial *serial);

/* Builds one schedule: of the tasks whose predecessors are placed, that of the lowest priority[] goes first (ties:
 * the lower index). At most `restarts` times delays are added. False if that was not enough; then start[] is as
 * before. */
bool serial_run(Serial *serial, const int *priority, int restarts, int *start);

/* Counted steps since the beginning, for work limits. */
int64_t serial_work(const Serial *serial);

#endif
