/* sound.h - a random problem as an instance, and a check that its starts are a schedule. */
#ifndef TESTS_UNIT_PLAN_SOUND_H
#define TESTS_UNIT_PLAN_SOUND_H

#include "plan/check.h"
#include "plan/temporal.h"

static inline void assert_sound(const Instance *in, const int *start)
{
  Schedule *s = instance_schedule(in, start);
  Buf breaches = { 0 };
  if (!check_schedule(in->problem, s, &breaches)) fail_msg("%s", buf_text(&breaches));
  buf_free(&breaches);
  schedule_free(s);
}

/* NULL: the lags and windows leave nothing. */
static inline Instance *tight_instance(const Problem *p)
{
  Instance *in = instance_new(p);
  if (temporal_tighten(in, in->earliest, in->latest, NULL)) return in;
  instance_free(in);
  return NULL;
}

#endif
