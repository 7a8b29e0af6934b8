/* temporal.h - what the lags alone imply: earliest and latest starts, and contradictions.
 *
 * Label correcting with a first-in-first-out queue (Bellman 1958, Ford 1956): every bound that moves is pushed
 * along its edges. Lags without calendars contradict each other exactly if the edges hold a cycle of positive
 * length; it is found in the graph of parents (Tarjan's remark, see Cherkassky and Goldberg, Math. Program. 85
 * (1999) 277-311). */
#ifndef PLAN_TEMPORAL_H
#define PLAN_TEMPORAL_H

#include "plan/instance.h"

/* Why there is no schedule: links that contradict each other, in the order of the chain, and the tasks whose own
 * release, deadline, fixed start or calendar takes part. With no tasks the links are a positive cycle. */
typedef struct {
  int *links, link_count;
  int *tasks, task_count;
} Contradiction;

void contradiction_free(Contradiction *c);

/* A cycle of lags that no start can satisfy, whatever the windows; false if there is none. */
bool temporal_find_cycle(const Instance *in, Contradiction *why);

/* Windows of starts that are kept tight while bounds are moved. */
typedef struct Windows Windows;

Windows *windows_new(const Instance *in);
void windows_free(Windows *w);
/* Begins again from these bounds (copied), nothing settled. */
void windows_reset(Windows *w, const int *earliest, const int *latest);
const int *windows_earliest(const Windows *w);
const int *windows_latest(const Windows *w);
void windows_raise(Windows *w, int task, int least); /* earliest[task] >= least */
void windows_lower(Windows *w, int task, int most);
/* Carries all moves on along lags and calendars. Returns -1, or a task whose window closed: then reset first. */
int windows_settle(Windows *w);
/* After windows_settle returned `closed`, where they have never gone back since the reset. */
void windows_explain(const Windows *w, int closed, Contradiction *why);
int64_t windows_work(const Windows *w); /* edges looked at so far */

/* How many bounds have moved since the reset; and back to where they were when it was so many. */
int windows_mark(const Windows *w);
void windows_back(Windows *w, int mark);
int windows_moved(const Windows *w, int move); /* the task whose bound moved so: move < windows_mark */

/* Tightest windows: on entry earliest[] and latest[] are bounds on starts, on success the least and greatest starts
 * that the lags and calendars leave. False: there is none, and *why (may be NULL) says why. */
bool temporal_tighten(const Instance *in, int *earliest, int *latest, Contradiction *why);

#endif
