/* expand_means.c - machines and people for the activities of a plan, and what to say where there are none. */
#include <string.h>

#include "plan/expansion.h"
#include "plan/roster.h"

enum { LOOK_DAYS = 28 };

/* ---- machines */

static bool suits(const Machine *m, const Step *step)
{
  if (step->machine) return strcmp(m->name, step->machine) == 0;
  return (m->does >> step->word & 1) && (!step->wet || m->wet);
}

/* About what one unit of a class takes for a step: enough to compare classes by. */
static double rough_minutes(const Machine *m, const Area *area, const Step *step)
{
  double floor_m2 = area->area_m2.value;
  if (m->width_m.given && m->travel_m_per_min.figure.value > 0)
    return floor_m2 * (step->passes.value > 0 ? step->passes.value : 1) /
           (m->width_m.figure.value * m->travel_m_per_min.figure.value);
  double rate = m->rate_m2_per_min.given ? m->rate_m2_per_min.figure.value : step->rate_m2_per_min.figure.value;
  return rate > 0 ? floor_m2 / rate : 0;
}

/* All that the class would do in the area if it does this step: the same tools stay on the same machine. */
static double rough_load(const Job *job, int class, const Area *area, const Step *like)
{
  const Machine *m = &job->machines[class];
  const Recipe *recipe = &job->recipes[area->recipe];
  double minutes = 0;
  for (int i = 0; i < recipe->step_count; i++) {
    const Step *s = &recipe->steps[i];
    bool alike = !s->machine && (like == NULL || (s->word == like->word && s->wet == like->wet));
    if (alike && suits(m, s)) minutes += rough_minutes(m, area, s);
  }
  return minutes / m->count;
}

static int preferred(const Job *job, const Area *area)
{
  for (int i = 0; area->machine && i < job->machine_count; i++)
    if (strcmp(job->machines[i].name, area->machine) == 0) return i;
  return -1;
}

/* Classes that areas ask for by name are busy there before any choice is made. */
void means_begin(Expansion *x)
{
  const Job *job = x->plan->job;
  x->load_min = arena_array(x->arena, (size_t)job->machine_count + 1, sizeof *x->load_min);
  x->chosen = arena_array(x->arena, 2 * STEP_WORDS, sizeof *x->chosen);
  for (int i = 0; i < job->area_count; i++) {
    int class = preferred(job, &job->areas[i]);
    if (class >= 0) x->load_min[class] += rough_load(job, class, &job->areas[i], NULL);
  }
}

void means_begin_area(Expansion *x)
{
  for (int i = 0; i < 2 * STEP_WORDS; i++) x->chosen[i] = -1;
}

/* Where several classes can do the work, the one that would be done with it first; the first written if equal. */
static int balanced(Expansion *x)
{
  const Job *job = x->plan->job;
  const Step *step = expansion_step(x);
  int best = -1;
  double best_min = 0;
  for (int i = 0; i < job->machine_count; i++) {
    if (!suits(&job->machines[i], step)) continue;
    double minutes = x->load_min[i] + rough_load(job, i, expansion_area(x), step);
    if (best < 0 || minutes < best_min) best = i, best_min = minutes;
  }
  if (best >= 0) x->load_min[best] = best_min;
  return best;
}

int means_machine(Expansion *x)
{
  const Job *job = x->plan->job;
  const Step *step = expansion_step(x);
  int *chosen = &x->chosen[2 * step->word + step->wet], named = preferred(job, expansion_area(x));
  for (int i = 0; step->machine && i < job->machine_count; i++)
    if (suits(&job->machines[i], step)) return i;
  if (step->machine) return -1;
  if (named >= 0 && suits(&job->machines[named], step)) return named;
  if (*chosen < 0) *chosen = balanced(x);
  return *chosen;
}

int means_edger(const Job *job)
{
  for (int i = 0; i < job->machine_count; i++)
    if (job->machines[i].edger) return i;
  return -1;
}

void means_refuse_machine(Expansion *x)
{
  const Step *step = expansion_step(x);
  const char *word = step_words[step->word].name, *wet = step->wet ? " wet" : "";
  Diag diag = { .level = DIAG_ERROR, .code = "machine", .at = step->at };
  diag.message = step->machine
    ? arena_printf(x->arena, "the job has no machine `%s` for step %s", step->machine, step->name)
    : arena_printf(x->arena, "no machine of the job can %s%s for step %s", word, wet, step->name);
  diag.help = arena_printf(x->arena, "add a machine with does = { \"%s\" }%s", word,
                           step->wet ? " and wet = true" : "");
  diags_add(x->diags, &diag);
}

Effort means_effort(const Expansion *x, int machine)
{
  const Job *job = x->plan->job;
  return (Effort){ .job = job, .area = expansion_area(x), .step = expansion_step(x), .bays = 1,
                   .machine = machine < 0 ? NULL : &job->machines[machine],
                   .arena = x->arena, .why = x->why, .diags = x->diags };
}

/* ---- people */

bool plan_crew_can(const Crew *crew, const char *skill)
{
  if (strcmp(skill, "any") == 0) return true;
  for (int i = 0; i < crew->skill_count; i++)
    if (strcmp(crew->skills[i], skill) == 0 || strcmp(crew->skills[i], "any") == 0) return true;
  return false;
}

void means_staff(Expansion *x, Activity *a, int people, const char *skill)
{
  const Job *job = x->plan->job;
  a->attended = true;
  a->people = people;
  a->skill = skill;
  Team team = plan_team(a);
  if (roster_team_exists(job, &team)) return;
  Diag diag = { .level = DIAG_ERROR, .code = "crew", .at = expansion_step(x)->at };
  diag.message = arena_printf(x->arena, "step %s needs %d with the skill `%s` at the same time, the job has %d",
                              expansion_step(x)->name, team.people, skill, roster_people_at_once(job, skill));
  if (team.also > 0)
    diag.message = arena_printf(x->arena, "step %s needs %d with the skill `%s` and %d more with `%s` who follow: the "
                                "job never has them together", expansion_step(x)->name, team.people, skill, team.also,
                                team.also_skill);
  diag.help = "give the skill to a crew of the job, or ask for fewer people in the step";
  diags_add(x->diags, &diag);
}

static int longest_for(const Expansion *x, const Activity *a)
{
  const Job *job = x->plan->job;
  const Area *area = expansion_area(x);
  Calendar *floor = a->attended ? roster_area(job, area, LOOK_DAYS) : roster_floor(job, area, LOOK_DAYS);
  Team team = plan_team(a);
  Calendar *people = a->attended ? roster_team(job, &team, LOOK_DAYS) : NULL;
  Calendar *machine = a->machine >= 0 ? roster_machine(job, &job->machines[a->machine], LOOK_DAYS) : NULL;
  Calendar *both = calendar_both(people, floor), *all = calendar_both(both, machine);
  int longest = roster_longest(all);
  Calendar *made[] = { people, floor, machine, both, all };
  for (size_t i = 0; i < sizeof made / sizeof *made; i++) calendar_free(made[i]);
  return longest;
}

bool means_fits(const Expansion *x, const Activity *a) { return a->duration_min <= longest_for(x, a); }

void means_refuse_too_long(Expansion *x, const Activity *a)
{
  if (a->breakable) return;
  Team team = plan_team(a);
  if (a->attended && !roster_team_exists(x->plan->job, &team)) return; /* said already */
  int longest = longest_for(x, a);
  if (a->duration_min <= longest) return;
  const Area *area = expansion_area(x);
  Diag diag = { .level = DIAG_ERROR, .code = "too-long", .at = a->at, .label_count = 1,
                .labels = { { area->has_hours ? area->hours.at : area->at, "in this area" } } };
  diag.message = arena_printf(x->arena, "%s takes %d min in one go, and %s more than %d min", a->id,
                              a->duration_min, a->attended ? "no shift leaves" : "the area is never closed for", longest);
  diag.help = a->attended ? "make the area smaller, spread faster, or lengthen the shift or the area's hours"
                          : "lengthen the area's hours, or work where nobody has to walk meanwhile";
  diags_add(x->diags, &diag);
}
