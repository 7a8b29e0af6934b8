/* plan.c - how long expansion and a first schedule take, and how they grow with the job.
 *
 * Made jobs of many rooms: a crew of six in two shifts, two planetaries of each size, slurry picked up along the
 * way, a densifier in bays, readings, weekends off. The work allowed is the least: what is measured is the way to
 * a first schedule with named people and slacks. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "unit/plan/made_job.h"

/* Of the processor: the machine may be busy. */
static double now_s(void)
{
  struct timespec t;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static Made *make(int rooms, bool two_shifts)
{
  Made *m = made_new(rooms);
  made_shift(m, "day", 7, 15, WEEKDAYS);
  made_shift(m, "late", 15, 23, WEEKDAYS);
  made_crew(m, "lead", 1, "any", 0);
  made_crew(m, "operator", 3, "machine", 0);
  made_crew(m, "late operator", 2, "any", two_shifts ? 1 : 0);
  made_step(m, STEP_CHECK, "survey");
  made_hone(m, "100", true)->edges = true;
  made_collect(m, "slurry 100", 8);
  made_hone(m, "200", true);
  made_collect(m, "slurry 200", 8);
  made_step(m, STEP_CLEAN, "wash")->dry_min = (Band){ .has_low = true, .low = { 60, 0 } };
  made_densify(m, 25, 45);
  made_hone(m, "400", false);
  made_step(m, STEP_CHECK, "sheen")->hold = true;
  for (int i = 0; i < MADE_MACHINES; i++) m->machines[i].count = 2;
  for (int i = 0; i < rooms; i++) {
    char name[16];
    snprintf(name, sizeof name, "room %d", i + 1);
    Area *a = made_area(m, arena_strdup(m->arena, name), 6 + i * 7 % 9, 5 + i * 5 % 7);
    a->edge_m = made_figure(20);
  }
  return m;
}

static void measure(int rooms, bool two_shifts)
{
  Made *m = make(rooms, two_shifts);
  double begin = now_s();
  Plan *plan = made_expand(m);
  double expanded = now_s();
  const PlanSearch least = { .work = 1 };
  plan_schedule(plan, &least, m->arena, m->diags);
  double done = now_s();
  if (plan->bookings == NULL) printf("no schedule of %d rooms\n", rooms);
  else
    printf("%6d activities %-10s expand %8.1f ms  schedule %9.1f ms  %6.1f days, bound %6.1f\n",
           plan->activity_count, two_shifts ? "two shifts" : "one shift", (expanded - begin) * 1000,
           (done - expanded) * 1000, (plan->finish - m->job.start_min) / (double)DAY_MIN,
           (plan->lower_bound - m->job.start_min) / (double)DAY_MIN);
  fflush(stdout);
  made_free(m);
}

int main(int argc, char **argv)
{
  int most = argc > 1 ? atoi(argv[1]) : 20000;
  for (int activities = argc > 2 ? atoi(argv[2]) : 20; activities <= most; activities *= 10)
    for (int shifts = 1; shifts <= 2; shifts++) measure(activities / 10, shifts == 2);
  return 0;
}
