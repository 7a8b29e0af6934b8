/* profile.h - what is free of every resource at every minute, as an array of lanes (lanes.h). */
#ifndef PLAN_PROFILE_H
#define PLAN_PROFILE_H

#include "plan/instance.h"

typedef struct {
  const Instance *in;
  uint64_t *level; /* level[minute * words] */
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
