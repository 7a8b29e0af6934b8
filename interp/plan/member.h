/* member.h - one searcher of the portfolio: a way to better schedules or bounds, with all it needs for it.
 *
 * Members share nothing but the instance, so that several may run at once; what they know is exchanged between
 * their turns (see portfolio.h). */
#ifndef PLAN_MEMBER_H
#define PLAN_MEMBER_H

#include "plan/instance.h"
#include "plan/solve.h"

/* What is known of a problem. */
typedef struct {
  const Instance *in;
  int *start;   /* of the best schedule */
  bool found;   /* is there one? */
  bool closed;  /* nothing better can be found */
  int lower_bound;
} Known;

Known known_new(const Instance *in);
void known_free(Known *known);
/* CALENDAR_NEVER if there is no schedule yet. */
int known_makespan(const Known *known);
void known_raise(Known *known, int bound);
/* Takes a schedule if it is better, and ends within the horizon. */
bool known_offer(Known *known, const int *start);
void known_merge(Known *known, const Known *other);

typedef enum {
  MEMBER_GENETIC, /* lists of tasks, crossed; where passes do not apply */
  MEMBER_ANNEAL,  /* lists of tasks, changed step by step; where passes apply */
  MEMBER_LNS,     /* stretches of the best schedule, searched with learning */
  MEMBER_PROOF    /* the whole, searched with learning, from the best schedule down and from the bound up */
} MemberKind;

typedef struct {
  MemberKind kind;
  int population; /* GENETIC */
  uint64_t seed;
} MemberPlan;

/* Asked now and then. */
typedef struct {
  bool (*asked)(void *context);
  void *context;
} MemberStop;

typedef struct {
  int64_t work; /* counted steps */
  double gone;  /* the part of the whole run before this turn, 0 to 1 */
  MemberStop stop;
} MemberTurn;

typedef struct Member Member;

Member *member_new(const Instance *in, const MemberPlan *plan);
void member_free(Member *member);

bool member_applies(const Member *member);
/* Goes on from what is known. Returns the steps made. */
int64_t member_run(Member *member, const Known *known, const MemberTurn *turn);
/* Between turns of ANNEAL members: the one that is worst off goes on from the best schedule known. */
void members_select(Member *const *anneal, int count, const Known *known);
/* All that it was told and has found. */
const Known *member_known(const Member *member);

#endif
