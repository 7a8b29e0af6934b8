/* passes.h - fast serial passes for problems without calendars, deadlines and maximum lags, and double justification.
 *
 * A pass takes a list of tasks, predecessors first, and places each as early (or, from the end, as late) as it fits.
 * Justifying a schedule to the right and then to the left never makes it longer and often shorter: V. Valls, F.
 * Ballestin, S. Quintanilla, EJOR 165 (2005) 375-386.
 *
 * Each task must wait for the one placed before it, and the processor with it: two passes side by side take little
 * longer than one. */
#ifndef PLAN_PASSES_H
#define PLAN_PASSES_H

#include "plan/ways.h"

/* Makes one pass at a time. */
typedef struct Pass Pass;

/* `ways` is borrowed and only read: any number may share them. */
Pass *pass_new(const Ways *ways);
void pass_free(Pass *pass);

/* All tasks by their keys, 0 up to the horizon, smallest first; among equal keys predecessors come first. */
void pass_order_by(Pass *pass, const int *key, int *list);

/* list[] has all tasks but the end, predecessors first. Writes start[] (the end's too); returns the makespan. */
int pass_left(Pass *pass, const int *list, int *start);
/* Moves a schedule to the right as far as its makespan; its first start then counts as 0. list[] becomes the order in
 * which the tasks finished before, last first. Returns the makespan that is left. */
int pass_right(Pass *pass, int *start, int *list);
/* Improves start[] by one pass to the right and one to the left; returns the makespan. list[] becomes the order in
 * which the last pass placed the tasks. */
int pass_justify(Pass *pass, int *start, int *list);

/* ---- side by side */

enum { PASS_SAME = -1 };

/* Of a pass to the left, where start[] is the schedule of a list like this one. */
typedef struct {
  int head; /* the first so many tasks are the same */
  int tail; /* from this place on they are the same again */
} PassLike;

/* Begins a pass, which is given up as soon as it must become longer than `most`. list[] and start[] are borrowed
 * until its result; `like` may be NULL. */
void pass_begin_left(Pass *pass, const int *list, const PassLike *like, int most, int *start);
void pass_begin_right(Pass *pass, int most, int *start, int *list);
/* Goes on with both, until one is over: returns it. Either may be NULL. */
Pass *pass_go_on(Pass *one, Pass *other);
/* The makespan; PASS_SAME if start[] is the schedule already; more than `most` if it was given up: start[] is then
 * of no use. */
int pass_result(Pass *pass);

/* Steps made so far. */
int64_t pass_work(const Pass *pass);

#endif
