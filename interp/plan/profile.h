/* profile.h - what is free of every resource at every minute, as an array of lanes (lanes.h).
 *
 * A search for a start leaps over blocks of minutes in none of which enough is free. What each block holds at most
 * is raised whenever something is given back, and lowered only when a search went through the block in vain. */
#ifndef PLAN_PROFILE_H
#define PLAN_PROFILE_H

#include "plan/instance.h"

typedef struct {
  const Instance *in;
  uint64_t *level; /* level[minute * words] */
  uint64_t *most;  /* most[block * words]: of each resource, never less than is free at some minute of the block */
  int minutes;     /* the array's length: grows with the latest use */
  int used;        /* nothing is taken at or after this minute */
} Profile;

Profile profile_new(const Instance *in);
void profile_free(Profile *profile);
void profile_clear(Profile *profile);

/* The first start in [from, latest] at which the task fits; CALENDAR_NEVER if there is none. */
int profile_earliest(Profile *profile, int task, int from, int latest);
void profile_take(Profile *profile, int task, int start);
void profile_give(Profile *profile, int task, int start);

#endif
