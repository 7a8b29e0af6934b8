/* expand_material.c - steps that put something on the floor: coats, bays, dwell, re-wetting, removal, drying.
 *
 * The first of a bay lies wet from the start of spreading, the last for the whole dwell: a window between(low,
 * high) leaves high - low minutes to spread in. What takes longer is spread in bays, one after the other, by the
 * same crew; where nothing dries between, the step that takes the material off follows bay by bay. */
#include <math.h>

#include "plan/expansion.h"

enum { BAYS_MOST = 99 };

typedef struct {
  int coat, coats, bay, bays;
} Bay;

static const char *part_name(const Expansion *x, const char *part, Bay p)
{
  if (p.coats > 1) part = arena_printf(x->arena, "%s %d", part, p.coat);
  return p.bays > 1 ? arena_printf(x->arena, "%s bay %d", part, p.bay) : part;
}

/* Repairs, joints and grout are handwork that can stop; a sprayed film cannot. */
static bool can_pause(StepWord word) { return word == STEP_GROUT || word == STEP_FILL || word == STEP_PATCH; }

/* How many bays the dwell window asks for; 0: none would be small enough (a finding says so). */
static int bays_for(Expansion *x, double spreading_min)
{
  const Band *dwell = &expansion_step(x)->dwell_min;
  if (!dwell->has_high || can_pause(expansion_step(x)->word)) return 1;
  double room = dwell->high.value - (dwell->has_low ? dwell->low.value : 0);
  if (spreading_min <= room + 1e-9) return 1;
  double bays = room >= 1 ? ceil(spreading_min / room - 1e-9) : HUGE_VAL;
  if (bays <= BAYS_MOST) return (int)bays;
  Diag diag = { .level = DIAG_ERROR, .code = "bays", .at = dwell->at };
  diag.message = arena_printf(x->arena,
                              "the dwell window of step %s leaves %g min to spread a bay in, %s takes %.0f min",
                              expansion_step(x)->name, room, expansion_area(x)->name, spreading_min);
  diag.help = "widen the window, spread faster, or put more people on it";
  diags_add(x->diags, &diag);
  return 0;
}

/* Spreads one bay. Whatever comes next must have started before the first of it has lain too long. */
static int spread(Expansion *x, Bay p)
{
  const Step *step = expansion_step(x);
  Effort e = means_effort(x, -1);
  e.bays = p.bays;
  Activity *a = expansion_add(x, WORK_APPLY, part_name(x, "coat", p), effort_apply(&e));
  a->breakable = can_pause(step->word);
  a->material = effort_material_l(&e);
  means_staff(x, a, (int)step->people.value, step->skill);
  means_refuse_too_long(x, a);
  int index = expansion_index(x, a);
  if (p.coat == 1 && p.bay == 1) expansion_follow_within(x, index);
  else expansion_follow(x, index);
  expansion_end(x, index);
  return index;
}

static int dwell(Expansion *x, Bay p, int applied)
{
  const Step *step = expansion_step(x);
  const Band *band = &step->dwell_min;
  if (!band->has_low && !band->has_high) return applied;
  Figure low = band->has_low ? band->low : (Figure){ 0, band->high.why };
  int index = expansion_stay(x, WORK_DWELL, part_name(x, "dwell", p), low, applied, step->keep_wet);
  expansion_end(x, index);
  if (!band->has_high) return index;
  bool by_hand = can_pause(step->word); /* the first of it is not kept in mind over a pause */
  x->before.window_from = by_hand ? index : applied;
  x->before.window_kind = by_hand ? LAG_FS_MAX : LAG_SS_MAX;
  x->before.at_most = (int)floor(band->high.value - (by_hand ? low.value : 0) + 1e-9);
  x->before.at = band->at;
  return index;
}

/* The step that takes the material off again, where it must follow each bay; its index, or -1. */
static int removal_of(const Expansion *x, int bays)
{
  int index;
  const Step *next = expansion_next(x, &index);
  bool dries = expansion_step(x)->dry_min.has_low || expansion_step(x)->dry_min.has_high;
  return bays > 1 && !dries && next && step_words[next->word].family == FAMILY_SURFACE ? index : -1;
}

static void remove_bay(Expansion *x, Bay p, int removal)
{
  int step = x->step;
  x->step = removal;
  x->done_step = removal;
  expansion_surface(x, p.bay, p.bays);
  if (p.bay == p.bays) expansion_dry(x, "dry", x->before.activity[0]);
  x->step = step;
}

/* The next bay does not wait for this one's drying, which ends before its own. */
static void dry_meanwhile(Expansion *x, Bay p, int after)
{
  const Band *dry = &expansion_step(x)->dry_min;
  if (dry->has_low) expansion_stay(x, WORK_REST, part_name(x, "dry", p), dry->low, after, false);
  x->before.window_from = -1;
}

static void coat(Expansion *x, int number, int coats)
{
  Effort e = means_effort(x, -1);
  int bays = bays_for(x, effort_apply(&e).value), last = -1;
  int removal = number == coats ? removal_of(x, bays) : -1;
  for (int bay = 1; bay <= bays; bay++) {
    Bay p = { number, coats, bay, bays };
    last = dwell(x, p, spread(x, p));
    if (removal >= 0) remove_bay(x, p, removal);
    else if (bay < bays) dry_meanwhile(x, p, last);
  }
  Bay whole = { number, coats, bays, bays };
  if (last >= 0 && removal < 0) expansion_dry(x, part_name(x, "dry", whole), last);
}

void expand_material(Expansion *x)
{
  const Step *step = expansion_step(x);
  if (step->word == STEP_FILL && expansion_area(x)->joint_m.value <= 0) return; /* no joints in this area */
  int coats = step->coats.why ? (int)step->coats.value : 1;
  for (int i = 1; i <= coats; i++) coat(x, i, coats);
}
