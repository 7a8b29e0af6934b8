/* expansion.h - inside plan_expand: a plan while it grows, step by step and area by area. */
#ifndef PLAN_EXPANSION_H
#define PLAN_EXPANSION_H

#include "plan/effort.h"
#include "plan/plan.h"

enum { EXPANSION_ENDS = 4 };

/* What a step must wait for: the activities that end the one before, and a window that the next must start in. */
typedef struct {
  int activity[EXPANSION_ENDS];
  int count;
  int window_from; /* -1: no window */
  LagKind window_kind;
  int at_most;
  Span at;
} Ends;

typedef struct {
  Plan *plan;
  Arena *arena;
  WhyBook *why;
  Diags *diags;
  int activity_room, lag_room;
  int area, step;
  int done_step;    /* of this area: done together with a step before it; -1: none */
  Ends before;
  int *chosen;      /* by step word, dry then wet: the class that does it in this area, -1 not chosen yet */
  double *load_min; /* by machine class: what each unit of it has to do so far */
} Expansion;

/* ---- expand.c */

const Area *expansion_area(const Expansion *x);
const Step *expansion_step(const Expansion *x);
const Step *expansion_next(const Expansion *x, int *index); /* the next step of the area that is work; NULL: none */

/* `part` is kept: "" for a step that is one activity. */
Activity *expansion_add(Expansion *x, WorkKind kind, const char *part, Figure minutes);
int expansion_index(const Expansion *x, const Activity *activity);
void expansion_lag(Expansion *x, LagKind kind, int from, int to, int minutes, Span at);
void expansion_follow(Expansion *x, int to);        /* after what ends the step before, inside its window */
void expansion_follow_within(Expansion *x, int to); /* and inside the step's own `within` */
void expansion_end(Expansion *x, int activity);     /* what comes next waits for this one alone */
/* The clock alone, or one person who stays. Starts at once when `after` ends. */
int expansion_stay(Expansion *x, WorkKind kind, const char *part, Figure minutes, int after, bool watched);
/* One bay of a collect or clean step; bays 1 is the whole. False: no machine for it. */
bool expansion_surface(Expansion *x, int bay, int bays);
/* The step's `dry` after an activity that is the last end. */
void expansion_dry(Expansion *x, const char *part, int after);

/* ---- expand_material.c */

void expand_material(Expansion *x);

/* ---- expand_means.c: who and what does it, and refusals where nobody and nothing can */

void means_begin(Expansion *x);      /* before the first area */
void means_begin_area(Expansion *x);
int means_machine(Expansion *x);     /* class for the step, -1: none */
int means_edger(const Job *job);
void means_refuse_machine(Expansion *x);
void means_staff(Expansion *x, Activity *activity, int people, const char *skill);
bool means_fits(const Expansion *x, const Activity *activity); /* in one go, into some shift and the area's hours */
/* Work that may not pause must fit into a shift and the area's hours, a wait into the hours of the floor. */
void means_refuse_too_long(Expansion *x, const Activity *activity);
Effort means_effort(const Expansion *x, int machine);

#endif
