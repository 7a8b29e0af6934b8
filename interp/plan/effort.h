/* effort.h - minutes and quantities of one step on one area, each with its derivation.
 *
 * Field work follows trade/coverage.h: lanes over the outline, travel, turns, duty, set-up; half of the passes run
 * crosswise. A floor given only by its area is taken as a square for its lanes. Everything else is a rate over the
 * area, along the edges or joints, or a number of readings. In a job of several areas every field begins with
 * moving the machine there; a machine with a tank drives as often as water.h says. */
#ifndef PLAN_EFFORT_H
#define PLAN_EFFORT_H

#include <stdbool.h>

#include "base/arena.h"
#include "base/diag.h"
#include "model/job.h"

typedef struct {
  const Job *job;
  const Area *area;
  const Step *step;
  const Machine *machine; /* NULL: none */
  int bays;               /* surface and material work: reckoned for one of so many equal parts of the floor */
  Figure slurry_l;        /* collect: what there is to pick up; why 0: not known */
  Arena *arena;
  WhyBook *why;
  Diags *diags;
} Effort;

/* Minutes of machine work in lanes; needs a machine with a width. False if the trade refuses (a finding says
 * why). */
bool effort_field(const Effort *e, Figure *minutes);
Figure effort_edges(const Effort *e);
Figure effort_together(const Effort *e, Figure field, Figure along); /* both, by the same people */
/* Both at once: others follow a bay behind, a bay being what is done in `within`. */
Figure effort_following(const Effort *e, Figure field, Figure along, Figure within);
/* collect, clean; and one coat of a material, joints, repairs. */
Figure effort_surface(const Effort *e);
Figure effort_apply(const Effort *e);
Figure effort_readings(const Effort *e, Figure *minutes); /* how many, and their minutes */

Figure effort_material_l(const Effort *e); /* litres for one coat, with waste; spread at the window's low end */
Figure effort_water_l(const Effort *e);

#endif
